import { BOARD_COMMANDS } from '../board/board-commands.ts';
import { COMMANDS, keyText } from '../workspace/commands.ts';
import { session } from '../workspace/session.ts';
import { isMac } from './platform.ts';

/** A command as the palette lists it. */
export interface Listed {
  readonly id: string;
  readonly label: string;
  /** As shown: `Ctrl+Z`; empty for none. */
  readonly key: string;
  readonly run: () => void;
}

/** Every command that can be run now, the app's first, from the same lists as menus, buttons and keys. */
export function commandsNow(): readonly Listed[] {
  const state = session.getState();
  const app = COMMANDS.filter(({ enabled }) => enabled(state)).map(
    ({ name, label, keys, run }): Listed => ({
      id: name,
      label: name.startsWith('go-to-') ? `Go to ${label(state)}` : label(state),
      key: keys[0] === undefined ? '' : keyText(keys[0], isMac()),
      run: () => void run(),
    }),
  );
  if (state.place !== 'block') return app;
  const onBoard = BOARD_COMMANDS.filter(({ enabled }) => enabled()).map(
    ({ name, label, keys, run }): Listed => ({ id: `board-${name}`, label, key: boardKeyText(keys[0]), run }),
  );
  return [...app, ...onBoard];
}

/** A key of the board as it is shown; the plus sign is itself a key. */
export const boardKeyText = (key: string | undefined): string =>
  key === undefined ? '' : key.startsWith('Mod+') ? keyText(key, isMac()) : key;

/**
 * The commands that a few letters mean, the best first: words that begin with them, then words that hold them. Every
 * word typed must be found.
 */
export function matching(commands: readonly Listed[], typed: string): readonly Listed[] {
  const words = typed.toLowerCase().split(/\s+/).filter(Boolean);
  if (words.length === 0) return commands;
  return commands
    .map((one) => ({ one, rank: rankOf(one.label.toLowerCase(), words) }))
    .filter(({ rank }) => rank !== null)
    .toSorted((a, b) => a.rank! - b.rank!)
    .map(({ one }) => one);
}

/** 0 the best, null where a word is not found. */
function rankOf(label: string, words: readonly string[]): number | null {
  let rank = 0;
  for (const word of words) {
    const at = label.indexOf(word);
    if (at < 0) return null;
    const begins = at === 0 || !/[a-z0-9]/.test(label[at - 1]!);
    const later = label.split(/[^a-z0-9°]+/).some((part) => part.startsWith(word));
    rank += at === 0 ? 0 : begins || later ? 1 : 2;
  }
  return rank;
}

import { phrase } from '../words/phrase.ts';
import { type Command, commandForKey, isLetterKey, type KeyPress, keyText } from '../workspace/command.ts';
import { COMMANDS } from '../workspace/commands.ts';
import { letterKeys } from '../workspace/letter-keys.ts';
import { session } from '../workspace/session.ts';
import { GO_TO_PLACES, placeNamed } from './places.ts';
import { isMac } from './platform.ts';
import { openWindowDialog, windowDialog } from './window-dialog.ts';

/** What can be asked of the window itself. */
const OF_THE_WINDOW: readonly Command[] = [
  {
    name: 'palette',
    label: () => phrase('Find a command…'),
    keys: ['Mod+k'],
    whileTyping: true,
    // It is no command to find by itself.
    enabled: () => windowDialog.getState().open === null,
    run: () => openWindowDialog('palette'),
  },
  {
    name: 'help',
    label: () => phrase('Help'),
    keys: ['?'],
    enabled: () => true,
    run: () => openWindowDialog('help'),
  },
  {
    name: 'projects',
    label: () => phrase('Projects…'),
    keys: ['Mod+Alt+o'],
    whileTyping: true,
    enabled: () => true,
    run: () => openWindowDialog('projects'),
  },
  {
    name: 'earlier-states',
    label: () => phrase('Earlier states…'),
    keys: [],
    enabled: () => true,
    run: () => openWindowDialog('earlier'),
  },
  {
    name: 'share',
    label: () => phrase('Share…'),
    keys: [],
    enabled: () => true,
    run: () => openWindowDialog('share'),
  },
];

/** What can be done in every place. */
export const EVERYWHERE: readonly Command[] = [...OF_THE_WINDOW, ...COMMANDS, ...GO_TO_PLACES];

/** What can be done in the place in sight alone. */
const hereNow = (): readonly Command[] => placeNamed(session.getState().place).commands;

/** Where the keyboard is when a key is pressed. */
export interface Whereabouts {
  /** In a field that takes what is typed. */
  readonly isTyping: boolean;
  /** At a drawing, or at what tells it what to do: letters of its place mean something there, and nowhere else. */
  readonly isAtDrawing: boolean;
}

/**
 * Runs the command that a key press stands for. True when the press is used up: a key of the whole app is, even with
 * nothing to do, or the browser would do something else by it; a key of one place goes on to the browser then.
 */
export function runByKey(press: KeyPress, { isTyping, isAtDrawing }: Whereabouts): boolean {
  const state = session.getState();
  const listens = ({ whileTyping }: Command): boolean => !isTyping || whileTyping === true;
  const { isOn } = letterKeys.getState();
  const anywhere = commandForKey(EVERYWHERE, press, (keyed) => isOn || !isLetterKey(keyed));
  const asked =
    anywhere !== null && listens(anywhere)
      ? anywhere
      : commandForKey(hereNow(), press, (keyed) => (isOn && isAtDrawing) || !isLetterKey(keyed));
  if (asked === null || !listens(asked)) return false;
  const isEnabled = asked.enabled(state);
  if (isEnabled) void asked.run();
  return isEnabled || asked === anywhere;
}

/** A command as the palette lists it. */
export interface Listed {
  readonly id: string;
  readonly label: string;
  /** As shown: `Ctrl+Z`; empty for none. */
  readonly key: string;
  readonly run: () => void;
}

/** Every command that can be run now, those of the whole app first. */
export function commandsNow(): readonly Listed[] {
  const state = session.getState();
  const listed =
    (where: string) =>
    ({ name, label, keys, run }: Command): Listed => ({
      id: `${where}-${name}`,
      label: label(state),
      key:
        keys[0] === undefined || (isLetterKey(keys[0]) && !letterKeys.getState().isOn)
          ? ''
          : keyText(keys[0], isMac()),
      run: () => void run(),
    });
  const isEnabled = ({ enabled }: Command): boolean => enabled(state);
  return [
    ...EVERYWHERE.filter(isEnabled).map(listed('app')),
    ...hereNow().filter(isEnabled).map(listed('here')),
  ];
}

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

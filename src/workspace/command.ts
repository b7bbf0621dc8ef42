import type { Session } from './session.ts';

/** Something that can be done, as data: menus, buttons, keys, the palette and the help all read it. */
export interface Command {
  readonly name: string;
  /** As a menu or button shows it; some say what they would do to the work at hand. */
  readonly label: (state: Session) => string;
  /**
   * Keys that run it, the one to show first: `Mod+Shift+z`, where `Mod` is Ctrl, or Cmd on a Mac. A single sign,
   * `V` or `+`, is that sign however the keyboard makes it.
   */
  readonly keys: readonly string[];
  /** Its keys also work while a person types in a field, where undo and delete are the field's own. */
  readonly whileTyping?: boolean;
  /** Its keys are not listened for: the browser's own event brings it, with what is in the clipboard. */
  readonly byEvent?: boolean;
  readonly enabled: (state: Session) => boolean;
  readonly run: () => void | Promise<void>;
}

/** What a key press needs to show; a DOM KeyboardEvent has it all. */
export interface KeyPress {
  readonly key: string;
  /** The key's place on the keyboard, for digits that Alt turns into other signs. */
  readonly code: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly shiftKey: boolean;
  readonly altKey: boolean;
}

/** The command of a list that a key press stands for, enabled or not; null for none. Only keys that are listened for. */
export const commandForKey = <Some extends Command>(
  commands: readonly Some[],
  press: KeyPress,
  isListened: (keyed: string) => boolean = () => true,
): Some | null =>
  commands.find(
    ({ keys, byEvent }) =>
      byEvent !== true && keys.some((keyed) => isPressed(keyed, press) && isListened(keyed)),
  ) ?? null;

/** Whether a press is the key named: `Mod+Shift+z`. */
export function isPressed(keyed: string, press: KeyPress): boolean {
  // Which keys write a sign is the keyboard's own affair.
  if (keyed.length === 1)
    return !press.ctrlKey && !press.metaKey && !press.altKey && keyed === press.key.toUpperCase();
  const parts = keyed.split('+');
  const key = parts.at(-1) ?? '';
  return (
    parts.includes('Mod') === (press.ctrlKey || press.metaKey) &&
    parts.includes('Shift') === press.shiftKey &&
    parts.includes('Alt') === press.altKey &&
    // With Alt a keyboard may give other signs than those on the key, so its place counts too.
    (press.key.toLowerCase() === key.toLowerCase() ||
      (press.altKey && (press.code === `Digit${key}` || press.code === `Key${key.toUpperCase()}`)))
  );
}

/** Whether a key writes something: a letter, a digit or a sign, with nothing held but Shift. */
export const isLetterKey = (keyed: string): boolean => /^(Shift\+)?.$/.test(keyed);

/** A key as menus show it: `Ctrl+Shift+Z`, or `⇧⌘Z` on a Mac. */
export function keyText(keyed: string, isMac: boolean): string {
  if (keyed.length === 1) return keyed;
  const parts = keyed.split('+');
  const key = parts.at(-1) ?? '';
  const shown = key.length === 1 ? key.toUpperCase() : key;
  const has = (part: string) => parts.includes(part);
  if (isMac) return `${has('Alt') ? '⌥' : ''}${has('Shift') ? '⇧' : ''}${has('Mod') ? '⌘' : ''}${shown}`;
  return [
    ...(has('Mod') ? ['Ctrl'] : []),
    ...(has('Alt') ? ['Alt'] : []),
    ...(has('Shift') ? ['Shift'] : []),
    shown,
  ].join('+');
}

/** A key of one part of a screen, such as a list or the board, while that part has the keyboard. */
export interface PartKey<Here = void> {
  /** The key as the help shows it. */
  readonly shown: string;
  readonly does: string;
  /** Does it, given where in the part the keyboard is; false where the press is another key's. None: told in the help only. */
  readonly run?: (press: KeyPress, here: Here) => boolean;
}

/** What a key does where a press is meant for it; an act that answers false leaves the press to others. */
export const when =
  <Here>(isMeant: (press: KeyPress) => boolean, act: (press: KeyPress, here: Here) => unknown) =>
  (press: KeyPress, here: Here): boolean =>
    isMeant(press) && act(press, here) !== false;

/** Carries out a key of a part. False when it is none of them. */
export const takeKey = <Here>(keys: readonly PartKey<Here>[], press: KeyPress, here: Here): boolean =>
  keys.some(({ run }) => run?.(press, here) === true);

/** Keys of one part of a screen under the name the help gives it. */
export interface PartKeys {
  readonly title: string;
  readonly keys: readonly Pick<PartKey, 'shown' | 'does'>[];
}

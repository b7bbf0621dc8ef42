import { zoomBy, zoomToFit } from './looking.ts';
import { TOOLS } from './tools/tools.ts';
import { stepGrid, takeUp } from './working.ts';

/** What the board can be told to do, wherever the keyboard is in the Block place. */
export interface BoardCommand {
  readonly name: string;
  readonly label: string;
  /** Single keys that run it, the one to show first. */
  readonly keys: readonly string[];
  readonly run: () => void;
}

const ZOOM_STEP = 1.25;

/** Every command of the board, once: its buttons, its keys and the help read this list. */
export const BOARD_COMMANDS: readonly BoardCommand[] = [
  ...TOOLS.map(({ name, label, key }) => ({ name, label, keys: [key], run: () => takeUp(name) })),
  { name: 'zoom-in', label: 'Zoom in', keys: ['+', '='], run: () => zoomBy(ZOOM_STEP) },
  { name: 'zoom-out', label: 'Zoom out', keys: ['-'], run: () => zoomBy(1 / ZOOM_STEP) },
  { name: 'zoom-fit', label: 'Fit the sheet', keys: ['0'], run: zoomToFit },
  { name: 'finer-grid', label: 'Finer grid', keys: ['['], run: () => stepGrid('finer') },
  { name: 'coarser-grid', label: 'Coarser grid', keys: [']'], run: () => stepGrid('coarser') },
];

export function boardCommand(name: string): BoardCommand {
  const found = BOARD_COMMANDS.find((one) => one.name === name);
  if (found === undefined) throw new Error(`The board has no command named ${name}.`);
  return found;
}

/** Runs the command a key stands for. False when there is none. */
export function runBoardCommand({
  key,
  ctrlKey,
  metaKey,
  altKey,
}: Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'altKey'>): boolean {
  if (ctrlKey || metaKey || altKey) return false;
  const command = BOARD_COMMANDS.find(({ keys }) => keys.includes(key.toUpperCase()));
  command?.run();
  return command !== undefined;
}

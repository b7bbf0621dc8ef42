import { isTyped } from '../editing/typing.ts';
import { placeWords } from '../editing/words.ts';
import { isPressed } from '../workspace/command.ts';
import { session, undoLabel } from '../workspace/session.ts';
import { board, onEmptySheet } from './board-state.ts';
import { jump, moveCrosshair, pressCrosshair, type StepSize } from './crosshair.ts';
import { nudge } from './nudge.ts';
import { busy, cancel, deleteChosen, send, takeUp, tell, typedNow } from './working.ts';

/** A key of the board and what it does, as the help shows it. */
export interface BoardKey {
  readonly keys: string;
  readonly does: string;
}

/** Keys that work while the board has the keyboard. */
export const BOARD_KEYS: readonly BoardKey[] = [
  { keys: 'Arrows', does: 'Move the crosshair by the grid' },
  { keys: 'Shift + arrows', does: 'Move it by a quarter of the grid' },
  { keys: 'Ctrl + arrows', does: 'Move it by four steps of the grid' },
  { keys: 'N, P', does: 'Jump to the next or previous corner, cut end or crossing' },
  { keys: 'Enter', does: 'Begin or end a cut, set a corner, lay fabric, pick up or put down' },
  { keys: '0 … 9, Tab', does: 'While a line runs: type its length, then its angle; Enter ends it' },
  { keys: 'T', does: 'With Cut or Outline: type a place, how far across, Tab, how far down; Enter sets it' },
  { keys: 'Alt + arrows', does: 'Move what is chosen by the grid; with Shift by a quarter of it' },
  { keys: 'Backspace', does: 'Take the last sign typed, or the last corner of an outline, back' },
  { keys: 'Delete', does: 'Delete what is chosen' },
  { keys: 'Esc', does: 'Cancel what is begun, or choose nothing' },
  { keys: 'Space + drag', does: 'Move the sheet' },
  { keys: 'Shift while drawing', does: 'Keep the line to steps of 15°' },
  { keys: 'Alt while dragging', does: 'Nothing catches the pointer, and an end leaves its joint' },
];

const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** Carries out a key pressed on the board. False when it is none of the board's. */
export function boardKey(event: KeyboardEvent): boolean {
  if (typingKey(event)) return true;
  // Undo with nothing to undo takes back what is begun.
  if (isPressed('Mod+z', event) && busy() && undoLabel(session.getState()) === null) return stepBack();
  const arrow = ARROWS[event.key];
  if (arrow !== undefined && event.altKey && !event.metaKey && !event.ctrlKey) {
    nudge(...arrow, event.shiftKey ? 'finer' : 'grid');
    return true;
  }
  if (arrow !== undefined && !event.altKey && !event.metaKey) {
    const size: StepSize = event.shiftKey ? 'finer' : event.ctrlKey ? 'coarser' : 'grid';
    moveCrosshair(...arrow, size);
    return true;
  }
  if (event.ctrlKey || event.metaKey || event.altKey) return false;
  switch (event.key) {
    case 'n':
    case 'N':
      jump(1);
      return true;
    case 'p':
    case 'P':
      jump(-1);
      return true;
    case 'Enter':
      if (board.getState().crosshair === null && busy()) send({ kind: 'finish' });
      else pressCrosshair();
      return true;
    case 'Backspace':
      if (busy()) {
        send({ kind: 'back' });
        return true;
      }
      return deleteChosen();
    case 'Delete':
      return deleteChosen();
    case 'Escape':
      return stepBack();
    default:
      return false;
  }
}

/** Keys that write a length and an angle, or a place. Tab is one only once something is typed. */
function typingKey({ key, ctrlKey, metaKey, altKey }: KeyboardEvent): boolean {
  const typed = typedNow();
  if (ctrlKey || metaKey || altKey) return false;
  const isWriting = typeof typed === 'object' && typed !== null;
  if (isWriting && key === 'Tab') send({ kind: 'next' });
  else if (isWriting && key === 'Enter') endTyping();
  else if (isTyped(typed, key)) send({ kind: 'type', sign: key });
  else return false;
  return true;
}

/** Enter after numbers: where the drawing goes on, the crosshair, if it is in use, goes along. */
function endTyping(): void {
  const { marks, crosshair } = board.getState();
  const typed = marks.find((mark) => mark.kind === 'typed');
  send({ kind: 'finish' });
  if (busy() && crosshair !== null && typed !== undefined && typed.error === null)
    board.setState({
      crosshair: { at: typed.at, words: placeWords(typed.at, session.getState().project.unit) },
    });
}

/** Esc takes back step by step: what is begun, then what is chosen, then the crosshair. */
function stepBack(): boolean {
  if (cancel()) {
    tell('Cancelled.');
    return true;
  }
  if (onEmptySheet(board.getState())) {
    takeUp('select');
    return true;
  }
  const { chosen, crosshair } = board.getState();
  if (chosen !== null) {
    board.setState({ chosen: null });
    return true;
  }
  if (crosshair !== null) {
    board.setState({ crosshair: null, marks: [] });
    return true;
  }
  return false;
}

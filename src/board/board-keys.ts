import { isTyped } from '../editing/typing.ts';
import { placeWords } from '../editing/words.ts';
import { phrase } from '../words/phrase.ts';
import { isPressed, type KeyPress, type PartKey, when } from '../workspace/command.ts';
import { session, undoLabel } from '../workspace/session.ts';
import { chooseNothing } from './board-acts.ts';
import { announce, board, onEmptySheet } from './board-state.ts';
import { jump, moveCrosshair, pressCrosshair, type StepSize } from './crosshair.ts';
import { nudge } from './nudge.ts';
import { openMenuHere } from './pointer-menu.ts';
import { busy, cancel, send, takeUp, typedNow } from './tool-in-hand.ts';

const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

const isPlain = ({ ctrlKey, metaKey, altKey }: KeyPress): boolean => !ctrlKey && !metaKey && !altKey;

/** A key with nothing held but Shift, which some keyboards need for a sign. */
const isNamed =
  (name: string) =>
  (press: KeyPress): boolean =>
    press.key.toUpperCase() === name.toUpperCase() && isPlain(press);

/** What an arrow does while certain keys are held. */
const onArrow =
  (isHeld: (press: KeyPress) => boolean, act: (dx: number, dy: number, press: KeyPress) => void) =>
  (press: KeyPress): boolean => {
    const arrow = ARROWS[press.key];
    if (arrow === undefined || press.metaKey || !isHeld(press)) return false;
    act(...arrow, press);
    return true;
  };

const step =
  (size: StepSize) =>
  (dx: number, dy: number): void =>
    moveCrosshair(dx, dy, size);

const toNext = when<void>(isNamed('N'), () => jump(1));
const toPrevious = when<void>(isNamed('P'), () => jump(-1));

/** Keys that work while the board has the keyboard; of two that a press could be, the first. */
export const BOARD_KEYS: readonly PartKey[] = [
  {
    shown: '0 … 9, Tab',
    does: phrase('While a line runs: type its length, then its angle; Enter ends it'),
    run: (press) => isPlain(press) && typeKey(press.key),
  },
  {
    shown: 'T',
    does: phrase(
      'With Line, Chain or Outline: type a place, how far across, Tab, how far down; Enter sets it',
    ),
  },
  {
    shown: 'Arrows',
    does: phrase('Move the crosshair by the grid'),
    run: onArrow(({ shiftKey, ctrlKey, altKey }) => !shiftKey && !ctrlKey && !altKey, step('grid')),
  },
  {
    shown: phrase('Shift + arrows'),
    does: phrase('Move it by a quarter of the grid'),
    run: onArrow(({ shiftKey, altKey }) => shiftKey && !altKey, step('finer')),
  },
  {
    shown: phrase('Ctrl + arrows'),
    does: phrase('Move it by four steps of the grid'),
    run: onArrow(({ ctrlKey, shiftKey, altKey }) => ctrlKey && !shiftKey && !altKey, step('coarser')),
  },
  {
    shown: 'N, P',
    does: phrase('Jump to the next or previous corner, line end or crossing'),
    run: (press) => toNext(press) || toPrevious(press),
  },
  {
    shown: 'Enter',
    does: phrase('Begin or end a line, set a corner, lay fabric, pick up or put down'),
    run: when(isNamed('Enter'), () => {
      if (board.getState().crosshair === null && busy()) send({ kind: 'finish' });
      else pressCrosshair();
    }),
  },
  {
    shown: phrase('Alt + arrows'),
    does: phrase('Move what is chosen by the grid; with Shift by a quarter of it'),
    run: onArrow(
      ({ altKey, ctrlKey }) => altKey && !ctrlKey,
      (dx, dy, { shiftKey }) => nudge(dx, dy, shiftKey ? 'finer' : 'grid'),
    ),
  },
  {
    shown: 'Backspace',
    does: phrase('Take the last sign typed, or the last corner of an outline, back'),
    run: when(isNamed('Backspace'), () => {
      if (!busy()) return false;
      return send({ kind: 'back' });
    }),
  },
  {
    shown: 'Esc',
    does: phrase('Cancel what is begun, or choose nothing'),
    run: when((press) => isNamed('Escape')(press) || isUndoOfBegun(press), stepBack),
  },
  {
    shown: phrase('Menu, Shift + F10'),
    does: phrase('What can be done with what is chosen, or at the crosshair'),
    run: when(({ key, shiftKey }) => key === 'ContextMenu' || (key === 'F10' && shiftKey), openMenuHere),
  },
  { shown: phrase('Space + drag'), does: phrase('Move the sheet') },
  { shown: phrase('Shift while drawing'), does: phrase('Keep the line to steps of 15°') },
  {
    shown: phrase('Alt while dragging'),
    does: phrase('No snapping, and an end comes free of what it meets'),
  },
];

/** Keys that write a length and an angle, or a place. Tab is one only once something is typed. */
function typeKey(key: string): boolean {
  const typed = typedNow();
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

/** Undo with nothing to undo takes back what is begun. */
const isUndoOfBegun = (press: KeyPress): boolean =>
  isPressed('Mod+z', press) && busy() && undoLabel(session.getState()) === null;

/** Esc takes back step by step: what is begun, then what is chosen, then the crosshair. */
function stepBack(): boolean {
  if (cancel()) {
    announce(phrase('Cancelled.'));
    return true;
  }
  if (onEmptySheet(board.getState())) {
    takeUp('select');
    return true;
  }
  const { chosen, crosshair } = board.getState();
  if (chosen !== null || session.getState().selection.length > 0) {
    chooseNothing();
    return true;
  }
  if (crosshair !== null) {
    board.setState({ crosshair: null, marks: [] });
    return true;
  }
  return false;
}

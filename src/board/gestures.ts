import type { Point } from '../geometry/point.ts';
import { say } from '../workspace/actions.ts';
import { board } from './board-state.ts';
import { toBoard } from './camera.ts';
import { pan, zoomBy } from './camera-acts.ts';
import { dropWork, workInFrame } from './frame.ts';
import type { Mark, Pointer, ToolEvent } from './tools/tool.ts';
import { type BeforePress, beforePress, cancel, closeForm, send, takeBackPress } from './working.ts';

/** Marks of something begun or measured, which stay when the pointer goes away. */
const LASTING: ReadonlySet<Mark['kind']> = new Set(['line', 'outline', 'measure', 'typed']);

/** What one finger, pen or mouse button is doing. */
interface Touch {
  readonly id: number;
  readonly screen: Point;
}

/** The press that draws, and how things stood before it. */
interface Press {
  readonly id: number;
  readonly before: BeforePress;
}

/** So long after a pen was last near, a touch is taken for the hand that holds it: it draws nothing. Milliseconds. */
const HAND_RESTS_MS = 1000;

/**
 * Turns the browser's pointer, wheel and touch events on an element into events of the tool in hand and moves of
 * the camera. Moves are handed on once a frame, the newest only. While a pen is down, touches are ignored; soon after
 * it they only move the sheet, two at a time. A press that is taken away (a second finger, a pen after the palm, the
 * window left) takes back what it began and nothing before it. Returns a function that lets go of the element.
 */
export function listenTo(element: HTMLElement, spaceHeld: () => boolean): () => void {
  /** Fingers on the board, in the order they came down. */
  let touches: readonly Touch[] = [];
  /** Touches of a resting hand. */
  const resting = new Set<number>();
  let drawing: Press | null = null;
  let penDown: number | null = null;
  let penSeenAt = Number.NEGATIVE_INFINITY;
  let panning: Touch | null = null;
  let waiting: ToolEvent | null = null;

  const placeOf = (event: MouseEvent): Point => {
    const box = element.getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  };
  const pointerOf = (event: PointerEvent): Pointer => {
    const screen = placeOf(event);
    const { camera, adds, steps, free } = board.getState();
    return {
      at: toBoard(camera, screen),
      screen,
      adds: event.shiftKey || adds,
      steps: event.shiftKey || steps,
      free: event.altKey || event.ctrlKey || free,
    };
  };

  const flush = (): void => {
    dropWork(flush);
    const event = waiting;
    waiting = null;
    if (event !== null) send(event);
  };
  const later = (event: ToolEvent): void => {
    waiting = event;
    workInFrame(flush);
  };

  /** Takes the running press back. True when it had begun something. */
  const takeBack = (): boolean => {
    const press = drawing;
    drawing = null;
    if (press === null) return false;
    waiting = null;
    return takeBackPress(press.before);
  };

  /** Whoever holds a pen rests the hand beside it: its touches are not meant. */
  const onPen = (event: PointerEvent): void => {
    penDown = event.pointerId;
    for (const { id } of touches) resting.add(id);
    touches = [];
    if (drawing !== null && resting.has(drawing.id)) takeBack();
  };

  const isHandAtRest = (event: PointerEvent): boolean => event.timeStamp - penSeenAt < HAND_RESTS_MS;

  const onDown = (event: PointerEvent): void => {
    if (event.pointerType === 'touch' && penDown !== null) {
      resting.add(event.pointerId);
      return;
    }
    if (event.pointerType === 'pen') {
      penSeenAt = event.timeStamp;
      onPen(event);
    }
    element.focus({ preventScroll: true });
    if (board.getState().held) cancel();
    closeForm();
    board.setState({ crosshair: null, isFinger: event.pointerType === 'touch' });
    element.setPointerCapture(event.pointerId);
    const screen = placeOf(event);
    if (event.pointerType === 'touch') {
      touches = [...touches, { id: event.pointerId, screen }];
      if (touches.length === 2) {
        // A second finger means the sheet is to be moved: what the first one began is taken back.
        takeBack();
        return;
      }
      if (touches.length > 2 || isHandAtRest(event)) return;
    }
    if (event.button === 1 || (event.button === 0 && spaceHeld())) {
      event.preventDefault();
      panning = { id: event.pointerId, screen };
      element.dataset.panning = 'true';
      return;
    }
    if (event.button !== 0 || drawing !== null) return;
    flush();
    drawing = { id: event.pointerId, before: beforePress() };
    const pointer = pointerOf(event);
    send({ kind: 'move', pointer });
    send({ kind: 'down', pointer });
  };

  const onMove = (event: PointerEvent): void => {
    if (resting.has(event.pointerId)) return;
    if (event.pointerType === 'pen') penSeenAt = event.timeStamp;
    if (event.pointerType !== 'touch') {
      if (board.getState().isFinger) board.setState({ isFinger: false });
      // Let go where the window could not see it.
      if (drawing?.id === event.pointerId && event.buttons === 0) {
        onLost(event);
        return;
      }
    }
    const screen = placeOf(event);
    if (panning?.id === event.pointerId) {
      pan(screen[0] - panning.screen[0], screen[1] - panning.screen[1]);
      panning = { id: event.pointerId, screen };
      return;
    }
    if (touches.length >= 2) {
      pinch(event.pointerId, screen);
      return;
    }
    if (event.pointerType === 'touch') {
      if (drawing?.id !== event.pointerId) return;
      touches = [{ id: event.pointerId, screen }];
    }
    if (drawing !== null && drawing.id !== event.pointerId) return;
    later({ kind: 'move', pointer: pointerOf(event) });
  };

  /** Two fingers move and scale the sheet so that the places under them stay under them. */
  const pinch = (id: number, screen: Point): void => {
    const [a, b] = touches;
    const moved = touches.map((touch) => (touch.id === id ? { id, screen } : touch));
    const [c, d] = moved;
    touches = moved;
    if (a === undefined || b === undefined || c === undefined || d === undefined) return;
    const before = Math.hypot(a.screen[0] - b.screen[0], a.screen[1] - b.screen[1]);
    const after = Math.hypot(c.screen[0] - d.screen[0], c.screen[1] - d.screen[1]);
    const middleBefore: Point = [(a.screen[0] + b.screen[0]) / 2, (a.screen[1] + b.screen[1]) / 2];
    const middleAfter: Point = [(c.screen[0] + d.screen[0]) / 2, (c.screen[1] + d.screen[1]) / 2];
    pan(middleAfter[0] - middleBefore[0], middleAfter[1] - middleBefore[1]);
    if (before > 0) zoomBy(after / before, middleAfter);
  };

  const forget = (event: PointerEvent): void => {
    touches = touches.filter(({ id }) => id !== event.pointerId);
    resting.delete(event.pointerId);
    if (penDown === event.pointerId) penDown = null;
    if (event.pointerType === 'pen') penSeenAt = event.timeStamp;
  };

  const onUp = (event: PointerEvent): void => {
    forget(event);
    if (panning?.id === event.pointerId) {
      panning = null;
      delete element.dataset.panning;
      return;
    }
    if (drawing?.id !== event.pointerId) return;
    drawing = null;
    flush();
    send({ kind: 'up', pointer: pointerOf(event) });
  };

  /** The browser took the pointer away: nothing was meant. */
  const onLost = (event: PointerEvent): void => {
    forget(event);
    if (panning?.id === event.pointerId) {
      panning = null;
      delete element.dataset.panning;
    }
    if (drawing?.id === event.pointerId) lose();
  };

  const lose = (): void => {
    if (takeBack()) say('trouble', 'The pointer was lost on the way. The drawing is as it was before.');
  };

  /** Whoever leaves the window in the middle of a press did not mean it. */
  const onAway = (): void => {
    if (document.hidden || !document.hasFocus()) lose();
  };

  const onLeave = (event: PointerEvent): void => {
    if (drawing !== null || event.pointerType === 'touch') return;
    flush();
    // Marks under a pointer that has gone away are left for what is begun, and cleared for what is not.
    board.setState(({ marks }) => ({
      marks: marks.some(({ kind }) => LASTING.has(kind)) ? marks : [],
    }));
  };

  const onWheel = (event: WheelEvent): void => {
    event.preventDefault();
    const unit =
      event.deltaMode === WheelEvent.DOM_DELTA_LINE
        ? 16
        : event.deltaMode === WheelEvent.DOM_DELTA_PAGE
          ? 400
          : 1;
    if (event.shiftKey) {
      pan(-(event.deltaX + event.deltaY) * unit, 0);
      return;
    }
    // A trackpad's pinch comes as a wheel with Ctrl, in far smaller steps.
    const strength = event.ctrlKey ? 0.01 : 0.0016;
    zoomBy(Math.exp(-event.deltaY * unit * strength), placeOf(event));
  };

  const noMenu = (event: Event): void => event.preventDefault();
  const doubled = (): void => send({ kind: 'finish' });

  window.addEventListener('blur', onAway);
  document.addEventListener('visibilitychange', onAway);

  element.addEventListener('pointerdown', onDown);
  element.addEventListener('pointermove', onMove);
  element.addEventListener('pointerup', onUp);
  element.addEventListener('pointercancel', onLost);
  element.addEventListener('lostpointercapture', onLost);
  element.addEventListener('pointerleave', onLeave);
  element.addEventListener('wheel', onWheel, { passive: false });
  element.addEventListener('contextmenu', noMenu);
  element.addEventListener('dblclick', doubled);
  return () => {
    dropWork(flush);
    window.removeEventListener('blur', onAway);
    document.removeEventListener('visibilitychange', onAway);
    element.removeEventListener('pointerdown', onDown);
    element.removeEventListener('pointermove', onMove);
    element.removeEventListener('pointerup', onUp);
    element.removeEventListener('pointercancel', onLost);
    element.removeEventListener('lostpointercapture', onLost);
    element.removeEventListener('pointerleave', onLeave);
    element.removeEventListener('wheel', onWheel);
    element.removeEventListener('contextmenu', noMenu);
    element.removeEventListener('dblclick', doubled);
  };
}

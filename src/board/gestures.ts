import type { Point } from '../geometry/point.ts';
import { distance, middle } from '../geometry/ring.ts';
import { phrase } from '../words/phrase.ts';
import { say } from '../workspace/actions.ts';
import { closeForm } from './board-acts.ts';
import { board } from './board-state.ts';
import { toBoard } from './camera.ts';
import { pan, zoomBy } from './camera-acts.ts';
import { dropWork, workInFrame } from './frame.ts';
import { openMenuAt } from './pointer-menu.ts';
import { type BeforePress, beforePress, cancel, send, takeBackPress } from './tool-in-hand.ts';
import type { Mark, Pointer, ToolEvent } from './tools/tool.ts';

/** Marks of something begun or measured, which stay when the pointer goes away. */
const LASTING: ReadonlySet<Mark['kind']> = new Set(['line', 'outline', 'measure', 'typed']);

/** Marks under a pointer that has gone away are left for what is begun, and cleared for what is not. */
const clearPassing = (): void =>
  board.setState(({ marks }) => ({ marks: marks.some(({ kind }) => LASTING.has(kind)) ? marks : [] }));

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

/** CSS pixels to one unit of a wheel's turn, by its mode: pixels, lines, pages. */
const WHEEL_PX: readonly number[] = [1, 16, 400];

/** A finger held so long asks for the menu, unless it moves further than this. */
const HOLD_MS = 500;
const STILL_PX = 10;

/** So long after a pen was last near, a touch is taken for the hand that holds it: it draws nothing. Milliseconds. */
const HAND_RESTS_MS = 1000;

/**
 * Turns the browser's pointer, wheel and touch events on an element into events of the tool in hand and moves of
 * the camera. Moves are handed on once a frame, the newest only. While a pen is down, touches are ignored; soon after
 * it they only move the sheet, two at a time. A press that is taken away (a second finger, a pen after the palm, the
 * window left) takes back what it began and nothing before it. Returns a function that lets go of the element.
 */
export function listenTo(element: HTMLElement, spaceHeld: () => boolean): () => void {
  const hands = new Hands(element, spaceHeld);
  const listening = new AbortController();
  const { signal } = listening;
  window.addEventListener('blur', hands.away, { signal });
  document.addEventListener('visibilitychange', hands.away, { signal });
  element.addEventListener('pointerdown', hands.down, { signal });
  element.addEventListener('pointermove', hands.move, { signal });
  element.addEventListener('pointerup', hands.up, { signal });
  element.addEventListener('pointercancel', hands.lost, { signal });
  element.addEventListener('lostpointercapture', hands.lost, { signal });
  element.addEventListener('pointerleave', hands.leave, { signal });
  element.addEventListener('wheel', hands.wheel, { signal, passive: false });
  element.addEventListener('contextmenu', hands.asked, { signal });
  element.addEventListener('dblclick', () => send({ kind: 'finish' }), { signal });
  return () => {
    hands.rest();
    listening.abort();
  };
}

/** All pointers on the board and what each of them is doing. */
class Hands {
  readonly #element: HTMLElement;
  readonly #spaceHeld: () => boolean;
  /** Fingers on the board, in the order they came down. */
  #touches: readonly Touch[] = [];
  /** Touches of a resting hand. */
  readonly #resting = new Set<number>();
  #drawing: Press | null = null;
  #penDown: number | null = null;
  #penSeenAt = Number.NEGATIVE_INFINITY;
  #panning: Touch | null = null;
  #holding: ReturnType<typeof setTimeout> | undefined;
  /** Where a finger came down that may be held to ask for the menu. */
  #heldAt: Point | null = null;
  /** Where the finger that draws lies now. */
  #finger: Point | null = null;
  /** The newest move, for the next frame. */
  #waiting: ToolEvent | null = null;

  constructor(element: HTMLElement, spaceHeld: () => boolean) {
    this.#element = element;
    this.#spaceHeld = spaceHeld;
  }

  /** Drops a move that has not been handed on. */
  readonly rest = (): void => {
    dropWork(this.#flush);
    this.#letGoOfHold();
  };

  readonly down = (event: PointerEvent): void => {
    const { pointerType, pointerId, button } = event;
    if (pointerType === 'touch' && this.#penDown !== null) {
      this.#resting.add(pointerId);
      return;
    }
    if (pointerType === 'pen') this.#takePen(event);
    this.#element.focus({ preventScroll: true });
    if (board.getState().held) cancel();
    closeForm();
    board.setState({ crosshair: null, isFinger: pointerType === 'touch' });
    this.#element.setPointerCapture(pointerId);
    if (pointerType === 'touch' && !this.#isForDrawing(event)) return;
    if (button === 1 || (button === 0 && this.#spaceHeld())) {
      event.preventDefault();
      this.#panning = { id: pointerId, screen: this.#placeOf(event) };
      this.#element.dataset.panning = 'true';
      return;
    }
    if (button === 0 && this.#drawing === null) this.#press(event);
  };

  readonly move = (event: PointerEvent): void => {
    const { pointerType, pointerId: id } = event;
    if (this.#resting.has(id)) return;
    if (pointerType === 'pen') this.#penSeenAt = event.timeStamp;
    if (pointerType !== 'touch') {
      if (board.getState().isFinger) board.setState({ isFinger: false });
      // Let go where the window could not see it.
      if (this.#drawing?.id === id && event.buttons === 0) {
        this.lost(event);
        return;
      }
    }
    const screen = this.#placeOf(event);
    if (this.#panning?.id === id) {
      pan(screen[0] - this.#panning.screen[0], screen[1] - this.#panning.screen[1]);
      this.#panning = { id, screen };
      return;
    }
    if (this.#touches.length >= 2) {
      this.#pinch(id, screen);
      return;
    }
    if (pointerType === 'touch') {
      if (this.#drawing?.id !== id) return;
      this.#touches = [{ id, screen }];
    }
    if (this.#drawing !== null && this.#drawing.id !== id) return;
    const pointer = this.#pointerOf(event);
    if (pointerType === 'touch') {
      this.#finger = pointer.screen;
      if (this.#heldAt !== null && distance(this.#heldAt, screen) > STILL_PX) this.#letGoOfHold();
    }
    this.#waiting = { kind: 'move', pointer };
    workInFrame(this.#flush);
  };

  readonly up = (event: PointerEvent): void => {
    this.#forget(event);
    if (this.#stopsPanning(event) || this.#drawing?.id !== event.pointerId) return;
    this.#drawing = null;
    this.#flush();
    this.#lift();
    send({ kind: 'up', pointer: this.#pointerOf(event) });
    // A finger that is lifted points at nothing.
    if (event.pointerType === 'touch') clearPassing();
  };

  /** The browser took the pointer away: nothing was meant. */
  readonly lost = (event: PointerEvent): void => {
    this.#forget(event);
    this.#stopsPanning(event);
    if (this.#drawing?.id === event.pointerId) this.#lose();
  };

  /** Whoever leaves the window in the middle of a press did not mean it. */
  readonly away = (): void => {
    if (document.hidden || !document.hasFocus()) this.#lose();
  };

  /** The menu is asked for with the mouse; a finger asks by being held, the keyboard by its own key. */
  readonly asked = (event: MouseEvent): void => {
    event.preventDefault();
    const isMouse = event.button === 2 || event.ctrlKey;
    const isFinger = 'pointerType' in event && event.pointerType === 'touch';
    if (isMouse && !isFinger && this.#drawing === null && this.#panning === null)
      openMenuAt(this.#placeOf(event));
  };

  /** A finger that lies still asks what can be done, while it chooses: with other tools it takes aim. */
  #holdFrom(screen: Point): void {
    if (board.getState().tool !== 'select') return;
    this.#heldAt = screen;
    this.#holding = setTimeout(() => {
      const press = this.#drawing;
      if (press === null) return;
      this.#takeBack();
      openMenuAt(screen);
    }, HOLD_MS);
  }

  #letGoOfHold(): void {
    clearTimeout(this.#holding);
    this.#heldAt = null;
  }

  readonly leave = (event: PointerEvent): void => {
    if (this.#drawing !== null || event.pointerType === 'touch') return;
    this.#flush();
    clearPassing();
  };

  readonly wheel = (event: WheelEvent): void => {
    event.preventDefault();
    const unit = WHEEL_PX[event.deltaMode] ?? 1;
    if (event.shiftKey) {
      pan(-(event.deltaX + event.deltaY) * unit, 0);
      return;
    }
    // A trackpad's pinch comes as a wheel with Ctrl, in far smaller steps.
    const strength = event.ctrlKey ? 0.01 : 0.0016;
    zoomBy(Math.exp(-event.deltaY * unit * strength), this.#placeOf(event));
  };

  #placeOf(event: MouseEvent): Point {
    const box = this.#element.getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  }

  #pointerOf(event: PointerEvent): Pointer {
    const screen = this.#placeOf(event);
    const { camera, adds, steps, free } = board.getState();
    return {
      at: toBoard(camera, screen),
      screen,
      adds: event.shiftKey || adds,
      steps: event.shiftKey || steps,
      free: event.altKey || event.ctrlKey || free,
    };
  }

  readonly #flush = (): void => {
    dropWork(this.#flush);
    const event = this.#waiting;
    this.#waiting = null;
    if (event === null) return;
    if (this.#finger !== null) board.setState({ finger: this.#finger });
    send(event);
  };

  /** The finger that drew is no longer there. */
  #lift(): void {
    this.#letGoOfHold();
    this.#finger = null;
    if (board.getState().finger !== null) board.setState({ finger: null });
  }

  #press(event: PointerEvent): void {
    this.#flush();
    this.#drawing = { id: event.pointerId, before: beforePress() };
    const pointer = this.#pointerOf(event);
    if (event.pointerType === 'touch') {
      this.#finger = pointer.screen;
      board.setState({ finger: pointer.screen });
      this.#holdFrom(pointer.screen);
    }
    send({ kind: 'move', pointer });
    send({ kind: 'down', pointer });
  }

  /** Takes the running press back. True when it had begun something. */
  #takeBack(): boolean {
    const press = this.#drawing;
    this.#drawing = null;
    this.#lift();
    if (press === null) return false;
    this.#waiting = null;
    return takeBackPress(press.before);
  }

  #lose(): void {
    if (this.#takeBack())
      say('trouble', phrase('The pointer was lost on the way. The drawing is as it was before.'));
  }

  /** Whoever holds a pen rests the hand beside it: its touches are not meant. */
  #takePen({ pointerId, timeStamp }: PointerEvent): void {
    this.#penSeenAt = timeStamp;
    this.#penDown = pointerId;
    for (const { id } of this.#touches) this.#resting.add(id);
    this.#touches = [];
    if (this.#drawing !== null && this.#resting.has(this.#drawing.id)) this.#takeBack();
  }

  /** Whether one more finger on the board is to draw: not beside another, nor where the hand of a pen rests. */
  #isForDrawing(event: PointerEvent): boolean {
    this.#touches = [...this.#touches, { id: event.pointerId, screen: this.#placeOf(event) }];
    // A second finger means the sheet is to be moved: what the first one began is taken back.
    if (this.#touches.length === 2) this.#takeBack();
    return this.#touches.length === 1 && event.timeStamp - this.#penSeenAt >= HAND_RESTS_MS;
  }

  /** Two fingers move and scale the sheet so that the places under them stay under them. */
  #pinch(id: number, screen: Point): void {
    const [a, b] = this.#touches;
    const moved = this.#touches.map((touch) => (touch.id === id ? { id, screen } : touch));
    const [c, d] = moved;
    this.#touches = moved;
    if (a === undefined || b === undefined || c === undefined || d === undefined) return;
    const [fromX, fromY] = middle(a.screen, b.screen);
    const to = middle(c.screen, d.screen);
    const before = distance(a.screen, b.screen);
    pan(to[0] - fromX, to[1] - fromY);
    if (before > 0) zoomBy(distance(c.screen, d.screen) / before, to);
  }

  #forget({ pointerId, pointerType, timeStamp }: PointerEvent): void {
    this.#touches = this.#touches.filter(({ id }) => id !== pointerId);
    this.#resting.delete(pointerId);
    if (this.#penDown === pointerId) this.#penDown = null;
    if (pointerType === 'pen') this.#penSeenAt = timeStamp;
  }

  #stopsPanning({ pointerId }: PointerEvent): boolean {
    if (this.#panning?.id !== pointerId) return false;
    this.#panning = null;
    delete this.#element.dataset.panning;
    return true;
  }
}

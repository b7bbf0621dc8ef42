import { toBoard } from '../../board/camera.ts';
import { movePlaces, quiltOf, swapPlaces } from '../../document/edit-quilt.ts';
import { sizeAsLaid } from '../../document/place-polygon.ts';
import { isBlockPlace } from '../../document/quilt.ts';
import type { Point } from '../../geometry/point.ts';
import { contains } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import { edit } from '../../workspace/actions.ts';
import { session, shownProject } from '../../workspace/session.ts';
import { choose, chosenPlaces, fill, layFree, moduleOf } from './quilt-acts.ts';
import { panQuilt, zoomQuilt } from './quilt-looking.ts';
import { quiltView } from './quilt-state.ts';
import { layoutOf } from './shown-quilt.ts';

/** So far a pointer moves before a press is a drag, pixels. */
const SLACK_PX = 4;

/** Id of the place at a spot of the quilt, the one laid last where several lie there. */
export function placeAt(at: Point): string | null {
  const { pieces } = layoutOf(shownProject(session.getState()));
  return pieces.findLast(({ polygon }) => contains(polygon, at))?.place.id ?? null;
}

const onModule = ([x, y]: Point, step: number): Point => [
  Math.round(x / step) * step,
  Math.round(y / step) * step,
];

/** Lays what comes from the tray where it is let go: in the place there, else as a place of its own. */
export function dropFromTray(at: Point): void {
  const { carried } = quiltView.getState();
  quiltView.setState({ carried: null });
  if (carried?.kind !== 'new') return;
  const { project } = session.getState();
  const under = placeAt(at);
  if (under !== null) {
    choose([under]);
    fill([under], carried.filling);
    return;
  }
  const step = moduleOf(project);
  const { filling } = carried;
  const block = 'block' in filling ? project.blocks.find(({ id }) => id === filling.block) : undefined;
  const size = block
    ? sizeAsLaid(block.outline, 'turn' in filling ? filling.turn : 0)
    : ([step, step] as const);
  layFree(filling, onModule([at[0] - size[0] / 2, at[1] - size[1] / 2], step), size);
}

type Hand =
  | {
      readonly kind: 'press';
      readonly screen: Point;
      readonly at: Point;
      readonly place: string | null;
      readonly adds: boolean;
    }
  | { readonly kind: 'carry'; readonly from: Point }
  | { readonly kind: 'pan'; readonly screen: Point };

/** Listens to pointer and wheel on the board. Returns a function that lets go. */
export function listenOnQuilt(element: HTMLElement): () => void {
  let hand: Hand | null = null;
  const fingers = new Map<number, Point>();

  const screenOf = (event: MouseEvent): Point => {
    const { left, top } = element.getBoundingClientRect();
    return [event.clientX - left, event.clientY - top];
  };
  const inQuilt = (event: MouseEvent): Point => toBoard(quiltView.getState().camera, screenOf(event));

  const onDown = (event: PointerEvent): void => {
    element.focus({ preventScroll: true });
    element.setPointerCapture(event.pointerId);
    const screen = screenOf(event);
    fingers.set(event.pointerId, screen);
    if (fingers.size === 2) {
      drop();
      return;
    }
    if (event.button === 1) {
      event.preventDefault();
      hand = { kind: 'pan', screen };
      return;
    }
    if (event.button !== 0) return;
    const at = inQuilt(event);
    const place = placeAt(at);
    hand = { kind: 'press', screen, at, place, adds: event.shiftKey || event.ctrlKey || event.metaKey };
  };

  const onMove = (event: PointerEvent): void => {
    const screen = screenOf(event);
    const before = fingers.get(event.pointerId);
    if (fingers.size === 2 && before) {
      pinch(event.pointerId, before, screen);
      fingers.set(event.pointerId, screen);
      return;
    }
    if (before) fingers.set(event.pointerId, screen);
    if (hand === null) return;
    if (hand.kind === 'pan') {
      panQuilt(screen[0] - hand.screen[0], screen[1] - hand.screen[1]);
      hand = { kind: 'pan', screen };
      return;
    }
    if (hand.kind === 'press') {
      if (Math.hypot(screen[0] - hand.screen[0], screen[1] - hand.screen[1]) < SLACK_PX) return;
      if (hand.place === null) {
        hand = { kind: 'pan', screen };
        return;
      }
      const { selection } = quiltView.getState();
      if (!selection.includes(hand.place)) choose(hand.adds ? [...selection, hand.place] : [hand.place]);
      hand = { kind: 'carry', from: hand.at };
    }
    quiltView.setState({
      carried: { kind: 'places', from: hand.from, to: inQuilt(event), isCopy: event.altKey },
    });
  };

  const pinch = (id: number, before: Point, now: Point): void => {
    const other = [...fingers].find(([key]) => key !== id)?.[1];
    if (!other) return;
    const was = Math.hypot(before[0] - other[0], before[1] - other[1]);
    const is = Math.hypot(now[0] - other[0], now[1] - other[1]);
    panQuilt((now[0] - before[0]) / 2, (now[1] - before[1]) / 2);
    if (was > 0) zoomQuilt(is / was, [(now[0] + other[0]) / 2, (now[1] + other[1]) / 2]);
  };

  const onUp = (event: PointerEvent): void => {
    fingers.delete(event.pointerId);
    const was = hand;
    hand = null;
    if (was?.kind === 'press') tap(was);
    if (was?.kind === 'carry') carryTo(was.from, inQuilt(event), event.altKey);
    quiltView.setState({ carried: null });
  };

  const drop = (): void => {
    hand = null;
    quiltView.setState({ carried: null });
  };

  const onWheel = (event: WheelEvent): void => {
    event.preventDefault();
    if (event.shiftKey) panQuilt(-event.deltaY, 0);
    else zoomQuilt(2 ** (-event.deltaY / (event.ctrlKey ? 120 : 480)), screenOf(event));
  };

  const stop = new AbortController();
  const { signal } = stop;
  element.addEventListener('pointerdown', onDown, { signal });
  element.addEventListener('pointermove', onMove, { signal });
  element.addEventListener('pointerup', onUp, { signal });
  element.addEventListener(
    'pointercancel',
    (event) => {
      fingers.delete(event.pointerId);
      drop();
    },
    { signal },
  );
  element.addEventListener('wheel', onWheel, { signal, passive: false });
  return () => stop.abort();
}

/** A press that stays where it is chooses; with something in hand it lays it. */
function tap({ place, adds }: Extract<Hand, { kind: 'press' }>): void {
  const { selection, inHand } = quiltView.getState();
  if (place === null) {
    if (!adds) choose([]);
    return;
  }
  if (adds) {
    choose(selection.includes(place) ? selection.filter((id) => id !== place) : [...selection, place]);
    return;
  }
  choose([place]);
  if (inHand !== null) fill([place], inHand);
}

/**
 * Where a drag ends. In a setting what is dragged changes places with what lies there, or is copied on to it; free, it
 * moves by whole modules.
 */
function carryTo(from: Point, to: Point, isCopy: boolean): void {
  const { project } = session.getState();
  const quilt = quiltOf(project);
  const chosen = chosenPlaces(project, quiltView.getState());
  const under = placeAt(to);
  const [first] = chosen;
  if (quilt.setting !== undefined || isCopy) {
    if (!first || under === null || chosen.some(({ id }) => id === under)) return;
    if (isCopy) {
      const turn = isBlockPlace(first) ? first.turn - (first.turn % 1) : 0;
      if (isBlockPlace(first)) fill([under], { block: first.block, turn, mirrored: first.mirrored });
      else if (first.fabric !== undefined) fill([under], { fabric: first.fabric });
    } else edit(phrase('Swap'), (before) => swapPlaces(before, first.id, under));
    choose([under]);
    return;
  }
  const step = moduleOf(project);
  const by = onModule([to[0] - from[0], to[1] - from[1]], step);
  edit(phrase('Move places'), (before) => movePlaces(before, new Set(chosen.map(({ id }) => id)), by));
}

/** How far what is carried lies from where it was taken up, as it would be let go. */
export function carriedBy(from: Point, to: Point): Point {
  const project = session.getState().project;
  const by: Point = [to[0] - from[0], to[1] - from[1]];
  return quiltOf(project).setting !== undefined ? by : onModule(by, moduleOf(project));
}

import { holdsPoint } from '../geometry/inner-spot.ts';
import type { Point } from '../geometry/point.ts';
import { type Box, boxOf } from '../geometry/ring.ts';
import { edgesOf } from '../geometry/segments.ts';
import { mediaHolds, NARROW } from '../workspace/media.ts';
import { planOf } from '../workspace/plans.ts';
import { session } from '../workspace/session.ts';
import { blockOnSheet, board } from './board-state.ts';
import {
  between,
  type Camera,
  fittedCamera,
  type Inset,
  lookAt,
  panBy,
  toScreen,
  type ViewSize,
  zoomAbout,
} from './camera.ts';
import type { ToolName } from './tools/tool.ts';

/** Acts that move the eye, not the drawing. */

/** Room for the tools at the left, and the sheet's own margin. */
const INSET: Inset = { left: 104, top: 52, right: 52, bottom: 48 };
/** A tablet held upright tells at the foot of the drawing what is chosen. */
const UPRIGHT_INSET: Inset = { left: 108, top: 40, right: 36, bottom: 56 };
/** A phone held sideways has its tools in two columns. */
const SIDEWAYS_INSET: Inset = { left: 148, top: 30, right: 24, bottom: 22 };
/** On a phone the tools stand above the drawing. */
const PHONE_INSET: Inset = { left: 32, top: 32, right: 18, bottom: 52 };

const EMPTY_SHEET: Box = { minX: 0, minY: 0, maxX: 12, maxY: 12 };

/** What is fitted: the outline of the block on the sheet, or a 12 in sheet. */
export function sheetBox(): Box {
  const block = blockOnSheet();
  const points = block?.outline.filter((point) => point.every(Number.isFinite)) ?? [];
  return points.length === 0 ? EMPTY_SHEET : boxOf(points);
}

/** The board has another size than the sheet was fitted to, and a hand was at work. */
let isFitDue = false;

/**
 * Tells the size of the board. What is on the sheet is fitted again unless a person has chosen where to look at it. It
 * lies still under a hand at work, or what is drawn would end elsewhere: `settleView` follows when the hand rests.
 */
export function setView(view: ViewSize, isAtWork: boolean): void {
  board.setState({ view });
  const { fitted, fittedTo } = board.getState();
  if (!fitted && fittedTo === session.getState().blockId) return;
  if (isAtWork) isFitDue = true;
  else zoomToFit();
}

/** The hand rests: what `setView` put off is done. */
export function settleView(): void {
  if (!isFitDue) return;
  isFitDue = false;
  if (board.getState().fitted) zoomToFit();
}

export function zoomToFit(): void {
  const { view } = board.getState();
  if (view.width === 0) return;
  halt();
  board.setState({ camera: fitted(), fitted: true, fittedTo: session.getState().blockId });
}

const fitted = (): Camera => {
  const { view } = board.getState();
  return fittedCamera(sheetBox(), view, insetNow());
};

/** Tools that ask something at the drawing: on a telephone that takes room from it. */
const WITH_OPTIONS: ReadonlySet<ToolName> = new Set(['chain']);
const OPTIONS_PX = 48;

const isPhone = (): boolean => mediaHolds('(max-width: 620px)');

function insetNow(): Inset {
  if (!mediaHolds(NARROW)) return INSET;
  if (!isPhone()) return mediaHolds('(max-height: 520px)') ? SIDEWAYS_INSET : UPRIGHT_INSET;
  return WITH_OPTIONS.has(board.getState().tool)
    ? { ...PHONE_INSET, bottom: PHONE_INSET.bottom + OPTIONS_PX }
    : PHONE_INSET;
}

/** Another tool is in hand: a fitted sheet on a telephone is fitted to the room that tool leaves. */
export function fitForTool(): void {
  if (board.getState().fitted && isPhone()) zoomToFit();
}

/** An outline this much smaller than what was fitted is fitted again. */
const MUCH_SMALLER = 1.5;

/** Fits the sheet again when its outline has grown out of a fitted view or become small in it. */
export function fitAgain(): void {
  const { camera, view, fitted: isFitted } = board.getState();
  if (!isFitted || view.width === 0) return;
  const { minX, minY, maxX, maxY } = sheetBox();
  const [left, top] = toScreen(camera, [minX, minY]);
  const [right, bottom] = toScreen(camera, [maxX, maxY]);
  const isInside = left >= 0 && top >= 0 && right <= view.width && bottom <= view.height;
  if (!isInside || fitted().scale > camera.scale * MUCH_SMALLER) zoomToFit();
}

/** Scales about a place of the screen, the middle unless told. */
export function zoomBy(factor: number, about?: Point): void {
  const { camera, view } = board.getState();
  halt();
  board.setState({
    camera: zoomAbout(camera, about ?? [view.width / 2, view.height / 2], factor),
    fitted: false,
  });
}

export function pan(dx: number, dy: number): void {
  halt();
  board.setState({ camera: panBy(board.getState().camera, dx, dy), fitted: false });
}

/** Brings a place to the middle, near enough that an inch spans a good part of the view. */
export function zoomTo(at: Point): void {
  const { camera, view } = board.getState();
  const leastScale = Math.min(view.width, view.height) / 5;
  board.setState({ fitted: false });
  glide(camera, lookAt(camera, at, view, leastScale));
}

/** Brings what is chosen, cuts or a corner or an edge or a patch, whole into view; the sheet when nothing is. */
export function zoomToChosen(): void {
  const places = chosenPlaces();
  if (places.length === 0) {
    zoomToFit();
    return;
  }
  const { camera, view } = board.getState();
  const inset = insetNow();
  const { minX, minY, maxX, maxY } = boxOf(places);
  // A single line or point keeps some of its surroundings in view.
  const around = Math.max(maxX - minX, maxY - minY, 1) / 4;
  const box = { minX: minX - around, minY: minY - around, maxX: maxX + around, maxY: maxY + around };
  board.setState({ fitted: false });
  glide(camera, fittedCamera(box, view, inset));
}

/** Corners of all that is chosen on the board. */
export function chosenPlaces(): readonly Point[] {
  const block = blockOnSheet();
  if (block === null) return [];
  const { selection } = session.getState();
  const { chosen } = board.getState();
  if (selection.length > 0)
    return block.cuts.filter(({ id }) => selection.includes(id)).flatMap(({ from, to }) => [from, to]);
  switch (chosen?.kind) {
    case 'corner':
      return block.outline.slice(chosen.corner, chosen.corner + 1);
    case 'edge':
      return edgesOf(block.outline)[chosen.edge] ?? [];
    case 'patch':
      return planOf(block).patches.find((one) => holdsPoint(one, chosen.at))?.polygon ?? [];
    default:
      return [];
  }
}

/** Pans just so far that a place is well inside the view. */
export function bringIntoView(at: Point): void {
  const { camera, view } = board.getState();
  const [x, y] = toScreen(camera, at);
  const margin = Math.min(60, view.width / 4, view.height / 4);
  const dx = Math.max(margin - x, 0) + Math.min(view.width - margin - x, 0);
  const dy = Math.max(margin - y, 0) + Math.min(view.height - margin - y, 0);
  if (dx !== 0 || dy !== 0) pan(dx, dy);
}

const GLIDE_MS = 220;
let frame = 0;

function halt(): void {
  cancelAnimationFrame(frame);
}

/** Moves the camera evenly, or at once for those who asked for less motion. */
function glide(from: Camera, to: Camera): void {
  halt();
  if (matchMedia('(prefers-reduced-motion: reduce)').matches) {
    board.setState({ camera: to });
    return;
  }
  const begun = performance.now();
  const step = (now: number): void => {
    const t = Math.min(1, Math.max(0, (now - begun) / GLIDE_MS));
    board.setState({ camera: between(from, to, 1 - (1 - t) ** 3) });
    if (t < 1) frame = requestAnimationFrame(step);
  };
  frame = requestAnimationFrame(step);
}

import { pictures } from '../workspace/fabric-pictures.ts';
import { plansCome } from '../workspace/plans.ts';
import { session } from '../workspace/session.ts';
import { board } from './board-state.ts';
import { type BoardCanvas, CANVASES } from './canvases.ts';
import { type Figure, FigureTiles, TILE_PX } from './draw/figures.ts';
import type { Pen } from './draw/pen.ts';
import { squaredPictures } from './draw/under-picture.ts';
import { dropPaint, paintInFrame } from './frame.ts';
import { proposals } from './proposal.ts';

/** A pen on a canvas that `sizeToBoard` has sized: it draws in CSS pixels. */
const penOn = (element: HTMLCanvasElement): Pen => ({
  ctx: element.getContext('2d')!,
  camera: board.getState().camera,
});

/** Pixels of a canvas that covers the board at the density of the screen. */
function pixelsOfBoard(): readonly [width: number, height: number] {
  const { width, height } = board.getState().view;
  return [Math.round(width * devicePixelRatio), Math.round(height * devicePixelRatio)];
}

function isFitted({ width, height }: HTMLCanvasElement): boolean {
  const [wide, high] = pixelsOfBoard();
  return width === wide && height === high;
}

/** Sizes a canvas to the board. A new size wipes it, so that is done just before it is painted, never between frames. */
function sizeToBoard(element: HTMLCanvasElement): void {
  if (isFitted(element)) return;
  [element.width, element.height] = pixelsOfBoard();
  const { width, height } = board.getState().view;
  element.style.width = `${width}px`;
  element.style.height = `${height}px`;
  element.getContext('2d')!.scale(devicePixelRatio, devicePixelRatio);
}

function wipe({ ctx }: Pen): void {
  const { width, height } = board.getState().view;
  ctx.clearRect(0, 0, width, height);
}

const isSame = (before: readonly unknown[] | undefined, now: readonly unknown[]): boolean =>
  before?.length === now.length && now.every((part, k) => part === before[k]);

/** What a canvas is to show, and how far it does. */
interface Showing {
  readonly parts: readonly unknown[];
  readonly whole: readonly unknown[];
  /** Null where it is drawn whole without a look at its figures. */
  readonly figures: FigureTiles | null;
  /** Squares that still show what was there before, those that have waited longest first. */
  readonly owed: readonly number[] | 'all';
}

/** The squares of a canvas end on whole pixels, so that none shows an edge. */
const hasWholeTiles = (): boolean => Number.isInteger(TILE_PX * globalThis.devicePixelRatio);

/** What a canvas is to show now; where it can be, it is painted only in the squares in which something has changed. */
function lookAt(
  { parts: partsNow, inFigures }: BoardCanvas,
  element: HTMLCanvasElement,
  last?: Showing,
): Showing {
  const parts = partsNow();
  if (last !== undefined && isSame(last.parts, parts)) return last;
  const whole = inFigures?.whole() ?? [];
  const figures =
    last === undefined || inFigures === undefined || !isSame(last.whole, whole) || !hasWholeTiles()
      ? null
      : figuresNow(inFigures.figures(penOn(element)), last.figures);
  if (last === undefined || figures === null || last.owed === 'all')
    return { parts, whole, figures: null, owed: 'all' };
  const owed = new Set([...last.owed, ...figures.changedSince(last.figures)]);
  return { parts, whole, figures, owed: [...owed] };
}

/** Paints what is owed, or as much of it as one frame has time for. */
function paintOn(canvas: BoardCanvas, element: HTMLCanvasElement, showing: Showing): Showing {
  const { figures, owed } = showing;
  if (owed.length === 0) return showing;
  const pen = penOn(element);
  if (owed === 'all' || figures === null || canvas.inFigures === undefined || !isFitted(element)) {
    sizeToBoard(element);
    wipe(pen);
    canvas.draw(pen);
    return { ...showing, owed: [] };
  }
  const { paint, mostAtOnce } = canvas.inFigures;
  return { ...showing, owed: figures.paintIn(pen, owed, paint, mostAtOnce) };
}

const figuresNow = (figures: readonly Figure[] | null, before: FigureTiles | null): FigureTiles | null =>
  figures === null ? null : new FigureTiles(board.getState().view, figures, before);

/**
 * Keeps the canvases of the board, one for each of `CANVASES`, showing what they are to show, and the element around
 * them telling where it is looked at. Returns a stop function.
 */
export function keepPainted(frame: HTMLElement, elements: readonly HTMLCanvasElement[]): () => void {
  const shown: Showing[] = [];
  const look = (): void => {
    for (const [k, canvas] of CANVASES.entries()) shown[k] = lookAt(canvas, elements[k]!, shown[k]);
  };
  const paint = (): void => {
    look();
    for (const [k, canvas] of CANVASES.entries()) {
      shown[k] = paintOn(canvas, elements[k]!, shown[k]!);
      if (shown[k].owed.length > 0) paintSoon();
    }
  };
  const paintSoon = (): void => paintInFrame(paint);
  const paintAll = (): void => {
    shown.length = 0;
    paintSoon();
  };
  // A plan that has come between two frames is looked at there, not in the frame that a move waits for.
  const takeUp = (): void => {
    look();
    paintSoon();
  };
  // Where an inch is on the screen, for whoever points at the board from outside, such as a journey's mouse.
  const tellCamera = (): void => {
    const { scale, x, y } = board.getState().camera;
    frame.dataset.camera = `${scale} ${x} ${y}`;
  };
  tellCamera();
  paintSoon();
  // Type drawn before its font has come would stay in the wrong one.
  void document.fonts.load("600 16px 'Source Sans 3 Variable'").then(paintAll, paintAll);
  const stops = [
    session.subscribe(paintSoon),
    plansCome.subscribe(takeUp),
    proposals.subscribe(paintSoon),
    pictures.subscribe(paintSoon),
    squaredPictures.subscribe(paintSoon),
    board.subscribe((state, before) => {
      paintSoon();
      if (state.camera !== before.camera) tellCamera();
    }),
  ];
  return () => {
    for (const stop of stops) stop();
    dropPaint(paint);
  };
}

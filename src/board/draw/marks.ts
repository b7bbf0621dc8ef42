import type { Block, Unit } from '../../document/project.ts';
import type { Chosen } from '../../editing/chosen.ts';
import { type FrameHandle, frameBox, frameHandles, frameOf } from '../../editing/frame.ts';
import type { Snap } from '../../editing/snapping.ts';
import { angleWords, lengthWords, placeWords, SNAP_WORDS } from '../../editing/words.ts';
import { holdsPoint } from '../../geometry/inner-spot.ts';
import type { Point, Ring, Segment } from '../../geometry/point.ts';
import { type Box, middle } from '../../geometry/ring.ts';
import { edgesOf, samePlace } from '../../geometry/segments.ts';
import type { PiecingPlan } from '../../piecing/plan.ts';
import { phrase } from '../../words/phrase.ts';
import type { Crosshair } from '../board-state.ts';
import { toScreen, type ViewSize } from '../camera.ts';
import type { Mark } from '../tools/tool.ts';
import { tracePatch } from './block.ts';
import { INKS } from './inks.ts';
import { dot, FONT, type Pen, strokeLine, strokePath, trace } from './pen.ts';

/** Cuts that are images of the chosen ones: what is done to those is done to them. */
export function drawTwins(pen: Pen, { cuts }: Block, ids: readonly string[]): void {
  if (ids.length === 0) return;
  const twins = new Set(ids);
  pen.ctx.lineCap = 'butt';
  for (const { id, from, to } of cuts)
    if (twins.has(id))
      strokeLine(pen, [from, to], { color: INKS.indigo, width: 2.4, dash: [6, 4], halo: INKS.sheet });
}

/** What is chosen: cuts strong with handles at their ends, a corner, a patch. */
export function drawChosen(
  pen: Pen,
  block: Block,
  plan: PiecingPlan,
  selection: readonly string[],
  chosen: Chosen | null,
  handles: boolean,
  snapped: Point | null,
  inHand: FrameHandle | null,
): void {
  const { ctx } = pen;
  if (chosen?.kind === 'patch') {
    const patch = plan.patches.find((one) => holdsPoint(one, chosen.at));
    if (patch !== undefined) {
      ctx.beginPath();
      tracePatch(pen, patch);
      strokePath(pen, { color: INKS.indigo, width: 2.6, halo: INKS.sheet });
    }
  }
  ctx.lineCap = 'round';
  const edge = chosen?.kind === 'edge' ? edgesOf(block.outline)[chosen.edge] : undefined;
  if (edge !== undefined) strokeLine(pen, edge, { color: INKS.indigo, width: 3.4, halo: INKS.sheet });
  const cuts = block.cuts.filter(({ id }) => selection.includes(id));
  for (const { from, to } of cuts)
    strokeLine(pen, [from, to], { color: INKS.indigo, width: 3, halo: INKS.sheet });
  if (!handles) return;
  const frame = frameOf(cuts);
  if (frame !== null) drawFrame(pen, frame, inHand);
  for (const [index, corner] of block.outline.entries()) {
    const isChosen = chosen?.kind === 'corner' && chosen.corner === index;
    square(
      pen,
      corner,
      isChosen ? 6 : 4,
      isChosen ? INKS.indigo : INKS.sheet,
      isChosen ? INKS.indigo : INKS.ink,
    );
  }
  // The end in hand carries the mark of what catches it instead.
  for (const { from, to } of cuts)
    for (const end of [from, to])
      if (snapped === null || !samePlace(end, snapped))
        dot(pen, end, 6, INKS.sheet, { color: INKS.indigo, width: 2 });
}

/** The frame round several chosen cuts: squares that size it, a round handle that turns it. */
function drawFrame(pen: Pen, box: Box, inHand: FrameHandle | null): void {
  const pxIn = 1 / pen.camera.scale;
  const { minX, minY, maxX, maxY } = frameBox(box, pxIn);
  const corners: Ring = [
    [minX, minY],
    [maxX, minY],
    [maxX, maxY],
    [minX, maxY],
  ];
  pen.ctx.lineCap = 'butt';
  strokeLine(pen, corners, { color: INKS.indigo, width: 1, dash: [4, 4], halo: INKS.sheet }, true);
  for (const { handle, at } of frameHandles(box, pxIn)) {
    const isInHand = inHand !== null && isSameHandle(handle, inHand);
    if (handle.kind === 'turn') {
      strokeLine(pen, [[at[0], minY], at], { color: INKS.indigo, width: 1.4, halo: INKS.sheet });
      dot(pen, at, 7, isInHand ? INKS.indigo : INKS.sheet, { color: INKS.indigo, width: 2 });
    } else square(pen, at, 5, isInHand ? INKS.indigo : INKS.sheet, INKS.indigo);
  }
}

const isSameHandle = (a: FrameHandle, b: FrameHandle): boolean =>
  a.kind === 'turn' || b.kind === 'turn'
    ? a.kind === b.kind
    : a.side[0] === b.side[0] && a.side[1] === b.side[1];

function square(pen: Pen, at: Point, half: number, fill: string, stroke: string): void {
  const [x, y] = toScreen(pen.camera, at);
  const { ctx } = pen;
  ctx.lineJoin = 'miter';
  ctx.beginPath();
  ctx.rect(x - half, y - half, 2 * half, 2 * half);
  ctx.fillStyle = fill;
  ctx.fill();
  strokePath(pen, { color: stroke, width: 1.4 });
}

/** A glass that stands over a finger: what is told of the place stands at the glass. CSS pixels. */
export interface Glass {
  readonly center: Point;
  readonly radius: number;
}

/** What the tool in hand shows while it works. */
export function drawMarks(
  pen: Pen,
  block: Block | null,
  plan: PiecingPlan | null,
  marks: readonly Mark[],
  unit: Unit,
  view: ViewSize,
  glass: Glass | null = null,
): void {
  const line = marks.find((mark) => mark.kind === 'line' || mark.kind === 'run');
  const shift = marks.find((mark) => mark.kind === 'shift');
  for (const mark of marks) {
    switch (mark.kind) {
      case 'cut': {
        const cut = block?.cuts.find(({ id }) => id === mark.cut);
        if (cut !== undefined)
          strokeLine(pen, [cut.from, cut.to], { color: INKS.indigo, width: 2.2, halo: INKS.sheet });
        break;
      }
      case 'edge': {
        const edge = block === null ? undefined : edgesOf(block.outline)[mark.edge];
        if (edge !== undefined) strokeLine(pen, edge, { color: INKS.indigo, width: 2.2, halo: INKS.sheet });
        break;
      }
      case 'patch': {
        const patch = plan?.patches.find((one) => holdsPoint(one, mark.at));
        if (patch === undefined) break;
        pen.ctx.beginPath();
        tracePatch(pen, patch);
        strokePath(pen, { color: INKS.indigo, width: 2, halo: INKS.sheet });
        break;
      }
      case 'line':
        strokeLine(pen, mark.segment, { color: INKS.indigo, width: 2.2, halo: INKS.sheet });
        break;
      case 'going':
        drawGoing(pen, mark.segment);
        break;
      case 'outline':
        drawOutline(pen, mark.points, mark.to);
        break;
      case 'spot':
        dot(pen, mark.at, 4.5, INKS.sheet, { color: INKS.indigo, width: 2 });
        break;
      case 'snap':
        drawSnapSign(pen, mark.snap);
        tell(
          pen,
          snapText(mark.snap, unit, line?.segment ?? null, shift?.by ?? null),
          toScreen(pen.camera, mark.snap.at),
          view,
          glass,
        );
        break;
      case 'typed':
        drawTyped(pen, mark, view);
        break;
      case 'told':
        tell(pen, mark.text, toScreen(pen.camera, mark.at), view, glass);
        break;
      case 'measure':
        drawMeasure(pen, mark.segment, view, unit);
        break;
      case 'shift':
      case 'run':
      case 'handle':
        break;
      case 'box':
        drawBox(pen, mark);
        break;
    }
  }
}

/** Half the width of the cross on a stretch that would go, CSS pixels. */
const CROSS_PX = 4.5;

/** A band over what would be taken away, crossed out in the middle, so that it is no join's stitching. */
function drawGoing(pen: Pen, segment: Segment): void {
  const { ctx, camera } = pen;
  ctx.save();
  ctx.globalAlpha = 0.7;
  strokeLine(pen, segment, { color: INKS.sheet, width: 9 });
  ctx.restore();
  strokeLine(pen, segment, { color: INKS.madder, width: 3 });
  const [x, y] = toScreen(camera, middle(...segment));
  dot(pen, middle(...segment), 9, INKS.sheet, { color: INKS.madder, width: 1.6 });
  ctx.beginPath();
  for (const way of [1, -1]) {
    ctx.moveTo(x - CROSS_PX, y - way * CROSS_PX);
    ctx.lineTo(x + CROSS_PX, y + way * CROSS_PX);
  }
  strokePath(pen, { color: INKS.madder, width: 1.8 });
}

function drawOutline(pen: Pen, points: readonly Point[], to: Point | null): void {
  const { ctx } = pen;
  if (points.length >= 2) {
    ctx.beginPath();
    trace(pen, to === null ? points : [...points, to], true);
    ctx.fillStyle = 'rgb(44 74 133 / 8%)';
    ctx.fill();
  }
  strokeLine(pen, to === null ? points : [...points, to], {
    color: INKS.indigo,
    width: 2.2,
    halo: INKS.sheet,
  });
  for (const [index, point] of points.entries()) {
    const closes = index === 0 && points.length >= 3;
    dot(pen, point, closes ? 7 : 4.5, INKS.sheet, { color: INKS.indigo, width: closes ? 2.6 : 2 });
  }
}

/** The mark of what catches the pointer, one for each kind. */
export function drawSnapSign(pen: Pen, snap: Snap): void {
  const [x, y] = toScreen(pen.camera, snap.at);
  const { ctx } = pen;
  if (snap.guide !== undefined) {
    ctx.lineCap = 'butt';
    strokeLine(pen, snap.guide, { color: INKS.indigo, width: 2.4, dash: [3, 4], halo: INKS.sheet });
  }
  ctx.lineJoin = 'miter';
  ctx.lineCap = 'butt';
  ctx.beginPath();
  switch (snap.kind) {
    case 'corner':
      ctx.rect(x - 6, y - 6, 12, 12);
      break;
    case 'cut-end':
      ctx.arc(x, y, 6.5, 0, Math.PI * 2);
      break;
    case 'crossing':
      ctx.moveTo(x - 6, y - 6);
      ctx.lineTo(x + 6, y + 6);
      ctx.moveTo(x + 6, y - 6);
      ctx.lineTo(x - 6, y + 6);
      break;
    case 'center':
      ctx.arc(x, y, 6.5, 0, Math.PI * 2);
      ctx.moveTo(x - 9, y);
      ctx.lineTo(x + 9, y);
      ctx.moveTo(x, y - 9);
      ctx.lineTo(x, y + 9);
      break;
    case 'midpoint':
      ctx.moveTo(x, y - 7);
      ctx.lineTo(x + 7, y + 5);
      ctx.lineTo(x - 7, y + 5);
      ctx.closePath();
      break;
    case 'line':
    case 'edge':
      ctx.moveTo(x, y - 7);
      ctx.lineTo(x + 7, y);
      ctx.lineTo(x, y + 7);
      ctx.lineTo(x - 7, y);
      ctx.closePath();
      break;
    case 'perpendicular':
      ctx.moveTo(x - 7, y - 7);
      ctx.lineTo(x - 7, y + 7);
      ctx.lineTo(x + 7, y + 7);
      ctx.moveTo(x - 7, y);
      ctx.lineTo(x, y);
      ctx.lineTo(x, y + 7);
      break;
    case 'parallel':
      ctx.moveTo(x - 7, y + 5);
      ctx.lineTo(x + 1, y - 7);
      ctx.moveTo(x - 1, y + 7);
      ctx.lineTo(x + 7, y - 5);
      break;
    case 'same-length':
      ctx.moveTo(x - 6, y - 3);
      ctx.lineTo(x + 6, y - 3);
      ctx.moveTo(x - 6, y + 3);
      ctx.lineTo(x + 6, y + 3);
      break;
    case 'step':
      ctx.moveTo(x + 7, y - 6);
      ctx.lineTo(x - 7, y + 6);
      ctx.lineTo(x + 7, y + 6);
      break;
    case 'third':
    case 'division':
      ctx.moveTo(x - 4, y - 7);
      ctx.lineTo(x - 4, y + 7);
      ctx.moveTo(x + 4, y - 7);
      ctx.lineTo(x + 4, y + 7);
      break;
    case 'grid':
    case 'free':
    case 'typed':
      ctx.moveTo(x - 6, y);
      ctx.lineTo(x + 6, y);
      ctx.moveTo(x, y - 6);
      ctx.lineTo(x, y + 6);
      break;
  }
  strokePath(pen, { color: INKS.indigo, width: 2, halo: INKS.sheet });
}

/** The word of what catches the pointer, its place, and how long the line is or how far things were moved. */
function snapText(snap: Snap, unit: Unit, run: Segment | null, shift: Point | null): string {
  const parts = [SNAP_WORDS[snap.kind], placeWords(snap.at, unit)].filter((part) => part !== '');
  if (run !== null && !samePlace(...run))
    parts.push(phrase('{value} long', { value: lengthWords(...run, unit) }), angleWords(...run));
  if (shift !== null) parts.push(phrase('moved {shift}', { shift: placeWords(shift, unit) }));
  return parts.join(' · ');
}

/** A slip with words beside a spot of the screen, or beside the glass that stands over it. */
function tell(pen: Pen, text: string, [x, y]: Point, view: ViewSize, glass: Glass | null): void {
  if (glass === null) {
    drawPill(pen, text, x, y, view);
    return;
  }
  const { center, radius } = glass;
  drawPill(pen, text, center[0], center[1], view, radius);
}

/** What is typed, the field in hand between bars; what is wrong with it below. */
function drawTyped(
  pen: Pen,
  { at, typed, error }: Extract<Mark, { readonly kind: 'typed' }>,
  view: ViewSize,
): void {
  const [x, y] = toScreen(pen.camera, at);
  const field = (name: 'first' | 'second', blank: string): string => {
    const text = typed[name] === '' ? blank : typed[name];
    return typed.field === name ? `[${text}]` : text;
  };
  dot(pen, at, 5, INKS.sheet, { color: INKS.indigo, width: 2 });
  const isPlace = typed.by === 'place';
  const first = field('first', isPlace ? ' ' : phrase('as drawn'));
  const second = field('second', typed.field === 'second' ? ' ' : 'Tab');
  const words = isPlace
    ? phrase('Across {first} · down {second}', { first, second })
    : phrase('Length {first} · angle {second}', { first, second });
  drawPill(pen, error === null ? words : `${words} · ${error}`, x, y, view);
}

/** A measured stretch with bars at its ends, its length, angle, and how far it goes across and down. */
function drawMeasure(pen: Pen, [from, to]: Segment, view: ViewSize, unit: Unit): void {
  const { ctx } = pen;
  const [ax, ay] = toScreen(pen.camera, from);
  const [bx, by] = toScreen(pen.camera, to);
  const length = Math.hypot(bx - ax, by - ay);
  if (length === 0) return;
  const [nx, ny] = [(-(by - ay) / length) * 7, ((bx - ax) / length) * 7];
  ctx.lineCap = 'butt';
  ctx.beginPath();
  ctx.moveTo(ax, ay);
  ctx.lineTo(bx, by);
  for (const [x, y] of [
    [ax, ay],
    [bx, by],
  ] as const) {
    ctx.moveTo(x - nx, y - ny);
    ctx.lineTo(x + nx, y + ny);
  }
  strokePath(pen, { color: INKS.moss, width: 2, halo: INKS.sheet });
  const parts = [
    lengthWords(from, to, unit),
    angleWords(from, to),
    phrase('across and down {value}', {
      value: placeWords([Math.abs(to[0] - from[0]), Math.abs(to[1] - from[1])], unit),
    }),
  ];
  drawPill(pen, parts.join(' · '), (ax + bx) / 2, (ay + by) / 2, view);
}

/** The box that chooses: whole line where it takes what lies in it, dashed where it takes all it touches. */
function drawBox(
  { ctx, camera }: Pen,
  { from, to, touching }: Extract<Mark, { readonly kind: 'box' }>,
): void {
  const [ax, ay] = toScreen(camera, from);
  const [bx, by] = toScreen(camera, to);
  ctx.beginPath();
  ctx.rect(Math.min(ax, bx), Math.min(ay, by), Math.abs(bx - ax), Math.abs(by - ay));
  ctx.fillStyle = 'rgb(44 74 133 / 8%)';
  ctx.fill();
  strokePath({ ctx, camera }, { color: INKS.indigo, width: 1.4, ...(touching ? { dash: [6, 4] } : {}) });
}

/** A dark slip with words beside a spot of the screen, kept inside the view. */
function drawPill(
  { ctx }: Pen,
  text: string,
  x: number,
  y: number,
  view: ViewSize,
  around: number | null = null,
): void {
  ctx.font = `400 14px ${FONT}`;
  const width = ctx.measureText(text).width + 20;
  const height = 28;
  let left = x + 16;
  let top = y - height - 12;
  if (left + width > view.width - 8) left = x - 16 - width;
  if (top < 8) top = y + 16;
  if (around !== null) {
    left = x - width / 2;
    top = y - around - height - 6;
    if (top < 4) top = y + around + 6;
  }
  // What it tells of may lie outside the view.
  left = Math.max(8, Math.min(left, view.width - 8 - width));
  top = Math.max(8, Math.min(top, view.height - 8 - height));
  ctx.beginPath();
  ctx.roundRect(left, top, width, height, 6);
  ctx.fillStyle = INKS.ink;
  ctx.fill();
  ctx.lineWidth = 1;
  ctx.setLineDash([]);
  ctx.strokeStyle = 'rgb(251 249 243 / 35%)';
  ctx.stroke();
  ctx.fillStyle = INKS.sheet;
  ctx.textAlign = 'left';
  ctx.textBaseline = 'middle';
  ctx.fillText(text, left + 10, top + height / 2 + 0.5);
}

/** The keyboard's pointer: long hairs, so that it is found at a glance. `isTold`: a mark says already what is there. */
export function drawCrosshair(pen: Pen, { at, words }: Crosshair, view: ViewSize, isTold: boolean): void {
  const [x, y] = toScreen(pen.camera, at);
  const { ctx } = pen;
  ctx.lineCap = 'butt';
  ctx.beginPath();
  ctx.moveTo(x, 0);
  ctx.lineTo(x, y - 10);
  ctx.moveTo(x, y + 10);
  ctx.lineTo(x, view.height);
  ctx.moveTo(0, y);
  ctx.lineTo(x - 10, y);
  ctx.moveTo(x + 10, y);
  ctx.lineTo(view.width, y);
  strokePath(pen, { color: INKS.indigo, width: 1, dash: [5, 4], halo: 'rgb(251 249 243 / 55%)' });
  if (!isTold) drawPill(pen, words, x, y, view);
}

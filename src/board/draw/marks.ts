import type { Block, Unit } from '../../document/project.ts';
import type { Snap } from '../../editing/snapping.ts';
import { angleWords, lengthWords, placeWords, SNAP_WORDS } from '../../editing/words.ts';
import { holdsPoint } from '../../geometry/inner-spot.ts';
import type { Point, Segment } from '../../geometry/point.ts';
import { middle } from '../../geometry/ring.ts';
import { edgesOf, samePlace } from '../../geometry/segments.ts';
import type { PiecingPlan } from '../../piecing/plan.ts';
import { phrase } from '../../words/phrase.ts';
import { toScreen, type ViewSize } from '../camera.ts';
import type { Mark } from '../tools/tool.ts';
import { INKS } from './inks.ts';
import { tracePatch } from './patches.ts';
import { dot, type Pen, strokeLine, strokePath, trace } from './pen.ts';
import { drawPill, type Glass, tell } from './slip.ts';
import { drawSnapSign } from './snap-sign.ts';

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

/** The word of what catches the pointer, its place, and how long the line is or how far things were moved. */
function snapText(snap: Snap, unit: Unit, run: Segment | null, shift: Point | null): string {
  const parts = [SNAP_WORDS[snap.kind], placeWords(snap.at, unit)].filter((part) => part !== '');
  if (run !== null && !samePlace(...run))
    parts.push(phrase('{value} long', { value: lengthWords(...run, unit) }), angleWords(...run));
  if (shift !== null) parts.push(phrase('moved {shift}', { shift: placeWords(shift, unit) }));
  return parts.join(' · ');
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

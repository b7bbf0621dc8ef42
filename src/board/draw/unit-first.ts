import { towards } from '../../geometry/fold.ts';
import { holdsPoint } from '../../geometry/inner-spot.ts';
import type { Point } from '../../geometry/point.ts';
import { centroid } from '../../geometry/ring.ts';
import type { Patch, PiecingPlan } from '../../piecing/plan.ts';
import { unitWords } from '../../piecing/sentences.ts';
import { toBoard, toScreen } from '../camera.ts';
import { boxAbout, type Figure } from './figures.ts';
import { INKS, threadOf } from './inks.ts';
import { labelSpot } from './label-spot.ts';
import { FONT, type Pen } from './pen.ts';

/** Room of the tag around its words, and how far it stands off the seam. CSS pixels. */
const PAD_PX = 6;
const HIGH_PX = 20;
const OFF_PX = 15;

/** Where along a seam a tag is tried. */
const SHARES = [0.5, 0.3, 0.7, 0.15, 0.85] as const;

/**
 * A tag where a paper starts from a finished unit: `C1 = A and B, joined`. It stands on the unit, beside whichever
 * seam sewn to it has the most room between the ids. A figure each.
 */
export function* unitFirstFigures(pen: Pen, plan: PiecingPlan): Generator<Figure> {
  const { ctx, camera } = pen;
  if (plan.sections.every(({ startsFrom }) => startsFrom.length === 0)) return;
  const ids = plan.patches.map((patch) => toScreen(camera, labelSpot(patch).at));
  for (const [index, { letter, startsFrom, order }] of plan.sections.entries()) {
    if (startsFrom.length === 0) continue;
    const words = `${letter}1 = ${unitWords(startsFrom)}`;
    ctx.font = `600 13px ${FONT}`;
    const width = ctx.measureText(words).width + 2 * PAD_PX;
    const base = plan.patches.filter(({ section }) => startsFrom.includes(section));
    const isOnUnit = ([x, y]: Point): boolean =>
      [-1, 0, 1].every((end) => {
        const at = toBoard(camera, [x + (end * width) / 2, y]);
        return base.some((patch) => holdsPoint(patch, at));
      });
    const beside = plan.patches
      .filter(({ id }) => order.includes(id))
      .flatMap((patch) => spotsBeside(pen, patch, width));
    const onUnit = beside.filter(isOnUnit);
    const spots = onUnit.length > 0 ? onUnit : beside;
    const room = ([x, y]: Point): number =>
      Math.min(
        ...ids.map(([ix, iy]) => Math.max(Math.abs(ix - x) - width / 2, 2 * Math.abs(iy - y) - HIGH_PX)),
      );
    const [first, ...rest] = spots;
    if (first === undefined) continue;
    const [x, y] = rest.reduce((best, spot) => (room(spot) > room(best) + 1 ? spot : best), first);
    yield {
      get key() {
        return `unit ${words} ${x} ${y} ${width} ${index}`;
      },
      boxes: () => [boxAbout([x, y], width / 2 + 2, HIGH_PX / 2 + 2)],
      draw: ({ ctx }) => drawTag(ctx, words, threadOf(index).color, [x, y], width),
    };
  }
}

function drawTag(
  ctx: CanvasRenderingContext2D,
  words: string,
  color: string,
  [x, y]: Point,
  width: number,
): void {
  ctx.beginPath();
  ctx.roundRect(x - width / 2, y - HIGH_PX / 2, width, HIGH_PX, 5);
  ctx.fillStyle = INKS.sheet;
  ctx.fill();
  ctx.strokeStyle = color;
  ctx.lineWidth = 1.6;
  ctx.stroke();
  ctx.font = `600 13px ${FONT}`;
  ctx.fillStyle = INKS.ink;
  ctx.textAlign = 'center';
  ctx.textBaseline = 'middle';
  ctx.fillText(words, x, y + 0.5);
}

/** Places for a tag beside the seam of a patch, on the side of what it is sewn to. CSS pixels. */
function spotsBeside({ camera }: Pen, { seam, polygon }: Patch, width: number): readonly Point[] {
  if (seam === null) return [];
  const [a, b] = seam;
  const [nx, ny] = towards(seam, centroid(polygon));
  return SHARES.map((share): Point => {
    const [x, y] = toScreen(camera, [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])]);
    return [x - nx * (OFF_PX + width / 2), y - ny * OFF_PX];
  });
}

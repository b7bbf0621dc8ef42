import type { Block, Fabric, Unit } from '../../document/project.ts';
import { formatLength } from '../../geometry/length.ts';
import type { Point } from '../../geometry/point.ts';
import { boxOf, distance, middle } from '../../geometry/ring.ts';
import type { Finding, PiecingPlan } from '../../piecing/plan.ts';
import { toScreen, type ViewSize } from '../camera.ts';
import { drawStretches } from './finding.ts';
import { INKS } from './inks.ts';
import { drawJoins } from './joins.ts';
import { drawLines, drawOutlineLine } from './lines.ts';
import { drawPatches } from './patches.ts';
import { FONT, type Pen, strokePath } from './pen.ts';

/** What is smaller than this on the screen is shown in a lens as well, CSS pixels. */
const SMALL_PX = 30;

/** Radius of the lens, how large what it shows becomes in it, and how far off it stands. CSS pixels. */
const RADIUS = 66;
const SHOWN_PX = 54;
const AWAY_PX = 118;

/** Radius of the ring round the place itself, CSS pixels. */
const RING_PX = 13;

interface LensView {
  readonly block: Block;
  readonly plan: PiecingPlan;
  readonly finding: Finding;
  readonly fabrics: ReadonlyMap<string, Fabric>;
  readonly asGrey: boolean;
  readonly view: ViewSize;
  readonly unit: Unit;
}

/**
 * A lens over the place of a finding that is too small to be seen at the present size: a jog of 1/8 in, an end a hair
 * short of its line. Below it stands how long the stretch is.
 */
export function drawLens(pen: Pen, { block, plan, finding, fabrics, asGrey, view, unit }: LensView): void {
  const points = finding.stretches.flat();
  if (points.length === 0) return;
  const { minX, minY, maxX, maxY } = boxOf(points);
  const extent = Math.hypot(maxX - minX, maxY - minY);
  if (extent === 0 || extent * pen.camera.scale > SMALL_PX) return;
  const { ctx, camera } = pen;
  const at = middle([minX, minY], [maxX, maxY]);
  const place = toScreen(camera, at);
  const [cx, cy] = standFor(place, view);

  ctx.beginPath();
  ctx.arc(...place, RING_PX, 0, 2 * Math.PI);
  const away = distance(place, [cx, cy]);
  const [ux, uy] = [(cx - place[0]) / away, (cy - place[1]) / away];
  ctx.moveTo(place[0] + ux * RING_PX, place[1] + uy * RING_PX);
  ctx.lineTo(cx - ux * RADIUS, cy - uy * RADIUS);
  strokePath(pen, { color: INKS.ink, width: 1.8, halo: INKS.sheet });

  const scale = SHOWN_PX / extent;
  const near: Pen = { ctx, camera: { scale, x: cx - at[0] * scale, y: cy - at[1] * scale } };
  ctx.save();
  ctx.beginPath();
  ctx.arc(cx, cy, RADIUS, 0, 2 * Math.PI);
  ctx.fillStyle = INKS.sheet;
  ctx.fill();
  ctx.clip();
  drawPatches(near, plan, fabrics, asGrey);
  drawLines(
    near,
    block.cuts.map(({ from, to }) => [from, to]),
    false,
  );
  drawOutlineLine(near, block.outline, true);
  drawJoins(near, plan.joins);
  drawStretches(near, finding);
  drawPinNames(near, plan, points);
  ctx.restore();
  ctx.beginPath();
  ctx.arc(cx, cy, RADIUS, 0, 2 * Math.PI);
  strokePath(pen, { color: INKS.ink, width: 2.4, halo: INKS.sheet });
  const length = unit === 'in' ? Math.max(1, Math.round(extent * 64)) / 64 : extent;
  drawCaption(pen, formatLength(length, unit), cx, cy + RADIUS);
}

/** Where the lens stands: slantwise from its place, wholly in sight. */
function standFor([x, y]: Point, view: ViewSize): Point {
  const slant = AWAY_PX * Math.SQRT1_2;
  const stands = [
    [1, -1],
    [-1, -1],
    [1, 1],
    [-1, 1],
  ].map(([dx, dy]): Point => [x + dx! * slant, y + dy! * slant]);
  const isInSight = ([sx, sy]: Point): boolean =>
    sx > RADIUS && sy > RADIUS && sx < view.width - RADIUS && sy < view.height - 1.6 * RADIUS;
  return stands.find(isInSight) ?? stands[0]!;
}

/** The names of the registration points at a stretch's ends, beside the stretch. */
function drawPinNames({ ctx, camera }: Pen, plan: PiecingPlan, ends: readonly Point[]): void {
  const { minX, minY, maxX, maxY } = boxOf(ends);
  const isUpright = maxY - minY > maxX - minX;
  ctx.font = `600 14px ${FONT}`;
  ctx.textBaseline = 'middle';
  ctx.textAlign = isUpright ? 'left' : 'center';
  ctx.lineJoin = 'round';
  for (const { points } of plan.joins)
    for (const { at, label } of points) {
      if (!ends.some((end) => distance(end, at) === 0)) continue;
      const [x, y] = toScreen(camera, at);
      const [left, top] = isUpright ? [x + 12, y] : [x, y + 19];
      ctx.lineWidth = 4;
      ctx.strokeStyle = INKS.sheet;
      ctx.strokeText(label, left, top);
      ctx.fillStyle = INKS.ink;
      ctx.fillText(label, left, top);
    }
}

function drawCaption(pen: Pen, text: string, x: number, y: number): void {
  const { ctx } = pen;
  ctx.font = `600 13px ${FONT}`;
  const width = ctx.measureText(text).width + 16;
  ctx.beginPath();
  ctx.roundRect(x - width / 2, y - 11, width, 22, 11);
  ctx.fillStyle = INKS.ink;
  ctx.fill();
  strokePath(pen, { color: INKS.sheet, width: 1.2 });
  ctx.fillStyle = INKS.sheet;
  ctx.textAlign = 'center';
  ctx.textBaseline = 'middle';
  ctx.fillText(text, x, y + 0.5);
}

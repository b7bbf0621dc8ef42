import type { Block, Fabric } from '../../document/project.ts';
import type { Point, Ring } from '../../geometry/point.ts';
import { boxOf } from '../../geometry/ring.ts';
import type { PiecingPlan } from '../../piecing/plan.ts';
import type { ViewSize } from '../camera.ts';
import type { Mark } from '../tools/tool.ts';
import { INKS } from './inks.ts';
import { drawLines, drawOutlineLine } from './lines.ts';
import { drawPatches } from './patches.ts';
import { type Pen, strokeLine, strokePath } from './pen.ts';
import type { Glass } from './slip.ts';
import { drawSnapSign } from './snap-sign.ts';

/** Radius of the loupe, how far it stands from the finger, and how much larger things are in it. */
const RADIUS_PX = 56;
const AWAY_PX = 100;
const LARGER = 2.2;

interface LoupeView {
  readonly block: Block | null;
  readonly plan: PiecingPlan | null;
  readonly fabrics: ReadonlyMap<string, Fabric>;
  readonly asGrey: boolean;
  readonly marks: readonly Mark[];
  /** Where the finger lies, CSS pixels. */
  readonly finger: Point;
  readonly view: ViewSize;
}

/** Where the loupe stands: above the finger; near the upper edge beside it, away from the nearer side. */
export function loupeFor([x, y]: Point, { width }: ViewSize): Glass {
  const within = (at: number): number => Math.max(RADIUS_PX + 4, Math.min(width - RADIUS_PX - 4, at));
  const above = y - AWAY_PX;
  if (above >= RADIUS_PX + 4) return { center: [within(x), above], radius: RADIUS_PX };
  const side = x < width / 2 ? 1 : -1;
  return { center: [within(x + side * (AWAY_PX + 16)), Math.max(RADIUS_PX + 4, y - 20)], radius: RADIUS_PX };
}

/**
 * A loupe over a finger that draws or drags: what lies beneath it, larger, with the very place in the middle. Returns
 * where it stands; null where nothing is being placed.
 */
export function drawLoupe(pen: Pen, of: LoupeView): Glass | null {
  const { block, plan, fabrics, asGrey, marks, finger, view } = of;
  const snap = marks.find((mark) => mark.kind === 'snap')?.snap;
  if (snap === undefined) return null;
  const glass = loupeFor(finger, view);
  const { ctx } = pen;
  const [cx, cy] = glass.center;
  const scale = pen.camera.scale * LARGER;
  const near: Pen = { ctx, camera: { scale, x: cx - snap.at[0] * scale, y: cy - snap.at[1] * scale } };
  const half = RADIUS_PX / scale;
  const isNear = (ring: Ring): boolean => {
    const { minX, minY, maxX, maxY } = boxOf(ring);
    const [x, y] = snap.at;
    return minX <= x + half && maxX >= x - half && minY <= y + half && maxY >= y - half;
  };
  ctx.save();
  circle(ctx, glass);
  ctx.fillStyle = INKS.sheet;
  ctx.fill();
  ctx.clip();
  if (plan !== null)
    drawPatches(
      near,
      { ...plan, patches: plan.patches.filter(({ polygon }) => isNear(polygon)) },
      fabrics,
      asGrey,
    );
  if (block !== null) {
    const cuts = block.cuts.filter(({ from, to }) => isNear([from, to]));
    drawLines(
      near,
      cuts.map(({ from, to }) => [from, to]),
      false,
    );
    drawOutlineLine(near, block.outline, true);
  }
  for (const mark of marks) {
    const points = runOf(mark);
    if (points.length > 1) strokeLine(near, points, { color: INKS.indigo, width: 2.4, halo: INKS.sheet });
  }
  drawSnapSign(near, snap);
  ctx.restore();
  circle(ctx, glass);
  strokePath(pen, { color: INKS.indigo, width: 2.4, halo: INKS.sheet });
  return glass;
}

function runOf(mark: Mark): Ring {
  switch (mark.kind) {
    case 'line':
    case 'run':
      return mark.segment;
    case 'outline':
      return mark.to === null ? mark.points : [...mark.points, mark.to];
    default:
      return [];
  }
}

function circle(ctx: CanvasRenderingContext2D, { center, radius }: Glass): void {
  ctx.beginPath();
  ctx.arc(...center, radius, 0, 2 * Math.PI);
}

import { holdsCircle } from '../../geometry/inner-circle.ts';
import { STRAIGHT_IN } from '../../geometry/lattice.ts';
import { formatLength } from '../../geometry/length.ts';
import type { Point, Ring } from '../../geometry/point.ts';
import { centroid, cross, distance, distanceToSegment } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import type { Rule } from './rule.ts';

/** Narrower than this and both allowances meet under the patch: 1/4 in. */
export const NARROWEST_IN = 0.25;

/** Sharper than this and the tip is lost in the seam: 15°. */
export const SHARPEST_DEGREES = 15;

/** Patches narrower than a seam allowance. */
export const sliver: Rule = {
  code: 'sliver',
  title: phrase('Sliver'),
  severity: 'caution',
  check: ({ patches, options }) =>
    patches.flatMap((patch) => {
      const least = NARROWEST_IN - STRAIGHT_IN;
      if (widthOf(patch.polygon) >= least && (!isBent(patch.polygon) || holdsCircle(patch, least / 2)))
        return [];
      return [
        {
          at: centroid(patch.polygon),
          patches: [patch.id],
          message: phrase(
            '{id} is narrower than {least}: its allowances lie on each other, and a stitch beside the line shows. Make it wider or merge it with a neighbour.',
            { id: patch.id, least: formatLength(NARROWEST_IN, options.unit ?? 'in') },
          ),
        },
      ];
    }),
};

/** Corners sharper than 15°. */
export const sharpAngle: Rule = {
  code: 'sharp-angle',
  title: phrase('Corner sharper than 15°'),
  severity: 'caution',
  check: ({ patches }) =>
    patches.flatMap((patch) => {
      const corners = cornersOf(patch.polygon);
      return corners.flatMap((corner, k) => {
        const before = corners[(k + corners.length - 1) % corners.length]!;
        const after = corners[(k + 1) % corners.length]!;
        const angle = angleAt(before, corner, after);
        if (angle >= SHARPEST_DEGREES) return [];
        return [
          {
            at: corner,
            patches: [patch.id],
            message: phrase(
              '{id} has a corner of {max}°: its tip sinks into the seam, and its piece must be cut long to cover. A blunter corner sews truer.',
              { id: patch.id, max: Math.max(1, Math.round(angle)) },
            ),
          },
        ];
      });
    }),
};

/** Corners of a ring without the vertices that stand in the middle of a straight side. */
export function cornersOf(ring: Ring): Point[] {
  const corners = [...ring];
  for (let k = 0; k < corners.length && corners.length > 3; ) {
    const before = corners[(k + corners.length - 1) % corners.length]!;
    const after = corners[(k + 1) % corners.length]!;
    if (distanceToSegment(corners[k]!, before, after) <= STRAIGHT_IN) corners.splice(k, 1);
    else k++;
  }
  return corners;
}

function angleAt(before: Point, corner: Point, after: Point): number {
  const u = [before[0] - corner[0], before[1] - corner[1]] as const;
  const v = [after[0] - corner[0], after[1] - corner[1]] as const;
  const turn = Math.atan2(v[0] * u[1] - v[1] * u[0], u[0] * v[0] + u[1] * v[1]);
  return ((turn * 180) / Math.PI + 360) % 360;
}

/** Has it inward corners, so that it may be narrow everywhere and yet wide from any two sides? */
function isBent(polygon: Ring): boolean {
  const corners = cornersOf(polygon);
  const n = corners.length;
  return corners.some((p, k) => cross(corners[(k + n - 1) % n]!, p, corners[(k + 1) % n]!) < 0);
}

/** The least distance between two parallel lines that hold the ring between them. */
export function widthOf(ring: Ring): number {
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k < ring.length; k++) {
    const a = ring[k]!;
    const b = ring[(k + 1) % ring.length]!;
    const length = distance(a, b);
    if (length <= STRAIGHT_IN) continue;
    let low = 0;
    let high = 0;
    for (const p of ring) {
      const off = ((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / length;
      low = Math.min(low, off);
      high = Math.max(high, off);
    }
    least = Math.min(least, high - low);
  }
  return least;
}

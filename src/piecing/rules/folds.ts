import { STRAIGHT_IN } from '../../geometry/lattice.ts';
import type { Point, Ring } from '../../geometry/point.ts';
import { boxOf, cross, distance, lengthOf, middle } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import { listed, type Rule } from './rule.ts';
import { cornersOf } from './shape-of-patch.ts';

/**
 * Seams whose line, drawn on across the paper, runs over patches sewn before: the paper is folded along that line to
 * trim, and must first be freed from the stitches it crosses. Happens only where a foundation is not convex.
 */
export const foldOverStitches: Rule = {
  code: 'fold-over-stitches',
  title: phrase('Fold across stitches'),
  severity: 'note',
  check: ({ patches, sections }) => {
    const byId = new Map(patches.map((patch) => [patch.id, patch]));
    return sections.flatMap((section) => {
      if (section.holes.length === 0 && isConvex(section.outline)) return [];
      const earlier: Sewn[] = [];
      return section.order.flatMap((id) => {
        const { seam, polygon } = byId.get(id)!;
        const crossed = seam ? earlier.filter((one) => straddles(one, ...seam)).map((one) => one.id) : [];
        earlier.push(sewn(id, polygon));
        if (!seam || crossed.length === 0) return [];
        return [
          {
            at: middle(...seam),
            patches: [id, ...crossed],
            stretches: [seam],
            message: phrase(
              'The fold for {id} runs on across {crossed}, sewn before it: free the paper from those stitches along the line before folding it back to trim.',
              { id, crossed: listed(crossed) },
            ),
          },
        ];
      });
    });
  },
};

/** In a convex section every stage is convex, and every seam a full chord of what is there. */
function isConvex(outline: Ring): boolean {
  const corners = cornersOf(outline);
  const n = corners.length;
  return corners.every((p, k) => cross(corners[(k + n - 1) % n]!, p, corners[(k + 1) % n]!) >= 0);
}

/** A patch sewn before, and a circle round it, by which most are told not to lie on a line. */
interface Sewn {
  readonly id: string;
  readonly polygon: Ring;
  readonly middle: Point;
  readonly radius: number;
}

function sewn(id: string, polygon: Ring): Sewn {
  const { minX, minY, maxX, maxY } = boxOf(polygon);
  return {
    id,
    polygon,
    middle: [(minX + maxX) / 2, (minY + maxY) / 2],
    radius: lengthOf(maxX - minX, maxY - minY) / 2,
  };
}

function straddles({ polygon, middle: [x, y], radius }: Sewn, a: Point, b: Point): boolean {
  const length = distance(a, b);
  if (Math.abs((b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0])) > radius * length) return false;
  let isOver = false;
  let isUnder = false;
  for (const p of polygon) {
    const off = ((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / length;
    if (off > STRAIGHT_IN) isOver = true;
    if (off < -STRAIGHT_IN) isUnder = true;
  }
  return isOver && isUnder;
}

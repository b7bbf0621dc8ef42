import { STRAIGHT_IN } from '../../geometry/lattice.ts';
import type { Point } from '../../geometry/point.ts';
import { distance, middle } from '../../geometry/ring.ts';
import { listed, type Rule } from './rule.ts';

/**
 * Seams whose line, drawn on across the paper, runs over patches sewn before: the paper is folded along that line to
 * trim, and must first be freed from the stitches it crosses. Happens only where a foundation is not convex.
 */
export const foldOverStitches: Rule = {
  code: 'fold-over-stitches',
  title: 'Fold across stitches',
  severity: 'note',
  check: ({ patches, sections }) => {
    const byId = new Map(patches.map((patch) => [patch.id, patch]));
    return sections.flatMap((section) => {
      const earlier: string[] = [];
      return section.order.flatMap((id) => {
        const { seam } = byId.get(id)!;
        const crossed = seam ? earlier.filter((other) => straddles(byId.get(other)!.polygon, ...seam)) : [];
        earlier.push(id);
        if (!seam || crossed.length === 0) return [];
        return [
          {
            at: middle(...seam),
            patches: [id, ...crossed],
            stretches: [seam],
            message: `The fold for ${id} runs on across ${listed(crossed)}, sewn before it: free the paper from those stitches along the line before folding it back to trim.`,
          },
        ];
      });
    });
  },
};

function straddles(ring: readonly Point[], a: Point, b: Point): boolean {
  const length = distance(a, b);
  let isOver = false;
  let isUnder = false;
  for (const p of ring) {
    const off = ((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / length;
    if (off > STRAIGHT_IN) isOver = true;
    if (off < -STRAIGHT_IN) isUnder = true;
  }
  return isOver && isUnder;
}

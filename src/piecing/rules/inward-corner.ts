import { STRAIGHT_IN } from '../../geometry/lattice.ts';
import { cross, distanceToSegment } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import type { Rule } from './rule.ts';

/** A patch with a corner that points into it: the cloth must be clipped there, and a neighbour set in. */
export const inwardCorner: Rule = {
  code: 'inward-corner',
  title: phrase('Patch with an inward corner'),
  severity: 'caution',
  check: ({ patches }) =>
    patches.flatMap((patch) => {
      const n = patch.polygon.length;
      const corner = patch.polygon.find((p, k) => {
        const before = patch.polygon[(k + n - 1) % n]!;
        const after = patch.polygon[(k + 1) % n]!;
        return cross(before, p, after) < 0 && distanceToSegment(p, before, after) > STRAIGHT_IN;
      });
      if (!corner) return [];
      return [
        {
          at: corner,
          patches: [patch.id],
          message: phrase(
            '{id} has a corner that points inward, so its cloth must be clipped there. A line from that corner onward makes two plain patches of it.',
            { id: patch.id },
          ),
        },
      ];
    }),
};

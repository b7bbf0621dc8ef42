import { ringOf } from '../../geometry/division.ts';
import { centroid } from '../../geometry/ring.ts';
import { cellsOf } from '../region.ts';
import type { Rule } from './rule.ts';

/** Patches that hold each other in a ring: none can come last, and no straight seam runs right across them. */
export const ringOfPatches: Rule = {
  code: 'ring',
  severity: 'trouble',
  check: ({ pattern, rings, idOf }) =>
    rings.map((ring) => {
      const cells = cellsOf(ring);
      const ids = cells.map((c) => idOf[c]!);
      const spots = cells.map((c) => centroid(ringOf(pattern.division, pattern.division.faces[c]!.edge)));
      const middle = spots.reduce(([x, y], [u, v]) => [x + u / spots.length, y + v / spots.length] as const, [
        0, 0,
      ] as const);
      const named =
        ids.length <= 8 ? ids.join(', ') : `${ids.slice(0, 7).join(', ')} and ${ids.length - 7} more`;
      return {
        at: middle,
        patches: ids,
        message: `${named} hold each other: no straight seam runs right across them, so one seam must be set in. Drawing a line on to the next one, or to the edge, can open the ring.`,
      };
    }),
};

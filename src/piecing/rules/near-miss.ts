import { distance, middle } from '../../geometry/ring.ts';
import type { Rule } from './rule.ts';

/** Nearer than this and two meetings on a join look like one that was missed: 1/4 in. */
export const NEAR_MISS_IN = 0.25;

/** Two seams that come to a join from its two sides and nearly meet. */
export const nearMiss: Rule = {
  code: 'near-miss',
  severity: 'caution',
  check: ({ joins }) =>
    joins.flatMap((join) =>
      join.points.flatMap((point, k) => {
        const next = join.points[k + 1];
        if (point.kind !== 'junction' || next?.kind !== 'junction') return [];
        if (distance(point.at, next.at) >= NEAR_MISS_IN) return [];
        return [
          {
            at: middle(point.at, next.at),
            stretches: [[point.at, next.at] as const],
            message: `On join ${join.step}, ${point.label} and ${next.label} lie less than 1/4 in apart: two pins where one would do, and a jog that looks like a slip. Let the seams meet.`,
          },
        ];
      }),
    ),
};

import type { Point } from '../../geometry/point.ts';
import { distance, middle } from '../../geometry/ring.ts';
import type { Join, Patch } from '../plan.ts';
import type { Rule } from './rule.ts';

/** Nearer than this and two meetings on a join look like one that was missed: 1/4 in. */
export const NEAR_MISS_IN = 0.25;

/** Two seams that come to a join from its two sides and nearly meet. */
export const nearMiss: Rule = {
  code: 'near-miss',
  title: 'Seams that nearly meet',
  severity: 'caution',
  check: ({ joins, patches }) =>
    joins.flatMap((join) =>
      join.points.flatMap((point, k) => {
        const next = join.points[k + 1];
        if (point.kind !== 'junction' || next?.kind !== 'junction') return [];
        if (distance(point.at, next.at) >= NEAR_MISS_IN) return [];
        if (comesFromLeft(join, patches, point.at) === comesFromLeft(join, patches, next.at)) return [];
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

/** Of a junction: is it the left unit that has two patches ending there? */
function comesFromLeft(join: Join, patches: readonly Patch[], at: Point): boolean {
  const isLeft = new Set(join.left);
  const ending = patches.filter(
    ({ section, polygon }) => isLeft.has(section) && polygon.some((p) => p[0] === at[0] && p[1] === at[1]),
  );
  return ending.length > 1;
}

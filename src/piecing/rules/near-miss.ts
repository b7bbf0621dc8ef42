import { formatLength } from '../../geometry/length.ts';
import type { Point } from '../../geometry/point.ts';
import { pointNumbers } from '../../geometry/point-numbers.ts';
import { distance, middle } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import type { Join, Patch } from '../plan.ts';
import type { Rule } from './rule.ts';

/** Nearer than this and two meetings on a join look like one that was missed: 1/4 in. */
export const NEAR_MISS_IN = 0.25;

/** Two seams that come to a join from its two sides and nearly meet. */
export const nearMiss: Rule = {
  code: 'near-miss',
  title: phrase('Seams that nearly meet'),
  severity: 'caution',
  check: ({ joins, patches, options }) => {
    let corners: PatchesAt | null = null;
    const patchesAt: PatchesAt = (at) => {
      corners ??= cornersOfAll(patches);
      return corners(at);
    };
    return joins.flatMap((join) =>
      join.points.flatMap((point, k) => {
        const next = join.points[k + 1];
        if (point.kind !== 'junction' || next?.kind !== 'junction') return [];
        if (distance(point.at, next.at) >= NEAR_MISS_IN) return [];
        if (comesFromLeft(join, patchesAt(point.at)) === comesFromLeft(join, patchesAt(next.at))) return [];
        return [
          {
            at: middle(point.at, next.at),
            stretches: [[point.at, next.at] as const],
            message: phrase(
              'On join {step}, {label} and {label2} lie less than {most} apart: two pins where one would do, and a jog that looks like a slip. Let the seams meet.',
              {
                step: join.step,
                label: point.label,
                label2: next.label,
                most: formatLength(NEAR_MISS_IN, options.unit ?? 'in'),
              },
            ),
          },
        ];
      }),
    );
  },
};

/** The patches that have a corner at a spot. */
type PatchesAt = (at: Point) => readonly Patch[];

function cornersOfAll(patches: readonly Patch[]): PatchesAt {
  const { numberOf } = pointNumbers();
  const byNumber: Patch[][] = [];
  for (const patch of patches)
    for (const corner of patch.polygon) {
      const number = numberOf(corner);
      byNumber[number] ??= [];
      byNumber[number].push(patch);
    }
  return (at) => byNumber[numberOf(at)] ?? [];
}

/** Of a junction: is it the left unit that has two patches ending there? */
function comesFromLeft(join: Join, patches: readonly Patch[]): boolean {
  const isLeft = new Set(join.left);
  return patches.filter(({ section }) => isLeft.has(section)).length > 1;
}

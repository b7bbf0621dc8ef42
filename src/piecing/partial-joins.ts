import { isOneStretch } from '../geometry/one-stretch.ts';
import type { Point, Segment } from '../geometry/point.ts';
import { distance } from '../geometry/ring.ts';
import type { Join } from './plan.ts';

/**
 * Joins with the two parts of each partial seam told: the closing join says which seam it finishes, and the one begun says
 * where to stop. A closing join that goes on from no earlier seam turns its corner: it is set in.
 */
export function withPartsTold(joins: readonly Join[]): Join[] {
  const told = [...joins];
  joins.forEach((join, k) => {
    if (join.kind !== 'partial') return;
    const found = joins
      .slice(0, k)
      .flatMap((begun, b) =>
        begun.kind === 'straight'
          ? join.stretches.flatMap((rest) => {
              const at = meeting(rest, begun.seam);
              return at && isOneStretch([rest, begun.seam]) ? [{ b, rest, at }] : [];
            })
          : [],
      )
      .at(-1);
    if (!found) {
      told[k] = { ...join, kind: 'set-in' };
      return;
    }
    told[k] = { ...join, finishes: { step: joins[found.b]!.step, rest: found.rest } };
    told[found.b] = { ...told[found.b]!, leftOpen: { step: join.step, at: found.at } };
  });
  return told;
}

/** A seam that is begun is left open for the last inch, or of a short one for its half: room to fold the loose part away. */
const LEFT_OPEN_IN = 1;

/** Where the stitching of a seam stops that a later join finishes, and goes on again; null of any other seam. */
export function stopOf({ seam, leftOpen }: Pick<Join, 'seam' | 'leftOpen'>): Point | null {
  if (!leftOpen) return null;
  const { at } = leftOpen;
  const other = seam.reduce((a, b) => (distance(a, at) >= distance(b, at) ? a : b));
  const length = distance(at, other);
  const share = Math.min(LEFT_OPEN_IN, length / 2) / length;
  return [at[0] + share * (other[0] - at[0]), at[1] + share * (other[1] - at[1])];
}

/** The end that two stretches have in common. */
const meeting = (one: Segment, other: Segment): Point | null =>
  one.find((end) => other.some(([x, y]) => x === end[0] && y === end[1])) ?? null;

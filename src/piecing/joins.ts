import { OUTSIDE } from '../geometry/division.ts';
import { STRAIGHT_IN } from '../geometry/lattice.ts';
import type { Point, Segment } from '../geometry/point.ts';
import { distance, farthestPair } from '../geometry/ring.ts';
import { seamMeets } from './partings.ts';
import { endOf, headed, type Pattern, startOf } from './pattern.ts';
import type { Join } from './plan.ts';
import { type Region, sidesOf } from './region.ts';
import { registrationPoints, type Spot } from './registration.ts';

/** The seam between two units, and what is pinned along it. Letters of each unit's sections as the plan tells them. */
export function joinOf(
  pattern: Pattern,
  step: number,
  kind: Join['kind'],
  leftUnit: Region,
  rightUnit: Region,
  left: readonly string[],
  right: readonly string[],
): Join {
  const chains = chainsBetween(pattern, leftUnit, rightUnit);
  const { face } = pattern.division;
  const stretches: Segment[] = [];
  const runs = chains.map((chain) => {
    const met = chain.map((h, k): Met => {
      const before = chain[k - 1];
      const at = startOf(pattern, h);
      const isEnd = before === undefined || turns(pattern, before, h);
      stretches.push([isEnd ? at : stretches.pop()![0], endOf(pattern, h)]);
      // A patch that gives way to the next is met even where a notch of the outline lies between the two.
      const changes = (side: 0 | 1): boolean =>
        before !== undefined && face[before ^ side] !== face[h ^ side];
      return {
        at,
        isEnd,
        fromLeft: changes(0) || seamMeets(pattern, leftUnit, h),
        fromRight: changes(1) || seamMeets(pattern, rightUnit, h),
      };
    });
    const last: Met = { at: endOf(pattern, chain.at(-1)!), isEnd: true, fromLeft: false, fromRight: false };
    return [...met, last];
  });
  const isPieced = kind === 'straight' && stretches.length > 1;
  if (isPieced) {
    const whole = asOneStretch(runs.flat(), stretches);
    runs.splice(0, runs.length, whole);
    stretches.splice(0, stretches.length, [whole[0]!.at, whole.at(-1)!.at]);
  }
  const seam: Segment = [runs[0]![0]!.at, runs.at(-1)!.at(-1)!.at];
  const isTurned = headed(...seam)[0] !== seam[0];
  return {
    step,
    left,
    right,
    kind,
    seam: isTurned ? [seam[1], seam[0]] : seam,
    stretches: isTurned ? stretches.map(([a, b]): Segment => [b, a]).reverse() : stretches,
    points: registrationPoints(
      step,
      (isTurned ? runs.map((run) => run.toReversed()).reverse() : runs).map((run) =>
        spotsOf(run, isPieced ? alongOf(seam) : distance),
      ),
    ),
  };
}

/**
 * What meets a seam that goes from one line to another, or over a gap, and is straight for all a printed line shows: in
 * turn from one of its two farthest ends to the other.
 */
function asOneStretch(met: readonly Met[], stretches: readonly Segment[]): Met[] {
  const [a, b] = farthestPair(stretches.flat());
  const along = ({ at }: Met): number => (at[0] - a[0]) * (b[0] - a[0]) + (at[1] - a[1]) * (b[1] - a[1]);
  const inTurn = met.toSorted((p, q) => along(p) - along(q));
  return inTurn.map((one, k) => ({ ...one, isEnd: k === 0 || k === met.length - 1 }));
}

/** What meets a join at a vertex. */
interface Met {
  readonly at: Point;
  readonly isEnd: boolean;
  readonly fromLeft: boolean;
  readonly fromRight: boolean;
}

/** How far apart two spots lie along a stretch: to either side of a pieced line they are pinned as one. */
const alongOf =
  ([a, b]: Segment) =>
  (p: Point, q: Point): number =>
    Math.abs((q[0] - p[0]) * (b[0] - a[0]) + (q[1] - p[1]) * (b[1] - a[1])) / distance(a, b);

/** The spots worth a pin, in turn. Vertices closer than a printed line is wide are one spot. */
function spotsOf(met: readonly Met[], apart: (p: Point, q: Point) => number): Spot[] {
  const merged: Met[] = [];
  for (const next of met) {
    if (!next.isEnd && !next.fromLeft && !next.fromRight) continue;
    const last = merged.at(-1);
    if (!last || apart(last.at, next.at) > STRAIGHT_IN || (last.isEnd && next.isEnd)) {
      merged.push(next);
      continue;
    }
    merged[merged.length - 1] = {
      at: next.isEnd ? next.at : last.at,
      isEnd: last.isEnd || next.isEnd,
      fromLeft: last.fromLeft || next.fromLeft,
      fromRight: last.fromRight || next.fromRight,
    };
  }
  return merged.map(({ at, isEnd, fromLeft, fromRight }): Spot => {
    const kind = isEnd ? 'end' : fromLeft && fromRight ? 'match' : 'junction';
    return { at, kind };
  });
}

/** The two ends of the seam between two units. */
export function seamEnds(pattern: Pattern, a: Region, b: Region): Segment {
  const chains = chainsBetween(pattern, a, b);
  return [startOf(pattern, chains[0]![0]!), endOf(pattern, chains.at(-1)!.at(-1)!)];
}

/** Half-edges of `a` that lie on `b`, strung together: each chain runs on from vertex to vertex. */
function chainsBetween(pattern: Pattern, a: Region, b: Region): number[][] {
  const { face, origin } = pattern.division;
  const byStart = new Map<number, number[]>();
  const all: number[] = [];
  for (const h of sidesOf(pattern, a)) {
    const beyond = face[h ^ 1]!;
    if (beyond === OUTSIDE || b[beyond] !== 1) continue;
    all.push(h);
    const others = byStart.get(origin[h]!);
    if (others) others.push(h);
    else byStart.set(origin[h]!, [h]);
  }
  const isEnd = new Set(all.map((h) => origin[h ^ 1]!));
  const used = new Set<number>();
  const chains: number[][] = [];
  // Open chains first, from their starts; what remains are closed ones.
  for (const h of [...all.filter((e) => !isEnd.has(origin[e]!)), ...all]) {
    if (used.has(h)) continue;
    const chain: number[] = [];
    let at: number | undefined = h;
    while (at !== undefined) {
      chain.push(at);
      used.add(at);
      at = byStart.get(origin[at ^ 1]!)?.find((e) => !used.has(e));
    }
    chains.push(fromCorner(pattern, chain));
  }
  return chains;
}

/** Does a chain go on along another line, or turn back on the same one, as round the tip of a sliver? */
function turns(pattern: Pattern, before: number, after: number): boolean {
  if (pattern.straight[before >> 1] !== pattern.straight[after >> 1]) return true;
  const [a, b, c] = [startOf(pattern, before), startOf(pattern, after), endOf(pattern, after)];
  return (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1]) < 0;
}

/** A chain that closes on itself, begun where it turns a corner rather than in the middle of a line. */
function fromCorner(pattern: Pattern, chain: number[]): number[] {
  const { division } = pattern;
  if (division.origin[chain.at(-1)! ^ 1] !== division.origin[chain[0]!]) return chain;
  const corner = chain.findIndex((h, k) => turns(pattern, chain.at(k - 1)!, h));
  return corner <= 0 ? chain : [...chain.slice(corner), ...chain.slice(0, corner)];
}

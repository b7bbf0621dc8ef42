import { holdsPoint } from '../../geometry/inner-spot.ts';
import type { Point, Ring, Segment } from '../../geometry/point.ts';
import { distance } from '../../geometry/ring.ts';
import { type Mark, PT } from '../marks.ts';
import { CROSS_IN, type Frame } from './frame.ts';
import type { JoiningEdge } from './label-request.ts';

/** From one of several ticks at a point to the next, inches. */
export const TICK_GAP_IN = 2.2 * PT;

/** How far the bar of a stop reaches, inches. */
const STOP_BAR_IN = 1 / 8;

/** A sewing line that meets the outline at a very flat angle is ticked no farther than this × the allowance. */
const LONGEST_TICK = 3;

/** Within this angle of a registration tick a line's own tick would lie on it and is left out: 4°. */
const SAME_TICK = Math.cos((4 * Math.PI) / 180);

/** Crosses on the seam, a ring round those where seams must meet, and a tick across the allowance at each. */
export function registrationMarks(
  edges: readonly JoiningEdge[],
  { trims }: Frame,
  allowance: number,
): { readonly marks: readonly Mark[]; readonly ticks: readonly Segment[] } {
  const marks: Mark[] = [];
  const ticks: Segment[] = [];
  const crossed: Point[] = [];
  const ringed: Point[] = [];
  const isTurned = turnsAt(edges);
  for (const one of edges) {
    const { edge, points, stop, ticks: count } = one;
    const along = direction(edge);
    const outward: Point = [along[1], -along[0]];
    if (stop) marks.push(...stopMark(stop, along));
    for (const { at, kind } of points) {
      if (!crossed.some((other) => distance(other, at) < CROSS_IN / 4)) {
        crossed.push(at);
        marks.push(...cross(at, along));
      }
      if (kind === 'match' && !ringed.some((other) => distance(other, at) < CROSS_IN / 4)) {
        ringed.push(at);
        marks.push({ kind: 'circle', pen: 'registration', at, radius: CROSS_IN, filled: false });
      }
      if (allowance <= 0) continue;
      // Where a set-in seam turns its corner, ticks from both sides would lie across each other: cross and ring say it.
      if (isTurned(one, at)) {
        ticks.push([at, [at[0] + allowance * outward[0], at[1] + allowance * outward[1]]]);
        if (!ringed.some((other) => distance(other, at) < CROSS_IN / 4)) {
          ringed.push(at);
          marks.push({ kind: 'circle', pen: 'registration', at, radius: CROSS_IN, filled: false });
        }
        continue;
      }
      const tickFrom = (from: Point): Segment => {
        const far = Math.min(allowance, rayTo(trims, from, outward));
        return [from, [from[0] + far * outward[0], from[1] + far * outward[1]]];
      };
      ticks.push(tickFrom(at));
      // Several stand evenly about the point, so that they lie on one another on both mates.
      for (let k = 0; k < count; k++) {
        const aside = (k - (count - 1) / 2) * TICK_GAP_IN;
        const points = tickFrom([at[0] + aside * along[0], at[1] + aside * along[1]]);
        marks.push({ kind: 'line', pen: 'registration', points });
      }
    }
  }
  return { marks, ticks };
}

/** A dot on the seam with a bar into the section, clear of what is written in the allowance: stitch as far as here. */
const stopMark = (at: Point, [x, y]: Point): Mark[] => [
  { kind: 'circle', pen: 'registration', at, radius: 0.8 * CROSS_IN, filled: true },
  {
    kind: 'line',
    pen: 'registration',
    points: [at, [at[0] - STOP_BAR_IN * y, at[1] + STOP_BAR_IN * x]],
  },
];

/** Whether a point is a corner at which one join runs on along the next side of the paper. */
function turnsAt(edges: readonly JoiningEdge[]): (edge: JoiningEdge, at: Point) => boolean {
  return (edge, at) =>
    edge.step !== null &&
    edges.some(
      (other) =>
        other !== edge &&
        other.step === edge.step &&
        other.edge.some((end) => distance(end, at) < CROSS_IN / 4) &&
        edge.edge.some((end) => distance(end, at) < CROSS_IN / 4),
    );
}

/** Two arms aslant to the seam, so that neither hides in it. */
function cross(at: Point, along: Point): Mark[] {
  const c = Math.SQRT1_2 * CROSS_IN;
  const arms: readonly Point[] = [
    [c * (along[0] - along[1]), c * (along[0] + along[1])],
    [c * (along[0] + along[1]), c * (along[1] - along[0])],
  ];
  return arms.map(([x, y]) => ({
    kind: 'line',
    pen: 'registration',
    points: [
      [at[0] - x, at[1] - y],
      [at[0] + x, at[1] + y],
    ],
  }));
}

/** Where a sewing line meets the outline it runs on across the allowance, to the trim line. */
export function seamTicks(
  seams: readonly Segment[],
  { outline, holes, trims }: Frame,
  registrationTicks: readonly Segment[],
  allowance: number,
): Segment[] {
  const onOutline = new Set([outline, ...holes].flat().map(String));
  const ticks: Segment[] = [];
  for (const [a, b] of seams) {
    for (const [from, at] of [
      [b, a],
      [a, b],
    ] as const) {
      if (!onOutline.has(String(at))) continue;
      const along = direction([from, at]);
      // At an inward corner a line may run on into the section itself.
      if (holdsPoint({ polygon: outline, holes }, [at[0] + 1e-3 * along[0], at[1] + 1e-3 * along[1]]))
        continue;
      const marked = registrationTicks.some(([start, end]) => {
        const other = direction([start, end]);
        return distance(start, at) < 1e-3 && other[0] * along[0] + other[1] * along[1] > SAME_TICK;
      });
      if (marked) continue;
      const far = Math.min(LONGEST_TICK * allowance, rayTo(trims, at, along));
      ticks.push([at, [at[0] + far * along[0], at[1] + far * along[1]]]);
    }
  }
  return ticks;
}

/** Distance from a point along a unit direction to the first side of the rings ahead of it; infinite when none. */
function rayTo(rings: readonly Ring[], from: Point, along: Point): number {
  let nearest = Number.POSITIVE_INFINITY;
  for (const ring of rings) {
    ring.forEach((a, i) => {
      const b = ring[(i + 1) % ring.length]!;
      const sideA = along[0] * (a[1] - from[1]) - along[1] * (a[0] - from[0]);
      const sideB = along[0] * (b[1] - from[1]) - along[1] * (b[0] - from[0]);
      if (sideA > 0 === sideB > 0) return;
      const share = sideA / (sideA - sideB);
      const x = a[0] + share * (b[0] - a[0]) - from[0];
      const y = a[1] + share * (b[1] - a[1]) - from[1];
      const ahead = x * along[0] + y * along[1];
      if (ahead > 1e-4 && ahead < nearest) nearest = ahead;
    });
  }
  return nearest;
}

function direction([a, b]: Segment): Point {
  const length = distance(a, b);
  return [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
}

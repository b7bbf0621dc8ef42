import { onLattice } from '../document/limits.ts';
import type { Point, Ring, Segment } from '../geometry/point.ts';
import { samePlace } from '../geometry/segments.ts';
import { arcThrough, splineThrough } from './curves.ts';

/** How a chain goes from place to place: straight, in arcs that are given a third place, or rounded through all. */
export type ChainCurve = 'straight' | 'arcs' | 'rounded';

export interface ChainStyle {
  readonly curve: ChainCurve;
  /** Cuts that each curved stretch is laid as. */
  readonly legs: number;
}

/** A place that a chain has come to. */
export interface ChainStop {
  readonly at: Point;
  /** The place that the arc to it goes through; null for a straight or a rounded stretch. */
  readonly via: Point | null;
}

/** The legs of a chain, each a straight stretch of more than nothing. Closed, it comes back to its first stop. */
export function chainLegs(
  stops: readonly ChainStop[],
  style: ChainStyle,
  closed: boolean,
): readonly Segment[] {
  const points = chainPoints(stops, style, closed).map(onLattice);
  return points
    .slice(1)
    .map((to, k): Segment => [points[k]!, to])
    .filter(([from, to]) => !samePlace(from, to));
}

function chainPoints(stops: readonly ChainStop[], { curve, legs }: ChainStyle, closed: boolean): Ring {
  const [first] = stops;
  if (first === undefined) return [];
  if (curve === 'rounded') {
    return splineThrough(
      stops.map(({ at }) => at),
      legs,
      closed,
    );
  }
  const points: Point[] = [first.at];
  for (const { at, via } of stops.slice(1))
    points.push(...(via === null ? [at] : arcThrough(points.at(-1)!, via, at, legs).slice(1)));
  if (closed) points.push(first.at);
  return points;
}

import { snap } from '../geometry/lattice.ts';
import type { Point } from '../geometry/point.ts';
import { distance } from '../geometry/ring.ts';
import { letters } from './ids.ts';
import type { PointKind, RegistrationPoint } from './plan.ts';

/** No stretch between two registration points is longer than this. Trade practice: a mark every 3 to 4 in. */
export const MAX_STRETCH_IN = 4;

/** A spot along a join where something meets it, before labels and guides. */
export interface Spot {
  readonly at: Point;
  readonly kind: Exclude<PointKind, 'guide'>;
}

/**
 * Registration points of a join: the spots of each unbroken run in turn, guides put in evenly where a stretch is
 * longer than 4 in, each labelled with the join's step and a letter (`2a`, `2b` …).
 */
export function registrationPoints(step: number, runs: readonly (readonly Spot[])[]): RegistrationPoint[] {
  const places: { at: Point; kind: PointKind }[] = [];
  for (const spots of runs)
    spots.forEach((spot, k) => {
      const before = spots[k - 1];
      if (before) for (const at of guidesBetween(before.at, spot.at)) places.push({ kind: 'guide', at });
      places.push(spot);
    });
  return places.map(({ at, kind }, k) => ({ label: `${step}${letters(k).toLowerCase()}`, at, kind }));
}

/** Spots evenly between two, on the lattice, so that from each to the next is no more than `MAX_STRETCH_IN`. */
function guidesBetween(from: Point, to: Point): Point[] {
  for (let parts = Math.ceil(distance(from, to) / MAX_STRETCH_IN - 1e-9); ; parts++) {
    const guides: Point[] = [];
    for (let part = 1; part < parts; part++)
      guides.push([
        snap(from[0] + ((to[0] - from[0]) * part) / parts),
        snap(from[1] + ((to[1] - from[1]) * part) / parts),
      ]);
    // Put on the lattice, a guide may come to lie a step farther from the next.
    const spots = [from, ...guides, to];
    if (spots.every((p, k) => k === 0 || distance(spots[k - 1]!, p) <= MAX_STRETCH_IN + 1e-9)) return guides;
  }
}

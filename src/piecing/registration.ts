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
      const parts = before ? Math.ceil(distance(before.at, spot.at) / MAX_STRETCH_IN - 1e-9) : 1;
      for (let part = 1; before && part < parts; part++)
        places.push({
          kind: 'guide',
          at: [
            snap(before.at[0] + ((spot.at[0] - before.at[0]) * part) / parts),
            snap(before.at[1] + ((spot.at[1] - before.at[1]) * part) / parts),
          ],
        });
      places.push(spot);
    });
  return places.map(({ at, kind }, k) => ({ label: `${step}${letters(k).toLowerCase()}`, at, kind }));
}

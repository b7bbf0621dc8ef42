import type { Point, Ring, Segment } from '../../geometry/point.ts';
import { placeAt } from '../typing.ts';
import { rayInside } from './inside.ts';

/** Rays evenly round a place, the first at `degrees` (0 to the right, against the clock), each to the outline. */
export const raysRound = (ring: Ring, from: Point, count: number, degrees: number): readonly Segment[] =>
  Array.from({ length: count }, (_, index) => degrees + (360 * index) / count).flatMap((angle) => {
    const ray = rayInside(ring, from, placeAt([0, 0], 1, angle));
    return ray === null ? [] : [ray];
  });

/** Rays from a corner of a ring that part its angle into `count` equal angles, each to where it leaves the ring. */
export function raysFromCorner(ring: Ring, corner: number, count: number): readonly Segment[] {
  const at = ring[corner]!;
  const next = ring[(corner + 1) % ring.length]!;
  const last = ring[(corner - 1 + ring.length) % ring.length]!;
  const angleTo = (place: Point): number => Math.atan2(place[1] - at[1], place[0] - at[0]);
  const whole = 2 * Math.PI;
  const opening = (((angleTo(last) - angleTo(next)) % whole) + whole) % whole;
  // The ring may go round either way: the inner angle is the one whose rays run inside.
  const fans = [opening, opening - whole].map((angle) =>
    Array.from({ length: count - 1 }, (_, index): Segment | null => {
      const turn = angleTo(next) + (angle * (index + 1)) / count;
      return rayInside(ring, at, [Math.cos(turn), Math.sin(turn)]);
    }).filter((ray) => ray !== null),
  );
  return fans[0]!.length >= fans[1]!.length ? fans[0]! : fans[1]!;
}

import type { Area } from '../../geometry/inner-spot.ts';
import type { Point, Ring, Segment } from '../../geometry/point.ts';
import { along, edgesOf } from '../../geometry/segments.ts';
import { endless, rayInside, stretchesInside } from './inside.ts';

/** The spots that divide a stretch into `count` equal parts. */
export const spotsAlong = (segment: Segment, count: number): readonly Point[] =>
  Array.from({ length: count - 1 }, (_, index) => along(segment, (index + 1) / count));

/** Lines square to an edge of a ring from the spots that divide it evenly, inward to where they leave the ring. */
export function linesAcross(ring: Ring, edge: number, count: number): readonly Segment[] {
  const segment = edgesOf(ring)[edge]!;
  const [dx, dy] = [segment[1][0] - segment[0][0], segment[1][1] - segment[0][1]];
  const length = Math.hypot(dx, dy);
  const ways: readonly Point[] = [
    [-dy / length, dx / length],
    [dy / length, -dx / length],
  ];
  return spotsAlong(segment, count).flatMap((spot) => {
    for (const way of ways) {
      const ray = rayInside(ring, spot, way);
      if (ray !== null) return [ray];
    }
    return [];
  });
}

/** Directions of a patch's sides in degrees from level, 0 … 180, each once, those of the longest sides first. */
export function sideDirections({ polygon }: Area): readonly number[] {
  const sides = edgesOf(polygon)
    .map(([a, b]) => ({
      length: Math.hypot(b[0] - a[0], b[1] - a[1]),
      degrees: ((((Math.atan2(a[1] - b[1], b[0] - a[0]) * 180) / Math.PI) % 180) + 180) % 180,
    }))
    .toSorted((a, b) => b.length - a.length);
  const directions: number[] = [];
  for (const { degrees } of sides) {
    const turn = (other: number): number =>
      Math.min(Math.abs(other - degrees), 180 - Math.abs(other - degrees));
    if (!directions.some((other) => turn(other) < 0.1)) directions.push(degrees);
  }
  return directions;
}

/** Lines in a direction (degrees from level) that divide a patch into `count` strips of one width. */
export function strips({ polygon, holes }: Area, degrees: number, count: number): readonly Segment[] {
  const radians = (degrees * Math.PI) / 180;
  const way: Point = [Math.cos(radians), -Math.sin(radians)];
  const normal: Point = [-way[1], way[0]];
  const aways = polygon.map(([x, y]) => x * normal[0] + y * normal[1]);
  const least = Math.min(...aways);
  const most = Math.max(...aways);
  return Array.from(
    { length: count - 1 },
    (_, index) => least + ((most - least) * (index + 1)) / count,
  ).flatMap((away) => stretchesInside(polygon, endless([normal[0] * away, normal[1] * away], way), holes));
}

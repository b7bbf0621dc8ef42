import { type Area, holdsPoint } from './inner-spot.ts';
import { STRAIGHT_IN } from './lattice.ts';
import { boxOf, distanceToSegment } from './ring.ts';

/** Squares looked at before an area is taken to hold no such circle. */
const MOST_SQUARES = 20_000;

/**
 * Does an area hold a circle of this radius, inches? Squares are quartered while a circle round a spot in them may fit,
 * largest first; one that fails by less than 0.1 mm may be told to fit or not. Cost: a few dozen squares times corners
 * for most areas, never more than `MOST_SQUARES`.
 */
export function holdsCircle(area: Area, radius: number): boolean {
  const edges = [area.polygon, ...area.holes].flatMap((ring) =>
    ring.map((p, k) => [p, ring[(k + 1) % ring.length]!] as const),
  );
  const { minX, minY, maxX, maxY } = boxOf(area.polygon);
  const shorter = Math.min(maxX - minX, maxY - minY);
  if (!(shorter >= 2 * radius)) return false;
  let half = shorter / 2;
  let squares: { x: number; y: number }[] = [];
  for (let x = minX + half; x < maxX + half; x += 2 * half)
    for (let y = minY + half; y < maxY + half; y += 2 * half) squares.push({ x, y });
  let looked = 0;
  while (squares.length > 0 && half > STRAIGHT_IN / 4) {
    const next: { x: number; y: number }[] = [];
    for (const { x, y } of squares) {
      if (++looked > MOST_SQUARES) return false;
      let least = Number.POSITIVE_INFINITY;
      for (const [a, b] of edges) least = Math.min(least, distanceToSegment([x, y], a, b));
      const room = holdsPoint(area, [x, y]) ? least : -least;
      if (room >= radius) return true;
      if (room + half * Math.SQRT2 < radius) continue;
      const by = half / 2;
      next.push(
        { x: x - by, y: y - by },
        { x: x + by, y: y - by },
        { x: x - by, y: y + by },
        { x: x + by, y: y + by },
      );
    }
    squares = next;
    half /= 2;
  }
  return false;
}

import type { Point, Ring, Segment } from '../../geometry/point.ts';
import { cross, signedArea } from '../../geometry/ring.ts';
import { edgesOf } from '../../geometry/segments.ts';
import { endless, stretchesInside } from './inside.ts';

/** `closed`: rings of their own. `cabin`: rounds as in a log cabin, each strip running on to the last round's edge. */
export type RingStyle = 'closed' | 'cabin';

/** Lines of rings inside an outline at equal distances, the outermost first; fewer rings where no more fit. */
export function ringsInside(
  outline: Ring,
  inches: number,
  count: number,
  style: RingStyle,
): readonly (readonly Segment[])[] {
  const rings: (readonly Segment[])[] = [];
  let outer: Ring = signedArea(outline) < 0 ? outline.toReversed() : outline;
  outer = withoutStraightCorners(outer);
  for (let index = 0; index < count; index++) {
    const inner = insetBy(outer, inches);
    if (inner === null) break;
    rings.push(style === 'closed' ? edgesOf(inner) : round(outer, inner));
    outer = inner;
  }
  return rings;
}

/** Whether every corner of a ring turns the same way. */
export function isConvex(ring: Ring): boolean {
  const turns = ring.map((at, index) => cross(ring.at(index - 1)!, at, ring[(index + 1) % ring.length]!));
  return turns.every((turn) => turn >= 0) || turns.every((turn) => turn <= 0);
}

const withoutStraightCorners = (ring: Ring): Ring =>
  ring.filter(
    (at, index) => Math.abs(cross(ring.at(index - 1)!, at, ring[(index + 1) % ring.length]!)) > 1e-9,
  );

/** The ring with every side moved inward; null when a side would vanish or turn round. Shoelace area positive. */
function insetBy(ring: Ring, inches: number): Ring | null {
  const lines = edgesOf(ring).map(([a, b]) => {
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    const way: Point = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
    const at: Point = [a[0] - way[1] * inches, a[1] + way[0] * inches];
    return { at, way };
  });
  const inner = lines.map(({ at, way }, index): Point => {
    const last = lines.at(index - 1)!;
    const turn = last.way[0] * way[1] - last.way[1] * way[0];
    const share = ((at[0] - last.at[0]) * way[1] - (at[1] - last.at[1]) * way[0]) / turn;
    return [last.at[0] + last.way[0] * share, last.at[1] + last.way[1] * share];
  });
  const isSound = edgesOf(inner).every(([a, b], index) => {
    const { way } = lines[index]!;
    return (b[0] - a[0]) * way[0] + (b[1] - a[1]) * way[1] > 1e-6;
  });
  return isSound ? inner : null;
}

/** The strips of one round between two convex rings: the first right across, each next from the one before it. */
function round(outer: Ring, inner: Ring): readonly Segment[] {
  const last = inner.length - 1;
  return edgesOf(inner).map(([from, to], index): Segment => {
    const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
    const way: Point = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
    const [through = [from, to] as const] = stretchesInside(outer, endless(from, way));
    return [index === 0 ? through[0] : from, index === last ? to : through[1]];
  });
}

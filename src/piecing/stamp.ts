import type { Area } from '../geometry/inner-spot.ts';
import { STRAIGHT_IN } from '../geometry/lattice.ts';
import type { Point, Ring } from '../geometry/point.ts';
import { boxOf, distanceToSegment } from '../geometry/ring.ts';
import { codeOf } from './codes.ts';
import { firstCorner } from './patch-keys.ts';

/** With 23 signs about six million codes: among 500 different papers two are alike once in fifty projects. */
const STAMP_SIGNS = 5;

/** What a section is known by: the same for the same patches, in whatever order. */
export const sectionKey = (patchKeys: readonly string[]): string =>
  `s-${codeOf(JSON.stringify(patchKeys.toSorted()), 10).toLowerCase()}`;

/**
 * The code of a paper's shape and order: of its patches, the first to be sewn first, measured from the corner of their
 * common box, so that it is the same wherever they lie. Where a finished unit is position 1, give the rings of both.
 * A shape that differs by less than a printed line is wide mostly has the same code, and corners that show none are
 * passed over: a neighbour's seam that ends on this paper's edge changes nothing.
 */
export function stampOf(patches: readonly Area[], whole: readonly Ring[] = []): string {
  const { minX, minY } = boxOf([...whole, ...patches.map(({ polygon }) => polygon)].flat());
  const shape = (ring: Ring): string => {
    const corners = cornersOf(ring).map(([x, y]): Point => [step(x - minX), step(y - minY)]);
    const first = firstCorner(corners);
    return [...corners.slice(first), ...corners.slice(0, first)].join(' ');
  };
  const order = patches.map(({ polygon, holes }) => [shape(polygon), ...holes.map(shape).sort()].join('|'));
  return codeOf([...order, ...whole.map(shape)].join(';'), STAMP_SIGNS);
}

/** Steps of about the width of a printed line. Their borders lie off every fraction that people draw in. */
const step = (inches: number): number => Math.floor(inches * 256 + 0.37);

/** The corners of a ring at which it can be seen to turn. */
function cornersOf(ring: Ring): Ring {
  const corners = ring.filter((corner, i) => {
    const before = ring.at(i - 1)!;
    const after = ring[(i + 1) % ring.length]!;
    return distanceToSegment(corner, before, after) > STRAIGHT_IN;
  });
  return corners.length < 3 ? ring : corners;
}

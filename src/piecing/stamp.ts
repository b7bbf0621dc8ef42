import type { Area } from '../geometry/inner-spot.ts';
import type { Ring } from '../geometry/point.ts';
import { codeOf } from './codes.ts';
import { cornersOf } from './patch-keys.ts';

/** With 23 signs about six million codes: among 500 different papers two are alike once in fifty projects. */
const STAMP_SIGNS = 5;

/** What a section is known by: the same for the same patches, in whatever order. */
export const sectionKey = (patchKeys: readonly string[]): string =>
  `s-${codeOf(JSON.stringify(patchKeys.toSorted()), 10).toLowerCase()}`;

/**
 * The code of a paper's shape and order: of its patches, the first to be sewn first, measured from the corner of their
 * common box, so that it is the same wherever they lie. Where a finished unit is position 1, give the rings of both.
 * A shape that differs by less than a printed line is wide mostly has the same code, and a neighbour's seam that
 * ends on this paper's edge changes nothing.
 */
export function stampOf(patches: readonly Area[], whole: readonly Ring[] = []): string {
  let [left, top] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  for (const ring of [...whole, ...patches.map(({ polygon }) => polygon)])
    for (const [x, y] of ring) {
      if (x < left) left = x;
      if (y < top) top = y;
    }
  const shape = (ring: Ring): string => {
    let text = '';
    for (const [x, y] of cornersOf(ring)) {
      if (text !== '') text += ' ';
      text += `${step(x - left)},${step(y - top)}`;
    }
    return text;
  };
  const order = patches.map(({ polygon, holes }) => [shape(polygon), ...holes.map(shape).sort()].join('|'));
  return codeOf([...order, ...whole.map(shape)].join(';'), STAMP_SIGNS);
}

/** Steps of about the width of a printed line. Their borders lie off every fraction that people draw in. */
const step = (inches: number): number => Math.floor(inches * 256 + 0.37);

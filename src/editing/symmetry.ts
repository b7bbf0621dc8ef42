import { MIRRORS, type Turn, turnBy, turned } from '../document/edit-turn.ts';
import type { Point, Ring, Segment } from '../geometry/point.ts';
import { boxOf, distance } from '../geometry/ring.ts';
import { samePlace } from '../geometry/segments.ts';
import { phrase } from '../words/phrase.ts';

/** What is drawn again while a line is drawn. */
export type Symmetry =
  | 'none'
  | 'upright'
  | 'level'
  | 'both'
  | 'diagonals'
  | 'half'
  | 'quarter'
  | 'six'
  | 'eight';

export const SYMMETRIES: readonly (readonly [Symmetry, string])[] = [
  ['none', phrase('None')],
  ['upright', phrase('Mirror left and right')],
  ['level', phrase('Mirror top and bottom')],
  ['both', phrase('Mirror both ways')],
  ['diagonals', phrase('Mirror in the diagonals')],
  ['half', phrase('Half turn')],
  ['quarter', phrase('Quarter turns')],
  ['six', phrase('Six turns')],
  ['eight', phrase('Eight turns')],
];

const SAME: Turn = [1, 0, 0, 1];

/** So many turns, evenly round. */
export const turns = (count: number): readonly Turn[] =>
  Array.from({ length: count }, (_, index) => turnBy((360 * index) / count));

/** Everything that a symmetry makes of a thing, the thing itself first. */
export function turnsOf(symmetry: Symmetry): readonly Turn[] {
  switch (symmetry) {
    case 'none':
      return [SAME];
    case 'upright':
      return [SAME, MIRRORS.upright];
    case 'level':
      return [SAME, MIRRORS.level];
    case 'both':
      return [SAME, MIRRORS.upright, MIRRORS.level, turnBy(180)];
    case 'diagonals':
      return [SAME, MIRRORS.falling, MIRRORS.rising, turnBy(180)];
    case 'half':
      return turns(2);
    case 'quarter':
      return turns(4);
    case 'six':
      return turns(6);
    case 'eight':
      return turns(8);
  }
}

/** Middle of the box round an outline. */
export function middleOf(outline: Ring): Point {
  const { minX, minY, maxX, maxY } = boxOf(outline);
  return [(minX + maxX) / 2, (minY + maxY) / 2];
}

/** The images of a stretch, itself first, each line once. `round` puts points where they are compared. */
export function imagesOf(
  segment: Segment,
  symmetry: Symmetry,
  middle: Point,
  round: (at: Point) => Point,
): readonly Segment[] {
  const images: Segment[] = [];
  for (const turn of turnsOf(symmetry)) {
    const image: Segment = [round(turned(turn, middle, segment[0])), round(turned(turn, middle, segment[1]))];
    const isKnown = images.some(
      ([a, b]) =>
        (samePlace(a, image[0]) && samePlace(b, image[1])) ||
        (samePlace(a, image[1]) && samePlace(b, image[0])),
    );
    if (!isKnown) images.push(image);
  }
  return images;
}

/**
 * The images of some places that belong together, themselves first, each lot once: where a symmetry about the middle of
 * an outline's box takes them.
 */
export function placesOf(
  places: readonly Point[],
  symmetry: Symmetry,
  outline: Ring,
): readonly (readonly Point[])[] {
  const middle = middleOf(outline);
  const all: (readonly Point[])[] = [places];
  for (const turn of turnsOf(symmetry).slice(1)) {
    const image = places.map((place) => turned(turn, middle, place));
    const isKnown = all.some((known) => known.every((place, k) => distance(place, image[k]!) <= SAME_IN));
    if (!isKnown) all.push(image);
  }
  return all;
}

/** Images nearer than this are one, inches: forgives the lattice, nothing more. */
const SAME_IN = 1 / 1000;

/** The lines to show: axes of mirrors across the box, spokes of turns; `reach` inches from the middle. */
export function axesOf(symmetry: Symmetry, [mx, my]: Point, reach: number): readonly Segment[] {
  const spoke = (degrees: number, both: boolean): Segment => {
    const [cos, sin] = turnBy(degrees);
    return [both ? [mx - cos * reach, my + sin * reach] : [mx, my], [mx + cos * reach, my - sin * reach]];
  };
  switch (symmetry) {
    case 'none':
      return [];
    case 'upright':
      return [spoke(90, true)];
    case 'level':
      return [spoke(0, true)];
    case 'both':
      return [spoke(90, true), spoke(0, true)];
    case 'diagonals':
      return [spoke(45, true), spoke(135, true)];
    default: {
      const count = { half: 2, quarter: 4, six: 6, eight: 8 }[symmetry];
      return Array.from({ length: count }, (_, index) => spoke(90 + (360 * index) / count, false));
    }
  }
}

import { STRAIGHT_IN } from '../../../geometry/lattice.ts';
import { formatLength, type LengthUnit } from '../../../geometry/length.ts';
import type { Point, Ring } from '../../../geometry/point.ts';
import { boxOf, cross, distance, distanceToSegment } from '../../../geometry/ring.ts';
import type { Join, Patch, PiecingPlan, RegistrationPoint } from '../../../piecing/plan.ts';
import { phrase } from '../../../words/phrase.ts';
import { corners, trimLine } from '../../foundation/allowance.ts';
import { boundariesOf } from '../../foundation/regions.ts';

/** Sections joined into one piece, or a single section, or the whole block. Front view, inches. */
export interface Unit {
  /** Letters of its sections. */
  readonly letters: readonly string[];
  /** Its outer sewing line. */
  readonly outline: Ring;
  readonly finished: Size;
  /** With the seam allowance all round. */
  readonly unfinished: Size;
}

/** Across and down, at the widest where the shape is no upright rectangle. */
export interface Size {
  readonly across: number;
  readonly down: number;
  readonly isRectangle: boolean;
}

/**
 * The unit that some sections make, with those that their papers start from. Every letter must be one of the
 * plan's and the sections must hang together.
 */
export function unitOf(plan: PiecingPlan, letters: readonly string[], allowance: number): Unit {
  const all = withStarts(plan, letters);
  const [outline] = boundariesOf(
    plan,
    plan.patches.filter(({ section }) => all.includes(section)),
  );
  if (!outline) throw new Error(`The plan has no sections ${letters.join(', ')}.`);
  return {
    letters: all,
    outline: corners(outline),
    finished: sizeOf(outline),
    unfinished: sizeOf(trimLine(outline, allowance)),
  };
}

/** The whole block as a unit. */
export const wholeUnit = (plan: PiecingPlan, allowance: number): Unit =>
  unitOf(
    plan,
    plan.sections.map(({ letter }) => letter),
    allowance,
  );

function withStarts(plan: PiecingPlan, letters: readonly string[]): readonly string[] {
  const wanted = new Set(letters);
  for (let before = -1; before < wanted.size; ) {
    before = wanted.size;
    for (const { letter, startsFrom } of plan.sections)
      if (wanted.has(letter)) for (const base of startsFrom) wanted.add(base);
  }
  return plan.sections.map(({ letter }) => letter).filter((letter) => wanted.has(letter));
}

function sizeOf(ring: Ring): Size {
  const { minX, minY, maxX, maxY } = boxOf(ring);
  const onBox = ([x, y]: Point): boolean =>
    Math.min(x - minX, maxX - x) <= STRAIGHT_IN && Math.min(y - minY, maxY - y) <= STRAIGHT_IN;
  const found = corners(ring);
  // Three corners of the box alone make a triangle.
  const isRectangle = found.length === 4 && found.every(onBox);
  return { across: maxX - minX, down: maxY - minY, isRectangle };
}

/** `12 × 3 in`, across × down. Lengths in inches that no ruler shows are given to the nearest 1/16 in, as `about`. */
export function sizeWords({ across, down }: Size, unit: LengthUnit): string {
  const a = rulerLength(across, unit);
  const d = rulerLength(down, unit);
  const about = a.isExact && d.isExact ? '' : 'about ';
  return `${about}${a.text.replace(/ (in|mm)$/, '')} × ${d.text}`;
}

/** A length as it is measured: in inches to 1/16, in millimetres to a tenth. `about` stands before what was rounded. */
export function lengthWords(inches: number, unit: LengthUnit): string {
  const { text, isExact } = rulerLength(inches, unit);
  return phrase('{isExact, select, true {} other {about }}{text}', { isExact, text });
}

function rulerLength(inches: number, unit: LengthUnit): { readonly text: string; readonly isExact: boolean } {
  const written = formatLength(inches, unit);
  if (unit === 'mm') return { text: written, isExact: true };
  const sixteenths = Math.round(inches * 16);
  return {
    text: formatLength(sixteenths / 16, unit),
    isExact: Math.abs(sixteenths / 16 - inches) <= STRAIGHT_IN,
  };
}

/** Patches of a unit with an edge on the join. */
export function patchesAlong(plan: PiecingPlan, join: Join, letters: readonly string[]): readonly Patch[] {
  const onJoin = (a: Point, b: Point): boolean =>
    join.stretches.some(
      ([from, to]) =>
        distanceToSegment(a, from, to) <= STRAIGHT_IN && distanceToSegment(b, from, to) <= STRAIGHT_IN,
    );
  return plan.patches.filter(
    ({ section, polygon, holes }) =>
      letters.includes(section) &&
      [polygon, ...holes].some((ring) => ring.some((a, i) => onJoin(a, ring[(i + 1) % ring.length]!))),
  );
}

/** Length of a join along all its stretches, inches. */
export const joinLength = ({ stretches }: Join): number =>
  stretches.reduce((sum, [a, b]) => sum + distance(a, b), 0);

/** One straight stretch of a set-in seam, with the points on it in turn. */
export interface Go {
  readonly points: readonly RegistrationPoint[];
  /** Whether it starts and ends at a corner of the seam. */
  readonly from: 'corner' | 'outside';
  readonly to: 'corner' | 'outside';
}

/**
 * The straight stretches of a seam that turns corners, in the order in which they are sewn: a stretch between two
 * corners first, then from there outwards, each away from the corner that is already sewn.
 */
export function goesOf(join: Join): readonly Go[] {
  const { stretches } = join;
  const closed = stretches.length > 2 && distance(stretches[0]![0], stretches.at(-1)![1]) <= STRAIGHT_IN;
  const last = stretches.length - 1;
  const goes = stretches.map(([a, b], i): Go => {
    const along = (at: Point): number => distance(a, at);
    const on = join.points.filter(({ at }) => distanceToSegment(at, a, b) <= STRAIGHT_IN);
    return {
      points: [...on].sort((p, q) => along(p.at) - along(q.at)),
      from: i === 0 && !closed ? 'outside' : 'corner',
      to: i === last && !closed ? 'outside' : 'corner',
    };
  });
  if (closed || goes.length < 3) return goes;
  // The stretch in the middle first; from it towards both ends.
  const start = goes.length >> 1;
  const reversed = ({ points, from, to }: Go): Go => ({ points: [...points].reverse(), from: to, to: from });
  return [...goes.slice(start), ...goes.slice(0, start).reverse().map(reversed)];
}

/** A corner of a set-in seam: its point, and the letters of the unit whose outline turns inward there. */
export interface InwardCorner {
  readonly point: RegistrationPoint;
  readonly clipped: readonly string[];
  readonly other: readonly string[];
}

/** The corners of a set-in seam. One of the two units turns inward there, and its allowance has to be clipped. */
export function inwardCorners(plan: PiecingPlan, join: Join): readonly InwardCorner[] {
  const { outline } = unitOf(plan, join.left, 0);
  const places = join.stretches.slice(1).map(([from]) => from);
  const [first] = join.stretches;
  const last = join.stretches.at(-1);
  if (first && last && join.stretches.length > 2 && distance(first[0], last[1]) <= STRAIGHT_IN)
    places.unshift(first[0]);
  return places.flatMap((at): InwardCorner[] => {
    const point = join.points.find((one) => distance(one.at, at) <= STRAIGHT_IN);
    if (!point) return [];
    const i = outline.findIndex((corner) => distance(corner, at) <= STRAIGHT_IN);
    const isInwardLeft =
      i >= 0 && cross(outline.at(i - 1)!, outline[i]!, outline[(i + 1) % outline.length]!) < 0;
    return [
      isInwardLeft
        ? { point, clipped: join.left, other: join.right }
        : { point, clipped: join.right, other: join.left },
    ];
  });
}

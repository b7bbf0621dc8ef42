import type { Cut, Unit } from '../document/project.ts';
import { formatLength } from '../geometry/length.ts';
import type { Point } from '../geometry/point.ts';
import { distance } from '../geometry/ring.ts';
import { phrase } from '../words/phrase.ts';
import type { Snap, SnapKind } from './snapping.ts';

/** What each kind of catch is called, on the board and aloud; nothing for open ground. */
export const SNAP_WORDS: Readonly<Record<SnapKind, string>> = {
  corner: phrase('[[where the pointer snaps to]] corner'),
  'cut-end': phrase('line end'),
  crossing: phrase('[[where the pointer snaps to]] crossing'),
  center: phrase('[[where the pointer snaps to]] centre'),
  midpoint: phrase('[[where the pointer snaps to]] midpoint'),
  division: phrase('[[where the pointer snaps to]] division'),
  third: phrase('[[where the pointer snaps to]] third'),
  perpendicular: phrase('[[where the pointer snaps to]] perpendicular'),
  parallel: phrase('[[where the pointer snaps to]] parallel'),
  'same-length': phrase('same length'),
  step: phrase('15° step'),
  typed: phrase('as typed'),
  line: phrase('[[where the pointer snaps to]] line'),
  edge: phrase('[[where the pointer snaps to]] edge'),
  grid: phrase('[[where the pointer snaps to]] grid'),
  free: '',
};

/** `6, 1 1/16 in`: across, then down, the unit once. */
export function placeWords([x, y]: Point, unit: Unit): string {
  const isNear = isOff(x, unit) || isOff(y, unit);
  return `${isNear ? '≈ ' : ''}${withoutUnit(lengthOf(x, unit))}, ${lengthOf(y, unit)}`;
}

/** Parts of an inch that a length is told in where it is no whole 64ths. */
const NEAR_PARTS = 32;

/** Whether an inch ruler does not show a length: it is no whole number of 64ths. */
const isOff = (inches: number, unit: Unit): boolean =>
  unit === 'in' && !Number.isInteger(rounded(inches) * 64);

/** A length as a ruler shows it, in one notation everywhere: fractions of an inch, the nearest where it has none. */
const lengthOf = (inches: number, unit: Unit): string =>
  formatLength(isOff(inches, unit) ? Math.round(inches * NEAR_PARTS) / NEAR_PARTS : rounded(inches), unit);

/** `6, 1 1/16 in, corner`. */
export function snapWords({ at, kind }: Snap, unit: Unit): string {
  const word = SNAP_WORDS[kind];
  return word === '' ? placeWords(at, unit) : `${placeWords(at, unit)}, ${word}`;
}

export function lengthWords(from: Point, to: Point, unit: Unit): string {
  const length = distance(from, to);
  return `${isOff(length, unit) ? '≈ ' : ''}${lengthOf(length, unit)}`;
}

/** The length as a field holds it, to be read again: as exact as it is. */
export const lengthText = (from: Point, to: Point, unit: Unit): string =>
  formatLength(rounded(distance(from, to)), unit);

/**
 * The direction from one point to another in degrees as people write it: 0 to the right, turning against the clock,
 * 0 … 360.
 */
export function degreesOf(from: Point, to: Point): number {
  const degrees = (Math.atan2(from[1] - to[1], to[0] - from[0]) * 180) / Math.PI;
  return (degrees + 360) % 360;
}

/** `45°`, `33.7°`. */
export const angleWords = (from: Point, to: Point): string =>
  `${Number((degreesOf(from, to) % 360).toFixed(1)) % 360}°`;

/** Slanted lengths are rarely whole 64ths; to the nearest thousandth they read as one expects. */
const rounded = (inches: number): number => {
  const sixtyFourths = Math.round(inches * 64) / 64;
  return Math.abs(sixtyFourths - inches) < 5e-4 ? sixtyFourths : inches;
};

/** A cut's number for people: its place in the list, `Cut 4`. */
export const cutName = (cuts: readonly Cut[], id: string): string =>
  phrase('Line {n}', { n: cuts.findIndex((cut) => cut.id === id) + 1 });

/** `0, 4 → 12, 4`: for the eye, where the unit is plain. */
export const cutEnds = ({ from, to }: Cut, unit: Unit): string =>
  [from, to].map((end) => unbroken(withoutUnit(placeWords(end, unit)))).join(' → ');

/** `3, 2 1/2` stays on one line. */
const unbroken = (words: string): string => words.replaceAll(' ', '\u00a0');

/** As a sentence begins. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const withoutUnit = (words: string): string => words.replace(/ (in|mm)$/, '');

/** `from 0, 4 in to 12, 4 in, 12 in long`. */
export const cutWords = ({ from, to }: Cut, unit: Unit): string =>
  phrase('from {from} to {to}, {length} long', {
    from: placeWords(from, unit),
    to: placeWords(to, unit),
    length: lengthWords(from, to, unit),
  });

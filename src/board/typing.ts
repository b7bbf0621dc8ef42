import type { Unit } from '../document/project.ts';
import { MAX_COORDINATE_IN, snapPoint } from '../geometry/lattice.ts';
import { parseLength } from '../geometry/length.ts';
import type { Point } from '../geometry/point.ts';
import { distance } from '../geometry/ring.ts';

/** Numbers typed while a line is running: its length, then its angle. */
export interface Typed {
  readonly length: string;
  readonly angle: string;
  readonly field: 'length' | 'angle';
}

export const NOTHING_TYPED: Typed = { length: '', angle: '', field: 'length' };

/** Signs that begin a number, and those that may follow in one: a length has fractions and units. */
const BEGINS = /^[0-9.,½⅓⅔¼¾⅛⅜⅝⅞<-]$/;
const FOLLOWS = /^[0-9.,/ ½⅓⅔¼¾⅛⅜⅝⅞"″'°mcin-]$/i;

/** Whether a sign belongs to what is typed: `<` goes to the angle at once, as on a drawing. */
export const isTyped = (typed: Typed | null, sign: string): boolean =>
  (typed === null ? BEGINS : FOLLOWS).test(sign) || (typed !== null && sign === '<');

/** One sign more. */
export function withSign(typed: Typed | null, sign: string): Typed {
  const before = typed ?? NOTHING_TYPED;
  if (sign === '<') return { ...before, field: 'angle' };
  return { ...before, [before.field]: before[before.field] + sign };
}

/** The last sign taken back; null when nothing is left. */
export function withoutSign(typed: Typed): Typed | null {
  const text = typed[typed.field];
  if (text !== '') {
    const shorter = { ...typed, [typed.field]: text.slice(0, -1) };
    return shorter.length === '' && shorter.angle === '' ? null : shorter;
  }
  return typed.field === 'angle' && typed.length !== '' ? { ...typed, field: 'length' } : null;
}

export const otherField = (typed: Typed): Typed => ({
  ...typed,
  field: typed.field === 'length' ? 'angle' : 'length',
});

export type TypedEnd =
  | { readonly ok: true; readonly at: Point }
  /** One plain sentence. */
  | { readonly ok: false; readonly error: string };

export type ParsedAngle =
  | { readonly ok: true; readonly degrees: number }
  | { readonly ok: false; readonly error: string };

/** Reads an angle in degrees: `45`, `-22.5°`, `22,5`. 0 is to the right, turning against the clock. */
export function parseAngle(text: string): ParsedAngle {
  const match = /^ *([-−–]?) *(\d+(?:[.,]\d*)?|[.,]\d+) *(?:°|deg)? *$/i.exec(text);
  if (match === null) return { ok: false, error: 'An angle is a number of degrees, such as 45 or 22.5.' };
  const degrees = Number(match[2]!.replace(',', '.'));
  if (degrees > 36_000) return { ok: false, error: 'An angle of so many turns is not read.' };
  return { ok: true, degrees: match[1] === '' ? degrees : -degrees };
}

/** The place so many inches from another in a direction of degrees, as `parseAngle` reads them. */
export function placeAt(from: Point, inches: number, degrees: number): Point {
  const turns = ((degrees % 360) + 360) % 360;
  // Quarter turns exactly, which the sine of a rounded angle is not.
  const quarter = { 0: [1, 0], 90: [0, -1], 180: [-1, 0], 270: [0, 1] }[turns];
  const radians = (turns * Math.PI) / 180;
  const [x, y] = quarter ?? [Math.cos(radians), -Math.sin(radians)];
  return [from[0] + x! * inches, from[1] + y! * inches];
}

/**
 * Where a line from `from` ends by what is typed: what is not typed is taken from the pointer at `at`. Lengths
 * without a unit are in `unit`. Refused with the reason while the text is no number, or the end too far away.
 */
export function typedEnd(typed: Typed, from: Point, at: Point, unit: Unit): TypedEnd {
  let inches = distance(from, at);
  if (typed.length.trim() !== '') {
    const parsed = parseLength(typed.length, unit);
    if (!parsed.ok) return parsed;
    inches = parsed.inches;
  }
  let degrees = (Math.atan2(from[1] - at[1], at[0] - from[0]) * 180) / Math.PI;
  if (typed.angle.trim() !== '') {
    const parsed = parseAngle(typed.angle);
    if (!parsed.ok) return parsed;
    degrees = parsed.degrees;
  } else if (inches < 0) return { ok: false, error: 'A length is more than nothing.' };
  const place = snapPoint(placeAt(from, inches, degrees));
  return place.some((value) => Math.abs(value) > MAX_COORDINATE_IN)
    ? { ok: false, error: `That ends beyond ${MAX_COORDINATE_IN} in.` }
    : { ok: true, at: place };
}

import type { Unit } from '../document/project.ts';
import { MAX_COORDINATE_IN, snapPoint } from '../geometry/lattice.ts';
import { parseLength } from '../geometry/length.ts';
import type { Point } from '../geometry/point.ts';
import { distance } from '../geometry/ring.ts';
import { phrase } from '../words/phrase.ts';

/**
 * Numbers typed while something is drawn: the length and then the angle of a running line, or a place by how far
 * across and how far down it lies.
 */
export interface Typed {
  readonly by: 'way' | 'place';
  /** Length, or how far across. */
  readonly first: string;
  /** Angle, or how far down. */
  readonly second: string;
  readonly field: 'first' | 'second';
}

/** What is typed; `ready` for a running line with nothing typed yet; `place` where only a place can be typed; else null. */
export type Typing = Typed | 'ready' | 'place' | null;

export const NOTHING_TYPED: Typed = { by: 'way', first: '', second: '', field: 'first' };

/** The sign that begins a place in numbers. */
export const PLACE_SIGN = 'T';

const isPlaceSign = (sign: string): boolean => sign.toUpperCase() === PLACE_SIGN;

/** Signs that begin a number, and those that may follow in one: a length has fractions and units. */
const BEGINS = /^[0-9.,½⅓⅔¼¾⅛⅜⅝⅞<-]$/;
const FOLLOWS = /^[0-9.,/ ½⅓⅔¼¾⅛⅜⅝⅞"″'°mcin-]$/i;

/** Whether a sign belongs to what is typed: `<` goes to the angle at once, as on a drawing, `T` to a place. */
export function isTyped(typing: Typing, sign: string): boolean {
  if (typing === null) return false;
  if (isPlaceSign(sign)) return true;
  if (typing === 'place') return false;
  return typing === 'ready' ? BEGINS.test(sign) : FOLLOWS.test(sign) || (typing.by === 'way' && sign === '<');
}

/** One sign more. */
export function withSign(typed: Typed | null, sign: string): Typed {
  const before = typed ?? NOTHING_TYPED;
  if (isPlaceSign(sign)) return { ...NOTHING_TYPED, by: 'place' };
  if (sign === '<' && before.by === 'way') return { ...before, field: 'second' };
  return { ...before, [before.field]: before[before.field] + sign };
}

/** The last sign taken back; null when nothing is left. */
export function withoutSign(typed: Typed): Typed | null {
  const text = typed[typed.field];
  if (text !== '') {
    const shorter = { ...typed, [typed.field]: text.slice(0, -1) };
    return typed.by === 'way' && shorter.first === '' && shorter.second === '' ? null : shorter;
  }
  return typed.field === 'second' && typed.first !== '' ? { ...typed, field: 'first' } : null;
}

export const otherField = (typed: Typed): Typed => ({
  ...typed,
  field: typed.field === 'first' ? 'second' : 'first',
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
  if (match === null)
    return { ok: false, error: phrase('An angle is a number of degrees, such as 45 or 22.5.') };
  const degrees = Number(match[2]!.replace(',', '.'));
  if (degrees > 36_000) return { ok: false, error: phrase('An angle of so many turns is not read.') };
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
 * The place that is typed: what is not typed is taken from the pointer at `at`. A length and an angle go from `from`.
 * Lengths without a unit are in `unit`. Refused with the reason while the text is no number, or the place too far away.
 */
export function typedEnd(typed: Typed, from: Point, at: Point, unit: Unit): TypedEnd {
  const wanted = typed.by === 'place' ? typedPlace(typed, at, unit) : typedWay(typed, from, at, unit);
  if (!wanted.ok) return wanted;
  const place = snapPoint(wanted.at);
  return place.some((value) => Math.abs(value) > MAX_COORDINATE_IN)
    ? {
        ok: false,
        error: phrase('That lies beyond {maxCoordinate} in.', { maxCoordinate: MAX_COORDINATE_IN }),
      }
    : { ok: true, at: place };
}

function typedWay({ first, second }: Typed, from: Point, at: Point, unit: Unit): TypedEnd {
  let inches = distance(from, at);
  if (first.trim() !== '') {
    const parsed = parseLength(first, unit);
    if (!parsed.ok) return parsed;
    inches = parsed.inches;
  }
  let degrees = (Math.atan2(from[1] - at[1], at[0] - from[0]) * 180) / Math.PI;
  if (second.trim() !== '') {
    const parsed = parseAngle(second);
    if (!parsed.ok) return parsed;
    degrees = parsed.degrees;
  } else if (inches < 0) return { ok: false, error: phrase('A length must be greater than 0.') };
  return { ok: true, at: placeAt(from, inches, degrees) };
}

function typedPlace({ first, second }: Typed, at: Point, unit: Unit): TypedEnd {
  const [x, y] = [coordinate(first, at[0], unit), coordinate(second, at[1], unit)];
  if (!x.ok) return x;
  return y.ok ? { ok: true, at: [x.inches, y.inches] } : y;
}

const coordinate = (text: string, otherwise: number, unit: Unit): ReturnType<typeof parseLength> =>
  text.trim() === '' ? { ok: true, inches: otherwise } : parseLength(text, unit);

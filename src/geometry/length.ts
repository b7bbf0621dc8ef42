import { decimalSign } from '../words/numeral.ts';
import { phrase } from '../words/phrase.ts';
import { LATTICE_STEPS_PER_IN, MAX_COORDINATE_IN, MM_PER_IN } from './lattice.ts';

/** Units in which lengths are shown, and read where none is typed. Inside the project a length is always inches. */
export type LengthUnit = 'in' | 'mm';

export type ParsedLength =
  | { readonly ok: true; readonly inches: number }
  /** One plain sentence for the person who typed it. */
  | { readonly ok: false; readonly error: string };

const VULGAR: Readonly<Record<string, string>> = {
  '½': '1/2',
  '⅓': '1/3',
  '⅔': '2/3',
  '¼': '1/4',
  '¾': '3/4',
  '⅕': '1/5',
  '⅖': '2/5',
  '⅗': '3/5',
  '⅘': '4/5',
  '⅙': '1/6',
  '⅚': '5/6',
  '⅐': '1/7',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
  '⅑': '1/9',
  '⅒': '1/10',
};

/**
 * To inches from each unit that can be typed. 1 in = 25.4 mm exactly (NBS Circular 572 addendum, 1960; NIST
 * Handbook 44, appendix C). Divided, not multiplied by an inverse, so that 25.4 mm is exactly 1 in.
 */
const TO_INCHES: Readonly<Record<string, (amount: number) => number>> = {
  in: (inches) => inches,
  inch: (inches) => inches,
  inches: (inches) => inches,
  '"': (inches) => inches,
  mm: (millimetres) => millimetres / MM_PER_IN,
  cm: (centimetres) => (centimetres * 10) / MM_PER_IN,
};

const DECIMAL = /^(?:\d+(?:[.,]\d*)?|[.,]\d+)$/;
const FRACTION = /^(?:(\d+)(?: *[-+] *| +))?(\d+) *\/ *(\d+)$/;

/**
 * Reads a length as people write it: `3 5/8`, `3-5/8"`, `3⅝`, `3.625`, `3,625` (a comma is a decimal point),
 * `92 mm`, `9.2 cm`, with a leading minus or not. A bare number is in `bareUnit`. The inches that come out are
 * not snapped to the lattice. Refused, with the reason: anything else, and lengths beyond the coordinate limit.
 */
export function parseLength(text: string, bareUnit: LengthUnit = 'in'): ParsedLength {
  const tidy = tidied(text);
  if (tidy === '') return refuse(phrase('Type a length, such as 3 5/8 or 92 mm.'));
  const [, sign, digits = '', unit] = /^(-?) *(.*?) *([a-z"']*)\.?$/i.exec(tidy) ?? [];
  const toInches = TO_INCHES[(unit || bareUnit).toLowerCase()];
  if (toInches === undefined)
    return refuse(
      phrase('“{unit}” is no unit read here: use in, mm or cm.', { unit: shortened(unit ?? tidy) }),
    );
  const amount = parseAmount(digits);
  if (typeof amount === 'string') return refuse(amount);
  const inches = toInches(amount);
  if (inches > MAX_COORDINATE_IN)
    return refuse(phrase('Lengths go up to {maxCoordinate} in.', { maxCoordinate: MAX_COORDINATE_IN }));
  return { ok: true, inches: sign === '-' && inches !== 0 ? -inches : inches };
}

/** One space for any blank, plain signs for typographic ones, `3⅝` spread out to `3 5/8`. */
function tidied(text: string): string {
  return text
    .replace(/[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒]/g, (glyph) => ` ${VULGAR[glyph]}`)
    .replace(/''|[“”″]/g, '"')
    .replace(/[⁄∕]/g, '/')
    .replace(/[−–‐‑]/g, '-')
    .replace(/\s+/g, ' ')
    .trim();
}

/** An amount without its unit, or the reason why it is none. */
function parseAmount(digits: string): number | string {
  if (DECIMAL.test(digits)) return Number(digits.replace(',', '.'));
  const [match, whole, over, under] = FRACTION.exec(digits) ?? [];
  if (match === undefined) {
    return digits === ''
      ? phrase('The number is missing: type a length such as 3 5/8 or 92 mm.')
      : phrase('“{digits}” is not a length: type one such as 3 5/8, 3.625 or 92 mm.', {
          digits: shortened(digits),
        });
  }
  if (Number(under) === 0) return phrase('A fraction cannot have 0 below the line.');
  const fraction = Number(over) / Number(under);
  if (whole === undefined) return fraction;
  return fraction < 1
    ? Number(whole) + fraction
    : phrase('After a whole number the fraction must be less than 1, and {over}/{under} is not.', {
        over,
        under,
      });
}

const refuse = (error: string): ParsedLength => ({ ok: false, error });

const shortened = (text: string): string => (text.length > 24 ? `${text.slice(0, 24)}…` : text);

/** Half a step of the lattice, in inches: how far snapping may have moved a length that was typed. */
const HALF_STEP_IN = 0.5 / LATTICE_STEPS_PER_IN;

/**
 * Writes a length as people read it, unit included. Inches: `3 5/8 in` where it is a whole number of 64ths,
 * else up to three decimals, `8.485 in`. Millimetres: one decimal, `92.1 mm`, and a second only where that is
 * the length itself, since a quarter inch is 6.35 mm and neither 6.3 nor 6.4. A length typed in this unit with
 * no more decimals than that is shown as it was typed, although the lattice moved it a little.
 */
export function formatLength(inches: number, unit: LengthUnit): string {
  if (!Number.isFinite(inches)) return '–';
  if (unit === 'mm') {
    const millimetres = inches * MM_PER_IN;
    const twoDecimals = decimal(millimetres, 2);
    const exact = Math.abs(Number(twoDecimals) - millimetres) <= HALF_STEP_IN * MM_PER_IN;
    return phrase('{twoDecimals} mm', { twoDecimals: exact ? twoDecimals : decimal(millimetres, 1) });
  }
  const sixtyFourths = Math.abs(inches) * 64;
  if (!Number.isInteger(sixtyFourths)) return phrase('{decimal} in', { decimal: decimal(inches, 3) });
  return phrase('{isInches, select, true {-} other {}}{mixedNumber} in', {
    isInches: inches < 0,
    mixedNumber: mixedNumber(sixtyFourths),
  });
}

function mixedNumber(sixtyFourths: number): string {
  const whole = Math.floor(sixtyFourths / 64);
  let [over, under] = [sixtyFourths % 64, 64];
  if (over === 0) return `${whole}`;
  while (over % 2 === 0) [over, under] = [over / 2, under / 2];
  return whole === 0 ? `${over}/${under}` : `${whole} ${over}/${under}`;
}

/** Rounded to so many decimals, without zeros at the end and without a minus on nothing. */
const decimal = (value: number, places: number): string =>
  `${Number(value.toFixed(places)) || 0}`.replace('.', decimalSign());

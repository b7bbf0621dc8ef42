/** Numbers, lengths and lists as SVG writes them. Source: CSS Values and Units; SVG 1.1, chapters 4 and 7. */

export const PX_PER_IN = 96;

/** CSS pixels in one of each absolute unit: 1 in = 96 px = 2.54 cm = 25.4 mm = 101.6 Q = 72 pt = 6 pc. */
const PX_PER: ReadonlyMap<string, number> = new Map([
  ['px', 1],
  ['in', PX_PER_IN],
  ['cm', PX_PER_IN / 2.54],
  ['mm', PX_PER_IN / 25.4],
  ['q', PX_PER_IN / 101.6],
  ['pt', PX_PER_IN / 72],
  ['pc', PX_PER_IN / 6],
]);

/** The units that measure something on paper; a pixel is what the writer took it for. */
export const TRUE_UNITS: ReadonlySet<string> = new Set(['in', 'cm', 'mm', 'q', 'pt', 'pc']);

const NUMBER = /[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?/iy;

export interface SvgLength {
  /** CSS pixels. */
  readonly px: number;
  /** Lower case; empty when none is written. */
  readonly unit: string;
}

/** No program writes a length of more signs. */
const LONGEST_LENGTH = 60;

/** A length with an absolute unit, or with none (which counts as pixels); null for anything else, such as `100%`. */
export function readLength(text: string | undefined): SvgLength | null {
  const tidy = text?.trim().toLowerCase() ?? '';
  if (tidy.length > LONGEST_LENGTH) return null;
  const amount = matchNumber(tidy, 0);
  if (amount === null) return null;
  const unit = tidy.slice(amount.end).trimStart();
  const px = amount.value * (unit === '' ? 1 : (PX_PER.get(unit) ?? Number.NaN));
  return Number.isFinite(px) ? { px, unit } : null;
}

/** Numbers parted by blanks and commas; null when anything else stands among them or one is beyond counting. */
export function readNumbers(text: string): number[] | null {
  const numbers: number[] = [];
  let at = 0;
  for (;;) {
    while (/[\s,]/.test(text[at] ?? '')) at++;
    if (at >= text.length) return numbers;
    const found = matchNumber(text, at);
    if (found === null) return null;
    numbers.push(found.value);
    at = found.end;
  }
}

/** The number that begins right at a place of a text; null when none does. */
export function matchNumber(
  text: string,
  at: number,
): { readonly value: number; readonly end: number } | null {
  NUMBER.lastIndex = at;
  const found = NUMBER.exec(text)?.[0];
  if (found === undefined) return null;
  const value = Number(found);
  return Number.isFinite(value) ? { value, end: at + found.length } : null;
}

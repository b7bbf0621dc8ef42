import { currentLocale } from './language.ts';

const formats = new Map<string, Intl.NumberFormat>();

/** A number as the person's locale writes it, `1,250` or `1.250`; up to three decimals unless told otherwise. */
export function numeral(value: number, options: Intl.NumberFormatOptions = {}): string {
  const key = JSON.stringify([currentLocale(), options]);
  let format = formats.get(key);
  if (format === undefined) {
    format = new Intl.NumberFormat(currentLocale(), options);
    formats.set(key, format);
  }
  return format.format(value);
}

/** The sign between whole and part: a point or a comma. */
export const decimalSign = (): string => numeral(1.5, { minimumFractionDigits: 1 })[1] ?? '.';

/** An amount of money, without its sign: `12.50`. */
export const amount = (value: number): string =>
  numeral(value, { minimumFractionDigits: 2, maximumFractionDigits: 2 });

/** A share of one as per cent, without decimals: `0.25` as `25%`. */
export const perCent = (share: number): string => numeral(share, { style: 'percent' });

/** A day in words: `December 1, 2026`. */
export const longDay = (day: Date): string =>
  new Intl.DateTimeFormat(currentLocale(), { day: 'numeric', month: 'long', year: 'numeric' }).format(day);

/** Day and time, short. */
export const dayAndTime = (time: number | Date): string =>
  new Intl.DateTimeFormat(currentLocale(), { dateStyle: 'medium', timeStyle: 'short' }).format(time);

/** Several things in a row: `a, b and c`. */
export const inList = (parts: readonly string[]): string =>
  new Intl.ListFormat(currentLocale(), { type: 'conjunction' }).format(parts);

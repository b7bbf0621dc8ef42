import { dayAndTime, numeral } from '../../words/numeral.ts';
import { phrase } from '../../words/phrase.ts';

/** Date and time as the person's own locale writes them. */
export const sayWhen = dayAndTime;

const tenths = (value: number): string => numeral(value, { maximumFractionDigits: 1 });

/** A size on disk: `12.3 MB`, `48 kB`. */
export const saySize = (bytes: number): string =>
  bytes < 1e6
    ? phrase('{tenths} kB', { tenths: tenths(Math.max(1, Math.round(bytes / 1e3))) })
    : bytes < 1e9
      ? phrase('{tenths} MB', { tenths: tenths(bytes / 1e6) })
      : phrase('{tenths} GB', { tenths: tenths(bytes / 1e9) });

/** Date and time as the person's own locale writes them. */
const WHEN = new Intl.DateTimeFormat(undefined, { dateStyle: 'medium', timeStyle: 'short' });

export const sayWhen = (time: number): string => WHEN.format(time);

const COUNT = new Intl.NumberFormat(undefined, { maximumFractionDigits: 1 });

/** A size on disk: `12.3 MB`, `48 kB`. */
export const saySize = (bytes: number): string =>
  bytes < 1e6
    ? `${COUNT.format(Math.max(1, Math.round(bytes / 1e3)))} kB`
    : bytes < 1e9
      ? `${COUNT.format(bytes / 1e6)} MB`
      : `${COUNT.format(bytes / 1e9)} GB`;

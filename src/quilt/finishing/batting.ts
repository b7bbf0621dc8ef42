import type { Point } from '../../geometry/point.ts';

/** Packaged batting, shorter side first, inches: sizes on which public tables agree. */
export const BATTING_SIZES: readonly Point[] = [
  [45, 60],
  [50, 65],
  [72, 90],
  [81, 96],
  [90, 108],
  [120, 120],
];

/** Added at every side, inches; 3 to 4 are usual. */
export const BATTING_EXTRA_IN = 3;

/** The smallest package that covers the quilt and what is added, turned where that helps; null where none does. */
export function battingFor([width, height]: Point, extra = BATTING_EXTRA_IN): Point | null {
  const needed = [width + 2 * extra, height + 2 * extra].sort((a, b) => a - b);
  return BATTING_SIZES.find(([short, long]) => short >= needed[0]! && long >= needed[1]!) ?? null;
}

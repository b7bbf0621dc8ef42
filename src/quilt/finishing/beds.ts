import type { Point } from '../../geometry/point.ts';
import { phrase } from '../../words/phrase.ts';

/**
 * Mattresses, width by length in inches. Facts of the trade on which public tables agree (United States); some give a
 * long twin as 36 × 80, a twin as 39 × 76 and a king as 78 × 80.
 */
export const BEDS: readonly { readonly name: string; readonly size: Point }[] = [
  { name: phrase('Crib'), size: [28, 52] },
  { name: phrase('Twin'), size: [39, 75] },
  { name: phrase('Long twin'), size: [39, 80] },
  { name: phrase('Full'), size: [54, 75] },
  { name: phrase('Queen'), size: [60, 80] },
  { name: phrase('King'), size: [76, 80] },
  { name: phrase('California king'), size: [72, 84] },
];

/** What a quilt hangs down at each side and the foot, inches, unless asked otherwise: 8 to 14 in are usual. */
export const USUAL_DROP_IN = 12;

/** What tucks under a pillow, inches: common practice. */
export const PILLOW_TUCK_IN = 10;

/** The size that covers a mattress: the drop at both sides and the foot, the tuck at the head. */
export const coverFor = ([width, length]: Point, drop: number, tuck: number): Point => [
  width + 2 * drop,
  length + drop + tuck,
];

import type { Point } from '../../geometry/point.ts';
import { QUARTER_YARD_IN, roundUp } from './round-up.ts';

export interface BackingPanels {
  /** The way the panels and their seams run. */
  readonly seams: 'upright' | 'level';
  readonly panels: number;
  /** Each panel as cut: across and down the quilt. */
  readonly panel: Point;
  /** Inches of cloth: panels × their length. */
  readonly length: number;
  /** The same, rounded up to 1/4 yd. */
  readonly buy: number;
}

/** Added at every side, inches: 4 is usual, 8 in both directions together. */
export const BACKING_EXTRA_IN = 4;

/**
 * A backing in panels of the usable width, both ways, the cheaper first. Larger than the quilt by `extra` at every side.
 * Two panels of 40 in with a seam of 1/4 in between cover 79 1/2 in.
 */
export function backingPanels(
  [width, height]: Point,
  usableWidth: number,
  seam: number,
  extra = BACKING_EXTRA_IN,
): readonly [BackingPanels, BackingPanels] {
  const [w, h] = [width + 2 * extra, height + 2 * extra];
  const count = (covered: number): number =>
    Math.max(1, Math.ceil((covered - 2 * seam) / (usableWidth - 2 * seam) - 1e-9));
  const upright = count(w);
  const level = count(h);
  const both: BackingPanels[] = [
    {
      seams: 'upright',
      panels: upright,
      panel: [upright === 1 ? w : usableWidth, h],
      length: upright * h,
      buy: roundUp(upright * h, QUARTER_YARD_IN),
    },
    {
      seams: 'level',
      panels: level,
      panel: [w, level === 1 ? h : usableWidth],
      length: level * w,
      buy: roundUp(level * w, QUARTER_YARD_IN),
    },
  ];
  const [first, second] = both.sort((a, b) => a.length - b.length);
  return [first!, second!];
}

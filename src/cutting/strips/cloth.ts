/** A rectangle to be cut from a strip, inches. */
export interface CutSize {
  /** Across the fabric, and along its length. */
  readonly width: number;
  readonly height: number;
  /** May be laid the other way round; never a directional print. */
  readonly turns: boolean;
}

/** One cut in its strip, in the order they are made from one end. */
export interface LaidCut {
  /** Index in what was asked for. */
  readonly item: number;
  /** As it lies in the strip. */
  readonly width: number;
  readonly height: number;
}

/** Cut across the whole usable width, then sub-cut; a cut lower than its strip is trimmed afterwards. */
export interface LaidStrip {
  readonly height: number;
  readonly cuts: readonly LaidCut[];
}

/** Slack for sums of sizes, inches: what fills a strip exactly fits. */
export const ROUNDING = 1e-9;

/** Total of the heights: what comes off the length of the fabric, inches. */
export const lengthOfStrips = (strips: readonly { readonly height: number }[]): number =>
  strips.reduce((sum, { height }) => sum + height, 0);

/** Whether a cut can be laid in a strip across this width at all. */
export const fitsWidth = ({ width, height, turns }: CutSize, usableWidth: number): boolean =>
  width <= usableWidth + ROUNDING || (turns && height <= usableWidth + ROUNDING);

import type { Homography } from './homography.ts';

/** Colours of a picture, four bytes a pixel, row by row. */
export interface Pixels {
  readonly data: Uint8ClampedArray;
  readonly width: number;
  readonly height: number;
}

/**
 * Fills rows `from` … `to` (not included) of `target` with `source` as it is seen through `view`, which takes a place
 * of the target, pixels, to one of the source. Between four pixels the colour is their mean by nearness; beyond the
 * source nothing is changed. No place of the rows may lie on the view's horizon.
 */
export function warpRows(
  source: Pixels,
  target: Pixels,
  [a, b, c, d, e, f, g, h, i]: Homography,
  from: number,
  to: number,
): void {
  const [pixels, { width, height }] = [source.data, source];
  const out = target.data;
  for (let y = from; y < to; y++) {
    // The colour of a pixel is that of its middle.
    const middle = y + 0.5;
    let at = y * target.width * 4;
    for (let x = 0.5; x < target.width; x++, at += 4) {
      const w = g * x + h * middle + i;
      const u = (a * x + b * middle + c) / w - 0.5;
      const v = (d * x + e * middle + f) / w - 0.5;
      if (!(u > -0.5 && v > -0.5 && u < width - 0.5 && v < height - 0.5)) continue;
      const left = Math.max(0, Math.floor(u));
      const top = Math.max(0, Math.floor(v));
      const right = Math.min(width - 1, left + 1);
      const low = Math.min(height - 1, top + 1);
      const across = Math.max(0, u - left);
      const down = Math.max(0, v - top);
      const topLeft = (top * width + left) * 4;
      const topRight = (top * width + right) * 4;
      const lowLeft = (low * width + left) * 4;
      const lowRight = (low * width + right) * 4;
      for (let channel = 0; channel < 4; channel++) {
        const above = pixels[topLeft + channel]! * (1 - across) + pixels[topRight + channel]! * across;
        const below = pixels[lowLeft + channel]! * (1 - across) + pixels[lowRight + channel]! * across;
        out[at + channel] = above * (1 - down) + below * down;
      }
    }
  }
}

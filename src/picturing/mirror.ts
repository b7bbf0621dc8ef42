import type { Piece } from './convex.ts';
import type { PictureBlock } from './picture-block.ts';
import type { Pixels } from './pixels.ts';

/** The left half of a picture, each pixel mixed with its mirror image, so that both halves count alike. */
export function mirroredHalf({ width, height, data }: Pixels): Pixels {
  const half = Math.max(1, Math.ceil(width / 2));
  const mixed = new Uint8ClampedArray(half * height * 4);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < half; x++)
      for (let k = 0; k < 4; k++) {
        const other = width - 1 - x;
        mixed[(y * half + x) * 4 + k] =
          (data[(y * width + x) * 4 + k]! + data[(y * width + other) * 4 + k]!) / 2;
      }
  return { width: half, height, data: mixed };
}

/** Weights of the left half, likewise. */
export function mirroredWeights(weights: ArrayLike<number>, width: number, height: number): Float32Array {
  const half = Math.max(1, Math.ceil(width / 2));
  return Float32Array.from({ length: half * height }, (_, at) => {
    const [x, y] = [at % half, Math.floor(at / half)];
    return (weights[y * width + x]! + weights[y * width + width - 1 - x]!) / 2;
  });
}

/** Places that must stay whole, of either half as they lie in the left one. */
export function mirroredPlaces(places: ArrayLike<number>, width: number, height: number): Uint8Array {
  const half = Math.max(1, Math.ceil(width / 2));
  return Uint8Array.from({ length: half * height }, (_, at) => {
    const [x, y] = [at % half, Math.floor(at / half)];
    return places[y * width + x]! || places[y * width + width - 1 - x]!;
  });
}

/**
 * A block of the left half completed by its mirror image: the line down the middle first, then both halves' lines in
 * turn. `width`: of the whole block, inches. Sewn by straight seams as each half is.
 */
export function completedByMirror(half: PictureBlock, width: number, height: number): PictureBlock {
  const turned = (piece: Piece): Piece => {
    const corners: number[] = [];
    // Backwards, so that it runs the same way round.
    for (let i = piece.length - 2; i >= 0; i -= 2) corners.push(width - piece[i]!, piece[i + 1]!);
    return corners;
  };
  return {
    ...half,
    patches: half.patches.flatMap((patch) => [patch, { ...patch, piece: turned(patch.piece) }]),
    lines: [
      [width / 2, 0, width / 2, height],
      ...half.lines.flatMap((line) => {
        const [x1, y1, x2, y2] = line;
        return [line, [width - x1, y1, width - x2, y2] as const];
      }),
    ],
    foundations: 2 * half.foundations,
  };
}

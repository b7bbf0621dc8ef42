import { isSafeData } from '../../document/picture-file.ts';
import type { Pixels } from '../../geometry/warp.ts';

/** A picture by what it is written as, and its size in pixels. */
export interface WrittenPicture {
  readonly data: string;
  readonly width: number;
  readonly height: number;
}

/** So many pictures are kept decoded: those under the blocks that are gone to and fro between. */
const KEPT = 2;

const kept = new Map<string, Promise<Pixels>>();

/** The pixels of a picture, decoded once while it is in use. Rejects where it cannot be shown. */
export function pixelsOf(picture: WrittenPicture): Promise<Pixels> {
  const known = kept.get(picture.data);
  if (known !== undefined) return known;
  const pixels = decoded(picture);
  kept.set(picture.data, pixels);
  for (const data of [...kept.keys()].slice(0, -KEPT)) kept.delete(data);
  return pixels;
}

async function decoded({ data, width, height }: WrittenPicture): Promise<Pixels> {
  if (!isSafeData(data)) throw new Error('Nothing that is safe to decode.');
  const image = new Image();
  image.src = data;
  await image.decode();
  const canvas = document.createElement('canvas');
  canvas.width = width;
  canvas.height = height;
  const pen = canvas.getContext('2d', { willReadFrequently: true });
  if (pen === null) throw new Error('This browser gave no canvas to draw on.');
  pen.drawImage(image, 0, 0, width, height);
  return pen.getImageData(0, 0, width, height);
}

/** The same made smaller, until its longer side is at most so many pixels, by whole halves: fast, and without shimmer. */
export function smaller(pixels: Pixels, longestSide: number): Pixels {
  let small = pixels;
  while (Math.max(small.width, small.height) >= 2 * longestSide) small = halved(small);
  return small;
}

function halved({ data, width, height }: Pixels): Pixels {
  const [across, down] = [Math.max(1, width >> 1), Math.max(1, height >> 1)];
  const half = new Uint8ClampedArray(across * down * 4);
  for (let y = 0; y < down; y++)
    for (let x = 0; x < across; x++)
      for (let channel = 0; channel < 4; channel++) {
        const at = (2 * y * width + 2 * x) * 4 + channel;
        const right = width > 1 ? 4 : 0;
        const low = height > 1 ? 4 * width : 0;
        half[(y * across + x) * 4 + channel] =
          (data[at]! + data[at + right]! + data[at + low]! + data[at + right + low]!) / 4;
      }
  return { data: half, width: across, height: down };
}

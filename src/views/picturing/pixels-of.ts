import type { Pixels } from '../../picturing/pixels.ts';

/** The longer side of the picture as it is looked at, pixels: finer is not seen in patches, and slower. */
export const FINE_PX = 192;
/** The same for many blocks. */
const MOST_PX = 480;

/** What of a picture is used: its middle in shares of the picture, and how far it is enlarged, 1 for as much as fits. */
export interface Crop {
  readonly x: number;
  readonly y: number;
  readonly zoom: number;
}

export const WHOLE: Crop = { x: 0.5, y: 0.5, zoom: 1 };

/** The part of a picture that a crop takes for a block of these proportions, in the picture's pixels. */
export function cropBox(
  picture: { readonly width: number; readonly height: number },
  size: readonly [number, number],
  { x, y, zoom }: Crop,
): { readonly left: number; readonly top: number; readonly width: number; readonly height: number } {
  const scale = Math.min(picture.width / size[0], picture.height / size[1]) / zoom;
  const [width, height] = [size[0] * scale, size[1] * scale];
  const held = (middle: number, side: number, whole: number): number =>
    Math.min(whole - side, Math.max(0, middle * whole - side / 2));
  return { left: held(x, width, picture.width), top: held(y, height, picture.height), width, height };
}

/** The size of the fine picture for a block of these proportions, or for so many blocks, pixels. */
export const fineSize = (
  [width, height]: readonly [number, number],
  blocks = 1,
): readonly [number, number] => {
  const scale = Math.min(MOST_PX, FINE_PX * Math.sqrt(blocks)) / Math.max(width, height);
  return [Math.max(1, Math.round(width * scale)), Math.max(1, Math.round(height * scale))];
};

/** The cropped picture in its fine size. Throws where the browser has no memory for it. */
export function finePixels(
  image: HTMLImageElement,
  size: readonly [number, number],
  crop: Crop,
  blocks = 1,
): ImageData {
  const [width, height] = fineSize(size, blocks);
  const canvas = document.createElement('canvas');
  canvas.width = width;
  canvas.height = height;
  const ctx = canvas.getContext('2d', { willReadFrequently: true });
  if (ctx === null) throw new Error('no canvas');
  const box = cropBox({ width: image.naturalWidth, height: image.naturalHeight }, size, crop);
  ctx.imageSmoothingQuality = 'high';
  ctx.drawImage(image, box.left, box.top, box.width, box.height, 0, 0, width, height);
  return ctx.getImageData(0, 0, width, height);
}

/** Half as large, each pixel the mean of four. */
export function halved({ width, height, data }: Pixels): Pixels {
  const [w, h] = [Math.max(1, Math.floor(width / 2)), Math.max(1, Math.floor(height / 2))];
  const mixed = new Uint8ClampedArray(w * h * 4);
  const at = (x: number, y: number, k: number): number =>
    data[(Math.min(height - 1, y) * width + Math.min(width - 1, x)) * 4 + k]!;
  for (let y = 0; y < h; y++)
    for (let x = 0; x < w; x++)
      for (let k = 0; k < 4; k++)
        mixed[(y * w + x) * 4 + k] =
          (at(2 * x, 2 * y, k) +
            at(2 * x + 1, 2 * y, k) +
            at(2 * x, 2 * y + 1, k) +
            at(2 * x + 1, 2 * y + 1, k)) /
          4;
  return { width: w, height: h, data: mixed };
}

/** What a brush has laid on each pixel: nothing, more detail, less, or to be kept whole. */
export type Brush = 'more' | 'less' | 'whole' | 'none';

export const BRUSH_CODES: Readonly<Record<Brush, number>> = { none: 0, more: 1, less: 2, whole: 3 };

/** How much more a pixel matters under a brush. */
const WEIGHTS = [1, 8, 1 / 8, 1] as const;

/** Weights from what was brushed; null where nothing was. */
export const weightsOf = (brushed: Uint8Array): Float32Array | null =>
  brushed.some((code) => code === 1 || code === 2)
    ? Float32Array.from(brushed, (code) => WEIGHTS[code] ?? 1)
    : null;

/** More places than this are not told apart; a few pixels are none. */
const MOST_PLACES = 12;
const FEWEST_PIXELS = 8;

/** What was brushed to stay whole, as places that hang together, numbered from 1; null where there is none. */
export function placesOf(brushed: Uint8Array, width: number): Uint8Array | null {
  const places = new Uint8Array(brushed.length);
  let number = 0;
  for (let start = 0; start < brushed.length && number < MOST_PLACES; start++) {
    if (brushed[start] !== BRUSH_CODES.whole || places[start] !== 0) continue;
    const found = [start];
    places[start] = number + 1;
    for (const at of found)
      for (const next of [
        at - width,
        at + width,
        ...(at % width > 0 ? [at - 1] : []),
        ...(at % width < width - 1 ? [at + 1] : []),
      ]) {
        if (brushed[next] !== BRUSH_CODES.whole || places[next] !== 0) continue;
        places[next] = number + 1;
        found.push(next);
      }
    if (found.length >= FEWEST_PIXELS) number++;
    else for (const at of found) places[at] = 255;
  }
  return number === 0 ? null : places.map((place) => (place > number ? 0 : place));
}

/** The picture with each place that is kept whole in the mean colour of them all: its fabric is that of what it shows. */
export function keptWhole({ width, height, data }: Pixels, brushed: Uint8Array): Pixels {
  const mean = [0, 0, 0];
  let count = 0;
  brushed.forEach((code, at) => {
    if (code !== BRUSH_CODES.whole) return;
    count++;
    for (let k = 0; k < 3; k++) mean[k]! += data[at * 4 + k]!;
  });
  if (count === 0) return { width, height, data };
  const flat = Uint8ClampedArray.from(data);
  brushed.forEach((code, at) => {
    if (code === BRUSH_CODES.whole) for (let k = 0; k < 3; k++) flat[at * 4 + k] = mean[k]! / count;
  });
  return { width, height, data: flat };
}

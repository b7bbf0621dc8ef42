import { createStore } from 'zustand/vanilla';
import { isPictureData, PICTURE_SIDE_PX } from '../document/fabric-picture.ts';
import { averageLab, colorOfLab, makeValues } from '../document/lab.ts';
import { isSafeData } from '../document/picture-file.ts';
import type { Fabric, FabricPicture } from '../document/project.ts';

/** A picture made ready once: itself, and each time half as large down to one pixel, so that any size is drawn clean. */
interface Ready {
  readonly levels: readonly HTMLCanvasElement[];
  /** Each level as greys of the same lightness, made when it is first asked for. */
  readonly values: Map<HTMLCanvasElement, HTMLCanvasElement>;
  /** `#rrggbb`, the average of all its pixels as it looks; null until it is asked for. */
  color: string | null;
}

/** What is known of a picture: ready, being read, or of no use, so that the colour stands for it. */
type State = Ready | 'reading' | 'unreadable';

const states = new WeakMap<FabricPicture, State>();

/** Counts up whenever a picture has become ready, so that what shows it can be drawn again. */
export const pictures = createStore<{ readonly ready: number }>(() => ({ ready: 0 }));

/** The picture where it is ready. Asked for the first time it begins to be read; `pictures` tells when it is done. */
function readyOf(picture: FabricPicture): Ready | null {
  const state = states.get(picture);
  if (state === undefined) {
    states.set(picture, 'reading');
    // One after the other, so that a project with many pictures leaves the window free meanwhile.
    reading = reading.then(() => read(picture));
    return null;
  }
  return typeof state === 'string' ? null : state;
}

let reading: Promise<void> = Promise.resolve();
let telling = 0;

/** Pictures become ready in quick turn: what shows them is drawn again once for several. */
function tell(): void {
  if (telling !== 0) return;
  telling = window.setTimeout(() => {
    telling = 0;
    pictures.setState(({ ready }) => ({ ready: ready + 1 }));
  }, TOLD_AFTER_MS);
}

const TOLD_AFTER_MS = 60;

async function read(picture: FabricPicture): Promise<void> {
  try {
    if (!isSafeData(picture.data)) throw new Error('Nothing that is safe to decode.');
    const image = new Image();
    image.src = picture.data;
    await image.decode();
    const levels = levelsOf(image, picture);
    states.set(picture, { levels, values: new Map(), color: null });
  } catch {
    // A file may hold anything that looks like a picture from outside. The fabric then has its colour.
    states.set(picture, 'unreadable');
  }
  tell();
}

/** Settles when every picture of some fabrics is ready or known to be of no use. */
export async function picturesReady(fabrics: readonly Fabric[]): Promise<void> {
  const isReading = (): boolean =>
    fabrics.some(({ picture }) => {
      if (picture === undefined) return false;
      readyOf(picture);
      return states.get(picture) === 'reading';
    });
  if (!isReading()) return;
  await new Promise<void>((resolve) => {
    const stop = pictures.subscribe(() => {
      if (isReading()) return;
      stop();
      resolve();
    });
  });
}

function levelsOf(image: CanvasImageSource, { width, height }: FabricPicture): readonly HTMLCanvasElement[] {
  const smaller = Math.min(1, PICTURE_SIDE_PX / Math.max(width, height));
  let [w, h] = [width, height].map((side) => Math.max(1, Math.round(side * smaller))) as [number, number];
  const levels = [drawn(image, w, h)];
  while (w > 1 || h > 1) {
    [w, h] = [Math.max(1, w >> 1), Math.max(1, h >> 1)];
    levels.push(drawn(levels.at(-1)!, w, h));
  }
  return levels;
}

/** On white: what shines through a picture of cloth is the table under it. */
function drawn(image: CanvasImageSource, width: number, height: number): HTMLCanvasElement {
  const [canvas, pen] = canvasOf(width, height);
  pen.fillStyle = '#ffffff';
  pen.fillRect(0, 0, width, height);
  pen.imageSmoothingQuality = 'high';
  pen.drawImage(image, 0, 0, width, height);
  return canvas;
}

function canvasOf(width: number, height: number): readonly [HTMLCanvasElement, CanvasRenderingContext2D] {
  const canvas = document.createElement('canvas');
  canvas.width = width;
  canvas.height = height;
  // Read back for the average, and so kept out of the graphics card's memory.
  const pen = canvas.getContext('2d', { willReadFrequently: true });
  if (pen === null) throw new Error('This browser gave no canvas to draw on.');
  return [canvas, pen];
}

/** `#rrggbb`, the average of a picture as it looks. */
function averageOf(canvas: HTMLCanvasElement): string {
  const { width, height } = canvas;
  const lab = averageLab(canvas.getContext('2d')!.getImageData(0, 0, width, height).data);
  return lab === null ? '#ffffff' : colorOfLab(lab);
}

function valuesOf({ values }: Ready, level: HTMLCanvasElement): HTMLCanvasElement {
  const known = values.get(level);
  if (known !== undefined) return known;
  const { width, height } = level;
  const [canvas, pen] = canvasOf(width, height);
  const pixels = level.getContext('2d')!.getImageData(0, 0, width, height);
  makeValues(pixels.data);
  pen.putImageData(pixels, 0, 0);
  values.set(level, canvas);
  return canvas;
}

/**
 * The picture at the smallest of its sizes that is still as wide as it will be shown, in pixels; null until it is ready
 * or when it cannot be read, where the fabric's colour stands for it.
 */
export function tileOf(picture: FabricPicture, widthPx: number, asValues = false): HTMLCanvasElement | null {
  const ready = readyOf(picture);
  if (ready === null) return null;
  const level = ready.levels.findLast(({ width }) => width >= widthPx) ?? ready.levels[0]!;
  return asValues ? valuesOf(ready, level) : level;
}

const addresses = new WeakMap<HTMLCanvasElement, string>();

/** The same as an address that an element of the page can show. */
export function tileAddress(picture: FabricPicture, widthPx: number): string | null {
  const tile = tileOf(picture, widthPx);
  if (tile === null) return null;
  let address = addresses.get(tile);
  if (address === undefined) {
    address = tile.toDataURL('image/png');
    addresses.set(tile, address);
  }
  return address;
}

/** The average of a picture as it looks, `#rrggbb`; null while it is not ready. */
export function colorOfPicture(picture: FabricPicture): string | null {
  const ready = readyOf(picture);
  if (ready === null) return null;
  ready.color ??= averageOf(ready.levels[0]!);
  return ready.color;
}

const patterns = new WeakMap<HTMLCanvasElement, CanvasPattern>();

/**
 * The picture laid side by side with itself, as a fill: `scale` pixels of the pen to the inch of fabric, its corner
 * at [x, y]. Null where the fabric's colour stands for it. `density`: dots of the canvas to a pixel of the pen.
 */
export function patternOf(
  pen: CanvasRenderingContext2D,
  picture: FabricPicture,
  { scale, x, y, density = 1 }: { scale: number; x: number; y: number; density?: number },
  asValues = false,
): CanvasPattern | null {
  const tile = tileOf(picture, picture.across * scale * density, asValues);
  if (tile === null) return null;
  let pattern = patterns.get(tile) ?? null;
  if (pattern === null) {
    pattern = pen.createPattern(tile, 'repeat');
    if (pattern === null) return null;
    patterns.set(tile, pattern);
  }
  const across = (picture.across * scale) / tile.width;
  const down = (picture.across * scale * picture.height) / picture.width / tile.height;
  pattern.setTransform(new DOMMatrix([across, 0, 0, down, x, y]));
  return pattern;
}

/** The same picture showing a piece of another width, in inches; what is ready of it is not read again. */
export function withAcross(picture: FabricPicture, across: number): FabricPicture {
  const changed = { ...picture, across };
  const state = states.get(picture);
  if (state !== undefined && state !== 'reading') states.set(changed, state);
  return changed;
}

/** The part of a picture that is used: shares of its width and height, 0 … 1. */
export interface Frame {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export const WHOLE_FRAME: Frame = { left: 0, top: 0, right: 1, bottom: 1 };

/** Fine enough for a print at the size of a screen. */
const JPEG_QUALITY = 0.9;

/** What the frame shows of a picture, at most `PICTURE_SIDE_PX` long, written out; null when the browser cannot. */
export function framed(
  image: HTMLImageElement,
  frame: Frame,
): Pick<FabricPicture, 'data' | 'width' | 'height'> | null {
  const [w, h] = [image.naturalWidth, image.naturalHeight];
  const [x, y] = [Math.round(frame.left * w), Math.round(frame.top * h)];
  const [across, down] = [
    Math.max(1, Math.round(frame.right * w) - x),
    Math.max(1, Math.round(frame.bottom * h) - y),
  ];
  const smaller = Math.min(1, PICTURE_SIDE_PX / Math.max(across, down));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(across * smaller));
  canvas.height = Math.max(1, Math.round(down * smaller));
  const pen = canvas.getContext('2d');
  if (pen === null) return null;
  pen.imageSmoothingQuality = 'high';
  pen.drawImage(image, x, y, across, down, 0, 0, canvas.width, canvas.height);
  const data = canvas.toDataURL('image/jpeg', JPEG_QUALITY);
  return isPictureData(data) ? { data, width: canvas.width, height: canvas.height } : null;
}

import { createStore } from 'zustand/vanilla';
import { makeValues } from '../../document/lab.ts';
import type { Block } from '../../document/project.ts';
import { cornersOfBox } from '../../document/under-picture.ts';
import { type Quad, viewOf } from '../../geometry/homography.ts';
import { type Box, boxOf } from '../../geometry/ring.ts';
import { warpRows } from '../../geometry/warp.ts';
import type { UnderPicture } from '../../piecing/block.ts';
import { toScreen } from '../camera.ts';
import { type Pen, trace } from './pen.ts';
import { pixelsOf } from './under-picture-pixels.ts';

/** A picture squared up: what lies within the box of an outline, as a canvas of its own. */
interface Squared {
  readonly data: string;
  readonly corners: Quad;
  /** Width by height of the box it was made for. */
  readonly ratio: number;
  /** Null where the picture cannot be shown. */
  readonly canvas: HTMLCanvasElement | null;
}

/** Squared pictures as greys, each made when the value view first asks for it. */
const greys = new WeakMap<HTMLCanvasElement, HTMLCanvasElement>();

/** In the value view the picture is a grey too: its colours would shine through fabrics and belie their lightness. */
function greyOf(canvas: HTMLCanvasElement): HTMLCanvasElement {
  const known = greys.get(canvas);
  if (known !== undefined) return known;
  const grey = document.createElement('canvas');
  grey.width = canvas.width;
  grey.height = canvas.height;
  const pixels = canvas.getContext('2d')?.getImageData(0, 0, canvas.width, canvas.height);
  if (pixels !== undefined) {
    makeValues(pixels.data);
    grey.getContext('2d')?.putImageData(pixels, 0, 0);
  }
  greys.set(canvas, grey);
  return grey;
}

/** Counts the pictures that have been squared up, so that the board can be drawn anew. */
export const squaredPictures = createStore<{ readonly made: number }>(() => ({ made: 0 }));

/** The longer side of a picture that is squared up, pixels: about as many as the picture itself has. */
const SIDE_PX = 1400;

/** So long the making may keep the page at a time, milliseconds. */
const STRETCH_MS = 6;

/** The last ones made: the block at hand, and how it was before the last edit. */
const MOST_KEPT = 3;
let kept: readonly Squared[] = [];
let wanted: Squared | null = null;

const ratioOf = ({ minX, minY, maxX, maxY }: Box): number => (maxX - minX) / (maxY - minY);

const isFor = (squared: Squared, { data, corners }: UnderPicture, ratio: number): boolean =>
  squared.data === data && squared.corners === corners && Math.abs(squared.ratio / ratio - 1) < 1e-9;

/** A picture squared up, where that has been made; otherwise it begins to be, unless it `canWait`. */
function squaredFor(picture: UnderPicture, ratio: number, canWait: boolean): Squared | null {
  const made = kept.find((one) => isFor(one, picture, ratio));
  if (made !== undefined) return made;
  if (canWait || !(ratio > 0) || !Number.isFinite(ratio)) return null;
  if (wanted === null || !isFor(wanted, picture, ratio)) void make(picture, ratio);
  return null;
}

async function make(picture: UnderPicture, ratio: number): Promise<void> {
  const { data, corners } = picture;
  const mine: Squared = { data, corners, ratio, canvas: null };
  wanted = mine;
  const canvas = await squaredUp(picture, ratio, () => wanted === mine).catch(() => null);
  if (wanted !== mine) return;
  wanted = null;
  kept = [{ ...mine, canvas }, ...kept].slice(0, MOST_KEPT);
  squaredPictures.setState(({ made }) => ({ made: made + 1 }));
}

/** Squares a picture up, a few rows at a time; null when it is no longer wanted. */
async function squaredUp(
  picture: UnderPicture,
  ratio: number,
  isWanted: () => boolean,
): Promise<HTMLCanvasElement | null> {
  const source = await pixelsOf(picture);
  const width = Math.max(1, Math.round(ratio >= 1 ? SIDE_PX : SIDE_PX * ratio));
  const height = Math.max(1, Math.round(ratio >= 1 ? SIDE_PX / ratio : SIDE_PX));
  const view = viewOf(cornersOfBox({ minX: 0, minY: 0, maxX: width, maxY: height }), picture.corners);
  const target = new ImageData(width, height);
  let begun = performance.now();
  for (let y = 0; y < height; y++) {
    warpRows(source, target, view, y, y + 1);
    if (performance.now() - begun < STRETCH_MS) continue;
    await new Promise((resolve) => setTimeout(resolve, 0));
    if (!isWanted()) return null;
    begun = performance.now();
  }
  const canvas = document.createElement('canvas');
  canvas.width = width;
  canvas.height = height;
  canvas.getContext('2d')?.putImageData(target, 0, 0);
  return canvas;
}

/** How much of a fabric shows over a picture that is being traced. */
export const FABRIC_OVER_PICTURE = 0.6;

/** What of a picture shows beyond the outline, as a share of what shows within. */
const BEYOND = 0.3;

export const hasPictureShown = (block: Block | null): boolean =>
  block?.picture?.shown === true && block.picture.strength > 0;

/** What was drawn last, which stands until its successor is made: a picture lies still while corners are moved. */
let last: { readonly blockId: string; readonly box: Box; readonly squared: Squared } | null = null;

/**
 * The picture under a block, squared up to the box of its outline; beyond the outline it is faint. `isDragged`: an edit
 * is still going on, and nothing is made for it. `asGrey`: only its lightness is shown.
 */
export function drawUnderPicture(pen: Pen, block: Block, isDragged: boolean, asGrey: boolean): void {
  const { picture } = block;
  if (picture === undefined || !hasPictureShown(block)) return;
  const box = boxOf(block.outline);
  const stands = last?.blockId === block.id && last.squared.data === picture.data ? last : null;
  const squared = squaredFor(picture, ratioOf(box), isDragged && stands !== null);
  if (squared !== null) last = { blockId: block.id, box, squared };
  const shown = squared === null ? stands : last;
  if (shown !== null) drawSquared(pen, block, shown.box, shown.squared, asGrey);
}

function drawSquared(
  pen: Pen,
  { outline, picture }: Block,
  box: Box,
  squared: Squared,
  asGrey: boolean,
): void {
  if (squared.canvas === null || picture === undefined) return;
  const canvas = asGrey ? greyOf(squared.canvas) : squared.canvas;
  const { ctx, camera } = pen;
  const [left, top] = toScreen(camera, [box.minX, box.minY]);
  const [right, bottom] = toScreen(camera, [box.maxX, box.maxY]);
  const draw = (strength: number): void => {
    ctx.globalAlpha = strength;
    ctx.drawImage(canvas, left, top, right - left, bottom - top);
  };
  ctx.save();
  ctx.imageSmoothingQuality = 'medium';
  ctx.save();
  ctx.beginPath();
  trace(pen, outline, true);
  ctx.clip();
  draw(picture.strength);
  ctx.restore();
  ctx.beginPath();
  ctx.rect(left, top, right - left, bottom - top);
  trace(pen, outline, true);
  ctx.clip('evenodd');
  draw(picture.strength * BEYOND);
  ctx.restore();
}

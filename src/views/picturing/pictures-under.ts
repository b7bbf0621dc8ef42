import type { UnderPicture } from '../../document/project.ts';
import { USUAL_STRENGTH } from '../../document/under-picture.ts';
import type { BlockGrid } from '../../picturing/over-blocks.ts';
import type { ReadPicture } from '../../workspace/read-picture.ts';
import { type Crop, cropBox } from './pixels-of.ts';

/** The picture as it lies under the block afterwards: its crop at the block's corners. */
export function underPicture(
  { data, width, height }: ReadPicture,
  size: readonly [number, number],
  crop: Crop,
): UnderPicture {
  const box = cropBox({ width, height }, size, crop);
  const [left, top, right, bottom] = [box.left, box.top, box.left + box.width, box.top + box.height];
  return {
    data,
    width,
    height,
    corners: [
      [left, top],
      [right, top],
      [right, bottom],
      [left, bottom],
    ],
    strength: USUAL_STRENGTH,
    shown: false,
    locked: false,
  };
}

export const naturalSize = ({ naturalWidth: width, naturalHeight: height }: HTMLImageElement) => ({
  width,
  height,
});

/** Longest side of the picture that lies under one of many blocks, pixels. */
const CELL_PX = 512;

/** The picture under each of many blocks, in reading order: its own part of it, no larger than it is of use. */
export function cellPictures(
  image: HTMLImageElement,
  { left, top, width, height }: ReturnType<typeof cropBox>,
  { columns, rows }: BlockGrid,
): readonly (UnderPicture | null)[] {
  const [w, h] = [width / columns, height / rows];
  const scale = Math.min(1, CELL_PX / Math.max(w, h));
  const canvas = document.createElement('canvas');
  [canvas.width, canvas.height] = [Math.max(1, Math.round(w * scale)), Math.max(1, Math.round(h * scale))];
  const ctx = canvas.getContext('2d');
  return Array.from({ length: columns * rows }, (_, k) => {
    if (ctx === null) return null;
    const [x, y] = [left + (k % columns) * w, top + Math.floor(k / columns) * h];
    ctx.drawImage(image, x, y, w, h, 0, 0, canvas.width, canvas.height);
    return {
      data: canvas.toDataURL('image/jpeg', 0.85),
      width: canvas.width,
      height: canvas.height,
      corners: [
        [0, 0],
        [canvas.width, 0],
        [canvas.width, canvas.height],
        [0, canvas.height],
      ],
      strength: USUAL_STRENGTH,
      shown: false,
      locked: false,
    };
  });
}

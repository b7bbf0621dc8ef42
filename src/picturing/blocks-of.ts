import { middleOf, type Piece } from './convex.ts';
import type { BlockGrid } from './over-blocks.ts';
import type { PictureBlock, PicturePatch } from './picture-block.ts';

/** What is drawn of a picture: patches, lines and fabrics. */
export type PictureDrawing = Pick<PictureBlock, 'patches' | 'lines' | 'fabrics'>;

/** Ends on the line between two blocks lie this near to it, inches. */
const ON_EDGE_IN = 1e-6;

/** The blocks of a picture spread over them, in reading order, each measured from its own upper left corner. */
export function blocksOf(
  { patches, lines, fabrics }: PictureDrawing,
  { columns, rows }: BlockGrid,
  [width, height]: readonly [number, number],
): readonly PictureDrawing[] {
  const [w, h] = [width / columns, height / rows];
  const made = Array.from({ length: columns * rows }, () => ({
    patches: [] as PicturePatch[],
    lines: [] as (readonly [number, number, number, number])[],
    fabrics,
  }));
  const cell = (x: number, y: number): number =>
    Math.min(rows - 1, Math.floor(y / h)) * columns + Math.min(columns - 1, Math.floor(x / w));
  const moved = (piece: Piece, k: number): number[] =>
    piece.map((value, i) => (i % 2 === 0 ? value - (k % columns) * w : value - Math.floor(k / columns) * h));
  for (const patch of patches) {
    const [x, y] = middleOf(patch.piece);
    const k = cell(x, y);
    made[k]!.patches.push({ ...patch, piece: moved(patch.piece, k) });
  }
  for (const line of lines) {
    const [x, y] = middleOf(line);
    const isBetween = (at: number, step: number, from: number, to: number): boolean =>
      Math.abs(from - to) < ON_EDGE_IN && Math.abs(at / step - Math.round(at / step)) * step < ON_EDGE_IN;
    if (isBetween(x, w, line[0], line[2]) || isBetween(y, h, line[1], line[3])) continue;
    const k = cell(x, y);
    made[k]!.lines.push(moved(line, k) as unknown as readonly [number, number, number, number]);
  }
  return made;
}

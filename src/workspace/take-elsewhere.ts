import { type BlockDrawing, drawBlock, type PictureKind, toSvgPicture } from '../document/export-block.ts';
import { fileNameFor } from '../document/file-name.ts';
import { oneLine } from '../document/file-place.ts';
import type { Block, Fabric } from '../document/project.ts';
import type { Ring } from '../geometry/point.ts';
import { phrase } from '../words/phrase.ts';
import { say } from './actions.ts';
import { patternOf, picturesReady } from './fabric-pictures.ts';
import { download } from './files.ts';

/** Narrowest and widest picture, pixels: browsers refuse canvases much larger. */
export const MIN_PIXELS = 16;
export const MAX_PIXELS = 8_000;

/** Height in pixels of a block's picture at a width. */
export function pixelHeight(block: Block, width: number): number {
  const { height, line } = drawBlock(block, [], 'lines', 1);
  return Math.max(1, Math.round((width * (height + line)) / (1 + line)));
}

/** Hands over the block as an SVG file, so many inches wide. */
export function saveBlockSvg(
  block: Block,
  fabrics: readonly Fabric[],
  kind: PictureKind,
  widthIn: number,
): void {
  const name = fileNameFor(block.name, '.svg');
  const text = toSvgPicture(drawBlock(block, fabrics, kind, widthIn), block.name);
  download(name, new Blob([text], { type: 'image/svg+xml' }));
  say('done', phrase('‘{name}’ is on its way to your downloads.', { name: oneLine(name) }));
}

/** Hands over the block as a PNG picture on white, so many pixels wide. */
export async function saveBlockPng(
  block: Block,
  fabrics: readonly Fabric[],
  kind: PictureKind,
  widthPx: number,
): Promise<void> {
  const name = fileNameFor(block.name, '.png');
  const canvas = document.createElement('canvas');
  canvas.width = widthPx;
  canvas.height = pixelHeight(block, widthPx);
  const pen = canvas.getContext('2d');
  // The line keeps its share of a picture six inches wide, so that it shows in a small one and suits a large one.
  const drawing = drawBlock(block, fabrics, kind, 6);
  await picturesReady(fabrics);
  if (pen !== null) paint(pen, drawing, widthPx / (drawing.width + drawing.line));
  const picture = pen && (await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/png')));
  if (picture === null) {
    say('trouble', phrase('This browser could not make a picture of that size. A smaller one may do.'));
    return;
  }
  download(name, picture);
  say('done', phrase('‘{name}’ is on its way to your downloads.', { name: oneLine(name) }));
}

function paint(pen: CanvasRenderingContext2D, drawing: BlockDrawing, scale: number): void {
  const { outline, cuts, fills, line } = drawing;
  pen.fillStyle = '#ffffff';
  pen.fillRect(0, 0, pen.canvas.width, pen.canvas.height);
  pen.setTransform(scale, 0, 0, scale, (scale * line) / 2, (scale * line) / 2);
  const [x, y] = drawing.origin;
  const laid = { scale: drawing.scale, x, y, density: scale };
  for (const { color, picture, rings } of fills) {
    const path = new Path2D();
    for (const ring of rings) trace(path, ring);
    pen.fillStyle = (picture && patternOf(pen, picture, laid)) ?? color;
    pen.fill(path, 'evenodd');
  }
  const lines = new Path2D();
  trace(lines, outline);
  for (const [a, b] of cuts) {
    lines.moveTo(...a);
    lines.lineTo(...b);
  }
  pen.strokeStyle = '#1f2530';
  pen.lineCap = 'round';
  pen.lineJoin = 'round';
  // Never thinner than a pixel.
  pen.lineWidth = Math.max(line, 1 / scale);
  pen.stroke(lines);
}

function trace(path: Path2D, ring: Ring): void {
  ring.forEach(([x, y], i) => {
    if (i === 0) path.moveTo(x, y);
    else path.lineTo(x, y);
  });
  path.closePath();
}

import { type Camera, toScreen } from '../../board/camera.ts';
import { INKS } from '../../board/draw/inks.ts';
import { FONT } from '../../board/draw/pen.ts';
import { valueOfColor } from '../../document/lightness.ts';
import { type Lie, lieOf } from '../../document/place-polygon.ts';
import type { Block, Project } from '../../document/project.ts';
import { isBlockPlace } from '../../document/quilt.ts';
import type { Point, Ring, Segment } from '../../geometry/point.ts';
import { boxOf, centroid } from '../../geometry/ring.ts';
import type { Layout, Piece } from '../../quilt/layout.ts';
import { patternOf, pictures } from '../../workspace/fabric-pictures.ts';
import { type PictureWay, pictureOf } from './block-pictures.ts';

/** Everything that is drawn of a quilt goes through this: a plain canvas, the camera, and how pictures are shown. */
export interface QuiltPen {
  readonly ctx: CanvasRenderingContext2D;
  readonly camera: Camera;
  readonly project: Project;
  readonly shows: 'fabric' | 'value';
}

const wayOf = ({ camera, project, shows }: QuiltPen): PictureWay => ({
  fabrics: project.fabrics,
  shows,
  dotsPerIn: camera.scale * (globalThis.devicePixelRatio || 1),
  ready: pictures.getState().ready,
});

export function traceRing({ ctx, camera }: QuiltPen, ring: Ring): void {
  ring.forEach((p, k) => {
    const [x, y] = toScreen(camera, p);
    if (k === 0) ctx.moveTo(x, y);
    else ctx.lineTo(x, y);
  });
  ctx.closePath();
}

/** Pieces as they lie: blocks from their pictures, plain cloth, and empty places as bare paper. */
export function drawPieces(pen: QuiltPen, pieces: readonly Piece[], by: Point = [0, 0]): void {
  const blocks = new Map(pen.project.blocks.map((block) => [block.id, block]));
  const shifted: QuiltPen = {
    ...pen,
    camera: {
      ...pen.camera,
      x: pen.camera.x + by[0] * pen.camera.scale,
      y: pen.camera.y + by[1] * pen.camera.scale,
    },
  };
  const way = wayOf(pen);
  for (const piece of pieces) {
    const { place } = piece;
    if (isBlockPlace(place)) {
      const block = blocks.get(place.block);
      if (block) drawBlock(shifted, block, lieOf(block.outline, place.turn, place.mirrored, place.at), way);
    } else drawPlain(shifted, piece);
  }
}

/** A block's picture laid by its lie. */
export function drawBlock({ ctx, camera }: QuiltPen, block: Block, lie: Lie, way: PictureWay): void {
  const { canvas, x, y, dotsPerIn } = pictureOf(block, way);
  const s = camera.scale;
  ctx.save();
  ctx.transform(s * lie.a, s * lie.b, s * lie.c, s * lie.d, s * lie.e + camera.x, s * lie.f + camera.y);
  ctx.drawImage(canvas, x, y, canvas.width / dotsPerIn, canvas.height / dotsPerIn);
  ctx.restore();
}

export const drawBlockAt = (pen: QuiltPen, block: Block, turn: number, mirrored: boolean, at: Point): void =>
  drawBlock(pen, block, lieOf(block.outline, turn, mirrored, at), wayOf(pen));

function drawPlain(pen: QuiltPen, { place, polygon }: Piece): void {
  const { ctx, camera, project, shows } = pen;
  if (isBlockPlace(place)) return;
  const fabric = project.fabrics.find(({ id }) => id === place.fabric);
  ctx.beginPath();
  traceRing(pen, polygon);
  if (!fabric) {
    ctx.fillStyle = INKS.sheet;
    ctx.fill();
    if (place.part === undefined) drawEmpty(pen, polygon);
    return;
  }
  const [x, y] = toScreen(camera, [0, 0]);
  const laid = { scale: camera.scale, x, y, density: globalThis.devicePixelRatio || 1 };
  const color = shows === 'value' ? valueOfColor(fabric.color) : fabric.color;
  ctx.fillStyle = (fabric.picture && patternOf(ctx, fabric.picture, laid, shows === 'value')) ?? color;
  ctx.fill();
}

/** An empty place asks for something: a stitched edge inside it, and a cross. */
function drawEmpty(pen: QuiltPen, polygon: Ring): void {
  const { ctx, camera } = pen;
  const [cx, cy] = toScreen(camera, centroid(polygon));
  ctx.save();
  ctx.strokeStyle = INKS.inkSoft;
  ctx.lineWidth = 1.2;
  ctx.setLineDash([5, 4]);
  ctx.beginPath();
  const middle = centroid(polygon);
  traceRing(
    pen,
    polygon.map(([x, y]): Point => [middle[0] + 0.9 * (x - middle[0]), middle[1] + 0.9 * (y - middle[1])]),
  );
  ctx.stroke();
  ctx.setLineDash([]);
  const arm = Math.min(7, camera.scale * 0.8);
  ctx.beginPath();
  ctx.moveTo(cx - arm, cy);
  ctx.lineTo(cx + arm, cy);
  ctx.moveTo(cx, cy - arm);
  ctx.lineTo(cx, cy + arm);
  ctx.stroke();
  ctx.restore();
}

/** The seams between places, thin, over the pictures. */
export function drawEdges(pen: QuiltPen, pieces: readonly Piece[]): void {
  const { ctx } = pen;
  ctx.beginPath();
  for (const { polygon } of pieces) traceRing(pen, polygon);
  ctx.strokeStyle = 'rgb(31 37 48 / 45%)';
  ctx.lineWidth = 1;
  ctx.lineJoin = 'miter';
  ctx.stroke();
}

/** What is not well: gaps slanted one way in ochre, overlaps crossed in madder, told apart by their lines. */
export function drawFaults(pen: QuiltPen, { gaps, overlaps }: Layout): void {
  for (const { polygon } of gaps) hatch(pen, polygon, INKS.ochre, [1]);
  for (const { polygon } of overlaps) hatch(pen, polygon, INKS.madder, [1, -1]);
}

function hatch(pen: QuiltPen, polygon: Ring, color: string, ways: readonly number[]): void {
  const { ctx, camera } = pen;
  const { minX, minY, maxX, maxY } = boxOf(polygon.map((p) => toScreen(camera, p)));
  ctx.save();
  ctx.beginPath();
  traceRing(pen, polygon);
  ctx.clip();
  ctx.strokeStyle = color;
  ctx.lineWidth = 1.4;
  ctx.beginPath();
  const height = maxY - minY;
  const step = Math.max(9, (maxX - minX + height) / 160);
  for (const way of ways)
    for (let x = minX - height; x < maxX + height; x += step) {
      ctx.moveTo(x, way > 0 ? maxY : minY);
      ctx.lineTo(x + height, way > 0 ? minY : maxY);
    }
  ctx.stroke();
  ctx.restore();
  ctx.beginPath();
  traceRing(pen, polygon);
  ctx.strokeStyle = color;
  ctx.lineWidth = 2;
  ctx.stroke();
}

/** An edge round pieces, on a pale one so that it shows on any cloth. */
export function outlinePieces(
  pen: QuiltPen,
  pieces: readonly Piece[],
  color: string,
  width: number,
  dash: number[] = [],
): void {
  const { ctx } = pen;
  for (const { polygon } of pieces) {
    ctx.beginPath();
    traceRing(pen, polygon);
    ctx.lineJoin = 'round';
    ctx.strokeStyle = INKS.sheet;
    ctx.lineWidth = width + 2.6;
    ctx.stroke();
    ctx.setLineDash(dash);
    ctx.strokeStyle = color;
    ctx.lineWidth = width;
    ctx.stroke();
    ctx.setLineDash([]);
  }
}

/** Covers pieces with a veil of paper. */
export function veilPieces(pen: QuiltPen, pieces: readonly Piece[]): void {
  const { ctx } = pen;
  ctx.beginPath();
  for (const { polygon } of pieces) traceRing(pen, polygon);
  ctx.fillStyle = INKS.veil;
  ctx.fill();
}

/** A seam in madder thread. */
export function drawSeam({ ctx, camera }: QuiltPen, stretches: readonly Segment[], width = 4): void {
  ctx.lineCap = 'butt';
  for (const stretch of stretches) {
    const [a, b] = stretch.map((p) => toScreen(camera, p)) as [Point, Point];
    ctx.beginPath();
    ctx.moveTo(...(a as [number, number]));
    ctx.lineTo(...(b as [number, number]));
    ctx.strokeStyle = INKS.sheet;
    ctx.lineWidth = width + 3;
    ctx.stroke();
    ctx.setLineDash([10, 5]);
    ctx.strokeStyle = INKS.madder;
    ctx.lineWidth = width;
    ctx.stroke();
    ctx.setLineDash([]);
  }
}

/** Words on a small tag with its middle at a spot of the quilt. */
export function drawTag(
  { ctx, camera }: QuiltPen,
  text: string,
  at: Point,
  size = 12,
  color: string = INKS.ink,
): void {
  const [x, y] = toScreen(camera, at);
  ctx.font = `600 ${size}px ${FONT}`;
  const width = ctx.measureText(text).width + size * 0.8;
  const height = size * 1.4;
  ctx.fillStyle = INKS.sheet;
  ctx.strokeStyle = color;
  ctx.lineWidth = 1.2;
  ctx.beginPath();
  ctx.roundRect(x - width / 2, y - height / 2, width, height, 4);
  ctx.fill();
  ctx.stroke();
  ctx.fillStyle = color;
  ctx.textAlign = 'center';
  ctx.textBaseline = 'middle';
  ctx.fillText(text, x, y + 0.5);
}

/** The number of each piece in its middle, left out where it is too small for one. */
export function drawNumbers(
  pen: QuiltPen,
  pieces: readonly Piece[],
  numbers: ReadonlyMap<string, number>,
): void {
  for (const { place, polygon } of pieces) {
    const { minX, minY, maxX, maxY } = boxOf(polygon);
    const room = Math.min(maxX - minX, maxY - minY) * pen.camera.scale;
    if (room < 14) continue;
    drawTag(pen, String(numbers.get(place.id) ?? ''), centroid(polygon), Math.min(14, Math.max(9, room / 3)));
  }
}

/** A spot to match: a disc; one that misses its mate: a ring. */
export function drawMark(
  { ctx, camera }: QuiltPen,
  at: Point,
  kind: 'match' | 'junction' | 'miss' | 'bulk',
): void {
  const [x, y] = toScreen(camera, at);
  const r = kind === 'junction' ? 3 : kind === 'match' ? 4.5 : 8;
  ctx.beginPath();
  ctx.arc(x, y, r + 1.4, 0, 2 * Math.PI);
  ctx.fillStyle = kind === 'match' || kind === 'junction' ? INKS.sheet : 'rgb(251 249 243 / 55%)';
  ctx.fill();
  ctx.beginPath();
  ctx.arc(x, y, r, 0, 2 * Math.PI);
  if (kind === 'match') {
    ctx.fillStyle = INKS.madder;
    ctx.fill();
    return;
  }
  ctx.strokeStyle = kind === 'junction' ? INKS.madder : INKS.ochre;
  ctx.lineWidth = kind === 'junction' ? 1.6 : 2.2;
  ctx.stroke();
  if (kind !== 'bulk') return;
  ctx.beginPath();
  ctx.moveTo(x - 5, y - 5);
  ctx.lineTo(x + 5, y + 5);
  ctx.moveTo(x + 5, y - 5);
  ctx.lineTo(x - 5, y + 5);
  ctx.stroke();
}

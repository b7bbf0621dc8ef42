import { valueOfColor } from '../../document/lightness.ts';
import { paintedPatches } from '../../document/painted-patches.ts';
import type { Block, Fabric } from '../../document/project.ts';
import type { Ring } from '../../geometry/point.ts';
import { boxOf } from '../../geometry/ring.ts';
import { patternOf } from '../../workspace/fabric-pictures.ts';

/** A block painted once, to be laid wherever it stands in the quilt. */
export interface BlockPicture {
  readonly canvas: HTMLCanvasElement;
  /** Inches: where the canvas lies in the block, and dots to the inch. */
  readonly x: number;
  readonly y: number;
  readonly dotsPerIn: number;
}

/** Larger than this no picture is, dots either way. */
const MOST_DOTS = 2048;

export interface PictureWay {
  readonly fabrics: readonly Fabric[];
  readonly shows: 'fabric' | 'value';
  /** Dots to the inch on the screen. */
  readonly dotsPerIn: number;
  /** Counts up when a picture of a fabric has become ready. */
  readonly ready: number;
}

/** Sizes come in steps, so that zooming does not paint every block anew at every turn of the wheel. */
const stepped = (dots: number): number => 2 ** (Math.ceil(2 * Math.log2(Math.max(1, dots))) / 2);

let pictures = new WeakMap<Block, Map<string, BlockPicture>>();
let knownFor: readonly unknown[] = [];

/** The picture of a block from its drawing alone, whether or not its plan has been made. */
export function pictureOf(block: Block, way: PictureWay): BlockPicture {
  const parts = [way.fabrics, way.ready];
  if (parts.some((part, k) => part !== knownFor[k])) {
    knownFor = parts;
    pictures = new WeakMap();
  }
  const { minX, minY, maxX, maxY } = boxOf(block.outline);
  const longest = Math.max(maxX - minX, maxY - minY, 1 / 64);
  const dotsPerIn = Math.min(stepped(way.dotsPerIn), MOST_DOTS / longest);
  const key = `${way.shows} ${dotsPerIn}`;
  let own = pictures.get(block);
  if (own === undefined) {
    own = new Map();
    pictures.set(block, own);
  }
  const known = own.get(key);
  if (known !== undefined) return known;
  const picture = painted(block, way, dotsPerIn);
  // Two sizes are kept: the one in sight, and the one before it.
  if (own.size > 3) own.delete(own.keys().next().value!);
  own.set(key, picture);
  return picture;
}

function painted(block: Block, { fabrics, shows }: PictureWay, dotsPerIn: number): BlockPicture {
  const { minX, minY, maxX, maxY } = boxOf(block.outline);
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.ceil((maxX - minX) * dotsPerIn));
  canvas.height = Math.max(1, Math.ceil((maxY - minY) * dotsPerIn));
  const pen = canvas.getContext('2d');
  const picture = { canvas, x: minX, y: minY, dotsPerIn };
  if (pen === null) return picture;
  const trace = (ring: Ring): void => {
    ring.forEach(([x, y], k) => {
      const [px, py] = [(x - minX) * dotsPerIn, (y - minY) * dotsPerIn];
      if (k === 0) pen.moveTo(px, py);
      else pen.lineTo(px, py);
    });
    pen.closePath();
  };
  const cloth = new Map(fabrics.map((fabric) => [fabric.id, fabric]));
  pen.beginPath();
  trace(block.outline);
  pen.fillStyle = '#fbf9f3';
  pen.fill();
  const areas = paintedPatches(block);
  pen.lineJoin = 'round';
  for (const { polygon, holes, fabric: id } of areas) {
    const fabric = id === null ? undefined : cloth.get(id);
    pen.beginPath();
    trace(polygon);
    for (const hole of holes) trace(hole);
    if (fabric) {
      const laid = { scale: dotsPerIn, x: -minX * dotsPerIn, y: -minY * dotsPerIn };
      const color = shows === 'value' ? valueOfColor(fabric.color) : fabric.color;
      pen.fillStyle = (fabric.picture && patternOf(pen, fabric.picture, laid, shows === 'value')) ?? color;
      pen.fill('evenodd');
      // Neighbours of one colour must not show the table between them.
      pen.strokeStyle = pen.fillStyle;
      pen.lineWidth = 0.8;
      pen.stroke();
    }
  }
  pen.beginPath();
  for (const { polygon, holes } of areas) {
    trace(polygon);
    for (const hole of holes) trace(hole);
  }
  pen.strokeStyle = 'rgb(31 37 48 / 32%)';
  pen.lineWidth = Math.max(0.6, dotsPerIn / 48);
  pen.stroke();
  return picture;
}

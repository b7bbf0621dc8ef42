import { isDentless, type Quad, seen, viewOf } from '../geometry/homography.ts';
import type { Point } from '../geometry/point.ts';
import { type Box, boxOf } from '../geometry/ring.ts';
import type { UnderPicture } from '../piecing/block.ts';
import { phrase } from '../words/phrase.ts';
import { isPictureData, lettersOf, MAX_PICTURE_PX } from './fabric-picture.ts';
import type { Checked } from './limits.ts';
import type { Block, Project } from './project.ts';

/** Longest text of one picture, about 3 MB of it: a photo of 1,600 pixels takes a quarter of that. */
export const UNDER_PICTURE_LETTERS = 4_000_000;

/** Longest text of the pictures under all blocks together. With those of fabrics a project stays a file that is read. */
export const ALL_UNDER_PICTURES_LETTERS = 16_000_000;

/** How far out a corner may lie, pixels: a picture may be small within its block. */
export const MAX_CORNER_PX = 1_000_000;

/** How strongly a picture shows when it is laid: its lines can be followed and drawn ones stand out. */
export const USUAL_STRENGTH = 0.6;

/** A picture that can lie under a block, or a sentence on why not. */
export function checkUnderPicture(picture: UnderPicture): Checked<UnderPicture> {
  if (picture.data.length > UNDER_PICTURE_LETTERS)
    return { ok: false, error: phrase('The picture is too large to be kept: 3 MB is the most.') };
  if (!isPictureData(picture.data, UNDER_PICTURE_LETTERS))
    return { ok: false, error: phrase('The picture is not a PNG, JPEG or WebP picture.') };
  const isSide = (pixels: number): boolean =>
    Number.isInteger(pixels) && pixels >= 1 && pixels <= MAX_PICTURE_PX;
  if (!isSide(picture.width) || !isSide(picture.height))
    return {
      ok: false,
      error: phrase('The picture must be 1 to {maxPicture, number} pixels each way.', {
        maxPicture: MAX_PICTURE_PX,
      }),
    };
  if (!(picture.strength >= 0 && picture.strength <= 1))
    return { ok: false, error: phrase('The opacity of the picture is not between 0 and 1.') };
  return isSquarable(picture.corners) ? { ok: true, value: picture } : { ok: false, error: NOT_SQUARABLE };
}

export const NOT_SQUARABLE = phrase(
  'The four corners must make a shape with four sides, without dents and crossings.',
);

/** Smallest height of the four triangles between three of the corners, pixels: thinner, and the rest cannot be squared up. */
const THINNEST_PX = 1;

/** Whether four places of a picture, pixels, can be the corners of a square sheet that was photographed. */
export function isSquarable(corners: Quad): boolean {
  const isNear = (value: number): boolean => Number.isFinite(value) && Math.abs(value) <= MAX_CORNER_PX;
  if (!corners.flat().every(isNear) || !isDentless(corners)) return false;
  return corners.every(([x0, y0], k) => {
    const [x1, y1] = corners[(k + 1) % 4]!;
    const [x2, y2] = corners[(k + 2) % 4]!;
    const twiceArea = Math.abs((x1 - x0) * (y2 - y0) - (y1 - y0) * (x2 - x0));
    const longest = Math.max(
      Math.hypot(x1 - x0, y1 - y0),
      Math.hypot(x2 - x1, y2 - y1),
      Math.hypot(x2 - x0, y2 - y0),
    );
    return twiceArea >= THINNEST_PX * longest;
  });
}

/** Whether a picture has room beside those under the other blocks; a sentence when it has not. */
export function checkUnderRoom(project: Project, blockId: string | null, data: string): Checked<string> {
  const others = project.blocks.filter(({ id }) => id !== blockId);
  return lettersOf(others) + data.length <= ALL_UNDER_PICTURES_LETTERS
    ? { ok: true, value: data }
    : {
        ok: false,
        error: phrase(
          'The pictures under all blocks together would be too large for a file. Take the picture under another block away first.',
        ),
      };
}

/** Top left, top right, bottom right, bottom left. */
export const cornersOfBox = ({ minX, minY, maxX, maxY }: Box): Quad => [
  [minX, minY],
  [maxX, minY],
  [maxX, maxY],
  [minX, maxY],
];

/** A thousandth of a pixel or so: the same corner found along two ways is the same number. */
const PER_PIXEL = 1024;

const onStep = (value: number): number => Math.round(value * PER_PIXEL) / PER_PIXEL + 0;

/** A place of a picture in whole steps of 1/1024 pixel. */
export const pictureSpot = ([x, y]: Point): Point => [onStep(x), onStep(y)];

/**
 * The block after an edit of its outline, with its picture where it lay: `moved` takes a place of the new block to
 * where it was in the old one. Where that place of the picture would lie beyond its horizon, the corners stay as
 * they were, and the picture follows the outline.
 */
export function carryPicture(
  before: Block,
  after: Block,
  moved: (point: Point) => Point = (point) => point,
): Block {
  const { picture } = before;
  if (picture === undefined || after.outline === before.outline) return after;
  const [was, is] = [cornersOfBox(boxOf(before.outline)), cornersOfBox(boxOf(after.outline))];
  if (!isDentless(was) || !isDentless(is)) return after;
  const view = viewOf(was, picture.corners);
  const [a, b, c, d] = is.map((corner) => pictureSpot(seen(view, moved(corner))));
  const corners: Quad = [a!, b!, c!, d!];
  const isSame = corners.every(([x, y], k) => x === picture.corners[k]![0] && y === picture.corners[k]![1]);
  // Beyond the horizon the plane comes back from the other side: no corner may have passed it.
  const [, , , , , , g, h, i] = view;
  const side = ([x, y]: Point): number => Math.sign(g * x + h * y + i);
  const isInFront = is.every((corner) => side(moved(corner)) === side(was[0]));
  return isSame || !isInFront || !isSquarable(corners)
    ? { ...after, picture }
    : { ...after, picture: { ...picture, corners } };
}

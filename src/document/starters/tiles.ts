import type { Point, Ring } from '../../geometry/point.ts';

/** How light a patch is meant to look beside the others: which of the project's fabrics suggests itself. */
export type Tone = 'light' | 'medium' | 'dark';

/** A patch of a starting point, on the grid it is drawn on: any unit, y down. */
export interface Tile {
  readonly ring: Ring;
  readonly tone: Tone;
}

export type Corner = 'nw' | 'ne' | 'se' | 'sw';
export type Side = 'n' | 'e' | 's' | 'w';

export const tile = (tone: Tone, ...ring: readonly Point[]): Tile => ({ ring, tone });

export const rectangle = (tone: Tone, x: number, y: number, width: number, height = width): Tile =>
  tile(tone, [x, y], [x + width, y], [x + width, y + height], [x, y + height]);

/** The corners of a square from the named one on, clockwise as seen. */
function cornersFrom(
  corner: Corner,
  x: number,
  y: number,
  side: number,
): readonly [Point, Point, Point, Point] {
  const all: readonly Point[] = [
    [x, y],
    [x + side, y],
    [x + side, y + side],
    [x, y + side],
  ];
  const first = ['nw', 'ne', 'se', 'sw'].indexOf(corner);
  const at = (k: number): Point => all[(first + k) % 4]!;
  return [at(0), at(1), at(2), at(3)];
}

/** A square halved from corner to corner: `near` fills the named corner. */
export function half(near: Tone, far: Tone, corner: Corner, x: number, y: number, side = 1): readonly Tile[] {
  const [a, b, c, d] = cornersFrom(corner, x, y, side);
  return [tile(near, d, a, b), tile(far, b, c, d)];
}

/** A square quartered by both diagonals: top and bottom, left and right. */
export function quarters(upright: Tone, level: Tone, x: number, y: number, side = 1): readonly Tile[] {
  const [a, b, c, d] = cornersFrom('nw', x, y, side);
  const centre: Point = [x + side / 2, y + side / 2];
  return [
    tile(upright, a, b, centre),
    tile(level, b, c, centre),
    tile(upright, c, d, centre),
    tile(level, d, a, centre),
  ];
}

/** Four squares, two of a tone on each diagonal; `falling` lies top left and bottom right. */
export function fourPatch(falling: Tone, rising: Tone, x: number, y: number, side = 1): readonly Tile[] {
  const s = side / 2;
  return [
    rectangle(falling, x, y, s),
    rectangle(rising, x + s, y, s),
    rectangle(rising, x, y + s, s),
    rectangle(falling, x + s, y + s, s),
  ];
}

/** One goose between two skies in a rectangle; it flies towards the side. */
export function goose(
  wing: Tone,
  sky: Tone,
  towards: Side,
  x: number,
  y: number,
  width: number,
  height: number,
): readonly Tile[] {
  const nw: Point = [x, y];
  const ne: Point = [x + width, y];
  const se: Point = [x + width, y + height];
  const sw: Point = [x, y + height];
  const [backLeft, left, right, backRight] = {
    n: [sw, nw, ne, se],
    e: [nw, ne, se, sw],
    s: [ne, se, sw, nw],
    w: [se, sw, nw, ne],
  }[towards] as [Point, Point, Point, Point];
  const tip: Point = [(left[0] + right[0]) / 2, (left[1] + right[1]) / 2];
  return [
    tile(wing, backLeft, tip, backRight),
    tile(sky, backLeft, left, tip),
    tile(sky, tip, right, backRight),
  ];
}

/** A rectangle with its corners cut off, `across` along the level sides and `down` along the upright ones. */
export function cutCorners(
  middle: Tone,
  corners: Tone,
  x: number,
  y: number,
  width: number,
  height: number,
  across: number,
  down = across,
): readonly Tile[] {
  const [right, bottom] = [x + width, y + height];
  const ring: Point[] = [
    [x + across, y],
    [right - across, y],
    [right, y + down],
    [right, bottom - down],
    [right - across, bottom],
    [x + across, bottom],
    [x, bottom - down],
    [x, y + down],
  ];
  return [
    tile(middle, ...ring.filter((p, i) => !samePoint(p, ring[(i + 1) % 8]!))),
    tile(corners, [x, y], ring[0]!, ring[7]!),
    tile(corners, ring[1]!, [right, y], ring[2]!),
    tile(corners, ring[3]!, [right, bottom], ring[4]!),
    tile(corners, ring[5]!, [x, bottom], ring[6]!),
  ];
}

const samePoint = (a: Point, b: Point): boolean => a[0] === b[0] && a[1] === b[1];

/** The tiles turned by quarter turns, clockwise as seen, about the middle of a square of this side. */
export const turned = (tiles: readonly Tile[], quarterTurns: number, side: number): readonly Tile[] =>
  tiles.map(({ ring, tone }) => ({ tone, ring: ring.map((p) => turnedPoint(p, quarterTurns, side)) }));

function turnedPoint(point: Point, quarterTurns: number, side: number): Point {
  let [x, y] = point;
  for (let k = 0; k < quarterTurns; k++) [x, y] = [side - y, x];
  return [x, y];
}

/** The tiles, and the same after one, two and three quarter turns. */
export const fourFold = (tiles: readonly Tile[], side: number): readonly Tile[] =>
  [0, 1, 2, 3].flatMap((turns) => turned(tiles, turns, side));

export const moved = (tiles: readonly Tile[], x: number, y: number): readonly Tile[] =>
  tiles.map(({ ring, tone }) => ({ tone, ring: ring.map(([a, b]): Point => [a + x, b + y]) }));

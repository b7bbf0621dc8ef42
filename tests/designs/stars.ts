import type { Point, Ring, Segment } from '../../src/geometry/point.ts';
import type { Block, Cut } from '../../src/piecing/block.ts';
import { roundPoint } from './plane.ts';

/** Traditional stars whose patches between the points are set in (common practice), drawn from their centres. */

const at = (centre: Point, radius: number, turn: number): Point =>
  roundPoint([
    centre[0] + radius * Math.cos(2 * Math.PI * turn),
    centre[1] + radius * Math.sin(2 * Math.PI * turn),
  ]);

/** Diamonds round a centre: each from the centre over two notches to its tip. */
function starOf(
  name: string,
  outline: Ring,
  points: number,
  tips: number,
  notches: number,
  turn: number,
): Block {
  const centre: Point = [6, 6];
  const lines = Array.from({ length: points }, (_, k): Segment[] => {
    const notch = at(centre, notches, turn + k / points);
    const tip = at(centre, tips, turn + (k + 0.5) / points);
    const next = at(centre, notches, turn + (k + 1) / points);
    return [
      [centre, notch],
      [notch, tip],
      [tip, next],
    ];
  }).flat();
  return {
    id: name,
    name,
    outline,
    cuts: lines.map(([from, to], i): Cut => ({ id: `c${i + 1}`, from, to, role: 'auto' })),
    patches: [],
  };
}

/** Eight diamonds of 45° in a 12 in square, four squares in its corners and four triangles on its sides: 16 patches. */
export function eightPointedStar(): Block {
  const tips = 6 / Math.cos(Math.PI / 8);
  const notches = tips / (2 * Math.cos(Math.PI / 8));
  const square: Ring = [
    [0, 0],
    [12, 0],
    [12, 12],
    [0, 12],
  ];
  return starOf('eight-pointed star', square, 8, tips, notches, 0);
}

/** Six diamonds of 60° in a hexagon, and six triangles between their points: 12 patches. */
export function sixPointedStar(): Block {
  const hexagon = Array.from({ length: 6 }, (_, k) => at([6, 6], 6, (k + 0.5) / 6));
  return starOf('six-pointed star', hexagon, 6, 6, 6 / (2 * Math.cos(Math.PI / 6)), 0);
}

import type { Setting } from '../../document/quilt.ts';
import { snapPoint } from '../../geometry/lattice.ts';
import type { Point, Ring } from '../../geometry/point.ts';
import { type NamelessPlain, type SetOut, type Slot, shaped, upTo } from './slots.ts';

/**
 * Blocks on their points: `columns` × `rows` of them, others in the diamonds between, setting triangles along the edges
 * and in the corners. With sashing, strips lie along every side of every block and triangle, cornerstones where they
 * cross, halves of them at the edge.
 *
 * The blocks have the side b and the sashing the width s: so the quilt is columns × (b + s) √2 wide, and the edge runs
 * through the middles of the outermost cornerstones.
 */
export function onPoint({ columns, rows, cell: [side], sashing, fabric }: Setting): SetOut {
  const s = sashing?.width ?? 0;
  /** From one block to the next in its row. */
  const pitch = (side + s) * Math.SQRT2;
  /** From the middle of a block to its point. */
  const reach = side * Math.SQRT1_2;
  const [width, height] = [columns * pitch, rows * pitch];
  const slots: Slot[] = [];
  const slot = (x: number, y: number): void => {
    slots.push({ at: snapPoint([x - reach, y - reach]), size: [2 * reach, 2 * reach], turn: 0.5 });
  };
  for (const half of upTo(2 * rows - 1)) {
    const isBetween = half % 2 === 1;
    for (const i of upTo(isBetween ? columns - 1 : columns))
      slot((i + (isBetween ? 1 : 0.5)) * pitch, ((half + 1) * pitch) / 2);
  }
  const plain: NamelessPlain[] = triangles(columns, rows, pitch, reach, fabric);
  if (!sashing || s === 0) return { slots, plain };

  const half = s * Math.SQRT1_2;
  const { fabric: cloth, cornerstoneFabric = cloth } = sashing;
  const stones: Point[] = [
    ...upTo(columns + 1).flatMap((i) => upTo(rows).map((j): Point => [i * pitch, (j + 0.5) * pitch])),
    ...upTo(columns).flatMap((i) => upTo(rows + 1).map((j): Point => [(i + 0.5) * pitch, j * pitch])),
  ];
  if (sashing.cornerstones) {
    for (const at of stones)
      plain.push(shaped(clipped(diamond(at, half), width, height), 'cornerstone', cornerstoneFabric));
    // A strip lies between each block of the first kind and each of its four neighbours.
    for (const i of upTo(columns))
      for (const j of upTo(rows))
        for (const [dx, dy] of [
          [-1, -1],
          [1, -1],
          [1, 1],
          [-1, 1],
        ] as const)
          plain.push(
            shaped(
              strip([(i + 0.5 + dx / 4) * pitch, (j + 0.5 + dy / 4) * pitch], dx, dy, side, s),
              'sashing',
              cloth,
            ),
          );
    return { slots, plain };
  }
  // Short strips between the blocks of a rising row; between the rows one long strip from edge to edge.
  for (const i of upTo(columns))
    for (const j of upTo(rows))
      for (const [dx, dy] of [
        [1, -1],
        [-1, 1],
      ] as const)
        plain.push(
          shaped(
            strip([(i + 0.5 + dx / 4) * pitch, (j + 0.5 + dy / 4) * pitch], dx, dy, side, s),
            'sashing',
            cloth,
          ),
        );
  for (const run of risingRuns(stones, pitch)) {
    const [first, last] = [run[0]!, run.at(-1)!];
    plain.push(shaped(clipped(around(first, last, half), width, height), 'sashing', cloth));
  }
  return { slots, plain };
}

/** Triangles along the edges, their long sides on it, and half as large ones in the corners. */
function triangles(
  columns: number,
  rows: number,
  pitch: number,
  reach: number,
  fabric: string | undefined,
): NamelessPlain[] {
  const [width, height] = [columns * pitch, rows * pitch];
  const plain: NamelessPlain[] = [];
  const add = (part: 'side-triangle' | 'corner-triangle', ...corners: Ring): void => {
    plain.push(shaped(corners, part, fabric));
  };
  for (const i of upTo(columns - 1)) {
    const x = (i + 1) * pitch;
    add('side-triangle', [x - reach, 0], [x + reach, 0], [x, reach]);
    add('side-triangle', [x + reach, height], [x - reach, height], [x, height - reach]);
  }
  for (const j of upTo(rows - 1)) {
    const y = (j + 1) * pitch;
    add('side-triangle', [0, y + reach], [0, y - reach], [reach, y]);
    add('side-triangle', [width, y - reach], [width, y + reach], [width - reach, y]);
  }
  add('corner-triangle', [0, 0], [reach, 0], [0, reach]);
  add('corner-triangle', [width, 0], [width, reach], [width - reach, 0]);
  add('corner-triangle', [width, height], [width - reach, height], [width, height - reach]);
  add('corner-triangle', [0, height], [0, height - reach], [reach, height]);
  return plain;
}

/** A square on its point, from its middle to its points `half`. */
const diamond = ([x, y]: Point, half: number): Ring => [
  [x, y - half],
  [x + half, y],
  [x, y + half],
  [x - half, y],
];

/** A strip of length `long` and width `wide` round a middle, across the way from (0, 0) to (dx, dy). */
function strip([x, y]: Point, dx: number, dy: number, long: number, wide: number): Ring {
  const across: Point = [(dx * wide * Math.SQRT1_2) / 2, (dy * wide * Math.SQRT1_2) / 2];
  const along: Point = [(-dy * long * Math.SQRT1_2) / 2, (dx * long * Math.SQRT1_2) / 2];
  return (
    [
      [-1, -1],
      [1, -1],
      [1, 1],
      [-1, 1],
    ] as const
  ).map(([a, b]): Point => [x + a * along[0] + b * across[0], y + a * along[1] + b * across[1]]);
}

/** Cornerstones along each line that rises to the right, in turn: what a long strip runs over. */
function risingRuns(stones: readonly Point[], pitch: number): Point[][] {
  const runs = new Map<number, Point[]>();
  for (const stone of stones) {
    const key = Math.round((2 * (stone[0] + stone[1])) / pitch);
    const run = runs.get(key);
    if (run) run.push(stone);
    else runs.set(key, [stone]);
  }
  return [...runs.values()].map((run) => run.sort((a, b) => a[0] - b[0]));
}

/** The strip from one cornerstone to another on a rising line, both of them whole. */
function around([x1, y1]: Point, [x2, y2]: Point, half: number): Ring {
  return [
    [x1 - half, y1],
    [x2, y2 - half],
    [x2 + half, y2],
    [x1, y1 + half],
  ];
}

/** What of a convex shape lies in the box from (0, 0) to (width, height). Source: Sutherland and Hodgman 1974. */
function clipped(ring: Ring, width: number, height: number): Ring {
  const sides = [
    ([x]: Point) => x,
    ([x]: Point) => width - x,
    ([, y]: Point) => y,
    ([, y]: Point) => height - y,
  ];
  return sides.reduce<Ring>((kept, inside) => {
    const next: Point[] = [];
    kept.forEach((p, k) => {
      const q = kept[(k + 1) % kept.length]!;
      const [a, b] = [inside(p), inside(q)];
      // A corner on the edge belongs to what is kept; rounding must not split it off.
      if (a > -1e-6) next.push(p);
      if ((a > 1e-6 && b < -1e-6) || (a < -1e-6 && b > 1e-6)) {
        const t = a / (a - b);
        next.push([p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])]);
      }
    });
    return next;
  }, ring);
}

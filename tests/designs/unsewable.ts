import type { Point, Ring, Segment } from '../../src/geometry/point.ts';
import type { Block, Cut } from '../../src/piecing/block.ts';
import { awkwardBlock } from './awkward.ts';
import { growingLines } from './growing-lines.ts';
import { roundPoint } from './plane.ts';
import { Prng } from './prng.ts';
import { eightPointedStar, sixPointedStar } from './stars.ts';
import { TEN_TROUBLES } from './ten-troubles.ts';

/** Drawings of a harbour town, a score and one, that straight seams do not sew as they are drawn. */

const SQUARE: Ring = [
  [0, 0],
  [12, 0],
  [12, 12],
  [0, 12],
];

const drawn = (name: string, cuts: readonly Segment[], outline: Ring = SQUARE): Block => ({
  id: name,
  name,
  outline,
  cuts: cuts.map(
    ([from, to], i): Cut => ({ id: `c${i + 1}`, from: roundPoint(from), to: roundPoint(to), role: 'auto' }),
  ),
  patches: [],
});

const around = (corners: readonly Point[]): Segment[] =>
  corners.map((corner, k): Segment => [corner, corners[(k + 1) % corners.length]!]);

const along = (...corners: readonly Point[]): Segment[] =>
  corners.slice(1).map((corner, k): Segment => [corners[k]!, corner]);

const at = ([x, y]: Point, radius: number, turn: number): Point => [
  x + radius * Math.sin(2 * Math.PI * turn),
  y - radius * Math.cos(2 * Math.PI * turn),
];

const corners = (n: number, centre: Point, radius: number, turn = 0): Point[] =>
  Array.from({ length: n }, (_, k) => at(centre, radius, turn + k / n));

/** Four lines that chase each other round the middle of a square. */
const whirl = ([x, y]: Point, size: number): Segment[] => {
  const [a, b] = [size / 3, (2 * size) / 3];
  return [
    [
      [x, y + a],
      [x + b, y + a],
    ],
    [
      [x + b, y],
      [x + b, y + b],
    ],
    [
      [x + size, y + b],
      [x + a, y + b],
    ],
    [
      [x + a, y + size],
      [x + a, y + a],
    ],
  ];
};

/** Blocks in three shades, one on another: seven hexagons side by side, each in three rhombs, on a ground. */
function tumblingBlocks(): Block {
  const side = 2;
  const row = side * Math.sqrt(3);
  const middles: Point[] = [[6, 6], ...Array.from({ length: 6 }, (_, k) => at([6, 6], row, k / 6 + 1 / 12))];
  const lines = middles.flatMap((middle): Segment[] => {
    const ring = corners(6, middle, side);
    return [...around(ring), [middle, ring[1]!], [middle, ring[3]!], [middle, ring[5]!]];
  });
  const once = new Map<string, Segment>();
  for (const line of lines) {
    const name = line
      .map((p) => p.map((v) => v.toFixed(3)).join())
      .sort()
      .join();
    once.set(name, line);
  }
  return drawn('Tumbling crates', [...once.values()], SQUARE);
}

/** Wedges from a corner to an arc of straight stretches, and the sky round it in one piece. */
function fan(): Block {
  const rim = Array.from({ length: 7 }, (_, k) => at([0, 12], 9, k / 24));
  return drawn('Fan over the quay', [
    ...along(...rim),
    ...rim.slice(1, -1).map((p): Segment => [[0, 12], p]),
  ]);
}

/** Lines drawn in haste: many end in the middle of a patch. */
function hasty(name: string, seed: number, lines: number): Block {
  const rng = new Prng(seed);
  const spot = (): Point => [rng.between(0.5, 11.5), rng.between(0.5, 11.5)];
  return drawn(
    name,
    Array.from({ length: lines }, (): Segment => [spot(), spot()]),
  );
}

const trouble = (k: number): Block => TEN_TROUBLES[k]!.block;

const named = (name: string, block: Block): Block => ({ ...block, id: name, name });

export const UNSEWABLE: readonly Block[] = [
  named('Harbour star', eightPointedStar()),
  named('Six-pointed star', sixPointedStar()),
  tumblingBlocks(),
  fan(),
  drawn('Floating pentagon', around(corners(5, [6, 6], 3.5))),
  drawn('Floating hexagon', around(corners(6, [6, 6], 3.5))),
  trouble(0),
  trouble(1),
  trouble(2),
  trouble(6),
  trouble(7),
  drawn('Two whirlpools', [
    [
      [6, 0],
      [6, 12],
    ],
    ...whirl([0, 3], 6),
    [
      [0, 3],
      [6, 3],
    ],
    [
      [0, 9],
      [6, 9],
    ],
    ...whirl([6, 3], 6),
    [
      [6, 3],
      [12, 3],
    ],
    [
      [6, 9],
      [12, 9],
    ],
  ]),
  drawn('Three whirlpools', [
    [
      [6, 0],
      [6, 12],
    ],
    [
      [0, 6],
      [12, 6],
    ],
    ...whirl([0, 0], 6),
    ...whirl([6, 0], 6),
    ...whirl([0, 6], 6),
  ]),
  drawn('Letter L', along([2, 2], [5, 2], [5, 8], [9, 8], [9, 11], [2, 11], [2, 2])),
  drawn('Letter O', [
    ...around([
      [2, 1],
      [10, 1],
      [10, 11],
      [2, 11],
    ]),
    ...around([
      [5, 4],
      [7, 4],
      [7, 8],
      [5, 8],
    ]),
  ]),
  drawn('Letter A', [
    ...around([
      [5, 1],
      [7, 1],
      [11, 11],
      [8.5, 11],
      [7.5, 8.5],
      [4.5, 8.5],
      [3.5, 11],
      [1, 11],
    ]),
    ...around([
      [6, 3.5],
      [7, 6.5],
      [5, 6.5],
    ]),
  ]),
  named('Nets of twenty', growingLines(2003, 19)),
  named('Nets of ten', growingLines(5, 10)),
  hasty('Hasty gulls', 11, 9),
  hasty('Hasty masts', 4, 12),
  named('Crooked quay', awkwardBlock(101)),
];

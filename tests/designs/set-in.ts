import type { Point, Ring, Segment } from '../../src/geometry/point.ts';
import type { Block } from '../../src/piecing/block.ts';
import { direction, roundPoint } from './plane.ts';
import type { Prng } from './prng.ts';

/** Drawings that straight joins seldom sew: for the weak side of any search. Inches. */
export type SetInKind = 'medallion' | 'c' | 'u' | 'islands' | 'spiral' | 'rays' | 'hasty' | 'fan';

export const SET_IN_KINDS: readonly SetInKind[] = [
  'medallion',
  'c',
  'u',
  'islands',
  'spiral',
  'rays',
  'hasty',
  'fan',
];

const SQUARE: Ring = [
  [0, 0],
  [12, 0],
  [12, 12],
  [0, 12],
];

export const blockOf = (name: string, outline: Ring, lines: readonly Segment[]): Block => ({
  id: name,
  name,
  outline,
  cuts: lines.map(([from, to], i) => ({ id: `c${i + 1}`, from, to, role: 'auto' as const })),
  patches: [],
});

/** `wedges` wedges round a centre patch, in an outline of as many sides. */
export function medallion(wedges: number): Block {
  const ring = (radius: number): Point[] =>
    Array.from({ length: wedges }, (_, k) => {
      const angle = (2 * Math.PI * k) / wedges;
      return roundPoint([6 + radius * Math.cos(angle), 6 + radius * Math.sin(angle)]);
    });
  const [outer, inner] = [ring(6), ring(3)];
  return blockOf(
    `medallion of ${wedges}`,
    outer,
    inner.flatMap((p, k): Segment[] => [
      [p, outer[k]!],
      [p, inner[(k + 1) % wedges]!],
    ]),
  );
}

/** A C laid round a stack of `within` patches, open to the right. */
export function cRound(within: number): Block {
  const lines: Segment[] = [
    [
      [4, 3],
      [4, 9],
    ],
    [
      [4, 3],
      [12, 3],
    ],
    [
      [4, 9],
      [12, 9],
    ],
  ];
  for (let k = 1; k < within; k++) {
    const y = 3 + (6 * k) / within;
    lines.push([roundPoint([4, y]), roundPoint([12, y])]);
  }
  return blockOf(`C round ${within}`, SQUARE, lines);
}

/** A random drawing of a kind; how many patches it has shows when it is pieced. */
export function setInDesign(kind: SetInKind, rng: Prng): Block {
  switch (kind) {
    case 'medallion':
      return withLines(rng, medallion(rng.whole(3, 9)), rng.whole(0, 2));
    case 'c':
      return withLines(rng, cRound(rng.whole(2, 5)), rng.whole(0, 2));
    case 'u':
      return nested(rng);
    case 'islands':
      return islands(rng);
    case 'spiral':
      return withLines(rng, spiral(rng, rng.whole(3, 6)), rng.whole(0, 3));
    case 'rays':
      return rays(rng);
    case 'hasty':
      return hasty(rng);
    case 'fan':
      return fan(rng);
  }
}

const spot = (rng: Prng): Point => [rng.whole(4, 44) / 4, rng.whole(4, 44) / 4];

/** A spot on the rim of the twelve inch square. */
function rim(rng: Prng): Point {
  const t = rng.whole(2, 46) / 4;
  return rng.pick([
    [t, 0],
    [t, 12],
    [0, t],
    [12, t],
  ] as Point[]);
}

/** Some lines more, drawn right across: each between two spots of the rim of the square. */
function withLines(rng: Prng, block: Block, count: number): Block {
  const cuts = Array.from({ length: count }, (_, i) => ({
    id: `x${i}`,
    from: rim(rng),
    to: rim(rng),
    role: 'auto' as const,
  }));
  return { ...block, cuts: [...block.cuts, ...cuts] };
}

/** U shapes, one in the other. */
function nested(rng: Prng): Block {
  const lines: Segment[] = [];
  for (let k = 1; k <= rng.whole(1, 2); k++) {
    const [x, y] = [2 * k, 2 * k + rng.whole(0, 2) / 2];
    lines.push(
      [
        [x, y],
        [x, 12],
      ],
      [
        [x, y],
        [12 - x, y],
      ],
      [
        [12 - x, y],
        [12 - x, 12],
      ],
    );
  }
  for (let k = 0; k < rng.whole(1, 3); k++) {
    const y = rng.whole(14, 22) / 2;
    lines.push([
      [rng.pick([2, 4, 0]), y],
      [rng.pick([10, 8, 12]), y],
    ]);
  }
  return blockOf('nested', SQUARE, lines);
}

/** Closed figures that touch nothing, and lines about them. */
function islands(rng: Prng): Block {
  const lines: Segment[] = [];
  for (let k = 0; k < rng.whole(1, 2); k++) {
    const centre: Point = [3.5 + 5 * k, rng.whole(14, 32) / 4];
    const sides = rng.whole(3, 5);
    const first = rng.between(0, 7);
    const ring = Array.from({ length: sides }, (_, i) =>
      roundPoint([
        centre[0] + 2 * Math.cos(first + (2 * Math.PI * i) / sides),
        centre[1] + 2 * Math.sin(first + (2 * Math.PI * i) / sides),
      ]),
    );
    for (const [i, p] of ring.entries()) lines.push([p, ring[(i + 1) % sides]!]);
    if (rng.chance(0.5)) lines.push([ring[0]!, ring[2]!]);
  }
  return withLines(rng, blockOf('islands', SQUARE, lines), rng.whole(0, 2));
}

/** Lines that chase each other round a middle. */
function spiral(rng: Prng, arms: number): Block {
  const first = rng.between(0, 7);
  const corners = Array.from({ length: arms }, (_, i) =>
    roundPoint([
      6 + 2 * Math.cos(first + (2 * Math.PI * i) / arms),
      6 + 2 * Math.sin(first + (2 * Math.PI * i) / arms),
    ]),
  );
  return blockOf(
    'spiral',
    SQUARE,
    corners.map((p, i): Segment => {
      const to = corners[(i + 1) % arms]!;
      const [dx, dy] = direction(p, to);
      return [p, roundPoint([p[0] + 20 * dx, p[1] + 20 * dy])];
    }),
  );
}

/** Rays from a spot that stop at others or at the rim. */
function rays(rng: Prng): Block {
  const centre = spot(rng);
  const ends = Array.from({ length: rng.whole(4, 7) }, () => rim(rng));
  const lines = ends.map((end): Segment => [centre, end]);
  for (let k = 0; k < rng.whole(1, 3); k++) {
    const [a, b] = [rng.pick(ends), rng.pick(ends)];
    const [s, t] = [rng.whole(1, 3) / 4, rng.whole(1, 3) / 4];
    lines.push([
      roundPoint([centre[0] + (a[0] - centre[0]) * s, centre[1] + (a[1] - centre[1]) * s]),
      roundPoint([centre[0] + (b[0] - centre[0]) * t, centre[1] + (b[1] - centre[1]) * t]),
    ]);
  }
  return blockOf('rays', SQUARE, lines);
}

/** Lines drawn anyhow between spots of a coarse grid. */
function hasty(rng: Prng): Block {
  const point = (): Point => rng.pick([rim(rng), spot(rng)]);
  return blockOf(
    'hasty',
    SQUARE,
    Array.from({ length: rng.whole(4, 9) }, (): Segment => [point(), point()]),
  );
}

/** Lines that run within a degree or two of each other, some within the width of a printed line. */
function fan(rng: Prng): Block {
  const y = rng.between(3, 9);
  const close = (): number => y + rng.between(-1, 1) * rng.pick([0.004, 0.01, 0.05]);
  const lines = Array.from({ length: rng.whole(4, 7) }, (): Segment => {
    const from = rng.pick([0, 0, rng.between(0, 8)]);
    const to = rng.pick([12, 12, rng.between(from + 1, 12)]);
    return [roundPoint([from, close()]), roundPoint([to, close()])];
  });
  if (rng.chance(0.5)) {
    const x = rng.between(2, 10);
    lines.push([roundPoint([x, close()]), roundPoint([x + rng.between(-0.2, 0.2), 12])]);
  }
  return blockOf('fan', SQUARE, lines);
}

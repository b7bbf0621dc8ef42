import type { Point, Segment } from '../../src/geometry/point.ts';
import type { Block } from '../../src/piecing/block.ts';
import type { Mend } from '../../src/piecing/mending/draft.ts';
import { findMends } from '../../src/piecing/mending/mend.ts';
import { piece } from '../../src/piecing/piece.ts';
import { Prng } from '../designs/prng.ts';
import { median, type Patience, timeOf } from './measure.ts';

export interface MendRow {
  readonly rings: number;
  readonly designs: number;
  readonly patches: number;
  readonly added: number;
  readonly proven: number;
  /** Milliseconds, median over the designs: a plan of the same block; the first answer; all ways there are. */
  readonly planMs: number;
  readonly firstMs: number;
  readonly allMs: number;
  /** The longest stretch between two steps of the search, where it can be dropped. */
  readonly stretchMs: number;
  /** Designs whose first answer comes within the time of ten plans. */
  readonly inTime: number;
}

/** Mending drawings of some sixty patches with so many rings in them, beside ten plans of the same block. */
export function benchMending(rings: number, designs: number, patience: Patience): MendRow {
  const rows = Array.from({ length: designs }, (_, k) => {
    const block = ringedBlock(100 * rings + k, 60, rings);
    const planMs = timeOf(() => piece(block), patience);
    const begun = performance.now();
    const search = findMends(block);
    let first: number | null = null;
    let stretch = 0;
    let last = begun;
    for (;;) {
      const step = search.next();
      const now = performance.now();
      stretch = Math.max(stretch, now - last);
      last = now;
      if (step.done) {
        const best: Mend | undefined = step.value[0];
        if (!best) throw new Error(`Seed ${100 * rings + k} was not mended.`);
        return { block, planMs, first: first ?? now - begun, all: now - begun, stretch, best };
      }
      if (step.value) first ??= now - begun;
    }
  });
  return {
    rings,
    designs,
    patches: Math.round(median(rows.map(({ block }) => piece(block).patches.length))),
    added: median(rows.map(({ best }) => best.added)),
    proven: rows.filter(({ best }) => best.isProven).length,
    planMs: median(rows.map((row) => row.planMs)),
    firstMs: median(rows.map((row) => row.first)),
    allMs: median(rows.map((row) => row.all)),
    stretchMs: Math.max(...rows.map((row) => row.stretch)),
    inTime: rows.filter((row) => row.first <= 10 * row.planMs).length,
  };
}

type Box = readonly [x: number, y: number, width: number, height: number];

/**
 * A rectangle parted into rectangles by straight lines, the largest first, in some of which four lines chase each other round
 * a middle: as many rings as asked for.
 */
export function ringedBlock(seed: number, patches: number, rings: number): Block {
  const rng = new Prng(seed);
  const boxes: Box[] = [[0, 0, 16, 16]];
  const lines: Segment[] = [];
  while (boxes.length < patches - 4 * rings) {
    boxes.sort((a, b) => b[2] * b[3] - a[2] * a[3]);
    const [x, y, width, height] = boxes.shift()!;
    const share = rng.between(0.35, 0.65);
    if (width > height) {
      const cut = width * share;
      lines.push([
        [x + cut, y],
        [x + cut, y + height],
      ]);
      boxes.push([x, y, cut, height], [x + cut, y, width - cut, height]);
    } else {
      const cut = height * share;
      lines.push([
        [x, y + cut],
        [x + width, y + cut],
      ]);
      boxes.push([x, y, width, cut], [x, y + cut, width, height - cut]);
    }
  }
  boxes.sort((a, b) => b[2] * b[3] - a[2] * a[3]);
  for (const [x, y, width, height] of boxes.slice(0, rings)) {
    const [a, c] = [x + width * rng.between(0.25, 0.4), x + width * rng.between(0.6, 0.75)];
    const [b, d] = [y + height * rng.between(0.25, 0.4), y + height * rng.between(0.6, 0.75)];
    lines.push(
      [
        [x, b],
        [c, b],
      ],
      [
        [c, y],
        [c, d],
      ],
      [
        [x + width, d],
        [a, d],
      ],
      [
        [a, y + height],
        [a, b],
      ],
    );
  }
  const onLattice = ([u, v]: Point): Point => [Math.round(u * 65536) / 65536, Math.round(v * 65536) / 65536];
  return {
    id: `ringed-${seed}`,
    name: `Ringed ${seed}`,
    outline: [
      [0, 0],
      [16, 0],
      [16, 16],
      [0, 16],
    ],
    cuts: lines.map(([from, to], i) => ({
      id: `c${i + 1}`,
      from: onLattice(from),
      to: onLattice(to),
      role: 'auto' as const,
    })),
    patches: [],
  };
}

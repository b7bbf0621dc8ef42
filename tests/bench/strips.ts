// The package names a file as its main one that Node takes for what it is not; this one is right.
// @ts-expect-error it has no types of its own
import * as library from 'maxrects-packer/dist/maxrects-packer.mjs';
import type { CutSize } from '../../src/cutting/strips/cloth.ts';
import { lengthOfStrips } from '../../src/cutting/strips/cloth.ts';
import { layStrips, QUICK_STEPS, THOROUGH_STEPS } from '../../src/cutting/strips/lay-strips.ts';
import { stripBound } from '../../src/cutting/strips/strip-bound.ts';
import { benchCuts, firstFitLength } from '../cutting/bench-cuts.ts';

const { MaxRectsPacker, PACKING_LOGIC } = library as typeof import('maxrects-packer');

const WIDTH = 40;
/** The packing library counts in whole pixels: sixteen to the inch hold every quarter. */
const PX = 16;

export interface StripsRow {
  readonly cuts: number;
  readonly sets: number;
  /** Worst and mean fill of the strips, and the mean of the others. */
  readonly worst: number;
  readonly fill: number;
  readonly firstFit: number;
  readonly maxRects: number;
  readonly ms: number;
  readonly maxRectsMs: number;
  /** Sets in which one of the others came out shorter. */
  readonly beaten: number;
}

/** How full strips come out, and against whom, on several seeded sets of a size. */
export function benchStrips(count: number, sets: number): StripsRow {
  const rows = Array.from({ length: sets }, (_, i) => {
    const cuts = benchCuts(i + 1, count);
    const area = cuts.reduce((sum, { width, height }) => sum + width * height, 0) / WIDTH;
    const begun = performance.now();
    const length = lengthOfStrips(layStrips(cuts, WIDTH, THOROUGH_STEPS));
    const ms = performance.now() - begun;
    const packed = maxRectsLength(cuts, area);
    const first = firstFitLength(cuts, WIDTH);
    return {
      fill: area / length,
      first: area / first,
      packed,
      area,
      ms,
      beaten: length > Math.min(first, packed.length) + 1e-9,
    };
  });
  const mean = (of: (row: (typeof rows)[number]) => number): number =>
    rows.reduce((sum, row) => sum + of(row), 0) / rows.length;
  return {
    cuts: count,
    sets,
    worst: Math.min(...rows.map(({ fill }) => fill)),
    fill: mean(({ fill }) => fill),
    firstFit: mean(({ first }) => first),
    maxRects: mean(({ area, packed }) => area / packed.length),
    ms: mean(({ ms }) => ms),
    maxRectsMs: mean(({ packed }) => packed.ms),
    beaten: rows.filter(({ beaten }) => beaten).length,
  };
}

/** A first answer for very many cuts, against the library on 500. */
export function benchQuickStrips(): {
  readonly ms: number;
  readonly fill: number;
  readonly maxRectsMs: number;
} {
  const many = benchCuts(1, 10_000);
  layStrips(many, WIDTH, QUICK_STEPS);
  const begun = performance.now();
  const length = lengthOfStrips(layStrips(many, WIDTH, QUICK_STEPS));
  const ms = performance.now() - begun;
  const few = benchCuts(1, 500);
  const { ms: maxRectsMs } = maxRectsLength(few, stripBound(few, WIDTH).length);
  return { ms, fill: stripBound(many, WIDTH).length / length, maxRectsMs };
}

/** The least height, in steps of a hundredth of the area, that one sheet of the library needs; free, not in strips. */
function maxRectsLength(
  cuts: readonly CutSize[],
  area: number,
): { readonly length: number; readonly ms: number } {
  let [length, ms] = [Number.POSITIVE_INFINITY, 0];
  for (const logic of [PACKING_LOGIC.MAX_AREA, PACKING_LOGIC.MAX_EDGE]) {
    for (let share = 1.01; share < 1.5; share += 0.01) {
      const begun = performance.now();
      const packer = new MaxRectsPacker(WIDTH * PX, Math.ceil(area * share * PX), 0, {
        smart: true,
        pot: false,
        square: false,
        allowRotation: true,
        logic,
      });
      packer.addArray(cuts.map(({ width, height }) => ({ width: width * PX, height: height * PX })) as never);
      ms = performance.now() - begun;
      if (packer.bins.length > 1) continue;
      const used = Math.max(...packer.bins[0]!.rects.map(({ y, height }) => y + height));
      length = Math.min(length, used / PX);
      break;
    }
  }
  return { length, ms };
}

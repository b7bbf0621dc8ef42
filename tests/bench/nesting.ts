import { trimLine } from '../../src/foundations/foundation/allowance.ts';
import { layInLevels } from '../../src/foundations/sheet/level-packing.ts';
import { type NestShape, nest } from '../../src/geometry/nest.ts';
import type { Point, Ring } from '../../src/geometry/point.ts';
import { boxOf, signedArea } from '../../src/geometry/ring.ts';
import { roundPoint } from '../designs/plane.ts';
import { Prng } from '../designs/prng.ts';

/** Room on a Letter sheet above its foot, inches. */
export const SHEET = { width: 8, height: 9.35 };
export const GAP = 1 / 8;

const QUARTERS: readonly number[] = [0, 1, 2, 3];

/** Triangles and kites as foundations have them, with 1/4 in of allowance: 1 1/2 to 6 in a side. */
export function trianglesAndKites(seed: number, count: number): Ring[] {
  const random = new Prng(seed);
  return Array.from({ length: count }, (_, i) => {
    const [w, h] = [random.between(1.5, 6), random.between(1.5, 6)];
    const rings: readonly Ring[] = [
      [
        [0, 0],
        [w, 0],
        [0, h],
      ],
      [
        [0, h],
        [w / 2, 0],
        [w, h],
      ],
      [
        [w / 2, 0],
        [w, h / 3],
        [w / 2, h],
        [0, h / 3],
      ],
    ];
    return trimLine(rings[i % 3]!.map(roundPoint), 0.25);
  });
}

export interface NestingRow {
  readonly pieces: number;
  readonly bound: number;
  readonly levels: number;
  readonly maxRects: number;
  readonly nested: number;
  readonly ms: number;
}

/** Sheets needed: by area alone, in levels, by maximal rectangles, and nested. */
export function benchNesting(rings: readonly Ring[], effort: number, turns = QUARTERS): NestingRow {
  const boxes = rings.map((ring) => {
    const { minX, minY, maxX, maxY } = boxOf(ring);
    return { width: maxX - minX, height: maxY - minY };
  });
  const area = rings.reduce((sum, ring) => sum + Math.abs(signedArea(ring)), 0);
  const shapes = rings.map((ring): NestShape => ({ rings: [ring], turns }));
  const start = performance.now();
  const nested = nest(shapes, [...rings.keys()], { sheet: SHEET, gap: GAP, effort, seed: 1 });
  const ms = performance.now() - start;
  const sheets = (laid: readonly { readonly sheet: number }[]): number =>
    Math.max(...laid.map(({ sheet }) => sheet)) + 1;
  return {
    pieces: rings.length,
    bound: Math.ceil(area / (SHEET.width * SHEET.height)),
    levels: sheets(layInLevels(boxes, SHEET, GAP)),
    maxRects: maxRects(boxes, SHEET, GAP),
    nested: nested ? sheets(nested) : 0,
    ms,
  };
}

/**
 * Sheets that maximal rectangles with best short side fit need (Jylänki 2010, "A Thousand Ways to Pack the Bin"),
 * the largest rectangles first, first sheet that has room.
 */
export function maxRects(
  boxes: readonly { readonly width: number; readonly height: number }[],
  sheet: { readonly width: number; readonly height: number },
  gap: number,
): number {
  type Free = { x: number; y: number; w: number; h: number };
  const bins: Free[][] = [];
  const ordered = [...boxes].sort((a, b) => b.width * b.height - a.width * a.height);
  for (const { width, height } of ordered) {
    const sizes: readonly Point[] = [
      [width + gap, height + gap],
      [height + gap, width + gap],
    ];
    let place: { bin: Free[]; x: number; y: number; w: number; h: number } | null = null;
    for (let b = 0; b <= bins.length && !place; b++) {
      if (b === bins.length) bins.push([{ x: 0, y: 0, w: sheet.width + gap, h: sheet.height + gap }]);
      const bin = bins[b]!;
      let least = Number.POSITIVE_INFINITY;
      for (const free of bin) {
        for (const [w, h] of sizes) {
          if (w > free.w + 1e-9 || h > free.h + 1e-9) continue;
          const short = Math.min(free.w - w, free.h - h);
          if (short >= least) continue;
          least = short;
          place = { bin, x: free.x, y: free.y, w, h };
        }
      }
    }
    const { bin, x, y, w, h } = place!;
    const split = bin.flatMap((free): Free[] => {
      const right = free.x + free.w;
      const bottom = free.y + free.h;
      if (x >= right || x + w <= free.x || y >= bottom || y + h <= free.y) return [free];
      return [
        { ...free, w: x - free.x },
        { ...free, x: x + w, w: right - x - w },
        { ...free, h: y - free.y },
        { ...free, y: y + h, h: bottom - y - h },
      ].filter((part) => part.w > 1e-6 && part.h > 1e-6);
    });
    const inside = (a: Free, b: Free): boolean =>
      a.x >= b.x && a.y >= b.y && a.x + a.w <= b.x + b.w && a.y + a.h <= b.y + b.h;
    const kept = split.filter(
      (a, i) => !split.some((b, j) => i !== j && inside(a, b) && (!inside(b, a) || j < i)),
    );
    bin.splice(0, bin.length, ...kept);
  }
  return bins.length;
}

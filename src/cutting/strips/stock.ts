import { type CutSize, type LaidStrip, ROUNDING } from './cloth.ts';
import { FullestStrip, type Pick } from './fullest-strip.ts';
import { type Sorted, sortedCuts } from './sorts.ts';

/** A piece of cloth that is at hand, inches. */
export interface StockPiece {
  readonly width: number;
  readonly height: number;
}

/** What is cut from one piece at hand: strips across `width`, laid one below the other. */
export interface LaidStock {
  /** Index in what is at hand. */
  readonly stock: number;
  /** As it lies on the mat: the longer side may be up. */
  readonly width: number;
  readonly height: number;
  readonly strips: readonly LaidStrip[];
}

/** Strip heights tried for each strip at most. */
const HEIGHTS_TRIED = 24;

/**
 * Cuts as much as can be from pieces at hand, the smallest first: strip after strip, each the fullest there is, the
 * piece lying either way. A cut that fits nowhere is left. Pieces nothing is cut from are not in the answer.
 */
export function cutFromStock(
  items: readonly CutSize[],
  stock: readonly StockPiece[],
): { readonly laid: readonly LaidStock[]; readonly left: readonly number[] } {
  const remaining = new Set(items.keys());
  const laid: LaidStock[] = [];
  const bySize = [...stock.keys()].sort((a, b) => areaOf(stock[a]!) - areaOf(stock[b]!) || a - b);
  for (const index of bySize) {
    if (remaining.size === 0) break;
    const { width, height } = stock[index]!;
    const ways = [
      [width, height],
      [height, width],
    ] as const;
    let best: LaidStock | null = null;
    let most = 0;
    for (const [across, along] of width === height ? ways.slice(0, 1) : ways) {
      const strips = fillPiece(items, [...remaining], across, along);
      const area = strips.flatMap(({ cuts }) => cuts).reduce((sum, cut) => sum + cut.width * cut.height, 0);
      if (area <= most + ROUNDING) continue;
      most = area;
      best = { stock: index, width: across, height: along, strips };
    }
    if (!best) continue;
    laid.push(best);
    for (const { cuts } of best.strips) for (const { item } of cuts) remaining.delete(item);
  }
  return { laid, left: [...remaining] };
}

const areaOf = ({ width, height }: StockPiece): number => width * height;

function fillPiece(
  items: readonly CutSize[],
  which: readonly number[],
  width: number,
  height: number,
): LaidStrip[] {
  const fitting = which.filter((i) => {
    const { width: w, height: h, turns } = items[i]!;
    const fits = (across: number, along: number): boolean =>
      across <= width + ROUNDING && along <= height + ROUNDING;
    return fits(w, h) || (turns && fits(h, w));
  });
  if (fitting.length === 0) return [];
  const sorted = sortedCuts(
    fitting.map((i) => items[i]!),
    width,
  );
  const given = sorted.sorts.map(() => 0);
  const strips: LaidStrip[] = [];
  let room = height;
  for (;;) {
    const picks = fullest(sorted, given, room);
    if (picks.length === 0) return strips;
    const cuts = picks.flatMap(({ sort, way, count }) => {
      const { ways, items: same } = sorted.sorts[sort]!;
      const { width: across, height: along } = ways[way]!;
      return Array.from({ length: count }, () => ({
        item: fitting[same[given[sort]!++]!]!,
        width: across,
        height: along,
      }));
    });
    cuts.sort((a, b) => b.height - a.height || b.width - a.width || a.item - b.item);
    strips.push({ height: cuts[0]!.height, cuts });
    room -= cuts[0]!.height;
  }
}

/** The strip no taller than `room` of which the largest share is used; empty when nothing fits. */
function fullest({ sorts, capacity }: Sorted, given: readonly number[], room: number): readonly Pick[] {
  const left = sorts.map(({ items }, sort) => items.length - given[sort]!);
  const among = [...sorts.keys()].filter((sort) => left[sort]! > 0);
  const heights = [...new Set(among.flatMap((sort) => sorts[sort]!.ways.map((way) => way.height)))]
    .filter((height) => height <= room + ROUNDING)
    .sort((a, b) => b - a);
  const knapsack = new FullestStrip(sorts, capacity);
  const stride = Math.max(1, Math.ceil(heights.length / HEIGHTS_TRIED));
  let best: readonly Pick[] = [];
  let most = 0;
  for (let i = 0; i < heights.length; i += stride) {
    const picks = knapsack.fill(among, left, heights[i]!, capacity, (sort) => sorts[sort]!.area);
    const area = picks.reduce((sum, { sort, count }) => sum + count * sorts[sort]!.area, 0);
    if (area / heights[i]! <= most + ROUNDING) continue;
    most = area / heights[i]!;
    best = picks;
  }
  return best;
}

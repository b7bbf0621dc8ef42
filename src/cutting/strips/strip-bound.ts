import { type CutSize, ROUNDING } from './cloth.ts';

/**
 * - `area`: the cloth of all cuts side by side without a gap.
 * - `tallest`: one cut that is so long whichever way it lies.
 * - `wide`: cuts too wide to lie beside each other, and what must lie beside them.
 */
export type BoundKind = 'area' | 'tallest' | 'wide';

export interface Bound {
  /** No way of cutting takes less of the length, inches. */
  readonly length: number;
  readonly kind: BoundKind;
}

/**
 * The length that no plan can be shorter than. For each margin m up to half the width: what is wider than the width
 * less m counts as the whole width, what is narrower than m as nothing, the rest as it is; added up, that bounds every
 * packing from below (the dual feasible functions of Fekete and Schepers, Math. Programming 91, 2001). A cut that
 * turns counts the way that counts least. Cost: O(items × different widths).
 */
export function stripBound(items: readonly CutSize[], usableWidth: number): Bound {
  let tallest = 0;
  const sizes = new Map<string, { item: CutSize; count: number }>();
  for (const item of items) {
    const key = `${item.width} ${item.height} ${item.turns}`;
    const known = sizes.get(key);
    if (known) known.count++;
    else sizes.set(key, { item, count: 1 });
    tallest = Math.max(tallest, Math.min(...waysOf(item, usableWidth).map(([, height]) => height)));
  }
  const totalFor = (counted: (width: number) => number): number => {
    let total = 0;
    for (const { item, count } of sizes.values())
      total +=
        count * Math.min(...waysOf(item, usableWidth).map(([width, height]) => counted(width) * height));
    return total / usableWidth;
  };
  let best: Bound = { length: totalFor((width) => width), kind: 'area' };
  const margins = new Set(
    [...sizes.values()]
      .flatMap(({ item }) => waysOf(item, usableWidth).map(([width]) => width))
      .flatMap((width) => (2 * width <= usableWidth ? [width] : [usableWidth - width + 2 * ROUNDING])),
  );
  for (const margin of spread([...margins])) {
    const length = totalFor((width) =>
      width > usableWidth - margin + ROUNDING ? usableWidth : width < margin - ROUNDING ? 0 : width,
    );
    if (length > best.length + ROUNDING) best = { length, kind: 'wide' };
  }
  return tallest > best.length + ROUNDING ? { length: tallest, kind: 'tallest' } : best;
}

/** Margins tried at most. */
const MARGINS_TRIED = 100;

function spread(margins: number[]): number[] {
  if (margins.length <= MARGINS_TRIED) return margins;
  margins.sort((a, b) => a - b);
  return Array.from(
    { length: MARGINS_TRIED },
    (_, i) => margins[Math.floor((i * margins.length) / MARGINS_TRIED)]!,
  );
}

/** Width and height of each way a cut can lie across the fabric. */
function waysOf({ width, height, turns }: CutSize, usableWidth: number): [number, number][] {
  const ways: [number, number][] = [];
  if (width <= usableWidth + ROUNDING) ways.push([width, height]);
  if (turns && height <= usableWidth + ROUNDING) ways.push([height, width]);
  return ways;
}

import { type CutSize, ROUNDING } from './cloth.ts';

/** One way a cut may lie in a strip. */
export interface Way {
  /** Width in ticks of the packing, never less than the real one. */
  readonly ticks: number;
  readonly width: number;
  readonly height: number;
}

/** Cuts of one size, which are all the same to the packing. */
export interface Sort {
  readonly ways: readonly Way[];
  readonly area: number;
  /** The lowest strip that can hold it. */
  readonly least: number;
  /** Indices of the cuts in what was asked for. */
  readonly items: readonly number[];
}

export interface Sorted {
  readonly sorts: readonly Sort[];
  /** Usable width in ticks. */
  readonly capacity: number;
}

const MM = 1 / 25.4;
/** Steps that sizes are usually whole numbers of, inches. */
const USUAL_STEPS = [1, 1 / 4, 1 / 8, 5 * MM, 1 / 16, MM, 1 / 32];
/** Ticks across the fabric where sizes are whole numbers of no usual step. */
const FINE_TICKS = 1_000;

const isWhole = (amount: number): boolean => Math.abs(amount - Math.round(amount)) < 1e-6;

/** The largest usual step that all sizes are whole numbers of; else a thousandth of the width. */
function tickFor(items: readonly CutSize[], usableWidth: number): number {
  return (
    USUAL_STEPS.find((step) =>
      items.every(({ width, height }) => isWhole(width / step) && isWhole(height / step)),
    ) ?? usableWidth / FINE_TICKS
  );
}

/**
 * Cuts by size, the tallest first. Widths become whole numbers of ticks, rounded up, so that whatever the packing
 * finds fits in truth. Every item must fit the width one way at least.
 */
export function sortedCuts(items: readonly CutSize[], usableWidth: number): Sorted {
  const tick = tickFor(items, usableWidth);
  const capacity = Math.floor(usableWidth / tick + 1e-6);
  const bySize = new Map<string, number[]>();
  for (const [i, { width, height, turns }] of items.entries()) {
    const key = turns
      ? `${Math.max(width, height)} ${Math.min(width, height)}`
      : `${width} ${height} upright`;
    const known = bySize.get(key);
    if (known) known.push(i);
    else bySize.set(key, [i]);
  }
  const ticksOf = (width: number): number => Math.ceil(width / tick - 1e-6);
  const sorts = [...bySize.values()].map((same): Sort => {
    const { width, height, turns } = items[same[0]!]!;
    const lying: Way = { ticks: ticksOf(width), width, height };
    const turned: Way = { ticks: ticksOf(height), width: height, height: width };
    const ways = (turns && width !== height ? [lying, turned] : [lying]).filter(
      (way) => way.width <= usableWidth + ROUNDING,
    );
    return {
      ways,
      area: width * height,
      least: Math.min(...ways.map((way) => way.height)),
      items: same,
    };
  });
  return { sorts: sorts.sort((a, b) => b.least - a.least || b.area - a.area), capacity };
}

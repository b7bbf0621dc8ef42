/** A rectangle to be laid on a sheet, inches. */
export interface Rectangle {
  readonly width: number;
  readonly height: number;
}

export interface Laid {
  /** Index in the input. */
  readonly item: number;
  readonly sheet: number;
  readonly x: number;
  readonly y: number;
  readonly turned: boolean;
}

/** Slack for sums of sizes, inches: what fills a sheet exactly fits. */
const ROUNDING = 1e-9;

interface Level {
  readonly sheet: number;
  readonly y: number;
  readonly height: number;
  used: number;
}

/**
 * Lays rectangles on as few sheets as it finds, in levels (first fit by falling height: Coffman, Garey, Johnson
 * and Tarjan, SIAM J. Comput. 9, 1980), `gap` inches apart. Tried upright as they came, all lying, all standing;
 * the fewest sheets win, then the fewest turns.
 * Every rectangle must fit on an empty sheet, upright or turned. Result in the order of the input.
 */
export function layInLevels(items: readonly Rectangle[], sheet: Rectangle, gap: number): readonly Laid[] {
  const wants: readonly ((item: Rectangle) => boolean)[] = [
    () => false,
    (item) => item.height > item.width,
    (item) => item.width > item.height,
  ];
  let best: { laid: Laid[]; sheets: number; turns: number } | null = null;
  for (const want of wants) {
    const turned = items.map((item) => {
      const wish = want(item);
      return fits(item, wish, sheet) ? wish : !wish;
    });
    const laid = firstFit(items, turned, sheet, gap);
    const sheets = laid.reduce((most, one) => Math.max(most, one.sheet + 1), 0);
    const turns = turned.filter(Boolean).length;
    if (!best || sheets < best.sheets || (sheets === best.sheets && turns < best.turns))
      best = { laid, sheets, turns };
  }
  return best!.laid;
}

/** Whether a rectangle fits on an empty sheet, upright or turned. */
export const fitsSheet = (item: Rectangle, sheet: Rectangle): boolean =>
  fits(item, false, sheet) || fits(item, true, sheet);

function fits({ width, height }: Rectangle, turned: boolean, sheet: Rectangle): boolean {
  return turned
    ? height <= sheet.width && width <= sheet.height
    : width <= sheet.width && height <= sheet.height;
}

function firstFit(
  items: readonly Rectangle[],
  turned: readonly boolean[],
  sheet: Rectangle,
  gap: number,
): Laid[] {
  const widths = items.map(({ width, height }, i) => (turned[i] ? height : width));
  const heights = items.map(({ width, height }, i) => (turned[i] ? width : height));
  const byHeight = items.map((_, i) => i).sort((a, b) => heights[b]! - heights[a]! || a - b);
  const narrowest = widths.reduce((least, width) => Math.min(least, width), Number.POSITIVE_INFINITY);
  const lowest = heights.reduce((least, height) => Math.min(least, height), Number.POSITIVE_INFINITY);
  // Only levels and sheets that could still take the smallest are looked through.
  let levels: Level[] = [];
  let sheets: { readonly sheet: number; used: number }[] = [];
  let count = 0;
  const laid: Laid[] = [];
  for (const item of byHeight) {
    const width = widths[item]!;
    const height = heights[item]!;
    let level = levels.find(
      (one) => one.height >= height && one.used + gap + width <= sheet.width + ROUNDING,
    );
    if (!level) {
      let on = sheets.find(({ used }) => used + gap + height <= sheet.height + ROUNDING);
      if (!on) {
        on = { sheet: count++, used: -gap };
        sheets.push(on);
      }
      level = { sheet: on.sheet, y: on.used + gap, height, used: -gap };
      on.used = level.y + height;
      levels.push(level);
      if (on.used + gap + lowest > sheet.height + ROUNDING) sheets = sheets.filter((one) => one !== on);
    }
    const x = level.used + gap;
    level.used = x + width;
    if (level.used + gap + narrowest > sheet.width + ROUNDING) levels = levels.filter((one) => one !== level);
    laid.push({ item, sheet: level.sheet, x, y: level.y, turned: turned[item]! });
  }
  return laid.sort((a, b) => a.item - b.item);
}

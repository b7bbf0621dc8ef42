import type { Border, Setting } from '../../document/quilt.ts';
import type { Point } from '../../geometry/point.ts';

export interface Fit {
  readonly setting: Setting;
  readonly borders: readonly Border[];
  /** What it comes to. */
  readonly size: Point;
}

/** Width and height of a setting without borders. */
export function settingSize({ kind, columns, rows, cell: [w, h], sashing, strip }: Setting): Point {
  const s = sashing?.width ?? 0;
  if (kind === 'on-point') return [columns * (w + s) * Math.SQRT2, rows * (w + s) * Math.SQRT2];
  const gap = kind === 'strips' ? (strip?.width ?? 0) : s;
  const edge = kind === 'straight' && sashing?.outside ? 2 * s : 0;
  const down = kind === 'straight' ? s : 0;
  return [columns * w + (columns - 1) * gap + edge, rows * h + (rows - 1) * down + edge];
}

/** A border is no narrower than this, inches: narrower ones hardly show between their seams. */
const LEAST_BORDER_IN = 0.5;

/**
 * The setting with as many columns and rows as the size asked for holds, and its outermost border as wide as what is
 * left over across. Length then differs by less than half a row. Null where not even one block fits. Inner borders stay.
 */
export function fitTo(setting: Setting, borders: readonly Border[], [width, height]: Point): Fit | null {
  const inner = borders.slice(0, -1);
  const outer: Border = borders.at(-1) ?? { width: 4, corners: 'butted' };
  const taken = 2 * inner.reduce((sum, border) => sum + border.width, 0);
  const least = outer.block === undefined ? LEAST_BORDER_IN : outer.width;
  const most = (axis: 0 | 1, room: number): number => {
    let count = 0;
    while (count < 200) {
      const next = { ...setting, columns: count + 1, rows: count + 1 };
      if (settingSize(next)[axis] > room + 1e-6) break;
      count++;
    }
    return count;
  };
  const columns = most(0, width - taken - 2 * least);
  if (columns === 0) return null;
  const border =
    outer.block === undefined
      ? Math.round(((width - taken - settingSize({ ...setting, columns, rows: 1 })[0]) / 2) * 8) / 8
      : outer.width;
  const room = height - taken - 2 * border;
  const under = most(1, room);
  const off = (rows: number): number => Math.abs(settingSize({ ...setting, columns, rows })[1] - room);
  const rows = under === 0 || off(under + 1) < off(under) ? under + 1 : under;
  const fitted: Setting = { ...setting, columns, rows };
  const [w, h] = settingSize(fitted);
  return {
    setting: fitted,
    borders: [...inner, { ...outer, width: border }],
    size: [w + taken + 2 * border, h + taken + 2 * border],
  };
}

import type { Point } from '../../geometry/point.ts';
import { type NamelessPlain, rectangle, type Slot } from './slots.ts';

/** Something of a size that waits to be placed, by its number in the list it came from. */
interface Waiting {
  readonly index: number;
  readonly size: Point;
}

export interface MixedOut {
  /** Slot of each size, in the order given. */
  readonly slots: readonly Slot[];
  readonly plain: readonly NamelessPlain[];
  readonly height: number;
}

/**
 * Sizes of several kinds in bands across a width: each band as high as its highest, its columns filled from the top with
 * what is as wide or less. So rows of columns of rows: straight seams always join it. The large ones are dealt out
 * over the bands, and stand farther along in each band than in the one before. What stays empty is plain.
 */
export function mixed(sizes: readonly Point[], width: number, fabric: string | undefined): MixedOut {
  const waiting = sizes
    .map((size, index): Waiting => ({ index, size }))
    .sort((a, b) => b.size[1] - a.size[1] || b.size[0] - a.size[0] || a.index - b.index);
  const slots: Slot[] = sizes.map((size) => ({ at: [0, 0], size, turn: 0 }));
  const plain: NamelessPlain[] = [];
  const total = sizes.reduce((sum, [w, h]) => sum + w * h, 0);
  const tallest = waiting[0]?.size[1] ?? 0;
  /** As many of the highest in a band as there would be if all bands had the same. */
  const share = Math.max(
    1,
    Math.ceil(
      waiting.filter(({ size }) => size[1] === tallest).length / Math.max(1, total / (width * tallest)),
    ),
  );
  let y = 0;
  for (let band = 0; waiting.length > 0; band++) {
    const height = waiting[0]!.size[1];
    const columns = bandOf(waiting, width, height, share);
    // The columns are turned like a wheel from band to band, so that the large ones do not stand in a file.
    const turned = columns.map(
      (_, k) => columns[(k + columns.length - (band % columns.length)) % columns.length]!,
    );
    let x = 0;
    for (const column of turned) {
      let down = y;
      for (const row of column.rows) {
        let along = x;
        for (const one of row) {
          slots[one.index] = { at: [along, down], size: one.size, turn: 0 };
          along += one.size[0];
        }
        const deep = row[0]!.size[1];
        if (along < x + column.width)
          plain.push(rectangle([along, down], [x + column.width - along, deep], 'strip', fabric));
        down += deep;
      }
      if (down < y + height)
        plain.push(rectangle([x, down], [column.width, y + height - down], 'strip', fabric));
      x += column.width;
    }
    if (x < width) plain.push(rectangle([x, y], [width - x, height], 'strip', fabric));
    y += height;
  }
  return { slots, plain, height: y };
}

interface Column {
  readonly width: number;
  /** From the top: rows of things of one height. */
  readonly rows: Waiting[][];
}

/** Takes what one band holds from those that wait. */
function bandOf(waiting: Waiting[], width: number, height: number, share: number): Column[] {
  const columns: Column[] = [];
  let left = width;
  let highest = 0;
  const take = (fits: (one: Waiting) => boolean): Waiting | null => {
    const at = waiting.findIndex(fits);
    return at < 0 ? null : waiting.splice(at, 1)[0]!;
  };
  for (;;) {
    const head = take(
      ({ size }) => size[0] <= left && size[1] <= height && (size[1] < height || highest < share),
    );
    const first = head ?? take(({ size }) => size[0] <= left && size[1] <= height);
    if (!first) return columns;
    if (first.size[1] === height) highest++;
    const column: Column = { width: first.size[0], rows: [[first]] };
    columns.push(column);
    left -= column.width;
    let deep = first.size[1];
    for (;;) {
      const below = take(({ size }) => size[0] <= column.width && deep + size[1] <= height);
      if (!below) break;
      const row = [below];
      column.rows.push(row);
      deep += below.size[1];
      let wide = below.size[0];
      for (;;) {
        const beside = take(({ size }) => size[1] === below.size[1] && wide + size[0] <= column.width);
        if (!beside) break;
        row.push(beside);
        wide += beside.size[0];
      }
    }
  }
}

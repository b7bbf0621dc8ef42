import type { Part, PlainPlace, Setting } from '../../document/quilt.ts';
import { snapPoint } from '../../geometry/lattice.ts';
import type { Point, Ring } from '../../geometry/point.ts';
import { boxOf } from '../../geometry/ring.ts';

/** A hole in a setting that a block, or a plain piece, is to fill: the box round it as it lies. */
export interface Slot {
  readonly at: Point;
  readonly size: Point;
  /** 0.5 where what fills it stands on its point. */
  readonly turn: 0 | 0.5;
}

export type NamelessPlain = Omit<PlainPlace, 'id'>;

/** What a setting makes: slots in reading order, and the plain pieces round them. */
export interface SetOut {
  readonly slots: readonly Slot[];
  readonly plain: readonly NamelessPlain[];
}

/** A plain rectangle. */
export function rectangle(at: Point, size: Point, part: Part, fabric: string | undefined): NamelessPlain {
  return { at: snapPoint(at), size: snapPoint(size), part, ...(fabric !== undefined && { fabric }) };
}

/** A plain piece of any shape, its corners given where they lie. */
export function shaped(corners: Ring, part: Part, fabric: string | undefined): NamelessPlain {
  const snapped = corners.map(snapPoint);
  const { minX, minY, maxX, maxY } = boxOf(snapped);
  return {
    at: [minX, minY],
    size: [maxX - minX, maxY - minY],
    shape: snapped.map(([x, y]): Point => [x - minX, y - minY]),
    part,
    ...(fabric !== undefined && { fabric }),
  };
}

/** Whole numbers from 0. */
export const upTo = (count: number): number[] => Array.from({ length: count }, (_, i) => i);

/** The slots of straight rows and columns, with what sashing there is. */
export function straight({ columns, rows, cell: [w, h], sashing }: Setting): SetOut {
  const s = sashing?.width ?? 0;
  const edge = sashing?.outside ? s : 0;
  const x = (i: number): number => edge + i * (w + s);
  const y = (j: number): number => edge + j * (h + s);
  const slots = upTo(rows).flatMap((j) =>
    upTo(columns).map((i): Slot => ({ at: [x(i), y(j)], size: [w, h], turn: 0 })),
  );
  if (!sashing || s === 0) return { slots, plain: [] };
  const first = sashing.outside ? -1 : 0;
  const lines = (count: number): number[] => upTo(count - 1 - 2 * first).map((k) => k + first);
  const plain: NamelessPlain[] = [];
  const { fabric, cornerstoneFabric = fabric } = sashing;
  for (const j of upTo(rows))
    for (const i of lines(columns)) plain.push(rectangle([x(i) + w, y(j)], [s, h], 'sashing', fabric));
  const width = columns * w + (columns - 1) * s + 2 * edge;
  for (const j of lines(rows)) {
    if (!sashing.cornerstones) {
      plain.push(rectangle([0, y(j) + h], [width, s], 'sashing', fabric));
      continue;
    }
    for (const i of upTo(columns)) plain.push(rectangle([x(i), y(j) + h], [w, s], 'sashing', fabric));
    for (const i of lines(columns))
      plain.push(rectangle([x(i) + w, y(j) + h], [s, s], 'cornerstone', cornerstoneFabric));
  }
  return { slots, plain };
}

/** Rows as bricks lie: every other one moved by half a block and ended with plain halves. */
export function offset({ columns, rows, cell: [w, h], fabric }: Setting): SetOut {
  const slots: Slot[] = [];
  const plain: NamelessPlain[] = [];
  for (const j of upTo(rows)) {
    const isMoved = j % 2 === 1;
    for (const i of upTo(isMoved ? columns - 1 : columns))
      slots.push({ at: [(i + (isMoved ? 0.5 : 0)) * w, j * h], size: [w, h], turn: 0 });
    if (!isMoved) continue;
    for (const x of [0, (columns - 0.5) * w]) plain.push(rectangle([x, j * h], [w / 2, h], 'strip', fabric));
  }
  return { slots, plain };
}

/** Columns of blocks with plain strips between, as long as the quilt. */
export function strips({ columns, rows, cell: [w, h], strip }: Setting): SetOut {
  const s = strip?.width ?? 0;
  const slots = upTo(rows).flatMap((j) =>
    upTo(columns).map((i): Slot => ({ at: [i * (w + s), j * h], size: [w, h], turn: 0 })),
  );
  const plain =
    s === 0
      ? []
      : upTo(columns - 1).map((i) => rectangle([i * (w + s) + w, 0], [s, rows * h], 'strip', strip?.fabric));
  return { slots, plain };
}

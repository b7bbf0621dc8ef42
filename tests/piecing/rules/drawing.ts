import type { Point, Ring } from '../../../src/geometry/point.ts';
import type { Block, CutRole, PlanChoice } from '../../../src/piecing/block.ts';
import type { PieceOptions } from '../../../src/piecing/options.ts';
import { entriesAt, orderedAt } from '../../designs/entries.ts';

/** Blocks written in one line each: corners as `x,y x,y …`, cuts as `x,y>x,y …`, inches, y down. */
export interface Drawing {
  readonly outline?: string;
  readonly cuts: string;
  /** `x,y=fabric …` */
  readonly paint?: string;
  /** Role by place of the cut, counted from 1. */
  readonly roles?: Readonly<Record<number, CutRole>>;
  readonly plan?: PlanChoice;
  /** Orders set by hand, each `x,y x,y …`. */
  readonly orders?: readonly string[];
  readonly options?: PieceOptions;
}

export const SQUARE = '0,0 6,0 6,6 0,6';
/** Two arms up, a bar below. */
export const HARBOUR_WALL = '0,0 2,0 2,4 4,4 4,0 6,0 6,6 0,6';

const pointOf = (text: string): Point => {
  const [x, y] = text.split(',').map(Number);
  return [x!, y!];
};
const listOf = (text: string): string[] => text.split(' ').filter((part) => part !== '');
export const ringOf = (text: string): Ring => listOf(text).map(pointOf);

/** The block of a drawing; `place` turns, mirrors, moves or scales every point of it. */
export function blockOf(drawing: Drawing, place: (p: Point) => Point = (p) => p): Block {
  const block: Block = {
    id: 'b1',
    name: 'Lighthouse',
    outline: ringOf(drawing.outline ?? SQUARE).map(place),
    cuts: listOf(drawing.cuts).map((text, i) => {
      const [from, to] = text.split('>').map(pointOf);
      return { id: `c${i + 1}`, from: place(from!), to: place(to!), role: drawing.roles?.[i + 1] ?? 'auto' };
    }),
    patches: entriesAt(
      listOf(drawing.paint ?? '').map((text) => {
        const [at, fabric] = text.split('=');
        return { at: place(pointOf(at!)), fabric: fabric! };
      }),
    ),
    ...(drawing.plan && { plan: drawing.plan }),
  };
  return drawing.orders
    ? orderedAt(
        block,
        drawing.orders.map((order) => ringOf(order).map(place)),
      )
    : block;
}

import type { Point } from '../../geometry/point.ts';
import { boxOf } from '../../geometry/ring.ts';
import type { PiecingPlan } from '../../piecing/plan.ts';

/** How the front of a block is laid into a drawing: fitted, never turned or mirrored. Inches. */
export interface Fit {
  readonly width: number;
  readonly height: number;
  /** Drawn inches per inch of the block. */
  readonly scale: number;
  readonly place: (point: Point) => Point;
}

/** Fits a block into a box, keeping its proportions, from the upper left corner. Never larger than `most` × its size. */
export function fitFront(plan: PiecingPlan, width: number, height: number, most = Infinity): Fit {
  const letters = plan.sections.map(({ letter }) => letter);
  return fitUnit(plan, letters, width, height, most);
}

/** Fits a unit, by the letters of all its sections, into a box as `fitFront` does a block. */
export function fitUnit(
  plan: PiecingPlan,
  letters: readonly string[],
  width: number,
  height: number,
  most = Infinity,
): Fit {
  const box = boxOf(
    plan.sections.filter(({ letter }) => letters.includes(letter)).flatMap(({ outline }) => outline),
  );
  const scale = Math.min(most, width / (box.maxX - box.minX), height / (box.maxY - box.minY));
  return {
    width: scale * (box.maxX - box.minX),
    height: scale * (box.maxY - box.minY),
    scale,
    place: ([x, y]) => [scale * (x - box.minX), scale * (y - box.minY)],
  };
}

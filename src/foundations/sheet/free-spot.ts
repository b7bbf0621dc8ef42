import type { Point, Ring } from '../../geometry/point.ts';
import { boxOf, contains } from '../../geometry/ring.ts';
import { boxMeetsSegment, type LabelBox } from '../foundation/ground.ts';
import type { Rectangle } from './level-packing.ts';

/** Free space between two papers to cut in, inches. */
export const CUTTING_GAP_IN = 1 / 8;

/** Distance between two places looked at, inches. */
const STEP_IN = 0.125;

/** Whether a box at a place of a sheet, its upper left corner given, keeps off all that is taken by a cutting gap. */
export function isFreeAt(taken: readonly Ring[], [x, y]: Point, { width, height }: Rectangle): boolean {
  const box: LabelBox = {
    middle: [x + width / 2, y + height / 2],
    halfWidth: width / 2 + CUTTING_GAP_IN,
    halfHeight: height / 2 + CUTTING_GAP_IN,
    turn: 0,
  };
  return !taken.some(
    (ring) =>
      contains(ring, box.middle) ||
      ring.some((a, i) => boxMeetsSegment(box, [a, ring[(i + 1) % ring.length]!])),
  );
}

/**
 * The upper left corner of a free place for a box on a sheet, between what the rings cover and a cutting gap off it:
 * the lowest, then farthest right. Inches from the corner of the sheet's room; null where there is none.
 */
export function freeSpot(
  taken: readonly Ring[],
  room: Rectangle,
  { width, height }: Rectangle,
): Point | null {
  const around = taken.map((ring) => ({ ring, box: boxOf(ring) }));
  for (let y = room.height - height; y >= 0; y -= STEP_IN) {
    for (let x = room.width - width; x >= 0; x -= STEP_IN) {
      const middle: Point = [x + width / 2, y + height / 2];
      const box: LabelBox = {
        middle,
        halfWidth: width / 2 + CUTTING_GAP_IN,
        halfHeight: height / 2 + CUTTING_GAP_IN,
        turn: 0,
      };
      const hit = around.find(
        ({ ring, box: { minX, minY, maxX, maxY } }) =>
          minX < middle[0] + box.halfWidth &&
          maxX > middle[0] - box.halfWidth &&
          minY < middle[1] + box.halfHeight &&
          maxY > middle[1] - box.halfHeight &&
          (contains(ring, middle) ||
            ring.some((a, i) => boxMeetsSegment(box, [a, ring[(i + 1) % ring.length]!]))),
      );
      if (!hit) return [x, y];
    }
  }
  return null;
}

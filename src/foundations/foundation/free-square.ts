import type { Point } from '../../geometry/point.ts';
import { signedArea } from '../../geometry/ring.ts';
import type { Ground } from './ground.ts';
import { boxAround, type LabelRequest } from './label-request.ts';
import { spotsOver } from './patch-labels.ts';

/** Side of the square code on a paper with its clear rim, inches: fine enough for a phone, and for 300 dots to the inch. */
export const CODE_IN = 0.62;

/** Where a square code lies free inside a patch, between the labels that are there: the roomiest patch first. */
export function freeSquare({ patches }: LabelRequest, ground: Ground): Point | null {
  const block = { width: CODE_IN, height: CODE_IN, lines: [] };
  const byRoom = [...patches].sort(
    (a, b) => Math.abs(signedArea(b.area.polygon)) - Math.abs(signedArea(a.area.polygon)),
  );
  for (const { area } of byRoom)
    for (const at of spotsOver(area, block)) {
      const one = { block, slot: { at, turn: 0 }, pad: 0 };
      if (ground.isFree(boxAround(one))) return at;
    }
  return null;
}

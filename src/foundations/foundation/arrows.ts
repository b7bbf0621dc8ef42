import { holdsPoint } from '../../geometry/inner-spot.ts';
import type { Point } from '../../geometry/point.ts';
import { distance, signedArea } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import { type Mark, PT } from '../marks.ts';
import type { Side } from '../side.ts';
import type { Ground, LabelBox } from './ground.ts';
import {
  boxAround,
  type LabelRequest,
  type LaidPatch,
  SMALLEST_PT,
  stack,
  type Try,
} from './label-request.ts';
import { spotsOver } from './patch-labels.ts';

const UP = phrase('↑ up');

const SEWN_FROM: Readonly<Record<Side, string>> = {
  printed: phrase('sewn from this side'),
  front: phrase('sewn from the other side'),
};

/**
 * Which way is up on the finished block, and which side is sewn from: upright inside a patch, the largest first;
 * else the arrow alone, also in the allowance.
 */
export function* upTries({
  typeface,
  side,
  patches,
  outline,
  allowance,
  large,
}: LabelRequest): Generator<Try> {
  const bySize = [...patches].sort(
    (a, b) => Math.abs(signedArea(b.area.polygon)) - Math.abs(signedArea(a.area.polygon)),
  );
  for (const size of [...(large ? [10] : []), 7, SMALLEST_PT]) {
    const block = stack(typeface, [
      [UP, 'semibold', size],
      [SEWN_FROM[side], 'regular', size],
    ]);
    for (const { area } of bySize.slice(0, 8))
      for (const at of spotsOver(area, block, 10))
        if (holdsPoint(area, at)) yield { block, slot: { at, turn: 0 }, pad: 2 * PT };
  }
  for (const text of [UP, '↑']) {
    const block = stack(typeface, [[text, 'semibold', SMALLEST_PT]]);
    for (const { area } of bySize.slice(0, 12))
      for (const at of spotsOver(area, block, 12))
        if (holdsPoint(area, at)) yield { block, slot: { at, turn: 0 }, pad: PT };
    for (let i = 0; i < outline.length; i++) {
      const [a, b] = [outline[i]!, outline[(i + 1) % outline.length]!];
      const length = distance(a, b);
      for (let along = 0.06; along < length; along += 0.09) {
        const t = along / length;
        const at: Point = [
          a[0] + t * (b[0] - a[0]) + (allowance / 2) * ((b[1] - a[1]) / length),
          a[1] + t * (b[1] - a[1]) - (allowance / 2) * ((b[0] - a[0]) / length),
        ];
        yield { block, slot: { at, turn: 0 }, pad: 0.8 * PT };
      }
    }
  }
}

/** Lengths of a grain arrow that are tried, and of its heads, inches. */
const ARROWS_IN: readonly number[] = [0.9, 0.6, 0.4, 0.28];
const HEAD_IN = 0.055;

/** A straight-grain arrow in a patch that lies at the edge of the block, along that edge; null where it has no room. */
export function grainArrow(
  ground: Ground,
  { area, grain }: Pick<LaidPatch, 'area' | 'grain'>,
): readonly Mark[] | null {
  if (!grain) return null;
  const length = Math.hypot(grain[0], grain[1]);
  const [ux, uy] = [grain[0] / length, grain[1] / length];
  const turn = Math.atan2(uy, ux);
  for (const long of ARROWS_IN) {
    const block = { width: long, height: 2 * HEAD_IN, lines: [] };
    for (const middle of spotsOver(area, block, 14)) {
      const box: LabelBox = boxAround({ block, slot: { at: middle, turn }, pad: 1.5 * PT });
      if (!holdsPoint(area, middle) || !ground.isFree(box)) continue;
      ground.addLabel(box);
      const at = (along: number, aside: number): Point => [
        middle[0] + along * ux - aside * uy,
        middle[1] + along * uy + aside * ux,
      ];
      const head = (sign: 1 | -1): Mark => ({
        kind: 'line',
        pen: 'grain',
        points: [
          at(sign * (long / 2 - 1.6 * HEAD_IN), HEAD_IN),
          at((sign * long) / 2, 0),
          at(sign * (long / 2 - 1.6 * HEAD_IN), -HEAD_IN),
        ],
      });
      return [{ kind: 'line', pen: 'grain', points: [at(-long / 2, 0), at(long / 2, 0)] }, head(1), head(-1)];
    }
  }
  return null;
}

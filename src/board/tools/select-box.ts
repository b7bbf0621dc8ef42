import type { Point, Segment } from '../../geometry/point.ts';
import { type Box, boxOf } from '../../geometry/ring.ts';
import { crossing, edgesOf } from '../../geometry/segments.ts';
import { phrase } from '../../words/phrase.ts';
import { type In, isTouching, NOTHING, type SelectState } from './select-state.ts';
import { type Step, type Surroundings, stepTo } from './tool.ts';

/** Takes what the box holds. */
export function boxed(state: In<'boxing'>, { block }: Surroundings): Step<SelectState> {
  const box = boxOf([state.from, state.to]);
  const holds = isTouching(state) ? touchesBox : liesInBox;
  const held = block!.cuts.filter(({ from, to }) => holds([from, to], box)).map(({ id }) => id);
  return stepTo<SelectState>(
    { kind: 'idle', over: NOTHING, at: state.to },
    { kind: 'select', cuts: [...new Set([...state.before, ...held])] },
    {
      kind: 'announce',
      text:
        held.length === 1 ? phrase('1 line chosen.') : phrase('{held} lines chosen.', { held: held.length }),
    },
  );
}

const isInBox = ([x, y]: Point, { minX, minY, maxX, maxY }: Box): boolean =>
  x >= minX && x <= maxX && y >= minY && y <= maxY;

const liesInBox = (segment: Segment, box: Box): boolean => segment.every((end) => isInBox(end, box));

function touchesBox(segment: Segment, box: Box): boolean {
  if (segment.some((end) => isInBox(end, box))) return true;
  const sides = edgesOf([
    [box.minX, box.minY],
    [box.maxX, box.minY],
    [box.maxX, box.maxY],
    [box.minX, box.maxY],
  ]);
  return sides.some((side) => crossing(segment, side) !== null);
}

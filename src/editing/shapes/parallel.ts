import type { Block, Cut } from '../../document/project.ts';
import { TOUCH_IN } from '../../geometry/lattice.ts';
import type { Point, Segment } from '../../geometry/point.ts';
import { distance, distanceToSegment } from '../../geometry/ring.ts';
import { along, edgesOf, meeting, shifted } from '../../geometry/segments.ts';
import { stretchesInside } from './inside.ts';

/**
 * Lines beside a cut at `inches` from it, positive to its right as one goes from its start to its end. Each end runs
 * to the line that the cut's own end lies on, where it still meets that; what lies beyond the outline falls away.
 */
export function parallelTo(block: Block, cut: Cut, inches: number): readonly Segment[] {
  const length = distance(cut.from, cut.to);
  const by: Point = [
    (-(cut.to[1] - cut.from[1]) / length) * inches,
    ((cut.to[0] - cut.from[0]) / length) * inches,
  ];
  const plain: Segment = [shifted(cut.from, by), shifted(cut.to, by)];
  const others: readonly Segment[] = [
    ...block.cuts.filter(({ id }) => id !== cut.id).map(({ from, to }): Segment => [from, to]),
    ...edgesOf(block.outline),
  ];
  const line: Segment = [ending(cut.from, plain[0], plain, others), ending(cut.to, plain[1], plain, others)];
  return stretchesInside(block.outline, line);
}

/** Where the line beside a cut ends: on whichever line the cut's end lay on, nearest to where it would plainly end. */
function ending(was: Point, plain: Point, line: Segment, others: readonly Segment[]): Point {
  let best: Point | null = null;
  for (const segment of others) {
    if (distanceToSegment(was, ...segment) > TOUCH_IN) continue;
    const met = meeting(line, segment);
    if (met === null) continue;
    const place = along(segment, met.onSegment);
    if (best === null || distance(place, plain) < distance(best, plain)) best = place;
  }
  return best ?? plain;
}

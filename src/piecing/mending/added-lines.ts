import { snapPoint, TOUCH_IN } from '../../geometry/lattice.ts';
import type { Segment } from '../../geometry/point.ts';
import { distance } from '../../geometry/ring.ts';
import type { Cut } from '../block.ts';
import type { Added } from './part-along.ts';
import { alongOf, lineThrough, offOf, type Plane } from './plane.ts';

/** Added stretches as straight lines: those that follow one another on a line are one. */
export const stretchesOf = (plane: Plane, added: readonly Added[]): Segment[] =>
  runsOf(added).map(([from, to]) => [snapPoint(plane.spots[from]!), snapPoint(plane.spots[to]!)]);

/** Stretches strung together where one goes on along the line of another. */
function runsOf(added: readonly Added[]): [number, number][] {
  const waiting = [...added];
  const runs: [number, number][] = [];
  for (let next = waiting.pop(); next; next = waiting.pop()) {
    const { line } = next;
    let [from, to] = [next.from, next.to];
    for (;;) {
      const k = waiting.findIndex(
        (one) => one.line === line && [one.from, one.to].some((s) => s === from || s === to),
      );
      if (k < 0) break;
      const [one] = waiting.splice(k, 1);
      if (one!.from === to) to = one!.to;
      else if (one!.to === to) to = one!.from;
      else if (one!.from === from) from = one!.to;
      else from = one!.from;
    }
    runs.push([from, to]);
  }
  return runs.reverse();
}

/** What of a stretch no cut lies on, so that a loose end is drawn on and not drawn twice. */
export function uncovered(stretch: Segment, cuts: readonly Cut[]): Segment[] {
  const line = lineThrough(...stretch);
  const length = distance(...stretch);
  const covers = cuts
    .flatMap(({ from, to }) => {
      const [a, b] = alongOf(line, from) <= alongOf(line, to) ? [from, to] : [to, from];
      const [low, high] = [alongOf(line, a), alongOf(line, b)];
      const isOn = Math.abs(offOf(line, a)) <= 2 * TOUCH_IN && Math.abs(offOf(line, b)) <= 2 * TOUCH_IN;
      return isOn && high > TOUCH_IN && low < length - TOUCH_IN ? [{ a, b, low, high }] : [];
    })
    .sort((p, q) => p.low - q.low);
  const left: Segment[] = [];
  let start = stretch[0];
  let reached = 0;
  for (const { a, b, low, high } of covers) {
    if (low - reached > TOUCH_IN) left.push([start, snapPoint(a)]);
    if (high <= reached) continue;
    reached = high;
    start = snapPoint(b);
  }
  if (length - reached > TOUCH_IN) left.push([start, stretch[1]]);
  return left;
}

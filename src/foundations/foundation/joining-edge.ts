import type { Side } from '../side.ts';
import type { Frame } from './frame.ts';
import type { JoiningEdge } from './label-request.ts';
import type { JoiningSide } from './mates.ts';
import type { TickCount } from './tick-counts.ts';

export function joiningEdge(
  one: JoiningSide,
  ticksOf: ReadonlyMap<number, TickCount>,
  { toPaper }: Frame,
  side: Side,
): JoiningEdge {
  const [a, b] = one.side;
  const mirrored = side === 'printed';
  const inTurn = <T>(items: readonly T[]): readonly T[] => (mirrored ? [...items].reverse() : items);
  const { join } = one;
  return {
    step: join && (join.kind === 'set-in' ? `join ${join.step}, set in` : `join ${join.step}`),
    edge: mirrored ? [toPaper(b), toPaper(a)] : [toPaper(a), toPaper(b)],
    mates: inTurn(one.mates),
    points: inTurn(one.points.map((point) => ({ ...point, at: toPaper(point.at) }))),
    ticks: (join && ticksOf.get(join.step)) ?? 1,
  };
}

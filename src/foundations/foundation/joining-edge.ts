import { TOUCH_IN } from '../../geometry/lattice.ts';
import { distanceToSegment } from '../../geometry/ring.ts';
import { stopOf } from '../../piecing/partial-joins.ts';
import type { Join } from '../../piecing/plan.ts';
import { phrase } from '../../words/phrase.ts';
import type { Side } from '../side.ts';
import type { Frame } from './frame.ts';
import type { JoiningEdge } from './label-request.ts';
import type { JoiningSide } from './mates.ts';
import type { TickCount } from './tick-counts.ts';

/** `join 4`, and what is particular about it: where a partial seam is begun and where it is closed. */
function stepWords({ kind, step, finishes, leftOpen }: Join): string {
  if (kind === 'set-in') return phrase('join {step}, set in', { step });
  if (finishes) return phrase('join {step}, closes {step2}', { step, step2: finishes.step });
  return leftOpen ? phrase('join {step}, stop at the dot', { step }) : phrase('join {step}', { step });
}

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
  const stop = join && stopOf(join);
  return {
    step: join && stepWords(join),
    edge: mirrored ? [toPaper(b), toPaper(a)] : [toPaper(a), toPaper(b)],
    mates: inTurn(one.mates),
    points: inTurn(one.points.map((point) => ({ ...point, at: toPaper(point.at) }))),
    stop: stop && distanceToSegment(stop, a, b) <= TOUCH_IN ? toPaper(stop) : null,
    ticks: (join && ticksOf.get(join.step)) ?? 1,
  };
}

import type { Segment } from '../../geometry/point.ts';
import { phrase } from '../../words/phrase.ts';
import { compareIds } from '../ids.ts';
import type { Pattern } from '../pattern.ts';
import { knotOf } from '../peel.ts';
import { wholeOf } from '../region.ts';
import { type Inspection, listed, type Remark, type Rule } from './rule.ts';

/** Why one foundation won't do: patches of which each touches the others along two lines. */
export const knot: Rule = {
  code: 'knot',
  title: phrase('More than one foundation'),
  severity: 'note',
  check: (inspection: Inspection): Remark[] => {
    const { pattern, idOf, sections, rings } = inspection;
    if (sections.length < 2 || rings.length > 0) return [];
    const held = knotOf(pattern, wholeOf(pattern));
    if (held.length < 2) return [];
    const isHeld = new Set(held);
    const clashes = inspection.clashes.all.filter(({ cells }) => cells.every((c) => isHeld.has(c)));
    // The spot with the fewest patches round it is the plainest to explain.
    const clash = clashes.reduce<(typeof clashes)[number] | null>(
      (best, next) => (best && best.cells.length <= next.cells.length ? best : next),
      null,
    );
    const cells = clash ? [...clash.cells] : held;
    const stretches = contactsAmong(pattern, cells);
    const ids = cells.map((c) => idOf[c]!).sort(compareIds);
    const more = clashes.length - 1;
    const others =
      more > 0
        ? phrase(' {more} more {more, plural, one {spot is} other {spots are}} like it.', { more })
        : '';
    const first = stretches[0]!;
    return [
      {
        at: clash ? spotOf(stretches) : first[0],
        patches: ids,
        stretches,
        message: phrase(
          "One foundation won't do: {ids} each touch the others along two lines, so none of them can be sewn last.{others}",
          { ids: listed(ids), others },
        ),
      },
    ];
  },
};

/** Edges between cells of a group. */
export function contactsAmong(pattern: Pattern, cells: readonly number[]): Segment[] {
  const { face, origin, vertices } = pattern.division;
  const isIn = new Set(cells);
  const found: Segment[] = [];
  for (let h = 0; h < face.length; h += 2)
    if (isIn.has(face[h]!) && isIn.has(face[h + 1]!))
      found.push([vertices[origin[h]!]!, vertices[origin[h + 1]!]!]);
  return found;
}

/** The end most of the stretches share. */
function spotOf(stretches: readonly Segment[]): Segment[0] {
  const times = new Map<string, { point: Segment[0]; times: number }>();
  for (const point of stretches.flat()) {
    const entry = times.get(`${point}`) ?? { point, times: 0 };
    entry.times++;
    times.set(`${point}`, entry);
  }
  return [...times.values()].reduce((best, next) => (next.times > best.times ? next : best)).point;
}

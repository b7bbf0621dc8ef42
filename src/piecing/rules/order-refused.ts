import { innerSpot } from '../../geometry/inner-spot.ts';
import { phrase } from '../../words/phrase.ts';
import { listed, type Rule } from './rule.ts';

/** An order set by hand that the plan could not keep to. */
export const orderRefused: Rule = {
  code: 'order-refused',
  title: phrase('Order by hand that cannot be kept'),
  severity: 'caution',
  check: ({ block, patches, sections, idOf, known }) =>
    (block.orders ?? []).flatMap((order) => {
      const cells = order.flatMap((id) => known.patchOf.get(id) ?? []);
      const asked = cells.flatMap((cell) => patches.find(({ id }) => id === idOf[cell]) ?? []);
      return sections.flatMap(({ letter, order: sewn }) => {
        const group = asked.filter((patch) => patch.section === letter);
        if (group.length === 0) return [];
        const isKept = group.every((patch, k) => k === 0 || patch.position > group[k - 1]!.position);
        const startsFirst = group.length > 1 || sewn[0] === group[0]!.id;
        if (isKept && startsFirst) return [];
        const ids = group.map((patch) => patch.id);
        return [
          {
            at: innerSpot({ ...group[0]! }),
            patches: ids,
            message: phrase(
              'The order set by hand cannot be sewn as it stands, now that the drawing has changed: {ids} are sewn in the nearest order that can.',
              { ids: listed(ids) },
            ),
          },
        ];
      });
    }),
};

import { middle } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import { cutName, type Rule } from './rule.ts';

/** A cut pinned as a join that ended inside a foundation, or pinned as a seam that had to become a join. */
export const pinRefused: Rule = {
  code: 'pin-refused',
  title: phrase('Join or seam that cannot be as marked'),
  severity: 'caution',
  check: ({ block, pattern, patches, sections, idOf }) => {
    const { division } = pattern;
    const section = new Map(patches.map((patch) => [patch.id, patch.section]));
    const startsFrom = new Map(sections.map(({ letter, startsFrom }) => [letter, startsFrom]));
    /** On one paper: in one section, or where one starts from the finished unit the other is in. */
    const areTogether = (one: string, other: string): boolean =>
      one === other ||
      startsFrom.get(one)?.includes(other) === true ||
      startsFrom.get(other)?.includes(one) === true;
    return block.cuts.flatMap((cut, l) => {
      if (cut.role === 'auto') return [];
      const edges = [...division.line.keys()].filter((e) => {
        const a = idOf[division.face[2 * e]!];
        const b = idOf[division.face[2 * e + 1]!];
        if (division.line[e] !== l || a === undefined || b === undefined) return false;
        // A join must part two sections; a seam is sewn inside a paper also where that starts from a finished unit.
        return cut.role === 'join'
          ? section.get(a) === section.get(b)
          : !areTogether(section.get(a)!, section.get(b)!);
      });
      const edge = edges[0];
      if (edge === undefined) return [];
      const at = (h: number) => division.vertices[division.origin[h]!]!;
      const ids = [idOf[division.face[2 * edge]!]!, idOf[division.face[2 * edge + 1]!]!];
      return [
        {
          at: middle(at(2 * edge), at(2 * edge + 1)),
          cuts: [cut.id],
          patches: ids,
          message:
            cut.role === 'join'
              ? phrase(
                  '{cutName} is marked as a join, but no straight seam runs right across the block or the unit there, so it stays inside foundation {section}.',
                  { cutName: cutName(block, cut), section: section.get(ids[0]!)! },
                )
              : phrase(
                  '{cutName} is marked to stay inside a foundation, but the block cannot be joined without parting it there.',
                  { cutName: cutName(block, cut) },
                ),
        },
      ];
    });
  },
};

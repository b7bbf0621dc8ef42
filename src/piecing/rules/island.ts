import { ringOf } from '../../geometry/division.ts';
import { middle } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import type { Rule } from './rule.ts';

/** Lines that close on themselves inside one patch: nothing leads from the island to the lines around it. */
export const island: Rule = {
  code: 'island',
  title: phrase('Island'),
  severity: 'trouble',
  check: ({ pattern, idOf }) =>
    pattern.division.faces.flatMap((face, c) =>
      face.islands.map((h) => {
        const ring = ringOf(pattern.division, h);
        return {
          at: middle(ring[0]!, ring[Math.floor(ring.length / 2)]!),
          patches: [idOf[c]!],
          message: phrase(
            '{idOf} has an island in it: a patch with a hole can only be set in by hand. Draw a line from the island to the lines around it.',
            { idOf: idOf[c]! },
          ),
        };
      }),
    ),
};

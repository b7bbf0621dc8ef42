import { distance } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import { missedBeyond, shortfall } from './missed.ts';
import { cutName, cutWithin, type Rule } from './rule.ts';

/** Parts of cuts that lead nowhere, each told at its end, from the line it misses there. */
export const looseEnd: Rule = {
  code: 'loose-end',
  title: phrase('Loose end'),
  severity: 'caution',
  check: ({ block, pattern, options }) =>
    pattern.division.strays.flatMap(({ kind, line, at }) => {
      const cut = block.cuts[line];
      if (kind !== 'loose-end' || !cut) return [];
      const name = cutName(block, cut);
      const missed = missedBeyond(block, cut, at);
      if (!missed)
        return [
          {
            at,
            cuts: [cut.id],
            message: phrase(
              '{name} ends in the middle of a patch: the loose part is no seam. Extend it to the next line, or pull it back.',
              { name },
            ),
          },
        ];
      const { gap, beside } = missed;
      const whither = beside ? cutWithin(block, beside) : phrase('the edge of the block');
      return [
        {
          at: gap[0],
          cuts: [cut.id],
          stretches: [gap],
          message: phrase(
            '{name} ends in the middle of a patch, {shortfall} short of {whither}: the loose part is no seam. Extend it to {whither}, or pull it back.',
            { name, shortfall: shortfall(distance(...gap), options.unit), whither },
          ),
        },
      ];
    }),
};

import { boxOf, centroid } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import type { Rule } from './rule.ts';

/** Foundations that do not fit on one sheet, whichever way round they are laid. */
export const oversize: Rule = {
  code: 'oversize',
  title: phrase('Foundation larger than a sheet'),
  severity: 'note',
  check: ({ sections, options }) => {
    const { paper } = options;
    if (!paper) return [];
    const foot = paper.foot ?? 0;
    // The sheet upright and lying, its foot along the bottom, and on each the foundation either way round.
    const rooms = [
      [paper.width, paper.height - foot],
      [paper.height, paper.width - foot],
    ].flatMap(([a, b]) => [
      [a!, b!],
      [b!, a!],
    ]);
    return sections.flatMap((section) => {
      const box = boxOf(section.outline);
      const width = box.maxX - box.minX + 2 * paper.allowance;
      const height = box.maxY - box.minY + 2 * paper.allowance;
      if (rooms.some(([across, down]) => width <= across! && height <= down!)) return [];
      return [
        {
          at: centroid(section.outline),
          patches: section.order,
          message: phrase(
            'Foundation {letter} is larger than a sheet of the chosen paper: it prints on several sheets to tape together. A larger paper, or one more join, avoids that.',
            { letter: section.letter },
          ),
        },
      ];
    });
  },
};

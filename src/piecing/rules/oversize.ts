import { boxOf, centroid } from '../../geometry/ring.ts';
import type { Rule } from './rule.ts';

/** Foundations that do not fit on one sheet, whichever way round they are laid. */
export const oversize: Rule = {
  code: 'oversize',
  severity: 'note',
  check: ({ sections, options }) => {
    const { paper } = options;
    if (!paper) return [];
    const long = Math.max(paper.width, paper.height);
    const short = Math.min(paper.width, paper.height);
    return sections.flatMap((section) => {
      const box = boxOf(section.outline);
      const width = box.maxX - box.minX + 2 * paper.allowance;
      const height = box.maxY - box.minY + 2 * paper.allowance;
      if (Math.max(width, height) <= long && Math.min(width, height) <= short) return [];
      return [
        {
          at: centroid(section.outline),
          patches: section.order,
          message: `Foundation ${section.letter} is larger than a sheet of the chosen paper: it prints on several sheets to tape together. A larger paper, or one more join, avoids that.`,
        },
      ];
    });
  },
};

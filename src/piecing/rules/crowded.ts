import { centroid } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import type { Rule } from './rule.ts';

/** More seams than this in one point and the needle meets a lump: common practice. */
export const MOST_SEAMS_IN_A_POINT = 8;

/** More patches than this on one paper are hard to keep in order: common practice. */
export const MOST_PATCHES_ON_A_FOUNDATION = 20;

export const manySeams: Rule = {
  code: 'many-seams',
  title: phrase('Many seams in one point'),
  severity: 'caution',
  check: ({ pattern, idOf }) => {
    const { origin, face, vertices } = pattern.division;
    const seams = new Map<number, Set<number>>();
    for (let h = 0; h < origin.length; h++) {
      if (face[h]! < 0 || face[h ^ 1]! < 0) continue;
      const around = seams.get(origin[h]!) ?? new Set<number>();
      around.add(h);
      seams.set(origin[h]!, around);
    }
    return [...seams].flatMap(([v, around]) =>
      around.size <= MOST_SEAMS_IN_A_POINT
        ? []
        : [
            {
              at: vertices[v]!,
              patches: [...around].map((h) => idOf[face[h]!]!),
              message: phrase(
                '{size} seams meet in one point, a thick lump that is hard to sew and press. End some of the lines a little before it, or press these seams open.',
                { size: around.size },
              ),
            },
          ],
    );
  },
};

export const manyPatches: Rule = {
  code: 'many-patches',
  title: phrase('Many patches on one foundation'),
  severity: 'caution',
  check: ({ sections, patches }) =>
    sections.flatMap((section) => {
      if (section.order.length <= MOST_PATCHES_ON_A_FOUNDATION) return [];
      const first = patches.find((patch) => patch.id === section.order[0])!;
      return [
        {
          at: centroid(first.polygon),
          patches: section.order,
          message: phrase(
            'Foundation {letter} has {order} patches: a long way to go on one paper, and its folds wear out. Marking a line as a join makes two of it.',
            { letter: section.letter, order: section.order.length },
          ),
        },
      ];
    }),
};

import { carryPatches } from '../document/carry-patches.ts';
import { changeBlock } from '../document/find.ts';
import { cleanPoint } from '../document/limits.ts';
import type { Cut, Project } from '../document/project.ts';
import { boxOf } from '../geometry/ring.ts';
import { phrase } from '../words/phrase.ts';

export type Alignment = 'left' | 'centre' | 'right' | 'top' | 'middle' | 'bottom';

export const ALIGNMENTS: readonly (readonly [Alignment, string])[] = [
  ['left', phrase('Left ends')],
  ['centre', phrase('Centres, vertically')],
  ['right', phrase('Right ends')],
  ['top', phrase('Top ends')],
  ['middle', phrase('Centres, horizontally')],
  ['bottom', phrase('Bottom ends')],
];

/** Shifts cuts so that they line up on the outermost of them, or on the middle of their common box. */
export function alignCuts(
  project: Project,
  blockId: string,
  cutIds: readonly string[],
  to: Alignment,
): Project {
  const chosen = new Set(cutIds);
  return changeBlock(project, blockId, (block) => {
    const moving = block.cuts.filter(({ id, locked }) => chosen.has(id) && locked !== true);
    if (moving.length < 2) return block;
    const all = boxOf(moving.flatMap((cut) => [cut.from, cut.to]));
    const cuts = block.cuts.map((cut): Cut => {
      if (!moving.includes(cut)) return cut;
      const [dx, dy] = shiftOf(boxOf([cut.from, cut.to]), all, to);
      const from = cleanPoint([cut.from[0] + dx, cut.from[1] + dy]);
      const end = cleanPoint([cut.to[0] + dx, cut.to[1] + dy]);
      return from === null || end === null || (dx === 0 && dy === 0) ? cut : { ...cut, from, to: end };
    });
    return cuts.every((cut, index) => cut === block.cuts[index])
      ? block
      : carryPatches(block, { ...block, cuts });
  });
}

type Box = ReturnType<typeof boxOf>;

function shiftOf(box: Box, all: Box, to: Alignment): readonly [number, number] {
  switch (to) {
    case 'left':
      return [all.minX - box.minX, 0];
    case 'right':
      return [all.maxX - box.maxX, 0];
    case 'centre':
      return [(all.minX + all.maxX - box.minX - box.maxX) / 2, 0];
    case 'top':
      return [0, all.minY - box.minY];
    case 'bottom':
      return [0, all.maxY - box.maxY];
    case 'middle':
      return [0, (all.minY + all.maxY - box.minY - box.maxY) / 2];
  }
}

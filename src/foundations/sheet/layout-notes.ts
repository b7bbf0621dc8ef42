import { phrase } from '../../words/phrase.ts';
import type { Foundation, PrintNote } from '../print-work.ts';
import type { DrawnFoundation } from './draw.ts';
import type { Rectangle } from './level-packing.ts';

/** What is to be known of the drawn foundations, block by block. */
export function layoutNotes(drawn: readonly DrawnFoundation[], room: Rectangle): PrintNote[] {
  const notes: PrintNote[] = [];
  for (const block of new Set(drawn.map(({ foundation }) => foundation.job.block.id))) {
    const own = drawn.filter(({ foundation }) => foundation.job.block.id === block);
    const name = own[0]!.foundation.blockName;
    const tiled = own.filter((one) => one.division);
    if (tiled.length > 0) {
      const tiles = tiled.reduce((sum, one) => sum + one.division!.grid.columns * one.division!.grid.rows, 0);
      notes.push({
        kind: 'tiled',
        block,
        message: phrase(
          '{name}: {sectionsOf} {n, plural, one {is} other {are}} larger than one sheet and {n, plural, one {comes} other {come}} in {tiles} tiles, to be laid together by their crosses.',
          { name, sectionsOf: sectionsOf(tiled), n: tiled.length, tiles },
        ),
        room,
      });
    }
    for (const { drawing, foundation } of own) {
      const { crowded } = drawing;
      if (crowded.length === 0) continue;
      const few = phrase('{crowded}{isCrowded, select, true { and more} other {}}', {
        crowded: crowded.slice(0, 6).join(', '),
        isCrowded: crowded.length > 6,
      });
      notes.push({
        kind: 'crowded',
        block,
        message: phrase('{name}: section {letter} is crowded. No free place was found for {few}.', {
          name,
          letter: foundation.section.letter,
          few,
        }),
      });
    }
  }
  return notes;
}

/** `section A`, `sections A and B`, `sections A, B and C`. */
function sectionsOf(drawn: readonly DrawnFoundation[]): string {
  const letters = drawn.map(({ foundation }) => foundation.section.letter);
  const last = letters.pop()!;
  return letters.length === 0
    ? phrase('section {last}', { last })
    : phrase('sections {letters} and {last}', { letters: letters.join(', '), last });
}

/** Blocks whose fronts no sheet has room for: without it a block that mirrors badly is easily sewn the wrong way round. */
export const frontNotes = (
  foundations: readonly Foundation[],
  unseen: readonly string[],
): readonly PrintNote[] =>
  unseen.map((block) => {
    const { blockName } = foundations.find(({ job }) => job.block.id === block)!;
    return {
      kind: 'crowded',
      block,
      message: phrase('{blockName}: no sheet has room for a picture of its front. Print the cover with it.', {
        blockName,
      }),
    };
  });

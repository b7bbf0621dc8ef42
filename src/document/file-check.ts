import { ALL_PICTURES_LETTERS, lettersOf } from './fabric-picture.ts';
import { type Fault, oneLine, type Path } from './file-place.ts';
import type { FileProject } from './file-schema.ts';
import { checkQuilt } from './quilt-check.ts';
import { ALL_UNDER_PICTURES_LETTERS } from './under-picture.ts';

/** Ids used twice, and paint with a fabric that is not there. Null when there is neither. */
export function checkWhole({ fabrics = [], blocks, quilt }: FileProject): Fault | null {
  const lists: readonly {
    readonly path: Path;
    readonly word: string;
    readonly items: readonly { id: string }[];
  }[] = [
    { path: ['fabrics'], word: 'fabric', items: fabrics },
    { path: ['blocks'], word: 'block', items: blocks },
    ...blocks.map(({ cuts = [] }, i) => ({ path: ['blocks', i, 'cuts'], word: 'cut', items: cuts })),
  ];
  for (const { path, word, items } of lists) {
    const first = new Map<string, number>();
    for (const [i, { id }] of items.entries()) {
      const earlier = first.get(id);
      if (earlier !== undefined) {
        return {
          path: [...path, i, 'id'],
          predicate: `‘${oneLine(id)}’ is already that of ${word} ${earlier + 1}`,
        };
      }
      first.set(id, i);
    }
  }
  if (lettersOf(fabrics) > ALL_PICTURES_LETTERS) {
    const millions = Math.round(ALL_PICTURES_LETTERS / 1e6);
    return { path: ['fabrics'], predicate: `has pictures of more than ${millions} MB together` };
  }
  if (lettersOf(blocks) > ALL_UNDER_PICTURES_LETTERS) {
    const millions = Math.round(ALL_UNDER_PICTURES_LETTERS / 1e6);
    return { path: ['blocks'], predicate: `has pictures of more than ${millions} MB together` };
  }
  const fabricIds = new Set(fabrics.map(({ id }) => id));
  for (const [i, { paint = [] }] of blocks.entries()) {
    const j = paint.findIndex(({ fabric }) => !fabricIds.has(fabric));
    if (j < 0) continue;
    return {
      path: ['blocks', i, 'paint', j, 'fabric'],
      predicate: `‘${oneLine(paint[j]!.fabric)}’ is not in the list of fabrics`,
    };
  }
  return quilt === undefined ? null : checkQuilt(quilt, { fabrics, blocks });
}

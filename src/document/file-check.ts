import { phrase } from '../words/phrase.ts';
import { ALL_PICTURES_LETTERS, lettersOf } from './fabric-picture.ts';
import { type Fault, oneLine, type Path } from './file-place.ts';
import type { FileProject } from './file-schema.ts';
import { checkQuilt } from './quilt-check.ts';
import { ALL_UNDER_PICTURES_LETTERS } from './under-picture.ts';

/** Ids used twice, and fabrics and patches that are named and not there. Null when there is none. */
export function checkWhole({ fabrics = [], blocks, quilt }: FileProject): Fault | null {
  const lists: readonly {
    readonly path: Path;
    readonly word: string;
    readonly items: readonly { id: string }[];
  }[] = [
    { path: ['fabrics'], word: phrase('fabric'), items: fabrics },
    { path: ['blocks'], word: phrase('block'), items: blocks },
    ...blocks.flatMap(({ cuts = [], patches = [] }, i) => [
      { path: ['blocks', i, 'cuts'], word: phrase('line'), items: cuts },
      { path: ['blocks', i, 'patches'], word: phrase('patch'), items: patches },
    ]),
  ];
  for (const { path, word, items } of lists) {
    const first = new Map<string, number>();
    for (const [i, { id }] of items.entries()) {
      const earlier = first.get(id);
      if (earlier !== undefined) {
        return {
          path: [...path, i, 'id'],
          predicate: phrase('‘{id}’ is already that of {word} {earlier}', {
            id: oneLine(id),
            word,
            earlier: earlier + 1,
          }),
        };
      }
      first.set(id, i);
    }
  }
  if (lettersOf(fabrics) > ALL_PICTURES_LETTERS) {
    const millions = Math.round(ALL_PICTURES_LETTERS / 1e6);
    return {
      path: ['fabrics'],
      predicate: phrase('has pictures of more than {millions} MB together', { millions }),
    };
  }
  if (lettersOf(blocks) > ALL_UNDER_PICTURES_LETTERS) {
    const millions = Math.round(ALL_UNDER_PICTURES_LETTERS / 1e6);
    return {
      path: ['blocks'],
      predicate: phrase('has pictures of more than {millions} MB together', { millions }),
    };
  }
  const fabricIds = new Set(fabrics.map(({ id }) => id));
  for (const [i, { patches = [], orders = [] }] of blocks.entries()) {
    for (const [j, { fabric }] of patches.entries()) {
      if (fabric === undefined || fabricIds.has(fabric)) continue;
      return {
        path: ['blocks', i, 'patches', j, 'fabric'],
        predicate: phrase('‘{fabric}’ is not in the list of fabrics', { fabric: oneLine(fabric) }),
      };
    }
    const patchIds = new Set(patches.map(({ id }) => id));
    for (const [j, order] of orders.entries()) {
      const stray = order.find((id) => !patchIds.has(id));
      if (stray === undefined) continue;
      return {
        path: ['blocks', i, 'orders', j],
        predicate: phrase('holds ‘{stray}’, which is not in the list of patches', { stray: oneLine(stray) }),
      };
    }
  }
  return quilt === undefined ? null : checkQuilt(quilt, { fabrics, blocks });
}

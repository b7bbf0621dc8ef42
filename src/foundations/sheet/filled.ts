import type { Point, Ring } from '../../geometry/point.ts';
import { phrase } from '../../words/phrase.ts';
import { type Mark, placedRing } from '../marks.ts';
import { boxShape } from './division.ts';
import { fillSheets, type Nesting } from './filling.ts';
import { freeSpot, isFreeAt } from './free-spot.ts';
import type { Item } from './items.ts';
import type { Rectangle } from './level-packing.ts';
import type { Print } from './orientation.ts';
import type { Part } from './sheet.ts';

/** A sheet on which papers lie, and what else finds room between them. */
export interface FilledSheet {
  readonly parts: Part[];
  /** What is covered, from the corner of the sheet's room. */
  readonly taken: Ring[];
  /** Maps of tiles that begin here. */
  readonly maps: (readonly Mark[])[];
  hasTiles: boolean;
  /** The first of its items, in the order of the work. */
  readonly first: number;
  /** The first of its tiles likewise; null where there is none. */
  firstTile: number | null;
}

export const emptySheet = (first: number): FilledSheet => ({
  parts: [],
  taken: [],
  maps: [],
  hasTiles: false,
  first,
  firstTile: null,
});

/** Papers and tiles on their sheets. The packing goes by size; the sheets come in the order of the work. */
export function filledSheets(items: readonly Item[], print: Print, nesting: Nesting): FilledSheet[] {
  const sheets: FilledSheet[] = [];
  for (const [i, { sheet, placement }] of fillSheets(items, print.room, nesting).entries()) {
    const item = items[i]!;
    const { foundation, copy, marks, tile, map, shape } = item;
    const filled = sheets[sheet] ?? emptySheet(i);
    sheets[sheet] = filled;
    filled.hasTiles ||= tile !== null;
    if (map) filled.maps.push(map);
    if (tile && filled.firstTile === null) filled.firstTile = i;
    filled.taken.push(...shape.rings.map((ring) => placedRing(ring, placement)));
    filled.parts.push({
      marks,
      placement: { ...placement, at: onSheet(print, placement.at) },
      paper: {
        block: foundation.job.block.id,
        section: foundation.section.letter,
        copy,
        ...(tile && { tile }),
      },
      says: paperWords(item),
    });
  }
  // Sheets with tiles come as the tiles do, whatever else lies on them, so that those of one paper stay together.
  return sheets.sort((a, b) => (a.firstTile ?? a.first) - (b.firstTile ?? b.first));
}

/** What a paper is called where it cannot be seen. */
function paperWords({ foundation, copy, tile }: Item): string {
  const { blockName, section, job } = foundation;
  const values = { name: blockName, letter: section.letter, copy, copies: job.copies };
  return tile
    ? phrase('Foundation of {name}, section {letter}, copy {copy} of {copies}, tile {number} of {of}', {
        ...values,
        ...tile,
      })
    : phrase('Foundation of {name}, section {letter}, copy {copy} of {copies}', values);
}

/** Lays a drawing of some size where the papers leave room for it; false where they leave none. */
export function layBetween(
  filled: FilledSheet,
  marks: readonly Mark[],
  size: Rectangle,
  print: Print,
): boolean {
  const at = freeSpot(filled.taken, print.room, size);
  if (!at) return false;
  filled.taken.push(placedRing(boxShape(size).rings[0]!, { at, quarterTurns: 0 }));
  filled.parts.push({ marks, placement: { at: onSheet(print, at), quarterTurns: 0 }, paper: null });
  return true;
}

/** Lays a drawing at a place, from the corner of the sheet's room; false where a paper lies there. */
export function layAt(
  filled: FilledSheet,
  marks: readonly Mark[],
  size: Rectangle,
  at: Point,
  print: Print,
): boolean {
  if (!isFreeAt(filled.taken, at, size)) return false;
  filled.taken.push(placedRing(boxShape(size).rings[0]!, { at, quarterTurns: 0 }));
  filled.parts.push({ marks, placement: { at: onSheet(print, at), quarterTurns: 0 }, paper: null });
  return true;
}

/** From the corner of a sheet's room to the corner of the sheet. */
export const onSheet = ({ corner }: Print, [x, y]: Point): Point => [corner[0] + x, corner[1] + y];

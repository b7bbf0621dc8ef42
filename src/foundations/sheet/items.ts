import { codedAddress } from '../../document/coded-address.ts';
import { phrase } from '../../words/phrase.ts';
import { codeOfCopy, titleOfCopy } from '../foundation/draw-foundation.ts';
import { type Mark, PT, placeMark } from '../marks.ts';
import type { Foundation } from '../print-work.ts';
import { textAt } from '../type/lettering.ts';
import type { Typeface } from '../type/typeface.ts';
import { captioned, PICTURE_HIGH_IN } from './captioned.ts';
import { groupOf } from './copies.ts';
import { boxShape, TILE_HEAD_IN, withHead } from './division.ts';
import type { DrawnFoundation } from './draw.ts';
import type { Nesting, SheetItem, SheetShape } from './filling.ts';
import { tileSize } from './tile-grid.ts';
import { tileHead } from './tile-head.ts';
import { tileMap } from './tile-map.ts';
import { onTile, tilesOf } from './tiles.ts';

/** Something to be laid on a sheet. */
export interface Item extends SheetItem {
  readonly foundation: Foundation;
  readonly marks: readonly Mark[];
  /** Which of the tiles of its paper it is; null for a whole paper. */
  readonly tile: { readonly number: number; readonly of: number } | null;
  /** The map of its tiles, on the first of them. */
  readonly map?: readonly Mark[];
}

/** The copies of a drawn foundation as items: itself, or its tiles, each with its words over it. */
export function itemsOf(
  { foundation, drawing, division }: DrawnFoundation,
  nesting: Nesting,
  typeface: Typeface,
  codes: string | null = null,
): (copy: number) => readonly Item[] {
  const group = groupOf(foundation, nesting);
  // What copies have alike comes first and is made once: the very same marks, so that a file need hold them once.
  const { block } = foundation.job;
  const title = (copy: number): readonly Mark[] => [
    ...titleOfCopy(typeface, drawing, copy),
    ...(codes === null
      ? []
      : codeOfCopy(
          drawing,
          codedAddress(codes, { paper: `${block.id}/${foundation.section.letter}/${copy}` }),
        )),
  ];
  const shape: SheetShape = { ...drawing, isStraight: false };
  if (!division)
    return (copy) => {
      const marks = [...drawing.marks, ...title(copy)];
      return [{ shape, group, foundation, copy, marks, tile: null, tileOf: null }];
    };
  const { grid } = division;
  const tileShape = boxShape(withHead(tileSize(drawing, grid)));
  const tiles = tilesOf(drawing.marks, drawing, grid, typeface);
  const underHead = (mark: Mark): Mark => placeMark(mark, { at: [0, TILE_HEAD_IN], quarterTurns: 0 });
  const tileMarks = tiles.map(({ marks }) => marks.map(underHead));
  const map = captioned(
    tileMap(drawing, grid, tiles, PICTURE_HIGH_IN, typeface),
    foundation.blockName,
    phrase(' {letter}: tiles', { letter: foundation.section.letter }),
    typeface,
  );
  return (copy) => {
    const titleMarks = title(copy);
    return tiles.map((tile, i): Item => {
      const style = { face: 'semibold', size: 7 * PT } as const;
      const { letter } = foundation.section;
      const ofCopies = phrase('copy {copy} of {copies}', { copy, copies: foundation.job.copies });
      const head = tileHead(
        typeface,
        style,
        { number: i + 1, of: tiles.length, row: tile.row, column: tile.column },
        foundation.blockName,
        [
          phrase(', section {letter}, {ofCopies}', { letter, ofCopies }),
          ` ${letter}, ${ofCopies}`,
          ` ${letter}`,
        ],
        tile.width,
      );
      return {
        shape: tileShape,
        group,
        foundation,
        copy,
        tileOf: `${foundation.job.block.id} ${foundation.section.letter} ${copy}`,
        tile: { number: i + 1, of: tiles.length },
        ...(i === 0 ? { map } : {}),
        marks: [
          ...tileMarks[i]!,
          textAt(typeface, { ...style, text: head }, [0, TILE_HEAD_IN - 0.06]),
          ...onTile(titleMarks, tile, grid, typeface).map(underHead),
        ],
      };
    });
  };
}

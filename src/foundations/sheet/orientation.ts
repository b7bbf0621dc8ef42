import { landscape } from '../../document/pages.ts';
import type { Point } from '../../geometry/point.ts';
import { phrase } from '../../words/phrase.ts';
import type { Foundation } from '../print-work.ts';
import { printable } from '../type/typeface.ts';
import { type Band, type BandWords, planBand } from './band.ts';
import { copiesOf, groupOf } from './copies.ts';
import { changesAnything, correctionWords } from './correction.ts';
import { boxShape, division, withHead } from './division.ts';
import {
  DEFAULT_NESTING,
  fillSheets,
  type Nesting,
  type SheetItem,
  type SheetShape,
  sheetsOf,
} from './filling.ts';
import { fitsSheet, type Rectangle } from './level-packing.ts';
import type { SheetOptions } from './sheet.ts';
import { tileSize } from './tile-grid.ts';

/** The sheets of a print: how large, what their foot says, and the room above it for foundations. */
export interface Print {
  readonly page: Rectangle;
  /** From the corner of the page as it is drawn, before any correction, to the foundations. */
  readonly corner: Point;
  readonly band: Band;
  readonly room: Rectangle;
}

/** More foundations and tiles than this in one print are more than anyone will cut out. */
const MOST_PIECES = 20_000;

export const REFUSALS = {
  'too-small': phrase('The page is too small: nothing of a foundation finds room beside the test square.'),
  'too-many': phrase(
    'More than 20,000 pieces of paper would be needed: choose fewer copies, fewer blocks or a larger page.',
  ),
} as const;

/** Less room than this for foundations on a sheet, and the page is too small. */
const SMALLEST_ROOM_IN = 1;

export const scaleOf = ({ correction }: SheetOptions): Point | null =>
  correction && changesAnything(correction) ? [correction.across, correction.down] : null;

/** What every sheet says of the correction. */
export const correctionOf = ({ correction, typeface }: SheetOptions): string | null =>
  correction && changesAnything(correction)
    ? correctionWords(correction, printable(typeface, correction.printer, '').text)
    : null;

/** The way to lay the page that needs the fewer sheets, upright when equal; or why neither will do. */
export function bestOrientation(
  foundations: readonly Foundation[],
  options: SheetOptions,
  words: BandWords,
): Print | 'too-small' | 'too-many' {
  let best: { print: Print; sheets: number } | null = null;
  let reason: 'too-small' | 'too-many' = 'too-small';
  const [across, down] = scaleOf(options) ?? [1, 1];
  for (const page of [options.page, landscape(options.page)]) {
    // A corrected drawing is laid out on what the page is before it is scaled.
    const width = (page.width - 2 * options.margin) / across;
    const height = (page.height - 2 * options.margin) / down;
    const corner: Point = [options.margin / across, options.margin / down];
    const plan = (tiles: boolean): Print => {
      const band = planBand(width, { ...words, tiles }, options.typeface);
      return { page, corner, band, room: { width, height: height - band.height } };
    };
    // What the foot says of tiles takes room itself, so it is counted in once it is known that there are tiles.
    let print = plan(false);
    if (foundations.some(({ size }) => !fitsSheet(size, print.room))) print = plan(true);
    if (print.room.height < SMALLEST_ROOM_IN || print.room.width < SMALLEST_ROOM_IN) continue;
    if (pieceCount(foundations, print.room) > MOST_PIECES) {
      reason = 'too-many';
      continue;
    }
    const sheets = sheetCount(foundations, print.room, options.nesting ?? DEFAULT_NESTING);
    if (!best || sheets < best.sheets) best = { print, sheets };
  }
  return best?.print ?? reason;
}

/** How many foundations and tiles there are to lay, all copies counted. */
const pieceCount = (foundations: readonly Foundation[], room: Rectangle): number =>
  foundations.reduce((sum, { size, job }) => {
    if (fitsSheet(size, room)) return sum + job.copies;
    const { columns, rows } = division(size, room).grid;
    return sum + columns * rows * job.copies;
  }, 0);

/** What one copy of a foundation takes on sheets: itself, or its tiles. */
function shapesOf(size: SheetShape, room: Rectangle): readonly SheetShape[] {
  if (fitsSheet(size, room)) return [size];
  const { grid } = division(size, room);
  const tile = boxShape(withHead(tileSize(size, grid)));
  return Array.from({ length: grid.columns * grid.rows }, () => tile);
}

/** More papers than this are only laid in levels to find out how the page lies better. */
const MOST_NESTED_TWICE = 300;

function sheetCount(foundations: readonly Foundation[], room: Rectangle, nesting: Nesting): number {
  const items = copiesOf(foundations, nesting, (foundation) => {
    const shapes = shapesOf(foundation.size, room);
    const group = groupOf(foundation, nesting);
    const { job, section } = foundation;
    const paper = `${job.block.id} ${section.letter}`;
    return (copy) =>
      shapes.map(
        (shape): SheetItem => ({
          shape,
          group,
          copy,
          tileOf: shapes.length > 1 ? `${paper} ${copy}` : null,
        }),
      );
  });
  return sheetsOf(fillSheets(items, room, { ...nesting, effort: 0 }, items.length <= MOST_NESTED_TWICE));
}

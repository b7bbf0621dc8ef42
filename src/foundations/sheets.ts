import type { Point } from '../geometry/point.ts';
import { type Band, type BandWords, planBand } from './band.ts';
import { type FabricLabel, type LabelRoom, SMALLEST_PT, stack } from './label-request.ts';
import { blockMarks, shortened, type TextLine, textAt } from './lettering.ts';
import { fitsSheet, layInLevels, type Rectangle } from './level-packing.ts';
import { type Mark, type Placement, PT, placeMark } from './marks.ts';
import { landscape, marginFault, type Page } from './pages.ts';
import { drawPaper, type Paper, type Side, titleOfCopy } from './paper.ts';
import { frontPicture } from './picture.ts';
import {
  type Foundation,
  fabricLabels,
  foundationsOf,
  keyEntry,
  nameNote,
  type PrintNote,
  type PrintWork,
} from './print-work.ts';
import { alignmentCrosses, type TileGrid, tileBarriers, tileGrid, tileSize, tilesOf } from './tiles.ts';
import { printable, type Typeface } from './typeface.ts';

export interface SheetOptions {
  readonly page: Page;
  /** What the printer leaves free on every side, inches. */
  readonly margin: number;
  readonly side: Side;
  /** The day of printing, written out; it stands on every sheet. */
  readonly printedOn: string;
  readonly typeface: Typeface;
}

/** A drawing on a sheet, and what it is of. */
export interface Part {
  readonly marks: readonly Mark[];
  readonly placement: Placement;
  /** The foundation it shows, or null for the band and its pictures. */
  readonly paper: { readonly block: string; readonly section: string; readonly copy: number } | null;
}

/** One side of one piece of paper, as it will be printed. Inches. */
export interface Sheet {
  readonly width: number;
  readonly height: number;
  readonly title: string;
  readonly parts: readonly Part[];
}

export interface SheetLayout {
  readonly sheets: readonly Sheet[];
  readonly notes: readonly PrintNote[];
  /** Foundations, counting every copy. */
  readonly foundations: number;
}

/** Free space between two foundations to cut in, inches. */
const CUTTING_GAP_IN = 1 / 8;

/** A label may lie this far beyond the trim line at most, inches. */
const LABEL_GROWTH_IN = 1;

/** All marks of a sheet where they lie on it: what every output draws. */
export function marksOf(sheet: Sheet): Mark[] {
  return sheet.parts.flatMap(({ marks, placement }) => marks.map((mark) => placeMark(mark, placement)));
}

/**
 * Lays the foundations of the chosen blocks on sheets: several small ones a sheet, one larger than a sheet over
 * several with overlap. Upright or lying sheets, whichever are fewer. A plan that fails the last check is refused
 * with a note and never printed.
 * The same input gives the same sheets.
 */
export function layOutSheets(work: PrintWork, options: SheetOptions): SheetLayout {
  const fault = marginFault(options.page, options.margin);
  if (fault !== null)
    return { sheets: [], foundations: 0, notes: [{ kind: 'refused', block: null, message: fault }] };
  const notes: PrintNote[] = [];
  const foundations = foundationsOf(work, options.typeface, notes);
  if (foundations.length === 0) {
    notes.push({
      kind: 'empty',
      block: null,
      message: 'There is no foundation to print: choose a block that can be sewn.',
    });
    return { sheets: [], notes, foundations: 0 };
  }
  const fabrics = fabricLabels(work, options.typeface, notes);
  const project = printable(options.typeface, work.project.name, 'Project');
  if (project.lacking !== '') notes.push(nameNote(null, 'The project’s name', project));

  // Fabrics shown by their code need a key, the key takes room, and less room can make more codes. The key only
  // grows, so this ends.
  let key: readonly string[] = [];
  for (;;) {
    const bandWords = {
      project: project.text,
      printedOn: printable(options.typeface, options.printedOn, '·').text,
      side: options.side,
      key: work.project.fabrics
        .filter(({ id }) => key.includes(id))
        .map(({ id }) => keyEntry(fabrics.get(id)!)),
      tiles: false,
    };
    const print = bestOrientation(foundations, options, bandWords);
    if (typeof print === 'string')
      return {
        sheets: [],
        foundations: 0,
        notes: [...notes, { kind: 'refused', block: null, message: REFUSALS[print] }],
      };
    const drawn = foundations.map((one) => draw(one, print, fabrics, work, options));
    const coded = new Set([...key, ...drawn.flatMap(({ paper }) => paper.codedFabrics)]);
    if (coded.size > key.length) {
      key = [...coded];
      continue;
    }
    notes.push(...paperNotes(drawn));
    return {
      sheets: assemble(drawn, print, options),
      notes,
      foundations: drawn.reduce((sum, { foundation }) => sum + foundation.job.copies, 0),
    };
  }
}

// ---------------------------------------------------------------- one foundation

/** The sheets of a print: how large, what their foot says, and the room above it for foundations. */
interface Print {
  readonly page: Rectangle;
  readonly band: Band;
  readonly room: Rectangle;
}

/** More foundations and tiles than this in one print are more than anyone will cut out. */
const MOST_PIECES = 20_000;

const REFUSALS = {
  'too-small': 'The page is too small: nothing of a foundation finds room beside the test square.',
  'too-many':
    'More than 20,000 pieces of paper would be needed: choose fewer copies, fewer blocks or a larger page.',
} as const;

/** Less room than this for foundations on a sheet, and the page is too small. */
const SMALLEST_ROOM_IN = 1;

/** How a foundation larger than a sheet is divided. */
interface Division {
  readonly grid: TileGrid;
  readonly turned: boolean;
}

/** Room for the words over a tile that say which it is, inches. */
const TILE_HEAD_IN = 0.17;

function division(size: Rectangle, room: Rectangle): Division {
  const upright = tileGrid(size, { width: room.width, height: room.height - TILE_HEAD_IN });
  const lying = tileGrid(size, { width: room.height, height: room.width - TILE_HEAD_IN });
  const count = ({ columns, rows }: TileGrid): number => columns * rows;
  return count(lying) < count(upright) ? { grid: lying, turned: true } : { grid: upright, turned: false };
}

/** The way to lay the page that needs the fewer sheets, upright when equal; or why neither will do. */
function bestOrientation(
  foundations: readonly Foundation[],
  options: SheetOptions,
  words: BandWords,
): Print | 'too-small' | 'too-many' {
  let best: { print: Print; sheets: number } | null = null;
  let reason: 'too-small' | 'too-many' = 'too-small';
  for (const page of [options.page, landscape(options.page)]) {
    const width = page.width - 2 * options.margin;
    const plan = (tiles: boolean): Print => {
      const band = planBand(width, { ...words, tiles }, options.typeface);
      return { page, band, room: { width, height: page.height - 2 * options.margin - band.height } };
    };
    // What the foot says of tiles takes room itself, so it is counted in once it is known that there are tiles.
    let print = plan(false);
    if (foundations.some(({ size }) => !fitsSheet(size, print.room))) print = plan(true);
    if (print.room.height < SMALLEST_ROOM_IN || print.room.width < SMALLEST_ROOM_IN) continue;
    if (pieceCount(foundations, print.room) > MOST_PIECES) {
      reason = 'too-many';
      continue;
    }
    const sheets = sheetCount(foundations, print.room);
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

/** The rectangles one copy of a foundation takes: itself, or its tiles. */
function piecesOf(size: Rectangle, room: Rectangle): readonly Rectangle[] {
  if (fitsSheet(size, room)) return [size];
  const { grid } = division(size, room);
  return Array.from({ length: grid.columns * grid.rows }, () => withHead(tileSize(size, grid)));
}

const withHead = ({ width, height }: Rectangle): Rectangle => ({ width, height: height + TILE_HEAD_IN });

function sheetCount(foundations: readonly Foundation[], room: Rectangle): number {
  const items = foundations.flatMap(({ size, job }) => {
    const pieces = piecesOf(size, room);
    return Array.from({ length: job.copies }, () => pieces).flat();
  });
  return layInLevels(items, room, CUTTING_GAP_IN).reduce((most, { sheet }) => Math.max(most, sheet + 1), 0);
}

interface Drawn {
  readonly foundation: Foundation;
  readonly paper: Paper;
  /** Null where the paper fits on one sheet. */
  readonly division: Division | null;
}

function draw(
  foundation: Foundation,
  { room }: Print,
  fabrics: ReadonlyMap<string, FabricLabel>,
  work: PrintWork,
  { side, typeface }: SheetOptions,
): Drawn {
  const { size, job, section, blockName } = foundation;
  const divided = fitsSheet(size, room) ? null : division(size, room);
  const labelRoom = divided ? tiledRoom(size, divided.grid) : freeRoom(size, room);
  const paper = drawPaper({
    plan: job.plan,
    section: section.letter,
    blockName,
    fabrics,
    allowance: work.project.seamAllowance,
    side,
    copies: job.copies,
    unit: work.project.unit,
    room: labelRoom,
    typeface,
  });
  return { foundation, paper, division: divided };
}

/** Labels may lie beyond the trim line as far as the paper still fits on the sheet the way it is laid. */
function freeRoom(size: Rectangle, room: Rectangle): LabelRoom {
  const upright = size.width <= room.width && size.height <= room.height;
  const across = upright ? room.width : room.height;
  const down = upright ? room.height : room.width;
  const growX = Math.min(LABEL_GROWTH_IN, (across - size.width) / 2);
  const growY = Math.min(LABEL_GROWTH_IN, (down - size.height) / 2);
  return {
    minX: -growX,
    minY: -growY,
    maxX: size.width + growX,
    maxY: size.height + growY,
    barriersX: [],
    barriersY: [],
    lines: [],
  };
}

/** Labels of a divided paper stay inside its trim line's box, off the sides of its tiles and off the crosses. */
function tiledRoom(size: Rectangle, grid: TileGrid): LabelRoom {
  const { barriersX, barriersY } = tileBarriers(grid);
  return {
    minX: 0,
    minY: 0,
    maxX: size.width,
    maxY: size.height,
    barriersX,
    barriersY,
    lines: alignmentCrosses(grid),
  };
}

/** What is to be known of the drawn papers, block by block. */
function paperNotes(drawn: readonly Drawn[]): PrintNote[] {
  const notes: PrintNote[] = [];
  for (const block of new Set(drawn.map(({ foundation }) => foundation.job.block.id))) {
    const own = drawn.filter(({ foundation }) => foundation.job.block.id === block);
    const name = own[0]!.foundation.blockName;
    const tiled = own.filter((one) => one.division);
    if (tiled.length > 0) {
      const tiles = tiled.reduce((sum, one) => sum + one.division!.grid.columns * one.division!.grid.rows, 0);
      const [is, comes] = tiled.length === 1 ? ['is', 'comes'] : ['are', 'come'];
      notes.push({
        kind: 'tiled',
        block,
        message: `${name}: ${sectionsOf(tiled)} ${is} larger than one sheet and ${comes} in ${tiles} tiles, to be laid together by their crosses.`,
      });
    }
    for (const { paper, foundation } of own) {
      const { crowded } = paper;
      if (crowded.length === 0) continue;
      const few = `${crowded.slice(0, 6).join(', ')}${crowded.length > 6 ? ' and more' : ''}`;
      notes.push({
        kind: 'crowded',
        block,
        message: `${name}: section ${foundation.section.letter} is crowded. No free place was found for ${few}.`,
      });
    }
  }
  return notes;
}

/** `section A`, `sections A and B`, `sections A, B and C`. */
function sectionsOf(drawn: readonly Drawn[]): string {
  const letters = drawn.map(({ foundation }) => foundation.section.letter);
  const last = letters.pop()!;
  return letters.length === 0 ? `section ${last}` : `sections ${letters.join(', ')} and ${last}`;
}

// ---------------------------------------------------------------- the sheets

/** Something to be laid on a sheet. */
interface Item extends Rectangle {
  readonly foundation: Foundation;
  readonly copy: number;
  readonly marks: readonly Mark[];
  readonly tile: boolean;
}

/** One copy of a drawn foundation as items: itself, or its tiles, each with its words over it. */
function itemsOf(
  { foundation, paper, division: divided }: Drawn,
  copy: number,
  typeface: Typeface,
): readonly Item[] {
  const marks = [...paper.marks, ...titleOfCopy(typeface, paper, copy)];
  if (!divided) return [{ width: paper.width, height: paper.height, foundation, copy, marks, tile: false }];
  const { grid } = divided;
  const tiles = tilesOf(marks, paper, grid, typeface);
  return tiles.map((tile, i): Item => {
    const which = `Tile ${i + 1} of ${tiles.length} (row ${tile.row}, column ${tile.column})`;
    const line: TextLine = {
      text: `${which}: ${foundation.blockName}, section ${foundation.section.letter}, copy ${copy} of ${foundation.job.copies}`,
      face: 'semibold',
      size: 7 * PT,
    };
    const head = shortened(typeface, line, tile.width);
    return {
      ...withHead(tile),
      foundation,
      copy,
      tile: true,
      marks: [
        textAt(typeface, { ...line, text: head }, [0, TILE_HEAD_IN - 0.06]),
        ...tile.marks.map((mark) => placeMark(mark, { at: [0, TILE_HEAD_IN], quarterTurns: 0 })),
      ],
    };
  });
}

interface Filling {
  readonly parts: Part[];
  tiles: boolean;
  /** The first of its items, in the order of the work. */
  readonly first: number;
}

function assemble(drawn: readonly Drawn[], print: Print, options: SheetOptions): readonly Sheet[] {
  const { typeface, margin } = options;
  const items = drawn.flatMap((one) =>
    Array.from({ length: one.foundation.job.copies }, (_, i) => itemsOf(one, i + 1, typeface)).flat(),
  );
  const fillings: Filling[] = [];
  for (const laid of layInLevels(items, print.room, CUTTING_GAP_IN)) {
    const { foundation, copy, marks, height, tile } = items[laid.item]!;
    const [x, y] = [margin + laid.x, margin + laid.y];
    fillings[laid.sheet] ??= { parts: [], tiles: false, first: laid.item };
    const filling = fillings[laid.sheet]!;
    filling.tiles ||= tile;
    filling.parts.push({
      marks,
      placement: laid.turned ? { at: [x + height, y], quarterTurns: 1 } : { at: [x, y], quarterTurns: 0 },
      paper: { block: foundation.job.block.id, section: foundation.section.letter, copy },
    });
  }

  // The packing goes by size; a person looks for the blocks in their order.
  fillings.sort((a, b) => a.first - b.first);

  const pictures = new Map<string, readonly Mark[]>();
  const pictureOf = ({ job, blockName }: Foundation): readonly Mark[] => {
    const known = pictures.get(job.block.id);
    if (known) return known;
    const drawnPicture = captioned(job.plan, blockName, typeface);
    pictures.set(job.block.id, drawnPicture);
    return drawnPicture;
  };
  const foundationOf = new Map(drawn.map(({ foundation }) => [foundation.job.block.id, foundation]));
  const { page, band } = print;
  const foot: Point = [margin, page.height - margin - band.height];
  return fillings.map(({ parts, tiles }, i): Sheet => {
    const number = i + 1;
    const words = { number, of: fillings.length, tiles };
    const furniture: Part[] = [
      { marks: band.draw(words), placement: { at: foot, quarterTurns: 0 }, paper: null },
    ];
    const blocks = [...new Set(parts.flatMap(({ paper }) => paper?.block ?? []))];
    const room = band.pictureRoom(number === 1);
    const fit = Math.floor((room.width + PICTURE_GAP_IN + 1e-9) / (PICTURE_IN + PICTURE_GAP_IN));
    const shown = blocks.slice(0, fit);
    shown.forEach((block, k) => {
      const x =
        foot[0] + room.x + room.width - (shown.length - k) * (PICTURE_IN + PICTURE_GAP_IN) + PICTURE_GAP_IN;
      furniture.push({
        marks: pictureOf(foundationOf.get(block)!),
        placement: { at: [x, foot[1] + room.y], quarterTurns: 0 },
        paper: null,
      });
    });
    return {
      width: page.width,
      height: page.height,
      title: `Sheet ${number} of ${fillings.length}`,
      parts: [...parts, ...furniture],
    };
  });
}

/** Side of the square a front picture stands in, and the space between two, inches. */
const PICTURE_IN = 0.95;
const PICTURE_GAP_IN = 0.16;

/** A front picture with its caption under it. */
function captioned(plan: Foundation['job']['plan'], name: string, typeface: Typeface): readonly Mark[] {
  const size = SMALLEST_PT * PT;
  const line = { text: '', face: 'regular', size } as const;
  const room = PICTURE_IN - typeface.extent('Front: ', 'regular').width * size;
  const caption = stack(typeface, [
    [`Front: ${shortened(typeface, { ...line, text: name }, room)}`, 'regular', SMALLEST_PT],
  ]);
  const high = 1.02 - 0.13;
  return [
    ...frontPicture(plan, PICTURE_IN, high, typeface),
    ...blockMarks(caption, [PICTURE_IN / 2, 1.02 - caption.height / 2]),
  ];
}

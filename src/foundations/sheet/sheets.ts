import { landscape, marginFault, type Page } from '../../document/pages.ts';
import { turnedByQuarters } from '../../geometry/nest.ts';
import type { Point, Ring } from '../../geometry/point.ts';
import type { MadeBlock } from '../../making/making.ts';
import { drawPaper, type Paper, type Side, sewnLines, titleOfCopy } from '../foundation/draw-foundation.ts';
import type { FabricStyle } from '../foundation/fabric-marks.ts';
import { type FabricLabel, type LabelRoom, SMALLEST_PT, stack } from '../foundation/label-request.ts';
import type { PaperStore } from '../foundation/store.ts';
import { type TickCount, tickCounts } from '../foundation/tick-counts.ts';
import { type Mark, type Placement, PT, placeMark, scaleMark, type TextMark } from '../marks.ts';
import {
  type Foundation,
  fabricLabels,
  foundationsOf,
  keyEntry,
  nameNote,
  type PrintNote,
  type PrintWork,
} from '../print-work.ts';
import { blockMarks, lengthOf, shortened, textAt } from '../type/lettering.ts';
import { printable, type Typeface } from '../type/typeface.ts';
import { type Band, type BandWords, LINE_DOWN_SIZE, numberLine, planBand, testLineDown } from './band.ts';
import { type Correction, changesAnything, correctionWords } from './correction.ts';
import {
  DEFAULT_NESTING,
  fillSheets,
  type Nesting,
  type SheetItem,
  type SheetShape,
  sheetsOf,
} from './filling.ts';
import { freeSpot } from './free-spot.ts';
import { frontPicture } from './front-picture.ts';
import { fitsSheet, type Rectangle } from './level-packing.ts';
import {
  alignmentCrosses,
  clearOfLines,
  onTile,
  type TileGrid,
  tileBarriers,
  tileGrid,
  tileHead,
  tileMap,
  tileSize,
  tilesOf,
} from './tiles.ts';

export interface SheetOptions {
  readonly page: Page;
  /** What the printer leaves free on every side, inches. */
  readonly margin: number;
  readonly side: Side;
  /** How papers are laid on sheets; `DEFAULT_NESTING` when absent. */
  readonly nesting?: Nesting;
  /** How patches show their fabric; `outline` when absent. */
  readonly style?: FabricStyle;
  /** Whether patches at the edge of the block carry a straight-grain arrow; they do not when absent. */
  readonly grain?: boolean;
  /** For a printer that is a little off; none when absent. */
  readonly correction?: Correction | null;
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
  /** Of a sheet of foundations: the line that says which it is, and how long it may be, inches. */
  readonly number?: { readonly line: TextMark; readonly widest: number };
  /** What the drawing, not the page, is multiplied by across and down to correct the printer; 1 when absent. */
  readonly scale?: Point;
}

export interface SheetLayout {
  readonly sheets: readonly Sheet[];
  readonly notes: readonly PrintNote[];
  /** Foundations, counting every copy. */
  readonly foundations: number;
}

/** A label may lie this far beyond the trim line at most, inches. */
const LABEL_GROWTH_IN = 1;

/** All marks of a sheet where they lie on it: what every output draws. */
export function marksOf({ parts, number, scale }: Sheet): Mark[] {
  const marks = parts.flatMap((part) => part.marks.map((mark) => placeMark(mark, part.placement)));
  if (number) marks.push(number.line);
  return scale ? marks.map((mark) => scaleMark(mark, scale)) : marks;
}

/** A sheet of foundations as a page of a file that has other pages too, all numbered through. */
export function asPage(sheet: Sheet, page: CountedPage, typeface: Typeface): Sheet {
  const among = `${page.sheet} of ${page.sheets}`;
  const inFile = `${page.page} of ${page.pages}`;
  const wordings = [`Page ${inFile} · foundations ${among}`, `Page ${inFile}`];
  return numbered(sheet, `Foundations ${among}, page ${inFile}`, wordings, typeface);
}

/** A sheet of foundations under another number. */
function numbered(sheet: Sheet, title: string, wordings: readonly string[], typeface: Typeface): Sheet {
  if (!sheet.number) return sheet;
  const { line, widest } = sheet.number;
  return { ...sheet, title, number: { line: numberLine(typeface, wordings, line.at, widest), widest } };
}

/** Which page of a file a sheet of foundations is, and which of the sheets of foundations. Counted from 1. */
export interface CountedPage {
  readonly page: number;
  readonly pages: number;
  readonly sheet: number;
  readonly sheets: number;
}

/**
 * Lays the foundations of the chosen blocks on sheets: several small ones a sheet, one larger than a sheet over
 * several with overlap. Upright or lying sheets, whichever are fewer. A plan that fails the last check is refused
 * with a note and never printed.
 * The same input gives the same sheets; `papers` keeps drawn papers for the next layout.
 */
export function layOutSheets(
  work: PrintWork,
  options: SheetOptions,
  papers: PaperStore = (request, drawNew) => drawNew(request),
): SheetLayout {
  const fault = marginFault(options.page, options.margin);
  if (fault !== null)
    return { sheets: [], foundations: 0, notes: [{ kind: 'refused', block: null, message: fault }] };
  const notes: PrintNote[] = [];
  const foundations = foundationsOf(work, options.side, options.typeface, notes);
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

  const ticksOf = new Map(work.jobs.map(({ plan }) => [plan, tickCounts(plan)]));

  // Fabrics shown by their code need a key, the key takes room, and less room can make more codes. The key only
  // grows, so this ends.
  let key: readonly string[] = [];
  // A paper is drawn again only where its room has changed.
  const drawnIn = new Map<Foundation, { readonly room: string; readonly drawn: Drawn }>();
  for (;;) {
    const bandWords = {
      project: project.text,
      printedOn: printable(options.typeface, options.printedOn, '·').text,
      side: options.side,
      key: work.project.fabrics
        .filter(({ id }) => key.includes(id))
        .map(({ id }) => keyEntry(fabrics.get(id)!))
        .concat(options.grain ? ['↔ straight grain of the fabric'] : []),
      tiles: false,
      correction: correctionOf(options),
    };
    const print = bestOrientation(foundations, options, bandWords);
    if (typeof print === 'string')
      return {
        sheets: [],
        foundations: 0,
        notes: [...notes, { kind: 'refused', block: null, message: REFUSALS[print] }],
      };
    const drawn = foundations.map((one) => {
      const room = roomOf(one, print, work.project.seamAllowance, options.side);
      const asked = JSON.stringify(room);
      const before = drawnIn.get(one);
      if (before?.room === asked) return before.drawn;
      const now = draw(one, room, fabrics, ticksOf.get(one.job.plan)!, work, options, papers);
      drawnIn.set(one, { room: asked, drawn: now });
      return now;
    });
    const coded = new Set([...key, ...drawn.flatMap(({ paper }) => paper.codedFabrics)]);
    if (coded.size > key.length) {
      key = [...coded];
      continue;
    }
    notes.push(...paperNotes(drawn, print.room));
    return {
      sheets: assemble(drawn, print, options),
      notes,
      foundations: drawn.reduce((sum, { foundation }) => sum + foundation.job.copies, 0),
    };
  }
}

/**
 * The first sheet of the first block that can be printed, laid out by itself: something to look at while the whole of
 * many papers is laid out. There the papers may share sheets in another way, so it is not what is printed, and it does
 * not say of how many it is. Null where nothing can be printed.
 */
export function firstLook(work: PrintWork, options: SheetOptions, papers?: PaperStore): Sheet | null {
  const nesting = { ...(options.nesting ?? DEFAULT_NESTING), effort: 0 };
  for (const job of work.jobs) {
    const [sheet] = layOutSheets({ ...work, jobs: [job] }, { ...options, nesting }, papers).sheets;
    if (sheet) return numbered(sheet, 'Sheet 1', ['Sheet 1'], options.typeface);
  }
  return null;
}

// ---------------------------------------------------------------- one foundation

/** The sheets of a print: how large, what their foot says, and the room above it for foundations. */
interface Print {
  readonly page: Rectangle;
  /** From the corner of the page as it is drawn, before any correction, to the foundations. */
  readonly corner: Point;
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

const scaleOf = ({ correction }: SheetOptions): Point | null =>
  correction && changesAnything(correction) ? [correction.across, correction.down] : null;

/** What every sheet says of the correction. */
const correctionOf = ({ correction, typeface }: SheetOptions): string | null =>
  correction && changesAnything(correction)
    ? correctionWords(correction, printable(typeface, correction.printer, '').text)
    : null;

/** The way to lay the page that needs the fewer sheets, upright when equal; or why neither will do. */
function bestOrientation(
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

const withHead = ({ width, height }: Rectangle): Rectangle => ({ width, height: height + TILE_HEAD_IN });

/** A box that fills itself. */
const boxShape = ({ width, height }: Rectangle): SheetShape => ({
  width,
  height,
  rings: [
    [
      [0, 0],
      [width, 0],
      [width, height],
      [0, height],
    ],
  ],
  isStraight: true,
});

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
    return (copy) => shapes.map((shape): SheetItem => ({ shape, group, copy }));
  });
  return sheetsOf(fillSheets(items, room, { ...nesting, effort: 0 }, items.length <= MOST_NESTED_TWICE));
}

/** Only papers of one group share sheets. */
const groupOf = ({ job, section }: Foundation, { together }: Nesting): string =>
  together === 'fewest' ? '' : together === 'blocks' ? job.block.id : `${job.block.id} ${section.letter}`;

/** What is made of every copy: all copies of a section one after another, or a block's sections copy by copy. */
function copiesOf<One extends { readonly job: MadeBlock }, Made>(
  all: readonly One[],
  { together }: Nesting,
  make: (one: One) => (copy: number) => readonly Made[],
): Made[] {
  if (together !== 'blocks')
    return all.flatMap((one) => {
      const made = make(one);
      return Array.from({ length: one.job.copies }, (_, i) => made(i + 1)).flat();
    });
  return [...new Set(all.map(({ job }) => job))].flatMap((job) => {
    const makers = all.filter((one) => one.job === job).map(make);
    return Array.from({ length: job.copies }, (_, i) => makers.flatMap((made) => made(i + 1))).flat();
  });
}

interface Drawn {
  readonly foundation: Foundation;
  readonly paper: Paper;
  /** Null where the paper fits on one sheet. */
  readonly division: Division | null;
}

/** Where a paper and its labels may lie, and how it is divided. */
interface PaperRoom {
  readonly labels: LabelRoom;
  /** Null where the paper fits on one sheet. */
  readonly division: Division | null;
}

function roomOf(
  { job, section, size }: Foundation,
  { room }: Print,
  allowance: number,
  side: Side,
): PaperRoom {
  if (fitsSheet(size, room)) return { division: null, labels: freeRoom(size, room) };
  const { grid, turned } = division(size, room);
  const across = turned ? { width: room.height, height: room.width } : room;
  const lines = sewnLines(job.plan, section, allowance, side);
  const clear = clearOfLines(grid, { ...across, height: across.height - TILE_HEAD_IN }, lines);
  return { division: { grid: clear, turned }, labels: tiledRoom(size, clear) };
}

function draw(
  foundation: Foundation,
  room: PaperRoom,
  fabrics: ReadonlyMap<string, FabricLabel>,
  ticks: ReadonlyMap<number, TickCount>,
  work: PrintWork,
  { side, style = 'outline', grain = false, typeface }: SheetOptions,
  papers: PaperStore,
): Drawn {
  const { job, section, blockName } = foundation;
  const request = {
    plan: job.plan,
    section: section.letter,
    blockName,
    fabrics,
    allowance: work.project.seamAllowance,
    side,
    copies: job.copies,
    unit: work.project.unit,
    room: room.labels,
    ticks,
    style,
    grain,
    typeface,
  };
  return { foundation, paper: papers(request, drawPaper), division: room.division };
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
function paperNotes(drawn: readonly Drawn[], room: Rectangle): PrintNote[] {
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
        room,
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
interface Item extends SheetItem {
  readonly foundation: Foundation;
  readonly marks: readonly Mark[];
  readonly tile: boolean;
  /** The map of its tiles, on the first of them. */
  readonly map?: readonly Mark[];
}

/** The copies of a drawn foundation as items: itself, or its tiles, each with its words over it. */
function itemsOf(
  { foundation, paper, division: divided }: Drawn,
  nesting: Nesting,
  typeface: Typeface,
): (copy: number) => readonly Item[] {
  const group = groupOf(foundation, nesting);
  // What copies have alike comes first and is made once: the very same marks, so that a file need hold them once.
  const title = (copy: number): readonly Mark[] => titleOfCopy(typeface, paper, copy);
  const shape: SheetShape = { ...paper, isStraight: false };
  if (!divided)
    return (copy) => {
      const marks = [...paper.marks, ...title(copy)];
      return [{ shape, group, foundation, copy, marks, tile: false }];
    };
  const { grid } = divided;
  const tileShape = boxShape(withHead(tileSize(paper, grid)));
  const tiles = tilesOf(paper.marks, paper, grid, typeface);
  const underHead = (mark: Mark): Mark => placeMark(mark, { at: [0, TILE_HEAD_IN], quarterTurns: 0 });
  const tileMarks = tiles.map(({ marks }) => marks.map(underHead));
  const map = captioned(
    tileMap(paper, grid, tiles, PICTURE_HIGH_IN, typeface),
    foundation.blockName,
    ` ${foundation.section.letter}: tiles`,
    typeface,
  );
  return (copy) => {
    const titleMarks = title(copy);
    return tiles.map((tile, i): Item => {
      const style = { face: 'semibold', size: 7 * PT } as const;
      const { letter } = foundation.section;
      const ofCopies = `copy ${copy} of ${foundation.job.copies}`;
      const head = tileHead(
        typeface,
        style,
        { number: i + 1, of: tiles.length, row: tile.row, column: tile.column },
        foundation.blockName,
        [`, section ${letter}, ${ofCopies}`, ` ${letter}, ${ofCopies}`, ` ${letter}`],
        tile.width,
      );
      return {
        shape: tileShape,
        group,
        foundation,
        copy,
        tile: true,
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

interface Filling {
  readonly parts: Part[];
  /** What is covered, from the corner of the sheet's room. */
  readonly taken: Ring[];
  /** Maps of tiles that begin here. */
  readonly maps: (readonly Mark[])[];
  tiles: boolean;
  /** The first of its items, in the order of the work. */
  readonly first: number;
}

function assemble(drawn: readonly Drawn[], print: Print, options: SheetOptions): readonly Sheet[] {
  const { typeface, nesting = DEFAULT_NESTING } = options;
  const { page, band, room, corner } = print;
  const items = copiesOf(
    drawn.map((one) => ({ ...one, job: one.foundation.job })),
    nesting,
    (one) => itemsOf(one, nesting, typeface),
  );
  const onSheet = ([x, y]: Point): Point => [corner[0] + x, corner[1] + y];
  const fillings: Filling[] = [];
  for (const [i, { sheet, placement }] of fillSheets(items, room, nesting).entries()) {
    const { foundation, copy, marks, tile, map, shape } = items[i]!;
    const filling = fillings[sheet] ?? { parts: [], taken: [], maps: [], tiles: false, first: i };
    fillings[sheet] = filling;
    filling.tiles ||= tile;
    if (map) filling.maps.push(map);
    filling.taken.push(...shape.rings.map((ring) => placeRing(ring, placement)));
    filling.parts.push({
      marks,
      placement: { ...placement, at: onSheet(placement.at) },
      paper: { block: foundation.job.block.id, section: foundation.section.letter, copy },
    });
  }

  // The packing goes by size; a person looks for the blocks in their order.
  fillings.sort((a, b) => a.first - b.first);

  const extra = (filling: Filling, marks: readonly Mark[], size: Rectangle): boolean => {
    const at = freeSpot(filling.taken, room, size);
    if (!at) return false;
    filling.taken.push(placeRing(boxShape(size).rings[0]!, { at, quarterTurns: 0 }));
    filling.parts.push({ marks, placement: { at: onSheet(at), quarterTurns: 0 }, paper: null });
    return true;
  };
  const lineDown = testLineDown(typeface);
  const isMeasurable = fillings.map((filling) => extra(filling, lineDown, LINE_DOWN_SIZE)).some(Boolean);
  // Where every sheet is full, the line down comes on one of its own.
  if (!isMeasurable) {
    const last: Filling = { parts: [], taken: [], maps: [], tiles: false, first: items.length };
    if (extra(last, lineDown, LINE_DOWN_SIZE)) fillings.push(last);
  }

  const pictures = new Map<string, readonly Mark[]>();
  const pictureOf = (block: string): readonly Mark[] => {
    const { job, blockName } = drawn.find(({ foundation }) => foundation.job.block.id === block)!.foundation;
    const known = pictures.get(block);
    if (known) return known;
    const picture = frontPicture(job.plan, PICTURE_IN, PICTURE_HIGH_IN, typeface);
    const drawnPicture = captioned(picture, `Front: ${blockName}`, '', typeface);
    pictures.set(block, drawnPicture);
    return drawnPicture;
  };
  const foot: Point = onSheet([0, room.height]);
  const numberAt: Point = [foot[0] + band.numberAt[0], foot[1] + band.numberAt[1]];
  const scale = scaleOf(options);
  const feet = new Map<string, readonly Mark[]>();
  const footOf = (words: Parameters<Band['draw']>[0]): readonly Mark[] => {
    const key = JSON.stringify(words);
    const drawnFoot = feet.get(key) ?? band.draw(words);
    feet.set(key, drawnFoot);
    return drawnFoot;
  };
  // Maps that found no room where their first tile lies.
  let homeless: (readonly Mark[])[] = [];
  return fillings.map((filling, i): Sheet => {
    const words = { isFirst: i === 0, tiles: filling.tiles, signs: signsOn(filling.parts) };
    const title = `Sheet ${i + 1} of ${fillings.length}`;
    const furniture: Part[] = [
      { marks: footOf(words), placement: { at: foot, quarterTurns: 0 }, paper: null },
    ];
    const blocks = [...new Set(filling.parts.flatMap(({ paper }) => paper?.block ?? []))];
    const pictureRoom = band.pictureRoom(words.isFirst);
    const fit = Math.floor((pictureRoom.width + PICTURE_GAP_IN + 1e-9) / (PICTURE_IN + PICTURE_GAP_IN));
    // The front of the first block comes first, then maps; what has no room beside the others stands among the papers.
    // Copies have one map in common; it need not stand twice on a sheet.
    const maps = [...new Set([...homeless, ...filling.maps])];
    const wanted = [...blocks.slice(0, 1).map(pictureOf), ...maps, ...blocks.slice(1).map(pictureOf)];
    const shown = wanted.slice(0, Math.max(0, fit));
    const size = { width: PICTURE_IN, height: PICTURE_HIGH_IN + CAPTION_IN };
    const left = wanted.slice(shown.length).filter((picture) => !extra(filling, picture, size));
    // A front that finds no room is left out, a map is needed.
    homeless = maps.filter((map) => left.includes(map));
    shown.forEach((picture, k) => {
      const x =
        foot[0] +
        pictureRoom.x +
        pictureRoom.width -
        (shown.length - k) * (PICTURE_IN + PICTURE_GAP_IN) +
        PICTURE_GAP_IN;
      furniture.push({
        marks: picture,
        placement: { at: [x, foot[1] + pictureRoom.y], quarterTurns: 0 },
        paper: null,
      });
    });
    return {
      width: page.width,
      height: page.height,
      title,
      parts: [...filling.parts, ...furniture],
      number: { line: numberLine(typeface, [title], numberAt, band.numberWidth), widest: band.numberWidth },
      ...(scale ? { scale } : {}),
    };
  });
}

const placeRing = (ring: Ring, { at, quarterTurns }: Placement): Ring =>
  ring.map((point): Point => {
    const [x, y] = turnedByQuarters(point, quarterTurns);
    return [at[0] + x, at[1] + y];
  });

/** The signs that the key explains, where they stand on papers: codes of fabrics, and `↔` for straight-grain arrows. */
function signsOn(parts: readonly Part[]): readonly string[] {
  const signs = new Set<string>();
  for (const { marks } of parts)
    for (const mark of marks) {
      const code = mark.kind === 'text' ? /(?:^| )(#\d+)$/.exec(mark.text)?.[1] : undefined;
      if (code !== undefined) signs.add(code);
      else if (mark.kind === 'line' && mark.pen === 'grain') signs.add('↔');
    }
  return [...signs].sort();
}

/** Width and height of the room of a small picture, of its caption under it, and the space between two, inches. */
const PICTURE_IN = 0.95;
const PICTURE_HIGH_IN = 0.89;
const CAPTION_IN = 0.13;
const PICTURE_GAP_IN = 0.16;

/** A small picture with its caption under it: a text, shortened where it is too long, and what follows it. */
function captioned(picture: readonly Mark[], text: string, end: string, typeface: Typeface): readonly Mark[] {
  const line = { text, face: 'regular', size: SMALLEST_PT * PT } as const;
  const room = PICTURE_IN - lengthOf(typeface, { ...line, text: end });
  const caption = stack(typeface, [[`${shortened(typeface, line, room)}${end}`, 'regular', SMALLEST_PT]]);
  const foot = PICTURE_HIGH_IN + CAPTION_IN - caption.height / 2;
  return [...picture, ...blockMarks(caption, [PICTURE_IN / 2, foot])];
}

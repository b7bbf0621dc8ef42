import regularUrl from '@expo-google-fonts/source-sans-3/400Regular/SourceSans3_400Regular.ttf?url';
import semiboldUrl from '@expo-google-fonts/source-sans-3/600SemiBold/SourceSans3_600SemiBold.ttf?url';
import { expose, transfer } from 'comlink';
import type { Block } from '../document/project.ts';
import { type Booklet, firstPage, layOutBooklet } from '../foundations/booklet/booklet.ts';
import type { PageSetting } from '../foundations/booklet/flow.ts';
import type { BookletPart } from '../foundations/booklet/parts.ts';
import { toSvg } from '../foundations/files/svg.ts';
import { type ZipEntry, zipOf } from '../foundations/files/zip.ts';
import { drawingStore } from '../foundations/foundation/store.ts';
import type { PrintNote, PrintWork } from '../foundations/print-work.ts';
import type { FittingJoins } from '../foundations/sheet/joins-that-fit.ts';
import { firstLook, layOutSheets } from '../foundations/sheet/layout.ts';
import type { Rectangle } from '../foundations/sheet/level-packing.ts';
import type { SheetLayout, SheetOptions } from '../foundations/sheet/sheet.ts';
import type { Side } from '../foundations/side.ts';
import {
  type FontFiles,
  type FullTypeface,
  openTypeface,
  suffices,
  type Typeface,
} from '../foundations/type/typeface.ts';
import type { PieceOptions } from '../piecing/options.ts';
import type { QuiltPrint } from '../quilt/papers/quilt-sheets.ts';
import type { SewPrint } from '../rounds/pages/sew-print.ts';
import { phrase } from '../words/phrase.ts';
import { withSystemLetters } from './system-letters.ts';

/** What is to be laid out: plain data, so that it can be handed to the worker. */
export interface PrintOrder extends Omit<SheetOptions, 'typeface'> {
  readonly work: PrintWork;
  /** What of it is printed; the foundations alone when absent. */
  readonly parts?: readonly BookletPart[];
}

/** What is printed of a quilt: plain data. */
export interface QuiltOrder
  extends Omit<QuiltPrint, 'setting'>,
    Pick<PageSetting, 'page' | 'margin' | 'printedOn'> {}

/** What is printed of what is in work: plain data. */
export interface SewOrder
  extends Omit<SewPrint, 'setting'>,
    Pick<PageSetting, 'page' | 'margin' | 'printedOn'> {}

/**
 * How far a layout has come: the whole; its first sheet alone, as it will be; or a first look at a sheet on which papers
 * may yet lie otherwise.
 */
export type Stage = 'whole' | 'first' | 'look';

/** A layout without its drawings, which stay with the worker. */
export interface LaidOut {
  /** Names this layout to `svg` and `pdf`; a later one makes it stale. */
  readonly number: number;
  readonly sheets: readonly { readonly width: number; readonly height: number; readonly title: string }[];
  readonly notes: readonly PrintNote[];
  readonly foundations: number;
  /** The drawing of the first sheet, so that it can be shown while others are laid out. */
  readonly firstSvg: string;
  readonly stage: Stage;
  /** As they were ordered. */
  readonly parts: ReadonlySet<BookletPart>;
  readonly side: Side;
}

/** One file for all that is laid out, as an archive: a PDF a block, or a drawing a sheet. */
export type ZipKind = 'pdf-a-block' | 'svg-a-sheet' | 'png-a-sheet';

/** Dots to the inch of pictures: what a laser printer lays down at least. */
const PICTURE_DPI = 300;

/** What lays out plain texts; needs nothing that has to be loaded. */
const plain = openTypeface();
let full: Promise<FullTypeface> | null = null;
let wider: Promise<FullTypeface> | null = null;
let number = 0;
let order: PrintOrder | null = null;
let booklet: Booklet | null = null;
let isStopped = false;
/** Counts what is prepared and what stops it. */
let preparation = 0;

/** Papers as they were drawn for any order. */
const papers = drawingStore();

/** The foundations laid out last, and the order they were laid out for, as text. */
let kept: { readonly order: string; readonly layout: SheetLayout } | null = null;

const bytesOf = async (url: string): Promise<Uint8Array> => {
  const answer = await fetch(url);
  if (!answer.ok) throw new Error('The printing typeface could not be loaded.');
  return new Uint8Array(await answer.arrayBuffer());
};

/** The name of the faces on a canvas of this worker. */
const FAMILY = 'Underpaper print';

/** Makes the faces known to canvases, for texts that need letters of other fonts too. Does without where it fails. */
async function nameFaces({ regular, semibold }: FontFiles): Promise<void> {
  try {
    const { fonts } = globalThis as unknown as { readonly fonts: FontFaceSet };
    for (const [bytes, weight] of [
      [regular, '400'],
      [semibold, '600'],
    ] as const)
      fonts.add(await new FontFace(FAMILY, bytes.slice().buffer, { weight }).load());
  } catch {
    // An older browser: its own sans-serif stands in.
  }
}

/** The typeface with its fonts, for what is written. */
function loadFull(): Promise<FullTypeface> {
  full ??= Promise.all([
    import('../foundations/type/fonts.ts'),
    bytesOf(regularUrl),
    bytesOf(semiboldUrl),
  ]).then(
    ([{ withShaping }, regular, semibold]) => withShaping(plain, { regular, semibold }),
    (thrown: unknown) => {
      // Tried again at the next order.
      full = null;
      throw thrown;
    },
  );
  return full;
}

/** The typeface for names with letters it lacks, or that are more than letters one after another. */
function loadWider(): Promise<FullTypeface> {
  wider ??= loadFull().then(
    async (typeface) => {
      await nameFaces(typeface.files);
      return withSystemLetters(typeface, FAMILY);
    },
    (thrown: unknown) => {
      wider = null;
      throw thrown;
    },
  );
  return wider;
}

function isPlainOrder({ work: { project }, correction, printedOn }: PrintOrder): boolean {
  const names = [
    project.name,
    printedOn,
    correction?.printer ?? '',
    ...[...project.blocks, ...project.fabrics].map(({ name }) => name),
  ];
  return names.every((name) => suffices(plain, name));
}

/** The typeface that an order is laid out in. What both can set they set alike, so drawn papers serve either. */
const typefaceFor = async (wanted: PrintOrder): Promise<Typeface> =>
  isPlainOrder(wanted) ? plain : loadWider();

/** The typeface that an order is written in. */
const fullFor = (wanted: PrintOrder): Promise<FullTypeface> =>
  isPlainOrder(wanted) ? loadFull() : loadWider();

/** Lets messages that wait, such as the wish to stop, come in between two sheets. */
const breathe = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

const partsOf = ({ parts }: PrintOrder): ReadonlySet<BookletPart> => new Set(parts ?? ['foundations']);

/** Lays out foundations, or gives those laid out before when nothing that bears on them has changed. */
function foundationsKept(work: PrintWork, { typeface: set, ...options }: SheetOptions): SheetLayout {
  const asked = JSON.stringify([work, options]);
  if (kept?.order !== asked)
    kept = { order: asked, layout: layOutSheets(work, { ...options, typeface: set }, papers) };
  return kept.layout;
}

/** What the screen is told of a layout, which gets a number of its own. */
function announced({ sheets, notes, foundations }: Booklet, stage: Stage = 'whole'): LaidOut {
  number++;
  const of = ordered();
  return {
    number,
    sheets: sheets.map(({ width, height, title }) => ({ width, height, title })),
    notes,
    foundations,
    firstSvg: sheets[0] ? toSvg(sheets[0]) : '',
    stage,
    parts: partsOf(of),
    side: of.side,
  };
}

async function setFor(wanted: PrintOrder): Promise<SheetOptions> {
  const { work: _, parts: __, ...options } = wanted;
  return { ...options, typeface: await typefaceFor(wanted) };
}

/** What was ordered last. */
function ordered(): PrintOrder {
  if (!order) throw new Error('Nothing has been laid out yet.');
  return order;
}

async function layOutWhole(wanted: PrintOrder): Promise<LaidOut> {
  const options = await setFor(wanted);
  order = wanted;
  booklet = layOutBooklet(wanted.work, options, partsOf(wanted), foundationsKept);
  return announced(booklet);
}

/** More papers than this are only laid on sheets when they are asked for. */
const MOST_PREPARED = 600;

/** More papers than this take long enough to be laid out for a first look to be worth while. */
const MOST_AT_ONCE = 24;

const papersOf = ({ work }: PrintOrder): number =>
  work.jobs.reduce((sum, { plan, copies }) => sum + plan.sections.length * copies, 0);

class Stopped extends Error {}

/** Tells the progress, some thirty times for any length, and stops when it is wished. */
function progress(onStep: (done: number, of: number) => void) {
  let next = 0;
  return async (done: number, of: number): Promise<void> => {
    if (done >= next) {
      onStep(done, of);
      next = done + Math.max(1, Math.floor(of / 30));
      await breathe();
    }
    if (isStopped) throw new Stopped();
  };
}

async function unlessStopped(write: () => Promise<Uint8Array>): Promise<Uint8Array | null> {
  isStopped = false;
  try {
    const bytes = await write();
    // Handed over, not copied: an archive of pictures may be large.
    return transfer(bytes, [bytes.buffer]);
  } catch (thrown) {
    if (thrown instanceof Stopped) return null;
    throw thrown;
  }
}

async function* drawings(
  kind: 'svg-a-sheet' | 'png-a-sheet',
  before: (done: number, of: number) => Promise<void>,
): AsyncGenerator<ZipEntry> {
  const sheets = booklet?.sheets ?? [];
  const [{ paintSheet }, { toLayeredSvg }, typeface] = await Promise.all([
    import('../foundations/files/raster.ts'),
    import('../foundations/files/layered-svg.ts'),
    fullFor(ordered()),
  ]);
  const digits = String(sheets.length).length;
  for (const [i, sheet] of sheets.entries()) {
    await before(i, sheets.length);
    const name = `sheet-${String(i + 1).padStart(digits, '0')}`;
    if (kind === 'svg-a-sheet') {
      yield {
        name: `${name}.svg`,
        bytes: new TextEncoder().encode(toLayeredSvg(sheet, typeface)),
        isPacked: false,
      };
      continue;
    }
    const canvas = new OffscreenCanvas(
      Math.round(sheet.width * PICTURE_DPI),
      Math.round(sheet.height * PICTURE_DPI),
    );
    const context = canvas.getContext('2d');
    if (!context) throw new Error('This browser could not make room for a picture of that size.');
    paintSheet(context, sheet, typeface, PICTURE_DPI);
    const picture = await canvas.convertToBlob({ type: 'image/png' });
    yield { name: `${name}.png`, bytes: new Uint8Array(await picture.arrayBuffer()), isPacked: true };
  }
}

const printer = {
  /**
   * Lays out an order that may be asked for, block by block so that it can be stopped; the papers that are drawn by
   * then are kept. Null when it was stopped, or is better laid out when it is asked for.
   */
  async prepare(wanted: PrintOrder): Promise<LaidOut | null> {
    const mine = ++preparation;
    const options = await setFor(wanted);
    const { work } = wanted;
    for (const job of partsOf(wanted).has('foundations') && work.jobs.length > 1 ? work.jobs : []) {
      await breathe();
      if (mine !== preparation) return null;
      layOutSheets({ ...work, jobs: [job] }, options, papers);
    }
    await breathe();
    return mine !== preparation || papersOf(wanted) > MOST_PREPARED ? null : layOutWhole(wanted);
  },

  stopPreparing(): void {
    preparation++;
  },

  /**
   * The first sheet of an order where that is certain before the whole is laid out, or where it is not, and many papers
   * are to be laid, a first look; else the whole.
   */
  async begin(wanted: PrintOrder): Promise<LaidOut> {
    const options = await setFor(wanted);
    const parts = partsOf(wanted);
    const certain = firstPage(wanted.work, options, parts);
    const isLong = parts.size === 1 && parts.has('foundations') && papersOf(wanted) > MOST_AT_ONCE;
    const first = certain ?? (isLong ? firstLook(wanted.work, options, papers) : null);
    if (!first) return layOutWhole(wanted);
    order = wanted;
    booklet = { sheets: [first], notes: [], foundations: 0, bookmarks: [] };
    return announced(booklet, certain ? 'first' : 'look');
  },

  /** The whole of what was begun. */
  async finish(): Promise<LaidOut> {
    return layOutWhole(ordered());
  },

  /** One sheet of a layout as SVG, counted from 0; empty when the layout is stale. */
  svg(layout: number, sheet: number): string {
    const drawn = layout === number ? booklet?.sheets[sheet] : undefined;
    return drawn ? toSvg(drawn) : '';
  },

  /** The sheets laid out last as a PDF file; null when it was stopped on the way. */
  pdf(
    title: string,
    createdAt: Date,
    onSheet: (done: number, of: number) => void,
  ): Promise<Uint8Array | null> {
    return unlessStopped(async () => {
      const [{ toPdf }, typeface] = await Promise.all([
        import('../foundations/files/pdf.ts'),
        fullFor(ordered()),
      ]);
      return toPdf(booklet?.sheets ?? [], typeface, {
        title,
        createdAt,
        bookmarks: booklet?.bookmarks ?? [],
        beforeSheet: progress(onSheet),
      });
    });
  },

  /** Pages of the quilt as a PDF file; null when it was stopped on the way. */
  quiltPdf(
    order: QuiltOrder,
    createdAt: Date,
    onSheet: (done: number, of: number) => void,
  ): Promise<Uint8Array | null> {
    return unlessStopped(async () => {
      const { project, page, margin, printedOn } = order;
      const names = [project.name, ...[...project.blocks, ...project.fabrics].map(({ name }) => name)];
      const isPlain = names.every((name) => suffices(plain, name));
      const [{ toPdf }, { quiltSheets }, typeface] = await Promise.all([
        import('../foundations/files/pdf.ts'),
        import('../quilt/papers/quilt-sheets.ts'),
        isPlain ? loadFull() : loadWider(),
      ]);
      const setting = { page, margin, side: 'front', typeface, project: project.name, printedOn } as const;
      return toPdf(quiltSheets({ ...order, setting }), typeface, {
        title: phrase('{project}, quilt', { project: project.name }),
        createdAt,
        beforeSheet: progress(onSheet),
      });
    });
  },

  /** Pages to have beside the machine as a PDF file; null when it was stopped on the way. */
  sewPdf(
    order: SewOrder,
    createdAt: Date,
    onSheet: (done: number, of: number) => void,
  ): Promise<Uint8Array | null> {
    return unlessStopped(async () => {
      const { project, work, page, margin, printedOn } = order;
      const names = [project.name, ...[...work.blocks, ...project.fabrics].map(({ name }) => name)];
      const isPlain = names.every((name) => suffices(plain, name));
      const [{ toPdf }, { sewSheets }, typeface] = await Promise.all([
        import('../foundations/files/pdf.ts'),
        import('../rounds/pages/sew-sheets.ts'),
        isPlain ? loadFull() : loadWider(),
      ]);
      const setting = { page, margin, side: 'front', typeface, project: project.name, printedOn } as const;
      return toPdf(sewSheets({ ...order, setting }), typeface, {
        title: phrase('{project}, at the machine', { project: project.name }),
        createdAt,
        beforeSheet: progress(onSheet),
      });
    });
  },

  /** What was laid out last as an archive; null when it was stopped on the way. */
  zip(
    kind: ZipKind,
    createdAt: Date,
    onStep: (done: number, of: number) => void,
  ): Promise<Uint8Array | null> {
    return unlessStopped(async () => {
      const before = progress(onStep);
      if (kind !== 'pdf-a-block') return zipOf(drawings(kind, before), createdAt);
      const wanted = ordered();
      const { blockPdfs } = await import('../foundations/files/block-files.ts');
      return zipOf(
        blockPdfs(
          wanted.work,
          { ...(await setFor(wanted)), typeface: await fullFor(wanted) },
          partsOf(wanted),
          {
            createdAt,
            beforeSheet: before,
          },
        ),
        createdAt,
      );
    });
  },

  /** Which cuts of a block to mark as joins so that every foundation fits on a sheet; null where none would do. */
  async joinsThatFit(
    block: Block,
    room: Rectangle,
    allowance: number,
    options: PieceOptions,
  ): Promise<FittingJoins | null> {
    const { joinsThatFit } = await import('../foundations/sheet/joins-that-fit.ts');
    return joinsThatFit(block, room, allowance, options);
  },

  stop(): void {
    isStopped = true;
  },
};

export type SheetPrinter = typeof printer;

expose(printer);

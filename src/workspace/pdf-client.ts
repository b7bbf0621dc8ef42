import { proxy, type Remote } from 'comlink';
import type { Block } from '../document/project.ts';
import type { FittingJoins } from '../foundations/sheet/joins-that-fit.ts';
import type { Rectangle } from '../foundations/sheet/level-packing.ts';
import type { PieceOptions } from '../piecing/options.ts';
import { phrase } from '../words/phrase.ts';
import { drawingOf } from './drawing-of.ts';
import type { LaidOut, PrintOrder, QuiltOrder, SewOrder, SheetPrinter, ZipKind } from './pdf-worker.ts';
import { handOf, startWorker } from './worker-hand.ts';

export type { LaidOut, PrintOrder, ZipKind } from './pdf-worker.ts';

let printer: Remote<SheetPrinter> | null = null;

/** Starts the worker, so that its program and typeface are there when sheets are asked for. */
export function startPrinter(): void {
  theWorker();
}

/** The worker that lays out and writes sheets, started when first needed. The main thread stays free for the hand. */
function theWorker(): Remote<SheetPrinter> {
  printer ??= handOf<SheetPrinter>(startWorker('sheets'), () => {
    printer = null;
    last = null;
  });
  return printer;
}

/**
 * What the worker is sent: the drawings of the blocks that are printed, without the pictures laid under them. Of the
 * others only that they are there.
 */
function sent({ work, ...rest }: PrintOrder): PrintOrder {
  const printed = new Map(work.jobs.map(({ block }) => [block.id, drawingOf(block)]));
  const blocks = work.project.blocks.map(
    (block) => printed.get(block.id) ?? { ...drawingOf(block), outline: [], cuts: [] },
  );
  return {
    ...rest,
    work: {
      project: { ...work.project, blocks },
      jobs: work.jobs.map((job) => ({ ...job, block: printed.get(job.block.id)! })),
    },
  };
}

let running: Promise<unknown> = Promise.resolve();
let wanted = 0;

/** What the worker has laid out last, and the order it is of. */
let last: { readonly order: PrintOrder; readonly layout: LaidOut } | null = null;

/** The order that is laid out before anyone asks for it. */
let preparing: PrintOrder | null = null;

/** The layout of an order where it is there already. */
export const layoutAtHand = (order: PrintOrder): LaidOut | null =>
  last?.order === order ? last.layout : null;

/**
 * Lays out an order that is likely to be asked for, in the worker's own time. The first also gets the worker
 * started. Fails in silence: a real order will tell.
 */
export function prepare(order: PrintOrder): void {
  if (preparing === order || layoutAtHand(order)) return;
  stopPreparing();
  preparing = order;
  const laidOut = running
    .catch(() => undefined)
    .then(() => {
      if (preparing !== order) return null;
      last = null;
      return theWorker().prepare(sent(order));
    })
    .then((layout) => {
      if (preparing !== order) return;
      preparing = null;
      if (layout) last = { order, layout };
    });
  running = laidOut;
  laidOut.catch(() => {
    if (preparing === order) preparing = null;
  });
}

/** Stops preparing, as when the drawing goes on: the worker rests after the block it is at. */
export function stopPreparing(): void {
  if (preparing === null) return;
  preparing = null;
  printer?.stopPreparing().catch(() => undefined);
}

/**
 * Lays out an order. `onFirst` is given a first sheet, or a first look at one, where the whole takes longer. While
 * one is being laid out only the latest of those that came meanwhile is kept; the others settle as null.
 */
export async function layOut(
  order: PrintOrder,
  onFirst: (first: LaidOut) => void = () => undefined,
): Promise<LaidOut | null> {
  const mine = ++wanted;
  if (preparing !== order) stopPreparing();
  await running.catch(() => undefined);
  if (mine !== wanted) return null;
  const known = layoutAtHand(order);
  if (known) return known;
  last = null;
  const begun = theWorker().begin(sent(order));
  running = begun;
  let layout = await begun;
  if (mine !== wanted) return null;
  if (layout.stage !== 'whole') {
    // The sheet is drawn while the worker goes on.
    onFirst(layout);
    const finished = theWorker().finish();
    running = finished;
    layout = await finished;
  }
  last = { order, layout };
  return layout;
}

/** One sheet as SVG text, counted from 0; empty when the layout has been replaced. */
export const sheetSvg = (layout: number, sheet: number): Promise<string> => theWorker().svg(layout, sheet);

/** Writes the sheets laid out last; null when `stopPdf` came first. */
export async function makePdf(
  title: string,
  onSheet: (done: number, of: number) => void,
): Promise<Blob | null> {
  const bytes = await theWorker().pdf(title, new Date(), proxy(onSheet));
  return bytes && new Blob([bytes as Uint8Array<ArrayBuffer>], { type: 'application/pdf' });
}

/** Writes pages of a quilt; null when `stopPdf` came first. Drawings go without the pictures laid under them. */
export async function makeQuiltPdf(
  order: QuiltOrder,
  onSheet: (done: number, of: number) => void,
): Promise<Blob | null> {
  const project = { ...order.project, blocks: order.project.blocks.map(drawingOf) };
  const bytes = await theWorker().quiltPdf({ ...order, project }, new Date(), proxy(onSheet));
  return bytes && new Blob([bytes as Uint8Array<ArrayBuffer>], { type: 'application/pdf' });
}

/** Writes pages of what is in work; null when `stopPdf` came first. Drawings go without the pictures laid under them. */
export async function makeSewPdf(
  order: SewOrder,
  onSheet: (done: number, of: number) => void,
): Promise<Blob | null> {
  const project = { ...order.project, blocks: order.project.blocks.map(drawingOf) };
  const bytes = await theWorker().sewPdf({ ...order, project }, new Date(), proxy(onSheet));
  return bytes && new Blob([bytes as Uint8Array<ArrayBuffer>], { type: 'application/pdf' });
}

/** Writes what was laid out last as an archive; null when `stopPdf` came first. */
export async function makeZip(
  kind: ZipKind,
  onStep: (done: number, of: number) => void,
): Promise<Blob | null> {
  const bytes = await theWorker().zip(kind, new Date(), proxy(onStep));
  return bytes && new Blob([bytes as Uint8Array<ArrayBuffer>], { type: 'application/zip' });
}

/** Which cuts to mark as joins so that a block's foundations fit on sheets, see `joinsThatFit`. */
export const findFittingJoins = (
  block: Block,
  room: Rectangle,
  allowance: number,
  options: PieceOptions,
): Promise<FittingJoins | null> => theWorker().joinsThatFit(drawingOf(block), room, allowance, options);

/** Stops the writing after the sheet it is at. */
export function stopPdf(): void {
  void theWorker().stop();
}

/**
 * Opens the browser's print dialogue for a PDF in a hidden frame, or opens the file itself where the browser shows
 * no PDF in frames. The frame stays until the next print, since the dialogue needs it.
 */
export function printPdf(pdf: Blob): void {
  const url = URL.createObjectURL(pdf);
  if (navigator.pdfViewerEnabled === false) {
    window.open(url, '_blank');
    return;
  }
  document.getElementById(FRAME_ID)?.remove();
  const frame = document.createElement('iframe');
  frame.id = FRAME_ID;
  frame.title = phrase('Sheets being printed');
  frame.style.cssText = 'position:fixed;inset:auto 0 0 auto;width:1px;height:1px;border:0;opacity:0';
  frame.addEventListener('load', () => {
    try {
      frame.contentWindow?.focus();
      frame.contentWindow?.print();
    } catch {
      window.open(url, '_blank');
    }
  });
  frame.src = url;
  document.body.append(frame);
}

const FRAME_ID = 'print-frame';

import { proxy, type Remote, wrap } from 'comlink';
import type { LaidOut, PrintOrder, SheetPrinter } from './pdf-worker.ts';

export type { LaidOut, PrintOrder } from './pdf-worker.ts';

let printer: Remote<SheetPrinter> | null = null;

/** The worker that lays out and writes sheets, started when first needed. The main thread stays free for the hand. */
function theWorker(): Remote<SheetPrinter> {
  printer ??= wrap<SheetPrinter>(
    new Worker(new URL('./pdf-worker.ts', import.meta.url), { type: 'module', name: 'sheets' }),
  );
  return printer;
}

let running: Promise<unknown> = Promise.resolve();
let wanted = 0;

/**
 * Lays out an order. While one is being laid out only the latest of those that came meanwhile is kept; the others
 * settle as null.
 */
export async function layOut(order: PrintOrder): Promise<LaidOut | null> {
  const mine = ++wanted;
  await running.catch(() => undefined);
  if (mine !== wanted) return null;
  const laidOut = theWorker().layOut(order);
  running = laidOut;
  return laidOut;
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
  frame.title = 'Sheets being printed';
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

import regularUrl from '@expo-google-fonts/source-sans-3/400Regular/SourceSans3_400Regular.ttf?url';
import semiboldUrl from '@expo-google-fonts/source-sans-3/600SemiBold/SourceSans3_600SemiBold.ttf?url';
import { expose } from 'comlink';
import type { Page } from '../foundations/pages.ts';
import type { Side } from '../foundations/paper.ts';
import { toPdf } from '../foundations/pdf.ts';
import type { PrintNote, PrintWork } from '../foundations/print-work.ts';
import { layOutSheets, type Sheet } from '../foundations/sheets.ts';
import { toSvg } from '../foundations/svg.ts';
import { openTypeface, type Typeface } from '../foundations/typeface.ts';

/** What is to be laid out: plain data, so that it can be handed to the worker. */
export interface PrintOrder {
  readonly work: PrintWork;
  readonly page: Page;
  /** Inches. */
  readonly margin: number;
  readonly side: Side;
  /** The day, written out. */
  readonly printedOn: string;
}

/** A layout without its drawings, which stay with the worker. */
export interface LaidOut {
  /** Names this layout to `svg` and `pdf`; a later one makes it stale. */
  readonly number: number;
  readonly sheets: readonly { readonly width: number; readonly height: number; readonly title: string }[];
  readonly notes: readonly PrintNote[];
  readonly foundations: number;
}

let typeface: Promise<Typeface> | null = null;
let number = 0;
let sheets: readonly Sheet[] = [];
let isStopped = false;

const bytesOf = async (url: string): Promise<Uint8Array> => {
  const answer = await fetch(url);
  if (!answer.ok) throw new Error('The printing typeface could not be loaded.');
  return new Uint8Array(await answer.arrayBuffer());
};

function loadTypeface(): Promise<Typeface> {
  typeface ??= Promise.all([bytesOf(regularUrl), bytesOf(semiboldUrl)]).then(
    ([regular, semibold]) => openTypeface({ regular, semibold }),
    (thrown: unknown) => {
      // Tried again at the next order.
      typeface = null;
      throw thrown;
    },
  );
  return typeface;
}

/** Lets messages that wait, such as the wish to stop, come in between two sheets. */
const breathe = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

const printer = {
  async layOut(order: PrintOrder): Promise<LaidOut> {
    const layout = layOutSheets(order.work, { ...order, typeface: await loadTypeface() });
    sheets = layout.sheets;
    number++;
    return {
      number,
      sheets: sheets.map(({ width, height, title }) => ({ width, height, title })),
      notes: layout.notes,
      foundations: layout.foundations,
    };
  },

  /** One sheet of a layout as SVG, counted from 0; empty when the layout is stale. */
  svg(layout: number, sheet: number): string {
    const drawn = layout === number ? sheets[sheet] : undefined;
    return drawn ? toSvg(drawn) : '';
  },

  /** The sheets laid out last as a PDF file; null when it was stopped on the way. */
  async pdf(
    title: string,
    createdAt: Date,
    onSheet: (done: number, of: number) => void,
  ): Promise<Uint8Array | null> {
    isStopped = false;
    const stopped = new Error('stopped');
    let told = 0;
    try {
      return await toPdf(sheets, await loadTypeface(), {
        title,
        createdAt,
        beforeSheet: async (done, of) => {
          // Some thirty reports are enough for any length.
          if (done >= told) {
            onSheet(done, of);
            told = done + Math.max(1, Math.floor(of / 30));
            await breathe();
          }
          if (isStopped) throw stopped;
        },
      });
    } catch (thrown) {
      if (thrown === stopped) return null;
      throw thrown;
    }
  },

  stop(): void {
    isStopped = true;
  },
};

export type SheetPrinter = typeof printer;

expose(printer);

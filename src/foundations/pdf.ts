import PDFDocument from 'pdfkit';
import type { Point } from '../geometry/point.ts';
import type { Bookmark } from './booklet-parts.ts';
import { type Mark, PENS, type PenName, PT, type TextMark } from './marks.ts';
import { greyPng } from './png.ts';
import { marksOf, type Sheet } from './sheets.ts';
import { FACES, type Typeface } from './typeface.ts';

/** A moment as the PDF library wants it; made by the caller, since nothing here reads a clock. */
type Moment = NonNullable<PDFKit.DocumentInfo['CreationDate']>;

export interface PdfInfo {
  readonly title: string;
  readonly createdAt: Moment;
  /** The outline that viewers show beside the sheets (ISO 32000-1 12.3.3); none when absent or empty. */
  readonly bookmarks?: readonly Bookmark[];
  /**
   * Called before each sheet and awaited, so that the caller can show progress and let other work run. What it
   * throws stops the writing and comes out of `toPdf`.
   */
  readonly beforeSheet?: (done: number, of: number) => Promise<void> | void;
}

/** The parts of the PDF library's document that its published types leave out. */
interface Internals {
  readonly _root: { readonly data: Record<string, unknown> };
  addContent(operators: string): unknown;
}

/**
 * The sheets as a PDF 1.7 file: exact page sizes, vector lines, the two faces embedded as subsets, and viewers
 * asked for no scaling (ViewerPreferences /PrintScaling /None, ISO 32000-1 12.2). 1 in is 72 units of default
 * user space (8.3.2.3). The same sheets, typeface and info give the same bytes.
 */
export async function toPdf(
  sheets: readonly Sheet[],
  typeface: Typeface,
  info: PdfInfo,
): Promise<Uint8Array> {
  const pdf = new PDFDocument({
    autoFirstPage: false,
    pdfVersion: '1.7',
    compress: true,
    lang: 'en',
    // No standard font: everything is set in the embedded one.
    font: null as unknown as string,
    info: { Title: info.title, Creator: 'Underpaper', CreationDate: info.createdAt },
  });
  const internals = pdf as unknown as Internals;
  internals._root.data.ViewerPreferences = pdf.ref({ PrintScaling: 'None', DisplayDocTitle: true });
  for (const face of FACES)
    pdf.registerFont(face, typeface.fonts[face] as unknown as PDFKit.Mixins.PDFFontSource);
  const written = collected(pdf);

  for (const [i, sheet] of sheets.entries()) {
    await info.beforeSheet?.(i, sheets.length);
    pdf.addPage({ size: [sheet.width / PT, sheet.height / PT], margin: 0 });
    drawSheet(pdf, internals, marksOf(sheet), typeface);
  }
  addBookmarks(pdf.outline, info.bookmarks ?? []);
  pdf.end();
  return written;
}

function addBookmarks(outline: PDFKit.PDFOutline, bookmarks: readonly Bookmark[]): void {
  for (const { title, sheet, within } of bookmarks) {
    // The published types leave out the option for a page other than the last.
    const options = { expanded: true, fit: true, pageNumber: sheet } as { readonly expanded: boolean };
    addBookmarks(outline.addItem(title, options), within);
  }
}

function drawSheet(
  pdf: PDFKit.PDFDocument,
  { addContent }: Internals,
  marks: readonly Mark[],
  typeface: Typeface,
): void {
  for (const mark of marks) {
    if (mark.kind !== 'polygon' || mark.fill === undefined) continue;
    pdf.save();
    trace(pdf, mark);
    pdf.fill(mark.fill).restore();
  }
  for (const pen of Object.keys(PENS) as PenName[]) {
    const own = marks.filter(
      (mark): mark is Exclude<Mark, TextMark> => mark.kind !== 'text' && mark.pen === pen,
    );
    const strokes = own.filter((mark) => !(mark.kind === 'circle' && mark.filled));
    const dots = own.filter((mark) => mark.kind === 'circle' && mark.filled);
    const { width, dash, grey } = PENS[pen];
    if (strokes.length > 0) {
      pdf
        .save()
        .lineWidth(width / PT)
        .lineJoin('miter')
        .lineCap(dash.length > 0 ? 'butt' : 'round');
      addContent.call(pdf, `${grey} G`);
      if (dash.length > 0) pdf.dash(dash.map((length) => length / PT) as unknown as number, {});
      for (const mark of strokes) trace(pdf, mark);
      pdf.stroke().restore();
    }
    if (dots.length > 0) {
      pdf.save();
      addContent.call(pdf, `${grey} g`);
      for (const mark of dots) trace(pdf, mark);
      pdf.fill().restore();
    }
  }
  for (const mark of marks) {
    if (mark.kind === 'text' && mark.text !== '') write(pdf, mark, typeface);
  }
}

function trace(pdf: PDFKit.PDFDocument, mark: Exclude<Mark, TextMark>): void {
  const follow = ([first, ...rest]: readonly Point[]): void => {
    pdf.moveTo(first![0] / PT, first![1] / PT);
    for (const [x, y] of rest) pdf.lineTo(x / PT, y / PT);
  };
  switch (mark.kind) {
    case 'line':
      follow(mark.points);
      break;
    case 'polygon':
      follow(mark.ring);
      pdf.closePath();
      break;
    case 'circle':
      pdf.circle(mark.at[0] / PT, mark.at[1] / PT, mark.radius / PT);
      break;
  }
}

function write(pdf: PDFKit.PDFDocument, { at, turn, face, size, text }: TextMark, typeface: Typeface): void {
  const picture = typeface.picture?.(text, face, size);
  if (picture) {
    const { width, height, dpi, left, up, grey } = picture;
    const png = greyPng(width, height, grey);
    pdf
      .save()
      .translate(at[0] / PT, at[1] / PT)
      .rotate(turn)
      .image(png.buffer as ArrayBuffer, -left / PT, -up / PT, {
        width: width / dpi / PT,
        height: height / dpi / PT,
      })
      .restore();
    return;
  }
  pdf.font(face).fontSize(size / PT);
  const [x, y] = [at[0] / PT, at[1] / PT];
  const options: PDFKit.Mixins.TextOptions = { lineBreak: false, baseline: 'alphabetic' };
  if (turn === 0) pdf.text(text, x, y, options);
  else pdf.save().translate(x, y).rotate(turn).text(text, 0, 0, options).restore();
}

/** All bytes the document writes until it ends. */
function collected(pdf: PDFKit.PDFDocument): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = [];
    let length = 0;
    pdf.on('data', (chunk: Uint8Array) => {
      chunks.push(chunk);
      length += chunk.byteLength;
    });
    pdf.on('error', reject);
    pdf.on('end', () => {
      const bytes = new Uint8Array(length);
      let at = 0;
      for (const chunk of chunks) {
        bytes.set(chunk, at);
        at += chunk.byteLength;
      }
      resolve(bytes);
    });
  });
}

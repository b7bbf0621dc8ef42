import PDFDocument from 'pdfkit';
import type { Point } from '../../geometry/point.ts';
import { boxOf } from '../../geometry/ring.ts';
import { currentLanguage } from '../../words/language.ts';
import type { Bookmark } from '../booklet/parts.ts';
import {
  type Mark,
  type Print,
  PT,
  placeMark,
  scaleMark,
  type TextMark,
  type Tone,
  toned,
} from '../marks.ts';
import type { Sheet } from '../sheet/sheet.ts';
import { fontsOf } from '../type/fonts.ts';
import { FACES, type FullTypeface, type TextPicture, type Typeface } from '../type/typeface.ts';
import { type GlyphRun, matrixOf, operatorsOf, type SetText } from './pdf-operators.ts';
import { paragraphsOf } from './reading-order.ts';

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
  /** The font chosen last. */
  readonly _font: {
    readonly id: string;
    ref(): unknown;
    /** Glyphs by their numbers in the subset, in hexadecimal, and how each is placed, in thousandths of the size. */
    encode(text: string): readonly [readonly string[], readonly GlyphPosition[]];
  };
  readonly page: {
    readonly height: number;
    readonly fonts: Resources;
    readonly xobjects: Resources;
    readonly patterns: Resources;
  };
  /** Throws where it cannot read the picture. */
  openImage(data: string): { readonly obj?: unknown; embed(pdf: unknown): void };
  addContent(operators: string): unknown;
}

type Resources = Record<string, unknown>;

interface GlyphPosition {
  readonly xAdvance: number;
  readonly advanceWidth: number;
  readonly xOffset: number;
  readonly yOffset: number;
}

/**
 * The sheets as a PDF 1.7 file: exact page sizes, vector lines, the two faces embedded as subsets, and viewers
 * asked for no scaling (ViewerPreferences /PrintScaling /None, ISO 32000-1 12.2). 1 in is 72 units of default
 * user space (8.3.2.3). What copies of a drawing have alike is written once (a form XObject, 8.10). Tagged for those who
 * have it read to them (14.8), in the language of its texts. The same sheets, typeface and info give the same bytes.
 */
export async function toPdf(
  sheets: readonly Sheet[],
  typeface: FullTypeface,
  info: PdfInfo,
): Promise<Uint8Array> {
  const pdf = new PDFDocument({
    autoFirstPage: false,
    pdfVersion: '1.7',
    compress: true,
    tagged: true,
    lang: currentLanguage(),
    // No standard font: everything is set in the embedded one.
    font: null as unknown as string,
    info: { Title: info.title, Creator: 'Underpaper', CreationDate: info.createdAt },
  });
  const internals = pdf as unknown as Internals;
  internals._root.data.ViewerPreferences = pdf.ref({ PrintScaling: 'None', DisplayDocTitle: true });
  const fonts = fontsOf(typeface);
  for (const face of FACES) pdf.registerFont(face, fonts[face] as unknown as PDFKit.Mixins.PDFFontSource);
  const written = collected(pdf);
  const press = pressOf(pdf, sheets, typeface);
  const whole = pdf.struct('Document');
  pdf.addStructure(whole);

  for (const [i, sheet] of sheets.entries()) {
    await info.beforeSheet?.(i, sheets.length);
    pdf.addPage({ size: [sheet.width / PT, sheet.height / PT], margin: 0 });
    const section = pdf.struct('Sect', { title: sheet.title });
    whole.add(section);
    press(sheet, section, i === 0);
    section.end();
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

/** Draws sheets on the page that was added last, and enters what can be read of them into a part of the structure. */
function pressOf(
  pdf: PDFKit.PDFDocument,
  sheets: readonly Sheet[],
  typeface: Typeface,
): (sheet: Sheet, section: PDFKit.PDFStructureElement, isFirst: boolean) => void {
  const internals = pdf as unknown as Internals;
  const alike = startsAlike(sheets);
  // One print is in one tone.
  const tone = sheets[0]?.tone;
  const forms = new Map<readonly Mark[], { readonly name: string; readonly form: unknown }>();
  const known = { regular: new Map<string, SetText>(), semibold: new Map<string, SetText>() };

  const pictureOf = ({ text, face, size }: TextMark): TextPicture | null =>
    typeface.picture?.(text, face, size) ?? null;
  const isPicture = (mark: Mark): boolean => mark.kind === 'text' && pictureOf(mark) !== null;
  /** The operators of marks; what they need is entered into the resources. */
  const written = (marks: readonly Mark[], fonts: Resources): string =>
    operatorsOf(marks, {
      tone,
      set(mark) {
        if (mark.text === '' || isPicture(mark)) return null;
        pdf.font(mark.face);
        const { _font: font } = internals;
        fonts[font.id] ??= font.ref();
        let text = known[mark.face].get(mark.text);
        if (!text) {
          text = { font: font.id, runs: glyphRuns(...font.encode(mark.text)) };
          known[mark.face].set(mark.text, text);
        }
        return text;
      },
      pattern: (print) => patternOf(pdf, internals, print),
    });
  const formOf = (marks: readonly Mark[]) => {
    const made = forms.get(marks);
    if (made) return made;
    const fonts: Resources = {};
    const operators = written(
      marks.filter((mark) => !isPicture(mark)),
      fonts,
    );
    const form = pdf.ref({
      Type: 'XObject',
      Subtype: 'Form',
      BBox: boundsOf(marks).map((inches) => inches / PT),
      Resources: { ProcSet: ['PDF', 'Text'], Font: fonts },
    });
    form.end(operators);
    const entry = { name: `Alike${forms.size + 1}`, form };
    forms.set(marks, entry);
    return entry;
  };

  /** Draws marks on the page itself; texts that come as pictures also say what they mean. */
  const draw = (marks: readonly Mark[]): void => {
    internals.addContent(written(marks, internals.page.fonts));
    for (const mark of marks) {
      const picture = mark.kind === 'text' ? pictureOf(mark) : null;
      if (!picture || mark.kind !== 'text') continue;
      pdf.markContent('Span', { actual: mark.text });
      pastePicture(pdf, internals, mark, picture, tone);
      pdf.endMarkedContent();
    }
  };
  /** What a reader passes over: lines, and what stands alike on every sheet. */
  const drawUnread = (marks: readonly Mark[]): void => {
    if (marks.length === 0) return;
    pdf.markContent('Artifact');
    draw(marks);
    pdf.endMarkedContent();
  };

  return (sheet, section, isFirst) => {
    const { scale } = sheet;
    // A corrected sheet is drawn mark by mark: lines keep their width and letters their shape.
    const laid = (mark: Mark): Mark => (scale ? scaleMark(mark, scale) : mark);
    const read = (tag: string, drawIt: () => void, alt?: string): void => {
      const content = pdf.markStructureContent(tag);
      drawIt();
      pdf.endMarkedContent();
      section.add(pdf.struct(tag, alt === undefined ? {} : { alt }, [content]));
    };
    const unread: Mark[] = [];
    const texts: TextMark[][] = [];
    for (const { marks, placement, says, isFoot } of sheet.parts) {
      const start = scale ? undefined : alike.get(marks[0]!);
      const own: Mark[] = [];
      // Texts that come as pictures are laid on the page itself.
      for (const [i, mark] of marks.entries())
        if (!start || i >= start.length || isPicture(mark)) own.push(laid(placeMark(mark, placement)));
      const drawForm = (): void => {
        if (!start) return;
        const { name, form } = formOf(start);
        internals.page.xobjects[name] = form;
        internals.addContent(`q ${matrixOf(placement)} cm /${name} Do Q`);
      };
      if (says !== undefined)
        read(
          'Figure',
          () => {
            drawForm();
            draw(own);
          },
          says,
        );
      else {
        if (start) {
          pdf.markContent('Artifact');
          drawForm();
          pdf.endMarkedContent();
        }
        const isRead = (mark: Mark): mark is TextMark => mark.kind === 'text' && (isFirst || isFoot !== true);
        unread.push(...own.filter((mark) => !isRead(mark)));
        texts.push(own.filter(isRead));
      }
    }
    if (sheet.number) texts.push([laid(sheet.number.line) as TextMark]);
    drawUnread(unread);
    for (const part of texts)
      for (const { tag, lines } of paragraphsOf(part)) read(tag, () => draw(withBlanks(lines)));
  };
}

/** Lines of a paragraph with the blank at which they were broken, so that no two words are read as one. */
const withBlanks = (lines: readonly TextMark[]): readonly TextMark[] =>
  lines.map((line, i) => (i < lines.length - 1 ? { ...line, text: `${line.text} ` } : line));

/** Fewer marks than this are no shorter for being written apart. */
const LEAST_ALIKE = 4;

/**
 * What drawings that lie on sheets more than once begin with: copies of a paper share their marks, the very same
 * objects, up to what is said of the copy. By the first of the marks. Left out are corrected sheets, and drawings with
 * pictures of cloth, which are patterns of their page.
 */
function startsAlike(sheets: readonly Sheet[]): ReadonlyMap<Mark, readonly Mark[]> {
  const starts = new Map<Mark, { readonly marks: readonly Mark[]; length: number; times: number }>();
  for (const { parts, scale } of sheets) {
    if (scale) continue;
    for (const { marks } of parts) {
      const [first] = marks;
      if (!first) continue;
      const start = starts.get(first);
      if (!start) {
        starts.set(first, { marks, length: marks.length, times: 1 });
        continue;
      }
      start.times++;
      let length = 0;
      while (length < start.length && marks[length] === start.marks[length]) length++;
      start.length = length;
    }
  }
  const alike = new Map<Mark, readonly Mark[]>();
  for (const [first, { marks, length, times }] of starts)
    if (times > 1 && length >= LEAST_ALIKE && !marks.some(isPrinted))
      alike.set(first, marks.slice(0, length));
  return alike;
}

const isPrinted = (mark: Mark): boolean => mark.kind === 'polygon' && mark.print !== undefined;

/** A box that holds marks with their lines' widths and all their letters: left, top, right, bottom, inches. */
function boundsOf(marks: readonly Mark[]): readonly [number, number, number, number] {
  const room = 0.25;
  const box = boxOf(marks.flatMap(pointsAround));
  return [box.minX - room, box.minY - room, box.maxX + room, box.maxY + room];
}

function pointsAround(mark: Mark): readonly Point[] {
  switch (mark.kind) {
    case 'line':
      return mark.points;
    case 'polygon':
      return mark.ring;
    case 'circle':
      return around(mark.at, mark.radius);
    case 'text':
      return around(mark.at, mark.width + mark.size);
  }
}

const around = ([x, y]: Point, reach: number): readonly Point[] => [
  [x - reach, y - reach],
  [x + reach, y + reach],
];

/** Glyphs as the operator TJ sets them (ISO 32000-1 9.4.3); those that stand off their place begin a run. */
function glyphRuns(glyphs: readonly string[], positions: readonly GlyphPosition[]): readonly GlyphRun[] {
  const runs: GlyphRun[] = [];
  let array = '';
  let hex = '';
  let [start, along, off] = [0, 0, false];
  const close = (up: number): void => {
    if (hex !== '') array += `<${hex}>`;
    if (array !== '') runs.push({ array, along: start / 1000, up: up / 1000 });
    array = '';
    hex = '';
  };
  for (const [i, { xAdvance, advanceWidth, xOffset, yOffset }] of positions.entries()) {
    const isOff = xOffset !== 0 || yOffset !== 0;
    if (isOff || off) {
      if (isOff) close(0);
      start = along + xOffset;
    }
    off = isOff;
    hex += glyphs[i];
    if (isOff) close(yOffset);
    else if (xAdvance !== advanceWidth) {
      array += `<${hex}>${Math.round((advanceWidth - xAdvance) * 1e3) / 1e3} `;
      hex = '';
    }
    along += xAdvance;
  }
  close(0);
  return runs;
}

/**
 * A picture laid side by side with itself, as a tiling pattern (ISO 32000-1 8.7.3) of the page: its name there, or
 * null for a kind of picture that a PDF cannot hold.
 */
function patternOf(pdf: PDFKit.PDFDocument, internals: Internals, print: Print): string | null {
  const { data, at, quarterTurns } = print;
  let image: ReturnType<Internals['openImage']>;
  try {
    image = internals.openImage(data);
    if (!image.obj) image.embed(pdf);
  } catch {
    return null;
  }
  const [cos, sin] = [Math.cos((quarterTurns * Math.PI) / 2), Math.sin((quarterTurns * Math.PI) / 2)];
  const [width, height] = [print.width / PT, print.height / PT];
  const { page } = internals;
  const pattern = pdf.ref({
    Type: 'Pattern',
    PatternType: 1,
    PaintType: 1,
    TilingType: 2,
    BBox: [0, 0, width, height],
    XStep: width,
    YStep: height,
    // From there to the page as it is before it is turned over, y up.
    Matrix: [cos, -sin, -sin, -cos, at[0] / PT, page.height - at[1] / PT],
    Resources: { XObject: { Cloth: image.obj } },
  });
  pattern.end(`${width} 0 0 ${-height} 0 ${height} cm /Cloth Do`);
  const name = `Cloth${Object.keys(page.patterns).length + 1}`;
  page.patterns[name] = pattern;
  return name;
}

/** A text that comes as a picture, as an image of grey dots (ISO 32000-1 8.9.5) on the page. */
function pastePicture(
  pdf: PDFKit.PDFDocument,
  internals: Internals,
  { at, turn }: TextMark,
  { width, height, dpi, left, up, grey }: TextPicture,
  tone: Tone | undefined,
): void {
  const image = pdf.ref({
    Type: 'XObject',
    Subtype: 'Image',
    Width: width,
    Height: height,
    ColorSpace: 'DeviceGray',
    BitsPerComponent: 8,
    ...(tone === 'grey' && { Decode: [toned(0, tone), 1] }),
  });
  image.end(grey);
  const { xobjects } = internals.page;
  const name = `Text${Object.keys(xobjects).length + 1}`;
  xobjects[name] = image;
  const [across, down] = [width / dpi / PT, height / dpi / PT];
  // An image fills the unit square, its first row at the top, and the page is turned over.
  const place = `${across} 0 0 ${-down} ${-left / PT} ${down - up / PT}`;
  internals.addContent(`q ${matrixOf({ at, quarterTurns: turn / 90 })} cm ${place} cm /${name} Do Q`);
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

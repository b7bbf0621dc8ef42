import type { Page } from '../../document/pages.ts';
import type { Point } from '../../geometry/point.ts';
import { phrase } from '../../words/phrase.ts';
import type { FabricStyle } from '../foundation/fabric-marks.ts';
import { type Mark, type Placement, placeMark, scaleMark, type TextMark, type Tone } from '../marks.ts';
import type { PrintNote } from '../print-work.ts';
import type { Side } from '../side.ts';
import type { Typeface } from '../type/typeface.ts';
import { type NumberRoom, numberLine } from './band.ts';
import type { Correction } from './correction.ts';
import type { Nesting } from './filling.ts';

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
  /** How dark all is drawn; black when absent. */
  readonly tone?: Tone;
  /** Whether type is large, for those who read with trouble; the usual sizes when absent. */
  readonly large?: boolean;
  /** For a printer that is a little off; none when absent. */
  readonly correction?: Correction | null;
  /** The address that square codes lead to, see `codedAddress`; papers carry none when absent. */
  readonly codes?: string | null;
  /** The day of printing, written out; it stands on every sheet. */
  readonly printedOn: string;
  readonly typeface: Typeface;
}

/** A drawing on a sheet, and what it is of. */
export interface Part {
  readonly marks: readonly Mark[];
  readonly placement: Placement;
  /** The foundation it shows, or null for the band and its pictures. */
  readonly paper: PaperShown | null;
  /** What it is, for those who have it read to them; absent where its own texts say it. */
  readonly says?: string;
  /** The foot, which says much the same on every sheet. */
  readonly isFoot?: true;
}

export interface PaperShown {
  readonly block: string;
  readonly section: string;
  readonly copy: number;
  /** Which of its tiles it is, from 1; absent where the paper lies on the sheet whole. */
  readonly tile?: { readonly number: number; readonly of: number };
}

/** One side of one piece of paper, as it will be printed. Inches. */
export interface Sheet {
  readonly width: number;
  readonly height: number;
  readonly title: string;
  readonly parts: readonly Part[];
  /** Of a sheet of foundations: the line that says which it is, and the room for it. */
  readonly number?: { readonly line: TextMark; readonly room: NumberRoom };
  /** What the drawing, not the page, is multiplied by across and down to correct the printer; 1 when absent. */
  readonly scale?: Point;
  /** Black when absent. */
  readonly tone?: Tone;
}

export interface SheetLayout {
  readonly sheets: readonly Sheet[];
  readonly notes: readonly PrintNote[];
  /** Foundations, counting every copy. */
  readonly foundations: number;
}

/** All marks of a sheet where they lie on it: what every output draws. */
export function marksOf({ parts, number, scale }: Sheet): Mark[] {
  const marks = parts.flatMap((part) => part.marks.map((mark) => placeMark(mark, part.placement)));
  if (number) marks.push(number.line);
  return scale ? marks.map((mark) => scaleMark(mark, scale)) : marks;
}

/** A sheet of foundations as a page of a file that has other pages too, all numbered through. */
export function asPage(sheet: Sheet, page: CountedPage, typeface: Typeface): Sheet {
  const among = phrase('{sheet} of {sheets}', { sheet: page.sheet, sheets: page.sheets });
  const inFile = phrase('{page} of {pages}', { page: page.page, pages: page.pages });
  const wordings = [
    phrase('Page {inFile} · foundations {among}', { inFile, among }),
    phrase('Page {inFile}', { inFile }),
  ];
  return numbered(sheet, phrase('Foundations {among}, page {inFile}', { among, inFile }), wordings, typeface);
}

/** A sheet of foundations under another number. */
export function numbered(
  sheet: Sheet,
  title: string,
  wordings: readonly string[],
  typeface: Typeface,
): Sheet {
  if (!sheet.number) return sheet;
  const { room } = sheet.number;
  return { ...sheet, title, number: { line: numberLine(typeface, wordings, room), room } };
}

/** Which page of a file a sheet of foundations is, and which of the sheets of foundations. Counted from 1. */
export interface CountedPage {
  readonly page: number;
  readonly pages: number;
  readonly sheet: number;
  readonly sheets: number;
}

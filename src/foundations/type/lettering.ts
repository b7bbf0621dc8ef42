import type { Point } from '../../geometry/point.ts';
import type { TextMark } from '../marks.ts';
import type { Face, Typeface } from './typeface.ts';

/** A line of text to set. `size` in inches. */
export interface TextLine {
  readonly text: string;
  readonly face: Face;
  readonly size: number;
}

/** Lines set one under the other about a common middle, with the box of their ink. Inches. */
export interface TextBlock {
  readonly width: number;
  readonly height: number;
  /** Each line with the length of its ink and the baseline's distance below the middle of the block. */
  readonly lines: readonly (TextLine & { readonly width: number; readonly below: number })[];
}

/** What a line of small letters is taken to reach above and below its baseline, so that all such lines sit alike. */
const SMALL_LETTERS = { up: 0.68, down: 0.2 };

/** Baseline to baseline, as a multiple of the type size of the lower line. */
const LEADING = 1.16;

/** Sets lines one under the other, centred. */
export function setCentred(typeface: Typeface, lines: readonly TextLine[]): TextBlock {
  let baseline = 0;
  let top = 0;
  let bottom = 0;
  const set = lines.map((line, i) => {
    const ink = typeface.extent(line.text, line.face);
    const least = /\p{Ll}/u.test(line.text) ? SMALL_LETTERS : { up: 0, down: 0 };
    const extent = { width: ink.width, up: Math.max(ink.up, least.up), down: Math.max(ink.down, least.down) };
    if (i > 0) baseline += LEADING * line.size;
    top = Math.min(top, baseline - extent.up * line.size);
    bottom = Math.max(bottom, baseline + extent.down * line.size);
    return { ...line, width: extent.width * line.size, below: baseline };
  });
  const middle = (top + bottom) / 2;
  return {
    width: Math.max(0, ...set.map((line) => line.width)),
    height: bottom - top,
    lines: set.map((line) => ({ ...line, below: line.below - middle })),
  };
}

/** The marks of a block whose middle lies at `at`, turned by radians clockwise. */
export function blockMarks(block: TextBlock, at: Point, turn = 0): TextMark[] {
  const cos = Math.cos(turn);
  const sin = Math.sin(turn);
  return block.lines.map(({ text, face, size, width, below }) => ({
    kind: 'text',
    at: [at[0] - (width / 2) * cos - below * sin, at[1] - (width / 2) * sin + below * cos],
    turn: (turn * 180) / Math.PI,
    face,
    size,
    text,
    width,
  }));
}

/** A text from its baseline's left end. */
export function textAt(typeface: Typeface, line: TextLine, at: Point): TextMark {
  const width = typeface.extent(line.text, line.face).width * line.size;
  return { kind: 'text', at, turn: 0, ...line, width };
}

/** Length of a line of text, in inches. */
export const lengthOf = (typeface: Typeface, { text, face, size }: TextLine): number =>
  typeface.extent(text, face).width * size;

/** The line, shortened with `…` where it is longer than `widest` inches. Empty when not even that fits. */
export function shortened(typeface: Typeface, line: TextLine, widest: number): string {
  if (lengthOf(typeface, line) <= widest) return line.text;
  const letters = [...line.text];
  let fits = 0;
  let over = letters.length;
  const cut = (count: number): string => `${letters.slice(0, count).join('').trimEnd()}…`;
  while (over - fits > 1) {
    const count = (fits + over) >> 1;
    if (lengthOf(typeface, { ...line, text: cut(count) }) <= widest) fits = count;
    else over = count;
  }
  return fits === 0 ? '' : cut(fits);
}

/** A blank at which a line may end: none inside a measure such as `12 1/2 × 6 in`. */
const BREAK = /(?<!×) (?!×)(?!(?<=\d )(?:\d+\/\d|in\b|mm\b))/;

/**
 * A text broken at blanks into lines no longer than `widest` inches; a single longer word is broken where it
 * must be. A measure stays on one line where it fits one. Every letter is kept.
 */
export function wrapped(typeface: Typeface, line: TextLine, widest: number): string[] {
  const fits = (text: string): boolean => lengthOf(typeface, { ...line, text }) <= widest;
  const lines: string[] = [];
  let current = '';
  const words = line.text.split(BREAK).flatMap((word) => (fits(word) ? [word] : word.split(' ')));
  for (const word of words) {
    const longer = current === '' ? word : `${current} ${word}`;
    if (fits(longer)) {
      current = longer;
      continue;
    }
    if (current !== '') lines.push(current);
    current = word;
    while (!fits(current) && [...current].length > 1) {
      const letters = [...current];
      let count = letters.length - 1;
      while (count > 1 && !fits(letters.slice(0, count).join(''))) count--;
      lines.push(letters.slice(0, count).join(''));
      current = letters.slice(count).join('');
    }
  }
  if (current !== '') lines.push(current);
  return lines;
}

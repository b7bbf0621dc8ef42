import { phrase } from '../../words/phrase.ts';
import { lengthOf, shortened, type TextLine } from '../type/lettering.ts';
import type { Typeface } from '../type/typeface.ts';

/** Fewer letters of a name than this tell nothing, and shorter words are taken round it. */
const LEAST_NAME = 8;

/**
 * The line over a tile: which tile it is, the name, and what comes after the name, no longer than `widest` inches.
 * `ends` are wordings of what comes after it, the fullest first. The name is shortened, what is about it never is,
 * as long as there is any room for that.
 */
export function tileHead(
  typeface: Typeface,
  style: Omit<TextLine, 'text'>,
  {
    number,
    of,
    row,
    column,
  }: { readonly number: number; readonly of: number; readonly row: number; readonly column: number },
  name: string,
  ends: readonly string[],
  widest: number,
): string {
  const counted = phrase('Tile {number} of {of}', { number, of });
  const heads = ends.flatMap((end) => [
    [phrase('{counted} (row {row}, column {column}): ', { counted, row, column }), end] as const,
    [`${counted}: `, end] as const,
  ]);
  for (const [before, end] of heads) {
    const room = widest - lengthOf(typeface, { text: `${before}${end}`, ...style });
    const short = room <= 0 ? '' : shortened(typeface, { text: name, ...style }, room);
    if (short === name || [...short].length > LEAST_NAME) return `${before}${short}${end}`;
  }
  const [before, end] = heads.at(-1) ?? [`${counted}: `, ''];
  return shortened(typeface, { text: `${before}${end.replace(/^[ ,.]+/, '')}`, ...style }, widest);
}

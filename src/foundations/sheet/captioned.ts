import { SMALLEST_PT, stack } from '../foundation/label-request.ts';
import { type Mark, PT } from '../marks.ts';
import { blockMarks, lengthOf, shortened } from '../type/lettering.ts';
import type { Typeface } from '../type/typeface.ts';

/** Width and height of the room of a small picture, of its caption under it, and the space between two, inches. */
export const PICTURE_IN = 0.95;

export const PICTURE_HIGH_IN = 0.89;

export const CAPTION_IN = 0.13;

export const PICTURE_GAP_IN = 0.16;

/** A small picture with its caption under it: a text, shortened where it is too long, and what follows it. */
export function captioned(
  picture: readonly Mark[],
  text: string,
  end: string,
  typeface: Typeface,
): readonly Mark[] {
  const line = { text, face: 'regular', size: SMALLEST_PT * PT } as const;
  const room = PICTURE_IN - lengthOf(typeface, { ...line, text: end });
  const caption = stack(typeface, [[`${shortened(typeface, line, room)}${end}`, 'regular', SMALLEST_PT]]);
  const foot = PICTURE_HIGH_IN + CAPTION_IN - caption.height / 2;
  return [...picture, ...blockMarks(caption, [PICTURE_IN / 2, foot])];
}

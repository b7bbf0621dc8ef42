import { PT, type TextMark } from '../marks.ts';

/** Lines that are read as one, and what they are (ISO 32000-1 14.8.4.3). */
export interface Paragraph {
  readonly tag: 'H1' | 'H2' | 'P';
  readonly lines: readonly TextMark[];
}

/** Semibold type from these sizes on is a heading, inches. */
const TITLE_IN = 16 * PT;
const HEADING_IN = 11.5 * PT;

/** Lines of one paragraph lie no farther apart than this × their size. */
const FARTHEST_LINES = 1.6;

/**
 * Texts in the order in which they are set, lines under one another in one style taken together: a sentence that runs
 * over three lines is read as one.
 */
export function paragraphsOf(texts: readonly TextMark[]): readonly Paragraph[] {
  const paragraphs: TextMark[][] = [];
  for (const text of texts) {
    if (text.text === '') continue;
    const current = paragraphs.at(-1);
    if (current && runsOn(current.at(-1)!, text)) current.push(text);
    else paragraphs.push([text]);
  }
  return paragraphs.map((lines) => ({ tag: tagOf(lines[0]!), lines }));
}

function tagOf({ face, size }: TextMark): Paragraph['tag'] {
  if (face !== 'semibold' || size < HEADING_IN) return 'P';
  return size < TITLE_IN ? 'H2' : 'H1';
}

function runsOn(before: TextMark, after: TextMark): boolean {
  if (before.face !== after.face || before.size !== after.size || before.turn !== after.turn) return false;
  const angle = (before.turn * Math.PI) / 180;
  const [dx, dy] = [after.at[0] - before.at[0], after.at[1] - before.at[1]];
  const along = dx * Math.cos(angle) + dy * Math.sin(angle);
  const down = dy * Math.cos(angle) - dx * Math.sin(angle);
  return down > 0 && down <= FARTHEST_LINES * before.size && along < before.width && along + after.width > 0;
}

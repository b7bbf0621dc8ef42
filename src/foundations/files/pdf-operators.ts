import type { Point } from '../../geometry/point.ts';
import {
  type Mark,
  PENS,
  type PenName,
  type Placement,
  type Print,
  PT,
  type TextMark,
  type Tone,
  toned,
} from '../marks.ts';

/** Glyphs of a text that are set in one go, as the array of a TJ operator, and where they begin: 1 is the type size. */
export interface GlyphRun {
  readonly array: string;
  readonly along: number;
  readonly up: number;
}

/** How a text is set: the name of its font among the resources, and its glyphs. */
export interface SetText {
  readonly font: string;
  readonly runs: readonly GlyphRun[];
}

/** What the resources hold for marks to be drawn with. */
export interface Ink {
  /** The glyphs of a text; null leaves it out. */
  set(mark: TextMark): SetText | null;
  /** The name of the pattern that a print is; null shows the colour under it. */
  pattern(print: Print): string | null;
  /** How dark lines and letters are; black when absent. */
  readonly tone?: Tone | undefined;
}

/**
 * The operators of a content stream that draw marks (ISO 32000-1, annex A), in points, y down: fills under all
 * lines, lines pen by pen, texts on top.
 */
export function operatorsOf(marks: readonly Mark[], ink: Ink): string {
  const out: string[] = [];
  for (const mark of marks) {
    if (mark.kind !== 'polygon' || mark.fill === undefined) continue;
    const pattern = mark.print ? ink.pattern(mark.print) : null;
    const cloth = pattern === null ? '' : ` /Pattern cs /${pattern} scn ${path(mark)} f`;
    out.push(`q ${colour(mark.fill)} rg ${path(mark)} f${cloth} Q`);
  }
  for (const pen of Object.keys(PENS) as PenName[]) {
    const strokes: string[] = [];
    const dots: string[] = [];
    for (const mark of marks) {
      if (mark.kind === 'text' || mark.pen !== pen) continue;
      (mark.kind === 'circle' && mark.filled ? dots : strokes).push(path(mark));
    }
    const { width, dash } = PENS[pen];
    const grey = level(PENS[pen].grey, ink);
    if (strokes.length > 0 && width > 0) {
      // Lines that are not dashed have round ends (cap 1); corners are mitred (join 0).
      const cap = dash.length > 0 ? `0 J [${dash.map(units).join(' ')}] 0 d` : '1 J';
      out.push(`q ${units(width)} w 0 j ${cap} ${grey} G`, ...strokes, 'S Q');
    }
    if (dots.length > 0) out.push(`q ${grey} g`, ...dots, 'f Q');
  }
  const texts: string[] = [];
  for (const mark of marks) {
    const text = mark.kind === 'text' ? ink.set(mark) : null;
    if (text) texts.push(words(mark as TextMark, text));
  }
  const isGrey = ink.tone === 'grey' && texts.length > 0;
  out.push(...(isGrey ? [`q ${level(0, ink)} g`, ...texts, 'Q'] : texts));
  return out.join('\n');
}

const level = (grey: number, { tone }: Ink): number => Math.round(toned(grey, tone) * 1e3) / 1e3;

/** The matrix of a placement, as the operands of cm. */
export function matrixOf({ at, quarterTurns }: Placement): string {
  const [cos, sin] = [Math.cos((quarterTurns * Math.PI) / 2), Math.sin((quarterTurns * Math.PI) / 2)];
  return `${fine(cos)} ${fine(sin)} ${fine(-sin)} ${fine(cos)} ${units(at[0])} ${units(at[1])}`;
}

/** Inches in points, to a ten-thousandth: a thousandth of the finest dot a printer sets. */
const units = (inches: number): number => Math.round((inches / PT) * 1e4) / 1e4;

/**
 * A number without a unit; more decimals than this turn nothing visibly, and smaller ones would be written with an
 * exponent, which a PDF does not know.
 */
const fine = (value: number): number => Math.round(value * 1e6) / 1e6 || 0;

const at = ([x, y]: Point): string => `${units(x)} ${units(y)}`;

const colour = (hex: string): string =>
  [1, 3, 5]
    .map((from) => Math.round((Number.parseInt(hex.slice(from, from + 2), 16) / 255) * 1e4) / 1e4)
    .join(' ');

function path(mark: Exclude<Mark, TextMark>): string {
  if (mark.kind === 'circle') return circle(mark.at, mark.radius);
  const [first, ...rest] = mark.kind === 'line' ? mark.points : mark.ring;
  const steps = [`${at(first!)} m`];
  for (const point of rest) steps.push(`${at(point)} l`);
  if (mark.kind === 'polygon') steps.push('h');
  return steps.join(' ');
}

/** How far the handles of a cubic curve reach that is a quarter of a circle, as a share of the radius: 4/3 (√2 - 1). */
const HANDLE = (4 / 3) * (Math.SQRT2 - 1);

function circle([x, y]: Point, radius: number): string {
  const reach = HANDLE * radius;
  const quarter = (...points: readonly Point[]): string => `${points.map(at).join(' ')} c`;
  return [
    `${at([x + radius, y])} m`,
    quarter([x + radius, y + reach], [x + reach, y + radius], [x, y + radius]),
    quarter([x - reach, y + radius], [x - radius, y + reach], [x - radius, y]),
    quarter([x - radius, y - reach], [x - reach, y - radius], [x, y - radius]),
    quarter([x + reach, y - radius], [x + radius, y - reach], [x + radius, y]),
    'h',
  ].join(' ');
}

function words({ at: [x, y], turn, size }: TextMark, { font, runs }: SetText): string {
  const angle = (turn * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  // Letters grow upward, the page downward.
  const turned = `${fine(cos)} ${fine(sin)} ${fine(sin)} ${fine(-cos)}`;
  const set = runs.map(({ array, along, up }) => {
    const from: Point = [x + size * (along * cos + up * sin), y + size * (along * sin - up * cos)];
    return `${turned} ${at(from)} Tm [${array}] TJ`;
  });
  return `BT /${font} ${units(size)} Tf ${set.join(' ')} ET`;
}

import { formatLength, type LengthUnit } from '../../geometry/length.ts';
import type { Point } from '../../geometry/point.ts';
import { phrase } from '../../words/phrase.ts';
import { type Mark, PT } from '../marks.ts';
import { lengthOf, type TextLine, textAt } from '../type/lettering.ts';
import type { Typeface } from '../type/typeface.ts';

/** What the lines of a foundation mean, along the foot of its sheet. Inches. */
export interface Legend {
  readonly height: number;
  /** From its upper left corner. */
  readonly marks: readonly Mark[];
}

export interface LegendWords {
  /** Seam allowance, inches. */
  readonly allowance: number;
  readonly unit: LengthUnit;
  /** Whether a foundation has joining edges, and whether one starts from a finished unit. */
  readonly joins: boolean;
  readonly units: boolean;
}

/** Length of a sample of a line, from it to its words, and from one entry to the next. */
const SAMPLE_IN = 0.3;
const BESIDE_IN = 0.05;
const APART_IN = 0.16;
/** Half the height of a sample of a sign. */
const SIGN_IN = 0.04;

interface Entry {
  readonly text: string;
  readonly width: number;
  /** From its left end, about its middle line. */
  readonly draw: (at: Point) => readonly Mark[];
}

/** The legend, in as few lines as its entries need in a width; its type so many times the usual. */
export function legendOf(width: number, words: LegendWords, typeface: Typeface, times = 1): Legend {
  const style: Omit<TextLine, 'text'> = { face: 'regular', size: times * 6.5 * PT };
  const lineHigh = 1.3 * style.size;
  const marks: Mark[] = [];
  let [x, y] = [0, 0];
  for (const { text, width: sample, draw } of entriesOf(words)) {
    const line = { text, ...style };
    const long = sample + BESIDE_IN + lengthOf(typeface, line);
    if (x > 0 && x + long > width) [x, y] = [0, y + lineHigh];
    const baseline = y + 0.78 * style.size;
    marks.push(
      ...draw([x, baseline - 0.3 * style.size]),
      textAt(typeface, line, [x + sample + BESIDE_IN, baseline]),
    );
    x += long + APART_IN;
  }
  return { height: y + lineHigh + 0.03, marks };
}

function entriesOf({ allowance, unit, joins, units }: LegendWords): readonly Entry[] {
  const cut: Entry =
    allowance > 0
      ? {
          ...sampleOf('sample-trim'),
          text: phrase('cut, {allowance} outside the seam', { allowance: formatLength(allowance, unit) }),
        }
      : { text: phrase('no allowance is drawn'), width: 0, draw: () => [] };
  return [
    { ...sampleOf('sample-seam'), text: allowance > 0 ? phrase('sew: never cut here') : phrase('sew') },
    cut,
    ...(units ? [{ ...sampleOf('sample-unit'), text: phrase('sewn before') }] : []),
    ...(joins ? [CROSS, RING, TICKS] : []),
  ];
}

const sampleOf = (pen: 'sample-seam' | 'sample-trim' | 'sample-unit'): Omit<Entry, 'text'> => ({
  width: SAMPLE_IN,
  draw: ([x, y]) => [line(pen, [x, y], [x + SAMPLE_IN, y])],
});

const line = (
  pen: 'sample-seam' | 'sample-trim' | 'sample-unit' | 'sample-sign',
  ...points: Point[]
): Mark => ({
  kind: 'line',
  pen,
  points,
});

const crossAt = ([x, y]: Point): Mark[] => [
  line('sample-sign', [x - 0.7 * SIGN_IN, y - 0.7 * SIGN_IN], [x + 0.7 * SIGN_IN, y + 0.7 * SIGN_IN]),
  line('sample-sign', [x - 0.7 * SIGN_IN, y + 0.7 * SIGN_IN], [x + 0.7 * SIGN_IN, y - 0.7 * SIGN_IN]),
];

const CROSS: Entry = { text: 'pin', width: 2 * SIGN_IN, draw: ([x, y]) => crossAt([x + SIGN_IN, y]) };

const RING: Entry = {
  text: phrase('seams meet: match them first'),
  width: 2 * SIGN_IN,
  draw: ([x, y]) => [
    ...crossAt([x + SIGN_IN, y]),
    { kind: 'circle', pen: 'sample-sign', at: [x + SIGN_IN, y], radius: SIGN_IN, filled: false },
  ],
};

const TICKS: Entry = {
  text: phrase('edges with as many ticks are sewn together'),
  width: 0.18,
  draw: ([x, y]) =>
    [0, 0.1, 0.14].map((at) =>
      line('sample-sign', [x + 0.02 + at, y - SIGN_IN], [x + 0.02 + at, y + SIGN_IN]),
    ),
};

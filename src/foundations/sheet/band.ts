import { formatLength, type LengthUnit } from '../../geometry/length.ts';
import type { Point } from '../../geometry/point.ts';
import { phrase } from '../../words/phrase.ts';
import { hatchSample } from '../foundation/fabric-marks.ts';
import { SMALLEST_PT, stack } from '../foundation/label-request.ts';
import { type Mark, PT, shiftMark, type TextMark } from '../marks.ts';
import type { Side } from '../side.ts';
import { blockMarks, lengthOf, shortened, type TextLine, textAt, wrapped } from '../type/lettering.ts';
import type { Typeface } from '../type/typeface.ts';
import { TEST_LINE_IN } from './correction.ts';
import { type LegendWords, legendOf } from './legend.ts';

/**
 * The band along the foot of every sheet: test square, 50 mm line, how to print, what the sheet is, and on the
 * first sheet the cautions.
 */
export interface Band {
  readonly height: number;
  /** The marks of one sheet's band, from the band's upper left corner. */
  draw(words: SheetWords): Mark[];
  /** Of the line that says which sheet it is, from the same corner. */
  readonly number: NumberRoom;
  /** Where the upper left corner of the line down goes, from the same corner and mostly above it; null for nowhere. */
  readonly lineDownAt: Point | null;
  /** Where a line of half that length goes, inside the band. */
  readonly halfLineAt: Point;
  /** Room for small pictures at the right of the first row on a sheet with or without the cautions. */
  pictureRoom(first: boolean): PictureRoom;
}

export interface PictureRoom {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** The line that says which sheet it is: the first of some wordings that is no longer than `widest` inches. */
export function numberLine(
  typeface: Typeface,
  wordings: readonly string[],
  { at, widest, size }: NumberRoom,
): TextMark {
  const style = { face: 'regular', size } as const;
  const text = wordings.find((one) => lengthOf(typeface, { text: one, ...style }) <= widest);
  return textAt(typeface, { text: text ?? wordings.at(-1) ?? '', ...style }, at);
}

/** Where the line begins that says which sheet it is, how long it may be and its type size, inches. */
export interface NumberRoom {
  readonly at: Point;
  readonly widest: number;
  readonly size: number;
}

/** What a band says that differs from sheet to sheet, beside its number. */
export interface SheetWords {
  /** The first sheet of a print cautions. */
  readonly isFirst: boolean;
  /** Whether tiles of a larger foundation lie on it. */
  readonly tiles: boolean;
  /** Signs of the key that stand on it, such as `#3`. */
  readonly signs: readonly string[];
  /** The blocks that have papers on it, each with its finished size: `Gull 6 × 6 in`. */
  readonly sizes: readonly string[];
}

/** A sign on papers and what it means: `#3 Night sea`, beside a sample of its lines where fabrics are hatched. */
export interface KeyEntry {
  readonly sign: string;
  readonly text: string;
  /** The place of the fabric among all, from 0, where its lines are to be shown. */
  readonly hatch?: number;
}

/** What a band says on every sheet of a print. */
export interface BandWords {
  /** Name of the project, as the typeface can print it. */
  readonly project: string;
  /** The day of printing, written out. */
  readonly printedOn: string;
  readonly side: Side;
  /** Fabrics that are shown by a sign. A sheet explains the signs that stand on it alone. */
  readonly key: readonly KeyEntry[];
  /** Whether any sheet of the print holds tiles. */
  readonly tiles: boolean;
  /** How the drawing is corrected for the printer; null or absent when it is not. */
  readonly correction?: string | null;
  readonly legend: LegendWords;
  /** Whether its type is large. */
  readonly large?: boolean;
}

const SQUARE_IN = 1;
const GAP_IN = 0.16;
/** Space between the foundations and the band's first words, inches; a thin rule runs in its middle. */
const HEAD_IN = 0.14;
/** The test square's own line stays inside the printable area. */
const INSET_IN = 0.01;
const SCALE_WIDTH_IN = TEST_LINE_IN + 0.2;
const NAME_WIDTH_IN = 1.72;
/** Most lines that say how large the blocks of a sheet are. */
const SIZE_LINES = 2;
const CAUTION_WIDTH_IN = 1.2;
const PICTURE_IN = 0.95;

const SIDE_WORDS: Readonly<Record<Side, string>> = {
  printed: phrase('Printed side: the mirror image of the front. Fabric goes on the blank side.'),
  front: phrase(
    'Front side: as the finished block is seen, not mirrored. For methods that sew from the other side.',
  ),
};

/** 94 % and 97 % are what pages come out at that are shrunk to fit a printer's margins. */
const SHRUNK_WORDS: Readonly<Record<LengthUnit, string>> = {
  in: phrase(
    'A square of 15/16 in (23.9 mm) was shrunk to 94%, one of 31/32 in (24.6 mm) to 97%: turn off “fit to page” and print again.',
  ),
  mm: phrase(
    'A square of 23.9 mm was shrunk to 94%, one of 24.6 mm to 97%: turn off “fit to page” and print again.',
  ),
};

/** How tiles are laid together. */
export const TILE_WORDS = phrase(
  'Tiles: trim the later one on its dotted line and lay it over the earlier one, crosses on crosses.',
);

/** The check length of a foundation may run over several of its tiles. */
const TILED_EDGE_WORDS = phrase('Measure “this edge” once they are joined.');

/** Short, and behind what the makers say: rotary cutter, iron, needles, pins. */
const CAUTIONS = [
  phrase('Rotary cutter: cut away from yourself, close the blade after every cut.'),
  phrase('Iron: dry, unplugged after use.'),
  phrase('Needles, pins: take a pin out before the needle reaches it; keep both from children.'),
  phrase('The makers’ instructions come before these lines.'),
];

type Styled = Omit<TextLine, 'text'>;

interface Styles {
  readonly STRONG: Styled;
  readonly PLAIN: Styled;
  readonly FINE: Styled;
}

const stylesOf = (times: number): Styles => ({
  STRONG: { face: 'semibold', size: times * 8 * PT },
  PLAIN: { face: 'regular', size: times * 6.5 * PT },
  FINE: { face: 'regular', size: times * SMALLEST_PT * PT },
});

/** How much larger the type of the foot is where it is to be large: more would leave papers no room. */
const LARGE_TIMES = 1.3;

/** How many times the usual size the type of a sheet’s own words has. */
export const timesOf = ({ large }: { readonly large?: boolean }): number => (large ? LARGE_TIMES : 1);
const leading = ({ size }: Styled): number => 1.22 * size;

interface Column {
  readonly lines: readonly TextLine[];
  readonly height: number;
}

/** Plans the band for a printable width in inches: one row where it is wide enough, else stacked. */
export function planBand(whole: number, words: BandWords, typeface: Typeface): Band {
  const times = timesOf(words);
  const { STRONG, PLAIN, FINE } = stylesOf(times);
  // The line down stands at the right of all words, where these leave room for it.
  const lineColumn = LINE_DOWN_SIZE.width + GAP_IN / 2;
  const hasLine = whole - lineColumn >= SQUARE_IN + GAP_IN + SCALE_WIDTH_IN;
  const width = hasLine ? whole - lineColumn : whole;
  const column = (wide: number, ...texts: readonly (readonly [string, Styled])[]): Column => {
    const lines = texts.flatMap(([text, style]) =>
      wrapped(typeface, { text, ...style }, wide).map((one): TextLine => ({ text: one, ...style })),
    );
    return { lines, height: lines.reduce((sum, line) => sum + leading(line), 0) };
  };
  const project = (wide: number): Column =>
    column(wide, [shortened(typeface, { text: words.project, ...STRONG }, wide), STRONG]);
  const keyOn = ({ signs }: SheetWords): SetKey =>
    keyOf(
      words.key.filter(({ sign }) => signs.includes(sign)),
      width,
      PLAIN,
      typeface,
    );
  const aboutColumn = (wide: number, { tiles }: Pick<SheetWords, 'tiles'>): Column =>
    column(
      wide,
      [words.printedOn, PLAIN],
      ...(words.correction
        ? [[phrase('Drawing {correction}.', { correction: words.correction }), PLAIN] as const]
        : []),
      [SIDE_WORDS[words.side], PLAIN],
      ...(tiles ? [[`${TILE_WORDS} ${TILED_EDGE_WORDS}`, PLAIN] as const] : []),
    );
  const sizeColumn = (wide: number, sizes: readonly string[]): Column => {
    const { lines } = column(wide, [phrase('Finished: {sizes}', { sizes: sizes.join(', ') }), PLAIN]);
    const shown = lines.slice(0, SIZE_LINES);
    const last = shown.at(-1);
    if (last && lines.length > shown.length)
      shown[shown.length - 1] = {
        ...last,
        text: shortened(typeface, { ...last, text: `${last.text} …` }, wide),
      };
    return { lines: shown, height: SIZE_LINES * leading(PLAIN) };
  };
  /** The names with the line of the number, which is set apart, under the project. */
  const nameHeight = (wide: number): number =>
    leading(STRONG) + (1 + SIZE_LINES) * leading(PLAIN) + aboutColumn(wide, words).height;

  // Across: the square, the scale words, the names, then cautions and pictures while there is room.
  const scaleX = SQUARE_IN + GAP_IN;
  const wideEnough = width >= scaleX + SCALE_WIDTH_IN + GAP_IN + NAME_WIDTH_IN;
  const scaleWidth = Math.min(SCALE_WIDTH_IN, width - scaleX);
  const nameX = wideEnough ? scaleX + SCALE_WIDTH_IN + GAP_IN : 0;
  const rest = width - nameX - NAME_WIDTH_IN - GAP_IN;
  const beside = wideEnough && rest >= CAUTION_WIDTH_IN;
  const withPicture = rest >= CAUTION_WIDTH_IN + GAP_IN + PICTURE_IN;
  const nameWidth = wideEnough ? NAME_WIDTH_IN : width;
  const cautionX = beside ? nameX + NAME_WIDTH_IN + GAP_IN : 0;
  const cautionWidth = beside ? Math.min(2.4, withPicture ? rest - GAP_IN - PICTURE_IN : rest) : width;

  const scale = column(
    scaleWidth,
    [phrase('Print at actual size, 100%, then measure.'), { ...STRONG, size: times * 7.5 * PT }],
    [SHRUNK_WORDS[words.legend.unit], PLAIN],
  );
  const cautions = column(cautionWidth, ...CAUTIONS.map((text) => [text, FINE] as const));
  const wholeKey = keyOf(words.key, width, PLAIN, typeface);
  const legend = legendOf(width, words.legend, typeface, times);
  const keyHeight = wholeKey.height === 0 ? 0 : wholeKey.height + 0.06;

  const lineRoom = 0.26;
  let rowHeight = Math.max(SQUARE_IN + 2 * INSET_IN, scale.height + lineRoom);
  if (wideEnough) rowHeight = Math.max(rowHeight, nameHeight(nameWidth));
  if (beside) rowHeight = Math.max(rowHeight, cautions.height);
  const nameY = wideEnough ? 0 : rowHeight + 0.08;
  const stackedEnd = wideEnough ? rowHeight : nameY + nameHeight(nameWidth);
  const cautionY = beside ? 0 : stackedEnd + 0.06;
  const rows = beside ? stackedEnd : cautionY + cautions.height;
  const top = HEAD_IN + legend.height + keyHeight;
  const numberY = top + nameY + leading(STRONG);

  const write = ({ lines }: Column, x: number, y: number): Mark[] => {
    let baseline = y;
    return lines.map((line) => {
      const mark = textAt(typeface, line, [x, baseline + 0.78 * line.size]);
      baseline += leading(line);
      return mark;
    });
  };

  return {
    height: top + rows,
    halfLineAt: [whole - LINE_DOWN_SIZE.width, top],
    lineDownAt: hasLine ? [whole - LINE_DOWN_SIZE.width, top + rows - LINE_DOWN_SIZE.height] : null,
    number: { at: [nameX, numberY + 0.78 * PLAIN.size], widest: nameWidth, size: PLAIN.size },
    draw: (sheet) => {
      const first = sheet.isFirst;
      const sizes = sizeColumn(nameWidth, sheet.sizes);
      const testLineY = top + SQUARE_IN + INSET_IN;
      return [
        {
          kind: 'line',
          pen: 'rule',
          points: [
            [0, HEAD_IN / 2],
            [width, HEAD_IN / 2],
          ],
        },
        ...legend.marks.map((mark) => shiftMark(mark, 0, HEAD_IN)),
        ...keyOn(sheet).marks.map((mark) => shiftMark(mark, 0, HEAD_IN + legend.height)),
        ...testSquare([INSET_IN, top + INSET_IN], typeface, words.legend.unit),
        ...write(scale, scaleX, top),
        ...testLine([scaleX, testLineY], typeface),
        ...write(project(nameWidth), nameX, top + nameY),
        ...write(sizes, nameX, numberY + leading(PLAIN)),
        ...write(aboutColumn(nameWidth, sheet), nameX, numberY + (1 + sizes.lines.length) * leading(PLAIN)),
        ...(first ? write(cautions, cautionX, top + cautionY) : []),
      ];
    },
    pictureRoom: (first) => {
      const taken = first && beside ? cautionX + cautionWidth + GAP_IN : nameX + NAME_WIDTH_IN + GAP_IN;
      const x = wideEnough ? taken : width;
      return { x, y: top, width: Math.max(0, width - x), height: SQUARE_IN + 2 * INSET_IN };
    },
  };
}

interface SetKey {
  readonly height: number;
  readonly marks: readonly Mark[];
}

/** From one entry of the key to the next, and size of a sample of hatching, inches. */
const KEY_GAP_IN = 0.16;
const HATCH_SAMPLE = { width: 0.32, height: 0.2 } as const;

/** Key entries in lines as wide as the band, entries kept whole. */
function keyOf(entries: readonly KeyEntry[], width: number, style: Styled, typeface: Typeface): SetKey {
  const marks: Mark[] = [];
  const lineHigh = Math.max(
    leading(style),
    entries.some(({ hatch }) => hatch !== undefined) ? HATCH_SAMPLE.height + 0.03 : 0,
  );
  let [x, y] = [0, 0];
  const middle = (lineHigh - leading(style)) / 2;
  for (const { text, hatch } of entries) {
    const sample = hatch === undefined ? 0 : HATCH_SAMPLE.width + 0.05;
    const line = { ...style, text: shortened(typeface, { text, ...style }, width - sample) };
    const long = sample + lengthOf(typeface, line);
    if (x > 0 && x + long > width) [x, y] = [0, y + lineHigh];
    if (hatch !== undefined)
      marks.push(...hatchSample(hatch, HATCH_SAMPLE).map((mark) => shiftMark(mark, x, y)));
    marks.push(textAt(typeface, line, [x + sample, y + middle + 0.78 * style.size]));
    x += long + KEY_GAP_IN;
  }
  return { height: entries.length === 0 ? 0 : y + lineHigh, marks };
}

/** The test square, from line middle to line middle: 1 in, told in the project's unit. */
export function testSquare([x, y]: Point, typeface: Typeface, unit: LengthUnit): Mark[] {
  const words = stack(typeface, [
    [formatLength(SQUARE_IN, unit), 'semibold', unit === 'mm' ? 9 : 10],
    [phrase('test square'), 'regular', 6.5],
  ]);
  return [
    {
      kind: 'polygon',
      pen: 'measure',
      ring: [
        [x, y],
        [x + SQUARE_IN, y],
        [x + SQUARE_IN, y + SQUARE_IN],
        [x, y + SQUARE_IN],
      ],
    },
    ...blockMarks(words, [x + SQUARE_IN / 2, y + SQUARE_IN / 2]),
  ];
}

/** The 50 mm test line with its end ticks, from the middle of one to the middle of the other. */
function testLine([x, y]: Point, typeface: Typeface): Mark[] {
  const from = x + INSET_IN;
  const middle = y - TICK_IN;
  const words = stack(typeface, [[phrase('50 mm across'), 'regular', 6.5]]);
  return [
    ...tickedLine([from, middle], [1, 0]),
    ...blockMarks(words, [from + TEST_LINE_IN / 2, middle - 0.035 - words.height / 2]),
  ];
}

/** Half the length of the ticks at the ends of a test line, inches. */
const TICK_IN = 0.05;

function tickedLine([x, y]: Point, [ux, uy]: Point, long = TEST_LINE_IN): Mark[] {
  const line = (points: readonly Point[]): Mark => ({ kind: 'line', pen: 'measure', points });
  const end: Point = [x + long * ux, y + long * uy];
  const across = ([px, py]: Point): Mark =>
    line([
      [px - TICK_IN * uy, py - TICK_IN * ux],
      [px + TICK_IN * uy, py + TICK_IN * ux],
    ]);
  return [line([[x, y], end]), across([x, y]), across(end)];
}

/** Room that the 50 mm line down takes with its words, inches. */
export const LINE_DOWN_SIZE = { width: 0.24, height: TEST_LINE_IN + 2 * INSET_IN } as const;

/** The 50 mm test line down, or one of half that length, from the upper left corner of its room. */
export function testLineDown(typeface: Typeface, share: 1 | 0.5 = 1): Mark[] {
  const long = share * TEST_LINE_IN;
  const words = stack(typeface, [[phrase('{share} mm down', { share: 50 * share }), 'regular', 6.5]]);
  const x = LINE_DOWN_SIZE.width - TICK_IN - INSET_IN;
  return [
    ...tickedLine([x, INSET_IN], [0, 1], long),
    ...blockMarks(words, [x - 0.035 - words.height / 2, INSET_IN + long / 2], -Math.PI / 2),
  ];
}

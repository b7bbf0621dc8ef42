import { turnedByQuarters } from '../geometry/nest.ts';
import type { Point, Ring } from '../geometry/point.ts';
import type { Face } from './type/typeface.ts';

/** One point of type, in inches (ISO 32000-1 8.3.2.3: default user space has 72 units to the inch). */
export const PT = 1 / 72;

/**
 * What is drawn with a line, by its meaning. A pen says how it looks once, for every output; a cutting machine
 * can tell by it what to cut, what to score and what to draw.
 * - `seam`: a line to sew on, inside a foundation. `edge`: its outer sewing line.
 * - `unit`: a seam already sewn, inside the finished unit that a paper starts from.
 * - `trim`: the outside of the allowance. `tick`: where a sewing line runs on across the allowance.
 * - `registration`: crosses, and their ticks. `leader`: from a patch to a label beside it.
 * - `hatch`: thin lines that show a fabric, under all others. `grain`: an arrow along the straight grain.
 * - `measure`: the test square and test lines. `picture`: the small front view. `rule`: quiet divisions of a sheet.
 * - `tile-trim` and `tile-cross`: where the sheets of one large foundation are cut and laid together.
 * - `patch`: an edge of a patch in a drawing to look at. `join`: a seam that unites units, there.
 * - `sample-…`: the lines and signs of a foundation as its legend shows them; never cut or scored.
 * - `code`: the squares of a QR code, filled and not drawn round.
 * - `frame`: the outline of a block or unit there, and of a box to tick. `cut-apart`: where a label is cut apart.
 */
export type PenName =
  | 'hatch'
  | 'seam'
  | 'edge'
  | 'unit'
  | 'trim'
  | 'tick'
  | 'registration'
  | 'leader'
  | 'grain'
  | 'measure'
  | 'picture'
  | 'rule'
  | 'tile-trim'
  | 'tile-cross'
  | 'patch'
  | 'join'
  | 'frame'
  | 'cut-apart'
  | 'sample-seam'
  | 'sample-trim'
  | 'sample-unit'
  | 'sample-sign'
  | 'code';

export interface Pen {
  /** Line width in inches; what has none is filled only. */
  readonly width: number;
  /** Lengths of dashes and gaps in turn, inches; empty for a solid line. */
  readonly dash: readonly number[];
  /** 0 black … 1 white. Lines to sew or cut on are black: a printer makes dots of a thin grey line. */
  readonly grey: number;
}

/** How dark everything is drawn. `grey`: for drafts, with less ink; still read well (contrast 4.8 to 1 on white). */
export type Tone = 'black' | 'grey';

/** What black comes out as in a draft; what is lighter keeps its distance to it. 0 black … 1 white. */
const DRAFT_GREY = 0.44;

/** A level of grey in a tone. */
export const toned = (grey: number, tone: Tone | undefined): number =>
  tone === 'grey' ? DRAFT_GREY + grey * (0.75 - DRAFT_GREY) : grey;

const FOUNDATION_PENS = {
  seam: { width: 0.6 * PT, dash: [], grey: 0 },
  unit: { width: 0.4 * PT, dash: [1 * PT, 2 * PT], grey: 0 },
  trim: { width: 0.5 * PT, dash: [5 * PT, 3 * PT], grey: 0 },
  registration: { width: 0.5 * PT, dash: [], grey: 0 },
} as const satisfies Partial<Record<PenName, Pen>>;

export const PENS: Readonly<Record<PenName, Pen>> = {
  hatch: { width: 0.3 * PT, dash: [], grey: 0.5 },
  seam: FOUNDATION_PENS.seam,
  edge: { width: 0.8 * PT, dash: [], grey: 0 },
  unit: FOUNDATION_PENS.unit,
  trim: FOUNDATION_PENS.trim,
  tick: { width: 0.5 * PT, dash: [], grey: 0 },
  registration: FOUNDATION_PENS.registration,
  leader: { width: 0.35 * PT, dash: [], grey: 0 },
  grain: { width: 1.1 * PT, dash: [], grey: 0.35 },
  measure: { width: 0.5 * PT, dash: [], grey: 0 },
  picture: { width: 0.4 * PT, dash: [], grey: 0 },
  rule: { width: 0.3 * PT, dash: [], grey: 0.45 },
  'tile-trim': { width: 0.5 * PT, dash: [2 * PT, 2 * PT], grey: 0 },
  'tile-cross': { width: 0.5 * PT, dash: [], grey: 0 },
  patch: { width: 0.35 * PT, dash: [], grey: 0.25 },
  join: { width: 1.8 * PT, dash: [5 * PT, 2.5 * PT], grey: 0 },
  frame: { width: 0.9 * PT, dash: [], grey: 0 },
  'cut-apart': { width: 0.4 * PT, dash: [3 * PT, 3 * PT], grey: 0.4 },
  'sample-seam': FOUNDATION_PENS.seam,
  'sample-trim': FOUNDATION_PENS.trim,
  'sample-unit': FOUNDATION_PENS.unit,
  'sample-sign': FOUNDATION_PENS.registration,
  code: { width: 0, dash: [], grey: 0 },
};

export interface LineMark {
  readonly kind: 'line';
  readonly pen: PenName;
  /** Two or more points in turn. */
  readonly points: readonly Point[];
}

export interface PolygonMark {
  readonly kind: 'polygon';
  readonly pen: PenName;
  readonly ring: Ring;
  /** Colour of what it encloses, `#rrggbb`; not filled when absent. Fills lie under every line and text, in turn. */
  readonly fill?: string;
  /** A picture of cloth over that colour; where an output cannot show it, the colour is what is seen. */
  readonly print?: Print;
}

/** A picture laid side by side with itself. Inches. */
export interface Print {
  /** `data:image/jpeg;base64,…`, or png or webp. */
  readonly data: string;
  /** Where the upper left corner of one of them lies. */
  readonly at: Point;
  /** Of one of them. */
  readonly width: number;
  readonly height: number;
  /** Quarters clockwise about `at`. */
  readonly quarterTurns: number;
}

/** A ring around a spot, or a filled dot. */
export interface CircleMark {
  readonly kind: 'circle';
  readonly pen: PenName;
  readonly at: Point;
  readonly radius: number;
  readonly filled: boolean;
}

export interface TextMark {
  readonly kind: 'text';
  /** Where the baseline begins. */
  readonly at: Point;
  /** Degrees clockwise from upright. */
  readonly turn: number;
  readonly face: Face;
  /** Type size in inches. */
  readonly size: number;
  readonly text: string;
  /** Measured length along the baseline, inches. */
  readonly width: number;
}

/**
 * One thing drawn. Inches, y down. A sheet is a list of these, and every output (PDF, SVG, the screen) draws
 * the list and nothing else.
 */
export type Mark = LineMark | PolygonMark | CircleMark | TextMark;

/** How a drawing lies on its sheet: turned by quarters (or a fraction of them) clockwise about its own origin, then moved. */
export interface Placement {
  readonly at: Point;
  readonly quarterTurns: number;
}

/** A ring of a drawing, where the placement puts it. */
export const placedRing = (ring: Ring, { at, quarterTurns }: Placement): Ring =>
  ring.map((point): Point => {
    const [x, y] = turnedByQuarters(point, quarterTurns);
    return [at[0] + x, at[1] + y];
  });

/** A mark of a drawing, where the placement puts it. */
export function placeMark(mark: Mark, { at, quarterTurns }: Placement): Mark {
  const moved = (point: Point): Point => {
    const [x, y] = turnedByQuarters(point, quarterTurns);
    return [at[0] + x, at[1] + y];
  };
  switch (mark.kind) {
    case 'line':
      return { ...mark, points: mark.points.map(moved) };
    case 'polygon':
      return {
        ...mark,
        ring: mark.ring.map(moved),
        ...(mark.print && {
          print: {
            ...mark.print,
            at: moved(mark.print.at),
            quarterTurns: mark.print.quarterTurns + quarterTurns,
          },
        }),
      };
    case 'circle':
      return { ...mark, at: moved(mark.at) };
    case 'text':
      return { ...mark, at: moved(mark.at), turn: mark.turn + 90 * quarterTurns };
  }
}

/** A mark moved across and down. */
export const shiftMark = (mark: Mark, dx: number, dy: number): Mark =>
  placeMark(mark, { at: [dx, dy], quarterTurns: 0 });

/** A mark of a drawing that is scaled across and down from its origin, by a few per cent: type keeps its shape. */
export function scaleMark(mark: Mark, [across, down]: Point): Mark {
  const scaled = ([x, y]: Point): Point => [across * x, down * y];
  switch (mark.kind) {
    case 'line':
      return { ...mark, points: mark.points.map(scaled) };
    case 'polygon':
      return {
        ...mark,
        ring: mark.ring.map(scaled),
        ...(mark.print && { print: scaledPrint(mark.print, [across, down]) }),
      };
    case 'circle':
      return { ...mark, at: scaled(mark.at), radius: Math.sqrt(across * down) * mark.radius };
    case 'text': {
      const smaller = Math.min(across, down);
      return { ...mark, at: scaled(mark.at), size: smaller * mark.size, width: smaller * mark.width };
    }
  }
}

function scaledPrint(print: Print, [across, down]: Point): Print {
  const isOnItsSide = print.quarterTurns % 2 !== 0;
  return {
    ...print,
    at: [across * print.at[0], down * print.at[1]],
    width: (isOnItsSide ? down : across) * print.width,
    height: (isOnItsSide ? across : down) * print.height,
  };
}

/** Corners of the box a text covers: from its baseline up by `up` and down by `down`, in inches. */
export function textCorners(mark: TextMark, up: number, down: number): readonly [Point, Point, Point, Point] {
  const angle = (mark.turn * Math.PI) / 180;
  const along: Point = [Math.cos(angle), Math.sin(angle)];
  const corner = (x: number, y: number): Point => [
    mark.at[0] + x * along[0] - y * along[1],
    mark.at[1] + x * along[1] + y * along[0],
  ];
  return [corner(0, -up), corner(mark.width, -up), corner(mark.width, down), corner(0, down)];
}

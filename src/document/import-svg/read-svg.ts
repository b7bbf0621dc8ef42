import type { Point, Segment } from '../../geometry/point.ts';
import { type Box, boxOf, signedArea } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import { readLength, readNumbers, TRUE_UNITS } from './numbers.ts';
import { type Run, readPath } from './path.ts';
import { after, applied, IDENTITY, type Matrix, readTransform } from './transform.ts';
import { readXml } from './xml.ts';

/** What a file holds that becomes no line. */
export type LeftOutKind =
  | 'text'
  | 'picture'
  | 'copy'
  | 'script'
  | 'foreign'
  | 'hidden'
  | 'background'
  | 'unreadable'
  | 'part-of-path'
  | 'curve';

/** How sure the file is of its size: on paper, in pixels that it names, or not at all. */
export type StatedSize = 'true' | 'pixels' | 'none';

export interface SvgDrawing {
  /** CSS pixels, y down, with every transform applied. */
  readonly runs: readonly Run[];
  readonly skipped: readonly Segment[];
  /** How many curved stretches the file has, whether drawn as chords or left out. */
  readonly curves: number;
  readonly leftOut: ReadonlyMap<LeftOutKind, number>;
  readonly stated: StatedSize;
  /** What the file shows of itself, where it says so. */
  readonly page: Box | null;
}

export type ReadSvg =
  | { readonly ok: true; readonly drawing: SvgDrawing }
  /** A whole sentence for the person who chose the file. */
  | { readonly ok: false; readonly error: string };

/** Largest file that is read, in characters, and most points a drawing may have: far beyond any block. */
export const MAX_SVG_LENGTH = 30_000_000;
export const MAX_POINTS = 200_000;

/** Elements whose insides belong to the drawing. */
const GROUPS: ReadonlySet<string> = new Set(['svg', 'g', 'a', 'switch']);

/** Elements left out with all they hold, and what they count as; null for what draws nothing by itself. */
const LEFT_OUT: ReadonlyMap<string, LeftOutKind | null> = new Map<string, LeftOutKind | null>([
  ['text', 'text'],
  ['image', 'picture'],
  ['use', 'copy'],
  ['script', 'script'],
  ['foreignObject', 'foreign'],
  ['defs', null],
  ['symbol', null],
  ['clipPath', null],
  ['mask', null],
  ['pattern', null],
  ['marker', null],
  ['linearGradient', null],
  ['radialGradient', null],
  ['filter', null],
  ['metadata', null],
  ['style', null],
  ['title', null],
  ['desc', null],
]);

/** What the insides of an element inherit. */
interface Context {
  readonly matrix: Matrix;
  readonly isHidden: boolean;
  readonly stroke: string;
  readonly fill: string;
}

/**
 * Reads the straight lines of an SVG file. Only shapes are looked at: path, line, polyline, polygon, rect, circle
 * and ellipse, in groups, with nested transforms and view boxes. Nothing is run, fetched, or put on a page.
 * `chords`: straight stretches for each curved one (each quarter of a circle); 0 leaves curves out. `onShare` is told
 * now and then how much of the text has been read, 0 to 1. Cost: O(length of the text).
 */
export function readSvg(text: string, chords: number, onShare?: (share: number) => void): ReadSvg {
  if (text.length > MAX_SVG_LENGTH)
    return refuse(
      phrase('It is larger than {maxSvgLength} million characters, far too large for a block.', {
        maxSvgLength: MAX_SVG_LENGTH / 1e6,
      }),
    );
  if (text.startsWith('\u001f'))
    return refuse(phrase('It is compressed (SVGZ). Save it as plain SVG and try again.'));
  const reader = new Reader(chords);
  const fault = readXml(
    text,
    (step) => (step.kind === 'begin' ? reader.begin(step.name, step.attributes) : reader.end()),
    onShare,
  );
  if (!reader.isSvg) return refuse(phrase('It is not an SVG drawing.'));
  if (reader.points > MAX_POINTS)
    return refuse(
      phrase('It has more than {maxPoints, number} points, far too many for a block.', {
        maxPoints: MAX_POINTS,
      }),
    );
  if (fault !== null)
    return refuse(
      phrase('Its text {message}, so it cannot be trusted to be whole.', { message: fault.message }),
    );
  return { ok: true, drawing: reader.drawing() };
}

const refuse = (error: string): ReadSvg => ({ ok: false, error });

class Reader {
  isSvg = false;
  points = 0;
  private readonly contexts: Context[] = [];
  /** Levels inside an element that is left out. */
  private skipping = 0;
  private readonly runs: Run[] = [];
  private readonly skipped: Segment[] = [];
  private readonly leftOut = new Map<LeftOutKind, number>();
  private curves = 0;
  private stated: StatedSize = 'none';
  private page: Box | null = null;

  constructor(private readonly chords: number) {}

  drawing(): SvgDrawing {
    const { runs, skipped, curves, leftOut, stated, page } = this;
    return { runs, skipped, curves, leftOut, stated, page };
  }

  /** False when nothing more needs reading. */
  begin(name: string, attributes: ReadonlyMap<string, string>): boolean {
    if (!this.isSvg && name !== 'svg') return false;
    this.isSvg = true;
    if ([...attributes.keys()].some((key) => /^on[a-z]+$/i.test(key))) this.count('script');
    if (this.skipping > 0) {
      if (name === 'script') this.count('script');
      this.skipping++;
      return true;
    }
    const around = this.contexts.at(-1) ?? {
      matrix: IDENTITY,
      isHidden: false,
      stroke: 'none',
      fill: 'black',
    };
    const inner = this.inherit(around, attributes);
    if (GROUPS.has(name)) {
      const view = name === 'svg' ? this.enterView(attributes, this.contexts.length === 0) : IDENTITY;
      if (inner !== null && view !== null) {
        this.contexts.push({ ...inner, matrix: after(inner.matrix, view) });
        return true;
      }
      this.count('unreadable');
      this.skipping = 1;
      return true;
    }
    const kind = LEFT_OUT.get(name);
    if (kind) this.count(kind);
    else if (kind === undefined) this.shape(name, attributes, inner);
    // Shapes hold nothing that draws, and what is not known by name is no shape.
    this.skipping = 1;
    return this.points <= MAX_POINTS;
  }

  end(): boolean {
    if (this.skipping > 0) this.skipping--;
    else this.contexts.pop();
    return true;
  }

  private count(kind: LeftOutKind, times = 1): void {
    if (times > 0) this.leftOut.set(kind, (this.leftOut.get(kind) ?? 0) + times);
  }

  private inherit(around: Context, attributes: ReadonlyMap<string, string>): Context | null {
    const own = readTransform(attributes.get('transform'));
    if (own === null) return null;
    const style = attributes.get('style') ?? '';
    const property = (name: string): string | undefined => {
      const found =
        new RegExp(`(?:^|;)\\s*${name}\\s*:([^;]*)`, 'i').exec(style)?.[1] ?? attributes.get(name);
      const value = found?.trim().toLowerCase();
      return value === 'inherit' || value === '' ? undefined : value;
    };
    const visibility = property('visibility');
    return {
      matrix: after(around.matrix, own),
      isHidden:
        property('display') === 'none' ||
        visibility === 'hidden' ||
        visibility === 'collapse' ||
        (around.isHidden && visibility !== 'visible'),
      // What a style sheet says is not known: a shape with a class may well have a line round it.
      stroke: property('stroke') ?? (attributes.has('class') ? 'unknown' : around.stroke),
      fill: property('fill') ?? (attributes.has('class') ? 'unknown' : around.fill),
    };
  }

  /** The matrix of an `svg` element: its place, and its view box laid into its size. Null when it cannot be. */
  private enterView(attributes: ReadonlyMap<string, string>, isRoot: boolean): Matrix | null {
    const width = readLength(attributes.get('width'));
    const height = readLength(attributes.get('height'));
    const box = readNumbers(attributes.get('viewBox') ?? '');
    const hasBox = box !== null && box.length === 4 && box[2]! > 0 && box[3]! > 0;
    if (isRoot) {
      const units = [width?.unit, height?.unit].filter((unit) => unit !== undefined && unit !== '');
      if (units.length > 0) this.stated = units.some((unit) => TRUE_UNITS.has(unit!)) ? 'true' : 'pixels';
    }
    const [x, y] = isRoot
      ? [0, 0]
      : [readLength(attributes.get('x'))?.px ?? 0, readLength(attributes.get('y'))?.px ?? 0];
    if (!hasBox) {
      if (isRoot && width !== null && height !== null)
        this.page = { minX: 0, minY: 0, maxX: width.px, maxY: height.px };
      return [1, 0, 0, 1, x, y];
    }
    const [left, top, across, down] = box as [number, number, number, number];
    // One size alone carries over to the other; without any, a unit of the view box is a pixel.
    const widthPx = width?.px ?? (height === null ? across : (height.px * across) / down);
    const heightPx = height?.px ?? (widthPx * down) / across;
    if (!(widthPx > 0) || !(heightPx > 0)) return null;
    if (isRoot) this.page = { minX: 0, minY: 0, maxX: widthPx, maxY: heightPx };
    let [sx, sy] = [widthPx / across, heightPx / down];
    let [shiftX, shiftY] = [0, 0];
    const [align = '', fit] = (attributes.get('preserveAspectRatio') ?? 'xMidYMid').trim().split(/\s+/);
    if (align !== 'none') {
      const scale = fit === 'slice' ? Math.max(sx, sy) : Math.min(sx, sy);
      const share = (part: string): number => (part.includes('Min') ? 0 : part.includes('Max') ? 1 : 0.5);
      shiftX = (widthPx - across * scale) * share(align.slice(0, 4));
      shiftY = (heightPx - down * scale) * share(align.slice(4));
      [sx, sy] = [scale, scale];
    }
    return [sx, 0, 0, sy, x + shiftX - left * sx, y + shiftY - top * sy];
  }

  private shape(name: string, attributes: ReadonlyMap<string, string>, context: Context | null): void {
    const data = pathOf(name, attributes);
    if (data === undefined) return;
    if (context === null || data === null) {
      this.count('unreadable');
      return;
    }
    if (context.isHidden || (isNothing(context.stroke) && isNothing(context.fill))) {
      this.count('hidden');
      return;
    }
    const path = readPath(data, this.chords, MAX_POINTS - this.points);
    const placed = (points: readonly Point[]): readonly Point[] =>
      points.map((p) => applied(context.matrix, p));
    const runs = path.runs.map(({ points, isClosed }) => ({ points: placed(points), isClosed }));
    if (runs.some(({ points }) => points.some((p) => !Number.isFinite(p[0]) || !Number.isFinite(p[1])))) {
      this.count('unreadable');
      return;
    }
    if (isNothing(context.stroke) && this.coversPage(runs)) {
      this.count('background');
      return;
    }
    if (path.isBroken) this.count(runs.length > 0 ? 'part-of-path' : 'unreadable');
    this.points += runs.reduce((sum, { points }) => sum + points.length, 0);
    this.curves += path.curves;
    if (this.chords < 1) this.count('curve', path.curves);
    if (this.points > MAX_POINTS) return;
    for (const run of runs) this.runs.push(run);
    for (const [a, b] of path.skipped) {
      const [p, q] = [applied(context.matrix, a), applied(context.matrix, b)];
      if ([...p, ...q].every(Number.isFinite)) this.skipped.push([p, q]);
    }
  }

  /** A filled shape without a line round it, over the whole page: its colour, not a patch. */
  private coversPage(runs: readonly Run[]): boolean {
    const only = runs[0];
    if (this.page === null || runs.length !== 1 || only === undefined || only.points.length > 5) return false;
    const box = boxOf(only.points);
    const area = (box.maxX - box.minX) * (box.maxY - box.minY);
    if (!(Math.abs(signedArea(only.points)) > 0.99 * area)) return false;
    const slack = 0.002 * (this.page.maxX - this.page.minX);
    return (
      box.minX <= this.page.minX + slack &&
      box.minY <= this.page.minY + slack &&
      box.maxX >= this.page.maxX - slack &&
      box.maxY >= this.page.maxY - slack
    );
  }
}

const isNothing = (paint: string): boolean => paint === 'none' || paint === 'transparent';

/** A shape as the data of a path; null when it cannot be read, undefined when it is no shape. */
function pathOf(name: string, attributes: ReadonlyMap<string, string>): string | null | undefined {
  /** A length that may be missing; NaN when what is written cannot be read. */
  const length = (key: string, otherwise = 0): number =>
    attributes.has(key) ? (readLength(attributes.get(key))?.px ?? Number.NaN) : otherwise;
  const whole = (data: string, ...numbers: readonly number[]): string | null =>
    numbers.every(Number.isFinite) ? data : null;
  switch (name) {
    case 'path':
      return attributes.get('d') ?? '';
    case 'line': {
      const [x1, y1, x2, y2] = [length('x1'), length('y1'), length('x2'), length('y2')];
      return whole(`M${x1} ${y1}L${x2} ${y2}`, x1, y1, x2, y2);
    }
    case 'polyline':
    case 'polygon': {
      const numbers = readNumbers(attributes.get('points') ?? '');
      if (numbers === null) return null;
      const even = numbers.slice(0, numbers.length - (numbers.length % 2));
      return even.length === 0 ? '' : `M${even.join(' ')}${name === 'polygon' ? 'Z' : ''}`;
    }
    case 'rect': {
      const [x, y, width, height] = [length('x'), length('y'), length('width'), length('height')];
      const rx = Math.min(width / 2, Math.abs(length('rx', length('ry'))));
      const ry = Math.min(height / 2, Math.abs(length('ry', length('rx'))));
      if (width < 0 || height < 0) return null;
      const [right, bottom] = [x + width, y + height];
      const data =
        rx > 0 && ry > 0
          ? `M${x + rx} ${y}H${right - rx}A${rx} ${ry} 0 0 1 ${right} ${y + ry}V${bottom - ry}A${rx} ${ry} 0 0 1 ${right - rx} ${bottom}H${x + rx}A${rx} ${ry} 0 0 1 ${x} ${bottom - ry}V${y + ry}A${rx} ${ry} 0 0 1 ${x + rx} ${y}Z`
          : `M${x} ${y}H${right}V${bottom}H${x}Z`;
      return whole(data, x, y, width, height, rx, ry);
    }
    case 'circle':
    case 'ellipse': {
      const [cx, cy] = [length('cx'), length('cy')];
      const [rx, ry] = name === 'circle' ? [length('r'), length('r')] : [length('rx'), length('ry')];
      if (rx === 0 || ry === 0) return '';
      const arc = (x: number, y: number): string => `A${rx} ${ry} 0 0 1 ${x} ${y}`;
      return whole(
        `M${cx + rx} ${cy}${arc(cx, cy + ry)}${arc(cx - rx, cy)}${arc(cx, cy - ry)}${arc(cx + rx, cy)}Z`,
        cx,
        cy,
        rx,
        ry,
      );
    }
    default:
      return undefined;
  }
}

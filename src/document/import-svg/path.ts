import type { Point, Segment } from '../../geometry/point.ts';
import { distance } from '../../geometry/ring.ts';
import { matchNumber } from './numbers.ts';

/** A run of straight stretches, in the drawing's own units. */
export interface Run {
  readonly points: readonly Point[];
  readonly isClosed: boolean;
}

export interface ReadPath {
  readonly runs: readonly Run[];
  /** How many curved stretches were met, drawn as chords or left out. */
  readonly curves: number;
  /** From where to where the curves run that were left out. */
  readonly skipped: readonly Segment[];
  /** The data stops making sense somewhere; what stands before counts, as the standard asks. */
  readonly isBroken: boolean;
}

/** The last control point of a curve, and which smooth curve may mirror it. */
interface Control {
  readonly of: 'c' | 'q';
  readonly at: Point;
}

/** How many numbers each command takes. */
const TAKES: ReadonlyMap<string, number> = new Map([
  ['m', 2],
  ['l', 2],
  ['h', 1],
  ['v', 1],
  ['c', 6],
  ['s', 4],
  ['q', 4],
  ['t', 2],
  ['a', 7],
  ['z', 0],
]);

/**
 * Reads the data of a path. Every curve becomes `chords` straight stretches with their ends on it; with 0 it is left
 * out, and the path goes on in a new run where the curve ends. What comes after `most` points is not read; they are
 * then a few more than that. Source: SVG 1.1, chapter 8; arcs, appendix F.6.
 */
export function readPath(data: string, chords: number, most = Number.POSITIVE_INFINITY): ReadPath {
  const runs: Run[] = [];
  const skipped: Segment[] = [];
  let points: Point[] = [];
  let curves = 0;
  let here: Point = [0, 0];
  let start: Point = [0, 0];
  /** The last control point, for the smooth curves that mirror it, and of which kind. */
  let control = null as Control | null;
  let at = 0;
  let letter = '';
  let isBegun = false;
  let count = 0;
  const finish = (isClosed: boolean): void => {
    if (points.length > 1) runs.push({ points, isClosed });
    points = [];
  };
  const lineTo = (to: Point): void => {
    if (points.length === 0) points.push(here);
    points.push(to);
    here = to;
    count++;
  };
  const curveTo = (to: Point, on: (t: number) => Point): void => {
    curves++;
    if (chords < 1) {
      finish(false);
      skipped.push([here, to]);
      here = to;
      return;
    }
    for (let k = 1; k < chords; k++) lineTo(on(k / chords));
    lineTo(to);
  };
  const done = (isBroken: boolean): ReadPath => {
    finish(false);
    return { runs, curves, skipped, isBroken };
  };
  for (;;) {
    at = pastBlanks(data, at);
    if (at >= data.length || count > most) return done(false);
    const sign = data[at]!;
    if (/[a-z]/i.test(sign)) {
      letter = sign;
      at++;
      if (!TAKES.has(letter.toLowerCase())) return done(true);
      if (!isBegun && letter.toLowerCase() !== 'm') return done(true);
      isBegun = true;
    } else if (letter === '' || letter.toLowerCase() === 'z') return done(true);
    const kind = letter.toLowerCase();
    const isRelative = letter === kind;
    const read = readValues(data, at, kind);
    if (read === null) return done(true);
    at = read.end;
    const v = read.values;
    const point = (i: number): Point =>
      isRelative ? [here[0] + v[i]!, here[1] + v[i + 1]!] : [v[i]!, v[i + 1]!];
    const mirrored = (of: 'c' | 'q'): Point =>
      control?.of === of ? [2 * here[0] - control.at[0], 2 * here[1] - control.at[1]] : here;
    let nextControl: Control | null = null;
    switch (kind) {
      case 'm':
        finish(false);
        here = point(0);
        start = here;
        // What follows without a letter of its own is drawn.
        letter = isRelative ? 'l' : 'L';
        break;
      case 'l':
        lineTo(point(0));
        break;
      case 'h':
        lineTo([isRelative ? here[0] + v[0]! : v[0]!, here[1]]);
        break;
      case 'v':
        lineTo([here[0], isRelative ? here[1] + v[0]! : v[0]!]);
        break;
      case 'c':
      case 's': {
        const first = kind === 'c' ? point(0) : mirrored('c');
        const second = point(kind === 'c' ? 2 : 0);
        const to = point(kind === 'c' ? 4 : 2);
        nextControl = { of: 'c', at: second };
        curveTo(to, cubic(here, first, second, to));
        break;
      }
      case 'q':
      case 't': {
        const bend = kind === 'q' ? point(0) : mirrored('q');
        const to = point(kind === 'q' ? 2 : 0);
        nextControl = { of: 'q', at: bend };
        curveTo(to, quadratic(here, bend, to));
        break;
      }
      case 'a': {
        const to = point(5);
        const arc = arcBetween(here, to, [v[0]!, v[1]!], v[2]!, v[3] !== 0, v[4] !== 0);
        if (arc === null) lineTo(to);
        else curveTo(to, arc);
        break;
      }
      default:
        // A path that came back to its start by itself is closed without a stretch of no length.
        if (points.length > 1 && distance(points[0]!, points.at(-1)!) === 0) points.pop();
        finish(true);
        here = start;
    }
    control = nextControl;
    if (!Number.isFinite(here[0]) || !Number.isFinite(here[1])) {
      points.pop();
      return done(true);
    }
  }
}

function pastBlanks(data: string, at: number): number {
  while (at < data.length && /[\s,]/.test(data[at]!)) at++;
  return at;
}

/** The numbers of one command; the two flags of an arc are single digits that may stand without a gap. */
function readValues(
  data: string,
  start: number,
  kind: string,
): { readonly values: readonly number[]; readonly end: number } | null {
  const values: number[] = [];
  let at = start;
  for (let i = 0; i < TAKES.get(kind)!; i++) {
    at = pastBlanks(data, at);
    if (kind === 'a' && (i === 3 || i === 4)) {
      const flag = data[at];
      if (flag !== '0' && flag !== '1') return null;
      values.push(Number(flag));
      at++;
      continue;
    }
    const found = matchNumber(data, at);
    if (found === null) return null;
    values.push(found.value);
    at = found.end;
  }
  return { values, end: at };
}

const cubic =
  (a: Point, b: Point, c: Point, d: Point) =>
  (t: number): Point => {
    const s = 1 - t;
    const along = (i: 0 | 1): number =>
      s ** 3 * a[i] + 3 * s * s * t * b[i] + 3 * s * t * t * c[i] + t ** 3 * d[i];
    return [along(0), along(1)];
  };

const quadratic =
  (a: Point, b: Point, c: Point) =>
  (t: number): Point => {
    const s = 1 - t;
    const along = (i: 0 | 1): number => s * s * a[i] + 2 * s * t * b[i] + t * t * c[i];
    return [along(0), along(1)];
  };

/** An elliptical arc by its share from 0 to 1; null where it is a straight stretch or nothing. SVG 1.1, F.6.5. */
function arcBetween(
  from: Point,
  to: Point,
  radii: Point,
  turnDegrees: number,
  isLarge: boolean,
  isSweep: boolean,
): ((t: number) => Point) | null {
  let [rx, ry] = [Math.abs(radii[0]), Math.abs(radii[1])];
  if (rx === 0 || ry === 0 || distance(from, to) === 0) return null;
  const turn = (turnDegrees * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const [halfX, halfY] = [(from[0] - to[0]) / 2, (from[1] - to[1]) / 2];
  const [x, y] = [cos * halfX + sin * halfY, -sin * halfX + cos * halfY];
  const tooSmall = (x / rx) ** 2 + (y / ry) ** 2;
  if (tooSmall > 1) [rx, ry] = [rx * Math.sqrt(tooSmall), ry * Math.sqrt(tooSmall)];
  const under = (rx * y) ** 2 + (ry * x) ** 2;
  const factor = Math.sqrt(Math.max(0, (rx * ry) ** 2 - under) / under) * (isLarge === isSweep ? -1 : 1);
  const [cx, cy] = [(factor * rx * y) / ry, (-factor * ry * x) / rx];
  const centre: Point = [
    cos * cx - sin * cy + (from[0] + to[0]) / 2,
    sin * cx + cos * cy + (from[1] + to[1]) / 2,
  ];
  const first = Math.atan2((y - cy) / ry, (x - cx) / rx);
  let sweep = Math.atan2((-y - cy) / ry, (-x - cx) / rx) - first;
  if (isSweep && sweep < 0) sweep += 2 * Math.PI;
  if (!isSweep && sweep > 0) sweep -= 2 * Math.PI;
  return (t) => {
    const [px, py] = [rx * Math.cos(first + t * sweep), ry * Math.sin(first + t * sweep)];
    return [centre[0] + cos * px - sin * py, centre[1] + sin * px + cos * py];
  };
}

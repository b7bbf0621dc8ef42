import type { Division } from '../geometry/division.ts';
import { STRAIGHT_IN } from '../geometry/lattice.ts';
import type { Point } from '../geometry/point.ts';
import { cross, distance, farthestPair } from '../geometry/ring.ts';

/** What counts as 0.1 mm here, with room for the last digits: rather a drawing too many called blurred. */
const STRAIGHT = 1.001 * STRAIGHT_IN;

/** Paths followed from one bend at most; a drawing with more is called blurred. */
const MOST_PATHS = 2000;

/** Shorter than this a stretch has no direction to speak of beside a strip of 0.2 mm, in inches. */
const SHORT_IN = 10 * STRAIGHT_IN;

/** A seam may lean a little against a part of it, so that 0.1 mm along the seam is more along the part; never so much. */
const LEANING = 1.5;

/**
 * Is there a seam that is straight as far as a printed line shows, and yet does not keep to one straight line of the
 * pattern? The search goes by lines and does not see it, so nothing can be proven of such a drawing.
 *
 * A seam is a straight, unbroken stretch when all its ends lie within 0.1 mm of the line between its two farthest ends
 * and its edges, in turn along that line, leave no gap and no overlap of more than 0.1 mm: the rule plans are checked by
 * (`verify.ts`). So two edges of it that follow each other share a vertex, or end within 0.1 mm of each other along it.
 * Three things may then be:
 * - one straight line runs double: two cuts that count as one, with slivers between them;
 * - edges go on in line beyond a gap of no more than 0.1 mm;
 * - edges of two lines share a vertex and are straight together, perhaps only with more edges at their ends.
 *
 * A seam ends at the outline, or at a vertex an earlier parting went through: of the patches round a vertex, the first
 * parting there leaves some on either side, so that two edges at it lie in one seam. Both ends must be such.
 *
 * Cost: O(n log n) for n edges, unless lines all but meet.
 */
export function isBlurred(lines: Lines): boolean {
  const sketch = sketchOf(lines);
  return runsDouble(lines) || skipsGap(sketch) || changesLine(sketch);
}

/** The straight lines of a division, as a `Pattern` has them. */
interface Lines {
  readonly division: Division;
  readonly lines: readonly { readonly runs: readonly (readonly number[])[] }[];
  readonly lineOf: Int32Array;
}

interface Sketch {
  readonly vertices: readonly Point[];
  /** Vertex a half-edge starts from. */
  readonly origin: Int32Array;
  readonly lineOf: Int32Array;
  /** Half-edges of inner edges that start from each vertex. */
  readonly around: readonly (readonly number[])[];
  /** 1 for the vertices on the outline. */
  readonly isRim: Uint8Array;
}

function sketchOf({ division, lineOf }: Lines): Sketch {
  const { origin, vertices } = division;
  const around: number[][] = vertices.map(() => []);
  const isRim = new Uint8Array(vertices.length);
  for (let h = 0; h < origin.length; h++)
    if (lineOf[h >> 1]! >= 0) around[origin[h]!]!.push(h);
    else isRim[origin[h]!] = 1;
  return { vertices, origin, lineOf, around, isRim };
}

/** May a seam end where a half-edge starts? */
function mayEnd({ vertices, origin, around, isRim }: Sketch, h: number): boolean {
  const v = origin[h]!;
  if (isRim[v] === 1) return true;
  const others = around[v]!.filter((k) => k !== h);
  return others.some((k, i) =>
    others
      .slice(0, i)
      .some((m) => mayGoOn(vertices[origin[k ^ 1]!]!, vertices[v]!, vertices[origin[m ^ 1]!]!)),
  );
}

/** May one seam go from a to b by way of v? */
function mayGoOn(a: Point, v: Point, b: Point): boolean {
  const legs = [distance(a, v), distance(v, b)] as const;
  const longest = Math.max(...legs, distance(a, b));
  if (Math.abs(cross(a, v, b)) > 2 * STRAIGHT * longest) return false;
  if (longest < SHORT_IN) return true;
  // How far the shorter leg lies back along the longer.
  const back = ((a[0] - v[0]) * (b[0] - v[0]) + (a[1] - v[1]) * (b[1] - v[1])) / Math.max(...legs);
  return back <= LEANING * STRAIGHT;
}

/** Do two edges of one straight line lie beside each other? */
function runsDouble({ division, lines }: Lines): boolean {
  const { origin, vertices } = division;
  return lines.some(({ runs }) => {
    const headed = runs.flat();
    const first = vertices[origin[headed[0]!]!]!;
    const last = vertices[origin[headed.at(-1)! ^ 1]!]!;
    const along = ([x, y]: Point): number =>
      (x - first[0]) * (last[0] - first[0]) + (y - first[1]) * (last[1] - first[1]);
    return headed.some((h, k) => {
      const before = headed[k - 1];
      if (before === undefined || origin[before ^ 1] === origin[h]) return false;
      return along(vertices[origin[h]!]!) < along(vertices[origin[before ^ 1]!]!);
    });
  });
}

/** Two vertices closer than this may bound a gap of 0.1 mm along a stretch within 0.1 mm to both its sides. */
const GAP_IN = Math.sqrt(5) * STRAIGHT;

/** Do two edges go on in line, to both sides of a gap of no more than 0.1 mm? */
function skipsGap(sketch: Sketch): boolean {
  const { vertices, origin, around } = sketch;
  const inTurn = around.flatMap((edges, v) => (edges.length > 0 ? [v] : []));
  inTurn.sort((p, q) => vertices[p]![0] - vertices[q]![0]);
  for (let i = 0; i < inTurn.length; i++) {
    const p = inTurn[i]!;
    for (let j = i + 1; j < inTurn.length; j++) {
      const q = inTurn[j]!;
      if (vertices[q]![0] - vertices[p]![0] > GAP_IN) break;
      if (distance(vertices[p]!, vertices[q]!) > GAP_IN) continue;
      for (const h of around[p]!)
        for (const k of around[q]!) {
          const a = origin[h ^ 1]!;
          const b = origin[k ^ 1]!;
          // Edges that share a vertex leave no gap.
          if (a === q || b === p || a === b) continue;
          if (!goOnBeyondGap(vertices[a]!, vertices[p]!, vertices[q]!, vertices[b]!)) continue;
          if (mayEnd(sketch, h) && mayEnd(sketch, k)) return true;
        }
    }
  }
  return false;
}

/** Stretch a–p, a gap from p to q, stretch q–b: may they be parts of one straight seam? */
function goOnBeyondGap(a: Point, p: Point, q: Point, b: Point): boolean {
  const points = [a, p, q, b];
  const [s, t] = farthestPair(points);
  const length = distance(s, t);
  if (length < SHORT_IN) return true;
  // All of them lie in a strip of 0.2 mm, the two farthest among them.
  if (points.some((point) => Math.abs(cross(s, t, point)) > 2 * STRAIGHT * length)) return false;
  const along = ([x, y]: Point): number => ((x - s[0]) * (t[0] - s[0]) + (y - s[1]) * (t[1] - s[1])) / length;
  const turn = along(a) <= along(b) ? 1 : -1;
  const [ta, tp, tq, tb] = points.map((point) => turn * along(point)) as [number, number, number, number];
  // The seam may lean against the line between them by as much as a strip of 0.2 mm lets it.
  const leaning = (GAP_IN * 2 * STRAIGHT) / length;
  return Math.abs(tq - tp) <= STRAIGHT + leaning && ta <= tp + STRAIGHT && tq <= tb + STRAIGHT;
}

/** Do edges of two straight lines that share a vertex lie in one straight seam? */
function changesLine(sketch: Sketch): boolean {
  const { vertices, origin, lineOf, around } = sketch;
  for (let v = 0; v < around.length; v++) {
    const edges = around[v]!;
    for (let i = 1; i < edges.length; i++) {
      const h = edges[i]!;
      for (let j = 0; j < i; j++) {
        const k = edges[j]!;
        if (lineOf[h >> 1] === lineOf[k >> 1]) continue;
        if (!mayGoOn(vertices[origin[h ^ 1]!]!, vertices[v]!, vertices[origin[k ^ 1]!]!)) continue;
        if (isPartOfSeam(sketch, [h ^ 1, k])) return true;
      }
    }
  }
  return false;
}

/** Is a path of half-edges, as it is or with edges added at its ends, one straight seam? */
function isPartOfSeam(sketch: Sketch, first: readonly number[]): boolean {
  const { vertices, origin, around } = sketch;
  let paths = 0;
  return follow(first, true);

  // Each path is met once: edges are added in front of it until one is added behind it.
  function follow(path: readonly number[], mayGrowInFront: boolean): boolean {
    const start = path[0]!;
    const end = path.at(-1)! ^ 1;
    const visited = [...path.map((h) => origin[h]!), origin[end]!];
    const fit = fitOf(visited.map((v) => vertices[v]!));
    if (fit === 'none') return false;
    if (++paths > MOST_PATHS) return true;
    if (fit === 'straight' && mayEnd(sketch, start) && mayEnd(sketch, end)) return true;
    const beyond = (h: number): number[] =>
      around[origin[h]!]!.filter((k) => !visited.includes(origin[k ^ 1]!));
    if (mayGrowInFront && beyond(start).some((k) => follow([k ^ 1, ...path], true))) return true;
    return beyond(end).some((k) => follow([...path, k], false));
  }
}

/** Is a path one straight stretch; if not, may it be part of one? */
function fitOf(path: readonly Point[]): 'straight' | 'part' | 'none' {
  const [s, t] = farthestPair(path);
  const length = distance(s, t);
  let off = 0;
  for (const point of path) off = Math.max(off, Math.abs(cross(s, t, point)));
  // What lies in a strip of 0.2 mm lies within 0.2 mm of the line between the two farthest of it.
  if (off > 2 * STRAIGHT * length) return 'none';
  const along = ([x, y]: Point): number => (x - s[0]) * (t[0] - s[0]) + (y - s[1]) * (t[1] - s[1]);
  const turn = along(path[0]!) <= along(path.at(-1)!) ? 1 : -1;
  for (let k = 1; k < path.length && length >= SHORT_IN; k++)
    if (turn * (along(path[k - 1]!) - along(path[k]!)) > LEANING * STRAIGHT * length) return 'none';
  return off <= STRAIGHT * length ? 'straight' : 'part';
}

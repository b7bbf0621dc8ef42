import type { Division } from '../geometry/division.ts';
import { loopFrom, OUTSIDE } from '../geometry/division.ts';
import type { Point, Segment } from '../geometry/point.ts';
import { distance } from '../geometry/ring.ts';
import type { CutRole } from './block.ts';
import { isBlurred } from './blur.ts';

/**
 * An abstract division, ready for the questions of piecing: cells (by number) whose sides are half-edges, each
 * half-edge knowing the cell beyond it and the straight line it lies on. The same form serves patches in a
 * section, sections in a block and blocks in a quilt.
 */
export interface Pattern {
  readonly division: Division;
  readonly cells: number;
  /** Straight line of an edge (`h >> 1`), -1 on the outline. */
  readonly straight: Int32Array;
  /** Role of an edge: 0 auto, 1 join, 2 seam. */
  readonly role: Uint8Array;
  /** Half-edges round each cell: its outer loop, then the loops round its islands. */
  readonly loops: readonly (readonly Int32Array[])[];
  /** The cells that share an edge with each cell. */
  readonly neighbours: readonly Int32Array[];
  /** Each straight line as runs of half-edges that follow one another, inner edges only. */
  readonly lines: readonly StraightLine[];
  /** Index into `lines` of an edge, -1 on the outline. */
  readonly lineOf: Int32Array;
  /** Could a seam be straight as far as a printed line shows, and yet not keep to one of `lines`? */
  readonly isBlurred: boolean;
  /**
   * The cells round each inner vertex that no cell goes straight past: where all of them are in a region, the one sewn
   * last touches the others along two lines. None where the drawing is blurred.
   */
  readonly stuck: readonly Int32Array[];
}

export interface StraightLine {
  readonly group: number;
  /** Runs of half-edges all heading one way, each starting where the one before ends. */
  readonly runs: readonly (readonly number[])[];
}

const ROLE_NUMBER: Readonly<Record<CutRole, number>> = { auto: 0, join: 1, seam: 2 };

/** The pattern of a division, every edge `auto`. `straight`: straight line of each edge, -1 on the outline. */
export function patternOf(division: Division, straight: Int32Array): Pattern {
  const walk = (start: number): Int32Array => Int32Array.from(loopFrom(division, start));
  const loops = division.faces.map((face) => [walk(face.edge), ...face.islands.map(walk)]);
  const lines = linesOf(division, straight);
  const lineOf = new Int32Array(division.line.length).fill(-1);
  lines.forEach(({ runs }, index) => {
    for (const run of runs) for (const h of run) lineOf[h >> 1] = index;
  });
  const blurred = isBlurred({ division, lines, lineOf });
  return {
    division,
    cells: loops.length,
    loops,
    neighbours: loops.map((own, c) => neighboursIn(division, own, c)),
    lines,
    lineOf,
    isBlurred: blurred,
    stuck: blurred ? [] : stuckIn(division, straight),
    straight,
    role: new Uint8Array(division.line.length),
  };
}

function stuckIn({ origin, vertices, previous, next, face }: Division, straight: Int32Array): Int32Array[] {
  const stuck: Int32Array[] = [];
  const isSeen = new Uint8Array(vertices.length);
  const isPast = (h: number): boolean => {
    const before = previous[h]!;
    if (straight[before >> 1] !== straight[h >> 1]) return false;
    const [a, b, c] = [vertices[origin[before]!]!, vertices[origin[h]!]!, vertices[origin[h ^ 1]!]!];
    return (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1]) > 0;
  };
  for (let first = 0; first < origin.length; first++) {
    if (isSeen[origin[first]!] === 1) continue;
    isSeen[origin[first]!] = 1;
    const cells: number[] = [];
    let isStuck = true;
    let h = first;
    do {
      isStuck &&= face[h] !== OUTSIDE && !isPast(h);
      cells.push(face[h]!);
      h = next[h ^ 1]!;
    } while (isStuck && h !== first);
    if (isStuck) stuck.push(Int32Array.from(cells));
  }
  return stuck;
}

/** The same pattern with the roles of the lines it was divided by. */
export const withRoles = (pattern: Pattern, roles: readonly CutRole[]): Pattern => ({
  ...pattern,
  role: Uint8Array.from(pattern.division.line, (l) => (l < 0 ? 0 : ROLE_NUMBER[roles[l]!])),
});

/** Where a half-edge starts, and where it ends. */
export const startOf = ({ division }: Pattern, h: number): Point => division.vertices[division.origin[h]!]!;
export const endOf = (pattern: Pattern, h: number): Point => startOf(pattern, h ^ 1);

/** A stretch read rightwards, or downwards when upright. */
export function headed(a: Point, b: Point): Segment {
  return a[0] < b[0] || (a[0] === b[0] && a[1] <= b[1]) ? [a, b] : [b, a];
}

function neighboursIn({ face }: Division, loops: readonly Int32Array[], c: number): Int32Array {
  const found: number[] = [];
  for (const loop of loops)
    for (const h of loop) {
      const beyond = face[h ^ 1]!;
      if (beyond !== OUTSIDE && beyond !== c && !found.includes(beyond)) found.push(beyond);
    }
  return Int32Array.from(found);
}

function linesOf(division: Division, straight: Int32Array): StraightLine[] {
  const { origin, vertices, face } = division;
  const byGroup = new Map<number, number[]>();
  for (let e = 0; e < straight.length; e++) {
    const group = straight[e]!;
    if (group < 0 || face[2 * e] === OUTSIDE || face[2 * e + 1] === OUTSIDE) continue;
    const edges = byGroup.get(group);
    if (edges) edges.push(e);
    else byGroup.set(group, [e]);
  }
  const lines = [...byGroup].map(([group, edges]): StraightLine => {
    // The longest edge gives the direction all of them are turned to: rightwards, or downwards when upright.
    const vector = (e: number): [number, number] => {
      const a = vertices[origin[2 * e]!]!;
      const b = vertices[origin[2 * e + 1]!]!;
      return [b[0] - a[0], b[1] - a[1]];
    };
    const length = (e: number): number => distance(vertices[origin[2 * e]!]!, vertices[origin[2 * e + 1]!]!);
    const longest = edges.reduce((best, e) => (length(e) > length(best) ? e : best));
    let [dx, dy] = vector(longest);
    if (dx < 0 || (dx === 0 && dy < 0)) [dx, dy] = [-dx, -dy];
    const along = (v: number): number => vertices[v]![0] * dx + vertices[v]![1] * dy;
    const headed = edges
      .map((e) => (along(origin[2 * e]!) < along(origin[2 * e + 1]!) ? 2 * e : 2 * e + 1))
      .sort((h, k) => along(origin[h]!) - along(origin[k]!) || h - k);
    const runs: number[][] = [];
    for (const h of headed) {
      const run = runs.at(-1);
      if (run && origin[run.at(-1)! ^ 1] === origin[h]) run.push(h);
      else runs.push([h]);
    }
    return { group, runs };
  });
  // By where they start, not by when they were drawn: the same drawing has the same plan however it came about.
  return lines
    .map((line) => ({
      line,
      from: vertices[origin[line.runs[0]![0]!]!]!,
      to: vertices[origin[line.runs.at(-1)!.at(-1)! ^ 1]!]!,
    }))
    .sort((a, b) => a.from[1] - b.from[1] || a.from[0] - b.from[0] || a.to[1] - b.to[1] || a.to[0] - b.to[0])
    .map(({ line }) => line);
}

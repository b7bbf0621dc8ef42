import { OUTSIDE } from '../geometry/division.ts';
import { distance } from '../geometry/ring.ts';
import type { Pattern } from './pattern.ts';

/**
 * A place where patches cannot all lie on one foundation, and the straight lines one of which must then be a join.
 *
 * Two kinds. Where lines cross, or seams meet a line from both sides at one spot: round that spot each patch
 * touches its neighbours along two lines. And where along one line a seam comes in from one side and the next
 * one from the other: of the four patches there each touches the others along two lines. A join that parts such
 * patches passes straight through the spot, so it lies on a line that does.
 */
export interface Clash {
  /** The patches round it. It binds a region only when all are in it. */
  readonly cells: Int32Array;
  /** Straight lines (index into `Pattern.lines`) that pass through it; any plan joins along one of them. */
  readonly lines: Int32Array;
  /** Whether every plan has one match point here. */
  readonly isMatch: boolean;
  /** Edge that lies on a join in any plan, where only one line can be that join; -1 where there is a choice. */
  readonly edge: number;
}

/** A clash met on the way along a straight line. */
export interface Stop {
  /** Index into `Clashes.all`. */
  readonly clash: number;
  /** Which of the clash's lines this one is. */
  readonly choice: number;
  /** Place in the run: of the half-edge it lies on, or of the one that starts at its spot. */
  readonly place: number;
}

/** A run of a straight line, and the clashes along it in turn. */
export interface Way {
  readonly run: readonly number[];
  readonly stops: readonly Stop[];
  /** From the start of the run to each of its vertices, 1/64 in. */
  readonly reach: Float64Array;
}

/** All clashes of a pattern, and how its lines thread them. */
export interface Clashes {
  readonly all: readonly Clash[];
  /** Their numbers, as indices into `all`. */
  readonly whole: readonly number[];
  readonly ways: readonly Way[];
  /** Clash (index into `all`) at a vertex, and that along an edge; -1 for none. */
  readonly atVertex: Int32Array;
  readonly onEdge: Int32Array;
}

/** Finds the clashes of a pattern. Cost: O(edges). */
export function clashesOf(pattern: Pattern): Clashes {
  const { division, lines } = pattern;
  const { origin, face } = division;
  const through = new Map<number, Set<number>>();
  const clashes: Clash[] = [];
  const spotOf = new Map<number, number>();
  const onEdge = new Int32Array(division.line.length).fill(-1);
  const atVertex = new Int32Array(division.vertices.length).fill(-1);
  lines.forEach(({ runs }, index) => {
    for (const run of runs) {
      let before: { vertex: number; h: number; isLeft: boolean } | null = null;
      for (let k = 1; k < run.length; k++) {
        const h = run[k]!;
        const vertex = origin[h]!;
        const isLeft = face[run[k - 1]!] !== face[h];
        const isRight = face[run[k - 1]! ^ 1] !== face[h ^ 1];
        if (isLeft && isRight) {
          through.set(vertex, (through.get(vertex) ?? new Set()).add(index));
          spotOf.set(vertex, h);
          before = null;
        } else if (isLeft || isRight) {
          if (before && before.isLeft !== isLeft) {
            const cells = new Set([...cellsRound(pattern, before.h), ...cellsRound(pattern, h)]);
            if (!cells.has(OUTSIDE)) {
              onEdge[before.h >> 1] = clashes.length;
              clashes.push({
                cells: Int32Array.from(cells),
                lines: Int32Array.of(index),
                isMatch: false,
                edge: before.h >> 1,
              });
            }
          }
          before = { vertex, h, isLeft };
        }
      }
    }
  });
  for (const [vertex, indices] of through) {
    const h = spotOf.get(vertex)!;
    const cells = new Set(cellsRound(pattern, h));
    if (cells.has(OUTSIDE)) continue;
    atVertex[vertex] = clashes.length;
    clashes.push({
      cells: Int32Array.from(cells),
      lines: Int32Array.from(indices),
      isMatch: true,
      edge: indices.size === 1 ? h >> 1 : -1,
    });
  }
  const ways: Way[] = [];
  lines.forEach(({ runs }, index) => {
    for (const run of runs) {
      const stops: Stop[] = [];
      for (let place = 0; place < run.length; place++) {
        const h = run[place]!;
        const spot = place > 0 ? atVertex[origin[h]!]! : -1;
        const choice = spot < 0 ? -1 : clashes[spot]!.lines.indexOf(index);
        if (choice >= 0) stops.push({ clash: spot, choice, place });
        const between = onEdge[h >> 1]!;
        if (between >= 0) stops.push({ clash: between, choice: 0, place });
      }
      if (stops.length > 0) ways.push({ run, stops, reach: reachOf(pattern, run) });
    }
  });
  return { all: clashes, whole: clashes.map((_, c) => c), ways, atVertex, onEdge };
}

function reachOf({ division }: Pattern, run: readonly number[]): Float64Array {
  const { origin, vertices } = division;
  const reach = new Float64Array(run.length + 1);
  run.forEach((h, k) => {
    reach[k + 1] = reach[k]! + Math.round(64 * distance(vertices[origin[h]!]!, vertices[origin[h ^ 1]!]!));
  });
  return reach;
}

function cellsRound(pattern: Pattern, h: number): number[] {
  const { face, next } = pattern.division;
  const cells: number[] = [];
  let k = h;
  do {
    cells.push(face[k]!);
    k = next[k ^ 1]!;
  } while (k !== h);
  return cells;
}

/** Marks the vertices more than one straight line passes through. */
export function crossedVertices(pattern: Pattern): Uint8Array {
  const { division, lines } = pattern;
  const passes = new Uint8Array(division.vertices.length);
  const isCrossed = new Uint8Array(division.vertices.length);
  for (const { runs } of lines)
    for (const run of runs)
      for (let k = 1; k < run.length; k++) {
        const v = division.origin[run[k]!]!;
        if (passes[v] === 1) isCrossed[v] = 1;
        passes[v] = 1;
      }
  return isCrossed;
}

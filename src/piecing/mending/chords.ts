import { TOUCH_IN } from '../../geometry/lattice.ts';
import type { Point } from '../../geometry/point.ts';
import { cross } from '../../geometry/ring.ts';
import { alongOf, type Line, lineThrough, offOf, type Plane } from './plane.ts';
import type { Edge, Tract } from './tract.ts';

/** A place on a line: a spot of the tract, or one that the line makes where it crosses an edge (`spot` -1). */
export interface Stop {
  readonly spot: number;
  readonly at: Point;
  readonly edge: Edge | null;
  /** Does it lie on the rim? */
  readonly isRim: boolean;
  /** How far along the line, inches. */
  readonly t: number;
}

/** From one stop to the next: through a piece, or along a seam that is there (`piece` -1). */
export interface Step {
  readonly from: Stop;
  readonly to: Stop;
  readonly piece: number;
}

/** A straight line right across a tract, from rim to rim. */
export interface Chord {
  /** A line of the plane, by number, or only where it runs. */
  readonly line: number | Line;
  readonly steps: readonly Step[];
  /** Pieces it runs through: as many are added, but round an island. */
  readonly through: number;
}

/** Where a piece has a corner: the spots before and after it on its walk. */
interface Corner {
  readonly piece: number;
  readonly before: number;
  readonly after: number;
}

/** Lists the chords of a tract that run through no more than so many pieces. */
export interface Chords {
  /** Along the lines its edges lie on: drawn lines, and sides of the outline, drawn on. */
  readonly drawn: (most: number) => Chord[];
  /** Straight through two of its corners, along no drawn line. */
  readonly pairs: (most: number) => Chord[];
}

/**
 * The chords of a tract. Each is found by going along its line from piece to piece, and left as soon as it runs through
 * too many. What lies within 0.05 mm of a line lies on it.
 */
export function chordsOf(plane: Plane, { pieces, edges, spots, isRim }: Tract): Chords {
  const place = (spot: number): Point => plane.spots[spots[spot]!]!;
  const edgesOf: Edge[][] = pieces.map(() => []);
  const cornersAt: Corner[][] = spots.map(() => []);
  const linesAt: Set<number>[] = spots.map(() => new Set());
  for (const edge of edges) {
    edgesOf[edge.piece]!.push(edge);
    if (edge.beyond >= 0) edgesOf[edge.beyond]!.push(edge);
    linesAt[edge.from]!.add(edge.line);
    linesAt[edge.to]!.add(edge.line);
  }
  const placeOf = new Map(spots.map((spot, k) => [spot, k]));
  pieces.forEach(({ loops }, piece) => {
    for (const { spots: walk } of loops) {
      const ring = walk.map((spot) => placeOf.get(spot)!);
      ring.forEach((spot, k) => {
        cornersAt[spot]!.push({ piece, before: ring.at(k - 1)!, after: ring[k + 1] ?? ring[0]! });
      });
    }
  });
  return { drawn, pairs };

  function drawn(most: number): Chord[] {
    const spotsOn = new Map<number, Set<number>>();
    for (const { line, from, to } of edges) {
      const known = spotsOn.get(line);
      if (known) known.add(from).add(to);
      else spotsOn.set(line, new Set([from, to]));
    }
    const chords: Chord[] = [];
    for (const [line, on] of spotsOn) {
      const ray = plane.lines[line]!;
      const off = offsFrom(ray);
      for (const spot of on) off[spot] = 0;
      const seen = new Set<number>();
      for (const spot of on) {
        if (seen.has(spot)) continue;
        for (const chord of chordsAt(line, ray, off, spot, most)) {
          for (const { from, to } of chord.steps) {
            if (from.spot >= 0 && !from.isRim) seen.add(from.spot);
            if (to.spot >= 0 && !to.isRim) seen.add(to.spot);
          }
          if (isNew(chord, chords)) chords.push(chord);
        }
      }
    }
    return chords;
  }

  function pairs(most: number): Chord[] {
    const chords = new Map<string, Chord>();
    for (let a = 0; a < spots.length; a++)
      for (let b = a + 1; b < spots.length; b++) {
        if (reaches(a, b) || reaches(b, a)) continue;
        const ray = lineThrough(place(a), place(b));
        for (const chord of chordsAt(ray, ray, offsFrom(ray), a, most)) {
          if (!chord.steps.some(({ from, to }) => from.spot === b || to.spot === b)) continue;
          const name = [chord.steps[0]!.from, chord.steps.at(-1)!.to]
            .map(({ at }) => `${at[0].toFixed(4)} ${at[1].toFixed(4)}`)
            .sort()
            .join();
          if (!chords.has(name)) chords.set(name, chord);
        }
      }
    return [...chords.values()];
  }

  /** Does one of the lines at a spot run to another as well? */
  function reaches(spot: number, goal: number): boolean {
    for (const line of linesAt[spot]!)
      if (linesAt[goal]!.has(line) || Math.abs(offOf(plane.lines[line]!, place(goal))) <= TOUCH_IN)
        return true;
    return false;
  }

  function offsFrom(ray: Line): Float64Array {
    const off = new Float64Array(spots.length);
    for (let s = 0; s < off.length; s++) {
      const side = offOf(ray, place(s));
      off[s] = Math.abs(side) <= TOUCH_IN ? 0 : side;
    }
    return off;
  }

  /** The chord that runs through a spot; of a spot on the rim, the two that may end there. */
  function chordsAt(line: number | Line, ray: Line, off: Float64Array, spot: number, most: number): Chord[] {
    const ahead = walk(ray, off, spot, 1, most);
    const back = walk(ray, off, spot, -1, most);
    const ways =
      isRim[spot] === 1 ? [ahead, back] : ahead && back ? [[...back.reverse().map(turned), ...ahead]] : [];
    return ways.flatMap((steps) => {
      const through = steps?.reduce((sum, { piece }) => sum + (piece >= 0 ? 1 : 0), 0) ?? 0;
      return steps && through > 0 && through <= most ? [{ line, steps, through }] : [];
    });
  }

  /** From a spot along a line, ahead or back, to the rim; null where it leads nowhere or through too much. */
  function walk(ray: Line, off: Float64Array, start: number, way: 1 | -1, most: number): Step[] | null {
    const stopAt = (spot: number): Stop => {
      const at = place(spot);
      return { spot, at, t: way * alongOf(ray, at), edge: null, isRim: isRim[spot] === 1 };
    };
    const heading: Point = [way * ray.along[0], way * ray.along[1]];
    const steps: Step[] = [];
    let through = 0;
    let stop = stopAt(start);
    do {
      let piece = -1;
      if (stop.edge) piece = stop.edge.piece === steps.at(-1)!.piece ? stop.edge.beyond : stop.edge.piece;
      else {
        const next = alongEdge(stop, stopAt, off);
        if (next === 'rim') return null;
        if (next) {
          steps.push({ from: stop, to: next, piece: -1 });
          stop = next;
          continue;
        }
        piece = pieceTowards(stop.spot, heading);
      }
      if (piece < 0 || ++through > most) return null;
      const next = acrossPiece(piece, stop, ray, off, way, stopAt);
      if (!next) return null;
      steps.push({ from: stop, to: next, piece });
      stop = next;
    } while (!stop.isRim);
    return steps;
  }

  /** The next spot where an edge runs on along the line. */
  function alongEdge(stop: Stop, stopAt: (spot: number) => Stop, off: Float64Array): Stop | 'rim' | null {
    for (const { before, after } of cornersAt[stop.spot]!)
      for (const spot of [before, after]) {
        if (off[spot] !== 0) continue;
        const next = stopAt(spot);
        if (next.t > stop.t) return isRimEdge(stop.spot, spot) ? 'rim' : next;
      }
    return null;
  }

  function isRimEdge(a: number, b: number): boolean {
    if (isRim[a] !== 1 || isRim[b] !== 1) return false;
    return edges.some(
      ({ from, to, beyond }) => beyond < 0 && ((from === a && to === b) || (from === b && to === a)),
    );
  }

  /** The piece that lies ahead of a spot, -1 beyond the rim. */
  function pieceTowards(spot: number, heading: Point): number {
    const at = place(spot);
    const ahead: Point = [at[0] + heading[0], at[1] + heading[1]];
    for (const { piece, before, after } of cornersAt[spot]!) {
      const [back, out] = [place(before), place(after)];
      const isInward = cross(back, at, out) < 0;
      const isIn = isInward
        ? !(cross(at, back, ahead) >= 0 && cross(at, ahead, out) >= 0)
        : cross(at, out, ahead) > 0 && cross(at, ahead, back) >= 0;
      if (isIn) return piece;
    }
    return -1;
  }

  /** Where a line that enters a piece at a stop leaves it, or touches its boundary. */
  function acrossPiece(
    piece: number,
    stop: Stop,
    ray: Line,
    off: Float64Array,
    way: 1 | -1,
    stopAt: (spot: number) => Stop,
  ): Stop | null {
    let best: Stop | null = null;
    const offer = (next: Stop): void => {
      if (next.t > stop.t + TOUCH_IN && (!best || next.t < best.t)) best = next;
    };
    for (const edge of edgesOf[piece]!) {
      if (edge === stop.edge) continue;
      const [a, b] = [off[edge.from]!, off[edge.to]!];
      if (a === 0) offer(stopAt(edge.from));
      if (b === 0) offer(stopAt(edge.to));
      if (a === 0 || b === 0 || a > 0 === b > 0) continue;
      const share = a / (a - b);
      const [p, q] = [place(edge.from), place(edge.to)];
      const at: Point = [p[0] + share * (q[0] - p[0]), p[1] + share * (q[1] - p[1])];
      offer({ spot: -1, at, t: way * alongOf(ray, at), edge, isRim: edge.beyond < 0 });
    }
    return best;
  }
}

const turned = ({ from, to, piece }: Step): Step => ({ from: to, to: from, piece });

/** Is a chord none of those listed, whichever way they run? */
function isNew({ line, steps }: Chord, listed: readonly Chord[]): boolean {
  const ends = (some: readonly Step[]): Point[] => [some[0]!.from.at, some.at(-1)!.to.at];
  const [a, b] = ends(steps);
  const same = (p: Point, q: Point): boolean =>
    Math.abs(p[0] - q[0]) <= TOUCH_IN && Math.abs(p[1] - q[1]) <= TOUCH_IN;
  return !listed.some((other) => {
    if (other.line !== line) return false;
    const [c, d] = ends(other.steps);
    return (same(a!, c!) && same(b!, d!)) || (same(a!, d!) && same(b!, c!));
  });
}

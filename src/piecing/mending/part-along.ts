import type { Point } from '../../geometry/point.ts';
import { middle } from '../../geometry/ring.ts';
import type { Chord, Stop } from './chords.ts';
import { holdsIn } from './holds.ts';
import type { Plane } from './plane.ts';
import { type Edge, type Loop, type Piece, reachedFrom, type Tract, tractOf } from './tract.ts';

/** A stretch added inside a patch, between two spots of the plane. */
export interface Added {
  readonly from: number;
  readonly to: number;
  readonly line: number;
}

/** A tract parted along a chord. */
export interface Parted {
  readonly added: readonly Added[];
  /** Pieces added. */
  readonly count: number;
  /** What holds in the two halves. */
  readonly holds: readonly Tract[];
}

/** Parts a tract along a chord; null where it holds together round it, as no true chord lets it. */
export function partAlong(plane: Plane, tract: Tract, { line, steps }: Chord): Parted | null {
  const number = typeof line === 'number' ? line : plane.lines.push(line) - 1;
  const spotOf = (stop: Stop): number => (stop.edge ? plane.spotAt(stop.at) : tract.spots[stop.spot]!);
  const crossed = new Map<Edge, number>();
  const added: Added[] = [];
  const cutsOf = new Map<number, Added[]>();
  const isSeam = new Map<number, number>();
  for (const { from, to, piece } of steps) {
    const stretch: Added = { from: spotOf(from), to: spotOf(to), line: number };
    if (stretch.from === stretch.to) return null;
    isSeam.set(stretch.from, stretch.to);
    for (const { edge, at } of [from, to]) if (edge) crossed.set(edge, plane.spotAt(at));
    if (piece < 0) continue;
    added.push(stretch);
    const cuts = cutsOf.get(piece);
    if (cuts) cuts.push(stretch);
    else cutsOf.set(piece, [stretch]);
  }
  const between = new Map<number, [number, number][]>();
  for (const [edge, spot] of crossed) {
    const [a, b] = [tract.spots[edge.from]!, tract.spots[edge.to]!];
    for (const [from, to] of [
      [a, b],
      [b, a],
    ] as const)
      between.set(from, [...(between.get(from) ?? []), [to, spot]]);
  }
  const pieces = tract.pieces.flatMap((piece, p) => {
    const cuts = cutsOf.get(p);
    return cuts ? cutPiece(plane, piece, between, cuts) : [piece];
  });
  const whole = tractOf(plane, pieces);
  const onSeam = ({ from, to }: Edge): boolean =>
    isSeam.get(whole.spots[from]!) === whole.spots[to] || isSeam.get(whole.spots[to]!) === whole.spots[from];
  const first = whole.edges.find((edge) => edge.beyond >= 0 && onSeam(edge));
  if (!first) return null;
  const left = reachedFrom(whole, first.piece, onSeam);
  if (left[first.beyond] === 1) return null;
  const right = left.map((isLeft) => 1 - isLeft);
  return { added, count: pieces.length - tract.pieces.length, holds: holdsIn(plane, whole, [left, right]) };
}

/** A piece cut along stretches inside it, one after another. */
function cutPiece(plane: Plane, piece: Piece, between: Between, cuts: readonly Added[]): Piece[] {
  let parts: Piece[] = [{ ...piece, loops: piece.loops.map((loop) => withSpots(loop, between)) }];
  for (const cut of cuts) {
    parts = parts.flatMap((part) => {
      const from = cornerTowards(plane, part, cut.from, cut.to);
      const to = from && cornerTowards(plane, part, cut.to, cut.from);
      return from && to ? cutBetween(plane, part, from, to, cut.line) : [part];
    });
  }
  return parts;
}

/** Spots put on edges: by the spot an edge starts from, where it ends and what is put between. */
type Between = ReadonlyMap<number, readonly (readonly [end: number, spot: number])[]>;

function withSpots({ spots, lines }: Loop, between: Between): Loop {
  const more: { spots: number[]; lines: number[] } = { spots: [], lines: [] };
  spots.forEach((spot, k) => {
    more.spots.push(spot);
    more.lines.push(lines[k]!);
    const end = spots[k + 1] ?? spots[0]!;
    const put = between.get(spot)?.find(([to]) => to === end);
    if (!put) return;
    more.spots.push(put[1]);
    more.lines.push(lines[k]!);
  });
  return more;
}

interface Corner {
  readonly loop: number;
  readonly place: number;
}

/** Where a piece's boundary is at a spot, with the inside of the piece towards another. */
function cornerTowards(plane: Plane, { loops }: Piece, spot: number, goal: number): Corner | null {
  const found: Corner[] = [];
  loops.forEach(({ spots }, loop) => {
    spots.forEach((one, place) => {
      if (one === spot) found.push({ loop, place });
    });
  });
  if (found.length <= 1) return found[0] ?? null;
  const at = plane.spots[spot]!;
  const bearing = (to: number): number => {
    const [x, y] = plane.spots[to]!;
    return Math.atan2(y - at[1], x - at[0]);
  };
  const turn = (from: number, to: number): number => (to - from + 4 * Math.PI) % (2 * Math.PI);
  return (
    found.find(({ loop, place }) => {
      const { spots } = loops[loop]!;
      const out = bearing(spots[place + 1] ?? spots[0]!);
      const back = bearing(spots.at(place - 1)!);
      return turn(out, bearing(goal)) < turn(out, back);
    }) ?? null
  );
}

/** A piece cut from corner to corner: in two, or from an island to what lies round it, which leaves it one. */
function cutBetween(plane: Plane, piece: Piece, a: Corner, b: Corner, line: number): Piece[] {
  const others = piece.loops.filter((_, k) => k !== a.loop && k !== b.loop);
  const walk = ({ loop, place }: Corner): { spots: number[]; lines: number[] } => {
    const { spots, lines } = piece.loops[loop]!;
    return {
      spots: [...spots.slice(place), ...spots.slice(0, place)],
      lines: [...lines.slice(place), ...lines.slice(0, place)],
    };
  };
  const first = walk(a);
  if (a.loop !== b.loop) {
    const second = walk(b);
    const joined: Loop = {
      spots: [...first.spots, first.spots[0]!, ...second.spots, second.spots[0]!],
      lines: [...first.lines, line, ...second.lines, line],
    };
    return [{ ...piece, loops: [joined, ...others] }];
  }
  const n = first.spots.length;
  const far = (b.place - a.place + n) % n;
  const near: Loop = {
    spots: first.spots.slice(0, far + 1),
    lines: [...first.lines.slice(0, far), line],
  };
  const rest: Loop = {
    spots: [...first.spots.slice(far), first.spots[0]!],
    lines: [...first.lines.slice(far), line],
  };
  const outer = [near, rest].filter((loop) => areaOf(plane, loop) > 0);
  const islands = [near, rest, ...others].filter((loop) => areaOf(plane, loop) <= 0);
  return outer.map((loop, k) => ({
    ...piece,
    loops: [
      loop,
      ...islands.filter((island) => {
        const host = outer.length < 2 ? 0 : outer.findIndex((one) => liesIn(plane, one, island));
        return host === k || (host < 0 && k === 0);
      }),
    ],
  }));
}

const liesIn = (plane: Plane, loop: Loop, island: Loop): boolean =>
  holdsSpot(plane, { loops: [loop] }, middle(plane.spots[island.spots[0]!]!, plane.spots[island.spots[1]!]!));

function areaOf({ spots }: Plane, loop: Loop): number {
  const origin = spots[loop.spots[0]!]!;
  let twice = 0;
  for (let k = 1; k + 1 < loop.spots.length; k++) {
    const [a, b] = [spots[loop.spots[k]!]!, spots[loop.spots[k + 1]!]!];
    twice += (a[0] - origin[0]) * (b[1] - origin[1]) - (a[1] - origin[1]) * (b[0] - origin[0]);
  }
  return twice;
}

/** Does a piece hold a place inside? Told by how often it is left along a ray. */
export function holdsSpot({ spots }: Plane, { loops }: Pick<Piece, 'loops'>, [x, y]: Point): boolean {
  let inside = false;
  for (const { spots: walk } of loops)
    for (let i = 0, j = walk.length - 1; i < walk.length; j = i++) {
      const a = spots[walk[i]!]!;
      const b = spots[walk[j]!]!;
      if (a[1] > y !== b[1] > y && x < ((b[0] - a[0]) * (y - a[1])) / (b[1] - a[1]) + a[0]) inside = !inside;
    }
  return inside;
}

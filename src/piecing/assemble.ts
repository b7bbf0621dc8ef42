import { isPassedThrough, OUTSIDE, ringOf } from '../geometry/division.ts';
import { STRAIGHT_IN } from '../geometry/lattice.ts';
import type { Point, Ring, Segment } from '../geometry/point.ts';
import { distance, farthestPair, signedArea } from '../geometry/ring.ts';
import { compareIds, letters } from './ids.ts';
import { pieceOrder } from './order.ts';
import { seamMeets } from './partings.ts';
import type { Pattern } from './pattern.ts';
import type { Join, Patch, Section } from './plan.ts';
import { cellsOf, type Region, sidesOf } from './region.ts';
import { registrationPoints, type Spot } from './registration.ts';
import type { Assembly } from './search.ts';

export interface Assembled {
  readonly patches: readonly Patch[];
  readonly sections: readonly Section[];
  readonly joins: readonly Join[];
  /** Patch id of each cell. */
  readonly idOf: readonly string[];
}

/** Names what a search found: letters, positions, steps, registration points. */
export function assemble(
  pattern: Pattern,
  assembly: Assembly,
  fabrics: readonly (string | null)[],
  ranks: ReadonlyMap<number, number> = new Map(),
): Assembled {
  const sections: { letter: string; region: Region; base?: Region; startsFrom: readonly string[] }[] = [];
  const joins: Join[] = [];
  const loads = loadsOf(pattern);
  walk(assembly);

  const idOf: string[] = [];
  const orders = sections.map(({ letter, region, base }) => {
    const first = base ? 2 : 1;
    const order = pieceOrder(pattern, region, { rank: ranks, ...(base && { base }) });
    return order.map((step, k) => {
      idOf[step.cell] = `${letter}${first + k}`;
      return { ...step, position: first + k };
    });
  });
  const patches = orders.flatMap((order, s) =>
    order.map(({ cell, along, position }): Patch => {
      const face = pattern.division.faces[cell]!;
      return {
        id: idOf[cell]!,
        section: sections[s]!.letter,
        position,
        polygon: ringOf(pattern.division, face.edge),
        holes: face.islands.map((h) => ringOf(pattern.division, h)),
        fabric: fabrics[cell] ?? null,
        seam: along.length > 0 ? headed(startOf(pattern, along[0]!), endOf(pattern, along.at(-1)!)) : null,
        neighbours: Array.from(pattern.neighbours[cell]!, (n) => idOf[n]!).sort(compareIds),
      };
    }),
  );
  return {
    patches,
    joins,
    idOf,
    sections: sections.map(({ letter, region, startsFrom }, s) => {
      const [outline, ...holes] = outlinesOf(pattern, region);
      return {
        letter,
        outline: outline!,
        holes,
        startsFrom,
        order: orders[s]!.map(({ cell }) => idOf[cell]!),
      };
    }),
  };

  /** Letters in the order the units lie, top or left first; steps as the units come ready. */
  function walk(node: Assembly): string[] {
    if (node.kind === 'foundation') {
      const letter = letters(sections.length);
      sections.push({ letter, region: node.region, startsFrom: [] });
      return [letter];
    }
    if (node.kind === 'sewn-on') {
      const startsFrom = walk(node.base);
      const letter = letters(sections.length);
      sections.push({ letter, region: node.region, base: node.base.region, startsFrom });
      return [...startsFrom, letter];
    }
    const isTurned = liesBefore(pattern, loads, node.right.region, node.left.region);
    const [first, second] = isTurned ? [node.right, node.left] : [node.left, node.right];
    const left = walk(first);
    const right = walk(second);
    joins.push(joinOf(pattern, joins.length + 1, node.kind, first.region, second.region, left, right));
    return [...left, ...right];
  }
}

const startOf = (pattern: Pattern, h: number): Point =>
  pattern.division.vertices[pattern.division.origin[h]!]!;
const endOf = (pattern: Pattern, h: number): Point => startOf(pattern, h ^ 1);

/** A stretch read rightwards, or downwards when upright. */
function headed(a: Point, b: Point): Segment {
  return a[0] < b[0] || (a[0] === b[0] && a[1] <= b[1]) ? [a, b] : [b, a];
}

/**
 * Of two units beside each other, does `a` come first? The upper one where the seam lies nearer to level, the left one
 * where it stands nearer to upright, so that letters run as one reads.
 */
function liesBefore(pattern: Pattern, loads: readonly Load[], a: Region, b: Region): boolean {
  const [first, last] = seamEnds(pattern, a, b);
  const p = middleOf(loads, a);
  const q = middleOf(loads, b);
  const isLevel = Math.abs(last[0] - first[0]) >= Math.abs(last[1] - first[1]);
  return isLevel ? p[1] < q[1] : p[0] < q[0];
}

/** A cell's area, and the middle of its corners times that. */
interface Load {
  readonly area: number;
  readonly x: number;
  readonly y: number;
}

const loadsOf = ({ division }: Pattern): readonly Load[] =>
  division.faces.map(({ edge }) => {
    const ring = ringOf(division, edge);
    const area = signedArea(ring);
    let x = 0;
    let y = 0;
    for (const p of ring) {
      x += p[0];
      y += p[1];
    }
    return { area, x: (area * x) / ring.length, y: (area * y) / ring.length };
  });

function middleOf(loads: readonly Load[], region: Region): Point {
  let x = 0;
  let y = 0;
  let total = 0;
  for (const c of cellsOf(region)) {
    const load = loads[c]!;
    x += load.x;
    y += load.y;
    total += load.area;
  }
  return [x / total, y / total];
}

/** Half-edges of `a` that lie on `b`, strung together: each chain runs on from vertex to vertex. */
function chainsBetween(pattern: Pattern, a: Region, b: Region): number[][] {
  const { face, origin } = pattern.division;
  const byStart = new Map<number, number[]>();
  const all: number[] = [];
  for (const h of sidesOf(pattern, a)) {
    const beyond = face[h ^ 1]!;
    if (beyond === OUTSIDE || b[beyond] !== 1) continue;
    all.push(h);
    const others = byStart.get(origin[h]!);
    if (others) others.push(h);
    else byStart.set(origin[h]!, [h]);
  }
  const isEnd = new Set(all.map((h) => origin[h ^ 1]!));
  const used = new Set<number>();
  const chains: number[][] = [];
  // Open chains first, from their starts; what remains are closed ones.
  for (const h of [...all.filter((e) => !isEnd.has(origin[e]!)), ...all]) {
    if (used.has(h)) continue;
    const chain: number[] = [];
    let at: number | undefined = h;
    while (at !== undefined) {
      chain.push(at);
      used.add(at);
      at = byStart.get(origin[at ^ 1]!)?.find((e) => !used.has(e));
    }
    chains.push(fromCorner(pattern, chain));
  }
  return chains;
}

/** A chain that closes on itself, begun where it turns a corner rather than in the middle of a line. */
function fromCorner(pattern: Pattern, chain: number[]): number[] {
  const { straight, division } = pattern;
  if (division.origin[chain.at(-1)! ^ 1] !== division.origin[chain[0]!]) return chain;
  const corner = chain.findIndex((h, k) => straight[h >> 1] !== straight[chain.at(k - 1)! >> 1]);
  return corner <= 0 ? chain : [...chain.slice(corner), ...chain.slice(0, corner)];
}

function seamEnds(pattern: Pattern, a: Region, b: Region): Segment {
  const chains = chainsBetween(pattern, a, b);
  return [startOf(pattern, chains[0]![0]!), endOf(pattern, chains.at(-1)!.at(-1)!)];
}

function joinOf(
  pattern: Pattern,
  step: number,
  kind: Join['kind'],
  leftUnit: Region,
  rightUnit: Region,
  left: readonly string[],
  right: readonly string[],
): Join {
  const chains = chainsBetween(pattern, leftUnit, rightUnit);
  const { face } = pattern.division;
  const stretches: Segment[] = [];
  const runs = chains.map((chain) => {
    const met = chain.map((h, k): Met => {
      const before = chain[k - 1];
      const at = startOf(pattern, h);
      const isEnd = before === undefined || pattern.straight[before >> 1] !== pattern.straight[h >> 1];
      stretches.push([isEnd ? at : stretches.pop()![0], endOf(pattern, h)]);
      // A patch that gives way to the next is met even where a notch of the outline lies between the two.
      const changes = (side: 0 | 1): boolean =>
        before !== undefined && face[before ^ side] !== face[h ^ side];
      return {
        at,
        isEnd,
        fromLeft: changes(0) || seamMeets(pattern, leftUnit, h),
        fromRight: changes(1) || seamMeets(pattern, rightUnit, h),
      };
    });
    const last: Met = { at: endOf(pattern, chain.at(-1)!), isEnd: true, fromLeft: false, fromRight: false };
    return [...met, last];
  });
  if (kind === 'straight' && stretches.length > 1) {
    const whole = asOneStretch(runs.flat(), stretches);
    runs.splice(0, runs.length, whole);
    stretches.splice(0, stretches.length, [whole[0]!.at, whole.at(-1)!.at]);
  }
  const seam: Segment = [runs[0]![0]!.at, runs.at(-1)!.at(-1)!.at];
  const isTurned = headed(...seam)[0] !== seam[0];
  return {
    step,
    left,
    right,
    kind,
    seam: isTurned ? [seam[1], seam[0]] : seam,
    stretches: isTurned ? stretches.map(([a, b]): Segment => [b, a]).reverse() : stretches,
    points: registrationPoints(
      step,
      (isTurned ? runs.map((run) => run.toReversed()).reverse() : runs).map(spotsOf),
    ),
  };
}

/**
 * What meets a seam that goes from one line to another, or over a gap, and is straight for all a printed line shows: in
 * turn from one of its two farthest ends to the other.
 */
function asOneStretch(met: readonly Met[], stretches: readonly Segment[]): Met[] {
  const [a, b] = farthestPair(stretches.flat());
  const along = ({ at }: Met): number => (at[0] - a[0]) * (b[0] - a[0]) + (at[1] - a[1]) * (b[1] - a[1]);
  const inTurn = met.toSorted((p, q) => along(p) - along(q));
  return inTurn.map((one, k) => ({ ...one, isEnd: k === 0 || k === met.length - 1 }));
}

/** What meets a join at a vertex. */
interface Met {
  readonly at: Point;
  readonly isEnd: boolean;
  readonly fromLeft: boolean;
  readonly fromRight: boolean;
}

/** The spots worth a pin, in turn. Vertices closer than a printed line is wide are one spot. */
function spotsOf(met: readonly Met[]): Spot[] {
  const merged: Met[] = [];
  for (const next of met) {
    if (!next.isEnd && !next.fromLeft && !next.fromRight) continue;
    const last = merged.at(-1);
    if (!last || distance(last.at, next.at) > STRAIGHT_IN || (last.isEnd && next.isEnd)) {
      merged.push(next);
      continue;
    }
    merged[merged.length - 1] = {
      at: next.isEnd ? next.at : last.at,
      isEnd: last.isEnd || next.isEnd,
      fromLeft: last.fromLeft || next.fromLeft,
      fromRight: last.fromRight || next.fromRight,
    };
  }
  return merged.map(({ at, isEnd, fromLeft, fromRight }): Spot => {
    const kind = isEnd ? 'end' : fromLeft && fromRight ? 'match' : 'junction';
    return { at, kind };
  });
}

/** Outer boundary of a region, then the boundaries of what it surrounds. Each vertex as its patches have it. */
function outlinesOf(pattern: Pattern, region: Region): Ring[] {
  const { face, next, origin, vertices } = pattern.division;
  const isRim = (h: number): boolean =>
    face[h]! >= 0 && region[face[h]!] === 1 && !(face[h ^ 1]! >= 0 && region[face[h ^ 1]!] === 1);
  const used = new Set<number>();
  const rings: Ring[] = [];
  for (const start of sidesOf(pattern, region)) {
    if (used.has(start) || !isRim(start)) continue;
    const ring: Point[] = [];
    let e = start;
    do {
      used.add(e);
      if (!isPassedThrough(pattern.division, e)) ring.push(vertices[origin[e]!]!);
      // On to the next rim edge round the vertex, staying inside the region.
      e = next[e]!;
      while (!isRim(e)) e = next[e ^ 1]!;
    } while (e !== start);
    rings.push(ring);
  }
  return rings.sort((a, b) => signedArea(b) - signedArea(a));
}

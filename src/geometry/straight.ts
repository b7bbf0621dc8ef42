import type { Division } from './division.ts';
import { STRAIGHT_IN } from './lattice.ts';
import type { Point } from './point.ts';
import { distance, distanceToSegment, farthestPair } from './ring.ts';

/**
 * Which lines of a division count as one straight line: those that run on from each other at a vertex and stay
 * within 0.1 mm of the stretch they make together.
 *
 * Result: for every edge a group number, equal for edges on one straight line; -1 for sides of the outline.
 * Groups are grown pair by pair from the longest lines down, so a chain of slight bends never counts as straight.
 */
export function straightGroups(division: Division): Int32Array {
  const { origin, line, next, vertices } = division;
  const group = new Int32Array(line.length).fill(-1);
  const ends = new Map<number, [Point, Point]>();
  const spots = new Map<number, Point[]>();
  for (let e = 0; e < line.length; e++) {
    const l = line[e]!;
    if (l < 0) continue;
    const a = vertices[origin[2 * e]!]!;
    const b = vertices[origin[2 * e + 1]!]!;
    const known = ends.get(l);
    ends.set(l, known ? farthestPair([...known, a, b]) : [a, b]);
    const before = spots.get(l);
    if (before) before.push(a, b);
    else spots.set(l, [a, b]);
  }

  // Pairs of lines, one going on where the other stops or beside it: both leave a vertex in opposite directions.
  const pairs = new Map<string, [number, number]>();
  for (let h = 0; h < origin.length; h++) {
    const l = line[h >> 1]!;
    if (l < 0) continue;
    for (let k = next[h ^ 1]!; k !== h; k = next[k ^ 1]!) {
      const m = line[k >> 1]!;
      if (m <= l || m < 0) continue;
      const v = vertices[origin[h]!]!;
      const a = vertices[origin[h ^ 1]!]!;
      const b = vertices[origin[k ^ 1]!]!;
      const ahead = (a[0] - v[0]) * (b[0] - v[0]) + (a[1] - v[1]) * (b[1] - v[1]);
      if (ahead < 0 && distanceToSegment(v, a, b) <= STRAIGHT_IN) pairs.set(`${l} ${m}`, [l, m]);
    }
  }
  const parent = new Map<number, number>();
  const find = (l: number): number => {
    let root = l;
    while (parent.has(root)) root = parent.get(root)!;
    return root;
  };
  const members = new Map([...ends].map(([l, pair]) => [l, { ends: [...pair], spots: spots.get(l)! }]));
  const length = (l: number): number => distance(...ends.get(l)!);
  const byLength = [...pairs.values()].sort(
    ([a, b], [c, d]) => length(c) + length(d) - length(a) - length(b) || a - c || b - d,
  );
  for (const [l, m] of byLength) {
    const p = find(l);
    const q = find(m);
    if (p === q) continue;
    const [ofP, ofQ] = [members.get(p)!, members.get(q)!];
    const together = [...ofP.ends, ...ofQ.ends];
    const [a, b] = farthestPair(together);
    // A line bends to what it touches: it may be farther off there than at its ends.
    const isOff = (spot: Point): boolean => distanceToSegment(spot, a, b) > STRAIGHT_IN;
    if (ofP.spots.some(isOff) || ofQ.spots.some(isOff)) continue;
    parent.set(q, p);
    members.set(p, { ends: together, spots: [...ofP.spots, ...ofQ.spots] });
  }
  for (let e = 0; e < line.length; e++) if (line[e]! >= 0) group[e] = find(line[e]!);
  return group;
}

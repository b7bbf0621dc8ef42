import type { Pattern } from './pattern.ts';
import { foldsBack, foldsTight } from './seam.ts';

/** Pairs of neighbours in one whole number. */
export const PAIRS_A_WORD = 26;

/** Two cells that share edges: the half-edges of `i` that lie on `j`. */
interface Pair {
  readonly i: number;
  readonly j: number;
  readonly edges: number[];
}

export function neighboursAmong(
  pattern: Pattern,
  cells: readonly number[],
): { near: number[]; pairs: Pair[] } {
  const { face } = pattern.division;
  const near = cells.map(() => 0);
  const pairs: Pair[] = [];
  cells.forEach((c, i) => {
    for (const loop of pattern.loops[c]!)
      for (const h of loop) {
        const j = cells.indexOf(face[h ^ 1]!);
        if (j <= i) continue;
        const pair = pairs.find((known) => known.i === i && known.j === j);
        if (pair) pair.edges.push(h);
        else pairs.push({ i, j, edges: [h] });
        near[i]! |= 1 << j;
        near[j]! |= 1 << i;
      }
  });
  return { near, pairs };
}

/** For each set of cells, two words: the pairs of neighbours within it. */
export function wordsOf(n: number, pairs: readonly Pair[]): Int32Array {
  const words = new Int32Array(2 ** (n + 1));
  for (let set = 1; set < 2 ** n; set++) {
    const low = 31 - Math.clz32(set & -set);
    const rest = set & (set - 1);
    let first = words[2 * rest]!;
    let second = words[2 * rest + 1]!;
    for (let p = 0; p < pairs.length; p++) {
      const { i, j } = pairs[p]!;
      if (i !== low || ((rest >> j) & 1) === 0) continue;
      if (p < PAIRS_A_WORD) first |= 1 << p;
      else second |= 1 << (p - PAIRS_A_WORD);
    }
    words[2 * set] = first;
    words[2 * set + 1] = second;
  }
  return words;
}

export const hasPair = (first: number, second: number, p: number): boolean =>
  (((p < PAIRS_A_WORD ? first : second) >> (p % PAIRS_A_WORD)) & 1) === 1;

/** Vertices in one whole number. */
const VERTICES_A_WORD = 30;

/**
 * Counts the corners that a seam between some pairs of neighbours turns, from what each pair brings along: its straight
 * stretches, those that run on in another pair's, and the vertices at which an odd number of its edges end; a seam
 * without such a vertex goes round to where it began. To turn round the tip of a sliver counts twice.
 */
export function cornerCount(
  pattern: Pattern,
  pairs: readonly Pair[],
): (first: number, second: number) => number {
  const { division, straight } = pattern;
  const numbers = new Map<number, number>();
  const ends = new Map<number, { h: number; p: number }[]>();
  const stretches = pairs.map(({ edges }) => edges.length);
  const joints: number[] = [];
  const folds: number[] = [];
  pairs.forEach(({ edges }, p) => {
    for (const edge of edges)
      for (const h of [edge, edge ^ 1]) {
        const v = division.origin[h]!;
        if (!numbers.has(v)) numbers.set(v, numbers.size);
        const others = ends.get(v) ?? [];
        for (const other of others) {
          if (foldsTight(division, h, other.h)) {
            if (other.p === p) stretches[p]!++;
            else folds.push(other.p, p);
          }
          if (straight[other.h >> 1] !== straight[h >> 1] || foldsBack(division, h, other.h)) continue;
          if (other.p === p) stretches[p]!--;
          else joints.push(other.p, p);
        }
        others.push({ h, p });
        ends.set(v, others);
      }
  });
  const width = Math.ceil(numbers.size / VERTICES_A_WORD);
  const odd = new Int32Array(pairs.length * width);
  for (const [v, others] of ends) {
    const number = numbers.get(v)!;
    for (const { p } of others)
      odd[p * width + Math.floor(number / VERTICES_A_WORD)]! ^= 1 << (number % VERTICES_A_WORD);
  }
  const left = new Int32Array(width);
  return (first, second) => {
    let count = 0;
    left.fill(0);
    for (let p = 0; p < pairs.length; p++) {
      if (!hasPair(first, second, p)) continue;
      count += stretches[p]!;
      for (let w = 0; w < width; w++) left[w]! ^= odd[p * width + w]!;
    }
    for (let k = 0; k < joints.length; k += 2)
      if (hasPair(first, second, joints[k]!) && hasPair(first, second, joints[k + 1]!)) count--;
    for (let k = 0; k < folds.length; k += 2)
      if (hasPair(first, second, folds[k]!) && hasPair(first, second, folds[k + 1]!)) count++;
    const isClosed = left.every((word) => word === 0);
    return isClosed ? Math.max(1, count) : count - 1;
  };
}

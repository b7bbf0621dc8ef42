import type { Standings } from './standings.ts';

/** Papers that are sewn alike, as one: their standings, and which must be done before they can begin. */
export interface Runner {
  readonly standings: Standings;
  readonly waitsFor: readonly number[];
}

/** Fabrics by number, in the order they come out on the table. */
export type Sequence = readonly number[];

/** Standings at the beginning. */
export const startOf = (runners: readonly Runner[]): Int32Array =>
  Int32Array.from(runners, ({ standings }) => standings.start);

export const isDone = (runners: readonly Runner[], at: Int32Array): boolean =>
  runners.every(({ standings }, k) => at[k] === standings.done);

/**
 * The standing of each paper after one more round; null where the round serves nobody. A paper that waits for others
 * begins in the round after those are done.
 */
export function advance(runners: readonly Runner[], at: Int32Array, fabric: number): Int32Array | null {
  let next: Int32Array | null = null;
  for (let k = 0; k < runners.length; k++) {
    const { standings, waitsFor } = runners[k]!;
    const here = at[k]!;
    if (here === standings.done) continue;
    if (waitsFor.length > 0 && !waitsFor.every((w) => at[w] === runners[w]!.standings.done)) continue;
    const there = standings.after(here, fabric);
    if (there === here) continue;
    next ??= at.slice();
    next[k] = there;
  }
  return next;
}

/** Where every paper stands after a sequence. */
export function runThrough(runners: readonly Runner[], sequence: Sequence): Int32Array {
  let at = startOf(runners);
  for (const fabric of sequence) at = advance(runners, at, fabric) ?? at;
  return at;
}

/** Rounds in which each fabric must still be out at least: the most that any one paper asks for. */
export function needOf(runners: readonly Runner[], at: Int32Array, fabrics: number): Uint8Array {
  const need = new Uint8Array(fabrics);
  for (let k = 0; k < runners.length; k++) {
    const of = runners[k]!.standings.leftOf(at[k]!);
    for (let f = 0; f < fabrics; f++) if (of[f]! > need[f]!) need[f] = of[f]!;
  }
  return need;
}

/** What a standing of all papers is worth, the less the better. */
export type Weigh = (runners: readonly Runner[], at: Int32Array) => number;

/** All rounds that papers would take one by one: to lessen it is majority merge, the oldest way (its source is in `plan-rounds.ts`). */
export const roundsLeft: Weigh = (runners, at) => {
  let sum = 0;
  for (let k = 0; k < at.length; k++) sum += runners[k]!.standings.left(at[k]!);
  return sum;
};

/** Papers far from their end count more, and so does every round that must come for some fabric. */
export const farFromDone =
  (fabrics: number): Weigh =>
  (runners, at) => {
    let sum = 0;
    for (let k = 0; k < at.length; k++) sum += runners[k]!.standings.left(at[k]!) ** 3;
    for (const rounds of needOf(runners, at, fabrics)) sum += 50 * rounds;
    return sum;
  };

/** Standings reached by a sequence, as the last step of it. */
export interface Reached {
  readonly at: Int32Array;
  /** The fabric that led here; -1 at the beginning. */
  readonly fabric: number;
  readonly before: Reached | null;
}

interface Node extends Reached {
  readonly weight: number;
}

/** Of all sequences of so many rounds the `width` that weigh least are followed on, until one of them is done. */
export function beamSearch(
  runners: readonly Runner[],
  fabrics: number,
  width: number,
  weigh: Weigh,
): Sequence {
  let level: Node[] = [{ at: startOf(runners), fabric: -1, before: null, weight: 0 }];
  if (isDone(runners, level[0]!.at)) return [];
  for (;;) {
    const next = new Map<string, Node>();
    for (const node of level)
      for (let fabric = 0; fabric < fabrics; fabric++) {
        const at = advance(runners, node.at, fabric);
        if (at === null) continue;
        const child: Node = { at, fabric, before: node, weight: weigh(runners, at) };
        if (isDone(runners, at)) return sequenceOf(child);
        next.set(keyOf(at), child);
      }
    // Papers that wait for each other in a ring would never be done; plans have none.
    if (next.size === 0) throw new Error('some papers can never be sewn');
    level = [...next.values()].sort((a, b) => a.weight - b.weight).slice(0, width);
  }
}

/** Two numbers that tell standings apart as far as chance allows; a mistake costs one sequence, not the truth of another. */
function keyOf(at: Int32Array): string {
  let a = 0x811c9dc5;
  let b = 0;
  for (let k = 0; k < at.length; k++) {
    a = Math.imul(a ^ at[k]!, 0x01000193);
    b = (Math.imul(b, 31) + at[k]!) | 0;
  }
  return `${a}/${b}`;
}

/** The fabrics of the way to some standings. */
export function sequenceOf(last: Reached): Sequence {
  const fabrics: number[] = [];
  for (let here = last; here.before !== null; here = here.before) fabrics.push(here.fabric);
  return fabrics.reverse();
}

import {
  advance,
  isDone,
  needOf,
  type Reached,
  type Runner,
  runThrough,
  type Sequence,
  sequenceOf,
  startOf,
} from './search-rounds.ts';

/** What is known of the fewest rounds. */
export interface Fewest {
  /** No sequence for all papers is shorter. */
  readonly bound: number;
  /** One that is as short as the bound and serves all; null where none was found. */
  readonly sequence: Sequence | null;
}

/**
 * The fewest rounds for all papers, or how many there must be at least. The papers asked about are those that the
 * last answer leaves unfinished: the fewest rounds for a few papers are a lower bound for all, and often serve all.
 * Each question is answered by A* over the standings. `states`: how many may be looked at in all.
 */
export function fewestRounds(runners: readonly Runner[], fabrics: number, states: number): Fewest {
  let bound = leastFor(runners, startOf(runners), fabrics);
  let asked: number[] = [];
  let sequence: Sequence = [];
  let left = states;
  for (;;) {
    const at = runThrough(runners, sequence);
    const worst = farthestOf(runners, at, asked);
    if (worst < 0) return { bound: Math.max(bound, sequence.length), sequence };
    asked = withWaitedFor(runners, [...asked, worst]);
    const few = asked.map((k) => ({
      standings: runners[k]!.standings,
      waitsFor: runners[k]!.waitsFor.map((w) => asked.indexOf(w)),
    }));
    const answer = shortest(few, fabrics, left);
    bound = Math.max(bound, answer.bound);
    left -= answer.states;
    if (answer.sequence === null) return { bound, sequence: null };
    sequence = answer.sequence;
  }
}

/** No sequence from here on is shorter: fabric by fabric the most any paper asks for, and each paper for itself. */
function leastFor(runners: readonly Runner[], at: Int32Array, fabrics: number): number {
  let least = 0;
  for (const rounds of needOf(runners, at, fabrics)) least += rounds;
  const chain = (k: number): number =>
    runners[k]!.standings.left(at[k]!) + Math.max(0, ...runners[k]!.waitsFor.map(chain));
  for (let k = 0; k < at.length; k++) least = Math.max(least, chain(k));
  return least;
}

function farthestOf(runners: readonly Runner[], at: Int32Array, asked: readonly number[]): number {
  let worst = -1;
  let most = 0;
  runners.forEach(({ standings }, k) => {
    const left = standings.left(at[k]!);
    if (left <= most || asked.includes(k)) return;
    most = left;
    worst = k;
  });
  return worst;
}

function withWaitedFor(runners: readonly Runner[], wanted: readonly number[]): number[] {
  const all = [...wanted];
  for (let k = 0; k < all.length; k++)
    for (const w of runners[all[k]!]!.waitsFor) if (!all.includes(w)) all.push(w);
  return all;
}

interface Node extends Reached {
  readonly rounds: number;
}

function shortest(
  runners: readonly Runner[],
  fabrics: number,
  states: number,
): { readonly bound: number; readonly sequence: Sequence | null; readonly states: number } {
  const start: Node = { at: startOf(runners), rounds: 0, fabric: -1, before: null };
  const reachedIn = new Map([[start.at.join(), 0]]);
  /** Nodes by the least length of a sequence through them; the least never falls on the way. */
  const waiting: Node[][] = [];
  const put = (node: Node, least: number): void => {
    const known = waiting[least];
    if (known) known.push(node);
    else waiting[least] = [node];
  };
  put(start, leastFor(runners, start.at, fabrics));
  let looked = 0;
  for (let length = 0; length < waiting.length; length++) {
    const here = waiting[length];
    while (here !== undefined && here.length > 0) {
      const node = here.pop()!;
      if (reachedIn.get(node.at.join())! < node.rounds) continue;
      if (isDone(runners, node.at)) return { bound: length, sequence: sequenceOf(node), states: looked };
      if (++looked > states) return { bound: length, sequence: null, states: looked };
      for (let fabric = 0; fabric < fabrics; fabric++) {
        const at = advance(runners, node.at, fabric);
        if (at === null) continue;
        const key = at.join();
        const rounds = node.rounds + 1;
        if ((reachedIn.get(key) ?? Number.POSITIVE_INFINITY) <= rounds) continue;
        reachedIn.set(key, rounds);
        put({ at, rounds, fabric, before: node }, Math.max(length, rounds + leastFor(runners, at, fabrics)));
      }
    }
  }
  throw new Error('some papers can never be sewn');
}

import { advance, isDone, type Runner, type Sequence, startOf } from './search-rounds.ts';

/** A round whose loss would hold up more papers than this is not moved: no one other place serves them all. */
const MOST_HURT = 16;

/**
 * Takes rounds out of a sequence as long as all papers still come to their end. A round that somebody needs is put
 * somewhere else where that serves as well: this lengthens nothing, and by and by it leaves another round idle.
 * `steps` bounds the tries; `pick(n)` gives whole numbers below n from a seed.  Result: never longer than what came in.
 */
export function shortened(
  runners: readonly Runner[],
  sequence: Sequence,
  steps: number,
  pick: (below: number) => number,
): Sequence {
  const linked = linkedOf(runners);
  const alone = [...runners.keys()].filter((k) => !linked.includes(k));
  let best = sequence;
  let trail = trailOf(runners, best);
  /**
   * Takes another sequence if all papers come to their end by it. A round more can do harm: of all stages a paper may
   * have reached only the most promising are kept, and those are others then.
   */
  const take = (next: Sequence, from: number): void => {
    const through = trailOf(runners, next, trail.slice(0, from + 1));
    if (!isDone(runners, through.at(-1)!)) return;
    best = next;
    trail = through;
  };
  /** Papers that come to no end without round `taken`: those that it moved on and that never catch up. */
  const hurtWithout = (taken: number): number[] => {
    const hurt: number[] = [];
    for (const k of alone) {
      let here = trail[taken]![k]!;
      if (here === trail[taken + 1]![k]) continue;
      const { after, done } = runners[k]!.standings;
      let j = taken + 1;
      for (; j < best.length; j++) {
        here = after(here, best[j]!);
        if (here === trail[j + 1]![k]) break;
      }
      if (j === best.length && here !== done) hurt.push(k);
    }
    return hurt;
  };
  for (let step = 0; step < steps && best.length > 1; step++) {
    const taken = pick(best.length);
    const hurt = hurtWithout(taken);
    if (hurt.length > MOST_HURT) continue;
    const rest = best.filter((_, k) => k !== taken);
    if (hurt.length === 0) {
      take(rest, taken);
      continue;
    }
    const at = placeFor(runners, hurt, rest, best[taken]!, taken, pick(rest.length + 1));
    if (at < 0) continue;
    const moved = [...rest.slice(0, at), best[taken]!, ...rest.slice(at)];
    take(moved, Math.min(at, taken));
  }
  return best;
}

/** Where in a sequence a round of a fabric brings all the papers to their end, looked for from `start` on; -1: nowhere. */
function placeFor(
  runners: readonly Runner[],
  hurt: readonly number[],
  rest: Sequence,
  fabric: number,
  taken: number,
  start: number,
): number {
  const trails = hurt.map((k) => {
    const { start: first, after } = runners[k]!.standings;
    const trail = [first];
    for (const next of rest) trail.push(after(trail.at(-1)!, next));
    return trail;
  });
  const serves = (at: number): boolean =>
    hurt.every((k, i) => {
      const { after, done } = runners[k]!.standings;
      const before = trails[i]![at]!;
      let here = after(before, fabric);
      if (here === before) return false;
      for (let j = at; j < rest.length && here !== done; j++) here = after(here, rest[j]!);
      return here === done;
    });
  for (let k = 0; k <= rest.length; k++) {
    const at = (start + k) % (rest.length + 1);
    if (at !== taken && serves(at)) return at;
  }
  return -1;
}

/** Standings before the first round and after each; `known` are those that stay as they are. */
function trailOf(
  runners: readonly Runner[],
  sequence: Sequence,
  known: readonly Int32Array[] = [startOf(runners)],
): Int32Array[] {
  const trail = [...known];
  for (let k = trail.length - 1; k < sequence.length; k++)
    trail.push(advance(runners, trail[k]!, sequence[k]!) ?? trail[k]!);
  return trail;
}

function linkedOf(runners: readonly Runner[]): number[] {
  const linked = new Set<number>();
  runners.forEach(({ waitsFor }, k) => {
    if (waitsFor.length === 0) return;
    linked.add(k);
    for (const w of waitsFor) linked.add(w);
  });
  return [...linked].sort((a, b) => a - b);
}

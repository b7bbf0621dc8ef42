import type { Paper } from './papers.ts';
import { plansOfRounds, type RoundsOptions, type RoundsPlan, type RoundsProgress } from './plan-rounds.ts';

/**
 * In which order papers are taken into work where it is so many at a time:
 * - `blocks`: block by block, as the project has them.
 * - `largest`: those with the largest patches first, so that what is cut off them serves smaller ones.
 * - `fabrics`: those that share most fabrics together.
 */
export type BatchOrder = 'blocks' | 'largest' | 'fabrics';

export interface BatchChoice {
  /** Papers at a time, at least 1; all at once when null. */
  readonly most: number | null;
  readonly order: BatchOrder;
}

export const ALL_AT_ONCE: BatchChoice = { most: null, order: 'blocks' };

/** All copies of one section: they are sewn in one order, so they stay together. */
type Group = readonly Paper[];

/**
 * Papers in batches that are sewn one after another, each at most as large as was chosen, but for a section in more copies
 * than that. A paper that starts from a finished unit is never in an earlier batch than the papers of that unit.
 * `largestOf`: the area of a paper's largest patch, in square inches.
 */
export function batchesOf(
  papers: readonly Paper[],
  { most, order }: BatchChoice,
  largestOf: (paper: Paper) => number,
): readonly (readonly Paper[])[] {
  if (papers.length === 0) return [];
  if (most === null || most >= papers.length) return [papers];
  const groupOf = new Map<string, Paper[]>();
  for (const paper of papers) {
    const key = sectionOf(paper);
    const group = groupOf.get(key);
    if (group) group.push(paper);
    else groupOf.set(key, [paper]);
  }
  const groups: Group[] = [...groupOf.values()];
  const wanted =
    order === 'blocks'
      ? groups
      : order === 'largest'
        ? byLargest(groups, largestOf)
        : byFabrics(groups, most);
  return filled(unitsFirst(wanted, papers), most);
}

const sectionOf = ({ block, section }: Paper): string => `${block}/${section}`;

/** Each group after those whose finished unit it starts from, else as wanted. */
function unitsFirst(wanted: readonly Group[], papers: readonly Paper[]): Group[] {
  const known = new Map(papers.map((paper) => [paper.id, sectionOf(paper)]));
  const groupOf = new Map(wanted.map((group) => [sectionOf(group[0]!), group]));
  const taken = new Set<Group>();
  const line: Group[] = [];
  const take = (group: Group): void => {
    if (taken.has(group)) return;
    taken.add(group);
    for (const other of group.flatMap(({ waitsFor }) => waitsFor)) {
      const before = groupOf.get(known.get(other) ?? '');
      if (before) take(before);
    }
    line.push(group);
  };
  for (const group of wanted) take(group);
  return line;
}

function filled(line: readonly Group[], most: number): Paper[][] {
  const batches: Paper[][] = [];
  for (const group of line) {
    const last = batches.at(-1);
    if (last && last.length + group.length <= most) last.push(...group);
    else batches.push([...group]);
  }
  return batches;
}

function byLargest(groups: readonly Group[], largestOf: (paper: Paper) => number): Group[] {
  const size = new Map(groups.map((group) => [group, largestOf(group[0]!)]));
  return [...groups].sort((a, b) => size.get(b)! - size.get(a)!);
}

/** Batch by batch: the next section is the one that adds fewest fabrics to the batch, then shares most with it. */
function byFabrics(groups: readonly Group[], most: number): Group[] {
  const left = new Map(groups.map((group) => [group, new Set(group[0]!.form.fabrics)]));
  const line: Group[] = [];
  let here = new Set<string | null>();
  let count = 0;
  while (left.size > 0) {
    let best: Group | null = null;
    let least = Number.POSITIVE_INFINITY;
    for (const [group, fabrics] of left) {
      let fresh = 0;
      for (const fabric of fabrics) if (!here.has(fabric)) fresh++;
      // An empty batch starts with the section of most fabrics, so that others find theirs in it.
      const cost = count === 0 ? -fabrics.size : fresh - (fabrics.size - fresh) / 100;
      if (cost < least) {
        least = cost;
        best = group;
      }
    }
    for (const fabric of left.get(best!)!) here.add(fabric);
    left.delete(best!);
    line.push(best!);
    count += best!.length;
    if (count >= most) {
      here = new Set();
      count = 0;
    }
  }
  return line;
}

/**
 * Plans of rounds for batches sewn one after another, better and better ones, each whole; the first as soon as every batch has
 * one. Numbers are summed over the batches.
 */
export function* plansOfBatches(
  batches: readonly (readonly Paper[])[],
  options: RoundsOptions = {},
): Generator<RoundsProgress> {
  const searches = batches.map((papers) => {
    const there = new Set(papers.map(({ id }) => id));
    // What is in an earlier batch is finished.
    const own = papers.map((paper) => ({ ...paper, waitsFor: paper.waitsFor.filter((id) => there.has(id)) }));
    return plansOfRounds(own, options);
  });
  const plans: RoundsPlan[] = [];
  for (const search of searches) {
    const first = search.next();
    if (!first.done) plans.push(first.value.plan);
  }
  if (plans.length === 0) return;
  yield { plan: inTurn(plans), done: 0 };
  for (const [k, search] of searches.entries())
    for (const { plan, done } of search) {
      plans[k] = plan;
      yield { plan: inTurn(plans), done: (k + done) / searches.length };
    }
}

function inTurn(plans: readonly RoundsPlan[]): RoundsPlan {
  if (plans.length === 1) return plans[0]!;
  const sum = (of: (plan: RoundsPlan) => number): number => plans.reduce((all, plan) => all + of(plan), 0);
  return {
    papers: plans.flatMap(({ papers }) => papers),
    rounds: plans.flatMap(({ rounds }, k) => rounds.map((round) => ({ ...round, batch: k + 1 }))),
    bound: sum(({ bound }) => bound),
    byPosition: sum(({ byPosition }) => byPosition),
    byLeafing: sum(({ byLeafing }) => byLeafing),
  };
}

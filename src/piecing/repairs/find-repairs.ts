import type { Block } from '../block.ts';
import type { PieceOptions } from '../options.ts';
import { piece } from '../piece.ts';
import type { PiecingPlan } from '../plan.ts';
import { candidatesFor } from './candidates.ts';
import { applyChange, type Candidate, type Repair, type Standing } from './repair.ts';

/** Repairs shown at most. */
const MOST_REPAIRS = 8;

/** Changes tried at most, and regions looked into for each; a block with a ring has all its changes tried. */
const MOST_TRIALS = 90;
const MOST_TRIALS_OF_RING = 600;
const TRIAL_BUDGET = 300;

/** How far a search for repairs is, for a bar and so that it can be stopped between two steps. */
export interface RepairProgress {
  readonly tried: number;
  readonly total: number;
}

interface Tried {
  readonly candidate: Candidate;
  readonly after: Standing;
}

/**
 * Changes that make a block's plan better, each tried through the whole pipeline before it is offered, the best first.
 * A generator: it yields after every trial and may simply be dropped. Better means, in this order: fewer troubles,
 * fewer set-in joins, fewer foundations, fewer cautions. Where the block has a ring, all single changes are tried and
 * those that open it come with the fewest added patches first.
 */
export function* findRepairs(
  block: Block,
  options: PieceOptions = {},
): Generator<RepairProgress, readonly Repair[], void> {
  const plan = piece(block, options);
  if (plan.verdict === 'broken') return [];
  const before = standingOf(plan);
  const hasRing = before.setInJoins > 0;
  const candidates = candidatesFor(block, plan).slice(0, hasRing ? MOST_TRIALS_OF_RING : MOST_TRIALS);
  const better: Tried[] = [];
  for (const [tried, candidate] of candidates.entries()) {
    const after = standingOf(
      piece(applyChange(block, candidate.change), { ...options, budget: TRIAL_BUDGET }),
    );
    const isCure = after.setInJoins < before.setInJoins || after.troubles < before.troubles;
    // A line of the picture is given up for a cure only, never for convenience.
    if (after.verdict !== 'broken' && isBetter(after, before) && (isCure || candidate.loss === 0))
      better.push({ candidate, after });
    yield { tried: tried + 1, total: candidates.length };
  }
  return chosen(better, before).map(({ candidate, after }) => ({
    id: candidate.id,
    sentence: candidate.sentence,
    change: candidate.change,
    before,
    after,
  }));
}

/** All repairs at once, for callers off the screen. */
export function repairsOf(block: Block, options: PieceOptions = {}): readonly Repair[] {
  const search = findRepairs(block, options);
  for (;;) {
    const step = search.next();
    if (step.done) return step.value;
  }
}

export function standingOf(plan: PiecingPlan): Standing {
  const count = (severity: string): number => plan.findings.filter((f) => f.severity === severity).length;
  return {
    verdict: plan.verdict,
    foundations: plan.sections.length,
    patches: plan.patches.length,
    setInJoins: plan.joins.filter(({ kind }) => kind === 'set-in').length,
    troubles: count('trouble'),
    cautions: count('caution'),
  };
}

function isBetter(a: Standing, b: Standing): boolean {
  if (a.setInJoins !== b.setInJoins) return a.setInJoins < b.setInJoins;
  if (a.troubles !== b.troubles) return a.troubles < b.troubles;
  if (a.foundations !== b.foundations) return a.foundations < b.foundations && a.cautions <= b.cautions + 1;
  return a.cautions < b.cautions;
}

/** What a repair gains against what it takes: patches it adds, lines of the picture it loses, inches it moves. */
function worth({ candidate, after }: Tried, before: Standing): number {
  const gain =
    40 * (before.setInJoins - after.setInJoins) +
    20 * (before.troubles - after.troubles) +
    6 * (before.foundations - after.foundations) +
    3 * (before.cautions - after.cautions);
  const added = Math.max(0, after.patches - before.patches);
  return gain - 2 * added - 4 * candidate.loss - 0.5 * candidate.moved;
}

/** The most worthwhile, no more than two for any one cut, and no two that come to the same drawing. */
function chosen(tried: readonly Tried[], before: Standing): Tried[] {
  const opensRing = ({ after }: Tried): boolean => after.setInJoins < before.setInJoins;
  const added = ({ candidate, after }: Tried): number =>
    candidate.loss > 0 ? 1000 + candidate.loss : Math.abs(after.patches - before.patches);
  const sorted = [...tried].sort(
    (a, b) =>
      Number(opensRing(b)) - Number(opensRing(a)) ||
      (opensRing(a) ? a.after.setInJoins - b.after.setInJoins || added(a) - added(b) : 0) ||
      worth(b, before) - worth(a, before),
  );
  const timesOf = new Map<string, number>();
  const drawings = new Set<string>();
  const taken: Tried[] = [];
  for (const next of sorted) {
    const subject = next.candidate.id.split(' ').slice(0, 2).join(' ');
    const drawing =
      next.candidate.change.kind === 'cuts'
        ? next.candidate.change.cuts.map(({ from, to }) => `${from} ${to}`).join(';')
        : next.candidate.change.plan;
    const times = timesOf.get(subject) ?? 0;
    if (times >= 2 || drawings.has(drawing)) continue;
    timesOf.set(subject, times + 1);
    drawings.add(drawing);
    taken.push(next);
    if (taken.length === MOST_REPAIRS) break;
  }
  return taken;
}

import type { Block } from '../../src/piecing/block.ts';
import type { PieceOptions } from '../../src/piecing/options.ts';
import { piece } from '../../src/piecing/piece.ts';
import { candidatesFor } from '../../src/piecing/repairs/candidates.ts';
import { applyChange, type Candidate, type Repair } from '../../src/piecing/repairs/repair.ts';
import type { Standing, Tally } from '../../src/piecing/repairs/standing.ts';
import { holdsOf, TRIAL_BUDGET } from '../../src/piecing/repairs/trial.ts';
import { NEAR_MISS_IN } from '../../src/piecing/rules/near-miss.ts';
import { counted, isBetter, isBetterAsMeant } from './standing.ts';

/** Repairs shown at most. */
const MOST_REPAIRS = 8;

/** Changes tried at most. */
const MOST_TRIALS = 90;

/** A block that straight seams cannot sew has all its changes tried for opening what holds; never more than this. */
const MOST_TRIALS_OF_RING = 600;

/** Where none of them opens it, so many are tried for anything else they better. */
const TRIALS_BESIDE_RING = 24;

interface Tried<After extends Tally = Tally> {
  readonly candidate: Candidate;
  readonly after: After;
}

/**
 * The repairs of a block, found the long way: every change is pieced in full, without any bound that leaves a change
 * out before, without reuse, each anew. What the quick way offers must be the same.
 */
export function slowRepairsOf(block: Block, options: PieceOptions = {}): readonly Repair[] {
  const plan = piece(block, options);
  if (plan.verdict === 'broken') return [];
  const before = counted(plan);
  const candidates = candidatesFor(block, plan);
  const holds = before.setInCorners > 0 ? holdsOf(block) : 0;
  const tried = (some: readonly Candidate[], mustOpen: number): Tried<Standing>[] =>
    some.flatMap((candidate) => {
      const changed = applyChange(block, candidate.change);
      const after = counted(piece(changed, { ...options, budget: TRIAL_BUDGET }));
      if (after.verdict === 'broken' || !isWorthIt(candidate, after, before)) return [];
      if (mustOpen > 0 && holdsOf(changed) >= mustOpen) return [];
      return isWorthItsLoss(candidate, after, before) ? [{ candidate, after }] : [];
    });
  let better: Tried[];
  if (before.setInCorners === 0) better = tried(candidates.slice(0, MOST_TRIALS), 0);
  else {
    better = tried(candidates.slice(0, MOST_TRIALS_OF_RING), holds);
    if (better.length === 0) better = tried(candidates.slice(0, TRIALS_BESIDE_RING), 0);
  }
  const proven: Tried<Standing>[] = [];
  const isNew = variety();
  for (const { candidate } of ranked(better, before)) {
    if (proven.length === MOST_REPAIRS) break;
    if (!isNew(candidate)) continue;
    const after = counted(piece(applyChange(block, candidate.change), options));
    if (after.verdict !== 'broken' && isWorthIt(candidate, after, before)) proven.push({ candidate, after });
  }
  return ranked(proven, before).map(({ candidate: { id, sentence, change, moved }, after }) => ({
    id,
    sentence,
    change,
    moved,
    before,
    after,
  }));
}

/** Loose ends drawn on were meant to be: papers do not count against it. */
const isWorthIt = ({ isOwn }: Candidate, after: Tally, before: Tally): boolean =>
  isOwn ? isBetterAsMeant(after, before) : isBetter(after, before);

/** A line of the picture is given up for a cure only, never for convenience. */
function isWorthItsLoss({ loss }: Candidate, after: Tally, before: Tally): boolean {
  return loss === 0 || after.setInCorners < before.setInCorners || after.troubles < before.troubles;
}

/** What a repair gains against what it takes: patches it adds, lines of the picture it loses, inches it moves. */
function worth({ candidate, after }: Tried, before: Tally): number {
  const fewer = before.foundations - after.foundations;
  const gain =
    40 * (before.setInCorners - after.setInCorners) +
    20 * (before.troubles - after.troubles) +
    6 * (candidate.isOwn ? Math.max(0, fewer) : fewer) +
    3 * (before.cautions - after.cautions);
  // An end that stops a hair short was meant to reach: what it adds is what was drawn.
  const isMeant = candidate.isOwn === true || candidate.moved <= NEAR_MISS_IN;
  const added = isMeant ? 0 : Math.max(0, after.patches - before.patches);
  return gain - 2 * added - 4 * candidate.loss - (candidate.isOwn ? 0.05 : 0.5) * candidate.moved;
}

/**
 * The most worthwhile first: those that cost the picture no line, and of them those that open a ring, by the patches
 * they add.
 */
function ranked<T extends Tried>(tried: readonly T[], before: Tally): T[] {
  const opensRing = ({ after }: Tried): boolean => after.setInCorners < before.setInCorners;
  const added = ({ candidate, after }: Tried): number =>
    candidate.loss > 0 ? 1000 + candidate.loss : Math.abs(after.patches - before.patches);
  return [...tried].sort(
    (a, b) =>
      Number(a.candidate.loss > 0) - Number(b.candidate.loss > 0) ||
      Number(opensRing(b)) - Number(opensRing(a)) ||
      (opensRing(a) ? a.after.setInCorners - b.after.setInCorners || added(a) - added(b) : 0) ||
      worth(b, before) - worth(a, before),
  );
}

/** Says of each candidate in turn whether it is worth showing beside those before: no more than two for any one cut, and no two that come to the same drawing. */
function variety(): (candidate: Candidate) => boolean {
  const timesOf = new Map<string, number>();
  const drawings = new Set<string>();
  return ({ id, change }) => {
    const subject = id.split(' ').slice(0, 2).join(' ');
    const drawing =
      change.kind === 'cuts' ? change.cuts.map(({ from, to }) => `${from} ${to}`).join(';') : change.plan;
    const times = timesOf.get(subject) ?? 0;
    if (times >= 2 || drawings.has(drawing)) return false;
    timesOf.set(subject, times + 1);
    drawings.add(drawing);
    return true;
  };
}

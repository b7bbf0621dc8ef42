import type { Block } from '../block.ts';
import type { PieceOptions } from '../options.ts';
import { piece } from '../piece.ts';
import { NEAR_MISS_IN } from '../rules/near-miss.ts';
import { candidatesFor } from './candidates.ts';
import { applyChange, type Candidate, type Change, type Repair } from './repair.ts';
import { isBetter, type Standing, standingOf, type Tally, whatIsMeant } from './standing.ts';
import { holdsOf, type Outcome, tryChange } from './trial.ts';

/** Repairs shown at most. */
const MOST_REPAIRS = 8;

/** Changes tried at most. */
const MOST_TRIALS = 90;

/** A block that straight seams cannot sew has all its changes tried for opening what holds; never more than this. */
const MOST_TRIALS_OF_RING = 600;

/** Where none of them opens it, so many are tried for anything else they better. */
const TRIALS_BESIDE_RING = 24;

/**
 * How far a search for repairs is, to be shown in numbers (`12 of 90 changes tried`) and as a bar.
 *
 * - `tried` counts changes done with, `total` all that are going to be tried. Both never fall, and `tried ≤ total`.
 * - `total` is known from the first step on. It grows once, at most, where a block that straight seams cannot sew has
 *   no single change that opens it and a few are tried for what else they better.
 * - At the last step before the repairs are returned `tried` equals `total`: while the best are being proven it stays so.
 */
export interface RepairProgress {
  readonly tried: number;
  readonly total: number;
}

interface Tried<After extends Tally = Tally> {
  readonly candidate: Candidate;
  readonly after: After;
}

/** What is asked of a search beyond the usual. */
export interface RepairWishes {
  /** Changes tried at most. */
  readonly mostTrials?: number;
  /** Is a change that betters the plan worth making sure of? All are, unless said otherwise. */
  readonly isWanted?: (change: Change, after: Tally) => boolean;
}

/** A change that did well when it was tried. */
interface Promising extends Tried {
  readonly proven: Outcome['proven'];
}

/**
 * Changes that make a block's plan better, the best first; each pieced in full before it is offered, so that what it
 * promises is what comes of it. A generator: it yields after every trial and may simply be dropped. What is better is
 * told by `isBetter`; loose ends drawn on may cost foundations. Where the block has a ring, all single changes are tried for opening it, and those that do come
 * with the fewest added patches first.
 */
export function* findRepairs(
  block: Block,
  options: PieceOptions = {},
  { mostTrials = Number.POSITIVE_INFINITY, isWanted = () => true }: RepairWishes = {},
): Generator<RepairProgress, readonly Repair[], void> {
  const plan = piece(block, options);
  if (plan.verdict === 'broken') return [];
  const before = standingOf(plan);
  const candidates = candidatesFor(block, plan);
  const better: Promising[] = [];
  const outcomes = new Map<string, Outcome | null>();
  const progress = { tried: 0, total: 0 };
  const toBeat = ({ isOwn }: Candidate): Tally => (isOwn ? whatIsMeant(before) : before);
  function* tryAll(some: readonly Candidate[], mustOpen: number): Generator<RepairProgress, void, void> {
    progress.total += some.length;
    for (const candidate of some) {
      // Two changes that come to one drawing are tried once.
      const drawing = `${mustOpen} ${candidate.isOwn} ${differenceOf(block, candidate.change)}`;
      let outcome = outcomes.get(drawing);
      if (outcome === undefined) {
        const changed = applyChange(block, candidate.change);
        outcome = tryChange(changed, options, toBeat(candidate), mustOpen);
        outcomes.set(drawing, outcome);
      }
      if (outcome && isWorthItsLoss(candidate, outcome.after, before)) better.push({ candidate, ...outcome });
      progress.tried++;
      yield { ...progress };
    }
  }
  if (before.setInCorners === 0) {
    yield* tryAll(candidates.slice(0, Math.min(mostTrials, MOST_TRIALS)), 0);
  } else {
    yield* tryAll(candidates.slice(0, Math.min(mostTrials, MOST_TRIALS_OF_RING)), holdsOf(block));
    if (better.length === 0) yield* tryAll(candidates.slice(0, TRIALS_BESIDE_RING), 0);
  }
  const proven: Tried<Standing>[] = [];
  const isNew = variety();
  for (const { candidate, after: ranks, proven: known } of ranked(better, before)) {
    if (proven.length === MOST_REPAIRS) break;
    if (!isWanted(candidate.change, ranks) || !isNew(candidate)) continue;
    const after = known() ?? standingOf(piece(applyChange(block, candidate.change), options));
    if (after.verdict !== 'broken' && isBetter(after, toBeat(candidate))) proven.push({ candidate, after });
    yield { ...progress };
  }
  return ranked(proven, before).map(({ candidate: { id, sentence, change, moved, isOwn }, after }) => ({
    id,
    sentence,
    change,
    moved,
    before,
    after,
    ...(isOwn ? { isOwn } : {}),
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

/** How a changed drawing differs from the block, as a text: equal texts, equal drawings. */
function differenceOf(block: Block, change: Change): string {
  if (change.kind === 'plan') return `plan ${change.plan}`;
  const old = new Set(block.cuts);
  const kept = new Set(change.cuts);
  const gone = block.cuts.flatMap((cut, k) => (kept.has(cut) ? [] : [k]));
  const come = change.cuts.flatMap((cut) =>
    old.has(cut) ? [] : [`${change.cuts.indexOf(cut)} ${cut.from} ${cut.to} ${cut.role}`],
  );
  return `${gone} ${come.join(' ')}`;
}

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

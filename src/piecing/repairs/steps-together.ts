import { phrase } from '../../words/phrase.ts';
import type { Block } from '../block.ts';
import type { PieceOptions } from '../options.ts';
import { piece } from '../piece.ts';
import { candidatesFor } from './candidates.ts';
import { findRepairs, type RepairProgress } from './find-repairs.ts';
import { applyChange, type Repair } from './repair.ts';
import { isBetter, type Standing, standingOf, type Tally } from './standing.ts';

/** Steps of one cure at most. */
const MOST_STEPS = 5;

/** Changes tried for each step after the first. */
const TRIALS_A_STEP = 60;

/** Where no single change helps so many are gone on from, each with so many trials. */
const FIRST_STEPS = 12;
const TRIALS_AFTER = 16;

/** Is something left that keeps the block from being sewn with straight seams, or is in the way? */
export const isUnfinished = (after: Tally): boolean => after.setInCorners > 0 || after.troubles > 0;

/**
 * Goes on from a change that helps but does not do, with the best change of what it leaves, until nothing is in the way. Gives
 * all steps as one; null where they do not come to that. A generator: it yields after each trial.
 */
export function* wentOn(
  block: Block,
  first: Repair,
  options: PieceOptions,
): Generator<RepairProgress, Repair | null, void> {
  const sentences = [first.sentence];
  let { moved, after } = first;
  let id = first.id;
  let changed = applyChange(block, first.change);
  while (isUnfinished(after)) {
    if (sentences.length === MOST_STEPS) return null;
    const [next] = yield* findRepairs(changed, options, { mostTrials: TRIALS_A_STEP });
    if (next?.change.kind !== 'cuts') return null;
    sentences.push(next.sentence);
    id += `, ${next.id}`;
    moved = Math.max(moved, next.moved);
    after = next.after;
    changed = applyChange(changed, next.change);
  }
  return {
    id,
    sentence: inSteps(sentences),
    change: { kind: 'cuts', cuts: changed.cuts },
    moved,
    before: first.before,
    after,
  };
}

/**
 * Two changes that help together where no single one does: each likely change, though it gains nothing or costs something, with
 * the best that follows it. A generator: it yields after each trial.
 */
export function* pairsOfSteps(
  block: Block,
  before: Standing,
  options: PieceOptions,
): Generator<RepairProgress, readonly Repair[], void> {
  const found: Repair[] = [];
  for (const { id, sentence, change, moved, loss } of candidatesFor(block, piece(block, options)).slice(
    0,
    FIRST_STEPS,
  )) {
    if (loss > 0 || change.kind !== 'cuts') continue;
    const changed = applyChange(block, change);
    const between = standingOf(piece(changed, options));
    if (between.verdict === 'broken' || between.setInCorners > before.setInCorners) continue;
    const [next] = yield* findRepairs(changed, options, { mostTrials: TRIALS_AFTER });
    if (next?.change.kind !== 'cuts' || !isBetter(next.after, before)) continue;
    found.push({
      id: `${id}, ${next.id}`,
      sentence: inSteps([sentence, next.sentence]),
      change: next.change,
      moved: Math.max(moved, next.moved),
      before,
      after: next.after,
    });
  }
  return found.sort((a, b) => Number(isBetter(b.after, a.after)) - Number(isBetter(a.after, b.after)));
}

/** `Draw cut 3 on to cut 5. Then: Pull cut 2 back to cut 1.`; of many steps the first two, and how many more. */
function inSteps(sentences: readonly string[]): string {
  const [first, second, ...more] = sentences;
  if (second === undefined) return first!;
  const rest =
    more.length === 0
      ? ''
      : phrase(' And {n, plural, one {# more step} other {# more steps}} like these.', { n: more.length });
  return phrase('{first} Then: {second}{rest}', { first: first!, second, rest });
}

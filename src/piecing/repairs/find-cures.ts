import { TOUCH_IN } from '../../geometry/lattice.ts';
import { distance, distanceToSegment } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import type { Block, Cut } from '../block.ts';
import type { Mend } from '../mending/draft.ts';
import { findMends, findWishes } from '../mending/mend.ts';
import { type Symmetry, symmetriesOf } from '../mending/symmetry.ts';
import { mendSentence, wishSentence } from '../mending/words.ts';
import type { PieceOptions } from '../options.ts';
import { piece, prepare } from '../piece.ts';
import type { PiecingPlan } from '../plan.ts';
import { atAllPlaces, namesAtPlaces } from './all-alike.ts';
import { type Cure, type CureKind, inRank, keepsPicture } from './cure.ts';
import { findRepairs, type RepairProgress } from './find-repairs.ts';
import { pictureChange } from './picture-change.ts';
import { applyChange, type Change, type Repair } from './repair.ts';
import { isBetter, standingOf, type Tally } from './standing.ts';
import { isUnfinished, pairsOfSteps, wentOn } from './steps-together.ts';

/** How far a search is, and what it has found by now. */
export interface CureProgress extends RepairProgress {
  readonly cures: readonly Cure[];
}

/** The same as news: what has been found only where there is more of it. */
export type CureNews = RepairProgress & Partial<Pick<CureProgress, 'cures'>>;

/** A line that moves by less than this is not seen to: 1/8 in. */
const HAIR_IN = 1 / 8;

/** Less of the picture than this is altered by rounding only. */
const LEAST_SHARE = 1e-5;

/** Where a mend keeps the whole picture, a change of more than this share of it is no cure. */
const MOST_SHARE = 0.3;

/** First steps gone on from: each may take some dozens of trials. */
const STEPS_GONE_ON_FROM = 3;

/**
 * All that would help a block, what keeps its picture first: ways to mend it, then changes that better it, told apart by what
 * they do to the picture; and of a block that sews, what would take fewer foundations. What is alike at several places is
 * done at all of them; what helps but does not do is gone on from until it does. A generator: it yields how far it is and
 * what it has, and may simply be dropped.
 */
export function* findCures(
  block: Block,
  options: PieceOptions = {},
): Generator<CureProgress, readonly Cure[], void> {
  const plan = piece(block, options);
  if (plan.verdict === 'broken' || plan.verdict === 'undivided') return [];
  const before = standingOf(plan);
  const drawings = new Set<string>();
  let cures: Cure[] = [];
  let progress: RepairProgress = { tried: 0, total: 0 };
  const told = (): CureProgress => ({ ...progress, cures });
  if (plan.verdict === 'set-in-seams') {
    const search = findMends(block, options);
    let step = search.next();
    for (; !step.done; step = search.next()) {
      if (step.value) cures = [cureFrom(step.value.mend, 'mend')];
      yield told();
    }
    cures = step.value.map((mend) => cureFrom(mend, 'mend'));
    yield told();
  }
  for (const { mended } of cures) if (mended) drawings.add(drawingOf(mended.plan));

  const mends = cures;
  const isWanted = ({ kind, ...change }: Change, after: Tally): boolean =>
    kind === 'plan' ||
    mends.length === 0 ||
    !('cuts' in change) ||
    !drawsOn(block, change.cuts) ||
    // What is only drawn on does no better than a mend, unless on fewer papers.
    (after.setInCorners === 0 && mends.every((mend) => after.foundations < mend.after.foundations));
  const search = findRepairs(block, options, { isWanted });
  let step = search.next();
  for (; !step.done; step = search.next()) {
    progress = step.value;
    yield told();
  }
  let repairs = step.value;
  if (repairs.length === 0 && before.troubles + before.cautions > 0 && mends.length === 0)
    repairs = yield* watched(pairsOfSteps(block, before, options));
  const symmetries = symmetriesOfBlock(block);
  const done = new Set<string>();
  let goneOn = 0;
  for (const one of repairs) {
    const { change } = one;
    const names = change.kind === 'cuts' ? namesAtPlaces(block, change.cuts, symmetries) : [];
    if (names.length > 0 && done.has(names[0]!)) continue;
    for (const name of names) done.add(name);
    let repair: Repair | null = everywhereAlike(one);
    if (isUnfinished(repair.after)) {
      if (goneOn++ < STEPS_GONE_ON_FROM) repair = (yield* watched(wentOn(block, repair, options))) ?? repair;
      if (mends.length > 0 && repair.after.setInCorners > 0) continue;
    }
    const cure = judged(repair);
    if (cure) cures = [...cures, cure];
    yield told();
  }
  if (plan.verdict === 'several-foundations') {
    const wishes = findWishes(block, options);
    let wish = wishes.next();
    for (; !wish.done; wish = wishes.next()) yield told();
    for (const mend of wish.value) {
      if (isSeen(mend.plan)) continue;
      cures = [...cures, cureFrom(mend, 'wish')];
    }
  }
  return inRank(cures.filter((cure) => !cures.some((other) => outdoes(other, cure))));

  /** Another search whose steps are told as progress of this one. */
  function* watched<T>(inner: Generator<RepairProgress, T, void>): Generator<CureProgress, T, void> {
    for (;;) {
      const next = inner.next();
      if (next.done) return next.value;
      yield told();
    }
  }

  function isSeen(after: PiecingPlan): boolean {
    const drawing = drawingOf(after);
    if (drawings.has(drawing)) return true;
    drawings.add(drawing);
    return false;
  }

  /** A repair at every place that looks the same, where that is better than at one. */
  function everywhereAlike(repair: Repair): Repair {
    const { change, sentence, after } = repair;
    if (change.kind !== 'cuts' || symmetries.length === 0) return repair;
    for (const { cuts, places } of atAllPlaces(block, change.cuts, symmetries)) {
      const all = standingOf(piece({ ...block, cuts }, options));
      if (all.verdict === 'broken' || !isBetter(all, after)) continue;
      return {
        ...repair,
        id: `${repair.id} at all places`,
        sentence: phrase(
          '{sentence}, and so at {isPlaces, select, true {both} other {all {places}}} places alike.',
          { sentence: sentence.replace(/\.$/, ''), isPlaces: places === 2, places },
        ),
        change: { kind: 'cuts', cuts },
        after: all,
      };
    }
    return repair;
  }

  function cureFrom(mend: Mend, kind: 'mend' | 'wish'): Cure {
    return {
      id: `${kind} ${mend.lines.flat(2).map((v) => v.toFixed(2))}`,
      sentence: kind === 'mend' ? mendSentence(mend) : wishSentence(mend),
      change: { kind: 'cuts', cuts: mend.cuts },
      moved: 0,
      before,
      after: mend.after,
      kind,
      picture: { share: 0, places: [] },
      mended: mend,
    };
  }

  /** A repair with what it does to the picture; null where another comes to the same drawing, or a mend does as well. */
  function judged(repair: Repair): Cure | null {
    if (repair.change.kind === 'plan') return { ...repair, kind: 'kept', picture: { share: 0, places: [] } };
    const after = piece(applyChange(block, repair.change), options);
    if (isSeen(after)) return null;
    if (mends.some((mend) => isNoWorse(mend.after, repair.after))) return null;
    const picture = pictureChange(plan, after);
    if (mends.length > 0 && picture.share > MOST_SHARE) return null;
    return { ...repair, kind: kindOf(repair, picture.share), picture };
  }

  function kindOf({ id, change, moved }: Repair, share: number): CureKind {
    if (share < LEAST_SHARE) return 'kept';
    if (change.kind === 'cuts' && /\bremove /.test(id)) return 'lost';
    return moved < HAIR_IN ? 'hair' : 'altered';
  }
}

/** Is another cure that keeps the picture better than this one in something and worse in nothing? */
function outdoes(other: Cure, cure: Cure): boolean {
  const isMend = [other, cure].some(({ kind, change }) => kind === 'mend' || change.kind === 'plan');
  if (isMend || cure.isOwn || !keepsPicture(other) || !isNoWorse(other.after, cure.after)) return false;
  return other.moved <= cure.moved && !isNoWorse(cure.after, other.after);
}

const isNoWorse = (a: Tally, b: Tally): boolean =>
  a.setInCorners <= b.setInCorners &&
  a.patches <= b.patches &&
  a.foundations <= b.foundations &&
  a.troubles <= b.troubles &&
  a.cautions <= b.cautions;

function symmetriesOfBlock(block: Block): readonly Symmetry[] {
  const prepared = prepare(block);
  return prepared.ok ? symmetriesOf(block.outline, prepared.pattern.division) : [];
}

/** Is every cut of a block still there, as long as it was or longer? */
function drawsOn(block: Block, cuts: readonly Cut[]): boolean {
  const now = new Map(cuts.map((cut) => [cut.id, cut]));
  return block.cuts.every((cut) => {
    const next = now.get(cut.id);
    if (next === cut) return true;
    if (next === undefined || distance(next.from, next.to) < distance(cut.from, cut.to)) return false;
    return [cut.from, cut.to].every((end) => distanceToSegment(end, next.from, next.to) <= 2 * TOUCH_IN);
  });
}

/** A text that names the patches and foundations of a plan: equal texts, one drawing sewn one way. */
const drawingOf = ({ patches, sections }: PiecingPlan): string =>
  `${sections.length} ${patches
    .map(({ polygon }) =>
      polygon
        .map(([x, y]) => `${x.toFixed(2)} ${y.toFixed(2)}`)
        .sort()
        .join(),
    )
    .sort()
    .join(';')}`;

import type { Block } from '../block.ts';
import type { Mend } from '../mending/draft.ts';
import { findMends, findWishes } from '../mending/mend.ts';
import { mendSentence, wishSentence } from '../mending/words.ts';
import type { PieceOptions } from '../options.ts';
import { piece } from '../piece.ts';
import type { PiecingPlan } from '../plan.ts';
import { type Cure, type CureKind, inRank } from './cure.ts';
import { findRepairs, type RepairProgress } from './find-repairs.ts';
import { pictureChange } from './picture-change.ts';
import { applyChange, type Repair } from './repair.ts';
import { standingOf } from './standing.ts';

/** How far a search is, and what it has found by now. */
export interface CureProgress extends RepairProgress {
  readonly cures: readonly Cure[];
}

/** A line that moves by less than this is not seen to: 1/8 in. */
const HAIR_IN = 1 / 8;

/** Less of the picture than this is altered by rounding only. */
const LEAST_SHARE = 1e-5;

/**
 * All that would help a block, what keeps its picture first: ways to mend it, then single changes that better it, told apart
 * by what they do to the picture; and of a block that sews, what would take fewer foundations. A generator: it yields
 * how far it is and what it has, and may simply be dropped.
 */
export function* findCures(
  block: Block,
  options: PieceOptions = {},
): Generator<CureProgress, readonly Cure[], void> {
  const plan = piece(block, options);
  if (plan.verdict === 'broken' || plan.verdict === 'undivided') return [];
  const drawings = new Set<string>();
  let cures: Cure[] = [];
  let progress: RepairProgress = { tried: 0, total: 0 };
  const told = (): CureProgress => ({ ...progress, cures });
  if (plan.verdict === 'set-in-seams') {
    const search = findMends(block, options);
    let step = search.next();
    for (; !step.done; step = search.next()) {
      if (step.value) cures = [cureFrom(step.value, 0, 'mend')];
      yield told();
    }
    cures = step.value.map((mend, k) => cureFrom(mend, k, 'mend'));
    yield told();
  }
  for (const { change } of cures) drawings.add(drawingOf(piece(applyChange(block, change), options)));
  const search = findRepairs(block, options);
  let step = search.next();
  for (; !step.done; step = search.next()) {
    progress = step.value;
    yield told();
  }
  for (const repair of step.value) {
    const cure = judged(repair);
    if (cure) cures = [...cures, cure];
    yield told();
  }
  if (plan.verdict === 'several-foundations') {
    const wishes = findWishes(block, options);
    let wish = wishes.next();
    for (; !wish.done; wish = wishes.next()) yield told();
    for (const [k, mend] of wish.value.entries()) {
      const drawing = drawingOf(piece(applyChange(block, { kind: 'cuts', cuts: mend.cuts }), options));
      if (drawings.has(drawing)) continue;
      drawings.add(drawing);
      cures = [...cures, cureFrom(mend, k, 'wish')];
    }
  }
  return inRank(cures);

  function cureFrom(mend: Mend, k: number, kind: 'mend' | 'wish'): Cure {
    return {
      id: `${kind} ${k}`,
      sentence: kind === 'mend' ? mendSentence(mend) : wishSentence(mend),
      change: { kind: 'cuts', cuts: mend.cuts },
      moved: 0,
      before: standingOf(plan),
      after: mend.after,
      kind,
      picture: { share: 0, places: [] },
    };
  }

  /** A repair with what it does to the picture; null where another comes to the same drawing. */
  function judged(repair: Repair): Cure | null {
    if (repair.change.kind === 'plan') return { ...repair, kind: 'kept', picture: { share: 0, places: [] } };
    const after = piece(applyChange(block, repair.change), options);
    const drawing = drawingOf(after);
    if (drawings.has(drawing)) return null;
    drawings.add(drawing);
    const picture = pictureChange(plan, after);
    return { ...repair, kind: kindOf(repair, picture.share), picture };
  }

  function kindOf({ id, change, moved }: Repair, share: number): CureKind {
    if (share < LEAST_SHARE) return 'kept';
    if (change.kind === 'cuts' && id.startsWith('remove ')) return 'lost';
    return moved < HAIR_IN ? 'hair' : 'altered';
  }
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

import type { Division } from '../../geometry/division.ts';
import type { Segment } from '../../geometry/point.ts';
import type { Block } from '../block.ts';
import { piece, prepare } from '../piece.ts';
import { wholeOf } from '../region.ts';
import { ringsOf } from '../rings.ts';
import { stretchesOf } from './added-lines.ts';
import {
  compareDrafts,
  type Draft,
  draftOf,
  finished,
  type Mend,
  type MendOptions,
  triesFor,
} from './draft.ts';
import { fewerFoundations, stretchesOn } from './fewer-foundations.ts';
import { fewestAdded } from './fewest-added.ts';
import { planeOf } from './plane.ts';
import { isSymmetric, orbitsOf, type Symmetry, symmetriesOf } from './symmetry.ts';
import { tractFrom } from './tract.ts';

/** About a second's worth, in chords parted along. */
export const MEND_BUDGET = 4_000;

/** Of the ways compared so many are made symmetric to see what that takes. */
const WAYS_MIRRORED = 4;

/** Lines drawn on at every symmetric place, tried alone and two by two. */
const PLACES_TRIED = 9;

/** Of larger blocks a trial takes too long. */
const PATCHES_FOR_WISHES = 150;

/** Times a mended drawing is mended anew where rounding left something that holds. */
const MOST_ROUNDS = 4;

/** Drafts after which a first answer is given, before all others are compared. */
const FIRST_LOOK = 2;

/** A way to mend a block, told before all are known: the first found, or the best of the fewest patches. */
export interface MendNews {
  readonly mend: Mend;
  readonly isBest: boolean;
}

/**
 * Ways to mend a block that differ in kind; none where straight seams sew it as it is, or nothing can be told of it. First
 * the fewest patches added; of those the fewest foundations, least that is awkward, symmetric where the drawing is, fewest
 * lines, least seam. Then, where they are others, a symmetric one and those that take more patches for fewer foundations. A
 * generator: it yields a first way and the best way as soon as they are known and null otherwise, and may be dropped.
 */
export function* findMends(
  block: Block,
  options: MendOptions = {},
): Generator<MendNews | null, readonly Mend[], void> {
  const prepared = prepare(block);
  if (!prepared.ok) return [];
  const { division } = prepared.pattern;
  const moves = symmetriesOf(block.outline, division);
  const search = draftsOf(block, division, moves, options);
  let step = search.next();
  for (; !step.done; step = search.next())
    yield step.value && {
      mend: finished(step.value, division, options, 'fewest-patches'),
      isBest: false,
    };
  const { best, drafts } = step.value;
  if (!best) return [];
  const first = finished(best, division, options, 'fewest-patches');
  yield { mend: first, isBest: true };
  let mends = [first];
  if (moves.length > 0 && !best.isSymmetric) {
    const even = yield* symmetricDraft(block, division, drafts, moves, options);
    // What is not proven may be bettered by a symmetric way.
    if (even && even.patches < best.patches) {
      mends = [finished(even, division, options, 'fewest-patches')];
      yield { mend: mends[0]!, isBest: true };
    } else if (even) mends.push(finished(even, division, options, 'symmetric'));
  }
  if (best.foundations > 1) {
    for (const draft of [best, ...(yield* fewerFoundations(block, division, best, options))]) {
      const fewer = finished(draft, division, options, 'fewer-foundations');
      const least = Math.min(...mends.map(({ after }) => after.foundations));
      if (fewer.after.foundations < least) mends.push(fewer);
    }
  }
  return mends;
}

/** The best way to mend a block, for callers off the screen. */
export function mend(block: Block, options: MendOptions = {}): Mend | null {
  const search = findMends(block, options);
  for (;;) {
    const step = search.next();
    if (step.done) return step.value[0] ?? null;
    // What is proven nothing betters; others differ in kind only.
    if (step.value?.isBest && step.value.mend.isProven) return step.value.mend;
  }
}

/**
 * What a block that sews could do with fewer foundations, at the price of patches added: each way takes fewer foundations
 * and more patches than the one before. A generator: it yields after each trial.
 */
export function* findWishes(block: Block, options: MendOptions = {}): Generator<null, readonly Mend[], void> {
  const prepared = prepare(block);
  if (!prepared.ok || prepared.pattern.cells > PATCHES_FOR_WISHES) return [];
  const { division } = prepared.pattern;
  const start = draftOf(block, division, [], options);
  if (!start || start.holds > 0 || start.foundations < 2) return [];
  const plan = piece(block, options);
  const wishes = (yield* fewerFoundations(block, division, start, options)).map((draft) =>
    finished(draft, division, options, 'fewer-foundations'),
  );
  return wishes.filter(({ after }) => after.foundations < plan.sections.length);
}

/** The best draft, and all that were drawn beside it. */
interface Drafts {
  readonly best: Draft | null;
  readonly drafts: readonly Draft[];
}

function* draftsOf(
  block: Block,
  before: Division,
  moves: readonly Symmetry[],
  options: MendOptions,
): Generator<Draft | null, Drafts, void> {
  let found: Drafts = { best: null, drafts: [] };
  for (let round = 0; round < MOST_ROUNDS && found.best?.holds !== 0; round++) {
    const drafts = yield* mendedOnce(block, before, found.best, moves, options);
    if (drafts.length === 0) break;
    found = { best: drafts.reduce((a, b) => (compareDrafts(a, b) <= 0 ? a : b)), drafts };
  }
  return found.best?.holds === 0 ? found : { best: null, drafts: [] };
}

/** The drafts that one search comes to, the better of the first few told beforehand; from the block as it is or from a draft that something still holds in. */
function* mendedOnce(
  block: Block,
  before: Division,
  from: Draft | null,
  moves: readonly Symmetry[],
  options: MendOptions,
): Generator<Draft | null, Draft[], void> {
  const start = from?.block ?? block;
  const prepared = prepare(start);
  if (!prepared.ok) return [];
  const { pattern } = prepared;
  const rings = ringsOf(pattern, wholeOf(pattern));
  if (rings.length === 0) return [];
  const plane = planeOf(pattern.division, pattern.straight);
  const tracts = rings.map((ring) => tractFrom(plane, pattern, ring));
  const { ways, count, isProven } = yield* fewestAdded(
    plane,
    tracts,
    options.mendBudget ?? MEND_BUDGET,
    triesFor(pattern.cells),
  );
  const drafts: Draft[] = [];
  for (const way of ways) {
    const stretches: Segment[] = [...(from?.stretches ?? []), ...stretchesOf(plane, way)];
    const draft = draftOf(block, before, stretches, options);
    yield null;
    if (draft)
      drafts.push({
        ...draft,
        isProven: isProven && !from && draft.patches === pattern.cells + count,
        isSymmetric: moves.length > 0 && isSymmetric(stretches, moves),
      });
    if (draft && !from && drafts.length === Math.min(FIRST_LOOK, ways.length)) {
      const first = drafts.reduce((a, b) => (compareDrafts(a, b) <= 0 ? a : b));
      if (first.holds === 0) yield first;
    }
  }
  return drafts;
}

/** The best way that looks the same from every side the drawing does; null where none was found. */
function* symmetricDraft(
  block: Block,
  before: Division,
  drafts: readonly Draft[],
  moves: readonly Symmetry[],
  options: MendOptions,
): Generator<null, Draft | null, void> {
  const sewable = drafts.filter(({ holds }) => holds === 0).sort(compareDrafts);
  const even = sewable.find((draft) => draft.isSymmetric);
  if (even) return even;
  let best: Draft | null = null;
  let left = 2 * triesFor(before.faces.length);
  const take = (draft: Draft | null): boolean => {
    if (!draft || draft.holds > 0) return false;
    const told = { ...draft, isSymmetric: true };
    if (!best || compareDrafts(told, best) < 0) best = told;
    return true;
  };
  // The ways found, mirrored; of what is not needed all symmetric places go at once.
  for (const { stretches } of sewable.slice(0, WAYS_MIRRORED)) {
    let orbits = orbitsOf(stretches, moves);
    if (!take(draftOf(block, before, orbits.flat(), options))) continue;
    for (const orbit of orbits) {
      if (left-- <= 0) break;
      yield null;
      const rest = orbits.filter((one) => one !== orbit);
      if (take(draftOf(block, before, rest.flat(), options))) orbits = rest;
    }
  }
  // One line drawn on at every symmetric place, or two.
  const orbits = orbitsOf(stretchesOn(block, 1).flat(), moves).slice(0, PLACES_TRIED);
  for (const [k, one] of orbits.entries())
    for (const other of orbits.slice(k)) {
      if (left-- <= 0) return best;
      yield null;
      take(draftOf(block, before, other === one ? one : [...one, ...other], options));
    }
  return best;
}

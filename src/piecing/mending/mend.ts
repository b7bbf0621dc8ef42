import type { Division } from '../../geometry/division.ts';
import type { Segment } from '../../geometry/point.ts';
import { distance } from '../../geometry/ring.ts';
import { bindingOf } from '../binding.ts';
import type { Block, Cut } from '../block.ts';
import { clashesOf } from '../clashes.ts';
import type { PieceOptions } from '../options.ts';
import { piece, prepare } from '../piece.ts';
import { wholeOf } from '../region.ts';
import { type Standing, standingOf } from '../repairs/standing.ts';
import { ringsOf } from '../rings.ts';
import { leastFound } from '../rules/table.ts';
import { cheapestAssembly } from '../search.ts';
import { stretchesOf } from './added-lines.ts';
import { drawnMend } from './drawn-mend.ts';
import { fewestAdded } from './fewest-added.ts';
import { planeOf } from './plane.ts';
import { isSymmetric, symmetriesOf } from './symmetry.ts';
import { tractFrom } from './tract.ts';

/** A block made sewable by straight seams, its picture as it was. */
export interface Mend {
  /** All cuts of the mended block. */
  readonly cuts: readonly Cut[];
  /** The lines added. */
  readonly lines: readonly Segment[];
  /** Ids of cuts whose loose ends are pulled in, since an added line would make patches of them. */
  readonly pulled: readonly string[];
  /** Patches added. */
  readonly added: number;
  /** True when nothing along drawn lines or through two corners adds fewer. */
  readonly isProven: boolean;
  readonly isSymmetric: boolean;
  /** Inches of seam added. */
  readonly seam: number;
  readonly after: Standing;
}

export interface MendOptions extends PieceOptions {
  /** How much searching is allowed, in chords parted along. */
  readonly mendBudget?: number;
}

/** About a second's worth. */
export const MEND_BUDGET = 4_000;

/** Ways that add equally few patches, drawn and compared. */
const WAYS_COMPARED = 40;

/** Regions looked into for the foundations of one way. */
const WAY_BUDGET = 200;

/** Times a mended drawing is mended anew where rounding left something that holds. */
const MOST_ROUNDS = 4;

/** A mended drawing before it is pieced in full. */
export interface Draft {
  readonly block: Block;
  /** What was drawn, and what of it no cut lay on already. */
  readonly stretches: readonly Segment[];
  readonly lines: readonly Segment[];
  readonly pulled: readonly string[];
  readonly patches: number;
  readonly isProven: boolean;
  readonly isSymmetric: boolean;
  readonly seam: number;
  /** Holds that are left, by rounding. */
  readonly holds: number;
  /** By which drafts with equally many patches are compared, the lowest first. */
  readonly foundations: number;
  readonly awkward: number;
}

/**
 * The best way to mend a block; null where straight seams sew it as it is, or nothing can be told of it. Fewest patches
 * added; then fewest foundations, least that is awkward, symmetric where the drawing is, least seam. A generator: it yields
 * the steps taken, and may be dropped.
 */
export function* findMend(block: Block, options: MendOptions = {}): Generator<number, Mend | null, void> {
  const prepared = prepare(block);
  if (!prepared.ok) return null;
  const { division } = prepared.pattern;
  let best: Draft | null = null;
  for (let round = 0; round < MOST_ROUNDS && best?.holds !== 0; round++) {
    const next: Draft | null = yield* mendedOnce(block, division, best, options);
    if (!next) break;
    best = next;
  }
  if (!best || best.holds > 0) return null;
  const after = standingOf(piece(best.block, options));
  return {
    cuts: best.block.cuts,
    lines: best.lines,
    pulled: best.pulled,
    added: best.patches - division.faces.length,
    isProven: best.isProven,
    isSymmetric: best.isSymmetric,
    seam: best.seam,
    after,
  };
}

/** The best draft that one search comes to, from the block as it is or from a draft that something still holds in. */
function* mendedOnce(
  block: Block,
  before: Division,
  from: Draft | null,
  options: MendOptions,
): Generator<number, Draft | null, void> {
  const start = from?.block ?? block;
  const prepared = prepare(start);
  if (!prepared.ok) return null;
  const { pattern } = prepared;
  const rings = ringsOf(pattern, wholeOf(pattern));
  if (rings.length === 0) return null;
  const plane = planeOf(pattern.division, pattern.straight);
  const tracts = rings.map((ring) => tractFrom(plane, pattern, ring));
  const { ways, count, isProven } = yield* fewestAdded(
    plane,
    tracts,
    options.mendBudget ?? MEND_BUDGET,
    WAYS_COMPARED,
  );
  const moves = symmetriesOf(block.outline, before);
  let best: Draft | null = null;
  for (const way of ways) {
    const stretches = [...(from?.stretches ?? []), ...stretchesOf(plane, way)];
    const draft = draftOf(block, before, stretches, options);
    yield 0;
    if (!draft) continue;
    const told = {
      ...draft,
      isProven: isProven && !from && draft.patches === pattern.cells + count,
      isSymmetric: moves.length > 0 && isSymmetric(stretches, moves),
    };
    if (!best || compareDrafts(told, best) < 0) best = told;
  }
  return best;
}

/** A block with stretches drawn in, measured; null where they would change the picture. */
export function draftOf(
  block: Block,
  before: Division,
  stretches: readonly Segment[],
  options: PieceOptions,
): Draft | null {
  const drawn = drawnMend(block, before, stretches);
  if (!drawn) return null;
  const changed = { ...block, cuts: drawn.cuts };
  const prepared = prepare(changed);
  if (!prepared.ok) return null;
  const { pattern } = prepared;
  const rings = ringsOf(pattern, wholeOf(pattern));
  const clashes = clashesOf(pattern);
  const { troubles, cautions } = leastFound({ block: changed, pattern, options });
  return {
    block: changed,
    stretches,
    lines: drawn.lines,
    pulled: drawn.pulled,
    patches: pattern.cells,
    isProven: false,
    isSymmetric: false,
    seam: stretches.reduce((sum, line) => sum + distance(...line), 0),
    holds: rings.length,
    foundations:
      rings.length > 0
        ? 1 + bindingOf(pattern, clashes, wholeOf(pattern)).joins
        : cheapestAssembly(pattern, WAY_BUDGET, {}, clashes, rings).cost[3],
    awkward: 4 * troubles + cautions,
  };
}

/** The better draft first. Seams are compared in 1/64 in, so that rounding never decides. */
const compareDrafts = (a: Draft, b: Draft): number =>
  a.holds - b.holds ||
  a.patches - b.patches ||
  a.foundations - b.foundations ||
  a.awkward - b.awkward ||
  Number(b.isSymmetric) - Number(a.isSymmetric) ||
  Math.round(64 * a.seam) - Math.round(64 * b.seam);

/** The best way to mend a block, for callers off the screen. */
export function mend(block: Block, options: MendOptions = {}): Mend | null {
  const search = findMend(block, options);
  for (;;) {
    const step = search.next();
    if (step.done) return step.value;
  }
}

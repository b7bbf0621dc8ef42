import type { Division } from '../../geometry/division.ts';
import { TOUCH_IN } from '../../geometry/lattice.ts';
import type { Segment } from '../../geometry/point.ts';
import { distance } from '../../geometry/ring.ts';
import { costInWords } from '../assembly.ts';
import { bindingOf } from '../binding.ts';
import type { Block, Cut } from '../block.ts';
import { clashesOf } from '../clashes.ts';
import type { PieceOptions } from '../options.ts';
import { piece, prepare } from '../piece.ts';
import type { PiecingPlan } from '../plan.ts';
import { wholeOf } from '../region.ts';
import { type Standing, standingOf } from '../repairs/standing.ts';
import { ringsOf } from '../rings.ts';
import { leastFound } from '../rules/table.ts';
import { cheapestAssembly } from '../search.ts';
import { drawnMend } from './drawn-mend.ts';
import { lineThrough, offOf } from './plane.ts';

/**
 * - `fewest-patches`: no way known adds fewer.
 * - `symmetric`: it looks the same from every side the drawing does.
 * - `fewer-foundations`: more patches for fewer papers.
 */
export type MendKind = 'fewest-patches' | 'symmetric' | 'fewer-foundations';

/** A block made sewable by straight seams, or more easily sewn, its picture as it was. */
export interface Mend {
  readonly kind: MendKind;
  /** All cuts of the mended block. */
  readonly cuts: readonly Cut[];
  /** The lines added. */
  readonly lines: readonly Segment[];
  /** Straight lines they lie on: a line drawn on at both its ends is one. */
  readonly straightLines: number;
  /** Ids of cuts whose loose ends are pulled in, since a line added would make patches of them. */
  readonly pulled: readonly string[];
  /** Patches added. */
  readonly added: number;
  /** True when nothing along drawn lines or through two corners adds fewer. */
  readonly isProven: boolean;
  readonly isSymmetric: boolean;
  /** Inches of seam added. */
  readonly seam: number;
  readonly after: Standing;
  /** How the mended block is sewn. */
  readonly plan: PiecingPlan;
}

export interface MendOptions extends PieceOptions {
  /** How much searching is allowed, in chords parted along. */
  readonly mendBudget?: number;
}

/** Regions looked into for the foundations of one way. */
const WAY_BUDGET = 200;

/** Drawings of so many patches that are tried one beside another: fewer where each takes longer. */
export const triesFor = (patches: number): number => Math.max(6, Math.min(40, Math.round(1500 / patches)));

/** A mended drawing before it is pieced in full. */
export interface Draft {
  readonly block: Block;
  /** What was drawn, and what of it no cut lay on already. */
  readonly stretches: readonly Segment[];
  readonly lines: readonly Segment[];
  /** Straight lines those lie on. */
  readonly straightLines: number;
  readonly pulled: readonly string[];
  readonly patches: number;
  readonly isProven: boolean;
  readonly isSymmetric: boolean;
  readonly seam: number;
  /** Holds that are left, by rounding. */
  readonly holds: number;
  readonly foundations: number;
  /** What is awkward in it, by weight. */
  readonly awkward: number;
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
    straightLines: straightLinesOf(drawn.lines),
    pulled: drawn.pulled,
    patches: pattern.cells,
    isProven: false,
    isSymmetric: false,
    seam: stretches.reduce((sum, stretch) => sum + distance(...stretch), 0),
    holds: rings.length,
    foundations:
      rings.length > 0
        ? 1 + bindingOf(pattern, clashes, wholeOf(pattern)).joins
        : costInWords(cheapestAssembly(pattern, WAY_BUDGET, {}, clashes, rings).cost).foundations,
    awkward: 4 * troubles + cautions,
  };
}

/** The better draft first. Seams are compared in 1/64 in, so that rounding never decides. */
export const compareDrafts = (a: Draft, b: Draft): number =>
  a.holds - b.holds ||
  a.patches - b.patches ||
  a.foundations - b.foundations ||
  a.awkward - b.awkward ||
  Number(b.isSymmetric) - Number(a.isSymmetric) ||
  a.straightLines - b.straightLines ||
  Math.round(64 * a.seam) - Math.round(64 * b.seam);

/** A draft pieced in full. */
export function finished(draft: Draft, before: Division, options: PieceOptions, kind: MendKind): Mend {
  const { block, lines, straightLines, pulled, patches, isProven, isSymmetric, seam } = draft;
  const plan = piece(block, options);
  return {
    kind,
    cuts: block.cuts,
    lines,
    straightLines,
    pulled,
    added: patches - before.faces.length,
    isProven,
    isSymmetric,
    seam,
    after: standingOf(plan),
    plan,
  };
}

function straightLinesOf(stretches: readonly Segment[]): number {
  const firsts: Segment[] = [];
  for (const stretch of [...stretches].sort((a, b) => distance(...b) - distance(...a))) {
    const isOn = ([a, b]: Segment): boolean => {
      const line = lineThrough(a, b);
      // A short stretch tells its line less well than the drawing does.
      const near = 4 * TOUCH_IN * Math.max(1, distance(a, stretch[0]) / distance(a, b));
      return stretch.every((end) => Math.abs(offOf(line, end)) <= near);
    };
    if (!firsts.some(isOn)) firsts.push(stretch);
  }
  return firsts.length;
}

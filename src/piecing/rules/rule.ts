import type { Point, Segment } from '../../geometry/point.ts';
import { phrase } from '../../words/phrase.ts';
import type { Block, Cut } from '../block.ts';
import type { Clashes } from '../clashes.ts';
import type { PieceOptions } from '../options.ts';
import type { KnownPatches } from '../patch-keys.ts';
import type { Pattern } from '../pattern.ts';
import type { Severity, SewingPlan } from '../plan.ts';
import type { Region } from '../region.ts';

/** All that a rule may look at: a block, its pattern and the plan found for it. */
export interface Inspection extends Omit<SewingPlan, 'verdict' | 'fewest'> {
  /** Patch id of each cell. */
  readonly idOf: readonly string[];
  readonly block: Block;
  readonly pattern: Pattern;
  readonly known: KnownPatches;
  readonly options: PieceOptions;
  /** Regions that neither sew on one foundation nor part along a straight seam. */
  readonly rings: readonly Region[];
  /** Where one foundation won't do, as the search counted it. */
  readonly clashes: Clashes;
}

/** A finding before its rule's name and severity are put to it. */
export interface Remark {
  readonly at: Point;
  readonly patches?: readonly string[];
  readonly cuts?: readonly string[];
  readonly message: string;
  readonly stretches?: readonly Segment[];
}

/** One thing that may be wrong with a block, looked for by itself. */
export interface Rule {
  readonly code: string;
  /** What it finds, as a heading: `Loose end`. */
  readonly title: string;
  /** How grave it is taken to be, unless the project says otherwise. */
  readonly severity: Severity;
  readonly check: (inspection: Inspection) => readonly Remark[];
}

/** How a message names a cut: by its place in the block, as the list beside the drawing does. */
export function cutName(block: Block, cut: Cut | undefined): string {
  return cut ? phrase('Line {n}', { n: block.cuts.indexOf(cut) + 1 }) : phrase('A line');
}

/** The same inside a sentence: `cut 3`. */
export const cutWithin = (block: Block, cut: Cut): string =>
  phrase('line {n}', { n: block.cuts.indexOf(cut) + 1 });

/** `A1`, `A1 and A2`, `A1, A2 and A3`; of long lists the first seven and how many more. */
export function listed(ids: readonly string[]): string {
  if (ids.length > 8)
    return phrase('{ids} and {n, number} more', { ids: ids.slice(0, 7).join(', '), n: ids.length - 7 });
  return ids.length <= 1
    ? ids.join('')
    : phrase('{ids} and {ids2}', { ids: ids.slice(0, -1).join(', '), ids2: ids.at(-1)! });
}

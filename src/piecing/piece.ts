import { type Division, divide, ringOf } from '../geometry/division.ts';
import { MAX_COORDINATE_IN } from '../geometry/lattice.ts';
import { outlineFault } from '../geometry/outline.ts';
import type { Point } from '../geometry/point.ts';
import { boxOf, contains } from '../geometry/ring.ts';
import { straightGroups } from '../geometry/straight.ts';
import { assemble } from './assemble.ts';
import type { Block, PlanChoice } from './block.ts';
import { brokenPlan, outlineMessage } from './broken.ts';
import { wishFor } from './choices.ts';
import { edgesOf, namedEdges } from './edges.ts';
import { DEFAULT_BUDGET, type PieceOptions } from './options.ts';
import { type Pattern, patternOf, ROLE_NUMBER } from './pattern.ts';
import type { PiecingPlan, Verdict } from './plan.ts';
import { inspect } from './rules/table.ts';
import { cheapestAssembly, type SearchResult } from './search.ts';
import { verifyPlan } from './verify.ts';

/** More patches than this and no order is looked for: far beyond any block that is sewn from paper. */
export const MAX_PATCHES = 2_000;

/** A block divided and ready to be searched. */
export interface Ready {
  readonly ok: true;
  readonly pattern: Pattern;
  readonly fabrics: readonly (string | null)[];
}

/** A block ready to be searched, or why it cannot be. */
export type Prepared =
  | Ready
  | { readonly ok: false; readonly code: string; readonly at: Point; readonly message: string };

export function prepare(block: Block, options: PieceOptions = {}): Prepared {
  const fault = outlineFault(block.outline);
  if (fault)
    return { ok: false, code: `outline-${fault.kind}`, at: fault.at, message: outlineMessage(fault) };
  const at = block.outline[0]!;
  const refuse = (code: string, message: string): Prepared => ({ ok: false, code, at, message });
  const far = block.cuts.findIndex((cut) =>
    [...cut.from, ...cut.to].some((v) => Math.abs(v) > MAX_COORDINATE_IN),
  );
  if (far >= 0)
    return refuse(
      'cut-too-far',
      `Cut ${far + 1} reaches farther out than ${MAX_COORDINATE_IN.toLocaleString('en')} in.`,
    );
  const divided = divide(
    block.outline,
    block.cuts.map((cut) => [cut.from, cut.to]),
  );
  if (!divided.ok)
    return divided.fault === 'too-many'
      ? refuse(
          'too-many-crossings',
          'The cuts lie too thick to be a block: more than 50,000 crossings, or more than 200 cuts through one spot.',
        )
      : refuse('tangled', 'Some cuts lie so close together that their patches cannot be told apart.');
  const { division } = divided;
  if (division.faces.length > MAX_PATCHES)
    return refuse(
      'too-many-patches',
      `The cuts make ${division.faces.length.toLocaleString('en')} patches; a block may have ${MAX_PATCHES.toLocaleString('en')}.`,
    );
  const fabrics: (string | null)[] = division.faces.map(() => null);
  if (block.paint.length > 0) {
    const faceAt = faceFinder(division);
    for (const { at: spot, fabric } of block.paint) {
      const f = faceAt(spot);
      if (f >= 0) fabrics[f] = fabric;
    }
  }
  const numbers = new Map<string, number>();
  for (const fabric of fabrics)
    if (fabric !== null && !numbers.has(fabric)) numbers.set(fabric, numbers.size);
  const pattern = patternOf(division, {
    straight: straightGroups(division),
    role: Uint8Array.from(division.line, (l) => (l < 0 ? 0 : ROLE_NUMBER[block.cuts[l]!.role])),
    fabric: Int32Array.from(fabrics, (fabric) => (fabric === null ? -1 : numbers.get(fabric)!)),
    lightness: Float64Array.from(fabrics, (fabric) =>
      fabric === null ? 1 : (options.lightness?.get(fabric) ?? 1),
    ),
  });
  return { ok: true, pattern, fabrics };
}

/**
 * The one door to piecing: a block to its piecing plan. Never throws on any drawing; a block that cannot be
 * divided at all comes back as `broken` with the reason. The same block always gives the same plan.
 */
export function piece(block: Block, options: PieceOptions = {}): PiecingPlan {
  const prepared = prepare(block, options);
  if (!prepared.ok) return brokenPlan(prepared.code, prepared.at, prepared.message);
  const { pattern } = prepared;
  const wish = wishFor(choiceFor(block, options), pattern);
  const found = cheapestAssembly(pattern, options.budget ?? DEFAULT_BUDGET, wish);
  return vouchedFor(block, planFrom(block, prepared, found, options));
}

/** Which plan is asked for. */
export const choiceFor = (block: Block, options: PieceOptions): PlanChoice =>
  options.plan ?? block.plan ?? 'fewest';

/** The plan that comes of what a search found, with all its findings; not checked yet. */
export function planFrom(
  block: Block,
  { pattern, fabrics }: Ready,
  found: SearchResult,
  options: PieceOptions,
): PiecingPlan {
  const { rings, clashes, isProven } = found;
  const assembled = assemble(pattern, found.assembly, fabrics, ranksOf(block, pattern.division));
  const { patches, sections, joins } = assembled;
  const verdict: Verdict = joins.some((join) => join.kind === 'set-in')
    ? 'set-in-seams'
    : sections.length > 1
      ? 'several-foundations'
      : patches.length > 1
        ? 'one-foundation'
        : 'undivided';
  const findings = inspect({ ...assembled, block, pattern, options, rings, clashes });
  // Rows, columns and the like may take more foundations than could be; only a search for the fewest proves them.
  const choice = choiceFor(block, options);
  const fewest = sections.length === 1 || (isProven && (choice === 'fewest' || choice === 'unit-first'));
  const edges = namedEdges(edgesOf(pattern.division), assembled.idOf, block.cuts);
  return { verdict, fewest, patches, sections, joins, edges, findings };
}

/** A plan that has passed the check by the rule itself; one that fails is given out as broken. */
export function vouchedFor(block: Block, plan: PiecingPlan): PiecingPlan {
  const faults = verifyPlan(plan);
  return faults.length === 0
    ? plan
    : brokenPlan(
        'plan-fails-check',
        block.outline[0]!,
        `No plan can be vouched for: ${faults[0]} Moving the cuts there a little apart helps.`,
      );
}

/** Finds the face a point lies in, or -1. */
function faceFinder(division: Division): (at: Point) => number {
  const faces = division.faces.map((face) => {
    const ring = ringOf(division, face.edge);
    return { ring, box: boxOf(ring), holes: face.islands.map((h) => ringOf(division, h)) };
  });
  return (at) =>
    faces.findIndex(
      ({ ring, box, holes }) =>
        at[0] >= box.minX &&
        at[0] <= box.maxX &&
        at[1] >= box.minY &&
        at[1] <= box.maxY &&
        contains(ring, at) &&
        !holes.some((hole) => contains(hole, at)),
    );
}

/** Place of each cell in the orders set by hand; a later order overrules an earlier one. */
function ranksOf(block: Block, division: Division): Map<number, number> {
  const ranks = new Map<number, number>();
  if (!block.orders || block.orders.length === 0) return ranks;
  const faceAt = faceFinder(division);
  for (const order of block.orders)
    order.forEach((point, place) => {
      const f = faceAt(point);
      if (f >= 0) ranks.set(f, place);
    });
  return ranks;
}

import { type Division, divide, ringOf } from '../geometry/division.ts';
import { MAX_COORDINATE_IN } from '../geometry/lattice.ts';
import { outlineFault } from '../geometry/outline.ts';
import { boxOf, contains } from '../geometry/ring.ts';
import { straightGroups } from '../geometry/straight.ts';
import { assemble } from './assemble.ts';
import type { Block } from './block.ts';
import { brokenPlan, outlineMessage } from './broken.ts';
import { patternOf, ROLE_NUMBER } from './pattern.ts';
import type { PiecingPlan, Verdict } from './plan.ts';
import { inspect } from './rules/table.ts';
import { cheapestAssembly } from './search.ts';
import { verifyPlan } from './verify.ts';

export interface PieceOptions {
  /** How much searching is allowed, in regions looked into. Default `DEFAULT_BUDGET`. */
  readonly budget?: number;
  /** How light each fabric is, 0 … 1, by fabric id: light is sewn before dark where the order is free. */
  readonly lightness?: (fabric: string) => number;
}

export const DEFAULT_BUDGET = 2_000;

/** More patches than this and no order is looked for: far beyond any block that is sewn from paper. */
export const MAX_PATCHES = 2_000;

/**
 * The one door to piecing: a block to its piecing plan. Never throws on any drawing; a block that cannot be
 * divided at all comes back as `broken` with the reason. The same block always gives the same plan.
 */
export function piece(block: Block, options: PieceOptions = {}): PiecingPlan {
  const fault = outlineFault(block.outline);
  if (fault) return brokenPlan(`outline-${fault.kind}`, fault.at, outlineMessage(fault));
  const at = block.outline[0]!;
  const far = block.cuts.findIndex((cut) =>
    [...cut.from, ...cut.to].some((v) => Math.abs(v) > MAX_COORDINATE_IN),
  );
  if (far >= 0)
    return brokenPlan(
      'cut-too-far',
      at,
      `Cut ${far + 1} reaches farther out than ${MAX_COORDINATE_IN.toLocaleString('en')} in.`,
    );
  const divided = divide(
    block.outline,
    block.cuts.map((cut) => [cut.from, cut.to]),
  );
  if (!divided.ok)
    return divided.fault === 'too-many'
      ? brokenPlan(
          'too-many-crossings',
          at,
          'The cuts cross each other too often to be a block: more than 50,000 times.',
        )
      : brokenPlan('tangled', at, 'Some cuts lie so close together that their patches cannot be told apart.');
  const { division } = divided;
  if (division.faces.length > MAX_PATCHES)
    return brokenPlan(
      'too-many-patches',
      at,
      `The cuts make ${division.faces.length.toLocaleString('en')} patches; a block may have ${MAX_PATCHES.toLocaleString('en')}.`,
    );

  const fabrics = fabricsOf(division, block);
  const numbers = new Map<string, number>();
  for (const fabric of fabrics)
    if (fabric !== null && !numbers.has(fabric)) numbers.set(fabric, numbers.size);
  const pattern = patternOf(division, {
    straight: straightGroups(division),
    role: Uint8Array.from(division.line, (l) => (l < 0 ? 0 : ROLE_NUMBER[block.cuts[l]!.role])),
    fabric: Int32Array.from(fabrics, (fabric) => (fabric === null ? -1 : numbers.get(fabric)!)),
    lightness: Float64Array.from(fabrics, (fabric) =>
      fabric === null ? 1 : (options.lightness?.(fabric) ?? 1),
    ),
  });
  const found = cheapestAssembly(pattern, options.budget ?? DEFAULT_BUDGET);
  const assembled = assemble(pattern, found.assembly, fabrics);
  const findings = inspect({ ...assembled, block, pattern, strays: division.strays, rings: found.rings });
  const { patches, sections, joins } = assembled;
  const verdict: Verdict = joins.some((join) => join.kind === 'set-in')
    ? 'set-in-seams'
    : joins.length > 0
      ? 'several-foundations'
      : patches.length > 1
        ? 'one-foundation'
        : 'undivided';
  const plan: PiecingPlan = { verdict, fewest: found.isProven, patches, sections, joins, findings };
  const faults = verifyPlan(plan);
  if (faults.length > 0)
    return brokenPlan(
      'plan-fails-check',
      at,
      `No plan can be vouched for: ${faults[0]} Moving the cuts there a little apart helps.`,
    );
  return plan;
}

/** Fabric of each face: the last paint laid on it. */
function fabricsOf(division: Division, block: Block): (string | null)[] {
  const fabrics: (string | null)[] = division.faces.map(() => null);
  if (block.paint.length === 0) return fabrics;
  const rings = division.faces.map((face) => {
    const ring = ringOf(division, face.edge);
    return { ring, box: boxOf(ring), holes: face.islands.map((h) => ringOf(division, h)) };
  });
  for (const { at, fabric } of block.paint) {
    const f = rings.findIndex(
      ({ ring, box, holes }) =>
        at[0] >= box.minX &&
        at[0] <= box.maxX &&
        at[1] >= box.minY &&
        at[1] <= box.maxY &&
        contains(ring, at) &&
        !holes.some((hole) => contains(hole, at)),
    );
    if (f >= 0) fabrics[f] = fabric;
  }
  return fabrics;
}

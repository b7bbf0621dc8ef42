import { phrase } from '../words/phrase.ts';
import { type Assembled, assemble } from './assemble.ts';
import type { Block, PlanChoice } from './block.ts';
import { brokenPlan } from './broken.ts';
import { wishFor } from './choices.ts';
import { type DividedBlock, divideBlock, divisionKey } from './divide-block.ts';
import { edgesOf, namedEdges } from './edges.ts';
import { ALWAYS_SPLIT } from './every-split.ts';
import { orderFacts, orderFactsKey } from './laid-on.ts';
import { DEFAULT_BUDGET, type PieceOptions } from './options.ts';
import { type OrderedSections, type OrderFacts, orderSections } from './order-sections.ts';
import { partialAssembly } from './partial-seams.ts';
import { type Pattern, withRoles } from './pattern.ts';
import type { Kept, PieceMemory, Stage } from './piece-memory.ts';
import type { PiecingPlan, SewingPlan, Verdict } from './plan.ts';
import { wholeOf } from './region.ts';
import { ringsOf } from './rings.ts';
import { inspect } from './rules/table.ts';
import { cheapestAssembly, type SearchResult } from './search.ts';
import { verifyPlan } from './verify.ts';

/**
 * The one door to piecing: a block to its piecing plan. Never throws on any drawing; a block that cannot be
 * divided at all comes back as `broken` with the reason, and so does one whose plan fails the check by the sewing
 * rule. The same block always gives the same plan, with a memory or without: a memory only keeps stages from being
 * gone through again that hang on nothing that has changed.
 */
export function piece(block: Block, options: PieceOptions = {}, memory?: PieceMemory): PiecingPlan {
  const through = <Made>(
    stage: Stage,
    key: () => string,
    make: () => Made,
    sizeOf: (made: Made) => number,
  ): Kept<Made> => (memory ? memory.recall(stage, key(), make, sizeOf) : { made: make(), number: 0 });

  const division = dividedIn(memory, block);
  if (!division.made.ok) return brokenFrom(division.made);
  const { pattern } = division.made;
  const roles = block.cuts.map(({ role }) => role);
  const choice = choiceFor(block, options);
  const budget = options.budget ?? DEFAULT_BUDGET;
  const assembly = through(
    'assembly',
    () => `${division.number} ${choice} ${budget} ${roles}`,
    () => assembleBlock(withRoles(pattern, roles), choice, budget),
    () => pattern.cells,
  );
  const orders = through(
    'orders',
    () => `${assembly.number} ${orderFactsKey(block, options.lightness)} ${block.cuts.map(({ id }) => id)}`,
    () => {
      const ordered = orderBlock(block, assembly.made, options);
      return { ...ordered, faults: verifyPlan(ordered.sewing, block) };
    },
    () => pattern.cells,
  );
  const [fault] = orders.made.faults;
  if (fault !== undefined) return withoutWarrant(block, fault);
  return through(
    'findings',
    () => `${orders.number} ${JSON.stringify([options.severities, options.paper, options.unit])}`,
    () => withFindings(block, assembly.made, orders.made, options),
    () => pattern.cells,
  ).made;
}

/**
 * Is the plan of a block soon made? Where no patches hold each other straight seams are found along the way; else ways
 * round corners are tried in plenty, unless they are few patches. Takes a small share of the time of a plan.
 */
export function isSoonPieced(block: Pick<Block, 'outline' | 'cuts'>, memory: PieceMemory): boolean {
  const { made } = dividedIn(memory, block);
  if (!made.ok || made.pattern.cells <= ALWAYS_SPLIT) return true;
  const { pattern } = made;
  return !pattern.isBlurred && ringsOf(pattern, wholeOf(pattern), 1).length === 0;
}

const dividedIn = (
  memory: PieceMemory | undefined,
  block: Pick<Block, 'outline' | 'cuts'>,
): Kept<DividedBlock> =>
  memory
    ? memory.recall(
        'division',
        divisionKey(block),
        () => divideBlock(block),
        (made) => (made.ok ? made.pattern.cells : 1),
      )
    : { made: divideBlock(block), number: 0 };

/** Which plan is asked for. */
export const choiceFor = (block: Block, options: PieceOptions): PlanChoice =>
  options.plan ?? block.plan ?? 'fewest';

/** A pattern with what was found for it. */
export interface AssembledBlock extends Assembled {
  readonly pattern: Pattern;
  readonly choice: PlanChoice;
  readonly found: SearchResult;
}

function assembleBlock(pattern: Pattern, choice: PlanChoice, budget: number): AssembledBlock {
  const found =
    (choice === 'partial-seams' ? partialAssembly(pattern, budget) : null) ??
    cheapestAssembly(pattern, budget, wishFor(choice, pattern));
  return { pattern, choice, found, ...assemble(pattern, found.assembly) };
}

/** All of a plan that is sewn by, and the patch id of each cell. */
interface OrderedBlock extends Pick<OrderedSections, 'idOf'>, Pick<OrderFacts, 'known'> {
  readonly sewing: SewingPlan;
}

function orderBlock(block: Block, assembled: AssembledBlock, { lightness }: PieceOptions): OrderedBlock {
  const { pattern, choice, found, joins } = assembled;
  const facts = orderFacts(block, pattern.division, lightness);
  const { idOf, patches, sections } = orderSections(pattern, assembled, facts);
  const verdict: Verdict = joins.some((join) => join.kind === 'set-in')
    ? 'set-in-seams'
    : joins.some((join) => join.kind === 'partial')
      ? 'partial-seams'
      : sections.length > 1
        ? 'several-foundations'
        : patches.length > 1
          ? 'one-foundation'
          : 'undivided';
  // Rows, columns and the like may take more foundations than could be; only a search for the fewest proves them.
  const fewest =
    sections.length === 1 || (found.isProven && (choice === 'fewest' || choice === 'unit-first'));
  const edges = namedEdges(edgesOf(pattern.division), idOf, block.cuts);
  return { idOf, known: facts.known, sewing: { verdict, fewest, patches, sections, joins, edges } };
}

function withFindings(
  block: Block,
  { pattern, found: { rings, clashes } }: AssembledBlock,
  { sewing, idOf, known }: OrderedBlock,
  options: PieceOptions,
): PiecingPlan {
  return {
    ...sewing,
    findings: inspect({ ...sewing, idOf, known, block, pattern, options, rings, clashes }),
  };
}

/** A block ready to be searched, or why it cannot be. */
export function prepare(block: Block): DividedBlock {
  const divided = divideBlock(block);
  if (!divided.ok) return divided;
  const roles = block.cuts.map(({ role }) => role);
  return { ok: true, pattern: withRoles(divided.pattern, roles) };
}

/** The plan that comes of what a search found, with all its findings; not checked yet. */
export function planFrom(
  block: Block,
  pattern: Pattern,
  found: SearchResult,
  options: PieceOptions,
): PiecingPlan {
  const choice = choiceFor(block, options);
  const assembled = { pattern, choice, found, ...assemble(pattern, found.assembly) };
  return withFindings(block, assembled, orderBlock(block, assembled, options), options);
}

/** A plan that has passed the check by the rule itself; one that fails is given out as broken. */
export function vouchedFor(block: Block, plan: PiecingPlan): PiecingPlan {
  const [fault] = verifyPlan(plan, block);
  return fault === undefined ? plan : withoutWarrant(block, fault);
}

const brokenFrom = ({ code, at, message }: Extract<DividedBlock, { ok: false }>): PiecingPlan =>
  brokenPlan(code, at, message);

const withoutWarrant = (block: Block, fault: string): PiecingPlan =>
  brokenPlan(
    'plan-fails-check',
    block.outline[0]!,
    phrase('No reliable plan was found: {fault} Moving the lines there a little apart helps.', { fault }),
  );

import { assemble } from '../assemble.ts';
import type { Block } from '../block.ts';
import { wishFor } from '../choices.ts';
import { bindingOf, clashesOf } from '../clashes.ts';
import type { PieceOptions, Severities } from '../options.ts';
import { chordsOf, partAlong } from '../partings.ts';
import type { Pattern } from '../pattern.ts';
import { knotOf } from '../peel.ts';
import { prepare } from '../piece.ts';
import type { Severity } from '../plan.ts';
import { maskOf, type Region } from '../region.ts';
import { inspect, RULES } from '../rules/table.ts';
import { cheapestAssembly } from '../search.ts';
import { isBetter, type Tally, tallyOf } from './standing.ts';

/** Regions looked into for each change that is tried. */
const TRIAL_BUDGET = 300;

/**
 * Where a changed block would stand, or null where that is no better than before. Goes the way of `piece` and leaves
 * it as soon as nothing better can come: straight joins alone no longer do, or lines force more foundations than
 * there were. `mustOpen`: of so many holds at least one must go, else the change is passed over; 0 asks for nothing.
 * Notes are not looked for: they judge no repair.
 */
export function tryChange(block: Block, options: PieceOptions, before: Tally, mustOpen = 0): Tally | null {
  const prepared = prepare(block, options);
  if (!prepared.ok) return null;
  const { pattern, fabrics } = prepared;
  if (before.setInJoins === 0 && ringsLeft(pattern, 1) > 0) return null;
  if (mustOpen > 0 && holdsIn(pattern, mustOpen) >= mustOpen) return null;
  const choice = options.plan ?? block.plan ?? 'fewest';
  // With nothing graver to mend, a plan on more foundations is no better.
  const isCapped = before.setInJoins === 0 && before.troubles === 0;
  if (isCapped && choice !== 'unit-first' && leastFoundations(pattern) > before.foundations) return null;
  const wish = wishFor(choice, pattern);
  const found = cheapestAssembly(pattern, TRIAL_BUDGET, wish);
  if (found.cost[0] > before.setInJoins || (isCapped && found.cost[3] > before.foundations)) return null;
  const assembled = assemble(pattern, found.assembly, fabrics);
  const findings = inspect({
    ...assembled,
    block,
    pattern,
    options: { ...options, severities: withoutNotes(options.severities) },
    rings: found.rings,
  });
  const after = tallyOf(assembled, findings);
  return isBetter(after, before) ? after : null;
}

/** How many things keep a block from straight joins: groups of patches that hold each other, and islands. */
export function holdsOf(block: Block, options: PieceOptions): number {
  const prepared = prepare(block, options);
  return prepared.ok ? holdsIn(prepared.pattern) : 0;
}

function holdsIn(pattern: Pattern, enough = Number.POSITIVE_INFINITY): number {
  const islands = pattern.division.faces.reduce((sum, face) => sum + face.islands.length, 0);
  return islands + ringsLeft(pattern, enough - islands);
}

/**
 * Groups of cells that straight seams cannot take further apart, counted up to `enough`; none exactly when straight
 * joins alone sew the block. Any straight seam may be taken first: a line that parts the whole parts each half it
 * runs through, so that no choice can spoil a later one.
 */
export function ringsLeft(pattern: Pattern, enough = Number.POSITIVE_INFINITY): number {
  const waiting: Region[] = [new Uint8Array(pattern.cells).fill(1)];
  let count = 0;
  while (waiting.length > 0 && count < enough) {
    // A patch that can come off last comes off along a straight seam as well.
    const held = knotOf(pattern, waiting.pop()!);
    if (held.length === 1) continue;
    const region = maskOf(pattern, held);
    const parting = firstParting(pattern, region);
    if (parting) waiting.push(parting.left, parting.right);
    else count++;
  }
  return count;
}

function firstParting(pattern: Pattern, region: Region) {
  for (const chord of chordsOf(pattern, region)) {
    const parting = partAlong(pattern, region, chord);
    if (parting) return parting;
  }
  return null;
}

/** Foundations that no plan with straight joins and patches at position 1 goes below. */
function leastFoundations(pattern: Pattern): number {
  const whole = new Uint8Array(pattern.cells).fill(1);
  return 1 + bindingOf(pattern, clashesOf(pattern), whole).joins;
}

function withoutNotes(severities: Severities = {}): Severities {
  return Object.fromEntries(
    RULES.map(({ code, severity }): [string, Severity | 'off'] => {
      const own = severities[code] ?? severity;
      return [code, own === 'note' ? 'off' : own];
    }),
  );
}

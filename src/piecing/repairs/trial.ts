import { costInWords } from '../assembly.ts';
import { bindingOf } from '../binding.ts';
import type { Block } from '../block.ts';
import { wishFor } from '../choices.ts';
import { clashesOf } from '../clashes.ts';
import type { PieceOptions, Severities } from '../options.ts';
import type { Pattern } from '../pattern.ts';
import { choiceFor, planFrom, prepare, vouchedFor } from '../piece.ts';
import type { Severity } from '../plan.ts';
import { wholeOf } from '../region.ts';
import { ringsOf } from '../rings.ts';
import { ringOfPatches } from '../rules/ring-of-patches.ts';
import { leastFound, RULES } from '../rules/table.ts';
import { cheapestAssembly } from '../search.ts';
import { isBetter, type Standing, standingOf, type Tally } from './standing.ts';

/** Regions looked into for each change that is tried. */
export const TRIAL_BUDGET = 150;

/** A change that makes a block better, as far as the trial could see. */
export interface Outcome {
  readonly after: Tally;
  /** Where the plan given out for it stands; null when only a longer search can tell. */
  readonly proven: () => Standing | null;
}

/**
 * Where a changed block would stand, or null where that is no better than before. Goes the way of `piece` with a small
 * budget, and leaves it as soon as nothing better can come: straight joins alone no longer do, or the lines need more
 * foundations, or the patches draw more cautions, than a better plan may have. `mustOpen`: of so many holds at least
 * one must go, else the change is passed over; 0 asks for nothing. Notes are not looked for: they judge no repair.
 */
export function tryChange(block: Block, options: PieceOptions, before: Tally, mustOpen = 0): Outcome | null {
  const prepared = prepare(block);
  if (!prepared.ok) return null;
  const { pattern } = prepared;
  if (mustOpen > 0 && holdsIn(pattern, mustOpen) >= mustOpen) return null;
  const choice = choiceFor(block, options);
  const clashes = clashesOf(pattern);
  // What a plan has at least; it is raised step by step, and the change passed over as soon as that is no better.
  let least: Tally = { setInCorners: 0, foundations: 1, troubles: 0, cautions: 0, patches: pattern.cells };
  const mayBeBetter = (more: Partial<Tally>): boolean => {
    least = { ...least, ...more };
    return isBetter(least, before);
  };
  if (before.setInCorners === 0 && choice !== 'unit-first') {
    // No plan with straight joins and patches at position 1 goes below what the clashes ask for.
    if (!mayBeBetter({ foundations: 1 + bindingOf(pattern, clashes, wholeOf(pattern)).joins })) return null;
  }
  const graver: PieceOptions = { ...options, severities: withoutNotes(options.severities) };
  if (!mayBeBetter(leastFound({ block, pattern, options: graver }))) return null;
  const rings = ringsOf(pattern, wholeOf(pattern));
  if (rings.length > 0) {
    // A ring is opened by a set-in join, between two foundations at least, and is a finding itself.
    const { troubles, cautions } = least;
    const severity = options.severities?.[ringOfPatches.code] ?? ringOfPatches.severity;
    const told = {
      troubles: troubles + Number(severity === 'trouble'),
      cautions: cautions + Number(severity === 'caution'),
    };
    if (!mayBeBetter({ setInCorners: 1, foundations: 2, ...told })) return null;
  }
  const found = cheapestAssembly(pattern, TRIAL_BUDGET, wishFor(choice, pattern), clashes, rings);
  const { corners, foundations } = costInWords(found.cost);
  if (!mayBeBetter({ setInCorners: corners, foundations })) return null;
  const plan = planFrom(block, pattern, found, graver);
  const after = standingOf(plan);
  return isBetter(after, before)
    ? { after, proven: () => (found.isComplete ? standingOf(vouchedFor(block, plan)) : null) }
    : null;
}

/** How many things keep a block from straight joins: groups of patches that hold each other, and islands. */
export function holdsOf(block: Block): number {
  const prepared = prepare(block);
  return prepared.ok ? holdsIn(prepared.pattern) : 0;
}

function holdsIn(pattern: Pattern, enough = Number.POSITIVE_INFINITY): number {
  const islands = pattern.division.faces.reduce((sum, face) => sum + face.islands.length, 0);
  return islands + ringsOf(pattern, wholeOf(pattern), enough - islands).length;
}

function withoutNotes(severities: Severities = {}): Severities {
  return Object.fromEntries(
    RULES.map(({ code, severity }): [string, Severity | 'off'] => {
      const own = severities[code] ?? severity;
      return [code, own === 'note' ? 'off' : own];
    }),
  );
}

import type { PiecingPlan } from '../../src/piecing/plan.ts';
import { Neighbourhood } from './check-plan.ts';
import { asOneStretch } from './shared-boundary.ts';

/** A block in hand, as told to the one who planned. */
export interface Handed {
  readonly id: string;
  readonly plan: PiecingPlan;
  readonly copies: number;
}

/** What is claimed of an assembly line; the form the command line prints. */
export interface Claimed {
  readonly papers: readonly { readonly id: string; readonly order: readonly string[] }[];
  readonly rounds: readonly {
    readonly fabric: string | null;
    readonly work: readonly { readonly paper: string; readonly patches: readonly string[] }[];
  }[];
}

/**
 * Sews every paper round by round as it is told, by the rule alone: each patch meets those before it on its paper along
 * one straight unbroken stretch, it is of the fabric that is out, and a unit that a paper starts from is there.
 * `isFirstPairCut`: the first patch of a paper may be of any fabric where the second follows in the same round.
 * Result: the faults as sentences.
 */
export function replayRounds(handed: readonly Handed[], claimed: Claimed, isFirstPairCut = false): string[] {
  const faults: string[] = [];
  const sewn = new Map<string, string[]>();
  const shops = new Map(
    handed.map(({ id, plan }) => [
      id,
      {
        plan,
        around: new Neighbourhood(plan.patches),
        numberOf: new Map(plan.patches.map((patch, k) => [patch.id, k])),
      },
    ]),
  );
  const expected = handed.flatMap(({ id, plan, copies }) =>
    plan.sections.flatMap(({ letter }) =>
      Array.from({ length: copies }, (_, k) => `${id}/${letter}/${k + 1}`),
    ),
  );
  if ([...claimed.papers.map(({ id }) => id)].sort().join() !== [...expected].sort().join())
    faults.push('The papers are not those in hand.');
  const partsOf = (paper: string) => {
    const [, block, letter, copy] = /^(.*)\/([^/]+)\/(\d+)$/.exec(paper)!;
    const shop = shops.get(block!)!;
    return {
      block: block!,
      copy: copy!,
      shop,
      section: shop.plan.sections.find((s) => s.letter === letter)!,
    };
  };
  claimed.rounds.forEach(({ fabric, work }, round) => {
    if (work.length === 0) faults.push(`Round ${round + 1} does nothing.`);
    const finishedBefore = new Set(
      [...sewn]
        .filter(([paper, done]) => done.length === partsOf(paper).section.order.length)
        .map(([paper]) => paper),
    );
    for (const { paper, patches } of work) {
      const { block, copy, shop, section } = partsOf(paper);
      const before = sewn.get(paper) ?? [];
      const base = section.startsFrom.flatMap(
        (letter) => shop.plan.sections.find((other) => other.letter === letter)!.order,
      );
      for (const letter of section.startsFrom)
        if (!finishedBefore.has(`${block}/${letter}/${copy}`))
          faults.push(`${paper} starts from ${letter}, which is not finished.`);
      patches.forEach((id, k) => {
        const number = shop.numberOf.get(id)!;
        const isPair = isFirstPairCut && before.length === 0 && k === 0 && patches.length > 1;
        if (shop.plan.patches[number]!.fabric !== fabric && !isPair)
          faults.push(`${paper} ${id} is not of the fabric that is out.`);
        const there = [...base, ...before];
        if (there.length > 0) {
          const pieces = shop.around.betweenAll(
            [number],
            there.map((other) => shop.numberOf.get(other)!),
          );
          if (asOneStretch(pieces).kind !== 'straight') faults.push(`${paper} ${id} cannot be sewn there.`);
        }
        if (!section.order.includes(id) || before.includes(id))
          faults.push(`${paper} ${id} is not to be sewn.`);
        before.push(id);
      });
      sewn.set(paper, before);
    }
  });
  for (const { id, order } of claimed.papers) {
    const done = sewn.get(id) ?? [];
    if (done.join() !== order.join()) faults.push(`${id} is sewn in another order than told.`);
    if (done.length !== partsOf(id).section.order.length) faults.push(`${id} is left unfinished.`);
  }
  return faults;
}

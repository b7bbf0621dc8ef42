import { describe, expect, it } from 'vitest';
import type { Block } from '../../src/piecing/block.ts';
import { piece } from '../../src/piecing/piece.ts';
import { findRepairs, repairsOf } from '../../src/piecing/repairs/find-repairs.ts';
import { applyChange, type Repair } from '../../src/piecing/repairs/repair.ts';
import { checkPlan } from '../checker/check-plan.ts';
import { insideShape } from '../checker/shared-boundary.ts';
import { awkwardBlock } from '../designs/awkward.ts';
import { designOf } from '../designs/designs.ts';
import { TEN_TROUBLES, type Trouble } from '../designs/ten-troubles.ts';
import { counted, isBetter, isBetterAsMeant } from './standing.ts';

/** Everything untrue about the repairs offered for a block. */
function faultsOf(block: Block, repairs: readonly Repair[]): string[] {
  const before = counted(piece(block));
  const faults: string[] = [];
  for (const repair of repairs) {
    const say = (fault: string): unknown => faults.push(`"${repair.sentence}" ${fault}`);
    const changed = applyChange(block, repair.change);
    const plan = piece(changed);
    const after = counted(plan);
    if (JSON.stringify(repair.before) !== JSON.stringify(before))
      say(`stands on ${JSON.stringify(repair.before)}, not ${JSON.stringify(before)}`);
    if (JSON.stringify(repair.after) !== JSON.stringify(after))
      say(`comes to ${JSON.stringify(after)}, not ${JSON.stringify(repair.after)}`);
    const isDrawnOn = repair.id.startsWith('extend');
    if (!isBetter(after, before) && !(isDrawnOn && isBetterAsMeant(after, before)))
      say('makes nothing better');
    for (const fault of checkPlan(changed, plan)) say(fault);
    if (changed.outline !== block.outline || changed.patches !== block.patches) say('changes more than cuts');
    if (!/^[A-Z].{8,}\.$/.test(repair.sentence)) say('is no sentence');
    const numbers = [...repair.sentence.matchAll(/line (\d+)/g)].map((match) => Number(match[1]));
    if (numbers.some((n) => n < 1 || n > block.cuts.length)) say('names a cut that is not there');
  }
  const drawings = repairs.map(({ change }) => JSON.stringify(change));
  if (new Set(drawings).size < drawings.length) faults.push('two repairs come to one drawing');
  if (new Set(repairs.map(({ id }) => id)).size < repairs.length) faults.push('two repairs have one id');
  return faults;
}

describe('every repair that is offered', () => {
  it('is as good as it says, on 80 random designs', () => {
    const wrong: string[] = [];
    let offered = 0;
    for (let seed = 9001; seed <= 9080; seed++) {
      const { block } = designOf(seed, { patches: [3, 16], pinned: seed % 4 === 0 ? 0.1 : 0 });
      const repairs = repairsOf(block);
      offered += repairs.length;
      for (const fault of faultsOf(block, repairs)) wrong.push(`seed ${seed}: ${fault}`);
    }
    expect(wrong.slice(0, 8)).toEqual([]);
    expect(offered).toBeGreaterThan(80);
  });

  it('is as good as it says, on 120 awkward blocks', () => {
    const wrong: string[] = [];
    let offered = 0;
    for (let seed = 1; seed <= 120; seed++) {
      const block = awkwardBlock(seed);
      const repairs = repairsOf(block);
      offered += repairs.length;
      for (const fault of faultsOf(block, repairs)) wrong.push(`seed ${seed}: ${fault}`);
    }
    expect(wrong.slice(0, 8)).toEqual([]);
    expect(offered).toBeGreaterThan(200);
  });

  it('is none where nothing can be better', () => {
    for (const cuts of ['', '0,3>6,3', '2,0>2,6 4,0>4,6']) {
      const block: Block = {
        id: 'b1',
        name: 'Pennant',
        outline: [
          [0, 0],
          [6, 0],
          [6, 6],
          [0, 6],
        ],
        cuts: cuts.split(' ').flatMap((text, i) => {
          if (text === '') return [];
          const [a, b] = text.split('>').map((p) => p.split(',').map(Number));
          return [{ id: `c${i}`, from: [a![0]!, a![1]!], to: [b![0]!, b![1]!], role: 'auto' }];
        }),
        patches: [],
      };
      expect(repairsOf(block)).toEqual([]);
    }
  });

  it('keeps what is painted and what is pinned, and never changes the block it was asked about', () => {
    for (let seed = 9101; seed <= 9120; seed++) {
      const { block } = designOf(seed, { patches: [4, 14], pinned: 0.1 });
      const copy = structuredClone(block);
      repairsOf(block);
      expect(block).toEqual(copy);
    }
  });
});

describe('the search for repairs', () => {
  const { block } = TEN_TROUBLES[1]!;

  it('tells how far it is, step by step, and may be dropped', () => {
    const search = findRepairs(block);
    let before = { tried: 0, total: 0 };
    for (;;) {
      const step = search.next();
      if (step.done) break;
      expect(step.value.tried).toBeGreaterThanOrEqual(before.tried);
      expect(step.value.total).toBeGreaterThanOrEqual(before.total);
      expect(step.value.tried).toBeLessThanOrEqual(step.value.total);
      before = step.value;
    }
    expect(before.total).toBeGreaterThan(8);
    expect(before.tried).toBe(before.total);
    const dropped = findRepairs(block);
    dropped.next();
    expect(dropped.return([]).done).toBe(true);
    expect(repairsOf(block)).toEqual(repairsOf(structuredClone(block)));
  });
});

/** Is this what the maker wanted: nothing in the way, the finding gone, all of the picture there, few papers? */
function isCured(trouble: Trouble, block: Block): boolean {
  const plan = piece(block);
  return (
    plan.verdict !== 'set-in-seams' &&
    plan.verdict !== 'broken' &&
    plan.findings.every(({ severity }) => severity === 'note') &&
    plan.patches.length >= trouble.leastPatches &&
    plan.sections.length <= trouble.papers &&
    checkPlan(block, plan).length === 0
  );
}

interface Cure {
  readonly taken: readonly string[];
  /** Places of the repairs in the lists they were offered in, counted from 1. */
  readonly places: readonly number[];
}

/** The first cure of one repair, or of two in turn, as a maker would come upon it: from the top of the list. */
function cureOf(trouble: Trouble): Cure | null {
  const first = repairsOf(trouble.block).map((repair) => applyChange(trouble.block, repair.change));
  const sentences = repairsOf(trouble.block).map(({ sentence }) => sentence);
  const one = first.findIndex((block) => isCured(trouble, block));
  if (one >= 0) return { taken: [sentences[one]!], places: [one + 1] };
  for (const [k, block] of first.entries()) {
    const second = repairsOf(block);
    const two = second.findIndex(({ change }) => isCured(trouble, applyChange(block, change)));
    if (two >= 0) return { taken: [sentences[k]!, second[two]!.sentence], places: [k + 1, two + 1] };
  }
  return null;
}

describe('ten patterns of the harbour town that cannot be sewn, or only in too many papers', () => {
  it.each(TEN_TROUBLES)('$name: explained by the right patches and cuts', (trouble) => {
    const { block, code, cuts, patches: about } = trouble;
    const plan = piece(block);
    expect(checkPlan(block, plan)).toEqual([]);
    expect(isCured(trouble, block)).toBe(false);
    const finding = plan.findings.find((f) => f.code === code)!;
    expect(finding, `findings: ${plan.findings.map((f) => f.code)}`).toBeDefined();
    for (const n of cuts) expect(finding.message.toLowerCase()).toMatch(new RegExp(`\\bline ${n}\\b`));
    const named = [...finding.message.matchAll(/\b([A-Z]+\d+)\b/g)].map((match) => match[1]!);
    if (about.length > 0) {
      const meant = about.map((p) => plan.patches.find((patch) => insideShape(p, patch))!.id);
      expect([...new Set(named)].sort()).toEqual(meant.sort());
      expect([...finding.patches].sort()).toEqual(meant);
    }
  });

  it.each(TEN_TROUBLES)('$name: cured by at most two repairs', (trouble) => {
    const cure = cureOf(trouble);
    expect(cure, `offered: ${repairsOf(trouble.block).map(({ sentence }) => sentence)}`).not.toBeNull();
    console.log(
      `${trouble.name}: ${cure!.taken.join(' then ')} (offered in place ${cure!.places.join(', ')})`,
    );
  });
});

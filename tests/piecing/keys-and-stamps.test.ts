import { describe, expect, it } from 'vitest';
import type { Point } from '../../src/geometry/point.ts';
import type { Block, Cut } from '../../src/piecing/block.ts';
import { piece } from '../../src/piecing/piece.ts';
import type { PiecingPlan } from '../../src/piecing/plan.ts';
import { stampOf } from '../../src/piecing/stamp.ts';
import { shapeArea } from '../checker/shared-boundary.ts';
import { designOf } from '../designs/designs.ts';
import { entriesAt } from '../designs/entries.ts';
import { blockOf, ringOf } from './rules/drawing.ts';

const QUICK = { budget: 40 };
const keysOf = ({ patches }: PiecingPlan): string[] => patches.map(({ key }) => key);

/** The block with each point of it moved. */
const moved = (block: Block, by: Point): Block => {
  const to = ([x, y]: Point): Point => [x + by[0], y + by[1]];
  return {
    ...block,
    outline: block.outline.map(to),
    cuts: block.cuts.map((cut): Cut => ({ ...cut, from: to(cut.from), to: to(cut.to) })),
    patches: block.patches.map((entry) => ({ ...entry, at: to(entry.at) })),
  };
};

describe('keys of patches', () => {
  it('are the ids of their entries, whatever letter and number they have', () => {
    const block = {
      ...blockOf({ cuts: '2,0>2,6 4,0>4,6' }),
      patches: entriesAt([{ at: [5, 1] }, { at: [1, 1] }]),
    };
    const at = (plan: PiecingPlan, x: number) =>
      plan.patches.find(({ polygon }) => polygon.every(([px]) => Math.abs(px - x) <= 1));
    const plan = piece(block);
    expect([at(plan, 1)?.key, at(plan, 5)?.key]).toEqual(['p2', 'p1']);
    const turnedRound = piece({ ...block, orders: [['p1']] });
    expect([at(turnedRound, 1)?.key, at(turnedRound, 5)?.key]).toEqual(['p2', 'p1']);
  });

  it('without entries hang on the shape alone: those of patches that a new cut leaves alone stay', () => {
    const before = keysOf(piece(blockOf({ cuts: '2,0>2,6 4,0>4,6' })));
    const after = keysOf(piece(blockOf({ cuts: '4,0>4,6 0,3>2,3 2,6>2,0' })));
    expect(new Set(before).size).toBe(3);
    expect(after.filter((key) => before.includes(key))).toHaveLength(2);
    expect(before.every((key) => /^p-[2-9a-z]{8}$/.test(key))).toBe(true);
  });

  it('are never two alike, not even where an entry is called as a patch without one would be', () => {
    const block = blockOf({ cuts: '2,0>2,6 4,0>4,6' });
    const [first, second] = keysOf(piece(block));
    const taken = { ...block, patches: [{ id: first!, at: [9, 9] as const }] };
    expect(new Set([...keysOf(piece(taken)), first]).size).toBe(4);
    expect(keysOf(piece(taken))).toContain(second);
  });
});

describe('keys of sections', () => {
  const block = blockOf({ cuts: '0,3>6,3 2,0>2,3 4,0>4,3 3,3>3,6', roles: { 1: 'join' } });
  const plan = piece(block);

  it('hang on their patches alone, in whatever order these are sewn', () => {
    const [top, bottom] = plan.sections;
    const keys = plan.patches.filter(({ section }) => section === 'A').map(({ key }) => key);
    const entries = plan.patches.map(({ key, polygon }) => {
      const n = polygon.length;
      const at: Point = [
        polygon.reduce((sum, [x]) => sum + x, 0) / n,
        polygon.reduce((sum, [, y]) => sum + y, 0) / n,
      ];
      return { id: key, at };
    });
    const asked = piece({ ...block, patches: entries, orders: [keys.toReversed()] });
    expect(asked.sections[0]?.order.map((id) => asked.patches.find((patch) => patch.id === id)?.key)).toEqual(
      keys.toReversed(),
    );
    expect(asked.sections.map(({ key }) => key)).toEqual([top?.key, bottom?.key]);
    // The paper is another all the same.
    expect(asked.sections[0]?.stamp).not.toBe(top?.stamp);
    expect(asked.sections[1]?.stamp).toBe(bottom?.stamp);
  });

  it('are others when a patch comes or goes', () => {
    const more = piece(blockOf({ cuts: '0,3>6,3 2,0>2,3 4,0>4,3 3,3>3,6 5,0>5,3', roles: { 1: 'join' } }));
    expect(more.sections[0]?.key).not.toBe(plan.sections[0]?.key);
    expect(more.sections[1]?.key).toBe(plan.sections[1]?.key);
  });
});

describe('stamps', () => {
  it('are the same for the same paper with another letter, at another place', () => {
    const four = piece(blockOf({ cuts: '0,3>6,3 3,0>3,6', roles: { 1: 'join' } }));
    expect(four.sections.map(({ letter }) => letter)).toEqual(['A', 'B']);
    expect(new Set(four.sections.map(({ stamp }) => stamp)).size).toBe(1);
  });

  it('do not see where seams of a neighbour end, and see a change of a 1/64 in', () => {
    const alone = piece(blockOf({ cuts: '0,3>6,3 2,0>2,3', roles: { 1: 'join' } })).sections[0]!;
    const beside = piece(blockOf({ cuts: '0,3>6,3 2,0>2,3 4,3>4,6', roles: { 1: 'join' } })).sections[0]!;
    const other = piece(blockOf({ cuts: '0,3>6,3 2.015625,0>2.015625,3', roles: { 1: 'join' } }))
      .sections[0]!;
    expect(beside.stamp).toBe(alone.stamp);
    expect(other.stamp).not.toBe(alone.stamp);
  });

  it('are other ones for what is sewn on to a finished unit', () => {
    const area = (ring: string) => ({ polygon: ringOf(ring), holes: [] });
    const own = [area('0,3 6,3 6,6 0,6')];
    const stamps = [
      stampOf(own),
      stampOf(own, [ringOf('0,0 6,0 6,6 0,6')]),
      stampOf(own, [ringOf('0,1 6,1 6,6 0,6')]),
    ];
    expect(new Set(stamps).size).toBe(3);
    expect(stamps.every((stamp) => /^[2-9A-Z]{5}$/.test(stamp))).toBe(true);
    let units = 0;
    for (let seed = 1; seed <= 60; seed++) {
      const { block } = designOf(seed, { patches: [6, 12] });
      const plan = piece({ ...block, plan: 'unit-first' }, QUICK);
      for (const { stamp, order, outline, holes, startsFrom } of plan.sections) {
        const patches = order.map((id) => plan.patches.find((patch) => patch.id === id)!);
        if (startsFrom.length > 0) units++;
        expect(stamp).toBe(stampOf(patches, startsFrom.length > 0 ? [outline, ...holes] : []));
      }
    }
    expect(units).toBeGreaterThan(5);
  });

  it('of seeded designs stay when the block moves on the lattice, and differ as the papers do', () => {
    const papers = new Map<string, string>();
    const faults: string[] = [];
    for (let seed = 1; seed <= 120; seed++) {
      const { block } = designOf(seed, { patches: [3, 14] });
      const plan = piece(block, QUICK);
      const elsewhere = piece(moved(block, [seed / 64, -seed / 32]), QUICK);
      const stamps = plan.sections.map(({ stamp }) => stamp);
      if (JSON.stringify(elsewhere.sections.map(({ stamp }) => stamp)) !== JSON.stringify(stamps))
        faults.push(`seed ${seed} has other stamps elsewhere`);
      for (const [i, section] of plan.sections.entries()) {
        const own = section.order.map((id) => plan.patches.find((patch) => patch.id === id)!);
        const shape = String(own.map((patch) => shapeArea(patch).toFixed(3)));
        const known = papers.get(stamps[i]!);
        if (known !== undefined && known !== shape && section.order.length > 2)
          faults.push(`seed ${seed}: two papers, one stamp`);
        papers.set(stamps[i]!, shape);
      }
    }
    expect(faults).toEqual([]);
    expect(papers.size).toBeGreaterThan(200);
  });
});

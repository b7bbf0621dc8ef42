import { describe, expect, it } from 'vitest';
import { PLAN_CHOICES } from '../../src/piecing/block.ts';
import { orderCounts } from '../../src/piecing/order-counts.ts';
import { piece } from '../../src/piecing/piece.ts';
import type { Join, Patch, PiecingPlan } from '../../src/piecing/plan.ts';
import { type RehearsalStep, rehearse } from '../../src/piecing/rehearsal.ts';
import { cautionsOf, stepName, stepSentence } from '../../src/piecing/sentences.ts';
import { sharedBoundary } from '../checker/shared-boundary.ts';
import { designOf } from '../designs/designs.ts';

/** Plans of random designs, each choice in turn, so that some start a paper from a finished unit. */
const PLANS: readonly { readonly seed: number; readonly plan: PiecingPlan }[] = Array.from(
  { length: 100 },
  (_, k) => {
    const seed = 9_101 + k;
    const { block } = designOf(seed, { patches: [2, 24] });
    return { seed, plan: piece(block, { plan: PLAN_CHOICES[k % PLAN_CHOICES.length]! }) };
  },
);

describe('rehearse', () => {
  it('sews every patch once and every join once, nothing before what it needs', () => {
    const bad: string[] = [];
    for (const { seed, plan } of PLANS) {
      const steps = rehearse(plan);
      const done = new Set<string>();
      const joined = new Set<number>();
      const say = (fault: string): void => void bad.push(`seed ${seed}: ${fault}`);
      const isMade = (letters: readonly string[]): boolean =>
        plan.patches.every(({ id, section }) => !letters.includes(section) || done.has(id));
      for (const step of steps) {
        if (step.kind === 'join') {
          if (joined.has(step.join.step)) say(`join ${step.join.step} twice`);
          if (!isMade([...step.join.left, ...step.join.right])) say(`join ${step.join.step} too early`);
          joined.add(step.join.step);
        } else if (step.kind === 'start') {
          if (!isMade(step.unit)) say(`paper ${step.section} begun before its unit`);
        } else {
          const { id, section, position } = step.patch;
          if (done.has(id)) say(`${id} twice`);
          if (
            plan.patches.some(
              (one) => one.section === section && one.position < position && !done.has(one.id),
            )
          )
            say(`${id} before an earlier position`);
          done.add(id);
        }
      }
      if (done.size !== plan.patches.length) say('a patch is never sewn');
      if (joined.size !== plan.joins.length) say('a join is never sewn');
    }
    expect(bad).toEqual([]);
  });

  it('names just the patches on the same paper that the new one borders, by their outlines alone', () => {
    const bad: string[] = [];
    let counted = 0;
    for (const { seed, plan } of PLANS) {
      for (const step of rehearse(plan)) {
        if (step.kind !== 'sew') continue;
        const { patch } = step;
        const { startsFrom } = plan.sections.find(({ letter }) => letter === patch.section)!;
        const earlier = plan.patches.filter(
          (one) =>
            startsFrom.includes(one.section) ||
            (one.section === patch.section && one.position < patch.position),
        );
        const beside = earlier.filter((one) => sharedBoundary(patch, one).length > 0).map(({ id }) => id);
        if ([...step.onto].sort().join() !== beside.sort().join()) bad.push(`seed ${seed}: ${patch.id}`);
        counted++;
      }
    }
    expect(bad).toEqual([]);
    expect(counted).toBeGreaterThan(500);
  });

  it('says each word of care once, where its tool is first taken in hand', () => {
    for (const { seed, plan } of PLANS) {
      const steps = rehearse(plan);
      const told = [...cautionsOf(steps)].flatMap(([at, cautions]) =>
        cautions.map(({ tool }) => ({ tool, at })),
      );
      const tools = told.map(({ tool }) => tool);
      expect({ seed, tools: [...tools].sort() }).toEqual({ seed, tools: [...new Set(tools)].sort() });
      const needle = told.find(({ tool }) => tool === 'needle')?.at ?? -1;
      expect(needle).toBe(steps.findIndex(({ kind }) => kind === 'sew' || kind === 'join'));
    }
  });
});

const patch = (id: string, fabric: string | null = null, neighbours: readonly string[] = []): Patch =>
  ({
    id,
    section: id[0]!,
    position: Number(id.slice(1)),
    fabric,
    neighbours,
    polygon: [],
  }) as unknown as Patch;

const JOIN = {
  step: 2,
  left: ['A', 'B'],
  right: ['C'],
  kind: 'straight',
  points: [
    { label: '2a', at: [0, 0], kind: 'end' },
    { label: '2b', at: [3, 0], kind: 'match' },
    { label: '2c', at: [6, 0], kind: 'end' },
  ],
} as unknown as Join;

const sewing = (change: object = {}): RehearsalStep =>
  ({
    kind: 'sew',
    section: 'B',
    patch: patch('B2'),
    onto: ['B1'],
    seam: [
      [0, 0],
      [1, 0],
    ],
    isLastOfSection: false,
    sewn: ['A1', 'B1', 'B2'],
    ...change,
  }) as unknown as RehearsalStep;

describe('stepSentence', () => {
  const inches = { allowance: 0.25, unit: 'in' } as const;

  it('tells a patch in the order of common practice: lay, stitch, flip, press, trim', () => {
    expect(stepSentence(sewing(), inches)).toBe(
      'Lay B2 right sides together on B1, stitch the line between them, flip, press, trim to 1/4 in.',
    );
    expect(stepSentence(sewing({ onto: ['B1', 'B3', 'B4'], isLastOfSection: true }), inches)).toBe(
      'Lay B2 right sides together on B1, B3 and B4, stitch the line between them, flip, press, trim paper and fabric 1/4 in outside the outline.',
    );
  });

  it('tells the allowance in the unit of the project', () => {
    expect(stepSentence(sewing(), { allowance: 10 / 25.4, unit: 'mm' })).toContain('trim to 10 mm.');
  });

  it('tells a first patch and a finished unit', () => {
    const sewn: readonly string[] = [];
    expect(stepSentence({ kind: 'place', section: 'A', patch: patch('A1'), sewn }, inches)).toBe(
      'Lay A1 right side up on the blank side of paper A, so that it covers its place and 1/4 in all round.',
    );
    const start: RehearsalStep = { kind: 'start', section: 'C', unit: ['A', 'B'], sewn };
    expect(stepSentence(start, inches)).toBe(
      'Lay the finished unit A and B, joined, right side up on the blank side of paper C, each seam on its line: it is position 1 there.',
    );
    expect(stepName(start)).toBe('C1 = AB');
  });

  it('tells a join with its pins and how it is pressed', () => {
    const step: RehearsalStep = { kind: 'join', section: 'C', join: JOIN, press: 'open', sewn: [] };
    expect(stepSentence(step, inches)).toBe(
      'Pin A and B to C right sides together at 2a to 2c, stitch the seam, take the paper out of its allowance, press the seam open.',
    );
    expect(stepSentence({ ...step, press: 'to-one-side' }, inches)).toContain('press the seam to one side.');
    const setIn = { ...step, join: { ...JOIN, kind: 'set-in' as const } };
    expect(stepSentence(setIn, inches)).toContain('the needle down at each turn');
    expect(stepName(step)).toBe('Join 2');
  });
});

describe('orderCounts', () => {
  const lightness = new Map([
    ['dark', 0.2],
    ['light', 0.9],
  ]);
  const plan = {
    patches: [patch('A1', 'dark', ['A2']), patch('A2', 'light', ['A1', 'A3']), patch('A3', 'light', ['A2'])],
  } as unknown as PiecingPlan;
  const section = {
    key: 'A',
    letter: 'A',
    stamp: 'CDFGH',
    order: ['A1', 'A2', 'A3'],
    startsFrom: [],
    outline: [],
    holes: [],
  };

  it('counts what is taken in hand anew, and light patches sewn to darker ones', () => {
    expect(orderCounts(plan, section, ['A1', 'A2', 'A3'], lightness)).toEqual({
      fabricChanges: 1,
      lightOverDark: 1,
    });
    expect(orderCounts(plan, section, ['A2', 'A1', 'A3'], lightness)).toEqual({
      fabricChanges: 2,
      lightOverDark: 0,
    });
  });
});

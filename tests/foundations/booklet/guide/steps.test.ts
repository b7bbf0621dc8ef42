import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { openFile } from '../../../../src/document/file.ts';
import {
  blockSizeWords,
  bothSizes,
  everyPaper,
  type GuideStep,
  guideSteps,
  paperLines,
  partialSeamWords,
  pinOrder,
  unitName,
} from '../../../../src/foundations/booklet/guide/steps.ts';
import {
  goesOf,
  inwardCorners,
  lengthWords,
  sizeWords,
  unitOf,
} from '../../../../src/foundations/booklet/guide/units.ts';
import type { Block } from '../../../../src/piecing/block.ts';
import { piece } from '../../../../src/piecing/piece.ts';
import type { Join, PiecingPlan, RegistrationPoint } from '../../../../src/piecing/plan.ts';
import { lighthouse, net, pennant, whirlpool, windmill } from '../../harbour.ts';

const options = { unit: 'in', allowance: 0.25 } as const;

const demo = (): readonly Block[] => {
  const opened = openFile(readFileSync('public/demo/harbour-sampler.underpaper.json', 'utf8'));
  if (!opened.ok) throw new Error('The demo does not open.');
  return opened.project.blocks;
};

const joinSteps = (plan: PiecingPlan): readonly Extract<GuideStep, { kind: 'join' }>[] =>
  guideSteps(plan, options).filter((step) => step.kind === 'join');

const said = (step: GuideStep, about: string): string =>
  step.lines.find((line) => line.about === about)?.text ?? '';

describe('the steps of the joining guide', () => {
  it('are one a join, in an order in which every unit is there when it is needed', () => {
    for (const block of [...demo(), windmill, whirlpool, lighthouse, net]) {
      const plan = piece(block);
      const steps = joinSteps(plan);
      expect(steps.map(({ join }) => join.step).toSorted((a, b) => a - b)).toEqual(
        plan.joins.map(({ step }) => step),
      );
      // Units that exist: each section at first, then what joins made of them.
      const units = new Set(plan.sections.map(({ letter }) => letter));
      for (const { join } of steps) {
        const unit = (letters: readonly string[]) => letters.toSorted().join(' ');
        expect(units.delete(unit(join.left))).toBe(true);
        expect(units.delete(unit(join.right))).toBe(true);
        units.add(unit([...join.left, ...join.right]));
      }
      expect(units.size).toBe(1);
    }
  });

  it('tell a starting unit before the joins that need its paper', () => {
    const block = demo().find(({ name }) => name === 'Lighthouse')!;
    const plan = piece(block, { plan: 'unit-first' });
    const started = plan.sections.find(({ startsFrom }) => startsFrom.length > 0)!;
    const steps = guideSteps(plan, options);
    const at = steps.findIndex((step) => step.kind === 'start' && step.section === started.letter);
    expect(at).toBeGreaterThanOrEqual(0);
    const [step, before] = [steps[at]!, steps.slice(0, at)];
    // What the unit is made of is joined before; nothing that has this paper in it is.
    const joined = before.flatMap((one) =>
      one.kind === 'join' ? [...one.join.left, ...one.join.right] : [],
    );
    expect(started.startsFrom.every((letter) => joined.includes(letter))).toBe(true);
    expect(joined).not.toContain(started.letter);
    expect(said(step, 'Lay')).toContain(`${started.letter}1`);
    // Among the papers to sew first it is marked as one that waits, and only it.
    for (const { letter, wait } of paperLines(plan, options))
      expect(wait === null).toBe(letter !== started.letter);
  });

  it('name every point of the join once for pinning, with the edge from end to end', () => {
    for (const block of demo()) {
      const plan = piece(block);
      for (const step of joinSteps(plan)) {
        if (step.join.kind === 'set-in') continue;
        const pin = said(step, 'Pin');
        for (const { label } of step.join.points)
          expect(pin.match(new RegExp(`\\b${label}\\b`, 'g')) ?? []).toHaveLength(1);
        expect(said(step, 'Edge')).toContain(`“join ${step.join.step}”`);
      }
    }
  });

  // Common practice: ends first, then what must match, then where one seam comes in, then the rest of the edge.
  it('pin ends, then match points, then junctions, then guides', () => {
    const points: RegistrationPoint[] = [
      { label: '4a', kind: 'end', at: [0, 0] },
      { label: '4b', kind: 'guide', at: [1, 0] },
      { label: '4c', kind: 'junction', at: [2, 0] },
      { label: '4d', kind: 'match', at: [3, 0] },
      { label: '4e', kind: 'match', at: [4, 0] },
      { label: '4f', kind: 'end', at: [5, 0] },
    ];
    expect(pinOrder(points)).toBe(
      'Pin first the ends 4a and 4f, then the match points 4d and 4e, then the junction 4c, then the guide 4b.',
    );
  });

  // Common practice: open where seams must match, since both allowances are bulky there, else to one side.
  it('press open where there are match points, else to one side', () => {
    const plan = piece(windmill);
    const [step] = joinSteps(plan);
    expect(step!.join.points.some(({ kind }) => kind === 'match')).toBe(true);
    expect(said(step!, 'Press')).toMatch(/^Open/);
    for (const block of demo())
      for (const other of joinSteps(piece(block)))
        if (other.join.kind === 'straight' && other.join.points.every(({ kind }) => kind !== 'match'))
          expect(said(other, 'Press')).toMatch(/^To one side/);
  });

  it('say the size of every unit they make', () => {
    const plan = piece(windmill);
    const [step] = joinSteps(plan);
    // A 6 in block with a quarter inch all round: finished + 1/2 in each way (common practice).
    expect(said(step!, 'Makes')).toBe('The whole block: 6 × 6 in finished, 6 1/2 × 6 1/2 in unfinished.');
  });
});

describe('the name of a unit in the guide', () => {
  it('lists its sections, and where they are many says which join made it', () => {
    const plan = piece(net);
    expect(plan.sections.length).toBeGreaterThan(7);
    for (const { join, title, lines } of joinSteps(plan)) {
      for (const letters of [join.left, join.right]) {
        if (letters.length <= 6) continue;
        const [, step] = /the unit of join (\d+)/.exec(unitName(plan, letters))!;
        const made = plan.joins.find((one) => one.step === Number(step))!;
        expect([...made.left, ...made.right].toSorted()).toEqual(letters.toSorted());
        // It was made before it is needed.
        expect(made.step).toBeLessThan(join.step);
        expect(title).toContain(`the unit of join ${step}`);
      }
      for (const text of [title, ...lines.map((line) => line.text)])
        expect(text.match(/\b[A-Z]{1,2}, /g)?.length ?? 0, text).toBeLessThan(7);
    }
    expect(unitName(plan, ['A', 'B'])).toBe('A and B');
  });
});

describe('how every paper is sewn', () => {
  it('tells what a first paper needs: side, order, cover, allowance, stitches, trimming and pressing', () => {
    const words = everyPaper({ unit: 'in', allowance: 0.375 }).join(' ');
    for (const told of [
      /blank side/,
      /printed side/,
      /order of the numbers/,
      /right sides together/,
      /3\/8 in past the line/,
      /sew on that line/,
      /Hold it to the light/,
      /trim the allowance to 3\/8 in/,
      /press/,
    ])
      expect(words).toMatch(told);
    expect(everyPaper({ unit: 'mm', allowance: 0.25 }).join(' ')).toContain('6.35 mm');
    // Papers without an allowance have no trim line.
    expect(everyPaper({ unit: 'in', allowance: 0 }).join(' ')).not.toContain('dashed');
  });
});

describe('sizes in the guide', () => {
  it('add the allowance on both sides of what is finished', () => {
    expect(blockSizeWords(piece(pennant), options)).toBe(
      'Finished: 6 × 6 in. Unfinished, with 1/4 in allowance all round: 6 1/2 × 6 1/2 in.',
    );
    // 1/4 in is 6.35 mm (NBS Circular 572 addendum, 1960).
    expect(blockSizeWords(piece(pennant), { unit: 'mm', allowance: 0.25 })).toContain('6.35 mm');
  });

  it('give lengths no ruler shows to the nearest sixteenth, as about', () => {
    expect(lengthWords(Math.SQRT2 * 6, 'in')).toBe('about 8 1/2 in');
    expect(lengthWords(3.625, 'in')).toBe('3 5/8 in');
    expect(sizeWords({ across: Math.SQRT2 * 6, down: 2, isRectangle: true }, 'in')).toBe(
      'about 8 1/2 × 2 in',
    );
    expect(sizeWords({ across: 6, down: 2.5, isRectangle: true }, 'mm')).toBe('152.4 × 63.5 mm');
  });

  it('name no length finer than sixteenths', () => {
    // 10 29/64 in: common rulers are marked in eighths or sixteenths (common practice).
    expect(lengthWords(10 + 29 / 64, 'in')).toBe('about 10 7/16 in');
    expect(lengthWords(10 + 7 / 16, 'in')).toBe('10 7/16 in');
  });

  it('are those of the widest places of a triangle, also of one with a right angle', () => {
    const fish = demo().find(({ name }) => name === 'Fish')!;
    const plan = piece(fish);
    const units = plan.sections.map(({ letter }) => unitOf(plan, [letter], options.allowance));
    const unit = units.find(({ outline }) => outline.length === 3)!;
    expect(unit.outline).toHaveLength(3);
    expect(unit.finished.isRectangle).toBe(false);
    expect(bothSizes(unit, options)).toMatch(/^at its widest /);
  });

  it('of the units of a join fill the unit it makes', () => {
    for (const block of demo()) {
      const plan = piece(block);
      for (const { join } of joinSteps(plan)) {
        const [left, right, both] = [join.left, join.right, [...join.left, ...join.right]].map(
          (letters) => unitOf(plan, letters, 0.25).finished,
        );
        for (const way of ['across', 'down'] as const) {
          expect(both![way]).toBeLessThanOrEqual(left![way] + right![way] + 1e-6);
          expect(both![way]).toBeGreaterThanOrEqual(Math.max(left![way], right![way]) - 1e-6);
        }
      }
    }
  });

  it('list every paper with all its patches', () => {
    for (const block of demo()) {
      const plan = piece(block);
      const papers = paperLines(plan, options);
      expect(papers.map(({ letter }) => letter)).toEqual(plan.sections.map(({ letter }) => letter));
      papers.forEach(({ order }, i) => {
        expect(order).toContain(plan.sections[i]!.order[0]!);
        expect(order).toContain(plan.sections[i]!.order.at(-1)!);
      });
    }
  });
});

describe('a set-in seam in the guide', () => {
  const plan = piece(whirlpool);
  const join = plan.joins.find(({ kind }) => kind === 'set-in')!;
  const [step] = joinSteps(plan).filter((one) => one.join === join);

  // Common practice: sewn stretch by stretch, stopping exactly at the corner, the inward corner clipped.
  it('is sewn a stretch at a time, and the unit that turns inward is clipped', () => {
    expect(step!.lines.filter(({ about }) => about.startsWith('Go '))).toHaveLength(join.stretches.length);
    for (const { point, clipped, other } of inwardCorners(plan, join)) {
      expect(said(step!, 'Go 1')).toContain(`of ${clipped.join(' and ')} at ${point.label}`);
      expect(said(step!, 'Press')).toContain(`Toward ${other.join(' and ')}`);
      // Judged from the angle there: the clipped unit covers more than half a turn round the corner.
      expect(angleAt(plan, clipped, point)).toBeGreaterThan(Math.PI);
      expect(angleAt(plan, other, point)).toBeLessThan(Math.PI);
    }
    expect(inwardCorners(plan, join)).toHaveLength(join.stretches.length - 1);
  });

  it('with two corners begins between them', () => {
    const at = (label: string, x: number, y: number, kind: RegistrationPoint['kind'] = 'end') => ({
      label,
      kind,
      at: [x, y] as const,
    });
    const bay: Join = {
      step: 1,
      left: ['A'],
      right: ['B'],
      kind: 'set-in',
      seam: [
        [0, 0],
        [2, 0],
      ],
      stretches: [
        [
          [0, 0],
          [0, 2],
        ],
        [
          [0, 2],
          [2, 2],
        ],
        [
          [2, 2],
          [2, 0],
        ],
      ],
      points: [at('1a', 0, 0), at('1b', 0, 2), at('1c', 1, 2, 'junction'), at('1d', 2, 2), at('1e', 2, 0)],
    };
    const goes = goesOf(bay).map(({ points }) => points.map(({ label }) => label).join(' '));
    expect(goes).toEqual(['1b 1c 1d', '1d 1e', '1b 1a']);
  });

  it('offers the partial seam only where lines chase each other', () => {
    expect(partialSeamWords(plan)).toContain('half of its seam');
    for (const block of [windmill, pennant, lighthouse]) expect(partialSeamWords(piece(block))).toBeNull();
  });
});

/** How much of a full turn round a point the patches of some sections take, in radians. */
function angleAt(plan: PiecingPlan, letters: readonly string[], { at: [x, y] }: RegistrationPoint): number {
  let sum = 0;
  for (const { section, polygon } of plan.patches) {
    if (!letters.includes(section)) continue;
    const i = polygon.findIndex((corner) => Math.hypot(corner[0] - x, corner[1] - y) < 1e-6);
    if (i < 0) continue;
    const to = (other: readonly [number, number]): number => Math.atan2(other[1] - y, other[0] - x);
    const turn = to(polygon.at(i - 1)!) - to(polygon[(i + 1) % polygon.length]!);
    sum += (turn + 2 * Math.PI) % (2 * Math.PI);
  }
  return sum;
}

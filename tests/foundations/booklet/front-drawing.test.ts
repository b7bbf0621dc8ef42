import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { openFile } from '../../../src/document/file.ts';
import { PAGES } from '../../../src/document/pages.ts';
import { layOutBooklet } from '../../../src/foundations/booklet/booklet.ts';
import { fitFront, fitUnit } from '../../../src/foundations/booklet/fit.ts';
import { joinDrawing } from '../../../src/foundations/booklet/join-drawing.ts';
import { joinStrip } from '../../../src/foundations/booklet/join-strip.ts';
import { sectionsDrawing } from '../../../src/foundations/booklet/sections-drawing.ts';
import type { TextMark } from '../../../src/foundations/marks.ts';
import { marksOf } from '../../../src/foundations/sheet/sheet.ts';
import type { Point } from '../../../src/geometry/point.ts';
import { distance, distanceToSegment } from '../../../src/geometry/ring.ts';
import type { Block } from '../../../src/piecing/block.ts';
import { piece } from '../../../src/piecing/piece.ts';
import type { Join, PiecingPlan } from '../../../src/piecing/plan.ts';
import { designOf } from '../../designs/designs.ts';
import { harbourPicture } from '../../designs/harbour-picture.ts';
import {
  harbour,
  inkCorners,
  lighthouse,
  net,
  pointsOf,
  textsOf,
  typeface,
  whirlpool,
  windmill,
} from '../harbour.ts';
import { overlappingTexts, textsOverLines } from '../overlaps.ts';

const demo = (): readonly Block[] => {
  const opened = openFile(readFileSync('public/demo/harbour-sampler.underpaper.json', 'utf8'));
  if (!opened.ok) throw new Error('The demo does not open.');
  return opened.project.blocks;
};

const plans = new Map<Block, PiecingPlan>();
const planOf = (block: Block): PiecingPlan => {
  const plan = plans.get(block) ?? piece(block);
  plans.set(block, plan);
  return plan;
};

const blocks = [...demo(), lighthouse, windmill, whirlpool, net];
const middleOf = (mark: TextMark): Point => {
  const ink = inkCorners(mark);
  return [ink.reduce((sum, [x]) => sum + x, 0) / 4, ink.reduce((sum, [, y]) => sum + y, 0) / 4];
};

const stretchesOn = (join: Join, place: (point: Point) => Point) =>
  join.stretches.map(([a, b]) => [place(a), place(b)] as const);

/** Labels of points that a join's drawing and the strip under it name. */
function named(plan: PiecingPlan, join: Join): ReadonlySet<string> {
  const fit = fitUnit(plan, [...join.left, ...join.right], 1.7, 1.7);
  const drawing = joinDrawing(plan, join, fit, typeface);
  const strip = joinStrip(plan, join, 7.2, typeface);
  return new Set(
    textsOf([...drawing.marks, ...(drawing.unnamed.length > 0 ? strip.marks : [])]).map(({ text }) => text),
  );
}

describe('the front view of a guide', () => {
  const large = designOf(7, { kind: 'chords', patches: [190, 210], endErrors: 'none' }).block;
  const grid = designOf(5, { kind: 'grid', patches: [190, 210], endErrors: 'none' }).block;

  it('letters every section, and sets the number of every join on its own line', () => {
    for (const block of [...blocks, large, grid]) {
      const plan = planOf(block);
      const fit = fitFront(plan, plan.sections.length > 12 ? 7.2 : 3.46, 7.2);
      const texts = textsOf(sectionsDrawing(plan, fit, typeface));
      for (const { letter } of plan.sections)
        expect(
          texts.filter(({ text }) => text === letter),
          `${block.name} ${letter}`,
        ).toHaveLength(1);
      for (const join of plan.joins) {
        const [number, ...more] = texts.filter(({ text }) => text === String(join.step));
        expect(number, `${block.name} join ${join.step}`).toBeDefined();
        expect(more).toEqual([]);
        // As near to its line as a number beside it at most, and to no other join as near.
        const away = (one: Join): number =>
          Math.min(
            ...stretchesOn(one, fit.place).map((stretch) => distanceToSegment(middleOf(number!), ...stretch)),
          );
        expect(away(join), `${block.name} join ${join.step}`).toBeLessThan(0.16);
        for (const other of plan.joins)
          if (other !== join)
            expect(away(other), `${block.name}: ${join.step} near ${other.step}`).toBeGreaterThanOrEqual(
              away(join) - 1e-9,
            );
      }
    }
  });

  it('has no label on another, and none of a join under a line to join on', () => {
    for (const block of [...blocks, large, grid]) {
      const plan = planOf(block);
      const marks = sectionsDrawing(
        plan,
        fitFront(plan, plan.sections.length > 12 ? 7.2 : 3.46, 7.2),
        typeface,
      );
      expect(overlappingTexts(marks), block.name).toEqual([]);
      if (plan.sections.length <= 12)
        expect(textsOverLines(marks, ['join']).map(({ text }) => text)).toEqual([]);
    }
  });
});

describe('the drawing of a join', () => {
  it('names every point of the join, if not in the drawing then on the strip under it', () => {
    for (const block of blocks) {
      const plan = planOf(block);
      for (const join of plan.joins) {
        const found = named(plan, join);
        for (const { label } of join.points) expect(found.has(label), `${block.name} ${label}`).toBe(true);
      }
    }
  });

  it('sets every label nearest to the point that it names', () => {
    for (const block of blocks) {
      const plan = planOf(block);
      for (const join of plan.joins) {
        const fit = fitUnit(plan, [...join.left, ...join.right], 1.7, 1.7);
        const { marks } = joinDrawing(plan, join, fit, typeface);
        for (const mark of textsOf(marks)) {
          const own = join.points.find(({ label }) => label === mark.text);
          if (!own) continue;
          const away = (at: Point): number => distance(middleOf(mark), fit.place(at));
          for (const { at, label } of join.points)
            if (label !== own.label)
              expect(away(at), `${block.name}: ${own.label} near ${label}`).toBeGreaterThan(away(own.at));
        }
      }
    }
  });
});

describe('the strip of a join', () => {
  it('shows the points in their places along the seam, labels in their order and none on another', () => {
    for (const block of blocks) {
      const plan = planOf(block);
      for (const join of plan.joins) {
        const { marks, height } = joinStrip(plan, join, 7.2, typeface);
        expect(overlappingTexts(marks), block.name).toEqual([]);
        const ink = marks.flatMap(pointsOf);
        expect(Math.min(...ink.map(([x]) => x))).toBeGreaterThanOrEqual(-1e-6);
        expect(Math.max(...ink.map(([x]) => x))).toBeLessThanOrEqual(7.2 + 1e-6);
        expect(Math.min(...ink.map(([, y]) => y))).toBeGreaterThanOrEqual(-1e-6);
        expect(Math.max(...ink.map(([, y]) => y))).toBeLessThanOrEqual(height + 1e-6);
      }
    }
  });

  it('lies as the front is seen: what is above the seam stands above it', () => {
    const house = demo().find(({ name }) => name === 'Harbour houses')!;
    const plan = planOf(house);
    // The last join: houses above the street, from left to right.
    const join = plan.joins.at(-1)!;
    const marks = textsOf(joinStrip(plan, join, 7.2, typeface).marks);
    const [street] = marks.filter(({ text }) => text === 'F');
    const [houses] = marks.filter(({ text }) => text.startsWith('A'));
    expect(houses!.at[1]).toBeLessThan(street!.at[1]);
    const xOf = (label: string): number => marks.find(({ text }) => text === label)!.at[0];
    const byFront = join.points.toSorted((p, q) => p.at[0] - q.at[0]).map(({ label }) => label);
    expect(byFront.toSorted((p, q) => xOf(p) - xOf(q))).toEqual(byFront);
  });

  it('names both units in full, however many letters they have', () => {
    const plan = planOf(harbourPicture().block);
    for (const join of plan.joins) {
      const { marks, height } = joinStrip(plan, join, 7.2, typeface);
      const texts = textsOf(marks);
      const words = texts.map(({ text }) => text).join(' ');
      expect(words).not.toContain('…');
      for (const letters of [join.left, join.right])
        if (letters.length <= 6)
          for (const letter of letters)
            expect(words, `join ${join.step}`).toMatch(new RegExp(`\\b${letter}\\b`));
      expect(overlappingTexts(marks), `join ${join.step}`).toEqual([]);
      for (const mark of texts)
        for (const [x, y] of inkCorners(mark)) {
          expect(x).toBeGreaterThanOrEqual(-1e-9);
          expect(y).toBeGreaterThanOrEqual(-1e-9);
          expect(y).toBeLessThanOrEqual(height + 1e-9);
        }
    }
  });
});

describe('the guide of a block of many sections', () => {
  it('sets no letter of a section over a line', () => {
    const { block, fabrics } = harbourPicture();
    const { sheets } = layOutBooklet(
      {
        project: { ...harbour, fabrics, blocks: [block] },
        jobs: [{ block, plan: planOf(block), copies: 1, isMirrored: false }],
      },
      { page: PAGES.letter, margin: 0.25, side: 'printed', printedOn: '24 November 2026', typeface },
      new Set(['guide']),
    );
    const crossed = sheets.flatMap((sheet) =>
      textsOverLines(marksOf(sheet), ['patch']).filter(({ text }) => /^[A-Z]{1,2}$/.test(text)),
    );
    expect(crossed.map(({ text }) => text)).toEqual([]);
  });
});

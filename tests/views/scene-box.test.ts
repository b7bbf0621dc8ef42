import { describe, expect, it } from 'vitest';
import type { Block } from '../../src/document/project.ts';
import { foldedOver } from '../../src/geometry/fold.ts';
import { piece } from '../../src/piecing/piece.ts';
import { foundationStarts, rehearse } from '../../src/piecing/rehearsal.ts';
import { stepSentence } from '../../src/piecing/sentences.ts';
import { laidCloth } from '../../src/views/rehearsal/cloth.ts';
import { sceneBox } from '../../src/views/rehearsal/scene-box.ts';
import { WINDOW } from '../editing/window.ts';

/** Two halves of a square of 12 in, each of three patches, that must be joined. */
const HALVES: Block = {
  ...WINDOW,
  cuts: [
    { id: 'j', from: [0, 6], to: [12, 6], role: 'join' },
    { id: 'a', from: [4, 0], to: [4, 6], role: 'auto' },
    { id: 'b', from: [8, 0], to: [8, 6], role: 'auto' },
    { id: 'c', from: [6, 6], to: [6, 12], role: 'auto' },
    { id: 'd', from: [6, 9], to: [12, 9], role: 'auto' },
  ],
  patches: [{ id: 'p1', at: [2, 3], fabric: 'f1' }],
};

const plan = piece(HALVES);
const steps = rehearse(plan);

describe('the rehearsal', () => {
  it('shows every piece of cloth whole, folded over as well as laid', () => {
    for (const step of steps) {
      if (step.kind !== 'sew') continue;
      const box = sceneBox(plan, step, 1 / 4);
      const laid = laidCloth(step.patch, 1 / 4);
      for (const [x, y] of [...laid, ...foldedOver(laid, step.seam, -1)]) {
        expect(x).toBeGreaterThanOrEqual(box.minX);
        expect(x).toBeLessThanOrEqual(box.maxX);
        expect(y).toBeGreaterThanOrEqual(box.minY);
        expect(y).toBeLessThanOrEqual(box.maxY);
      }
    }
  });

  it('shows all steps of a foundation in one box', () => {
    for (const section of plan.sections) {
      const own = steps.filter((step) => step.kind !== 'join' && step.section === section.letter);
      expect(new Set(own.map((step) => sceneBox(plan, step, 1 / 4))).size).toBe(1);
    }
  });

  it('knows where each foundation begins', () => {
    const starts = foundationStarts(steps);
    expect(starts.map(({ section }) => section)).toEqual(plan.sections.map(({ letter }) => letter));
    for (const { step } of starts) expect(steps[step]!.kind).not.toBe('join');
  });

  it('names the fabric of a step', () => {
    const words = { allowance: 1 / 4, unit: 'in', fabricName: () => 'Granite' } as const;
    const painted = plan.patches.find(({ fabric }) => fabric === 'f1')!;
    const sentences = steps.map((step) => stepSentence(step, words));
    expect(
      sentences.filter((text) => text.startsWith(`Lay ${painted.id} (Granite) right side`)),
    ).toHaveLength(1);
    expect(sentences.filter((text) => text.includes('Granite'))).toHaveLength(1);
  });
});

import { beforeEach, describe, expect, it } from 'vitest';
import { fadePicture, layPicture, lockPicture } from '../../src/document/edit-picture.ts';
import type { UnderPicture } from '../../src/document/project.ts';
import { drawingOf, drawingsOnly } from '../../src/workspace/drawing-of.ts';
import { planOf } from '../../src/workspace/plans.ts';
import { freshSession, session } from '../../src/workspace/session.ts';
import { blockOf, harbour } from '../document/projects.ts';

const photo: UnderPicture = {
  data: 'data:image/png;base64,AAAA',
  width: 100,
  height: 100,
  corners: [
    [0, 0],
    [100, 0],
    [100, 100],
    [0, 100],
  ],
  strength: 0.6,
  shown: true,
  locked: false,
};

describe('a block without the picture under it', () => {
  beforeEach(() => session.setState(freshSession(harbour)));

  it('is one and the same while only the picture changes', () => {
    const bare = drawingOf(blockOf(harbour));
    expect(bare).toBe(blockOf(harbour));
    const laid = layPicture(harbour, 'b1', photo);
    const faded = fadePicture(laid, 'b1', 0.2);
    expect(drawingOf(blockOf(laid))).toBe(bare);
    expect(drawingOf(blockOf(faded))).toBe(bare);
    expect(drawingOf(blockOf(lockPicture(faded, 'b1', true)))).toBe(bare);
  });

  it('is another when anything else changes', () => {
    const laid = blockOf(layPicture(harbour, 'b1', photo));
    const before = drawingOf(laid);
    for (const change of [{ name: 'Pier' }, { patches: [] }, { plan: 'rows' }, { cuts: [] }] as const) {
      const drawing = drawingOf({ ...laid, ...change });
      expect(drawing).not.toBe(before);
      expect(drawing).toMatchObject(change);
      expect('picture' in drawing).toBe(false);
    }
  });

  it('is what plans are remembered by', () => {
    const plan = planOf(blockOf(harbour));
    const faded = fadePicture(layPicture(harbour, 'b1', photo), 'b1', 0.3);
    expect(planOf(blockOf(faded))).toBe(plan);
  });

  it('is what is printed', () => {
    expect(drawingsOnly(harbour)).toBe(harbour);
    expect(JSON.stringify(drawingsOnly(layPicture(harbour, 'b1', photo)))).not.toContain('data:');
  });
});

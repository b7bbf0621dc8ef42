import { describe, expect, it } from 'vitest';
import { makingOf } from '../../src/making/making.ts';
import { pieceOptionsOf } from '../../src/making/piece-options.ts';
import { piece } from '../../src/piecing/piece.ts';
import { harbour } from '../document/projects.ts';

describe('makingOf', () => {
  const [window, ferry] = harbour.blocks;

  it('gives every block its plan, in the order of the project, one copy each', () => {
    expect(makingOf(harbour)).toEqual(
      [window!, ferry!].map((block) => ({
        block,
        plan: piece(block, pieceOptionsOf(harbour)),
        copies: 1,
        isMirrored: false,
      })),
    );
  });

  it('makes only the blocks in hand, as often as asked, whatever order they are named in', () => {
    const made = makingOf(harbour, { blocks: ['b2', 'b1', 'nowhere'], copies: 4 });
    expect(made.map(({ block, copies }) => [block.id, copies])).toEqual([
      ['b1', 4],
      ['b2', 4],
    ]);
    expect(makingOf(harbour, { blocks: ['b2'] }).map(({ block }) => block)).toEqual([ferry]);
    expect(makingOf(harbour, { blocks: [] })).toEqual([]);
  });
});

describe('what plans hang on', () => {
  it('is the usual sheet of the unit, less its margins, until another is chosen', () => {
    // US letter (ANSI/ASME Y14.1, 8.5 × 11 in) and A4 (ISO 216, 210 × 297 mm), a quarter inch free all round.
    expect(pieceOptionsOf(harbour).paper).toMatchObject({ width: 8, height: 10.5, allowance: 0.25 });
    const { width, height } = pieceOptionsOf({ ...harbour, unit: 'mm' }).paper!;
    expect([(width + 0.5) * 25.4, (height + 0.5) * 25.4]).toEqual([
      expect.closeTo(210, 9),
      expect.closeTo(297, 9),
    ]);
    const chosen = pieceOptionsOf(harbour, { width: 20, height: 30, margin: 1 });
    expect(chosen.paper).toMatchObject({ width: 18, height: 28 });
  });

  it('is what the project says of its fabrics and findings', () => {
    const options = pieceOptionsOf({ ...harbour, severities: { oversize: 'off' } });
    expect(options.severities).toEqual({ oversize: 'off' });
    expect([...options.lightness!.keys()]).toEqual(['f1', 'f2', 'f3']);
    expect(options.lightness!.get('f1')!).toBeLessThan(options.lightness!.get('f2')!);
  });
});

import { describe, expect, it } from 'vitest';
import { toBlock } from '../../../src/document/import-svg/to-block.ts';
import { piece } from '../../../src/piecing/piece.ts';
import { drawingOf, heldBlock, importedFrom, sizeOf, svg } from './imported.ts';

const sketch = (inside: string): string => svg(`<g fill="none" stroke="black">${inside}</g>`);
const patches = (text: string, options: Parameters<typeof importedFrom>[1] = {}): number =>
  piece(heldBlock(importedFrom(text, options))).patches.length;

/** Four inches of square, and lines in it whose ends miss the sides by a given number of pixels. */
const missing = (gap: number): string =>
  sketch(`<rect x="8" y="8" width="384" height="384"/>
    <path d="M${8 + gap} 200H${392 - gap}"/><path d="M200 ${8 + gap}V${200 - gap}"/>`);

describe('ends that nearly meet', () => {
  // 0.02 in is 1.92 pixels.
  it('are joined within the distance, to a line and to one another', () => {
    expect(patches(missing(1.5))).toBe(3);
    expect(patches(missing(1.5), { joinWithin: 0.01 })).toBe(1);
    expect(patches(missing(3))).toBe(1);
    expect(patches(missing(3), { joinWithin: 0.05 })).toBe(3);
    expect(patches(missing(0), { joinWithin: 0 })).toBe(3);
  });

  it('move together where several meet just short of a line', () => {
    const stays = (gap: number): string =>
      sketch(`<rect x="8" y="8" width="384" height="384"/><path d="M8 300H392"/>
        <path d="M100 8L200 ${300 - gap}"/><path d="M300 8L200 ${300 - gap}"/>`);
    // Sky left and right, the wedge between, and water; before they meet, the sky goes round under the wedge.
    expect(patches(stays(1.5))).toBe(4);
    expect(patches(stays(1.5), { joinWithin: 0 })).toBe(3);
  });

  it('are cut back when they run past', () => {
    const block = importedFrom(sketch('<rect x="8" y="8" width="384" height="384"/><path d="M7 200H393"/>'));
    expect(block.outside).toEqual([]);
    expect(piece(heldBlock(block)).findings.map(({ code }) => code)).toEqual(['unpainted']);
  });

  it('make one outline of four sides that do not quite meet', () => {
    const sides = 'M10 10H389 M390 9.5V390 M390.5 391H10 M9.5 390V10.5';
    const block = importedFrom(sketch(`<path d="${sides}"/>`));
    expect(block.outlineChoice).toBe('closed');
    expect(block.outline).toHaveLength(4);
    expect(block.joined).toBeGreaterThan(0);
  });
});

describe('what lies on one line', () => {
  it('becomes one cut, and what is drawn twice is dropped', () => {
    const block = importedFrom(
      sketch(`<rect x="8" y="8" width="384" height="384"/><rect x="8" y="8" width="384" height="384"/>
        <path d="M8 200H100 M100 200H250 M392 200H240 M120 200H130"/>`),
    );
    expect(block.cuts).toHaveLength(1);
    // The four sides again, and the short piece.
    expect(block.repeated).toBe(5);
  });

  it('the sides of two rectangles that touch are one line between them', () => {
    const block = importedFrom(
      sketch('<rect width="100" height="100"/><rect x="100" width="100" height="100"/>'),
    );
    expect(block.cuts).toHaveLength(1);
    expect(piece(heldBlock(block)).patches).toHaveLength(2);
  });
});

describe('the outline', () => {
  const hexagon = '200,40 338.564,120 338.564,280 200,360 61.436,280 61.436,120';

  it('is the outer edge of what hangs together, drawn as one shape or as loose lines', () => {
    const loose = hexagon.split(' ').map((p, i, all) => `M${p}L${all[(i + 1) % 6]}`);
    for (const inside of [`<polygon points="${hexagon}"/>`, `<path d="${loose.join('')}"/>`]) {
      const block = importedFrom(sketch(`${inside}<path d="M200 40V360"/>`));
      expect([block.outlineChoice, block.outline.length, block.cuts.length]).toEqual(['closed', 6, 1]);
    }
  });

  it('is the rectangle round everything when that is chosen', () => {
    const block = importedFrom(sketch(`<polygon points="${hexagon}"/>`), { outline: 'box' });
    expect(block.outline).toHaveLength(4);
    // Six sides of the hexagon less the two that lie on the rectangle.
    expect(block.cuts).toHaveLength(4);
    expect(piece(heldBlock(block)).patches).toHaveLength(5);
  });

  it('is the rectangle when nothing closes, or only a trifle does', () => {
    expect(importedFrom(sketch('<path d="M10 10L390 390M390 10L10 390"/>')).outlineChoice).toBe('box');
    const trifle = '<path d="M10 10L390 390M390 10L10 390"/><rect x="20" y="200" width="9" height="9"/>';
    expect(importedFrom(sketch(trifle)).outlineChoice).toBe('box');
  });

  it('can be the page', () => {
    const block = importedFrom(sketch('<path d="M100 0V400"/>'), { outline: 'page' });
    expect(sizeOf(block).map((v) => Number(v.toFixed(4)))).toEqual([4.1667, 4.1667]);
    expect(piece(heldBlock(block)).patches).toHaveLength(2);
  });

  it('parts lines that leave it: what is outside is set apart', () => {
    const block = importedFrom(
      sketch(`<polygon points="${hexagon}"/><path d="M10 200H390"/><path d="M5 5H50"/>`),
      { outline: 'closed' },
    );
    expect(block.cuts).toHaveLength(1);
    expect(block.outside).toHaveLength(3);
  });
});

describe('what cannot become a block is said in a sentence', () => {
  const fault = (text: string, pixels = 96): string => {
    const made = toBlock(drawingOf(text), { scale: { kind: 'per-inch', pixels }, joinWithin: 0.02 });
    return made.ok ? '' : made.error;
  };

  it('nothing, one line, too large, too many', () => {
    expect(fault(sketch(''))).toBe('No straight line was found in it.');
    expect(fault(sketch('<line x2="50"/>'))).toMatch(/one straight line/);
    expect(fault(sketch('<rect width="400" height="400"/>'), 0.1)).toMatch(
      /more than 1000 in \(25\.4 m\) across/,
    );
    const many = Array.from({ length: 5002 }, (_, i) => `M${i * 7} 0L${i * 7.07} 400`).join('');
    expect(fault(sketch(`<path d="${many}"/>`))).toMatch(
      /^It comes to more than 5,000 lines, which is the most that a block may have\.$/,
    );
  });
});

import { describe, expect, it } from 'vitest';
import { PT } from '../../../src/foundations/marks.ts';
import { tileHead } from '../../../src/foundations/sheet/tile-head.ts';
import { lengthOf, wrapped } from '../../../src/foundations/type/lettering.ts';
import { typeface } from '../harbour.ts';

const style = { face: 'semibold', size: 7 * PT } as const;
const ends = [', section C, copy 2 of 3', ' C, copy 2 of 3', ' C'];
const tile = { number: 1, of: 2, row: 1, column: 2 };
const head = (name: string, widest: number): string => tileHead(typeface, style, tile, name, ends, widest);

describe('the line over a tile', () => {
  it('says everything where there is room', () => {
    expect(head('Ferry', 6)).toBe('Tile 1 of 2 (row 1, column 2): Ferry, section C, copy 2 of 3');
  });

  it('never loses its section, however long the name and narrow the tile', () => {
    for (const name of ['Ferry', 'Two hundred waves', 'Breakwater '.repeat(30), 'W'.repeat(200)])
      for (const widest of [0.9, 1.2, 1.7, 2.4, 3.5, 6]) {
        const text = head(name, widest);
        expect(text).toMatch(/^Tile 1 of 2.*\bC\b/);
        expect(lengthOf(typeface, { text, ...style })).toBeLessThanOrEqual(widest);
      }
  });

  it('shortens a long name before it leaves out the copy', () => {
    expect(head('Breakwater '.repeat(30), 4)).toMatch(/Breakwater.*….*section C, copy 2 of 3$/);
  });
});

describe('a text broken into lines', () => {
  const line = {
    text: 'At its widest 12 1/2 × 6 1/2 in unfinished, 3 mm more.',
    face: 'regular',
    size: 8 * PT,
  } as const;

  it('keeps a measure on one line', () => {
    for (let widest = 1.2; widest < 4; widest += 0.05) {
      const lines = wrapped(typeface, line, widest);
      expect(lines.join(' ')).toBe(line.text);
      expect(lines.some((one) => one.includes('12 1/2 × 6 1/2 in'))).toBe(true);
      expect(lines.some((one) => one.includes('3 mm'))).toBe(true);
    }
  });

  it('breaks a measure between its words where it is longer than a line', () => {
    const lines = wrapped(typeface, line, 0.55);
    expect(lines.join(' ')).toBe(line.text);
    for (const text of lines) expect(lengthOf(typeface, { ...line, text })).toBeLessThanOrEqual(0.55);
  });
});

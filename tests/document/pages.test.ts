import { describe, expect, it } from 'vitest';
import { marginFault, PAGES, readPage } from '../../src/document/pages.ts';

describe('pages', () => {
  // ISO 216: A4 210 × 297 mm, A3 297 × 420 mm, which is 595.2756 × 841.8898 pt for A4. Letter 8.5 × 11 in, Legal
  // 8.5 × 14 in, Tabloid 11 × 17 in (ANSI/ASME Y14.1 sizes A and B for Letter and Tabloid).
  it('have their published sizes', () => {
    expect(PAGES.a4.width * 25.4).toBeCloseTo(210, 10);
    expect(PAGES.a4.height * 25.4).toBeCloseTo(297, 10);
    expect(PAGES.a4.width * 72).toBeCloseTo(595.2756, 4);
    expect(PAGES.a4.height * 72).toBeCloseTo(841.8898, 4);
    expect(PAGES.a3.width * 25.4).toBeCloseTo(297, 10);
    expect(PAGES.a3.height * 25.4).toBeCloseTo(420, 10);
    expect([PAGES.letter.width * 72, PAGES.letter.height * 72]).toEqual([612, 792]);
    expect([PAGES.legal.width, PAGES.legal.height]).toEqual([8.5, 14]);
    expect([PAGES.tabloid.width, PAGES.tabloid.height]).toEqual([11, 17]);
  });

  for (const [text, width, height] of [
    ['letter', 8.5, 11],
    ['A4', 210 / 25.4, 297 / 25.4],
    ['8.5x14in', 8.5, 14],
    ['14 x 8.5 in', 8.5, 14],
    ['8 1/2 × 11in', 8.5, 11],
    ['210x297mm', 210 / 25.4, 297 / 25.4],
    ['100mm x 150mm', 100 / 25.4, 150 / 25.4],
  ] as const) {
    it(`reads ${text}`, () => {
      const choice = readPage(text);
      expect(choice.ok).toBe(true);
      if (choice.ok) {
        expect(choice.page.width).toBeCloseTo(width, 10);
        expect(choice.page.height).toBeCloseTo(height, 10);
      }
    });
  }

  for (const text of [
    '',
    'a5x',
    '8.5x11',
    'x11in',
    '2x2in',
    '8.5x400in',
    '8.5xin',
    '0x0in',
    'constructor',
    '-8x11in',
    'NaNxNaNin',
  ]) {
    it(`refuses ${JSON.stringify(text)} in one sentence`, () => {
      const choice = readPage(text);
      expect(choice.ok).toBe(false);
      if (!choice.ok) expect(choice.error).toMatch(/^[^\n]{10,200}\.$/);
    });
  }

  it('keeps room for the test square between the margins', () => {
    expect(marginFault(PAGES.letter, 0.25)).toBeNull();
    expect(marginFault(PAGES.letter, 0)).toBeNull();
    expect(marginFault(PAGES.letter, 3)).not.toBeNull();
    expect(marginFault(PAGES.letter, -1)).not.toBeNull();
    expect(marginFault(PAGES.letter, Number.NaN)).not.toBeNull();
    // Blamed is what is out of the common.
    expect(marginFault(PAGES.letter, 3)).toMatch(/^A margin/);
    expect(marginFault({ name: '', width: 3.75, height: 6 }, 0.3)).toMatch(/^The page/);
  });
});

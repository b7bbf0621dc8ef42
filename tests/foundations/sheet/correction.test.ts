import { describe, expect, it } from 'vitest';
import { toPdf } from '../../../src/foundations/files/pdf.ts';
import { readCorrection } from '../../../src/foundations/sheet/correction.ts';
import { marksOf, type Sheet } from '../../../src/foundations/sheet/sheet.ts';
import type { Point } from '../../../src/geometry/point.ts';
import { gull, lighthouse, pennant, pointsOf, print, rope, textsOf, typeface, windmill } from '../harbour.ts';
import { overlappingTexts } from '../overlaps.ts';
import { column, has, lineMiddles, type Raster, renderPdf, row } from '../tools.ts';

const DPI = 600;
const info = { title: 'Harbour sampler', createdAt: new Date(Date.UTC(2026, 10, 24, 12)) };

const correctionOf = (across: string, down: string, printer = 'kitchen printer') => {
  const choice = readCorrection(printer, across, down);
  if (!choice.ok) throw new Error(choice.error);
  return choice.correction;
};

const words = (sheet: Sheet): string =>
  textsOf(marksOf(sheet))
    .map(({ text }) => text)
    .join(' ');

/** Straight lines drawn with the measuring pen: [width, height] of each. */
const measures = (sheet: Sheet): Point[] =>
  marksOf(sheet).flatMap((mark): Point[] => {
    if (mark.kind !== 'line' || mark.pen !== 'measure') return [];
    const [a, b] = mark.points;
    return [[Math.abs(b![0] - a![0]), Math.abs(b![1] - a![1])]];
  });

describe('a printer’s correction', () => {
  it('is the 50 mm it should be over what was measured', () => {
    expect(correctionOf('50.4', '50.2 mm').across).toBeCloseTo(50 / 50.4, 12);
    expect(correctionOf('50.4', '50.2 mm').down).toBeCloseTo(50 / 50.2, 12);
    expect(correctionOf('5 cm', '50,0').across).toBeCloseTo(1, 12);
  });

  it('is refused beyond 5 %, with the advice to look at the viewer first', () => {
    expect(readCorrection('', '47.5', '52.5').ok).toBe(true);
    for (const [across, down] of [
      ['47.4', '50'],
      ['50', '52.6'],
      ['46.9', '46.9'],
      ['0', '50'],
      ['2 in', '500'],
    ] as const) {
      const choice = readCorrection('', across, down);
      expect(choice.ok).toBe(false);
      if (!choice.ok) expect(choice.error).toMatch(/viewer’s scaling first.*100%/);
    }
    for (const nonsense of ['', 'fifty', '50 x', '-50'])
      expect(readCorrection('', nonsense, '50').ok, nonsense).toBe(false);
  });

  it('scales the drawing and not the page, and says so on every sheet', () => {
    const blocks = [pennant, gull, windmill, lighthouse, rope];
    const plain = print(blocks);
    const corrected = print(blocks, { correction: correctionOf('50.4', '50.2') });
    for (const sheet of corrected.sheets) {
      expect([sheet.width, sheet.height].sort((a, b) => a - b)).toEqual([8.5, 11]);
      expect(words(sheet)).toContain('99.2 % across, 99.6 % down');
      expect(words(sheet)).toContain('corrected for ‘kitchen printer’');
      expect(overlappingTexts(marksOf(sheet))).toEqual([]);
      for (const [x, y] of marksOf(sheet).flatMap(pointsOf)) {
        expect(Math.min(x, y, sheet.width - x, sheet.height - y)).toBeGreaterThan(0.25 - 1e-6);
      }
    }
    for (const sheet of plain.sheets) expect(words(sheet)).not.toContain('corrected');
    const longest = (sheet: Sheet, axis: 0 | 1): number =>
      Math.max(...measures(sheet).map((size) => size[axis])) * 25.4;
    expect(longest(plain.sheets[0]!, 0)).toBeCloseTo(50, 9);
    // What the printer makes 50.4 of 50 mm across prints this at 50.
    expect((longest(corrected.sheets[0]!, 0) * 50.4) / 50).toBeCloseTo(50, 9);
    const down = corrected.sheets.find((sheet) => longest(sheet, 1) > 25)!;
    expect((longest(down, 1) * 50.2) / 50).toBeCloseTo(50, 9);
  });

  it('of a drawing that grows still keeps the margins, up to the limit', () => {
    for (const [across, down] of [
      ['47.5', '47.5'],
      ['52.5', '52.5'],
      ['47.5', '52.5'],
    ] as const) {
      const { sheets } = print([pennant, lighthouse, windmill], { correction: correctionOf(across, down) });
      for (const sheet of sheets)
        for (const [x, y] of marksOf(sheet).flatMap(pointsOf))
          expect(Math.min(x, y, sheet.width - x, sheet.height - y)).toBeGreaterThan(0.25 - 1e-6);
    }
  });

  it('says nothing where a ruler could not show it', () => {
    const { sheets } = print([gull], { correction: correctionOf('50', '50.01') });
    expect(words(sheets[0]!)).not.toContain('corrected');
    expect(sheets[0]!.scale).toBeUndefined();
  });
});

describe('the 50 mm line down', () => {
  it('stands on at least one sheet of every print, also where all are full', () => {
    for (const blocks of [[gull], [pennant, windmill], [lighthouse], [rope]]) {
      for (const page of [undefined, { name: 'small', width: 4, height: 6 }]) {
        const { sheets } = print(blocks, page ? { page } : {});
        const tall = sheets.flatMap(measures).map((size) => size[1] * 25.4);
        expect(Math.max(...tall)).toBeCloseTo(50, 9);
      }
    }
  });
});

describe.skipIf(!has('pdftoppm'))('a page that a viewer shrank', () => {
  const inner = (picture: Raster): Point => {
    const across = lineMiddles(row(picture, Math.round(picture.height / 3)));
    const down = lineMiddles(column(picture, Math.round(across[0]! + (across[1]! - across[0]!) / 6)));
    return [across[1]! - across[0]!, down[1]! - down[0]!];
  };

  it('has a square of the size that the text beside it names', async () => {
    const { sheets } = print([gull]);
    const text = words(sheets[0]!);
    const pdf = await toPdf(sheets, typeface, info);
    for (const [share, fraction, mm, perCent] of [
      [0.94, 15 / 16, 23.9, '94%'],
      [0.97, 31 / 32, 24.6, '97%'],
    ] as const) {
      const named = fraction === 15 / 16 ? '15/16 in (23.9 mm)' : '31/32 in (24.6 mm)';
      expect(text).toContain(named);
      expect(text).toContain(perCent);
      // Printed and scanned: the page comes out at this share, the scanner sees 600 pixels to a true inch.
      const dpi = DPI * share;
      const picture = renderPdf(pdf, dpi, 1, {
        x: Math.round(0.2 * dpi),
        y: Math.round(9.7 * dpi),
        width: Math.round(1.15 * dpi),
        height: Math.round(1.06 * dpi),
      });
      for (const size of inner(picture)) {
        // A ruler in 1/32 in reads the fraction; one in millimetres the tenth.
        expect(Math.abs(size / DPI - fraction)).toBeLessThan(1 / 64);
        expect(Math.abs((size / DPI) * 25.4 - mm)).toBeLessThan(0.1);
      }
    }
  });
});

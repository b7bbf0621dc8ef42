import { describe, expect, it } from 'vitest';
import { PAGES } from '../../../src/document/pages.ts';
import { toLayeredSvg } from '../../../src/foundations/files/layered-svg.ts';
import { toPdf } from '../../../src/foundations/files/pdf.ts';
import { toSvg } from '../../../src/foundations/files/svg.ts';
import type { Sheet } from '../../../src/foundations/sheet/sheet.ts';
import { gull, pennant, print, typeface, windmill } from '../harbour.ts';
import { has, type Raster, renderPdf, runOn } from '../tools.ts';

const missing = (tool: string): string => (has(tool) ? '' : ` (skipped: ${tool} is not installed)`);

describe('the SVG of a sheet', () => {
  it('states its size in inches and draws in points', () => {
    const svg = toSvg(print([gull]).sheets[0]!);
    // CSS Values and Units: 1 in = 72 pt; the viewBox maps 72 units to the inch.
    expect(svg).toContain('width="8.5in" height="11in" viewBox="0 0 612 792"');
    expect(svg).toContain('<title>Sheet 1 of 1</title>');
  });

  it('keeps names apart from markup', () => {
    const svg = toSvg(print([{ ...gull, name: 'Salt & <pepper> "gull"' }]).sheets[0]!);
    expect(svg).toContain('Salt &amp; &lt;pepper&gt; &quot;gull&quot;');
  });

  it.skipIf(!has('rsvg-convert'))(
    `comes out at its true size in another renderer${missing('rsvg-convert')}`,
    () => {
      for (const page of [PAGES.letter, PAGES.a4]) {
        const svg = toSvg(print([gull], { page }).sheets[0]!);
        const png = runOn(svg, 'svg', 'rsvg-convert', ['-d', '96', '-p', '96', '{}']);
        // Width and height stand in the PNG's first chunk (PNG specification, IHDR).
        const [width, height] = [png.readUInt32BE(16), png.readUInt32BE(20)];
        expect(Math.abs(width - page.width * 96)).toBeLessThanOrEqual(1);
        expect(Math.abs(height - page.height * 96)).toBeLessThanOrEqual(1);
      }
    },
  );

  it.skipIf(!has('rsvg-convert') || !has('pdftoppm'))(
    `draws the lines of the PDF${missing('rsvg-convert')}${missing('pdftoppm')}`,
    async () => {
      // Without text, since the other renderer has not the typeface.
      const bare = print([pennant, windmill]).sheets.map(
        ({ number: _, ...sheet }): Sheet => ({
          ...sheet,
          parts: sheet.parts.map((part) => ({
            ...part,
            marks: part.marks.filter(({ kind }) => kind !== 'text'),
          })),
        }),
      );
      const pdf = await toPdf(bare, typeface, { title: 'Bare', createdAt: new Date(0) });
      for (const [i, sheet] of bare.entries()) {
        const fromPdf = renderPdf(pdf, 150, i + 1);
        const svgPdf = runOn(toSvg(sheet), 'svg', 'rsvg-convert', ['-f', 'pdf', '{}']);
        const fromSvg = renderPdf(svgPdf, 150, 1);
        expect([fromSvg.width, fromSvg.height]).toEqual([fromPdf.width, fromPdf.height]);
        expect(inkWithoutPartner(fromPdf, fromSvg)).toBeLessThan(0.001);
        expect(inkWithoutPartner(fromSvg, fromPdf)).toBeLessThan(0.001);
      }
    },
  );

  it.skipIf(!has('rsvg-convert') || !has('pdftoppm'))(
    `carries its letters: a machine without the typeface draws the text of the PDF${missing('rsvg-convert')}${missing('pdftoppm')}`,
    async () => {
      // What is cut is cut in whole lines, which the PDF dashes.
      const dashed = ['trim', 'tile-trim', 'cut-apart'];
      const sheets = print([{ ...gull, name: 'Żółw & Łódź, ffi ½' }, windmill]).sheets.map(
        ({ number: _, ...sheet }): Sheet => ({
          ...sheet,
          parts: sheet.parts.map((part) => ({
            ...part,
            marks: part.marks.filter((mark) => mark.kind === 'text' || !dashed.includes(mark.pen)),
          })),
        }),
      );
      const pdf = await toPdf(sheets, typeface, { title: 'Letters', createdAt: new Date(0) });
      for (const [i, sheet] of sheets.entries()) {
        const svg = toLayeredSvg(sheet, typeface);
        expect(/<text|font-family/.test(svg)).toBe(false);
        expect(svg.includes('aria-label="Żółw &amp; Łódź')).toBe(true);
        const fromPdf = renderPdf(pdf, 200, i + 1);
        const fromSvg = renderPdf(runOn(svg, 'svg', 'rsvg-convert', ['-f', 'pdf', '{}']), 200, 1);
        expect(inkWithoutPartner(fromPdf, fromSvg)).toBeLessThan(0.002);
        expect(inkWithoutPartner(fromSvg, fromPdf)).toBeLessThan(0.002);
      }
    },
  );
});

/** Share of dark pixels of one picture with none in the other within one pixel. */
function inkWithoutPartner(a: Raster, b: Raster): number {
  let ink = 0;
  let alone = 0;
  for (let y = 1; y < a.height - 1; y++) {
    for (let x = 1; x < a.width - 1; x++) {
      if (a.at(x, y) > 100) continue;
      ink++;
      let partner = false;
      for (let dy = -1; dy <= 1; dy++)
        for (let dx = -1; dx <= 1; dx++) partner ||= b.at(x + dx, y + dy) < 200;
      if (!partner) alone++;
    }
  }
  return alone / ink;
}

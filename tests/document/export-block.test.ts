import { describe, expect, it } from 'vitest';
import { drawBlock, type PictureKind, toSvgPicture } from '../../src/document/export-block.ts';
import type { Block, Fabric } from '../../src/document/project.ts';
import { column, has, lineMiddles, renderPdf, row, runOn } from '../foundations/tools.ts';
import { importedFrom, sizeOf } from './import-svg/imported.ts';

/** A sail in 6 by 4 in, its corner off the origin: night sea left of the mast, foam right of it, the rest bare. */
const sail: Block = {
  id: 'b1',
  name: 'Sail & <mast>',
  outline: [
    [2, 1],
    [8, 1],
    [8, 5],
    [2, 5],
  ],
  cuts: [
    { id: 'c1', from: [4, 1], to: [4, 4], role: 'auto' },
    { id: 'c2', from: [2, 4], to: [8, 4], role: 'auto' },
  ],
  patches: [
    { id: 'p1', at: [3, 2], fabric: 'f1' },
    { id: 'p2', at: [6, 2], fabric: 'f2' },
    { id: 'p3', at: [6, 3], fabric: 'f1' },
  ],
};

const fabrics: readonly Fabric[] = [
  { id: 'f1', name: 'Signal', color: '#ff0000' },
  { id: 'f2', name: 'Night sea', color: '#0000ff' },
];

const picture = (kind: PictureKind, widthIn: number): string =>
  toSvgPicture(drawBlock(sail, fabrics, kind, widthIn), sail.name);

const DPI = 200;

/** Width and height in dots of the picture as librsvg draws it at 200 dots to the inch. */
function rendered(svg: string): { readonly width: number; readonly height: number } {
  const png = runOn(svg, 'svg', 'rsvg-convert', ['-d', `${DPI}`, '-p', `${DPI}`, '-f', 'png', '{}']);
  // The sizes stand in the first chunk of a PNG (ISO/IEC 15948, 11.2.2).
  return { width: png.readUInt32BE(16), height: png.readUInt32BE(20) };
}

describe('a block as SVG', () => {
  it('is an inch for an inch: the view box counts inches, and the page is as large as the view box', () => {
    for (const widthIn of [6, 3.375, 90 / 25.4]) {
      const text = picture('lines', widthIn);
      const [, width, height, box] = /width="([\d.]+)in" height="([\d.]+)in" viewBox="([^"]+)"/.exec(text)!;
      const [left, top, across, down] = box!.split(' ').map(Number);
      expect([across, down]).toEqual([Number(width), Number(height)]);
      // Half a line is outside the block on every side.
      expect(across! + 2 * left!).toBeCloseTo(widthIn, 5);
      expect(down! + 2 * top!).toBeCloseTo((widthIn * 4) / 6, 5);
    }
  });

  it('says its name without breaking the file', () => {
    expect(picture('lines', 6)).toContain('<title>Sail &amp; &lt;mast&gt;</title>');
    expect(toSvgPicture(drawBlock(sail, [], 'lines', 6), 'a\u0000b\u001fc')).toContain('<title>abc</title>');
  });

  it('fills patches with the fabric that was laid last, and leaves bare ones bare', () => {
    const { fills } = drawBlock(sail, fabrics, 'colours', 6);
    expect(fills.map(({ color }) => color)).toEqual(['#ff0000', '#ff0000']);
    expect(drawBlock(sail, [], 'colours', 6).fills).toEqual([]);
    expect(drawBlock(sail, fabrics, 'lines', 6).fills).toEqual([]);
  });

  it('comes back as it went out: the outline, the cuts and the size', () => {
    for (const kind of ['lines', 'colours'] as const) {
      const block = importedFrom(picture(kind, 6));
      expect(sizeOf(block)).toEqual([6, 4]);
      expect(block.cuts).toHaveLength(2);
      const ends = block.cuts.map(([a, b]) => [a, b].map((p) => p.map((v) => Number(v.toFixed(3)))).sort());
      expect(ends).toContainEqual([
        [0, 3],
        [6, 3],
      ]);
      expect(ends).toContainEqual([
        [2, 0],
        [2, 3],
      ]);
    }
  });

  it.skipIf(!has('rsvg-convert'))('measures true in another renderer (needs rsvg-convert)', () => {
    for (const widthIn of [6, 3.375]) {
      const { width, height } = rendered(picture('colours', widthIn));
      const line = 0.4 / 25.4;
      expect(Math.abs(width - (widthIn + line) * DPI)).toBeLessThan(1.01);
      expect(Math.abs(height - ((widthIn * 4) / 6 + line) * DPI)).toBeLessThan(1.01);
    }
  });

  it.skipIf(!has('rsvg-convert') || !has('pdftoppm'))(
    'has its lines where they belong, measured on the rendered page (needs rsvg-convert, pdftoppm)',
    () => {
      const pdf = runOn(picture('lines', 6), 'svg', 'rsvg-convert', ['-f', 'pdf', '{}']);
      const dpi = 600;
      const page = renderPdf(pdf, dpi);
      const edge = 0.2 / 25.4;
      // One inch down: left side, mast, right side. Five inches across: top, waterline, bottom.
      const across = lineMiddles(row(page, dpi)).map((x) => x / dpi - edge);
      const down = lineMiddles(column(page, 5 * dpi)).map((y) => y / dpi - edge);
      for (const [found, meant] of [
        [across, [0, 2, 6]],
        [down, [0, 3, 4]],
      ] as const) {
        expect(found).toHaveLength(meant.length);
        meant.forEach((place, i) => {
          expect(Math.abs(found[i]! - place)).toBeLessThan(0.004);
        });
      }
    },
  );
});

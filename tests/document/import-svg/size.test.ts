import { describe, expect, it } from 'vitest';
import { drawingOf, importedFrom, sizeOf, svg } from './imported.ts';

/** The unit square of the view box, laid over the whole drawing. */
const filled = (head: string): string => svg('<rect width="100" height="100" stroke="black"/>', head);

describe('size on paper, by CSS Values and Units: 1 in = 96 px = 2.54 cm = 25.4 mm = 101.6 Q = 72 pt = 6 pc', () => {
  it.each([
    ['6in', 'true'],
    ['576px', 'pixels'],
    ['576', 'none'],
    ['15.24cm', 'true'],
    ['152.4mm', 'true'],
    ['609.6Q', 'true'],
    ['432pt', 'true'],
    ['36pc', 'true'],
    ['4.32E2pt', 'true'],
  ])('a square %s wide is 6 in (stated: %s)', (width, stated) => {
    for (const head of [
      `width="${width}" height="${width}" viewBox="0 0 100 100"`,
      `width="${width}" viewBox="0 0 100 100"`,
      `viewBox="0 0 100 100" height="${width}"`,
    ]) {
      const [across, down] = sizeOf(importedFrom(filled(head)));
      expect(across).toBeCloseTo(6, 4);
      expect(down).toBeCloseTo(6, 4);
      expect(drawingOf(filled(head)).stated).toBe(stated);
    }
  });

  it('without a size, or with one in per cent, a unit of the view box is a pixel and the size is asked', () => {
    for (const head of ['viewBox="0 0 100 100"', 'width="100%" height="100%" viewBox="0 0 100 100"', '']) {
      expect(drawingOf(filled(head)).stated).toBe('none');
      expect(sizeOf(importedFrom(filled(head)))[0]).toBeCloseTo(100 / 96, 4);
    }
  });

  it('the drawing keeps its shape in a page of another shape, unless the file says to stretch it', () => {
    const wide = 'width="8in" height="4in" viewBox="0 0 100 100"';
    expect(sizeOf(importedFrom(filled(wide))).map((v) => Number(v.toFixed(4)))).toEqual([4, 4]);
    const stretched = `${wide} preserveAspectRatio="none"`;
    expect(sizeOf(importedFrom(filled(stretched))).map((v) => Number(v.toFixed(4)))).toEqual([8, 4]);
  });

  it('a view box within a view box scales again', () => {
    const inside =
      '<svg x="10" y="10" width="50" height="50" viewBox="0 0 10 10"><rect width="10" height="5" stroke="black"/></svg>';
    const block = importedFrom(svg(inside, 'width="2in" height="2in" viewBox="0 0 100 100"'), {
      outline: 'closed',
    });
    expect(sizeOf(block).map((v) => Number(v.toFixed(4)))).toEqual([1, 0.5]);
  });

  it('takes other counts of pixels to the inch, and a finished width', () => {
    const text = filled('width="720" height="720" viewBox="0 0 100 100"');
    expect(sizeOf(importedFrom(text, { scale: { kind: 'per-inch', pixels: 90 } }))[0]).toBeCloseTo(8, 4);
    expect(sizeOf(importedFrom(text, { scale: { kind: 'per-inch', pixels: 72 } }))[0]).toBeCloseTo(10, 4);
    expect(sizeOf(importedFrom(text, { scale: { kind: 'width', inches: 4.5 } }))[0]).toBeCloseTo(4.5, 4);
  });

  it('means the width of the outline, whatever sticks out of it', () => {
    const text = svg(
      '<g stroke="black"><rect x="100" y="100" width="200" height="200"/><line x1="10" y1="20" x2="60" y2="20"/></g>',
    );
    const block = importedFrom(text, { scale: { kind: 'width', inches: 5 }, outline: 'closed' });
    expect(sizeOf(block)[0]).toBeCloseTo(5, 4);
    expect(block.outside).toHaveLength(1);
  });
});

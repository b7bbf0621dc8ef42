import { describe, expect, it } from 'vitest';
import { heirsOf } from '../../src/document/heirs.ts';
import type { DrawnPatch, EnteredPatch } from '../../src/document/known-drawing.ts';

/** An upright strip of 1 in from one place to another. */
const strip = (from: number, to: number): DrawnPatch => ({
  area: {
    polygon: [
      [from, 0],
      [to, 0],
      [to, 1],
      [from, 1],
    ],
    holes: [],
  },
  box: { minX: from, maxX: to, minY: 0, maxY: 1 },
  shape: `${from} ${to}`,
});
const old = (id: string, from: number, to: number, fabric?: string): EnteredPatch => ({
  ...strip(from, to),
  entry: { id, at: [(from + to) / 2, 0.5], ...(fabric && { fabric }) },
});

/** `p1` where that patch lives on, `(p1)` where another part of it is, `-` where nothing was. */
const told = (now: readonly DrawnPatch[], before: readonly EnteredPatch[]): string =>
  heirsOf(now, before)
    .map((heir) => (heir === null ? '-' : heir.isSame ? heir.of.entry.id : `(${heir.of.entry.id})`))
    .join(' ');

describe('who takes after whom', () => {
  it('the part that overlaps more lives on, of equal parts the first', () => {
    expect(told([strip(0, 2), strip(2, 5)], [old('p1', 0, 5)])).toBe('(p1) p1');
    expect(told([strip(0, 2), strip(2, 4)], [old('p1', 0, 4)])).toBe('p1 (p1)');
  });

  it('of two made one the larger lives on, of equal ones the painted, then the first', () => {
    expect(told([strip(0, 5)], [old('p1', 0, 2), old('p2', 2, 5)])).toBe('p2');
    expect(told([strip(0, 4)], [old('p1', 0, 2), old('p2', 2, 4)])).toBe('p1');
    expect(told([strip(0, 4)], [old('p1', 0, 2), old('p2', 2, 4, 'f1')])).toBe('p2');
  });

  it('a line dragged over most of one side: both live on, while half of the other lies there', () => {
    const before = [old('p1', 0, 10), old('p2', 10, 13)];
    expect(told([strip(0, 1), strip(1, 13)], before)).toBe('p1 p2');
    expect(told([strip(0, 1), strip(1, 11.5)], before)).toBe('p1 p2');
    expect(told([strip(0, 1), strip(1, 11.4)], before)).toBe('(p1) p1');
    expect(told([strip(1, 13)], before)).toBe('p1');
  });

  it('what lies where nothing was takes after nobody', () => {
    expect(told([strip(0, 2), strip(2, 3)], [old('p1', 0, 2)])).toBe('p1 -');
    expect(told([strip(0, 1)], [])).toBe('-');
  });
});

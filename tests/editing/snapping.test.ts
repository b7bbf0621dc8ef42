import { describe, expect, it } from 'vitest';
import { outlineOf } from '../../src/document/outline.ts';
import type { Block } from '../../src/document/project.ts';
import { gridKindFor, gridOriginFor, gridSpotNear } from '../../src/editing/grid.ts';
import { inReadingOrder, snapField, snapTo } from '../../src/editing/snapping.ts';
import { snapWords } from '../../src/editing/words.ts';
import { centroid, distance } from '../../src/geometry/ring.ts';
import { WINDOW } from './window.ts';

const CROSSED: Block = {
  ...WINDOW,
  cuts: [
    { id: 'c1', from: [0, 4], to: [12, 4], role: 'auto' },
    { id: 'c2', from: [3, 0], to: [3, 12], role: 'auto' },
    { id: 'c3', from: [5, 5], to: [8, 9], role: 'auto' },
  ],
};

const field = snapField(CROSSED, { gridIn: 1 / 4 });

describe('what catches the pointer', () => {
  it.each([
    ['corner', [0.1, 0.05], [0, 0]],
    ['cut-end', [8.1, 9.05], [8, 9]],
    ['crossing', [3.06, 3.93], [3, 4]],
    ['midpoint', [6.5, 7.02], [6.5, 7]],
    ['line', [10.02, 4.06], [10, 4]],
    ['edge', [10.02, 0.06], [10, 0]],
    ['grid', [1.3, 1.2], [1.25, 1.25]],
  ] as const)('is a %s', (kind, at, place) => {
    const snap = snapTo(field, at, 0.15);
    expect(snap).toEqual({ kind, at: place });
  });

  it('prefers the stronger kind to the nearer thing, the nearer of one kind', () => {
    // The crossing of the two cuts is nearer, the corner is stronger.
    const near: Block = { ...WINDOW, cuts: [{ id: 'c1', from: [0, 0.2], to: [12, 0.2], role: 'auto' }] };
    expect(snapTo(snapField(near, { gridIn: 0 }), [0.02, 0.17], 0.4)).toMatchObject({ kind: 'corner' });
    expect(snapTo(snapField(near, { gridIn: 0 }), [0.02, 0.17], 0.1)).toMatchObject({ kind: 'cut-end' });
  });

  it('slides along a slanted line to where the grid crosses it', () => {
    const slanted: Block = { ...WINDOW, cuts: [{ id: 'c1', from: [0, 1], to: [12, 10], role: 'auto' }] };
    const snap = snapTo(snapField(slanted, { gridIn: 1 }), [2.1, 2.5], 0.2);
    expect(snap.kind).toBe('line');
    // On the line y = 1 + 3x/4, at the grid's x = 2.
    expect(snap.at).toEqual([2, 2.5]);
  });

  it('lets go beyond its reach, and of what is moving', () => {
    expect(snapTo(snapField(CROSSED, { gridIn: 0 }), [1.3, 1.2], 0.15).kind).toBe('free');
    const without = snapField(CROSSED, { gridIn: 0, exceptCuts: new Set(['c3']) });
    expect(snapTo(without, [8.1, 9.05], 0.15).kind).toBe('free');
    const corner = snapField(CROSSED, { gridIn: 0, exceptCorners: [2] });
    expect(snapTo(corner, [12, 12], 0.15).kind).toBe('free');
  });

  it('knows one spot once, by its strongest kind', () => {
    const places = field.spots.map(({ at }) => at.join());
    expect(new Set(places).size).toBe(places.length);
  });

  it('is visited row by row', () => {
    const rows = inReadingOrder(field).map(({ at }) => at);
    for (const [index, [x, y]] of rows.entries()) {
      const before = rows[index - 1];
      if (before !== undefined) expect(y > before[1] || (y === before[1] && x > before[0])).toBe(true);
    }
    expect(rows[0]).toEqual([0, 0]);
  });

  it('is told in words, inches as quilters write them', () => {
    expect(snapWords({ kind: 'corner', at: [6, 1.0625] }, 'in')).toBe('6, 1 1/16 in, corner');
    expect(snapWords({ kind: 'free', at: [1, 2] }, 'mm')).toBe('25.4, 50.8 mm');
  });
});

it('the center of the outline catches, of a triangle at a third of its height', () => {
  const triangle = {
    ...WINDOW,
    cuts: [],
    outline: [
      [0, 0],
      [6, 0],
      [3, 3 * Math.sqrt(3)],
    ] as const,
  };
  const caught = snapTo(snapField(triangle, { gridIn: 0 }), [3.05, 1.7], 0.1);
  expect(caught.kind).toBe('center');
  expect(caught.at[0]).toBeCloseTo(3, 4);
  expect(caught.at[1]).toBeCloseTo(Math.sqrt(3), 4);
});

describe('the grid of a triangle or a hexagon', () => {
  const hexagon = outlineOf({ kind: 'hexagon', side: 2.25 });
  const triangle = outlineOf({ kind: 'triangle', side: 2.25 });

  it('is triangle paper, and no other outline asks for it', () => {
    expect(gridKindFor(hexagon)).toBe('sixty');
    expect(gridKindFor(triangle)).toBe('sixty');
    expect(gridKindFor(outlineOf({ kind: 'square', side: 6 }))).toBe('square');
    expect(gridKindFor(outlineOf({ kind: 'octagon', width: 6 }))).toBe('square');
  });

  // An odd number of steps: paper through [0, 0] would miss most corners.
  it.each([
    ['hexagon', hexagon],
    ['triangle', triangle],
  ] as const)('goes through every corner of a %s and, of the hexagon, its middle', (name, outline) => {
    const origin = gridOriginFor('sixty', outline);
    const spots = [...outline, ...(name === 'hexagon' ? [centroid(outline)] : [])];
    for (const spot of spots)
      expect(distance(gridSpotNear('sixty', 1 / 4, spot, origin), spot)).toBeLessThan(1e-9);
  });
});

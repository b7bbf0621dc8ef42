import { describe, expect, it } from 'vitest';
import type { Block } from '../../src/document/project.ts';
import { gridLinesIn, gridSpotNear } from '../../src/editing/grid.ts';
import { snapFrom } from '../../src/editing/heading.ts';
import { snapField, snapTo } from '../../src/editing/snapping.ts';
import { angleWords, snapWords } from '../../src/editing/words.ts';
import type { Point } from '../../src/geometry/point.ts';
import { WINDOW } from './window.ts';

/** A rope of 3 across and 4 down, 5 in long, and a level cut. */
const ROPED: Block = {
  ...WINDOW,
  cuts: [
    { id: 'c1', from: [0, 4], to: [12, 4], role: 'auto' },
    { id: 'c2', from: [1, 5], to: [4, 9], role: 'auto' },
  ],
};
const field = snapField(ROPED, { gridIn: 0 });
const apart = (a: Point, b: Point): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

describe('what catches the end of a running line', () => {
  it('is the foot of the square onto a line', () => {
    const snap = snapFrom(field, [5, 1], [5.1, 3.95], 0.2, false);
    expect(snap).toMatchObject({ kind: 'perpendicular', at: [5, 4] });
    // Square to a slanted line: no part of the way goes along it.
    const slanted = snapFrom(field, [6, 5], [2.9, 7.35], 0.2, false);
    expect(slanted.kind).toBe('perpendicular');
    expect((slanted.at[0] - 6) * 3 + (slanted.at[1] - 5) * 4).toBeCloseTo(0, 3);
  });

  it('is a direction parallel to a line, in the open and onto another line', () => {
    const open = snapFrom(field, [6, 6], [7.55, 7.95], 0.2, false);
    expect(open.kind).toBe('parallel');
    expect((open.at[0] - 6) * 4 - (open.at[1] - 6) * 3).toBeCloseTo(0, 3);
    expect(open.guide).toEqual([
      [1, 5],
      [4, 9],
    ]);
    // From [6, 6] along 3 : 4 the bottom edge at 12 is met at 6 + 6 · 3/4.
    const onto = snapFrom(field, [6, 6], [10.4, 11.95], 0.2, false);
    expect(onto).toMatchObject({ kind: 'parallel', at: [10.5, 12] });
  });

  it('is square to the line it begins on', () => {
    const from: Point = [2.5, 7];
    const snap = snapFrom(field, from, [4.08, 5.75], 0.3, false);
    expect(snap.kind).toBe('perpendicular');
    expect((snap.at[0] - from[0]) * 3 + (snap.at[1] - from[1]) * 4).toBeCloseTo(0, 3);
  });

  it('is the length of a cut there is', () => {
    const from: Point = [6.3, 5.1];
    const snap = snapFrom(field, from, [7.5, 9.97], 0.1, false);
    expect(snap.kind).toBe('same-length');
    expect(apart(snap.at, from)).toBeCloseTo(5, 4);
    // Three down from the start to the bottom edge, so four across: 3, 4, 5.
    const onto = snapFrom(field, [6.3, 9], [10.32, 11.97], 0.1, false);
    expect(onto).toMatchObject({ kind: 'same-length' });
    expect(onto.at[0]).toBeCloseTo(10.3, 4);
    expect(onto.at[1]).toBe(12);
  });

  it('keeps to steps of 15° with Shift, whole grid steps long', () => {
    for (let degrees = 0; degrees < 360; degrees += 7) {
      const radians = (degrees * Math.PI) / 180;
      const snap = snapFrom(
        snapField({ ...WINDOW, cuts: [] }, { gridIn: 1 / 4 }),
        [6, 6],
        [6 + 2.6 * Math.cos(radians), 6 + 2.6 * Math.sin(radians)],
        0.2,
        true,
      );
      expect(snap.kind).toBe('step');
      const angle = (Math.atan2(snap.at[1] - 6, snap.at[0] - 6) * 180) / Math.PI;
      expect(Math.abs(angle / 15 - Math.round(angle / 15))).toBeLessThan(1e-3);
      const steps = apart(snap.at, [6, 6]) * 4;
      expect(steps).toBeCloseTo(Math.round(steps), 3);
    }
    // To a line that the step meets near the pointer.
    expect(snapFrom(field, [5, 1], [8.1, 4.1], 0.4, true)).toMatchObject({ kind: 'step', at: [8, 4] });
  });

  it('leaves the grid its share', () => {
    const gridded = snapField(ROPED, { gridIn: 1 });
    expect(snapFrom(gridded, [6, 6], [9.03, 10.96], 0.2, false)).toMatchObject({ kind: 'grid', at: [9, 11] });
  });

  it('leaves the grid its share on a line as well: the nearer of the two catches', () => {
    const gridded = snapField(ROPED, { gridIn: 0.25 });
    // From [6, 6] along 3 : 4 the bottom edge at 12 is met at 10.5; from [6, 6.25] at 10.3125, a grid line is at 10.25.
    expect(snapFrom(gridded, [6, 6.25], [10.25, 12], 0.2, false)).toEqual({ kind: 'edge', at: [10.25, 12] });
    expect(snapFrom(gridded, [6, 6.25], [10.31, 11.99], 0.2, false)).toMatchObject({
      kind: 'parallel',
      at: [10.3125, 12],
    });
  });

  it('is told by its word', () => {
    expect(snapWords({ kind: 'same-length', at: [1, 2] }, 'in')).toBe('1, 2 in, same length');
    expect(angleWords([0, 0], [1, -1])).toBe('45°');
    expect(angleWords([0, 0], [0, 1])).toBe('270°');
  });
});

describe('thirds', () => {
  it('catch on cuts and edges', () => {
    expect(snapTo(field, [4.05, 0.05], 0.2)).toMatchObject({ kind: 'third', at: [4, 0] });
    const [x, y] = snapTo(field, [2, 6.3], 0.2).at;
    expect([x, y]).toEqual([2, expect.closeTo(5 + 4 / 3, 4)]);
  });
});

describe('triangle paper', () => {
  it('has every spot one step from six others, at 60°', () => {
    const spot = gridSpotNear('sixty', 0.5, [3.1, 2.4]);
    for (let k = 0; k < 6; k++) {
      const radians = (k * Math.PI) / 3;
      const neighbour: Point = [spot[0] + 0.5 * Math.cos(radians), spot[1] + 0.5 * Math.sin(radians)];
      const found = gridSpotNear('sixty', 0.5, [neighbour[0] + 0.02, neighbour[1] - 0.03]);
      expect(apart(found, neighbour)).toBeLessThan(1e-9);
    }
  });

  it('draws lines of three directions through its spots', () => {
    const lines = gridLinesIn('sixty', 1, { minX: 0, minY: 0, maxX: 6, maxY: 6 });
    const directions = new Set(
      lines.map(([a, b]) => (Math.round((Math.atan2(b[1] - a[1], b[0] - a[0]) * 180) / Math.PI) + 360) % 180),
    );
    expect([...directions].toSorted((a, b) => a - b)).toEqual([0, 60, 120]);
    const spot = gridSpotNear('sixty', 1, [3, 3]);
    const through = lines.filter(
      ([a, b]) =>
        Math.abs((b[0] - a[0]) * (spot[1] - a[1]) - (b[1] - a[1]) * (spot[0] - a[0])) / apart(a, b) < 1e-9,
    );
    expect(through).toHaveLength(3);
  });
});

import { describe, expect, it } from 'vitest';
import { openFile } from '../../src/document/file.ts';
import { backingPanels } from '../../src/quilt/finishing/backing.ts';
import { BATTING_SIZES, battingFor } from '../../src/quilt/finishing/batting.ts';
import { BEDS, coverFor } from '../../src/quilt/finishing/beds.ts';
import { bindingNeed } from '../../src/quilt/finishing/binding.ts';
import { finishingList, finishingPieces } from '../../src/quilt/finishing/finishing-list.ts';
import { plainPieces } from '../../src/quilt/finishing/plain-pieces.ts';
import { clothOfQuilts } from '../../src/quilt/finishing/project-finishing.ts';
import { cornerSquare, halfSquare, quarterSquare, sideSquare } from '../../src/quilt/finishing/triangles.ts';
import { layOut } from '../../src/quilt/layout.ts';
import { makePlaces } from '../../src/quilt/settings/make-places.ts';
import { squareBlock } from './places.ts';

/**
 * Setting triangles. Facts of the trade: four public tables agree on these squares for side triangles (1.414 × block +
 * 1 1/4 in, up to 1/8 in) and corner triangles (block / 1.414 + 7/8 in, up to 1/8 in). At 16 in they print 23 7/8; with
 * √2 itself it is 23.877, and so 24: the one known difference.
 */
describe('squares for setting triangles', () => {
  it.each([
    [4, 7, 3.75],
    [5, 8.375, 4.5],
    [6, 9.75, 5.125],
    [7, 11.25, 5.875],
    [8, 12.625, 6.625],
    [9, 14, 7.25],
    [10, 15.5, 8],
    [11, 16.875, 8.75],
    [12, 18.25, 9.375],
    [13, 19.75, 10.125],
    [14, 21.125, 10.875],
    [15, 22.5, 11.5],
  ])('for a block of %i in', (block, side, corner) => {
    expect(sideSquare(block)).toBe(side);
    expect(cornerSquare(block)).toBe(corner);
  });

  it('for a block of 16 in: 24, where the tables have 23 7/8', () => {
    expect(sideSquare(16)).toBe(24);
    expect(cornerSquare(16)).toBe(12.25);
    expect(16 * Math.SQRT2 + 1.25).toBeGreaterThan(23.875);
    expect((16 * 1414) / 1000 + 1.25).toBeLessThan(23.875);
  });

  it('a table’s 3 1/2 in for a corner of 3 1/2 in is a slip: its own formula gives 3 3/8', () => {
    expect(cornerSquare(3.5)).toBe(3.375);
  });

  it('for other seams: what the seams take, exactly, is never more than what is added', () => {
    for (const seam of [0.125, 0.25, 0.375, 7.5 / 25.4])
      for (const side of [3, 6.5, 12]) {
        expect(quarterSquare(side, seam) - side).toBeGreaterThanOrEqual(2 * seam * (1 + Math.SQRT2) - 1e-3);
        expect(quarterSquare(side, seam) - side).toBeLessThan(2 * seam * (1 + Math.SQRT2) + 0.25);
        expect(halfSquare(side, seam) - side).toBeGreaterThanOrEqual(seam * (2 + Math.SQRT2) - 1e-3);
      }
  });
});

/** Worked examples as published on hobby pages, each computed again by hand. */
describe('binding', () => {
  it('66 × 58 in, 20 in extra, strips across 40 in: 6.7, so 7 strips of 2 1/2 in, 17 1/2 in, 1/2 yd', () => {
    const need = bindingNeed(2 * (66 + 58), 2.5, false, 40, 20);
    expect(need).toMatchObject({ length: 268, strips: 7, buy: 18 });
  });

  it('on the bias the square has at least the area of the strip', () => {
    for (const edge of [120, 248, 396]) {
      const need = bindingNeed(edge, 2.25, true, 40);
      expect(need.square! ** 2).toBeGreaterThanOrEqual(need.length * 2.25);
      expect((need.square! - 1) ** 2).toBeLessThan(need.length * 2.25);
      expect(need.strips * need.square! * Math.SQRT2).toBeGreaterThanOrEqual(need.length);
    }
  });
});

describe('backing', () => {
  // Quilt, then yards with upright and with level seams; 4 in added at every side, cloth 40 in wide.
  it.each([
    [50, 70, 156 / 36, 116 / 36],
    [60, 80, 176 / 36, 204 / 36],
    [90, 108, 348 / 36, 294 / 36],
  ])('%i × %i in', (w, h, upright, level) => {
    const both = backingPanels([w, h], 40, 0.25);
    const yards = (seams: string): number => both.find((one) => one.seams === seams)!.length / 36;
    expect(yards('upright')).toBeCloseTo(upright, 9);
    expect(yards('level')).toBeCloseTo(level, 9);
    expect(both[0].length).toBe(
      36 * Math.min(upright, level) < 1 ? 0 : Math.min(...both.map(({ length }) => length)),
    );
  });

  it('50 × 70 in: the cheaper way takes 3 1/4 yd', () => {
    expect(backingPanels([50, 70], 40, 0.25)[0]).toMatchObject({ seams: 'level', panels: 2, buy: 3.25 * 36 });
  });

  it('is never less cloth than its area, nor three times as much', () => {
    // A public calculator divides square inches by 36 and says 111 yards for 50 × 70.
    for (let w = 20; w <= 120; w += 7)
      for (let h = 20; h <= 120; h += 9) {
        const area = (w + 8) * (h + 8);
        const cloth = backingPanels([w, h], 40, 0.25)[0].length * 40;
        expect(cloth).toBeGreaterThanOrEqual(area - 1e-6);
        expect(cloth).toBeLessThanOrEqual(3 * area);
      }
  });

  it('up to 80 in less a seam two panels do', () => {
    const panels = (w: number): number =>
      backingPanels([w, 200], 40, 0.25, 0).find(({ seams }) => seams === 'upright')!.panels;
    expect([40, 40.1, 79.5, 79.6].map(panels)).toEqual([1, 2, 2, 3]);
  });
});

/** Sizes on which public tables agree. */
describe('batting and beds', () => {
  it('the smallest package that covers', () => {
    expect(BATTING_SIZES).toEqual([
      [45, 60],
      [50, 65],
      [72, 90],
      [81, 96],
      [90, 108],
      [120, 120],
    ]);
    expect(battingFor([50, 70])).toEqual([72, 90]);
    expect(battingFor([54, 39])).toEqual([45, 60]);
    expect(battingFor([84, 102])).toEqual([90, 108]);
    expect(battingFor([110, 100])).toEqual([120, 120]);
    expect(battingFor([115, 80])).toBe(null);
  });

  it('mattresses, and what covers them', () => {
    expect(Object.fromEntries(BEDS.map(({ name, size }) => [name, size]))).toMatchObject({
      Crib: [28, 52],
      Twin: [39, 75],
      'Long twin': [39, 80],
      Full: [54, 75],
      Queen: [60, 80],
      King: [76, 80],
      'California king': [72, 84],
    });
    expect(coverFor([60, 80], 12, 10)).toEqual([84, 102]);
  });
});

describe('plain pieces as cut', () => {
  it('a 5 × 6 of 12 in blocks on point with 2 in sashing and a border', () => {
    const block = squareBlock('b1', 12);
    const made = makePlaces(
      {
        kind: 'on-point',
        columns: 5,
        rows: 6,
        cell: [12, 12],
        sashing: { width: 2, cornerstones: true, outside: true },
      },
      Array.from({ length: 50 }, () => ({ block: 'b1', turn: 0, mirrored: false })),
      [{ width: 4, corners: 'butted' }],
      [block],
    );
    if (!made.ok) throw new Error(made.message);
    const pieces = plainPieces(layOut(made, [block]), 0.25);
    const of = (what: string) =>
      pieces
        .filter((piece) => piece.what === what)
        .map(({ kind, width, height, count, pieces: n }) => [kind, width, height, count, n]);
    // 18 triangles, four from a square; 4 corners, two from a square.
    expect(of('Side triangles')).toEqual([['quarter-square', 18.25, 18.25, 5, 18]]);
    expect(of('Corner triangles')).toEqual([['half-square', 9.375, 9.375, 2, 4]]);
    expect(of('Sashing')).toEqual([['rectangle', expect.closeTo(12.5, 3), expect.closeTo(2.5, 3), 120, 120]]);
    expect(of('Cornerstones').map(([kind, , , , n]) => [kind, n])).toEqual([
      ['quarter-square', 22],
      ['rectangle', 49],
    ]);
    const [w, h] = [5 * 14 * Math.SQRT2, 6 * 14 * Math.SQRT2];
    expect(of('Border')).toEqual([
      ['rectangle', expect.closeTo(w + 8.5, 3), 4.5, 2, 2],
      ['rectangle', expect.closeTo(h + 0.5, 3), 4.5, 2, 2],
    ]);
  });

  it('a mitred strip reaches over both its tips', () => {
    const made = makePlaces(
      { kind: 'straight', columns: 1, rows: 1, cell: [12, 12] },
      [],
      [{ width: 3, corners: 'mitred' }],
      [],
    );
    if (!made.ok) throw new Error(made.message);
    const [strip] = plainPieces(layOut(made, []), 0.25).filter(({ what }) => what === 'Border');
    expect(strip).toMatchObject({ count: 4, height: 3.5 });
    expect(strip!.width).toBeGreaterThanOrEqual(18 + 2 * 0.25 * (1 + Math.SQRT2));
  });

  it('finishing pieces are what the list says', () => {
    const finishing = { sleeve: { height: 8.5 }, label: { size: [4, 3] as const } };
    const list = finishingList([50, 70], finishing, 0.25);
    expect(
      finishingPieces(list, finishing).map(({ what, width, height, count }) => [what, width, height, count]),
    ).toEqual([
      ['Binding strips', 40, 2.5, 7],
      ['Backing panels', 58, 40, 2],
      ['Hanging sleeve', 49, 8.5, 1],
      ['Label', 4.5, 3.5, 1],
    ]);
  });
});

describe('the plain cloth of a project', () => {
  const opened = openFile(
    JSON.stringify({
      format: 'underpaper',
      version: 2,
      name: 'Quay',
      fabrics: [
        { id: 'f1', name: 'Night sea', color: '#1d3557' },
        { id: 'f2', name: 'Wide back', color: '#cccccc', width: 108 },
        { id: 'f3', name: 'Foam', color: '#eeeeee' },
      ],
      blocks: [],
      quilt: {
        places: [
          { id: 'p1', fabric: 'f1', at: [0, 0], size: [50, 60] },
          { id: 'p2', fabric: 'f1', at: [50, 0], size: [10, 60] },
        ],
        finishing: { backing: { extra: 4, fabric: 'f2' } },
        copies: [{ fabrics: { f1: 'f3' } }],
      },
    }),
  );
  if (!opened.ok) throw new Error(opened.error.message);
  const cloth = clothOfQuilts(opened.project);

  it('of two quilts, one in another palette, is counted through', () => {
    const plain = cloth.filter(({ what }) => what === 'Plain pieces');
    // Named along their longer side.
    expect(plain.map(({ fabric, width, height, count }) => [fabric, width, height, count])).toEqual([
      ['f1', 60.5, 50.5, 1],
      ['f1', 60.5, 10.5, 1],
      ['f3', 60.5, 50.5, 1],
      ['f3', 60.5, 10.5, 1],
    ]);
  });

  it('takes the backing from a fabric as wide as it is: 60 in and 4 at each side, in one panel of 108', () => {
    const backing = cloth.filter(({ what }) => what === 'Backing panels');
    expect(backing.map(({ fabric, count, width, height }) => [fabric, count, width, height])).toEqual([
      ['f2', 1, 68, 68],
      ['f2', 1, 68, 68],
    ]);
  });
});

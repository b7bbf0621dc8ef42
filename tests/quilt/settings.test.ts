import { describe, expect, it } from 'vitest';
import type { Border, Setting } from '../../src/document/quilt.ts';
import type { Point } from '../../src/geometry/point.ts';
import { joiningOf } from '../../src/quilt/joining.ts';
import { layOut, type OutlinedBlock } from '../../src/quilt/layout.ts';
import {
  type Content,
  contentsOf,
  makePlaces,
  sharedModule,
  slotCount,
} from '../../src/quilt/settings/make-places.ts';
import { mixed } from '../../src/quilt/settings/mixed.ts';
import { Prng } from '../designs/prng.ts';
import { joiningFaults } from './check-joining.ts';
import { areas, box, checked, squareBlock } from './places.ts';

const BLOCKS: readonly OutlinedBlock[] = [
  squareBlock('b1', 6),
  squareBlock('b2', 12),
  squareBlock('b3', 12, 6),
  squareBlock('b4', 2, 2),
  { id: 'b5', outline: box(2.5, 2) },
];

const six: Content = { block: 'b1', turn: 0, mirrored: false };
const many = (content: Content, count: number): Content[] => Array.from({ length: count }, () => content);

function made(setting: Setting, borders: readonly Border[] = [], content: Content = six) {
  const result = makePlaces(setting, many(content, slotCount(setting)), borders, BLOCKS);
  if (!result.ok) throw new Error(result.message);
  const layout = layOut(result, BLOCKS);
  return { ...result, layout };
}

const base = { columns: 5, rows: 6, cell: [6, 6] } as const;
const sashing = { width: 1.5, cornerstones: true, outside: true } as const;

const SETTINGS: readonly (readonly [name: string, setting: Setting, size: Point])[] = [
  ['straight', { kind: 'straight', ...base }, [30, 36]],
  [
    'straight, sashing between',
    { kind: 'straight', ...base, sashing: { ...sashing, outside: false } },
    [36, 43.5],
  ],
  ['straight, sashing all round', { kind: 'straight', ...base, sashing }, [39, 46.5]],
  [
    'straight, no cornerstones',
    { kind: 'straight', ...base, sashing: { ...sashing, cornerstones: false } },
    [39, 46.5],
  ],
  ['offset', { kind: 'offset', ...base }, [30, 36]],
  ['strips', { kind: 'strips', ...base, strip: { width: 3 } }, [42, 36]],
  ['on point', { kind: 'on-point', ...base }, [5 * 6 * Math.SQRT2, 6 * 6 * Math.SQRT2]],
  ['on point, sashing', { kind: 'on-point', ...base, sashing }, [5 * 7.5 * Math.SQRT2, 6 * 7.5 * Math.SQRT2]],
  [
    'on point, no cornerstones',
    { kind: 'on-point', ...base, sashing: { ...sashing, cornerstones: false } },
    [5 * 7.5 * Math.SQRT2, 6 * 7.5 * Math.SQRT2],
  ],
];

const BORDERS: readonly (readonly [name: string, borders: readonly Border[], wide: number])[] = [
  ['no border', [], 0],
  [
    'a butted and one with squares',
    [
      { width: 1, corners: 'butted' },
      { width: 4, corners: 'squares' },
    ],
    5,
  ],
  [
    'two mitred',
    [
      { width: 1.25, corners: 'mitred' },
      { width: 3, corners: 'mitred' },
    ],
    4.25,
  ],
];

describe.each(SETTINGS)('%s', (_, setting, [w, h]) => {
  it.each(BORDERS)(
    'with %s: no gap, no overlap, areas add up, the size is what it must be',
    (_name, borders, wide) => {
      const { layout, misfits } = made(setting, borders);
      expect(misfits).toEqual([]);
      expect(layout.gaps).toEqual([]);
      expect(layout.overlaps).toEqual([]);
      // Every corner is on the lattice: a place of n corners is off by no more than half a step times its sides.
      const sum = areas(layout);
      expect(Math.abs(sum.pieces - sum.box)).toBeLessThan(layout.pieces.length * 30 * 2 ** -16);
      expect(layout.box.maxX - layout.box.minX).toBeCloseTo(w + 2 * wide, 3);
      expect(layout.box.maxY - layout.box.minY).toBeCloseTo(h + 2 * wide, 3);
      expect([layout.box.minX, layout.box.minY]).toEqual([0, 0]);
      const joined = joiningOf(layout);
      if (!joined.ok) throw new Error(joined.why);
      expect(joiningFaults(checked(layout), joined.plan.steps)).toEqual([]);
      const setIn = joined.plan.steps.filter(({ kind }) => kind !== 'straight').length;
      if (borders.some(({ corners }) => corners === 'mitred')) expect(setIn).toBeGreaterThan(0);
      else expect(setIn).toBe(0);
    },
  );
});

describe('areas without √2', () => {
  it('blocks, sashing and borders are the quilt, to the last step of the lattice', () => {
    const { layout } = made({ kind: 'straight', ...base, sashing }, [
      { width: 1.0625, corners: 'butted' },
      { width: 3.421875, corners: 'squares' },
    ]);
    const sum = areas(layout);
    expect(sum.pieces).toBe(sum.box);
  });
});

describe('pieces of a setting', () => {
  const count = (places: readonly { readonly part?: string }[], part: string): number =>
    places.filter((place) => place.part === part).length;

  it('on point 5 × 6: 50 blocks, 18 side and 4 corner triangles', () => {
    const { places } = made({ kind: 'on-point', ...base });
    expect(places.filter((place) => 'block' in place).length).toBe(5 * 6 + 4 * 5);
    expect(count(places, 'side-triangle')).toBe(2 * (5 - 1) + 2 * (6 - 1));
    expect(count(places, 'corner-triangle')).toBe(4);
  });

  it('on point 5 × 6 with sashing: a strip at every side of a block, a stone at every crossing', () => {
    const { places } = made({ kind: 'on-point', ...base, sashing });
    expect(count(places, 'sashing')).toBe(4 * 30);
    expect(count(places, 'cornerstone')).toBe(6 * 6 + 5 * 7);
  });

  it('straight 5 × 6 with sashing all round', () => {
    const { places } = made({ kind: 'straight', ...base, sashing });
    expect(count(places, 'sashing')).toBe(6 * 6 + 5 * 7);
    expect(count(places, 'cornerstone')).toBe(6 * 7);
  });
});

describe('what does not come out', () => {
  const straight: Setting = { kind: 'straight', ...base };
  const message = (setting: Setting, borders: readonly Border[]): string => {
    const result = makePlaces(setting, many(six, slotCount(setting)), borders, BLOCKS);
    return result.ok ? 'made' : result.message;
  };

  it('a border wider than the quilt', () => {
    expect(message(straight, [{ width: 31, corners: 'butted' }])).toBe(
      'Border 1: the border is 31 in wide, wider than the quilt inside it (30 in × 36 in).',
    );
  });

  it('a border of blocks that do not come out says what would bring them out', () => {
    expect(message(straight, [{ width: 2, corners: 'butted', block: 'b5' }])).toMatch(
      /^Border 1: blocks of 2 1\/2 in do not come out along 36 in: a plain border of 3\/4 in/,
    );
    expect(message(straight, [{ width: 2, corners: 'butted', block: 'b4' }])).toBe('made');
  });

  it('a border of blocks all round has a block in every corner and no gap', () => {
    const { layout, places } = made(straight, [{ width: 2, corners: 'butted', block: 'b4' }]);
    expect(layout.gaps).toEqual([]);
    expect(places.filter(({ part }) => part === 'border').length).toBe(2 * 15 + 2 * 18 + 4);
  });

  it('more places than a quilt may have', () => {
    expect(message({ kind: 'straight', columns: 50, rows: 50, cell: [6, 6] }, [])).toBe(
      'That makes 2,500 places; a quilt may have 2,000.',
    );
  });

  it('a block of another size leaves its slots empty and is named', () => {
    const result = makePlaces(straight, many({ block: 'b2', turn: 0, mirrored: false }, 30), [], BLOCKS);
    expect(result.ok && result.misfits).toEqual(['b2']);
    expect(result.ok && result.places.every((place) => !('block' in place))).toBe(true);
  });

  it('sizes that share no module', () => {
    expect(
      sharedModule([
        [12, 12],
        [6, 12],
        [9, 9],
      ]),
    ).toBe(3);
    expect(
      sharedModule([
        [12, 12],
        [Math.SQRT2 * 6, 6],
      ]),
    ).toBe(null);
    expect(sharedModule([])).toBe(null);
  });
});

describe('making a setting anew', () => {
  it('keeps what was in it, turned as it was', () => {
    const contents: Content[] = [
      six,
      { block: 'b1', turn: 1, mirrored: true },
      null,
      { block: 'b1', turn: 3, mirrored: false },
    ];
    for (const kind of ['straight', 'on-point'] as const) {
      const setting: Setting = { kind, columns: 2, rows: 2, cell: [6, 6] };
      const result = makePlaces(setting, contents, [{ width: 1, corners: 'butted' }], BLOCKS);
      if (!result.ok) throw new Error(result.message);
      const again = contentsOf({ places: result.places, setting });
      expect(again.slice(0, 4)).toEqual(contents);
    }
  });
});

describe('sizes of several kinds in bands', () => {
  it('straight seams always join them, seeded by the hundred', () => {
    for (let seed = 1; seed <= 100; seed++) {
      const rng = new Prng(seed);
      const sizes = Array.from(
        { length: rng.whole(1, 40) },
        (): Point => [6 * rng.whole(1, 3), 6 * rng.whole(1, 3)],
      );
      const { slots, plain, height } = mixed(sizes, 48, undefined);
      const places = [
        ...slots.map(({ at, size }, k) => ({ id: `s${k}`, at, size })),
        ...plain.map((one, k) => ({ ...one, id: `f${k}` })),
      ];
      const layout = layOut({ places }, []);
      expect(layout.overlaps, `seed ${seed}`).toEqual([]);
      expect(layout.gaps, `seed ${seed}`).toEqual([]);
      expect(areas(layout).pieces, `seed ${seed}`).toBe(48 * height);
      const joined = joiningOf(layout);
      expect(joined.ok && joined.plan.steps.every(({ kind }) => kind === 'straight'), `seed ${seed}`).toBe(
        true,
      );
    }
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addBlock,
  duplicateBlock,
  moveBlock,
  removeBlock,
  renameBlock,
} from '../../src/document/edit-block.ts';
import { addCut, addCuts, moveCut, removeCuts, setCutRole, shiftCuts } from '../../src/document/edit-cuts.ts';
import { addFabric, removeFabric, updateFabric } from '../../src/document/edit-fabrics.ts';
import { moveCorner, scaleBlock, setOutline } from '../../src/document/edit-outline.ts';
import { paintPatches } from '../../src/document/edit-paint.ts';
import { renameProject, setSeamAllowance, setUnit } from '../../src/document/edit-project.ts';
import { openFile } from '../../src/document/file.ts';
import { nextBlockId, nextCutId, nextFabricId } from '../../src/document/ids.ts';
import { BLOCKS_PER_PROJECT, CUTS_PER_BLOCK, FABRICS_PER_PROJECT } from '../../src/document/limits.ts';
import { outlineOf } from '../../src/document/outline.ts';
import { EMPTY_PROJECT, type Project } from '../../src/document/project.ts';
import { toText } from '../../src/document/to-text.ts';
import type { Point } from '../../src/geometry/point.ts';
import { blockOf, frozen, harbour, quarters } from './projects.ts';

describe('ids', () => {
  it('are one more than the highest in use, whatever else is there', () => {
    expect(nextBlockId(EMPTY_PROJECT)).toBe('b1');
    expect(nextBlockId(harbour)).toBe('b3');
    expect(nextFabricId(harbour)).toBe('f4');
    expect(nextCutId(quarters)).toBe('c3');
    const odd = [{ id: 'c9' }, { id: 'c007' }, { id: 'c' }, { id: 'x99' }, { id: 'c11x' }, { id: 'c10' }];
    expect(nextCutId({ ...quarters, cuts: odd.map(({ id }) => ({ ...quarters.cuts[0]!, id })) })).toBe('c11');
  });
});

describe('project', () => {
  it('takes a trimmed name, a unit and an allowance', () => {
    expect(renameProject(harbour, '  Quay ').name).toBe('Quay');
    expect(setUnit(harbour, 'mm').unit).toBe('mm');
    expect(setSeamAllowance(harbour, 10 / 25.4).seamAllowance).toBe(Math.round((10 / 25.4) * 65536) / 65536);
    expect(setSeamAllowance(harbour, 0).seamAllowance).toBe(0);
  });

  it('keeps no negative zero, which a file could not hold', () => {
    expect(Object.is(setSeamAllowance(harbour, -0).seamAllowance, 0)).toBe(true);
  });

  it('comes back itself when there is nothing to change or the value is unusable', () => {
    expect(renameProject(harbour, 'Harbour sampler')).toBe(harbour);
    expect(renameProject(harbour, ' \t')).toBe(harbour);
    expect(renameProject(harbour, 'x'.repeat(201))).toBe(harbour);
    expect(setUnit(harbour, 'in')).toBe(harbour);
    for (const inches of [0.25, -0.1, 2.1, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(setSeamAllowance(harbour, inches)).toBe(harbour);
    }
  });
});

describe('blocks', () => {
  it('are added at the end', () => {
    const grown = addBlock(harbour, { name: 'Buoy', outline: outlineOf({ kind: 'square', side: 6 }) });
    expect(grown.blocks.slice(0, 2)).toEqual(harbour.blocks);
    expect(grown.blocks[2]).toEqual({
      id: 'b3',
      name: 'Buoy',
      outline: [
        [0, 0],
        [6, 0],
        [6, 6],
        [0, 6],
      ],
      cuts: [],
      patches: [{ id: 'p1', at: [3, 3] }],
    });
  });

  it('are not added with an outline that cannot be stored', () => {
    for (const outline of [
      [],
      [
        [0, 0],
        [1, 1],
      ],
      [
        [0, 0],
        [1, 0],
        [Number.NaN, 1],
      ],
      [
        [0, 0],
        [1, 0],
        [1001, 1],
      ],
    ] as Point[][]) {
      expect(addBlock(harbour, { name: 'Buoy', outline })).toBe(harbour);
    }
  });

  it('are renamed', () => {
    expect(blockOf(renameBlock(harbour, 'b2', ' Tug ')).name).toBe('Harbour window');
    expect(blockOf(renameBlock(harbour, 'b2', ' Tug '), 'b2').name).toBe('Tug');
    expect(renameBlock(harbour, 'b2', '')).toBe(harbour);
    expect(renameBlock(harbour, 'b9', 'Tug')).toBe(harbour);
  });

  it('are duplicated in place, under a name of their own', () => {
    const twice = duplicateBlock(duplicateBlock(harbour, 'b1'), 'b1');
    expect(twice.blocks.map(({ id, name }) => [id, name])).toEqual([
      ['b1', 'Harbour window'],
      ['b4', 'Harbour window copy 2'],
      ['b3', 'Harbour window copy'],
      ['b2', 'Ferry'],
    ]);
    expect(blockOf(twice, 'b3')).toEqual({ ...quarters, id: 'b3', name: 'Harbour window copy' });
    expect(duplicateBlock(twice, 'b3').blocks.some(({ name }) => name === 'Harbour window copy 3')).toBe(
      true,
    );
  });

  it('are removed and moved', () => {
    expect(removeBlock(harbour, 'b1').blocks.map(({ id }) => id)).toEqual(['b2']);
    expect(removeBlock(harbour, 'b9')).toBe(harbour);
    const three = duplicateBlock(harbour, 'b1');
    const order = (project: Project) => project.blocks.map(({ id }) => id).join(' ');
    expect(order(three)).toBe('b1 b3 b2');
    expect(order(moveBlock(three, 'b1', 2))).toBe('b3 b2 b1');
    expect(order(moveBlock(three, 'b2', 0))).toBe('b2 b1 b3');
    expect(order(moveBlock(three, 'b1', 99))).toBe('b3 b2 b1');
    expect(moveBlock(three, 'b1', -1)).toBe(three);
    expect(moveBlock(three, 'b1', Number.NaN)).toBe(three);
  });
});

describe('outline shapes have the size asked for and equal sides', () => {
  const sides = (ring: readonly Point[]) =>
    ring.map(([x, y], i) => {
      const [nextX, nextY] = ring[(i + 1) % ring.length]!;
      return Math.hypot(nextX - x, nextY - y);
    });
  const area = (ring: readonly Point[]) =>
    ring.reduce((sum, [x, y], i) => {
      const [nextX, nextY] = ring[(i + 1) % ring.length]!;
      return sum + (x * nextY - nextX * y) / 2;
    }, 0);

  // Areas of regular polygons: √3/4 a², 3√3/2 a², and 2(√2 − 1) w² for an octagon w across (any table of formulae).
  it.each([
    ['square', outlineOf({ kind: 'square', side: 6 }), 6, 36],
    ['triangle', outlineOf({ kind: 'triangle', side: 6 }), 6, (Math.sqrt(3) / 4) * 36],
    ['hexagon', outlineOf({ kind: 'hexagon', side: 6 }), 6, ((3 * Math.sqrt(3)) / 2) * 36],
    ['octagon', outlineOf({ kind: 'octagon', width: 6 }), 6 / (1 + Math.SQRT2), 2 * (Math.SQRT2 - 1) * 36],
  ])('%s', (_, ring, side, expectedArea) => {
    for (const length of sides(ring)) expect(length).toBeCloseTo(side, 9);
    expect(area(ring)).toBeCloseTo(expectedArea, 9);
    expect(Math.min(...ring.map(([x]) => x))).toBeCloseTo(0, 12);
    expect(Math.min(...ring.map(([, y]) => y))).toBeCloseTo(0, 12);
  });

  it('rectangle', () => {
    expect(outlineOf({ kind: 'rectangle', width: 8, height: 3 })).toEqual([
      [0, 0],
      [8, 0],
      [8, 3],
      [0, 3],
    ]);
  });
});

describe('outlines', () => {
  it('are replaced and moved by the corner, on the lattice', () => {
    expect(blockOf(moveCorner(harbour, 'b1', 2, [14.00000001, 13])).outline).toEqual([
      [0, 0],
      [12, 0],
      [14, 13],
      [0, 12],
    ]);
    expect(moveCorner(harbour, 'b1', 4, [1, 1])).toBe(harbour);
    expect(moveCorner(harbour, 'b1', 2, [12, 12])).toBe(harbour);
    expect(moveCorner(harbour, 'b1', 2, [Number.NaN, 12])).toBe(harbour);
    expect(setOutline(harbour, 'b9', quarters.outline)).toBe(harbour);
    const bow: Point[] = [
      [0, 0],
      [12, 12],
      [12, 0],
      [0, 12],
    ];
    expect(blockOf(setOutline(harbour, 'b1', bow)).outline).toEqual(bow);
  });

  it('are scaled with everything drawn in them, never the allowance', () => {
    const half = scaleBlock(harbour, 'b1', 0.5, 0.25);
    expect(blockOf(half)).toEqual({
      ...quarters,
      outline: [
        [0, 0],
        [6, 0],
        [6, 3],
        [0, 3],
      ],
      cuts: [
        { id: 'c1', from: [0, 1.5], to: [6, 1.5], role: 'auto' },
        { id: 'c2', from: [3, 0], to: [3, 3], role: 'auto' },
      ],
      patches: [
        { id: 'p1', at: [1.5, 0.75], fabric: 'f1' },
        { id: 'p2', at: [4.5, 2.25], fabric: 'f2' },
        { id: 'p3', at: [4.5, 0.75] },
        { id: 'p4', at: [1.5, 2.25] },
      ],
    });
    expect(half.seamAllowance).toBe(0.25);
    for (const factor of [1, 0, -1, Number.NaN, 1e6, 1e-9])
      expect(scaleBlock(harbour, 'b1', factor)).toBe(harbour);
  });
});

describe('cuts', () => {
  it('are added, one or many, on the lattice', () => {
    const block = blockOf(addCut(harbour, 'b1', { from: [0, 1 / 3], to: [12, 3], role: 'seam' }));
    expect(block.cuts[2]).toEqual({
      id: 'c3',
      from: [0, Math.round(65536 / 3) / 65536],
      to: [12, 3],
      role: 'seam',
    });
    const more = addCuts(harbour, 'b2', [
      { from: [0, 1], to: [12, 1] },
      { from: [1, 1], to: [1.0000001, 1] },
      { from: [0, Number.NaN], to: [12, 1] },
      { from: [0, 2], to: [12, 2] },
    ]);
    expect(blockOf(more, 'b2').cuts.map(({ id, from }) => [id, from[1]])).toEqual([
      ['c1', 1],
      ['c2', 2],
    ]);
  });

  it('are not added without length, out of bounds, or to no block', () => {
    expect(addCut(harbour, 'b1', { from: [3, 3], to: [3, 3] })).toBe(harbour);
    expect(addCut(harbour, 'b1', { from: [3, 3], to: [3, 1001] })).toBe(harbour);
    expect(addCut(harbour, 'b9', { from: [3, 3], to: [3, 5] })).toBe(harbour);
  });

  it('move by their ends or whole', () => {
    expect(blockOf(moveCut(harbour, 'b1', 'c1', { to: [12, 7] })).cuts[0]).toEqual({
      ...quarters.cuts[0],
      to: [12, 7],
    });
    expect(moveCut(harbour, 'b1', 'c1', { to: [0, 6] })).toBe(harbour);
    expect(moveCut(harbour, 'b1', 'c1', { to: [12, 6] })).toBe(harbour);
    expect(moveCut(harbour, 'b1', 'c9', { to: [12, 7] })).toBe(harbour);
    expect(blockOf(shiftCuts(harbour, 'b1', ['c1', 'c2'], [0.5, 1])).cuts).toEqual([
      { ...quarters.cuts[0], from: [0.5, 7], to: [12.5, 7] },
      { ...quarters.cuts[1], from: [6.5, 1], to: [6.5, 13] },
    ]);
    expect(shiftCuts(harbour, 'b1', ['c1'], [0, 0])).toBe(harbour);
  });

  it('are removed and given roles', () => {
    expect(blockOf(removeCuts(harbour, 'b1', ['c1', 'c9'])).cuts.map(({ id }) => id)).toEqual(['c2']);
    expect(removeCuts(harbour, 'b1', ['c9'])).toBe(harbour);
    expect(blockOf(setCutRole(harbour, 'b1', ['c2'], 'join')).cuts.map(({ role }) => role)).toEqual([
      'auto',
      'join',
    ]);
    expect(setCutRole(harbour, 'b1', ['c2'], 'auto')).toBe(harbour);
  });
});

describe('fabrics', () => {
  it('are added and changed', () => {
    const grown = addFabric(harbour, { name: ' Fog ', color: '#CCDDEE' });
    expect(grown.fabrics[3]).toEqual({ id: 'f4', name: 'Fog', color: '#ccddee' });
    expect(updateFabric(grown, 'f4', { color: '#000000' }).fabrics[3]).toEqual({
      id: 'f4',
      name: 'Fog',
      color: '#000000',
    });
    expect(updateFabric(grown, 'f4', { name: 'Mist' }).fabrics[3]?.name).toBe('Mist');
    expect(updateFabric(grown, 'f4', { name: ' Fog', color: '#CCDDEE' })).toBe(grown);
    for (const color of ['', 'red', '#fff', '#12345g', '#1234567']) {
      expect(addFabric(harbour, { name: 'Fog', color })).toBe(harbour);
      expect(updateFabric(harbour, 'f1', { color })).toBe(harbour);
    }
  });

  it('take their paint with them, and leave untouched blocks as they are', () => {
    const without = removeFabric(harbour, 'f1');
    expect(without.fabrics.map(({ id }) => id)).toEqual(['f2', 'f3']);
    expect(blockOf(without).patches).toEqual([{ id: 'p1', at: [3, 3] }, ...quarters.patches.slice(1)]);
    expect(blockOf(without, 'b2')).toBe(blockOf(harbour, 'b2'));
    expect(removeFabric(harbour, 'f9')).toBe(harbour);
  });
});

describe('limits of a file hold for edits too', () => {
  it('of blocks, fabrics and cuts', () => {
    const blocks = Array.from({ length: BLOCKS_PER_PROJECT }, (_, i) => ({ ...quarters, id: `b${i}` }));
    const full = { ...harbour, blocks };
    expect(addBlock(full, { name: 'One more', outline: quarters.outline })).toBe(full);
    expect(duplicateBlock(full, 'b1')).toBe(full);
    const fabrics = Array.from({ length: FABRICS_PER_PROJECT }, (_, i) => ({
      ...harbour.fabrics[0]!,
      id: `f${i}`,
    }));
    const dyed = { ...harbour, fabrics };
    expect(addFabric(dyed, { name: 'One more', color: '#000000' })).toBe(dyed);
    const across = (y: number) => ({ from: [0, y] as Point, to: [12, y] as Point });
    const cuts = Array.from({ length: CUTS_PER_BLOCK + 7 }, (_, i) => across(i / 1000));
    const cutUp = addCuts(harbour, 'b2', cuts);
    expect(blockOf(cutUp, 'b2').cuts).toHaveLength(CUTS_PER_BLOCK);
    expect(addCut(cutUp, 'b2', across(11))).toBe(cutUp);
  });
});

/** Any edit with any values a screen could pass, good or bad. */
const coordinate = fc.oneof(
  fc.integer({ min: -2, max: 14 }),
  fc.double({ min: -2, max: 14, noNaN: true }),
  fc.constantFrom(Number.NaN, Number.POSITIVE_INFINITY, 1e9, -1e-12),
);
const point = fc.tuple(coordinate, coordinate);
const blockId = fc.constantFrom('b1', 'b2', 'b3', 'b9');
const cutIds = fc.subarray(['c1', 'c2', 'c3', 'c4', 'c5']);
const fabricId = fc.constantFrom('f1', 'f2', 'f3', 'f4', 'f9');
const name = fc.oneof(fc.string({ unit: 'binary', maxLength: 300 }), fc.constant('Buoy'));
const color = fc.oneof(fc.constantFrom('#ABCDEF', '#012345', 'red'), fc.string());
type Edit = (project: Project) => Project;
const edit: fc.Arbitrary<Edit> = fc.oneof(
  name.map(
    (to): Edit =>
      (p) =>
        renameProject(p, to),
  ),
  coordinate.map(
    (inches): Edit =>
      (p) =>
        setSeamAllowance(p, inches),
  ),
  fc.constantFrom('in', 'mm').map(
    (unit): Edit =>
      (p) =>
        setUnit(p, unit as 'in' | 'mm'),
  ),
  fc.tuple(name, fc.array(point, { maxLength: 6 })).map(
    ([to, outline]): Edit =>
      (p) =>
        addBlock(p, { name: to, outline }),
  ),
  fc.tuple(blockId, name).map(
    ([id, to]): Edit =>
      (p) =>
        renameBlock(p, id, to),
  ),
  blockId.map(
    (id): Edit =>
      (p) =>
        duplicateBlock(p, id),
  ),
  blockId.map(
    (id): Edit =>
      (p) =>
        removeBlock(p, id),
  ),
  fc.tuple(blockId, coordinate).map(
    ([id, to]): Edit =>
      (p) =>
        moveBlock(p, id, to),
  ),
  fc.tuple(blockId, fc.nat(5), point).map(
    ([id, corner, to]): Edit =>
      (p) =>
        moveCorner(p, id, corner, to),
  ),
  fc.tuple(blockId, fc.array(point, { maxLength: 6 })).map(
    ([id, ring]): Edit =>
      (p) =>
        setOutline(p, id, ring),
  ),
  fc.tuple(blockId, coordinate, coordinate).map(
    ([id, x, y]): Edit =>
      (p) =>
        scaleBlock(p, id, x, y),
  ),
  fc.tuple(blockId, point, point).map(
    ([id, from, to]): Edit =>
      (p) =>
        addCut(p, id, { from, to }),
  ),
  fc.tuple(blockId, point).map(
    ([id, to]): Edit =>
      (p) =>
        moveCut(p, id, 'c1', { to }),
  ),
  fc.tuple(blockId, cutIds, point).map(
    ([id, ids, by]): Edit =>
      (p) =>
        shiftCuts(p, id, ids, by),
  ),
  fc.tuple(blockId, cutIds).map(
    ([id, ids]): Edit =>
      (p) =>
        removeCuts(p, id, ids),
  ),
  fc.tuple(blockId, cutIds).map(
    ([id, ids]): Edit =>
      (p) =>
        setCutRole(p, id, ids, 'seam'),
  ),
  fc.tuple(blockId, fc.array(point, { maxLength: 3 }), fc.option(fabricId)).map(
    ([id, at, fabric]): Edit =>
      (p) =>
        paintPatches(p, id, at, fabric),
  ),
  fc.tuple(name, color).map(
    ([to, hex]): Edit =>
      (p) =>
        addFabric(p, { name: to, color: hex }),
  ),
  fc.tuple(fabricId, name, color).map(
    ([id, to, hex]): Edit =>
      (p) =>
        updateFabric(p, id, { name: to, color: hex }),
  ),
  fabricId.map(
    (id): Edit =>
      (p) =>
        removeFabric(p, id),
  ),
);

describe('any run of edits, with good values and bad', () => {
  it('leaves a project that saves and opens as itself, and never changes the project before', () => {
    fc.assert(
      fc.property(fc.array(edit, { maxLength: 25 }), (edits) => {
        let project = harbour;
        for (const change of edits) {
          project = frozen(change(project));
          expect(openFile(toText(project))).toEqual({ ok: true, project });
        }
      }),
      { numRuns: 300 },
    );
  });

  it('is the same work done twice', () => {
    fc.assert(
      fc.property(fc.array(edit, { maxLength: 25 }), (edits) => {
        const once = edits.reduce((project, change) => change(project), harbour);
        expect(edits.reduce((project, change) => change(project), harbour)).toEqual(once);
      }),
    );
  });
});

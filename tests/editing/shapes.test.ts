import { describe, expect, it } from 'vitest';
import { addCuts } from '../../src/document/edit-cuts.ts';
import { outlineOf } from '../../src/document/outline.ts';
import type { Block } from '../../src/document/project.ts';
import { readValues, type Target, type Values } from '../../src/editing/forms/form.ts';
import { FORMS, formNamed } from '../../src/editing/forms/forms.ts';
import { boxOf, signedArea } from '../../src/geometry/ring.ts';
import { piece } from '../../src/piecing/piece.ts';
import { projectWith, WINDOW } from './window.ts';

const SQUARE: Block = { ...WINDOW, cuts: [] };
const HEXAGON: Block = { ...SQUARE, outline: outlineOf({ kind: 'hexagon', side: 4 }) };

function target(block: Block, more: Partial<Target> = {}): Target {
  return { block, unit: 'in', cuts: [], chosen: null, patch: null, gridIn: 1 / 4, crosshair: null, ...more };
}

/** The block after a form's work; throws what it refuses with. */
function made(name: string, on: Target, values: Values): Block {
  const work = formNamed(name)!.work(on, values);
  if (!work.ok) throw new Error(work.error);
  return work.change(projectWith(on.block)).blocks[0]!;
}

const areas = (block: Block): readonly number[] =>
  piece(block)
    .patches.map(({ polygon }) => signedArea(polygon))
    .toSorted((a, b) => a - b);

describe('lines beside a cut', () => {
  it('lie at the distance and end on the lines the cut ends on', () => {
    const block = made('parallel', target(WINDOW, { cuts: WINDOW.cuts }), {
      distance: 1.5,
      count: 3,
      side: 'right',
    });
    expect(block.cuts.slice(1).map(({ from, to }) => [from, to])).toEqual([
      [
        [0, 5.5],
        [12, 5.5],
      ],
      [
        [0, 7],
        [12, 7],
      ],
      [
        [0, 8.5],
        [12, 8.5],
      ],
    ]);
  });

  it('follow slanted edges', () => {
    const level: Block = {
      ...HEXAGON,
      cuts: [{ id: 'c1', from: [0, 3.4641], to: [8, 3.4641], role: 'auto' }],
    };
    const block = made('parallel', target(level, { cuts: level.cuts }), {
      distance: 1,
      count: 1,
      side: 'both',
    });
    // A regular hexagon narrows by 2/√3 for every unit away from its widest line.
    for (const { from, to } of block.cuts.slice(1))
      expect(Math.abs(to[0] - from[0])).toBeCloseTo(8 - 2 / Math.sqrt(3), 3);
    expect(piece(block).patches).toHaveLength(4);
  });

  it('are refused where none fits', () => {
    expect(() =>
      made('parallel', target(WINDOW, { cuts: WINDOW.cuts }), { distance: 9, count: 1, side: 'right' }),
    ).toThrow(/No line/);
  });
});

describe('dividing evenly', () => {
  it('parts a patch into strips of one width', () => {
    const [patch] = piece(SQUARE).patches;
    const block = made('divide', target(SQUARE, { patch: patch! }), { parts: 5, way: '0' });
    expect(areas(block)).toEqual(Array.from({ length: 5 }, () => expect.closeTo(144 / 5, 3)));
  });

  it('parts an edge with lines square to it, or marks spots', () => {
    const on = target(SQUARE, { chosen: { kind: 'edge', edge: 0 } });
    const block = made('divide', on, { parts: 3, as: 'lines' });
    expect(areas(block)).toEqual([48, 48, 48].map((area) => expect.closeTo(area, 3)));
    expect(formNamed('divide')!.work(on, { parts: 4, as: 'marks' })).toMatchObject({
      divisions: [
        [3, 0],
        [6, 0],
        [9, 0],
      ],
    });
  });

  it('parts a cut into equal ones', () => {
    const block = made('divide', target(WINDOW, { cuts: WINDOW.cuts }), { parts: 4, as: 'cuts' });
    expect(block.cuts.map(({ from, to }) => [from[0], to[0]])).toEqual([
      [0, 3],
      [3, 6],
      [6, 9],
      [9, 12],
    ]);
    expect(new Set(block.cuts.map(({ id }) => id)).size).toBe(4);
  });
});

describe('rays', () => {
  it('part the angle of a corner evenly', () => {
    const block = made('rays', target(SQUARE, { chosen: { kind: 'corner', corner: 3 } }), {
      from: 'corner',
      count: 3,
    });
    const angles = block.cuts.map(
      ({ from, to }) => (Math.atan2(from[1] - to[1], to[0] - from[0]) * 180) / Math.PI,
    );
    expect(angles.toSorted((a, b) => a - b)).toEqual([expect.closeTo(30, 3), expect.closeTo(60, 3)]);
    expect(piece(block).verdict).toBe('one-foundation');
  });

  it('part a square round its middle into equal areas', () => {
    const block = made('rays', target(SQUARE), { across: 6, down: 6, count: 8, first: 90 });
    expect(areas(block)).toEqual(Array.from({ length: 8 }, () => expect.closeTo(18, 3)));
  });
});

describe('rings', () => {
  it.each([
    ['a square', SQUARE, 4],
    ['a hexagon', HEXAGON, 6],
  ] as const)('log cabin rounds in %s sew on one foundation', (_, block, sides) => {
    const cabin = made('rings', target(block), { distance: 1, count: 2, style: 'cabin' });
    expect(cabin.cuts).toHaveLength(2 * sides);
    const plan = piece(cabin);
    // A log cabin is pieced round by round from its centre on one foundation: common practice.
    expect(plan.verdict).toBe('one-foundation');
    expect(plan.patches).toHaveLength(2 * sides + 1);
  });

  it('lie at equal distances inside', () => {
    const block = made('rings', target(SQUARE), { distance: 1.25, count: 3, style: 'closed' });
    for (let ring = 0; ring < 3; ring++) {
      const ends = block.cuts.slice(4 * ring, 4 * ring + 4).map(({ from }) => from);
      const inset = 1.25 * (ring + 1);
      expect(boxOf(ends)).toEqual({ minX: inset, minY: inset, maxX: 12 - inset, maxY: 12 - inset });
    }
  });

  it('are refused where they do not fit', () => {
    expect(() => made('rings', target(SQUARE), { distance: 2, count: 4, style: 'closed' })).toThrow(
      'Only 2 rings fit.',
    );
    expect(() => made('rings', target(SQUARE), { distance: 7, count: 1, style: 'closed' })).toThrow(
      'No ring fits',
    );
    const bent: Block = {
      ...SQUARE,
      outline: [
        [0, 0],
        [12, 0],
        [12, 12],
        [6, 6],
        [0, 12],
      ],
    };
    expect(() => made('rings', target(bent), { distance: 1, count: 1, style: 'cabin' })).toThrow(/inward/);
  });
});

describe('the size of a block', () => {
  it('changes with or without what is drawn', () => {
    const along = made('size', target(WINDOW), { width: 6, height: 18, drawing: 'along' });
    expect(along.cuts[0]).toMatchObject({ from: [0, 6], to: [6, 6] });
    const stays = made('size', target(WINDOW), { width: 6, height: 18, drawing: 'stays' });
    expect(stays.outline).toEqual(along.outline);
    expect(stays.cuts[0]).toMatchObject({ from: [0, 4], to: [12, 4] });
  });
});

describe('turning, mirroring and repeating', () => {
  const spoke: Block = { ...SQUARE, cuts: [{ id: 'c1', from: [6, 6], to: [6, 0], role: 'auto' }] };

  it('repeats round the middle', () => {
    const block = made('repeat', target(spoke, { cuts: spoke.cuts }), { fold: '4' });
    expect(areas(block)).toEqual([36, 36, 36, 36].map((area) => expect.closeTo(area, 3)));
    // Once more changes nothing: every image is there.
    expect(made('repeat', target(block, { cuts: block.cuts }), { fold: '4' })).toBe(block);
  });

  it('turns against the clock, about what is chosen or the block', () => {
    const block = made('turn', target(spoke, { cuts: spoke.cuts }), {
      degrees: 90,
      about: 'block',
      as: 'move',
    });
    expect(block.cuts[0]).toMatchObject({ from: [6, 6], to: [0, 6] });
    const own = made('turn', target(spoke, { cuts: spoke.cuts }), {
      degrees: 90,
      about: 'chosen',
      as: 'move',
    });
    expect(own.cuts[0]).toMatchObject({ from: [9, 3], to: [3, 3] });
  });

  it('mirrors as a copy', () => {
    const slanted: Block = { ...SQUARE, cuts: [{ id: 'c1', from: [0, 0], to: [6, 12], role: 'seam' }] };
    const block = made('mirror', target(slanted, { cuts: slanted.cuts }), {
      axis: 'upright',
      about: 'block',
      as: 'copy',
    });
    expect(block.cuts[1]).toMatchObject({ from: [12, 0], to: [6, 12], role: 'seam' });
  });
});

describe('aligning', () => {
  it('brings cuts to one line', () => {
    const two: Block = {
      ...SQUARE,
      cuts: [
        { id: 'c1', from: [2, 1], to: [2, 5], role: 'auto' },
        { id: 'c2', from: [3, 6], to: [4, 9], role: 'auto' },
      ],
    };
    const block = made('align', target(two, { cuts: two.cuts }), { to: 'top' });
    expect(block.cuts.map(({ from }) => from[1])).toEqual([1, 1]);
    expect(block.cuts[1]!.to).toEqual([4, 4]);
  });
});

describe('forms', () => {
  it('have one name each, and read their fields or say what is wrong', () => {
    expect(new Set(FORMS.map(({ name }) => name)).size).toBe(FORMS.length);
    const on = target(WINDOW, { cuts: WINDOW.cuts });
    const fields = formNamed('parallel')!.fields(on);
    expect(readValues(fields, { distance: '25.4 mm', count: '2', side: 'left' }, 'in')).toEqual({
      ok: true,
      values: { distance: 1, count: 2, side: 'left' },
    });
    const bad = readValues(fields, { distance: 'much', count: '0', side: 'left' }, 'in');
    expect(bad).toMatchObject({ ok: false, errors: { count: expect.stringMatching(/1 to 99/) } });
  });

  it('leave a project that they do not fit alone', () => {
    const project = projectWith(WINDOW);
    expect(addCuts(project, 'b1', [])).toBe(project);
    expect(FORMS.filter((form) => form.fits(target(WINDOW))).map(({ name }) => name)).toEqual([
      'rays',
      'rings',
      'size',
    ]);
  });
});

describe('a shape cut out of a patch', () => {
  const shape = (values: Values, block = SQUARE) =>
    made('shape', target(block, { patch: piece(block).patches.at(-1)! }), {
      first: 90,
      x: 6,
      y: 6,
      ...values,
    });

  it('has equal sides and leaves the rest around it: a hexagon’s area is 3√3/8 of its width squared', () => {
    const block = shape({ corners: 6, across: 4 });
    expect(block.cuts).toHaveLength(6);
    const [inner, outer] = areas(block) as [number, number];
    expect(inner).toBeCloseTo(((3 * Math.sqrt(3)) / 8) * 16, 3);
    // The ring around it is drawn with its hole.
    expect(outer).toBeCloseTo(144, 3);
    for (const { from, to } of block.cuts)
      expect(Math.hypot(to[0] - from[0], to[1] - from[1])).toBeCloseTo(2, 3);
  });

  it('ends at the edges of its patch, and is refused where nothing of it lies there', () => {
    const block = shape({ corners: 4, across: 6, x: 12, y: 6 });
    expect(block.cuts).toHaveLength(2);
    expect(piece(block).patches).toHaveLength(2);
    expect(() => shape({ corners: 3, across: 1, x: 30 })).toThrow(/Nothing of the shape/);
    // Beyond the cut at 4 in, in another patch, nothing is drawn.
    for (const { from, to } of shape({ corners: 4, across: 6, y: 4 }, WINDOW).cuts.slice(1))
      expect(Math.min(from[1], to[1])).toBeGreaterThanOrEqual(4);
  });
});

describe('a cut bent into an arc', () => {
  it('keeps its ends and its role, and rises as high as asked to the side asked', () => {
    const pinned: Block = { ...WINDOW, cuts: [{ ...WINDOW.cuts[0]!, role: 'seam' }] };
    const bent = (side: string) =>
      made('bend', target(pinned, { cuts: pinned.cuts }), { height: 2, legs: 6, side }).cuts;
    for (const [side, top] of [
      ['left', 2],
      ['right', 6],
    ] as const) {
      const cuts = bent(side);
      expect(cuts).toHaveLength(6);
      expect(cuts.every(({ role }) => role === 'seam')).toBe(true);
      expect([cuts[0]!.from, cuts.at(-1)!.to]).toEqual([
        [0, 4],
        [12, 4],
      ]);
      expect(cuts[2]!.to[1]).toBeCloseTo(top, 3);
    }
    expect(piece({ ...pinned, cuts: bent('left') }).patches).toHaveLength(2);
  });
});

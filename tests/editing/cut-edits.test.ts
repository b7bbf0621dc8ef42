import { describe, expect, it } from 'vitest';
import { outlineOf } from '../../src/document/outline.ts';
import type { Block, Cut, Project } from '../../src/document/project.ts';
import {
  setCutsAngle,
  setCutsEnd,
  setCutsLength,
  setEdgeAngle,
  setEdgeLength,
} from '../../src/editing/cut-edits.ts';
import { formNamed } from '../../src/editing/forms/forms.ts';
import { addCorner } from '../../src/editing/reshape.ts';
import { cornerStory, edgeStory } from '../../src/editing/whereabouts.ts';
import { distance, signedArea } from '../../src/geometry/ring.ts';
import { piece } from '../../src/piecing/piece.ts';
import { projectWith, WINDOW } from './window.ts';

const cut = (id: string, from: Cut['from'], to: Cut['to']): Cut => ({ id, from, to, role: 'auto' });

/** Three cuts of a rope, each beginning where the one before ends, and one that stands alone. */
const ROPE: Block = {
  ...WINDOW,
  cuts: [
    cut('c1', [1, 6], [3, 6]),
    cut('c2', [3, 6], [3, 9]),
    cut('c3', [3, 9], [7, 9]),
    cut('c4', [8, 1], [8, 4]),
  ],
};

const changed = (block: Block, change: (project: Project) => Project): Block =>
  change(projectWith(block)).blocks[0]!;

const lengths = ({ cuts }: Block) => cuts.map(({ from, to }) => distance(from, to));

describe('numbers set for several cuts', () => {
  it.each([
    ['in turn', ['c1', 'c2', 'c3', 'c4']],
    ['the other way round', ['c4', 'c3', 'c2', 'c1']],
  ])('give all one length, each its own direction, the rope unbroken, %s', (_, ids) => {
    const block = changed(ROPE, (project) => setCutsLength(project, 'b1', ids, 2.5));
    expect(lengths(block)).toEqual([2.5, 2.5, 2.5, 2.5]);
    expect(block.cuts.map(({ from, to }) => [from, to])).toEqual([
      [
        [1, 6],
        [3.5, 6],
      ],
      [
        [3.5, 6],
        [3.5, 8.5],
      ],
      [
        [3.5, 8.5],
        [6, 8.5],
      ],
      [
        [8, 1],
        [8, 3.5],
      ],
    ]);
  });

  it('give all one angle, each its own length', () => {
    const block = changed(ROPE, (project) => setCutsAngle(project, 'b1', ['c1', 'c3'], 90));
    expect(block.cuts[0]).toMatchObject({ from: [1, 6], to: [1, 4] });
    expect(block.cuts[2]).toMatchObject({ from: [3, 9], to: [3, 5] });
    // What hung on the end of the first goes with it; the last stays.
    expect(block.cuts[1]!.from).toEqual([1, 4]);
    expect(block.cuts[3]).toBe(ROPE.cuts[3]);
  });

  it('put their ends on one line, and leave locked ones', () => {
    const locked: Block = {
      ...ROPE,
      cuts: ROPE.cuts.map((one) => (one.id === 'c4' ? { ...one, locked: true } : one)),
    };
    const block = changed(locked, (project) => setCutsEnd(project, 'b1', ['c3', 'c4'], 'to', { x: 10 }));
    expect(block.cuts[2]!.to).toEqual([10, 9]);
    expect(block.cuts[3]).toBe(locked.cuts[3]);
  });

  it('keep the paint of every patch', () => {
    const painted: Block = {
      ...WINDOW,
      cuts: [cut('c1', [0, 4], [12, 4]), cut('c2', [0, 8], [12, 8])],
      patches: [
        { id: 'p1', at: [6, 2], fabric: 'f1' },
        { id: 'p2', at: [6, 6], fabric: 'f2' },
      ],
    };
    const block = changed(painted, (project) => setCutsEnd(project, 'b1', ['c1', 'c2'], 'to', { y: 6 }));
    expect(
      piece(block)
        .patches.map(({ fabric }) => fabric)
        .toSorted(),
    ).toEqual(['f1', 'f2', null]);
  });
});

describe('moving by numbers', () => {
  const move = formNamed('move')!;
  const target = (more: object) => ({
    block: ROPE,
    unit: 'in' as const,
    cuts: ROPE.cuts.slice(0, 2),
    chosen: null,
    patch: null,
    gridIn: 1 / 4,
    crosshair: null,
    ...more,
  });
  const done = (on: ReturnType<typeof target>, values: Record<string, number | string>): Block => {
    const work = move.work(on, values);
    if (!work.ok) throw new Error(work.error);
    return changed(on.block, work.change);
  };

  it('shifts cuts together, or sets copies of them', () => {
    const moved = done(target({}), { across: 0.5, down: -1.25, as: 'move' });
    expect(moved.cuts[0]).toMatchObject({ from: [1.5, 4.75], to: [3.5, 4.75] });
    const copied = done(target({}), { across: 2, down: 0, as: 'copy' });
    expect(copied.cuts.slice(4).map(({ from, to }) => [from, to])).toEqual([
      [
        [3, 6],
        [5, 6],
      ],
      [
        [5, 6],
        [5, 9],
      ],
    ]);
    expect(() => done(target({}), { across: 0, down: 0, as: 'copy' })).toThrow(/same spot/);
  });

  it('shifts a corner of the outline', () => {
    const block = done(target({ cuts: [], chosen: { kind: 'corner', corner: 2 } }), { across: -2, down: 1 });
    expect(block.outline[2]).toEqual([10, 13]);
  });
});

describe('an edge of the outline by numbers', () => {
  it('gets a length and an angle; what ends on it follows', () => {
    const longer = changed(WINDOW, (project) => setEdgeLength(project, 'b1', 1, 8));
    expect(longer.outline).toEqual([
      [0, 0],
      [12, 0],
      [12, 8],
      [0, 12],
    ]);
    expect(longer.cuts[0]!.to).toEqual([12, 4]);
    const turned = changed(WINDOW, (project) => setEdgeAngle(project, 'b1', 0, 330));
    // 12 in at 30° down to the right: cos 30° = √3/2 across, sin 30° = 1/2 down.
    expect(turned.outline[1]![0]).toBeCloseTo(6 * Math.sqrt(3), 4);
    expect(turned.outline[1]![1]).toBeCloseTo(6, 4);
  });

  it('gets a corner in its middle, and the area stays', () => {
    const block = changed(WINDOW, (project) => addCorner(project, 'b1', 3));
    expect(block.outline).toHaveLength(5);
    expect(block.outline[4]).toEqual([0, 6]);
    expect(signedArea(block.outline)).toBe(144);
    expect(piece(block).patches).toHaveLength(2);
  });
});

describe('corners and edges in words', () => {
  it('tell where they are, how wide, how long, and what ends there', () => {
    expect(cornerStory(WINDOW, 1, 'in')).toBe('top right corner, 12, 0 in, 90° inside');
    expect(edgeStory(WINDOW, 3, 'in')).toBe(
      'left edge, from bottom left corner to top left corner, 12 in long, line 1 ends on it',
    );
    expect(edgeStory(WINDOW, 0, 'mm')).toBe(
      'top edge, from top left corner to top right corner, 304.8 mm long',
    );
  });

  it('know every inside angle, whichever way the outline goes round', () => {
    // A regular hexagon has 120° at each corner; an inward corner has more than 180°.
    const hexagon: Block = { ...WINDOW, cuts: [], outline: outlineOf({ kind: 'hexagon', side: 3 }) };
    for (const outline of [hexagon.outline, hexagon.outline.toReversed()])
      for (let corner = 0; corner < 6; corner++)
        expect(cornerStory({ ...hexagon, outline }, corner, 'in')).toContain('120° inside');
    const bent: Block = {
      ...hexagon,
      outline: [
        [0, 0],
        [6, 0],
        [3, 3],
        [6, 6],
        [0, 6],
      ],
    };
    expect(cornerStory(bent, 2, 'in')).toContain('270° inside');
  });
});

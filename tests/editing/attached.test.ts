import { describe, expect, it } from 'vitest';
import type { Block } from '../../src/document/project.ts';
import {
  moveCornerAttached,
  moveEdgeAttached,
  moveEnd,
  shiftCutsAttached,
} from '../../src/editing/reshape.ts';
import type { Point, Ring } from '../../src/geometry/point.ts';
import { piece } from '../../src/piecing/piece.ts';
import { projectWith } from './window.ts';

/** What is attached stays attached: checked against where a ruler on paper would put it. */

const SQUARE: Ring = [
  [0, 0],
  [6, 0],
  [6, 6],
  [0, 6],
];

const blockOf = (outline: Ring, ...cuts: readonly (readonly [number, number, number, number])[]): Block => ({
  id: 'b1',
  name: 'Breakwater',
  outline,
  cuts: cuts.map(([ax, ay, bx, by], k) => ({ id: `c${k + 1}`, from: [ax, ay], to: [bx, by], role: 'auto' })),
  patches: [],
});

const open = (project: ReturnType<typeof projectWith>): Block => project.blocks[0]!;

const endsOf = (block: Block): readonly (readonly [Point, Point])[] =>
  block.cuts.map(({ from, to }) => [from, to]);

describe('joints move as one', () => {
  it('a joint of two cuts on a line that is shifted goes with the line', () => {
    // A level line, and a gable of two slants that stand on its middle.
    const block = blockOf(SQUARE, [0, 3, 6, 3], [3, 3, 0, 6], [3, 3, 6, 6]);
    const moved = open(shiftCutsAttached(projectWith(block), 'b1', ['c1'], [0, 1]));
    expect(endsOf(moved)).toEqual([
      [
        [0, 4],
        [6, 4],
      ],
      [
        [3, 4],
        [0, 6],
      ],
      [
        [3, 4],
        [6, 6],
      ],
    ]);
    expect(piece(moved).patches).toHaveLength(4);
  });

  it('a joint of three ends goes where one of them is put', () => {
    const block = blockOf(SQUARE, [0, 0, 3, 3], [6, 0, 3, 3], [3, 6, 3, 3]);
    const moved = open(moveEnd(projectWith(block), 'b1', 'c3', 'to', [3, 2]));
    expect(endsOf(moved).map(([, to]) => to)).toEqual([
      [3, 2],
      [3, 2],
      [3, 2],
    ]);
  });

  it('a joint on the edge beside a moved corner stays on that edge', () => {
    const block = blockOf(SQUARE, [3, 0, 0, 6], [3, 0, 6, 6]);
    const moved = open(moveCornerAttached(projectWith(block), 'b1', 1, [6, -2]));
    expect(endsOf(moved).map(([from]) => from)).toEqual([
      [3, -1],
      [3, -1],
    ]);
  });

  it('what a line that stays passes through holds, and what is locked holds too', () => {
    // The upright goes right through the joint: it holds the end of the slant when the level line goes.
    const held = blockOf(SQUARE, [0, 3, 6, 3], [3, 0, 3, 6], [3, 3, 6, 6]);
    const moved = open(shiftCutsAttached(projectWith(held), 'b1', ['c1'], [0, 1]));
    expect(moved.cuts[2]!.from).toEqual([3, 3]);
    const gable = blockOf(SQUARE, [0, 3, 6, 3], [3, 3, 0, 6], [3, 3, 6, 6]);
    const locked: Block = {
      ...gable,
      cuts: gable.cuts.map((cut) => (cut.id === 'c2' ? { ...cut, locked: true as const } : cut)),
    };
    const beside = open(shiftCutsAttached(projectWith(locked), 'b1', ['c1'], [0, 1]));
    expect(beside.cuts.slice(1)).toEqual(locked.cuts.slice(1));
  });
});

describe('an edge of the outline moved as a whole', () => {
  it('makes a rectangle wider: it stays a rectangle, cuts that end on the edge reach it, the others stay', () => {
    // A level cut to the edge, an upright one beside it, a diagonal into the corner.
    const block = blockOf(SQUARE, [0, 2, 6, 2], [4, 2, 4, 6], [4, 6, 6, 2], [0, 6, 4, 2]);
    const moved = open(moveEdgeAttached(projectWith(block), 'b1', 1, [2, 0.75]));
    expect(moved.outline).toEqual([
      [0, 0],
      [8, 0],
      [8, 6],
      [0, 6],
    ]);
    expect(endsOf(moved)).toEqual([
      [
        [0, 2],
        [8, 2],
      ],
      [
        [4, 2],
        [4, 6],
      ],
      // Two cuts end at [6, 2]: they go there together.
      [
        [4, 6],
        [8, 2],
      ],
      [
        [0, 6],
        [4, 2],
      ],
    ]);
  });

  it('takes a cut into its corner along, and keeps fabrics where they are', () => {
    const block: Block = {
      ...blockOf(SQUARE, [0, 6, 6, 0]),
      patches: [
        { id: 'p1', at: [1, 1], fabric: 'f1' },
        { id: 'p2', at: [5, 5], fabric: 'f2' },
      ],
    };
    const moved = open(moveEdgeAttached(projectWith(block), 'b1', 0, [0, -2]));
    expect(moved.outline[1]).toEqual([6, -2]);
    expect(endsOf(moved)).toEqual([
      [
        [0, 6],
        [6, -2],
      ],
    ]);
    expect(
      piece(moved)
        .patches.map(({ fabric }) => fabric)
        .toSorted(),
    ).toEqual(['f1', 'f2']);
  });

  it('keeps the angles of a hexagon: pushed in by half its height over the middle, the edge is as long as the width there', () => {
    // A regular hexagon of side 2 in, a corner left and right: Euclid's Elements, book IV, proposition 15.
    const high = Math.sqrt(3);
    const hexagon: Ring = [
      [1, 0],
      [3, 0],
      [4, high],
      [3, 2 * high],
      [1, 2 * high],
      [0, high],
    ];
    const moved = open(moveEdgeAttached(projectWith(blockOf(hexagon)), 'b1', 0, [0, high / 2]));
    expect(moved.outline[0]![0]).toBeCloseTo(0.5, 4);
    expect(moved.outline[1]![0]).toBeCloseTo(3.5, 4);
    expect(moved.outline[1]![1]).toBeCloseTo(high / 2, 4);
    expect(moved.outline.slice(2)).toEqual(
      open(moveEdgeAttached(projectWith(blockOf(hexagon)), 'b1', 0, [0, 0])).outline.slice(2),
    );
  });

  it('goes plainly from a corner in the middle of a straight side', () => {
    const house: Ring = [
      [0, 0],
      [3, 0],
      [6, 0],
      [6, 6],
      [0, 6],
    ];
    const moved = open(moveEdgeAttached(projectWith(blockOf(house)), 'b1', 0, [0, -1]));
    expect(moved.outline).toEqual([
      [0, -1],
      [3, -1],
      [6, 0],
      [6, 6],
      [0, 6],
    ]);
  });

  it('does not go where nothing would be left of its neighbours', () => {
    const project = projectWith(blockOf(SQUARE, [0, 2, 6, 2]));
    expect(moveEdgeAttached(project, 'b1', 1, [-6, 0])).toBe(project);
    expect(moveEdgeAttached(project, 'b1', 1, [-7, 0])).toBe(project);
    expect(moveEdgeAttached(project, 'b1', 1, [0, 3])).toBe(project);
    expect(moveEdgeAttached(project, 'b1', 9, [1, 0])).toBe(project);
    // A triangle cannot be pushed through its tip.
    const sail = projectWith(
      blockOf([
        [0, 6],
        [6, 6],
        [3, 0],
      ]),
    );
    expect(moveEdgeAttached(sail, 'b1', 0, [0, -6.5])).toBe(sail);
    // Nor an inner side through the side opposite.
    const bay = projectWith(
      blockOf([
        [0, 0],
        [2, 0],
        [2, 4],
        [4, 4],
        [4, 0],
        [6, 0],
        [6, 6],
        [0, 6],
      ]),
    );
    expect(moveEdgeAttached(bay, 'b1', 2, [0, 3])).toBe(bay);
  });
});

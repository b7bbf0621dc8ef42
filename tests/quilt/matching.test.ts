import { describe, expect, it } from 'vitest';
import type { BlockPlace } from '../../src/document/quilt.ts';
import type { Point } from '../../src/geometry/point.ts';
import type { Block } from '../../src/piecing/block.ts';
import { piece } from '../../src/piecing/piece.ts';
import { joiningOf } from '../../src/quilt/joining.ts';
import { layOut } from '../../src/quilt/layout.ts';
import { matchingOf, rimSpots } from '../../src/quilt/matching.ts';
import { box } from './places.ts';

function block(id: string, ...cuts: readonly (readonly [Point, Point])[]): Block {
  return {
    id,
    name: id,
    outline: box(6, 6),
    cuts: cuts.map(([from, to], k) => ({ id: `c${k}`, from, to, role: 'auto' })),
    patches: [],
  };
}

const place = (id: string, of: string, x: number, y: number, turn = 0, mirrored = false): BlockPlace => ({
  id,
  block: of,
  at: [x, y],
  turn,
  mirrored,
});

function matched(blocks: readonly Block[], places: readonly BlockPlace[]) {
  const layout = layOut({ places }, blocks);
  const joined = joiningOf(layout);
  if (!joined.ok) throw new Error(joined.why);
  const patches = new Map(blocks.map((one) => [one.id, piece(one).patches]));
  return matchingOf(layout, joined.plan.steps, blocks, (id) => patches.get(id) ?? null);
}

const third = block('third', [
  [0, 2],
  [6, 2],
]);
const diagonal = block('diagonal', [
  [0, 0],
  [6, 6],
]);

const ends = (of: Block) =>
  rimSpots(piece(of).patches)
    .map(({ inBlock }) => inBlock)
    .sort();

describe('where seams of a block end at its edge', () => {
  it('is told once each, corners too', () => {
    expect(ends(third)).toEqual([
      [0, 2],
      [6, 2],
    ]);
    expect(ends(diagonal)).toEqual([
      [0, 0],
      [6, 6],
    ]);
  });
});

describe('two blocks side by side', () => {
  const kinds = (places: readonly BlockPlace[], blocks: readonly Block[]) =>
    matched(blocks, places).pinned[0]!.points.map(({ kind, at }) => [kind, at[1]]);

  it('the same block matches itself at one third', () => {
    expect(kinds([place('p1', 'third', 0, 0), place('p2', 'third', 6, 0)], [third])).toEqual(
      [
        ['end', 0],
        ['match', 2],
        ['guide', 4],
        ['end', 6],
      ].filter(([kind]) => kind !== 'guide'),
    );
  });

  it('turned over, each seam meets the joint alone', () => {
    expect(kinds([place('p1', 'third', 0, 0), place('p2', 'third', 6, 0, 2)], [third])).toEqual([
      ['end', 0],
      ['junction', 2],
      ['junction', 4],
      ['end', 6],
    ]);
  });

  it('a quarter apart is a near miss, a hair more is none, and the same spot is a match', () => {
    const miss = (off: number) => {
      const other = block('other', [
        [0, 2 + off],
        [6, 2 + off],
      ]);
      return matched([third, other], [place('p1', 'third', 0, 0), place('p2', 'other', 6, 0)]).nearMisses;
    };
    expect(miss(0.25).map(({ distance, a, b }) => [distance, a.inBlock, b.inBlock])).toEqual([
      [0.25, [6, 2], [0, 2.25]],
    ]);
    expect(miss(0.2501 + 1 / 512)).toEqual([]);
    expect(miss(0)).toEqual([]);
  });

  it('is told in the block’s own frame however it is turned and mirrored', () => {
    const off = block('off', [
      [0, 4.125],
      [6, 4.125],
    ]);
    const [found] = matched(
      [third, off],
      [place('p1', 'third', 0, 0), place('p2', 'off', 6, 0, 2, true)],
    ).nearMisses;
    // Upside down 4 1/8 from the top is 1 7/8.
    expect(found!.distance).toBeCloseTo(0.125, 9);
    expect(found!.b.inBlock[1]).toBe(4.125);
  });
});

describe('bulk', () => {
  it('four blocks of two seams into each corner make more than eight in the middle', () => {
    const fan = block(
      'fan',
      [
        [0, 0],
        [6, 3],
      ],
      [
        [0, 0],
        [3, 6],
      ],
    );
    const places = [
      place('p1', 'fan', 0, 0, 2),
      place('p2', 'fan', 6, 0, 3),
      place('p3', 'fan', 0, 6, 1),
      place('p4', 'fan', 6, 6, 0),
    ];
    const { bulk } = matched([fan], places);
    expect(bulk).toEqual([{ at: [6, 6], seams: 12 }]);
  });

  it('a plain crossing is none', () => {
    const places = [0, 6].flatMap((y) => [0, 6].map((x) => place(`p${x}${y}`, 'third', x, y)));
    expect(matched([third], places).bulk).toEqual([]);
  });
});

describe('a block without a plan yet', () => {
  it('is waited for, and the joints are told without it', () => {
    const places = [place('p1', 'third', 0, 0), place('p2', 'third', 6, 0)];
    const layout = layOut({ places }, [third]);
    const joined = joiningOf(layout);
    const found = matchingOf(layout, joined.ok ? joined.plan.steps : [], [third], () => null);
    expect(found.waiting).toEqual(['third']);
    expect(found.pinned[0]!.points.filter(({ kind }) => kind === 'end').length).toBe(2);
  });
});

import { describe, expect, it } from 'vitest';
import { addDrawnBlock } from '../../src/document/add-drawn-block.ts';
import { duplicateBlock } from '../../src/document/edit-block.ts';
import { addCut, addCuts, moveCut, removeCuts, shiftCuts } from '../../src/document/edit-cuts.ts';
import { moveCorner, scaleBlock, setOutline } from '../../src/document/edit-outline.ts';
import { paintPatch, paintPatches } from '../../src/document/edit-paint.ts';
import { setOrder } from '../../src/document/edit-plan.ts';
import { MIRRORS, turnBlock, turnBy } from '../../src/document/edit-turn.ts';
import type { Block, Project } from '../../src/document/project.ts';
import type { Point } from '../../src/geometry/point.ts';
import { piece } from '../../src/piecing/piece.ts';
import { blockOf, frozen, harbour, quarters } from './projects.ts';

/** The fabric seen at a spot, as the piecing plan has it; null for bare, undefined for no patch. */
function seenAt(block: Block, [x, y]: Point): string | null | undefined {
  const inRing = (ring: readonly Point[]) =>
    ring.reduce((inside, [ax, ay], i) => {
      const [bx, by] = ring[(i + 1) % ring.length]!;
      return ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax) ? !inside : inside;
    }, false);
  const patch = piece(block).patches.find(({ polygon, holes }) => inRing(polygon) && !holes.some(inRing));
  return patch?.fabric;
}

const paintOf = ({ patches }: Block) => patches.filter(({ fabric }) => fabric !== undefined);

const seen = (project: Project, ...spots: Point[]) => spots.map((spot) => seenAt(blockOf(project), spot));

describe('painting', () => {
  it('lays fabric on the patch at a spot, moves it to the inmost spot, replaces what lay there', () => {
    const painted = paintPatch(harbour, 'b1', [11.9, 0.1], 'f3');
    expect(seen(painted, [3, 3], [9, 3], [9, 9], [3, 9])).toEqual(['f1', 'f3', 'f2', null]);
    const [x, y] = blockOf(painted).patches[2]!.at;
    expect(Math.hypot(x - 9, y - 3)).toBeLessThan(0.1);
    const again = paintPatch(painted, 'b1', [7, 1], 'f1');
    expect(paintOf(blockOf(again))).toHaveLength(3);
    expect(seen(again, [9, 3])).toEqual(['f1']);
    expect(paintPatch(again, 'b1', [8, 2], 'f1')).toBe(again);
  });

  it('takes fabric off', () => {
    expect(paintOf(blockOf(paintPatch(harbour, 'b1', [1, 1], null)))).toEqual([quarters.patches[1]]);
    expect(paintPatch(harbour, 'b1', [9, 3], null)).toBe(harbour);
  });

  it('paints many at once, each once', () => {
    const all = paintPatches(
      harbour,
      'b1',
      [
        [3, 3],
        [4, 4],
        [9, 3],
        [3, 9],
      ],
      'f3',
    );
    expect(seen(all, [3, 3], [9, 3], [9, 9], [3, 9])).toEqual(['f3', 'f3', 'f2', 'f3']);
    expect(paintOf(blockOf(all))).toHaveLength(4);
  });

  it('does nothing beside the block, in a block that is not there, or with a fabric that is not there', () => {
    expect(paintPatch(harbour, 'b1', [13, 13], 'f3')).toBe(harbour);
    expect(paintPatch(harbour, 'b9', [3, 3], 'f3')).toBe(harbour);
    expect(paintPatch(harbour, 'b1', [3, 3], 'f9')).toBe(harbour);
  });

  it('shows the last of several paints on one patch, and leaves one', () => {
    const twice: Block = {
      ...quarters,
      patches: [...quarters.patches, { id: 'p5', at: [2, 2], fabric: 'f3' }, { id: 'p6', at: [1, 2] }],
    };
    const project = frozen({ ...harbour, blocks: [twice] });
    expect(seen(project, [3, 3])).toEqual(['f3']);
    expect(
      blockOf(paintPatch(project, 'b1', [3, 3], 'f1')).patches.filter(({ at }) => at[0] < 6 && at[1] < 6),
    ).toEqual([{ id: 'p5', at: [2, 2], fabric: 'f1' }]);
    expect(seen(addCut(project, 'b1', { from: [0, 1], to: [6, 1] }), [3, 0.5], [3, 3])).toEqual(['f3', 'f3']);
  });
});

describe('paint survives', () => {
  it('a new cut: both parts take the fabric', () => {
    const cut = addCut(harbour, 'b1', { from: [0, 2], to: [6, 2] });
    expect(seen(cut, [3, 1], [3, 4], [9, 3], [9, 9], [3, 9])).toEqual(['f1', 'f1', null, 'f2', null]);
  });

  it('as it is, to the point, where nothing changes', () => {
    const cut = addCut(harbour, 'b1', { from: [6, 3], to: [12, 3] });
    expect(blockOf(cut).patches).toContain(quarters.patches[1]);
    const bare = addCut(harbour, 'b1', { from: [1, 8], to: [2, 9] });
    expect(blockOf(bare).patches).toBe(quarters.patches);
  });

  it('a cut taken away: the larger part wins', () => {
    const wide = frozen(moveCut(moveCut(harbour, 'b1', 'c2', { from: [4, 0] }), 'b1', 'c2', { to: [4, 12] }));
    expect(seen(wide, [2, 3], [8, 3], [8, 9], [2, 9])).toEqual(['f1', null, 'f2', null]);
    const merged = removeCuts(wide, 'b1', ['c2']);
    expect(seen(merged, [6, 3], [6, 9])).toEqual([null, 'f2']);
  });

  it('a cut taken away between equal halves: fabric goes before none, then the earlier patch', () => {
    expect(seen(removeCuts(harbour, 'b1', ['c2']), [6, 3], [6, 9])).toEqual(['f1', 'f2']);
    expect(seen(removeCuts(harbour, 'b1', ['c1', 'c2']), [6, 6])).toEqual(['f1']);
  });

  it('a line moved past the spot where the paint lay', () => {
    const left = frozen(shiftCuts(harbour, 'b1', ['c2'], [-4, 0]));
    expect(seen(left, [1, 3], [4, 3], [9, 9], [1, 9])).toEqual(['f1', null, 'f2', null]);
    // Step by step across the whole width, as a drag does: the fabric stays with its side of the line.
    let project = harbour;
    for (const x of [5, 4, 3, 2, 1, 0.5])
      project = moveCut(project, 'b1', 'c2', { from: [x, 0], to: [x, 12] });
    expect(seen(project, [0.25, 3], [6, 3], [6, 9], [0.25, 9])).toEqual(['f1', null, 'f2', null]);
  });

  it('a line dragged in one go over most of its neighbour: what lies on either side keeps its fabric', () => {
    const both = frozen(
      paintPatches(
        harbour,
        'b1',
        [
          [9, 3],
          [3, 9],
        ],
        'f3',
      ),
    );
    const level = (y: number) => moveCut(both, 'b1', 'c1', { from: [0, y], to: [12, y] });
    for (const y of [11.5, 9, 6.25, 3, 0.5])
      expect(seen(level(y), [3, y / 2], [9, y / 2], [3, 6 + y / 2], [9, 6 + y / 2])).toEqual([
        'f1',
        'f3',
        'f3',
        'f2',
      ]);
  });

  it('a diagonal drawn the other way: both fabrics stay', () => {
    const leaf: Project = frozen({
      ...harbour,
      blocks: [
        {
          ...quarters,
          cuts: [{ id: 'c1', from: [0, 0], to: [12, 12], role: 'auto' }],
          patches: [
            { id: 'p1', at: [8, 4], fabric: 'f1' },
            { id: 'p2', at: [4, 8], fabric: 'f2' },
          ],
        },
      ],
    });
    const flipped = blockOf(moveCut(leaf, 'b1', 'c1', { from: [12, 0], to: [0, 12] }));
    expect(flipped.patches.map(({ id, fabric }) => `${id} ${fabric}`)).toEqual(['p1 f1', 'p2 f2']);
  });

  it('a corner of the outline drawn out or in', () => {
    const out = moveCorner(harbour, 'b1', 0, [-5, -5]);
    expect(seen(out, [2, 2], [9, 9])).toEqual(['f1', 'f2']);
    const inward = moveCorner(harbour, 'b1', 0, [4, 4]);
    expect(seen(inward, [5, 5.5], [9, 9])).toEqual(['f1', 'f2']);
  });

  it('a bad shape on the way: an outline that crosses itself keeps all paint, and back again nothing is lost', () => {
    const crossed = frozen(moveCorner(harbour, 'b1', 0, [18, 6]));
    expect(piece(blockOf(crossed)).verdict).toBe('broken');
    expect(blockOf(crossed).patches).toEqual(quarters.patches);
    expect(blockOf(moveCorner(crossed, 'b1', 0, [0, 0]))).toEqual(quarters);
  });

  it('an outline that leaves a painted patch outside: there is nothing to paint there', () => {
    const half = setOutline(harbour, 'b1', [
      [0, 0],
      [12, 0],
      [12, 5],
      [0, 5],
    ]);
    expect(seen(half, [3, 3], [9, 3])).toEqual(['f1', null]);
    expect(paintOf(blockOf(half))).toHaveLength(1);
  });

  it('round an island', () => {
    const island = (project: Project): Project =>
      (
        [
          [
            [4, 4],
            [8, 4],
          ],
          [
            [8, 4],
            [8, 8],
          ],
          [
            [8, 8],
            [4, 8],
          ],
          [
            [4, 8],
            [4, 4],
          ],
        ] as const
      ).reduce((grown, [from, to]) => addCut(grown, 'b2', { from, to }), project);
    const bare = paintPatch(harbour, 'b2', [6, 6], 'f1');
    const block = blockOf(island(bare), 'b2');
    expect(block.patches.map(({ fabric }) => fabric)).toEqual(['f1', 'f1']);
    const ring = paintPatch(island(bare), 'b2', [6, 6], 'f2');
    expect(seenAt(blockOf(ring, 'b2'), [6, 6])).toBe('f2');
    expect(
      blockOf(ring, 'b2')
        .patches.map(({ fabric }) => fabric)
        .sort(),
    ).toEqual(['f1', 'f2']);
  });

  it('any number of repeats: a cut added and removed brings every patch its fabric back', () => {
    let project = harbour;
    for (let i = 1; i < 12; i++) {
      const added = addCut(project, 'b1', { from: [0, i - 0.5], to: [12, 12 - i] });
      project = removeCuts(added, 'b1', ['c3']);
      expect(seen(project, [3, 3], [9, 3], [9, 9], [3, 9])).toEqual(['f1', null, 'f2', null]);
      expect(paintOf(blockOf(project))).toHaveLength(2);
    }
  });
});

describe('an order by hand survives', () => {
  /** A pier in four strips, sewn from the second: by hand the 2nd, 1st, 3rd, 4th. */
  const pier: Project = frozen({
    ...harbour,
    blocks: [
      {
        ...quarters,
        cuts: [3, 6, 9].map((x, i) => ({
          id: `c${i + 1}`,
          from: [x, 0] as const,
          to: [x, 12] as const,
          role: 'auto' as const,
        })),
        patches: [1.5, 4.5, 7.5, 10.5].map((x, i) => ({ id: `p${i + 1}`, at: [x, 6] as const })),
        orders: [['p2', 'p1', 'p3', 'p4']],
      },
    ],
  });
  /** Left edges of the patches in the order in which they are sewn. */
  const sewn = (project: Project): number[] =>
    piece(blockOf(project)).patches.map(({ polygon }) => Math.min(...polygon.map(([x]) => x)));
  const at = (project: Project, cut: string, x: number): Project =>
    frozen(moveCut(moveCut(project, 'b1', cut, { from: [x, 0] }), 'b1', cut, { to: [x, 12] }));

  it('moves of cuts, even past where every patch lay', () => {
    expect(sewn(pier)).toEqual([3, 0, 6, 9]);
    let project = pier;
    const now = (cut: string): number => blockOf(project).cuts.find(({ id }) => id === cut)!.from[0];
    const drag = (cut: string, to: number): void => {
      while (now(cut) !== to) project = at(project, cut, now(cut) + Math.sign(to - now(cut)) / 4);
    };
    for (const [cut, x] of [
      ['c1', 0.5],
      ['c2', 1],
      ['c3', 1.5],
      ['c3', 11.5],
      ['c2', 11],
      ['c1', 10.5],
    ] as const)
      drag(cut, x);
    expect(sewn(project)).toEqual([10.5, 0, 11, 11.5]);
    expect(blockOf(project).orders).toBe(blockOf(pier).orders);
  });

  it('a split: the larger part keeps its place, the new one follows where it can', () => {
    const split = addCut(pier, 'b1', { from: [4, 0], to: [4, 12] });
    expect(blockOf(split).patches.map(({ id }) => id)).toEqual(['p1', 'p2', 'p3', 'p4', 'p5']);
    expect(blockOf(split).patches[4]?.at[0]).toBe(3.5);
    const order = sewn(split);
    expect(order.indexOf(4)).toBeLessThan(order.indexOf(0));
    expect(order.indexOf(0)).toBeLessThan(order.indexOf(6));
  });

  it('a merge: the one that is let go leaves its place', () => {
    const merged = removeCuts(pier, 'b1', ['c1']);
    expect(blockOf(merged).orders).toEqual([['p1', 'p3', 'p4']]);
    expect(sewn(merged)).toEqual([0, 6, 9]);
    const two = removeCuts(removeCuts(pier, 'b1', ['c1']), 'b1', ['c2']);
    expect(blockOf(two).orders).toEqual([['p1', 'p4']]);
    // One that is left of several says nothing, and is not pinned as the first.
    expect('orders' in blockOf(removeCuts(two, 'b1', ['c3']))).toBe(false);
  });

  it('a patch pinned as the first stays pinned', () => {
    const pinned = setOrder(pier, 'b1', ['p3'], ['p1', 'p2', 'p3', 'p4']);
    expect(blockOf(pinned).orders).toEqual([['p3']]);
    expect(sewn(at(pinned, 'c2', 8))[0]).toBe(8);
  });

  it('a later order takes from those before it just the patches that it names', () => {
    const orders = (project: Project) => blockOf(project).orders;
    expect(orders(pier)).toHaveLength(1);
    const [first, second, third, last] = orders(pier)![0]!;
    expect(orders(setOrder(pier, 'b1', [last!, first!]))).toEqual([
      [second, third],
      [last, first],
    ]);
    expect(orders(setOrder(pier, 'b1', [last!, first!], [first!, second!, third!, last!]))).toEqual([
      [last, first],
    ]);
    expect(orders(setOrder(pier, 'b1', [], [second!]))).toEqual([[first, third, last]]);
  });

  it('turns, mirrors, sizes, copies', () => {
    const order = blockOf(pier).orders;
    const mirrored = turnBlock(pier, 'b1', MIRRORS.upright);
    expect(sewn(mirrored)).toEqual([6, 9, 3, 0]);
    for (const project of [mirrored, turnBlock(pier, 'b1', turnBy(90)), scaleBlock(pier, 'b1', 0.37, 2.1)]) {
      expect(blockOf(project).orders).toBe(order);
      expect(blockOf(project).patches.map(({ id }) => id)).toEqual(['p1', 'p2', 'p3', 'p4']);
    }
    const copied = duplicateBlock(pier, 'b1').blocks[1]!;
    expect([copied.patches, copied.orders]).toEqual([blockOf(pier).patches, order]);
  });
});

describe('a block that has been edited', () => {
  const bare: Project = frozen({ ...harbour, blocks: [{ ...quarters, patches: [] }] });
  const keys = (project: Project) =>
    new Map(piece(blockOf(project)).patches.map(({ polygon, key }) => [String(polygon), key]));

  it('has an entry for every patch, and its patches keep the keys they had without', () => {
    const before = keys(bare);
    const edited = addCut(bare, 'b1', { from: [6, 3], to: [12, 3] });
    expect(blockOf(edited).patches).toHaveLength(5);
    const after = keys(edited);
    expect([...after.values()]).toEqual(expect.arrayContaining([...before.values()]));
    expect(blockOf(paintPatch(bare, 'b1', [3, 3], 'f1')).patches).toHaveLength(4);
    expect(keys(paintPatch(bare, 'b1', [3, 3], 'f1'))).toEqual(before);
    expect(blockOf(setOrder(bare, 'b1', [...before.values()].slice(0, 2))).patches).toHaveLength(4);
  });

  it('drawn from nothing counts its patches from 1', () => {
    const grown = addDrawnBlock(harbour, {
      name: 'Buoy',
      outline: quarters.outline,
      cuts: quarters.cuts.map(({ from, to }) => [from, to] as const),
      paint: new Map([['f2', [[3, 3]]]]),
    });
    expect(grown.blocks[2]?.patches.map(({ id, fabric }) => [id, fabric])).toEqual([
      ['p1', 'f2'],
      ['p2', undefined],
      ['p3', undefined],
      ['p4', undefined],
    ]);
  });

  it('has one entry for a patch that had several, and orders by that one', () => {
    const several: Project = frozen({
      ...harbour,
      blocks: [
        { ...quarters, patches: [...quarters.patches, { id: 'p7', at: [2, 2] }], orders: [['p7', 'p2']] },
      ],
    });
    const edited = blockOf(addCut(several, 'b1', { from: [6, 3], to: [12, 3] }));
    expect(edited.patches.map(({ id }) => id)).toEqual(['p1', 'p2', 'p3', 'p4', 'p5']);
    expect(edited.orders).toEqual([['p1', 'p2']]);
  });

  it('that was moved as a whole has its entries where they were put, each in its own patch', () => {
    const patches = [
      { id: 'p1', at: [1, 1] as const, fabric: 'f1' },
      { id: 'p2', at: [9, 6 + 2 ** -16] as const },
      { id: 'p3', at: [9, 6 - 2 ** -16] as const },
      { id: 'p4', at: [3, 9] as const },
    ];
    const put: Project = frozen({ ...harbour, blocks: [{ ...quarters, patches }] });
    const mirrored = blockOf(turnBlock(put, 'b1', MIRRORS.upright));
    expect(mirrored.patches.map(({ at }) => at)).toEqual([
      [11, 1],
      [3, 6 + 2 ** -16],
      [3, 6 - 2 ** -16],
      [9, 9],
    ]);
    // Made lower, both spots would come to lie on the cut.
    const low = blockOf(scaleBlock(put, 'b1', 1, 0.25));
    expect(low.patches.map(({ id, at }) => [id, ...at])).toEqual([
      ['p1', 1, 0.25],
      ['p2', 9, 1.5],
      ['p3', 9, expect.closeTo(0.75, 1)],
      ['p4', 3, 2.25],
    ]);
  });

  it('takes up an entry that lay outside: as that of a new patch, or as the fabric of a bare one', () => {
    const away = { id: 'p9', at: [14, 3] as const, fabric: 'f3' };
    const widened = (cuts: Block['cuts']): Block => {
      const block: Block = {
        ...quarters,
        cuts,
        patches: [{ id: 'p1', at: [6, 6] }, away, { id: 'p10', at: [-2, 3] }],
      };
      const outline = [
        [0, 0],
        [16, 0],
        [16, 12],
        [0, 12],
      ] as const;
      return blockOf(setOutline(frozen({ ...harbour, blocks: [block] }), 'b1', outline));
    };
    const grown = widened([]);
    expect(grown.patches.map(({ id, fabric }) => [id, fabric])).toEqual([
      ['p1', 'f3'],
      ['p10', undefined],
    ]);
    // Here a cut along the old edge parts what has come from what was.
    const beside = widened([{ id: 'c1', from: [12, 0], to: [12, 12], role: 'auto' }]);
    expect(beside.patches).toEqual([{ id: 'p1', at: [6, 6] }, away, { id: 'p10', at: [-2, 3] }]);
  });

  it('of more patches than a block may have keeps its entries as they are', () => {
    const cuts = Array.from({ length: 45 }, (_, k) => (k + 1) / 4).flatMap((at) => [
      { from: [at, 0] as const, to: [at, 12] as const },
      { from: [0, at] as const, to: [12, at] as const },
    ]);
    const many = addCuts(harbour, 'b1', cuts);
    expect(blockOf(many).cuts.length).toBeGreaterThan(80);
    expect(blockOf(many).patches).toBe(quarters.patches);
    expect(paintPatch(many, 'b1', [3.1, 3.1], 'f3')).toBe(many);
  });
});

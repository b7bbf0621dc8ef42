import { describe, expect, it } from 'vitest';
import { addCut, moveCut, removeCuts, shiftCuts } from '../../src/document/edit-cuts.ts';
import { moveCorner, setOutline } from '../../src/document/edit-outline.ts';
import { paintPatch, paintPatches } from '../../src/document/edit-paint.ts';
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

import { describe, expect, it } from 'vitest';
import { removeCuts, setCutRole } from '../../src/document/edit-cuts.ts';
import type { Block, Cut } from '../../src/document/project.ts';
import { moveCornerAttached, moveEnd, shiftCutsAttached } from '../../src/editing/reshape.ts';
import { everywhere, withTwins } from '../../src/editing/symmetric.ts';
import type { Symmetry } from '../../src/editing/symmetry.ts';
import type { Point } from '../../src/geometry/point.ts';
import { Prng } from '../designs/prng.ts';
import { projectWith, WINDOW } from './window.ts';

const cut = (id: string, from: Point, to: Point): Cut => ({ id, from, to, role: 'auto' });
const blockOf = (...cuts: readonly Cut[]): Block => ({ ...WINDOW, cuts });

/** Two slanted cuts, mirror images of each other, that meet on the axis of a 12 in square. */
const GABLE = blockOf(cut('c1', [0, 8], [6, 2]), cut('c2', [12, 8], [6, 2]), cut('c3', [0, 10], [12, 10]));

const done = (
  block: Block,
  change: Parameters<typeof everywhere>[0],
  symmetry: Symmetry = 'upright',
): Block => everywhere(change, 'b1', symmetry)(projectWith(block)).blocks[0]!;
const ends = ({ cuts }: Block) => cuts.map(({ from, to }) => [from, to]);

describe('an edit done at every image', () => {
  it('finds what is an image of what, either way round', () => {
    expect(withTwins(GABLE, ['c1'], 'upright')).toEqual(['c1', 'c2']);
    expect(withTwins(GABLE, ['c3'], 'upright')).toEqual(['c3']);
    expect(withTwins(GABLE, ['c1'], 'level')).toEqual(['c1']);
    expect(withTwins(GABLE, ['c1'], 'none')).toEqual(['c1']);
  });

  it('moves the image as the mirror has it', () => {
    const after = done(GABLE, (project) => moveEnd(project, 'b1', 'c1', 'from', [0, 6]));
    expect(ends(after).slice(0, 2)).toEqual([
      [
        [0, 6],
        [6, 2],
      ],
      [
        [12, 6],
        [6, 2],
      ],
    ]);
  });

  it('keeps a joint on the axis there, however it is pulled', () => {
    const after = done(GABLE, (project) => moveEnd(project, 'b1', 'c1', 'to', [8, 4]));
    expect(ends(after).slice(0, 2)).toEqual([
      [
        [0, 8],
        [6, 4],
      ],
      [
        [12, 8],
        [6, 4],
      ],
    ]);
  });

  it('deletes, and says how it is sewn, at all of them, and leaves what has no image', () => {
    expect(done(GABLE, (p) => removeCuts(p, 'b1', ['c2'])).cuts.map(({ id }) => id)).toEqual(['c3']);
    const joined = done(GABLE, (p) => setCutRole(p, 'b1', ['c1'], 'join'));
    expect(joined.cuts.map(({ role }) => role)).toEqual(['join', 'join', 'auto']);
    const lone = blockOf(cut('c1', [0, 8], [5, 2]), ...GABLE.cuts.slice(1));
    expect(done(lone, (p) => removeCuts(p, 'b1', ['c2'])).cuts.map(({ id }) => id)).toEqual(['c1', 'c3']);
  });

  it('leaves locked images alone', () => {
    const locked = {
      ...GABLE,
      cuts: GABLE.cuts.map((one) => (one.id === 'c2' ? { ...one, locked: true as const } : one)),
    };
    const after = done(locked, (project) => removeCuts(project, 'b1', ['c1']));
    expect(after.cuts.map(({ id }) => id)).toEqual(['c2', 'c3']);
  });

  it('moves corners of the outline', () => {
    const after = done(GABLE, (project) => moveCornerAttached(project, 'b1', 0, [1, 0]));
    expect(after.outline).toEqual([
      [1, 0],
      [11, 0],
      [12, 12],
      [0, 12],
    ]);
  });

  it('keeps what was symmetric so, whatever is moved', () => {
    const random = new Prng(31);
    const symmetries: readonly Symmetry[] = ['upright', 'level', 'both', 'diagonals', 'half', 'quarter'];
    for (let run = 0; run < 200; run++) {
      const symmetry = symmetries[run % symmetries.length]!;
      const place = (): Point => [Math.round(random.next() * 48) / 4, Math.round(random.next() * 48) / 4];
      // Drawn with its images by hand: each turn written out.
      const images: Record<string, readonly ((p: Point) => Point)[]> = {
        upright: [([x, y]) => [12 - x, y]],
        level: [([x, y]) => [x, 12 - y]],
        both: [([x, y]) => [12 - x, y], ([x, y]) => [x, 12 - y], ([x, y]) => [12 - x, 12 - y]],
        diagonals: [([x, y]) => [y, x], ([x, y]) => [12 - y, 12 - x], ([x, y]) => [12 - x, 12 - y]],
        half: [([x, y]) => [12 - x, 12 - y]],
        quarter: [([x, y]) => [12 - y, x], ([x, y]) => [12 - x, 12 - y], ([x, y]) => [y, 12 - x]],
      };
      const lines = [0, 1, 2].flatMap(() => {
        const [from, to] = [place(), place()];
        return [[from, to], ...images[symmetry]!.map((image) => [image(from), image(to)])];
      });
      const same = (a: readonly Point[], b: readonly Point[]): boolean => {
        const isNear = (p: Point, q: Point) => Math.abs(p[0] - q[0]) + Math.abs(p[1] - q[1]) < 1e-3;
        return (
          (isNear(a[0]!, b[0]!) && isNear(a[1]!, b[1]!)) || (isNear(a[0]!, b[1]!) && isNear(a[1]!, b[0]!))
        );
      };
      const unlike = lines.filter(
        (line, k) => !lines.slice(0, k).some((other) => same(line as Point[], other as Point[])),
      );
      const block = blockOf(
        ...unlike
          .filter(([a, b]) => Math.hypot(a![0] - b![0], a![1] - b![1]) > 0.5)
          .map(([from, to], k) => cut(`c${k + 1}`, from!, to!)),
      );
      if (block.cuts.length === 0) continue;
      const one = block.cuts[Math.floor(random.next() * block.cuts.length)]!;
      const by: Point = [Math.round(random.next() * 8 - 4) / 4, Math.round(random.next() * 8 - 4) / 4];
      const after = done(
        block,
        run % 2 === 0
          ? (p) => moveEnd(p, 'b1', one.id, 'to', place())
          : (p) => shiftCutsAttached(p, 'b1', [one.id], by),
        symmetry,
      );
      for (const { from, to } of after.cuts)
        for (const image of images[symmetry]!)
          expect(
            after.cuts.some((other) => same([image(from), image(to)], [other.from, other.to])),
            `seed 31, run ${run}, ${symmetry}`,
          ).toBe(true);
    }
  });
});

import { describe, expect, it } from 'vitest';
import type { Block, Cut } from '../../src/document/project.ts';
import { drawOn, reachOf, shortenCuts, stretchAt } from '../../src/editing/shorten.ts';
import type { Point } from '../../src/geometry/point.ts';
import { Prng } from '../designs/prng.ts';
import { projectWith, WINDOW } from './window.ts';

const cut = (id: string, from: Point, to: Point): Cut => ({ id, from, to, role: 'auto' });
const blockOf = (...cuts: readonly Cut[]): Block => ({ ...WINDOW, cuts });
const shortened = (block: Block, ...places: readonly Point[]) =>
  shortenCuts(projectWith(block), 'b1', places).blocks[0]!.cuts.map(({ from, to }) => [from, to]);

/** A crossing of two lines right across, in the middle. */
const CROSS = blockOf(cut('c1', [0, 6], [12, 6]), cut('c2', [6, 0], [6, 12]));

describe('a cut taken back', () => {
  it('goes as far as the lines it meets', () => {
    expect(stretchAt(CROSS, CROSS.cuts[0]!, [2, 6.1]).segment).toEqual([
      [0, 6],
      [6, 6],
    ]);
    expect(shortened(CROSS, [2, 6])[0]).toEqual([
      [6, 6],
      [12, 6],
    ]);
    expect(shortened(CROSS, [9, 6])[0]).toEqual([
      [0, 6],
      [6, 6],
    ]);
  });

  it('falls in two where the middle goes, and goes where nothing is left', () => {
    const ladder = blockOf(
      cut('c1', [0, 6], [12, 6]),
      cut('c2', [4, 0], [4, 12]),
      cut('c3', [8, 0], [8, 12]),
    );
    const { cuts } = shortenCuts(projectWith(ladder), 'b1', [[6, 6]]).blocks[0]!;
    expect(cuts.map(({ id }) => id)).toEqual(['c1', 'c4', 'c2', 'c3']);
    expect(cuts[1]).toMatchObject({ from: [8, 6], to: [12, 6] });
    expect(shortened(blockOf(cut('c1', [2, 2], [5, 5])), [3, 3])).toEqual([]);
    expect(shortened(blockOf(cut('c1', [0, 6], [12, 6])), [3, 6])).toEqual([]);
  });

  it('at several places at once, and not where it is locked', () => {
    expect(shortened(CROSS, [2, 6], [6, 2])).toEqual([
      [
        [6, 6],
        [12, 6],
      ],
      [
        [6, 6],
        [6, 12],
      ],
    ]);
    const locked = blockOf({ ...CROSS.cuts[0]!, locked: true }, CROSS.cuts[1]!);
    const project = projectWith(locked);
    expect(shortenCuts(project, 'b1', [[2, 6]])).toBe(project);
    expect(shortenCuts(project, 'b1', [[3, 3]])).toBe(project);
  });

  it('loses the length of what it is shown to lose, whatever the drawing', () => {
    const random = new Prng(99);
    const length = (cuts: readonly Pick<Cut, 'from' | 'to'>[]): number =>
      cuts.reduce((sum, { from, to }) => sum + Math.hypot(to[0] - from[0], to[1] - from[1]), 0);
    for (let run = 0; run < 300; run++) {
      const place = (): Point => [Math.round(random.next() * 48) / 4, Math.round(random.next() * 48) / 4];
      const cuts = Array.from({ length: 6 }, (_, k) => cut(`c${k + 1}`, place(), place())).filter(
        ({ from, to }) => Math.hypot(to[0] - from[0], to[1] - from[1]) > 0.5,
      );
      const block = blockOf(...cuts);
      const one = cuts[Math.floor(random.next() * cuts.length)]!;
      const share = 0.1 + random.next() * 0.8;
      const at: Point = [
        one.from[0] + (one.to[0] - one.from[0]) * share,
        one.from[1] + (one.to[1] - one.from[1]) * share,
      ];
      const [from, to] = stretchAt(block, one, at).segment;
      const after = shortenCuts(projectWith(block), 'b1', [[(from[0] + to[0]) / 2, (from[1] + to[1]) / 2]]);
      expect(length(cuts) - length(after.blocks[0]!.cuts)).toBeCloseTo(
        Math.hypot(to[0] - from[0], to[1] - from[1]),
        2,
      );
    }
  });
});

describe('a cut drawn on', () => {
  it('goes to the next line, or to the edge', () => {
    const block = blockOf(cut('c1', [2, 6], [4, 6]), cut('c2', [7, 0], [7, 12]));
    expect(reachOf(block, block.cuts[0]!, 'to')).toEqual([7, 6]);
    expect(reachOf(block, block.cuts[0]!, 'from')).toEqual([0, 6]);
    const on = drawOn(projectWith(block), 'b1', [{ end: [4, 6], other: [2, 6] }]).blocks[0]!.cuts[0];
    expect(on).toMatchObject({ id: 'c1', from: [2, 6], to: [7, 6] });
    // From a line on which it ends, on to the one after it; at the edge there is none.
    expect(reachOf(blockOf(on!, block.cuts[1]!), on!, 'to')).toEqual([12, 6]);
    expect(reachOf(CROSS, CROSS.cuts[0]!, 'to')).toBeNull();
  });
});

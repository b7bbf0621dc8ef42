import { describe, expect, it } from 'vitest';
import type { Point, Ring } from '../../src/geometry/point.ts';
import type { Block } from '../../src/piecing/block.ts';
import { mend } from '../../src/piecing/mending/mend.ts';
import { mendSentence } from '../../src/piecing/mending/words.ts';
import { piece } from '../../src/piecing/piece.ts';
import { type Cure, keepsPicture } from '../../src/piecing/repairs/cure.ts';
import { type CureProgress, findCures } from '../../src/piecing/repairs/find-cures.ts';
import { applyChange } from '../../src/piecing/repairs/repair.ts';
import { pictureWords } from '../../src/piecing/repairs/words.ts';
import { checkMend } from '../checker/check-mend.ts';
import { insideShape } from '../checker/shared-boundary.ts';
import { eightPointedStar } from '../designs/stars.ts';
import { TEN_TROUBLES } from '../designs/ten-troubles.ts';
import { UNSEWABLE } from '../designs/unsewable.ts';

function allOf(block: Block): { told: CureProgress[]; cures: readonly Cure[] } {
  const search = findCures(block);
  const told: CureProgress[] = [];
  for (;;) {
    const step = search.next();
    if (step.done) return { told, cures: step.value };
    told.push(step.value);
  }
}

/** Share of the block whose old patch and new patch are not the one that took over from it, looked up spot by spot. */
function shareBySpots(block: Block, cure: Cure): number {
  const before = piece(block).patches;
  const after = piece(applyChange(block, cure.change)).patches;
  const size = Math.max(...block.outline.flat());
  const pairs: [number, number][] = [];
  for (let i = 0; i < 150; i++)
    for (let j = 0; j < 150; j++) {
      const spot = [((i + 0.5) * size) / 150, ((j + 0.5) * size) / 150] as const;
      pairs.push([
        before.findIndex((patch) => insideShape(spot, patch)),
        after.findIndex((patch) => insideShape(spot, patch)),
      ]);
    }
  const heirs = after.map((_, k) => {
    const counts = before.map((_, i) => pairs.filter(([old, now]) => old === i && now === k).length);
    return counts.indexOf(Math.max(...counts));
  });
  return pairs.filter(([old, now]) => heirs[now] !== old).length / pairs.length;
}

const drawn = (
  cuts: readonly (readonly [Point, Point])[],
  outline: Ring = [
    [0, 0],
    [12, 0],
    [12, 12],
    [0, 12],
  ],
): Block => ({
  id: 'b1',
  name: 'Breakwater',
  outline,
  cuts: cuts.map(([from, to], k) => ({ id: `c${k + 1}`, from, to, role: 'auto' })),
  patches: [],
});

describe('cures', () => {
  it('come with those that keep the picture first, and mending first of all', () => {
    for (const { name, block } of TEN_TROUBLES) {
      const { cures } = allOf(block);
      expect([name, cures.length > 0]).toEqual([name, true]);
      const before = piece(block);
      if (before.verdict === 'set-in-seams') expect([name, cures[0]!.kind]).toEqual([name, 'mend']);
      const keeps = cures.map(keepsPicture);
      expect([name, keeps]).toEqual([name, keeps.toSorted((a, b) => Number(b) - Number(a))]);
      for (const { kind, change } of cures.filter((cure) => cure.kind === 'mend')) {
        const mended = applyChange(block, change);
        expect([name, kind, checkMend(before, mended, piece(mended))]).toEqual([name, kind, []]);
      }
    }
  });

  it('tell the first mend before other changes are tried', () => {
    const { told } = allOf(TEN_TROUBLES[1]!.block);
    const first = told.find(({ cures }) => cures.length > 0)!;
    expect(first.cures[0]!.kind).toBe('mend');
    expect(first.tried).toBe(0);
  });

  it('say how much of the picture each of the others changes', () => {
    for (const { name, block } of TEN_TROUBLES.slice(0, 8))
      for (const cure of allOf(block).cures) {
        const share = shareBySpots(block, cure);
        expect([name, cure.sentence, Math.abs(share - cure.picture.share) < 0.015]).toEqual([
          name,
          cure.sentence,
          true,
        ]);
        if (keepsPicture(cure)) expect(pictureWords(cure, 'in')).toBe('The picture stays as it is.');
      }
  });

  it('offer a symmetric way beside the one with the fewest, where they differ', () => {
    const { cures } = allOf(eightPointedStar());
    const [first, second] = cures;
    expect(first!.sentence).toMatch(
      /^Make it sewable, picture kept: [45] lines on, 24 patches on [67] foundations\.$/,
    );
    expect(second!.sentence).toBe(
      'Make it sewable and symmetric, picture kept: 4 lines on, 24 patches on 8 foundations.',
    );
  });

  it('offer fewer foundations for a patch more where a line only has a gap', () => {
    // Two four patches with a plain strip between them: the line drawn through the strip joins two rows.
    const cut = (id: string, from: readonly [number, number], to: readonly [number, number]) =>
      ({ id, from, to, role: 'auto' }) as const;
    const quay: Block = {
      id: 'quay',
      name: 'Quay',
      outline: [
        [0, 0],
        [12, 0],
        [12, 6],
        [0, 6],
      ],
      cuts: [
        cut('c1', [5, 0], [5, 6]),
        cut('c2', [7, 0], [7, 6]),
        cut('c3', [0, 3], [5, 3]),
        cut('c4', [7, 3], [12, 3]),
        cut('c5', [2, 0], [2, 6]),
        cut('c6', [10, 0], [10, 6]),
      ],
      patches: [],
    };
    const before = piece(quay);
    const wishes = allOf(quay).cures.filter(({ kind }) => kind === 'wish' || kind === 'kept');
    expect(before.sections.length).toBeGreaterThan(2);
    expect(wishes.some(({ after }) => after.foundations === 2)).toBe(true);
  });

  it('are done at every place that looks the same, and named once', () => {
    // A mast with two yards that jump by 1/8 in; turned by half it is the same.
    const block = drawn([
      [
        [6, 0],
        [6, 12],
      ],
      [
        [0, 3],
        [6, 3],
      ],
      [
        [6, 3.125],
        [12, 3.125],
      ],
      [
        [6, 9],
        [12, 9],
      ],
      [
        [0, 8.875],
        [6, 8.875],
      ],
    ]);
    const [first, ...others] = allOf(block).cures;
    expect(first!.sentence).toBe('Make line 2 and line 3 one straight line, and so at both places alike.');
    expect(first!.kind).toBe('hair');
    expect(first!.before.cautions - first!.after.cautions).toBe(2);
    // Each of the two places alone is not offered beside it.
    const straightened = others.filter(({ sentence }) => sentence.includes('one straight line'));
    expect(straightened).toEqual([]);
  });

  it('bring three lines together that miss one spot', () => {
    const block = drawn([
      [
        [0, 0],
        [12, 12],
      ],
      [
        [12, 0],
        [0, 12],
      ],
      [
        [6.15, 0],
        [6.15, 12],
      ],
    ]);
    const before = piece(block);
    const found = allOf(block).cures.find(({ sentence }) => sentence.includes('meet at one spot'))!;
    expect(found.sentence).toBe('Let lines 1, 2 and 3 meet at one spot.');
    expect(found.after).toMatchObject({ patches: 6, foundations: 2, cautions: 0 });
    expect(before.patches).toHaveLength(7);
    // Six wedges round one spot: three lines through it.
    const after = piece(applyChange(block, found.change));
    const [spot] = after.patches[0]!.polygon.filter((at) =>
      after.patches.every(({ polygon }) => polygon.some((p) => `${p}` === `${at}`)),
    );
    expect(spot).toBeDefined();
  });

  it('draw all loose ends on at once, each to the line it misses', () => {
    const block = drawn([
      [
        [0, 4],
        [12, 4],
      ],
      [
        [2, 0],
        [2, 3],
      ],
      [
        [4, 0],
        [4, 3.5],
      ],
      [
        [8, 12],
        [8, 5],
      ],
    ]);
    const [first, ...others] = allOf(block).cures;
    expect(first!.sentence).toBe('Extend all 3 loose ends to the lines they miss.');
    expect(first!.after).toMatchObject({ patches: 5, cautions: 0 });
    const own = others.filter(({ sentence }) =>
      /^Extend the (upper|lower) end of line [234] to line 1\.$/.test(sentence),
    );
    expect(own).toHaveLength(3);
  });

  it('go on from a first step until nothing is in the way, as one cure', () => {
    // Two houses whose walls chase each other; one wall of each is a hair from standing on its neighbour's end.
    const whirl = (x: number, y: number) =>
      [
        [
          [x, y + 2],
          [x + 4, y + 2.06],
        ],
        [
          [x + 4, y],
          [x + 4, y + 4],
        ],
        [
          [x + 6, y + 4],
          [x + 2, y + 4],
        ],
        [
          [x + 2, y + 6],
          [x + 2, y + 2],
        ],
      ] as const;
    const block = drawn(
      [
        [
          [6, 0],
          [6, 6],
        ] as const,
        ...whirl(0, 0),
        ...whirl(6, 0),
      ],
      [
        [0, 0],
        [12, 0],
        [12, 6],
        [0, 6],
      ],
    );
    const before = piece(block);
    expect(before.verdict).toBe('set-in-seams');
    for (const cure of allOf(block).cures) {
      // Beside a mend nothing is offered that leaves a corner to set in.
      expect([cure.sentence, cure.after.setInCorners]).toEqual([cure.sentence, 0]);
      expect(piece(applyChange(block, cure.change)).joins.every(({ kind }) => kind !== 'set-in')).toBe(true);
    }
  });

  it('offer nothing that a mend does as well or better', () => {
    // The others take seconds each.
    for (const block of UNSEWABLE.slice(4, 14)) {
      const { cures } = allOf(block);
      const mends = cures.filter(({ kind }) => kind === 'mend');
      expect([block.name, mends.length > 0]).toEqual([block.name, true]);
      for (const { kind, after, picture, sentence } of cures) {
        if (kind === 'mend') continue;
        const beaten = mends.filter(
          (mend) =>
            mend.after.patches <= after.patches &&
            mend.after.foundations <= after.foundations &&
            mend.after.cautions <= after.cautions,
        );
        expect([sentence, beaten.length, picture.share <= 0.3]).toEqual([sentence, 0, true]);
      }
    }
  });

  it('tell a mend in words', () => {
    expect(mendSentence(mend(TEN_TROUBLES[0]!.block)!)).toBe(
      'Make it sewable, picture kept: 1 line on, 4 patches on 2 foundations.',
    );
  });
});

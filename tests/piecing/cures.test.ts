import { describe, expect, it } from 'vitest';
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
        if (keepsPicture(cure)) expect(pictureWords(cure)).toBe('The picture stays as it is.');
      }
  });

  it('offer a symmetric way beside the one with the fewest, where they differ', () => {
    const { cures } = allOf(eightPointedStar());
    const [first, second] = cures;
    expect(first!.sentence).toMatch(
      /^Make it sewable, picture kept: 4 lines on, 24 patches on [67] foundations\./,
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

  it('tell a mend in words', () => {
    expect(mendSentence(mend(TEN_TROUBLES[0]!.block)!)).toBe(
      'Make it sewable, picture kept: 1 line on, 4 patches on 2 foundations.',
    );
  });
});

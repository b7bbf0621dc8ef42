import { describe, expect, it } from 'vitest';
import type { Block } from '../../src/piecing/block.ts';
import { piece } from '../../src/piecing/piece.ts';
import { checkPlan } from '../checker/check-plan.ts';
import { signedArea } from '../checker/shared-boundary.ts';
import { isRecordList, NEEDS_SHARED, readShared } from './shared-data.ts';
import { blockOf, TRADITIONAL_BLOCKS } from './traditional-blocks.ts';

interface Facts {
  readonly patches: number;
  readonly oneFoundation: boolean;
  readonly fewest: number | null;
}

/** Faults of a block's plan, and the facts it comes to; `fewest` null where a join is set in. */
function answerOf(block: Block): { faults: string[]; facts: Facts; isProven: boolean } {
  const plan = piece(block);
  const isSetIn = plan.verdict === 'set-in-seams';
  return {
    faults: checkPlan(block, plan),
    facts: {
      patches: plan.patches.length,
      oneFoundation: plan.verdict === 'one-foundation',
      fewest: isSetIn ? null : plan.sections.length,
    },
    isProven: plan.fewest || isSetIn,
  };
}

describe('traditional blocks', () => {
  it.each(TRADITIONAL_BLOCKS)('$name: $patches patches, fewest foundations $fewest', (traditional) => {
    const { patches, oneFoundation, fewest } = traditional;
    // At one inch a unit, at an odd metric size, and small.
    for (const scale of [1, 1.2345, 0.75]) {
      const answer = answerOf(blockOf(traditional, scale));
      expect(answer).toEqual({ faults: [], facts: { patches, oneFoundation, fewest }, isProven: true });
    }
  });

  it('name the trouble where no straight seams will do', () => {
    for (const traditional of TRADITIONAL_BLOCKS) {
      const troubles = piece(blockOf(traditional, 2)).findings.filter(
        (finding) => finding.severity === 'trouble',
      );
      expect({ name: traditional.name, isTrouble: troubles.length > 0 }).toEqual({
        name: traditional.name,
        isTrouble: traditional.fewest === null,
      });
    }
  });
});

describe('traditional blocks of the shared collection', () => {
  const shared = readShared('blocks.json');
  const blocks = isRecordList(shared?.blocks) ? shared.blocks : [];

  it.skipIf(shared === null)(
    `are all as the collection says: patches, one foundation, fewest ${NEEDS_SHARED}`,
    () => {
      expect(blocks.length).toBeGreaterThanOrEqual(21);
      for (const given of blocks) {
        const block = {
          id: String(given.name),
          name: String(given.name),
          outline: given.outline as Block['outline'],
          cuts: (given.segments as Block['outline'][]).map(([from, to], i) => ({
            id: `c${i + 1}`,
            from: from!,
            to: to!,
            role: 'auto' as const,
          })),
          patches: [],
        };
        const facts = {
          patches: given.patches,
          oneFoundation: given.one_foundation,
          fewest: given.minimum_foundations,
        };
        expect({ name: given.name, ...answerOf(block) }).toEqual({
          name: given.name,
          faults: [],
          facts,
          isProven: true,
        });
        const areas = (polygons: readonly Block['outline'][]): number[] =>
          polygons.map((polygon) => Number(Math.abs(signedArea(polygon)).toFixed(3))).sort((a, b) => a - b);
        expect(areas(piece(block).patches.map((patch) => patch.polygon)), block.name).toEqual(
          areas(given.patch_polygons as Block['outline'][]),
        );
      }
    },
  );
});

import { describe, expect, it } from 'vitest';
import type { Point, Segment } from '../../src/geometry/point.ts';
import type { Block } from '../../src/piecing/block.ts';
import { piece } from '../../src/piecing/piece.ts';
import type { PiecingPlan } from '../../src/piecing/plan.ts';
import { EverySequence } from '../checker/every-sequence.ts';
import { round, roundPoint } from '../designs/plane.ts';
import { Prng } from '../designs/prng.ts';
import { blockOf, SET_IN_KINDS, type SetInKind, setInDesign } from '../designs/set-in.ts';
import { isRecordList, NEEDS_SHARED, readShared } from '../published/shared-data.ts';
import { cornersIn } from './standing.ts';

/** The same drawing, however it lies, has the same plan: verdict, corners, foundations. */

const answerOf = (plan: PiecingPlan) => ({
  verdict: plan.verdict,
  patches: plan.patches.length,
  papers: plan.sections.length,
  corners: plan.joins.reduce((sum, join) => sum + (join.kind === 'set-in' ? cornersIn(join) : 0), 0),
});

const placed = (block: Block, place: (p: Point) => Point): Block => ({
  ...block,
  outline: block.outline.map(place),
  cuts: block.cuts.map((cut) => ({ ...cut, from: place(cut.from), to: place(cut.to) })),
});

/** Every cut given as two that meet in its middle. */
const inTwo = (block: Block): Block => ({
  ...block,
  cuts: block.cuts.flatMap((cut) => {
    const at: Point = [round((cut.from[0] + cut.to[0]) / 2), round((cut.from[1] + cut.to[1]) / 2)];
    return [
      { ...cut, to: at },
      { ...cut, id: `${cut.id}b`, from: at },
    ];
  }),
});

const WAYS: readonly (readonly [string, (block: Block) => Block])[] = [
  ['turned by a quarter', (block) => placed(block, ([x, y]) => [-y, x])],
  ['turned by a half', (block) => placed(block, ([x, y]) => [-x, -y])],
  ['mirrored', (block) => placed(block, ([x, y]) => [-x, y])],
  ['mirrored along the diagonal', (block) => placed(block, ([x, y]) => [y, x])],
  ['its cuts in another order', (block) => ({ ...block, cuts: [...block.cuts].reverse() })],
  ['its cuts given as two', inTwo],
];
const TWICE = ['twice as large', (block: Block) => placed(block, ([x, y]) => [2 * x, 2 * y])] as const;

describe('a drawing that straight joins seldom sew', () => {
  const clear = SET_IN_KINDS.filter((kind): kind is Exclude<SetInKind, 'fan'> => kind !== 'fan');
  it.each(clear)('%s: has one plan, however it lies', (kind) => {
    for (let seed = 301; seed <= 308; seed++) {
      const block = setInDesign(kind, new Prng(seed));
      const answer = answerOf(piece(block));
      if (answer.patches > 16) continue;
      for (const [way, change] of [...WAYS, TWICE])
        expect({ seed, way, ...answerOf(piece(change(block))) }).toEqual({ seed, way, ...answer });
    }
  });

  it('lines that run within a printed line of each other have a plan, and one foundation where one will do', () => {
    let few = 0;
    for (let seed = 1; seed <= 40; seed++) {
      const plan = piece(setInDesign('fan', new Prng(seed)));
      expect(plan.verdict).not.toBe('broken');
      if (plan.patches.length > 10 || plan.patches.length < 2) continue;
      const oracle = new EverySequence(plan.patches);
      if (oracle.hasOrder(oracle.all)) {
        few++;
        expect({ seed, papers: plan.sections.length }).toEqual({ seed, papers: 1 });
      }
    }
    expect(few).toBeGreaterThan(3);
  });
});

interface EdgeCase {
  readonly kind: string;
  readonly family: string;
  readonly block: Block;
}

const shared = readShared('data/edge-cases.json');
const cases = (isRecordList(shared?.drawings) ? shared.drawings : []).map(
  ({ kind, family, outline, cuts }): EdgeCase => ({
    kind: `${kind}`,
    family: `${family}`,
    block: blockOf(`${family}`, (outline as Point[]).map(roundPoint), cuts as Segment[]),
  }),
);

describe.skipIf(shared === null)(
  `drawings on which plans fell short ${NEEDS_SHARED}`,
  { timeout: 300_000 },
  () => {
    const isClear = ({ family }: EdgeCase): boolean => !/fan|hasty|broken|fewest|split|though/.test(family);

    it('are none of them broken, and take no more than any sequence of parts does', () => {
      cases.forEach(({ family, block }, number) => {
        const plan = piece(block);
        expect({ number, family, verdict: plan.verdict }).not.toEqual({ number, family, verdict: 'broken' });
        if (plan.patches.length > 9) return;
        const { corners, papers } = answerOf(plan);
        expect({ number, family, corners, papers }).toEqual({
          number,
          family,
          ...new EverySequence(plan.patches).best(),
        });
      });
    });

    it.each(WAYS)(
      '%s: have the same plan, where no lines run within a printed line of each other',
      (_, change) => {
        cases.forEach((one, number) => {
          if (!isClear(one)) return;
          const answer = answerOf(piece(one.block));
          if (answer.patches > 12) return;
          expect({ number, ...answerOf(piece(change(one.block))) }).toEqual({ number, ...answer });
        });
      },
    );
  },
);

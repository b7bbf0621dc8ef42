import { beforeEach, describe, expect, it } from 'vitest';
import { leaveProposal, proposals, propose, proposeAndHold, withdraw } from '../../src/board/proposal.ts';
import type { Block } from '../../src/document/project.ts';
import type { Cure } from '../../src/piecing/repairs/cure.ts';
import type { Change } from '../../src/piecing/repairs/repair.ts';
import { session } from '../../src/workspace/session.ts';
import { TEN_TROUBLES } from '../designs/ten-troubles.ts';

const [, lampRoom] = TEN_TROUBLES;
const block: Block = lampRoom!.block;

const STANDING = {
  verdict: 'set-in-seams',
  foundations: 2,
  patches: 5,
  setInCorners: 1,
  troubles: 1,
  cautions: 0,
} as const;

const repairOf = (change: Change): Cure => ({
  id: JSON.stringify(change),
  sentence: 'Do it.',
  change,
  moved: 0,
  before: STANDING,
  after: STANDING,
  kind: 'kept',
  picture: { share: 0, places: [] },
});

/** The first of the lamp room's walls, from 2,0 to 2,4, drawn elsewhere. */
const wallTo = (change: Partial<Block['cuts'][number]>): Cure =>
  repairOf({ kind: 'cuts', cuts: block.cuts.map((cut, k) => (k === 0 ? { ...cut, ...change } : cut)) });

beforeEach(() => {
  withdraw();
  const { project } = session.getState();
  session.setState({ project: { ...project, blocks: [block] }, blockId: block.id, draft: null });
});

describe('a repair that is shown on the board', () => {
  it('is told by the lines that come and go, and changes nothing', () => {
    const before = session.getState();
    propose(block, wallTo({ to: [2, 6] }));
    expect(proposals.getState().shown).toMatchObject({
      added: [
        [
          [2, 4],
          [2, 6],
        ],
      ],
      removed: [],
      changed: ['c1'],
    });
    expect(session.getState()).toBe(before);

    propose(block, wallTo({ to: [2, 3] }));
    expect(proposals.getState().shown).toMatchObject({
      added: [],
      removed: [
        [
          [2, 3],
          [2, 4],
        ],
      ],
      changed: ['c1'],
    });

    propose(block, repairOf({ kind: 'cuts', cuts: block.cuts.slice(1) }));
    expect(proposals.getState().shown).toMatchObject({
      added: [],
      removed: [
        [
          [2, 0],
          [2, 4],
        ],
      ],
      changed: ['c1'],
    });
  });

  it('names the cut whose role alone would be another, and none where another plan is chosen', () => {
    propose(block, wallTo({ role: 'join' }));
    expect(proposals.getState().shown).toMatchObject({ added: [], removed: [], changed: ['c1'] });
    propose(block, repairOf({ kind: 'plan', plan: 'unit-first' }));
    expect(proposals.getState().shown).toMatchObject({ added: [], removed: [], changed: [] });
  });

  it('goes when the pointer leaves, unless a finger holds it', () => {
    const [one, other] = [wallTo({ to: [2, 6] }), wallTo({ to: [2, 3] })];
    propose(block, one);
    leaveProposal();
    expect(proposals.getState().shown).toBeNull();

    proposeAndHold(block, one);
    leaveProposal();
    propose(block, one);
    leaveProposal();
    expect(proposals.getState()).toMatchObject({ shown: { repair: one }, isHeld: true });

    propose(block, other);
    expect(proposals.getState()).toMatchObject({ shown: { repair: other }, isHeld: false });
    withdraw();
    expect(proposals.getState()).toEqual({ shown: null, isHeld: false });
  });
});

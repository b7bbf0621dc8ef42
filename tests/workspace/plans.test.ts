import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Block, Project } from '../../src/document/project.ts';
import { EMPTY_PROJECT } from '../../src/document/project.ts';
import { planOf, requestPlan } from '../../src/workspace/plans.ts';
import { freshSession, session } from '../../src/workspace/session.ts';
import { UNSEWABLE } from '../designs/unsewable.ts';

const block = (at: number, id = 'pier'): Block => ({
  id,
  name: 'Pier',
  outline: [
    [0, 0],
    [6, 0],
    [6, 6],
    [0, 6],
  ],
  cuts: [{ id: 'c1', from: [at, 0], to: [at, 6], role: 'auto' }],
  patches: [],
});

const projectOf = (drawn: Block): Project => ({ ...EMPTY_PROJECT, blocks: [drawn] });

describe('plans that are remembered', () => {
  beforeEach(() => session.setState(freshSession(EMPTY_PROJECT), true));

  it('keeps that of the recorded state through a long gesture, so that what stands still is not made anew', () => {
    const recorded = block(2);
    session.setState(freshSession(projectOf(recorded)), true);
    const plan = planOf(recorded);
    for (let move = 1; move <= 40; move++) {
      const drawn = block(2 + move / 32);
      session.setState({ draft: projectOf(drawn) });
      planOf(drawn);
    }
    expect(planOf(recorded)).toBe(plan);
  });
});

describe('where plans are made', () => {
  beforeEach(() => {
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
    session.setState(freshSession(EMPTY_PROJECT), true);
  });
  afterEach(() => {
    vi.restoreAllMocks();
    vi.useRealTimers();
  });

  /** Has a new state of a block pieced at once, as if that took so long. */
  const pieceIn = (ms: number, drawn: Block): void => {
    vi.spyOn(performance, 'now').mockReturnValueOnce(0).mockReturnValueOnce(ms);
    planOf(drawn);
    vi.restoreAllMocks();
  };

  it('one long pause does not send a small block away from the hand, two do', () => {
    session.setState({ blockId: 'quay' });
    pieceIn(2, block(1, 'quay'));
    pieceIn(40, block(1.5, 'quay'));
    expect(requestPlan(block(2, 'quay')).isUpdating).toBe(false);
    pieceIn(40, block(2.5, 'quay'));
    pieceIn(40, block(3, 'quay'));
    expect(requestPlan(block(3.5, 'quay')).isUpdating).toBe(true);
  });

  it('patches that hold each other in plenty never keep the hand waiting, however few lines they have', () => {
    const whole = UNSEWABLE.find(({ name }) => name === 'Tumbling crates')!;
    const crates = { ...whole, cuts: whole.cuts.slice(0, 40) };
    session.setState({ blockId: crates.id });
    expect(requestPlan(crates).isUpdating).toBe(true);
    // Without the lines that hold them, the same block is there at once.
    expect(requestPlan({ ...crates, cuts: crates.cuts.slice(0, 3) }).isUpdating).toBe(false);
  });
});

import { beforeEach, describe, expect, it } from 'vitest';
import type { Block, Project } from '../../src/document/project.ts';
import { EMPTY_PROJECT } from '../../src/document/project.ts';
import { planOf } from '../../src/workspace/plans.ts';
import { freshSession, session } from '../../src/workspace/session.ts';

const block = (at: number): Block => ({
  id: 'pier',
  name: 'Pier',
  outline: [
    [0, 0],
    [6, 0],
    [6, 6],
    [0, 6],
  ],
  cuts: [{ id: 'c1', from: [at, 0], to: [at, 6], role: 'auto' }],
  paint: [],
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

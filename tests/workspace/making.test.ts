import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { type Block, EMPTY_PROJECT, type Project } from '../../src/document/project.ts';
import { piece } from '../../src/piecing/piece.ts';
import { comeIntoSight } from '../../src/workspace/in-sight.ts';
import { makingAtHand, plansToCome, startPlanning } from '../../src/workspace/making.ts';
import { paperSettings } from '../../src/workspace/paper-settings.ts';
import type { MadePlan, PieceOrder } from '../../src/workspace/piecing-client.ts';
import { freshSession, session } from '../../src/workspace/session.ts';
import { designOf } from '../designs/designs.ts';

/** A worker that makes what it is told to, one order after another. */
const worker = vi.hoisted(() => ({
  ordered: [] as string[],
  finish: null as (() => void) | null,
}));
vi.mock('../../src/workspace/piecing-client.ts', () => ({
  abandonPlan: () => undefined,
  makePlan: ({ block, options }: PieceOrder): Promise<MadePlan> => {
    worker.ordered.push(block.id);
    return new Promise((resolve) => {
      worker.finish = () => resolve({ plan: piece(block, options), ms: 1 });
    });
  },
}));

let project = 0;
/** 70 blocks; every one has a fabric of its own, and every seventh night sea. */
function quilt(): Project {
  project++;
  return {
    ...EMPTY_PROJECT,
    fabrics: ['night', 'foam', 'unused'].map((id) => ({ id, name: id, color: '#203040' })),
    blocks: Array.from({ length: 70 }, (_, k): Block => {
      const { block } = designOf(500 + k, { patches: [4, 12] });
      const at = block.outline[0]!;
      const inside: [number, number] = [at[0] + 0.01, at[1] + 0.01];
      return {
        ...block,
        id: `p${project}b${k}`,
        patches: [{ id: 'p1', at: inside, fabric: k % 7 === 0 ? 'night' : 'foam' }],
      };
    }),
  };
}

const idOf = (k: number): string => `p${project}b${k}`;
const colour = (project: Project, id: string, color: string): Project => ({
  ...project,
  fabrics: project.fabrics.map((fabric) => (fabric.id === id ? { ...fabric, color } : fabric)),
});

/** Lets the worker finish all it is asked for; returns the blocks it was asked for meanwhile. */
async function workAll(): Promise<string[]> {
  const before = worker.ordered.length;
  for (let quiet = 0; quiet < 3; quiet++) {
    await vi.advanceTimersByTimeAsync(1);
    if (worker.finish === null) continue;
    quiet = -1;
    const { finish } = worker;
    worker.finish = null;
    finish();
  }
  return worker.ordered.slice(before);
}

let stop: () => void = () => undefined;
beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
  worker.ordered = [];
  worker.finish = null;
  session.setState(freshSession(quilt()), true);
  session.setState({ blockId: idOf(30) });
  stop = startPlanning();
});
afterEach(() => {
  stop();
  paperSettings.setState({ page: null });
  vi.useRealTimers();
});

describe('a project of 70 blocks that is opened', () => {
  it('has no block but the open one pieced outside the worker, and tells how many are still to come', async () => {
    await vi.advanceTimersByTimeAsync(1);
    const { project } = session.getState();
    const all = new Map(project.blocks.map(({ id }) => [id, 1]));
    expect(plansToCome.getState().blocks).toBe(69);
    expect(makingAtHand(project, all)).toMatchObject({ blocks: [{ block: { id: idOf(30) } }], toCome: 69 });
    await workAll();
    expect([...worker.ordered].sort()).toEqual([...all.keys()].filter((id) => id !== idOf(30)).sort());
    expect(plansToCome.getState().blocks).toBe(0);
    const made = makingAtHand(project, new Map([[idOf(2), 3]]));
    expect(made.toCome).toBe(0);
    expect(made.blocks.map(({ block, copies }) => [block.id, copies])).toEqual([[idOf(2), 3]]);
  });

  it('plans the blocks in sight before the others', async () => {
    const leave = [50, 51, 52].map((k) => comeIntoSight(idOf(k)));
    comeIntoSight(idOf(53))();
    const ordered = await workAll();
    expect(ordered.slice(0, 4)).toEqual([idOf(50), idOf(51), idOf(52), idOf(0)]);
    for (const stopSeeing of leave) stopSeeing();
  });
});

describe('a project of 70 blocks whose plans are there', () => {
  beforeEach(async () => {
    await workAll();
  });

  it('asks for those that use a fabric when its colour changes, and for none when none uses it', async () => {
    const { project } = session.getState();
    session.setState({ project: colour(project, 'unused', '#ffffff') });
    expect(await workAll()).toEqual([]);
    session.setState({ project: colour(session.getState().project, 'night', '#000000') });
    expect(await workAll()).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9].map((k) => idOf(7 * k)));
    expect(plansToCome.getState().blocks).toBe(0);
  });

  it('goes on showing what there was while findings are looked for on another page', async () => {
    worker.ordered = [];
    paperSettings.setState({ page: 'other', otherPage: '5x5in' });
    await vi.advanceTimersByTimeAsync(1);
    expect(plansToCome.getState().blocks).toBe(69);
    await workAll();
    expect(worker.ordered).toHaveLength(69);
    expect(plansToCome.getState().blocks).toBe(0);
  });

  it('asks for nothing in the midst of a gesture, and for what has changed when it ends', async () => {
    const { project } = session.getState();
    const changed = {
      ...project,
      blocks: project.blocks.map((block) => ({ ...block, cuts: block.cuts.slice(1) })),
    };
    session.setState({ draft: changed });
    expect(await workAll()).toEqual([]);
    session.setState({ draft: null, project: changed });
    expect(await workAll()).toHaveLength(69);
  });
});

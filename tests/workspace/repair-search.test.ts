import { beforeEach, describe, expect, it } from 'vitest';
import { pieceOptionsOf } from '../../src/making/piece-options.ts';
import type { Block } from '../../src/piecing/block.ts';
import type { PieceOptions } from '../../src/piecing/options.ts';
import { piece } from '../../src/piecing/piece.ts';
import { applyChange } from '../../src/piecing/repairs/repair.ts';
import {
  lookAgain,
  lookForRepairs,
  type RepairSearch,
  repairSearch,
  stopLooking,
} from '../../src/workspace/repair-search.ts';
import { session } from '../../src/workspace/session.ts';
import { TEN_TROUBLES } from '../designs/ten-troubles.ts';

/** Four walls that chase each other. A block of its own each time: what was found of one is remembered. */
const lampRoom = (): Block => structuredClone(TEN_TROUBLES[1]!.block);

let options: PieceOptions;

/** Everything the search tells, from now on. */
function listen(): RepairSearch[] {
  const told: RepairSearch[] = [];
  repairSearch.subscribe((state) => told.push(state));
  return told;
}

const until = async (isSo: (state: RepairSearch) => boolean): Promise<RepairSearch> => {
  for (let tries = 0; tries < 2000; tries++) {
    const state = repairSearch.getState();
    if (isSo(state)) return state;
    await new Promise((resolve) => setTimeout(resolve, 5));
  }
  throw new Error('It never came to that.');
};

beforeEach(() => {
  options = pieceOptionsOf(session.getState().project);
});

describe('the search for repairs', () => {
  it('tells how many changes have been tried, of how many, and ends with repairs that help', async () => {
    const block = lampRoom();
    const told = listen();
    lookForRepairs(block, options);
    const end = await until((state) => state.block === block && state.state === 'done');
    const tried = told.filter(({ state }) => state === 'looking').map(({ progress }) => progress.tried);
    expect(tried.length).toBeGreaterThan(3);
    expect(tried).toEqual([...tried].sort((a, b) => a - b));
    expect(told.every(({ progress: { tried, total } }) => tried <= total)).toBe(true);
    expect(end.repairs.length).toBeGreaterThan(0);
    // A ring of four lines is opened by drawing one of them on: common practice.
    expect(piece(applyChange(block, end.repairs[0]!.change)).verdict).toBe('several-foundations');
  });

  it('is stopped by a person, stays stopped, and is begun again', async () => {
    const block = lampRoom();
    lookForRepairs(block, options);
    await until((state) => state.block === block && state.progress.tried > 0);
    stopLooking();
    const stopped = repairSearch.getState();
    expect(stopped.state).toBe('stopped');
    expect(stopped.progress.tried).toBeLessThan(stopped.progress.total);
    await new Promise((resolve) => setTimeout(resolve, 60));
    expect(repairSearch.getState()).toEqual(stopped);
    lookAgain();
    expect(repairSearch.getState().state).toBe('looking');
    const end = await until(({ state }) => state === 'done');
    expect(end.repairs.length).toBeGreaterThan(0);
  });

  it('gives way to a newer drawing, of which alone it tells then', async () => {
    const [older, newer] = [lampRoom(), lampRoom()];
    const leave = lookForRepairs(older, options);
    await until((state) => state.block === older && state.progress.tried > 0);
    leave();
    lookForRepairs(newer, options);
    await until((state) => state.block === newer);
    const told = listen();
    await until(({ state }) => state === 'done');
    expect(told.every(({ block }) => block === newer)).toBe(true);
  });

  it('knows at once what it found before, such as after undo', async () => {
    const block = lampRoom();
    lookForRepairs(block, options);
    const end = await until((state) => state.block === block && state.state === 'done');
    repairSearch.setState({ block: null, repairs: [] });
    lookForRepairs(block, options);
    expect(repairSearch.getState()).toMatchObject({ block, state: 'done', repairs: end.repairs });
  });
});

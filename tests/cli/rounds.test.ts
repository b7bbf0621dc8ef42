import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { openFile } from '../../src/document/file.ts';
import { makingOf } from '../../src/making/making.ts';
import { replayRounds } from '../checker/replay-rounds.ts';
import { underpaper } from './command-line.ts';

const DEMO = 'public/demo/harbour-sampler.underpaper.json';

describe('rounds', () => {
  it('plans the demo in two copies so that it can be sewn as told', async () => {
    const { status, out, err } = await underpaper('rounds', DEMO, '--copies', '2', '--json');
    expect([status, err]).toEqual([0, '']);
    const opened = openFile(readFileSync(DEMO, 'utf8'));
    if (!opened.ok) throw new Error(opened.error.message);
    const handed = makingOf(opened.project).map(({ block, plan }) => ({ id: block.id, plan, copies: 2 }));
    const plan = JSON.parse(out);
    expect(replayRounds(handed, plan)).toEqual([]);
    expect(plan.bound).toBeLessThanOrEqual(plan.rounds.length);
    expect(plan.rounds.length).toBeLessThan(Math.min(plan.byLeafing, plan.byPosition));
  });

  it('tells the rounds in words', async () => {
    const { status, out } = await underpaper('rounds', DEMO, '--blocks', 'b4');
    expect(status).toBe(0);
    expect(out).toMatch(/papers? in \d+ rounds?\n/);
    expect(out).toMatch(/^1\. .+: \d+ pieces? on \d+ papers?$/m);
  });

  it('says what is wrong with what was asked for', async () => {
    const no = await underpaper('rounds', DEMO, '--blocks', 'Whale');
    expect([no.status, no.err]).toEqual([1, expect.stringContaining('no block ‘Whale’')]);
    const none = await underpaper('rounds', DEMO, '--copies', '0');
    expect([none.status, none.err]).toEqual([2, expect.stringContaining('--copies')]);
  });
});

import { describe, expect, it } from 'vitest';
import { openFile } from '../../src/document/file.ts';
import { EMPTY_PROJECT, type Project } from '../../src/document/project.ts';
import { toText } from '../../src/document/to-text.ts';
import type { Work } from '../../src/document/work.ts';
import { makingOf } from '../../src/making/making.ts';
import { papersOf } from '../../src/rounds/papers.ts';
import { planRounds } from '../../src/rounds/plan-rounds.ts';
import { takeIntoWork } from '../../src/rounds/take-into-work.ts';
import {
  blocksToJoin,
  changesOf,
  currentRound,
  progressOf,
  readyIn,
  setJoined,
  setTrimmed,
  sewnOf,
  standingIn,
  takeBack,
  tick,
} from '../../src/rounds/work.ts';
import { designOf } from '../designs/designs.ts';
import { Prng } from '../designs/prng.ts';

/** A project of a few designs, painted by chance, and all of it in work. */
function inWork(seed: number): { project: Project; work: Work } {
  const rng = new Prng(seed);
  const fabrics = [1, 2, 3, 4].map((k) => ({ id: `f${k}`, name: `Cloth ${k}`, color: `#${k}${k}4466` }));
  const bare: Project = {
    ...EMPTY_PROJECT,
    name: 'Jetty',
    fabrics,
    blocks: [1, 2, 3].map((k) => ({
      ...designOf(seed * 10 + k, { patches: [3, 18] }).block,
      id: `b${k}`,
      name: `Jetty ${k}`,
    })),
  };
  const blocks = makingOf(bare).map(({ block, plan }) => ({
    ...block,
    patches: plan.patches.map(({ key, polygon }) => ({
      id: key,
      at: inside(polygon),
      fabric: rng.pick(fabrics).id,
    })),
  }));
  const project = { ...bare, blocks };
  const made = makingOf(project, { copies: 2 });
  return { project, work: takeIntoWork(made, made, planRounds(papersOf(made), { steps: 200 })) };
}

/** A spot inside: the middle of the first corner that is no hollow, a little way in. */
function inside(ring: readonly (readonly [number, number])[]): readonly [number, number] {
  for (let i = 0; i < ring.length; i++) {
    const [a, b, c] = [ring[i]!, ring[(i + 1) % ring.length]!, ring[(i + 2) % ring.length]!];
    if ((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]) <= 1e-3) continue;
    const spot = [
      b[0] + ((a[0] + c[0]) / 2 - b[0]) * 1e-2,
      b[1] + ((a[1] + c[1]) / 2 - b[1]) * 1e-2,
    ] as const;
    return spot;
  }
  return ring[0]!;
}

describe('work', () => {
  it('is sewn to the end round by round, joined and trimmed', () => {
    for (const seed of [1, 2, 3]) {
      let { work } = inWork(seed);
      for (let round = currentRound(work); round < work.rounds.length; round = currentRound(work)) {
        const ready = readyIn(work, round);
        expect(ready.length).toBeGreaterThan(0);
        expect(blocksToJoin(work).length).toBeLessThan(6);
        work = tick(work, round, ready);
      }
      const { patches, papers } = progressOf(work);
      expect([patches[0], papers[0]]).toEqual([patches[1], papers[1]]);
      for (const { name, joins } of blocksToJoin(work)) {
        if (joins.length > 0) expect(setTrimmed(work, name, true)).toEqual(work);
        work = setTrimmed(setJoined(work, name, joins.length), name, true);
      }
      expect(progressOf(work).blocks).toEqual([6, 6]);
    }
  });

  it('never counts a position twice, sews none before its turn, and takes back what followed', () => {
    const { work: begun } = inWork(4);
    const rng = new Prng(4);
    let work = begun;
    for (let k = 0; k < 400; k++) {
      const round = rng.whole(0, work.rounds.length - 1);
      const { paper } = rng.pick(work.rounds[round]!.takes);
      const before = progressOf(work).patches[0];
      const standing = standingIn(work, round, paper);
      if (rng.chance(0.7)) {
        const next = tick(work, round, [paper]);
        expect(progressOf(next).patches[0] > before).toBe(standing === 'ready');
        work = next;
      } else {
        const next = takeBack(work, round, paper);
        expect(progressOf(next).patches[0]).toBeLessThanOrEqual(before);
        expect(standingIn(next, round, paper)).not.toBe('done');
        work = next;
      }
      for (const { block, sections } of work.blocks.map((one) => ({ block: one, sections: one.sections })))
        for (const { letter, order } of sections)
          expect(sewnOf(work, `${block.id}/${letter}/1`)).toBeLessThanOrEqual(order.length);
    }
  });

  it('comes back from a file as it was, and a file that counts too much is refused', () => {
    const { project, work: begun } = inWork(5);
    const work = tick(begun, 0, readyIn(begun, 0));
    const text = toText({ ...project, work });
    const opened = openFile(text);
    expect(opened.ok && opened.project.work).toEqual(work);
    const [paper] = Object.keys(work.sewn);
    const wrong = openFile(toText({ ...project, work: { ...work, sewn: { [paper!]: 999 } } }));
    expect(wrong.ok ? '' : wrong.error.message).toContain('more than there is to sew');
    const lost = openFile(toText({ ...project, work: { ...work, blocks: work.blocks.slice(1) } }));
    expect(lost.ok ? '' : lost.error.message).toContain('a paper that is not in work');
  });

  it('tells of a changed drawing which papers are the same, by shape', () => {
    const { project, work } = inWork(6);
    const [made] = makingOf(project);
    const [block] = work.blocks;
    expect(changesOf(block!, made!.plan)).toEqual({
      same: block!.sections.map(({ letter }) => letter),
      gone: [],
      fresh: [],
    });
    // Two inches higher, all else alike: every paper is another.
    const taller = {
      ...made!.block,
      outline: made!.block.outline.map(([x, y]) => [x, y * 1.25] as const),
      cuts: made!.block.cuts.map((cut) => ({
        ...cut,
        from: [cut.from[0], cut.from[1] * 1.25] as const,
        to: [cut.to[0], cut.to[1] * 1.25] as const,
      })),
    };
    const [changed] = makingOf({ ...project, blocks: [taller] });
    const changes = changesOf(block!, changed!.plan);
    expect(changes.same).toEqual([]);
    expect(changes.gone.length).toBe(block!.sections.length);
    expect(changes.fresh.length).toBe(changed!.plan.sections.length);
  });
});

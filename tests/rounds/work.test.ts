import { describe, expect, it } from 'vitest';
import { openFile } from '../../src/document/file.ts';
import { EMPTY_PROJECT, type Project } from '../../src/document/project.ts';
import { toText } from '../../src/document/to-text.ts';
import type { Work } from '../../src/document/work.ts';
import { makingOf } from '../../src/making/making.ts';
import { batchesOf, plansOfBatches } from '../../src/rounds/batches.ts';
import { isSameWork, mergeWork } from '../../src/rounds/merge-work.ts';
import { papersOf } from '../../src/rounds/papers.ts';
import { planRounds } from '../../src/rounds/plan-rounds.ts';
import { takeChanges } from '../../src/rounds/take-changes.ts';
import { takeIntoWork } from '../../src/rounds/take-into-work.ts';
import {
  asBefore,
  blocksToJoin,
  changesOf,
  currentRound,
  followStages,
  nextActOf,
  noted,
  papersIn,
  pilesOf,
  progressOf,
  secondsFor,
  setCut,
  setJoined,
  setTrimmed,
  sewnOf,
  standingIn,
  takeBack,
  tick,
  whereIs,
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

/** Papers of a round that can be sewn now. */
const readyIn = (work: Work, round: number): string[] =>
  work.rounds[round]!.takes.map(({ paper }) => paper).filter(
    (paper) => standingIn(work, round, paper) === 'sewn',
  );

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
        const [paper] = papersIn(work).filter(
          (one) =>
            one.startsWith(name.replace(/\d+$/, '')) && one.endsWith(name.replace(/^.*(\/\d+)$/, '$1')),
        );
        expect(whereIs(work, paper!).kind).toBe(joins.length > 0 ? 'join' : 'trim');
        work = setTrimmed(setJoined(work, name, joins.length), name, true);
        expect(whereIs(work, paper!)).toEqual({ kind: 'trimmed' });
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
        expect(progressOf(next).patches[0] > before).toBe(standing === 'sewn');
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

  it('follows the stages that are wanted, each paper and each pile, and only those', () => {
    const { work: begun } = inWork(7);
    const work = followStages(begun, ['trimmed', 'pressed']);
    const { paper } = work.rounds[0]!.takes[0]!;
    const acts = [];
    let now = work;
    for (let k = 0; k < 4; k++) {
      const next = nextActOf(now, 0, [paper]);
      acts.push(next?.act ?? 'none');
      now = tick(now, 0, [paper]);
    }
    expect(acts).toEqual(['sewn', 'trimmed', 'pressed', 'none']);
    // Sewn but not pressed: the paper's next round waits, and a stage no longer ticked holds nothing up.
    const sewnOnly = tick(work, 0, [paper]);
    const next = work.rounds.findIndex(({ takes }, k) => k > 0 && takes.some((take) => take.paper === paper));
    if (next > 0) {
      expect(standingIn(sewnOnly, next, paper)).toBe('waiting');
      expect(standingIn(followStages(sewnOnly, []), next, paper)).toBe('sewn');
    }
    expect(asBefore(sewnOnly, work, [paper])).toEqual(work);
    // What is under way comes back from a file.
    const { project } = inWork(7);
    const opened = openFile(toText({ ...project, work: setCut(sewnOnly, 0, true) }));
    expect(opened.ok && opened.project.work).toEqual(setCut(sewnOnly, 0, true));
  });

  it('parts a round into piles as even as can be, and loses no paper', () => {
    const { work } = inWork(8);
    for (const pile of [1, 2, 3, 5, 100])
      work.rounds.forEach(({ takes }, round) => {
        const piles = pilesOf({ ...work, pile }, round);
        expect(piles.flat()).toEqual(takes.map(({ paper }) => paper));
        const sizes = piles.map(({ length }) => length);
        expect(Math.max(...sizes)).toBeLessThanOrEqual(pile);
        expect(Math.max(...sizes) - Math.min(...sizes)).toBeLessThanOrEqual(1);
      });
  });

  it('counts patches for the day and the timer, takes them off again, and says how long the rest takes', () => {
    const { work } = inWork(9);
    const after = tick(work, 0, readyIn(work, 0));
    const sewn = progressOf(after).patches[0];
    const first = noted(work, after, '2026-05-09', 60 * sewn);
    expect(first.days).toEqual({ '2026-05-09': sewn });
    expect(first.time).toEqual({ seconds: 60 * sewn, patches: sewn });
    expect(noted(first, asBefore(first, work, readyIn(work, 0)), '2026-05-09', 5).days).toBeUndefined();
    expect(secondsFor({ ...first, time: { seconds: 600, patches: 10 } }, 25)).toBe(1500);
    expect(secondsFor({ ...first, time: { seconds: 600, patches: 9 } }, 25)).toBeNull();
    // Left running over night: a patch counts ten minutes at most.
    expect(noted(work, after, '2026-05-09', 1e6).time!.seconds).toBe(600 * sewn);
  });

  it('merges two records paper by paper, the further one winning, whichever way round', () => {
    const { work } = inWork(10);
    const rng = new Prng(10);
    const random = (): Work => {
      let now = work;
      for (let k = 0; k < 60; k++) {
        const round = rng.whole(0, Math.min(work.rounds.length - 1, 6));
        now = tick(now, round, [rng.pick(work.rounds[round]!.takes).paper]);
      }
      return now;
    };
    for (let k = 0; k < 20; k++) {
      const [a, b] = [random(), random()];
      const { work: merged, fromThere, fromHere } = mergeWork(a, b);
      for (const { takes } of work.rounds)
        for (const { paper } of takes) {
          expect(sewnOf(merged, paper)).toBe(Math.max(sewnOf(a, paper), sewnOf(b, paper)));
          expect(fromThere.includes(paper)).toBe(sewnOf(b, paper) > sewnOf(a, paper));
          expect(fromHere.includes(paper)).toBe(sewnOf(a, paper) > sewnOf(b, paper));
        }
      expect(mergeWork(b, a).work.sewn).toEqual(merged.sewn);
      expect(mergeWork(a, a).work).toEqual(a);
    }
    expect(isSameWork(work, inWork(11).work)).toBe(false);
    expect(() => mergeWork(work, inWork(11).work)).toThrow('not records of the same work');
  });

  it('takes a changed drawing paper by paper: what is the same keeps what is sewn', () => {
    for (const seed of [12, 13, 14, 15, 16]) {
      const { project, work: begun } = inWork(seed);
      let work = begun;
      for (let k = 0; k < 4; k++) work = tick(work, k, readyIn(work, k));
      const made = makingOf(project, { copies: 2 });
      for (const [k, { block, plan }] of made.entries()) {
        // The last cut left out: papers it does not touch stay as they are.
        const [changed] = makingOf({ ...project, blocks: [{ ...block, cuts: block.cuts.slice(0, -1) }] });
        const wanted = changesOf(begun.blocks[k]!, changed!.plan);
        const taken = takeChanges(work, { ...changed!, copies: 2 });
        expect(taken.fresh.length).toBe(wanted.fresh.length);
        expect(taken.gone.length).toBe(wanted.gone.length);
        const after = taken.work.blocks[k]!;
        expect(after.sections.map(({ stamp }) => stamp)).toEqual(
          changed!.plan.sections.map(({ stamp }) => stamp),
        );
        const sum = (of: Work): number => progressOf(of).patches[0];
        expect(sum(taken.work)).toBe(sum(work) - taken.sewnLost);
        // Every paper is sewn whole, once, in its order, and the file opens.
        const sewn = new Map<string, string[]>();
        for (const { takes } of taken.work.rounds)
          for (const { paper, patches } of takes) sewn.set(paper, [...(sewn.get(paper) ?? []), ...patches]);
        for (const { letter, order } of after.sections)
          for (const copy of [1, 2]) expect(sewn.get(`${block.id}/${letter}/${copy}`)).toEqual(order);
        expect(openFile(toText({ ...project, work: taken.work })).ok).toBe(true);
        expect(plan.sections.length).toBeGreaterThan(0);
      }
      // Nothing changed: nothing done.
      const same = takeChanges(work, made[0]!);
      expect([same.fresh, same.gone, same.work.sewn]).toEqual([[], [], work.sewn]);
    }
  });

  it('sews papers so many at a time, every one once, a unit before what starts from it', () => {
    for (const seed of [17, 18]) {
      const papers = papersOf(makingOf(inWork(seed).project, { copies: 2 }));
      for (const order of ['blocks', 'largest', 'fabrics'] as const)
        for (const most of [2, 5, 1000]) {
          const batches = batchesOf(papers, { most, order }, ({ form }) => form.patches.length);
          expect(
            batches
              .flat()
              .map(({ id }) => id)
              .sort(),
          ).toEqual(papers.map(({ id }) => id).sort());
          for (const batch of batches) expect(batch.length).toBeLessThanOrEqual(most);
          const plans = [...plansOfBatches(batches, { steps: 100 })];
          const { plan } = plans.at(-1)!;
          expect(plan.rounds.length).toBeLessThanOrEqual(plans[0]!.plan.rounds.length);
          expect(plan.rounds.length).toBeGreaterThanOrEqual(plan.bound);
          const sewn = new Map<string, string[]>();
          for (const { work, fabric } of plan.rounds)
            for (const { paper, patches } of work) {
              const { form } = papers.find(({ id }) => id === paper)!;
              for (const id of patches) expect(form.fabrics[form.patches.indexOf(id)]).toBe(fabric);
              sewn.set(paper, [...(sewn.get(paper) ?? []), ...patches]);
            }
          for (const { id, order: sewing } of plan.papers) expect(sewn.get(id)).toEqual(sewing);
        }
    }
  });
});

import type { Work, WorkBlock, WorkJoin, WorkSection } from '../document/work.ts';
import type { PiecingPlan } from '../piecing/plan.ts';
import { paperId, partsOfPaper } from './papers.ts';

/** What is in work, read and ticked. Nothing here forgets what is done but where a hand takes it back. */

export const sewnOf = (work: Work, paper: string): number => work.sewn[paper] ?? 0;

/** Block and section of a paper; null for an id that is in no work. */
export function paperIn(
  work: Work,
  paper: string,
): { readonly block: WorkBlock; readonly section: WorkSection } | null {
  const { block: of, letter } = partsOfPaper(paper);
  const block = work.blocks.find(({ id }) => id === of);
  const section = block?.sections.find((one) => one.letter === letter);
  return block && section ? { block, section } : null;
}

/** Every paper in work, block by block, copy by copy. */
export const papersIn = (work: Work): string[] =>
  work.blocks.flatMap(({ id, copies, sections }) =>
    Array.from({ length: copies }, (_, k) => k + 1).flatMap((copy) =>
      sections.map(({ letter }) => paperId(id, letter, copy)),
    ),
  );

/** How many positions of each paper are sewn before a round, were all earlier rounds done. */
function startsOf(work: Work): ReadonlyMap<string, number>[] {
  const at = new Map<string, number>();
  return work.rounds.map(({ takes }) => {
    const starts = new Map<string, number>();
    for (const { paper, patches } of takes) {
      starts.set(paper, at.get(paper) ?? 0);
      at.set(paper, (at.get(paper) ?? 0) + patches.length);
    }
    return starts;
  });
}

const starts = new WeakMap<Work['rounds'], ReadonlyMap<string, number>[]>();

/** How many positions of a paper are sewn when its turn in a round comes; -1 where the round has nothing for it. */
export function startIn(work: Work, round: number, paper: string): number {
  const known = starts.get(work.rounds) ?? startsOf(work);
  starts.set(work.rounds, known);
  return known[round]?.get(paper) ?? -1;
}

/**
 * Of a paper in a round: `done`, `ready` to be sewn, or `waiting` for an earlier round, or for the unit it starts from.
 */
export function standingIn(work: Work, round: number, paper: string): 'done' | 'ready' | 'waiting' {
  const start = startIn(work, round, paper);
  const { patches } = work.rounds[round]!.takes.find((take) => take.paper === paper)!;
  const sewn = sewnOf(work, paper);
  if (sewn >= start + patches.length) return 'done';
  return sewn >= start && isUnitThere(work, paper) ? 'ready' : 'waiting';
}

function isUnitThere(work: Work, paper: string): boolean {
  const { block, copy } = partsOfPaper(paper);
  const section = paperIn(work, paper)?.section;
  return (section?.startsFrom ?? []).every((other) => isFinished(work, paperId(block, other, copy)));
}

export function isFinished(work: Work, paper: string): boolean {
  const there = paperIn(work, paper);
  return there !== null && sewnOf(work, paper) === there.section.order.length;
}

/** The papers of a round that a pile of all can be ticked with: those whose turn has come. */
export const readyIn = (work: Work, round: number): string[] =>
  work.rounds[round]!.takes.map(({ paper }) => paper).filter(
    (paper) => standingIn(work, round, paper) === 'ready',
  );

/** The first round with something left to sew; the number of rounds when all is sewn. */
export function currentRound(work: Work): number {
  const at = work.rounds.findIndex(({ takes }, k) =>
    takes.some(({ paper }) => standingIn(work, k, paper) !== 'done'),
  );
  return at < 0 ? work.rounds.length : at;
}

/** What some papers take in a round is sewn. Papers whose turn has not come stay as they are. */
export function tick(work: Work, round: number, papers: readonly string[]): Work {
  const sewn = { ...work.sewn };
  for (const { paper, patches } of work.rounds[round]!.takes)
    if (papers.includes(paper) && standingIn(work, round, paper) === 'ready')
      sewn[paper] = startIn(work, round, paper) + patches.length;
  return { ...work, sewn };
}

/** What a paper took in a round, and after it, is not sewn after all; nor what was joined and trimmed with it. */
export function takeBack(work: Work, round: number, paper: string): Work {
  const start = startIn(work, round, paper);
  if (start < 0 || sewnOf(work, paper) <= start) return work;
  const { [paper]: _, ...sewn } = work.sewn;
  const { block, copy } = partsOfPaper(paper);
  const name = `${block}/${copy}`;
  const { [name]: __, ...joined } = work.joined;
  return {
    ...work,
    sewn: start === 0 ? sewn : { ...sewn, [paper]: start },
    joined,
    trimmed: work.trimmed.filter((one) => one !== name),
  };
}

/** A block of which all papers are sewn: its joining steps, and how many are done. */
export interface BlockToJoin {
  readonly name: string;
  readonly block: WorkBlock;
  readonly copy: number;
  readonly joins: readonly WorkJoin[];
  readonly joined: number;
  readonly isTrimmed: boolean;
}

/** Blocks whose papers are all sewn, in the order of the work. */
export const blocksToJoin = (work: Work): BlockToJoin[] =>
  work.blocks.flatMap((block) =>
    Array.from({ length: block.copies }, (_, k) => k + 1).flatMap((copy): BlockToJoin[] => {
      const name = `${block.id}/${copy}`;
      if (!block.sections.every(({ letter }) => isFinished(work, paperId(block.id, letter, copy)))) return [];
      return [
        {
          name,
          block,
          copy,
          joins: block.joins,
          joined: work.joined[name] ?? 0,
          isTrimmed: work.trimmed.includes(name),
        },
      ];
    }),
  );

/** So many joining steps of a block are done, from the first on. Fewer than all leave it untrimmed. */
export function setJoined(work: Work, name: string, steps: number): Work {
  const there = blocksToJoin(work).find((one) => one.name === name);
  if (!there) return work;
  const joined = Math.max(0, Math.min(steps, there.joins.length));
  const trimmed = joined < there.joins.length ? work.trimmed.filter((one) => one !== name) : work.trimmed;
  return { ...work, joined: { ...work.joined, [name]: joined }, trimmed };
}

/** A block is trimmed, which is done when all its joins are. */
export function setTrimmed(work: Work, name: string, isTrimmed: boolean): Work {
  const there = blocksToJoin(work).find((one) => one.name === name);
  if (!there || (isTrimmed && there.joined < there.joins.length)) return work;
  const others = work.trimmed.filter((one) => one !== name);
  return { ...work, trimmed: isTrimmed ? [...others, name] : others };
}

/** What is done and what there is, of patches, papers and blocks. */
export interface Progress {
  readonly patches: readonly [done: number, all: number];
  readonly papers: readonly [done: number, all: number];
  readonly blocks: readonly [done: number, all: number];
}

export function progressOf(work: Work): Progress {
  const papers = papersIn(work);
  const lengths = papers.map((paper) => paperIn(work, paper)!.section.order.length);
  return {
    patches: [
      papers.reduce((sum, paper) => sum + sewnOf(work, paper), 0),
      lengths.reduce((sum, length) => sum + length, 0),
    ],
    papers: [papers.filter((paper, k) => sewnOf(work, paper) === lengths[k]).length, papers.length],
    blocks: [work.trimmed.length, work.blocks.reduce((sum, { copies }) => sum + copies, 0)],
  };
}

/** The round a paper waits for next; null when it is finished. */
export function nextRoundOf(work: Work, paper: string): number | null {
  const at = work.rounds.findIndex(
    ({ takes }, k) => takes.some((take) => take.paper === paper) && standingIn(work, k, paper) !== 'done',
  );
  return at < 0 ? null : at;
}

/** How a drawing that was changed stands to what is in work, paper by paper: by shape and order, not by letter. */
export interface Changes {
  /** Letters of sections in work that the new plan has too. */
  readonly same: readonly string[];
  /** Letters of sections in work that it no longer has. */
  readonly gone: readonly string[];
  /** Letters of sections, as the new plan names them, that are not in work. */
  readonly fresh: readonly string[];
}

/** Compares a block in work with its plan as it is now. Two sections alike stand for each other, each for one. */
export function changesOf(block: WorkBlock, plan: PiecingPlan): Changes {
  const left = plan.sections.map(({ letter, stamp }) => ({ letter, stamp }));
  const same: string[] = [];
  const gone: string[] = [];
  for (const { letter, stamp } of block.sections) {
    const at = left.findIndex((one) => one.stamp === stamp);
    if (at < 0) gone.push(letter);
    else {
      same.push(letter);
      left.splice(at, 1);
    }
  }
  return { same, gone, fresh: left.map(({ letter }) => letter) };
}

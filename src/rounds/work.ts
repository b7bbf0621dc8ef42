import type { FollowedStage, PaperStage, Work, WorkBlock, WorkJoin, WorkSection } from '../document/work.ts';
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

/** Of a round: which positions of each paper are sewn in it, from `start` (0 is the first) up to but not with `end`. */
type Turns = ReadonlyMap<string, { readonly start: number; readonly end: number }>;

const turns = new WeakMap<Work['rounds'], readonly Turns[]>();

function turnsOf({ rounds }: Work): readonly Turns[] {
  const known = turns.get(rounds);
  if (known) return known;
  const at = new Map<string, number>();
  const made = rounds.map(({ takes }): Turns => {
    const own = new Map<string, { start: number; end: number }>();
    for (const { paper, patches } of takes) {
      const start = at.get(paper) ?? 0;
      const end = start + patches.length;
      own.set(paper, { start, end });
      at.set(paper, end);
    }
    return own;
  });
  turns.set(rounds, made);
  return made;
}

/** How many positions of a paper are sewn when its turn in a round comes; -1 where the round has nothing for it. */
export const startIn = (work: Work, round: number, paper: string): number =>
  turnsOf(work)[round]?.get(paper)?.start ?? -1;

/** What can be done next to what a paper takes in a round. */
export type Act = 'sewn' | 'trimmed' | 'pressed';

/** In the order they are done. */
const ACTS: readonly Act[] = ['sewn', 'trimmed', 'pressed'];

const isFollowed = ({ stages = [] }: Work, stage: FollowedStage): boolean => stages.includes(stage);

/** What is ticked after an act of a paper; null where it is through. */
function actAfter(work: Work, act: PaperStage): Act | null {
  const later = ACTS.slice(ACTS.indexOf(act) + 1) as ('trimmed' | 'pressed')[];
  return later.find((stage) => isFollowed(work, stage)) ?? null;
}

/**
 * Of a paper in a round: `done`, `waiting` for an earlier round or for the unit it starts from, or what is to be ticked
 * next.
 */
export type Standing = 'done' | 'waiting' | Act;

export function standingIn(work: Work, round: number, paper: string): Standing {
  const { start, end } = turnsOf(work)[round]!.get(paper)!;
  const sewn = sewnOf(work, paper);
  const under = sewn === end ? work.partly?.[paper] : undefined;
  if (under !== undefined) return actAfter(work, under) ?? 'done';
  if (sewn >= end) return 'done';
  return sewn >= start && isThrough(work, paper) && isUnitThere(work, paper) ? 'sewn' : 'waiting';
}

/** Nothing is left to be ticked of what the paper took last. */
function isThrough(work: Work, paper: string): boolean {
  const under = work.partly?.[paper];
  return under === undefined || actAfter(work, under) === null;
}

function isUnitThere(work: Work, paper: string): boolean {
  const { block, copy } = partsOfPaper(paper);
  const section = paperIn(work, paper)?.section;
  return (section?.startsFrom ?? []).every((other) => isFinished(work, paperId(block, other, copy)));
}

export function isFinished(work: Work, paper: string): boolean {
  const there = paperIn(work, paper);
  return there !== null && sewnOf(work, paper) === there.section.order.length && isThrough(work, paper);
}

/** Of some papers of a round the next act that any is ready for, the earliest of a pile, and all that are. */
export function nextActOf(
  work: Work,
  round: number,
  papers: readonly string[],
): { readonly act: Act; readonly papers: readonly string[] } | null {
  const standing = new Map(papers.map((paper) => [paper, standingIn(work, round, paper)]));
  const act = ACTS.find((one) => papers.some((paper) => standing.get(paper) === one));
  return act === undefined ? null : { act, papers: papers.filter((paper) => standing.get(paper) === act) };
}

/** The papers of a round in piles of a comfortable size, in order; one pile where none was chosen. */
export function pilesOf(work: Work, round: number): readonly (readonly string[])[] {
  const papers = work.rounds[round]!.takes.map(({ paper }) => paper);
  const most = Math.max(1, work.pile ?? papers.length);
  // Piles as even as can be: 13 papers in piles of up to 6 make 5, 4 and 4.
  const count = Math.ceil(papers.length / most);
  const piles: string[][] = [];
  for (let k = 0, at = 0; k < count; k++) {
    const size = Math.ceil((papers.length - at) / (count - k));
    piles.push(papers.slice(at, at + size));
    at += size;
  }
  return piles;
}

export const isRoundDone = (work: Work, round: number): boolean =>
  work.rounds[round]!.takes.every(({ paper }) => standingIn(work, round, paper) === 'done');

/** The first round with something left to do; the number of rounds when all is sewn. */
export function currentRound(work: Work): number {
  const at = work.rounds.findIndex((_, k) => !isRoundDone(work, k));
  return at < 0 ? work.rounds.length : at;
}

/** The next act is done to what some papers take in a round. Papers whose turn has not come stay as they are. */
export function tick(work: Work, round: number, papers: readonly string[]): Work {
  const sewn = { ...work.sewn };
  const partly: Record<string, PaperStage> = { ...work.partly };
  const chosen = new Set(papers);
  for (const { paper, patches } of work.rounds[round]!.takes) {
    if (!chosen.has(paper)) continue;
    const act = standingIn(work, round, paper);
    if (act === 'done' || act === 'waiting') continue;
    if (act === 'sewn') sewn[paper] = startIn(work, round, paper) + patches.length;
    if (act !== 'pressed' && actAfter(work, act) !== null) partly[paper] = act;
    else delete partly[paper];
  }
  return withPartly({ ...work, sewn }, partly);
}

function withPartly(work: Work, partly: Readonly<Record<string, PaperStage>>): Work {
  const { partly: _, ...rest } = work;
  return Object.keys(partly).length === 0 ? rest : { ...rest, partly };
}

/** What a paper took in a round, and after it, is not sewn after all; nor what was joined and trimmed with it. */
export function takeBack(work: Work, round: number, paper: string): Work {
  const start = startIn(work, round, paper);
  if (start < 0 || sewnOf(work, paper) <= start) return work;
  return withPaper(work, paper, start, undefined);
}

/** Some papers stand again as they did in an earlier record of the same work; what hangs on them with them. */
export const asBefore = (work: Work, before: Work, papers: readonly string[]): Work =>
  papers.reduce(
    (after, paper) => withPaper(after, paper, sewnOf(before, paper), before.partly?.[paper]),
    work,
  );

/** A paper that was lost or spoiled is begun again. */
export const beginAgain = (work: Work, paper: string): Work => withPaper(work, paper, 0, undefined);

function withPaper(work: Work, paper: string, count: number, stage: PaperStage | undefined): Work {
  const { [paper]: _, ...sewn } = work.sewn;
  const { [paper]: __, ...partly } = work.partly ?? {};
  const after = withPartly(
    { ...work, sewn: count === 0 ? sewn : { ...sewn, [paper]: count } },
    stage === undefined ? partly : { ...partly, [paper]: stage },
  );
  if (isFinished(after, paper)) return after;
  const { block, copy } = partsOfPaper(paper);
  const name = `${block}/${copy}`;
  const { [name]: ___, ...joined } = work.joined;
  return { ...after, joined, trimmed: work.trimmed.filter((one) => one !== name) };
}

/** All pieces of a round are cut, or not after all. */
export function setCut(work: Work, round: number, isCut: boolean): Work {
  const others = (work.cut ?? []).filter((one) => one !== round);
  const { cut: _, ...rest } = work;
  const cut = isCut ? [...others, round].sort((a, b) => a - b) : others;
  return cut.length === 0 ? rest : { ...rest, cut };
}

export const isCut = (work: Work, round: number): boolean => work.cut?.includes(round) ?? false;

/** Which stages are ticked from now on. Those that are no longer ticked hold nothing up. */
export function followStages(work: Work, stages: readonly FollowedStage[]): Work {
  const { stages: _, ...rest } = work;
  return stages.length === 0 ? rest : { ...rest, stages };
}

/** So many papers make a comfortable pile; null for whole rounds. */
export function setPile(work: Work, pile: number | null): Work {
  const { pile: _, ...rest } = work;
  return pile === null ? rest : { ...rest, pile };
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

/** All patches that are sewn. */
export const patchesSewn = ({ sewn }: Work): number =>
  Object.values(sewn).reduce((sum, count) => sum + count, 0);

/** Longest that one patch may count for, seconds: whoever leaves the timer on and goes away does not teach it. */
const LONGEST_A_PATCH_S = 600;

/**
 * A change of what is done, noted for the day (`2026-05-09`), and for the timer where it ran for some seconds since it was
 * last looked at. What is taken back is taken off the day again.
 */
export function noted(before: Work, after: Work, day: string, seconds: number | null): Work {
  const more = patchesSewn(after) - patchesSewn(before);
  if (more === 0) return after;
  const { [day]: today = 0, ...others } = after.days ?? {};
  const left = Math.max(0, today + more);
  const days = left === 0 ? others : { ...others, [day]: left };
  const known = after.time ?? { seconds: 0, patches: 0 };
  const time =
    seconds === null || more < 0
      ? after.time
      : {
          seconds: known.seconds + Math.min(seconds, more * LONGEST_A_PATCH_S),
          patches: known.patches + more,
        };
  const { days: _, time: __, ...rest } = after;
  return {
    ...rest,
    ...(Object.keys(days).length > 0 && { days }),
    ...(time !== undefined && { time }),
  };
}

/** Fewest patches that say how fast someone sews. */
const ENOUGH_TO_TELL = 10;

/** Seconds that so many patches take by what the timer has seen; null before it has seen enough. */
export const secondsFor = ({ time }: Pick<Work, 'time'>, patches: number): number | null =>
  time === undefined || time.patches < ENOUGH_TO_TELL ? null : (patches * time.seconds) / time.patches;

/** The round a paper waits for next; null when it is finished. */
export function nextRoundOf(work: Work, paper: string): number | null {
  const at = turnsOf(work).findIndex((own, k) => own.has(paper) && standingIn(work, k, paper) !== 'done');
  return at < 0 ? null : at;
}

/** Where a paper is: waiting for a round, or finished and waiting for what its block needs next. */
export type Whereabouts =
  | { readonly kind: 'round'; readonly round: number }
  | { readonly kind: 'others' }
  | { readonly kind: 'join'; readonly step: number }
  | { readonly kind: 'trim' }
  | { readonly kind: 'trimmed' };

/** `others`: its block has papers that are not sewn yet. Steps count from 0. */
export function whereIs(work: Work, paper: string): Whereabouts {
  const round = nextRoundOf(work, paper);
  if (round !== null) return { kind: 'round', round };
  const { block: id, letter, copy } = partsOfPaper(paper);
  const name = `${id}/${copy}`;
  if (work.trimmed.includes(name)) return { kind: 'trimmed' };
  const { block } = paperIn(work, paper)!;
  if (!block.sections.every((section) => isFinished(work, paperId(id, section.letter, copy))))
    return { kind: 'others' };
  const joined = work.joined[name] ?? 0;
  // The next join that takes in the unit it is part of.
  const step = block.joins.findIndex(
    ({ left, right }, k) => k >= joined && (left.includes(letter) || right.includes(letter)),
  );
  return step < 0 ? { kind: 'trim' } : { kind: 'join', step };
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

import type { Work, WorkBlock, WorkRound, WorkSection, WorkTake } from '../document/work.ts';
import type { MadeBlock } from '../making/making.ts';
import { paperId, partsOfPaper } from './papers.ts';
import { frozenBlock, type TakeOptions } from './take-into-work.ts';
import { currentRound } from './work.ts';

/** What taking a changed drawing into work does to its papers, all copies counted once. Letters as the new plan has them. */
export interface TakenChanges {
  readonly work: Work;
  /** Papers that stay true, with what is done on them. */
  readonly kept: readonly string[];
  /** To be printed. */
  readonly fresh: readonly string[];
  /** Letters on the papers that are put aside, and how many sewn patches lie on them. */
  readonly gone: readonly string[];
  readonly sewnLost: number;
}

/**
 * Takes a changed drawing of a block in work, paper by paper. A section of the same shape and order is the same paper:
 * what is sewn on it stays sewn, though its letter may be another now. New papers wait for the next round of each fabric
 * they need, as they come; what no round serves gets rounds of its own at the end. No other block is touched.
 */
export function takeChanges(work: Work, made: MadeBlock, cutOf?: TakeOptions['cutOf']): TakenChanges {
  const before = work.blocks.find(({ id }) => id === made.block.id);
  if (!before) throw new Error('the block is not in work');
  const after = frozenBlock({ ...made, copies: before.copies }, ({ order }) => order, cutOf);
  const oldOf = matched(before, after);
  const fresh = after.sections.filter(({ letter }) => !oldOf.has(letter));
  const isKept = new Set([...oldOf.values()].map(({ letter }) => letter));
  const gone = before.sections.filter(({ letter }) => !isKept.has(letter));
  const sections = after.sections.map((section): WorkSection => {
    const old = oldOf.get(section.letter);
    const printed = old && (old.printedAs ?? old.letter);
    return printed !== undefined && printed !== section.letter ? { ...section, printedAs: printed } : section;
  });
  const block: WorkBlock = { ...after, sections };

  const ids = (letter: string): string[] =>
    Array.from({ length: before.copies }, (_, k) => paperId(before.id, letter, k + 1));
  const renamed = new Map<string, string>();
  for (const [letter, old] of oldOf)
    ids(old.letter).forEach((id, k) => {
      renamed.set(id, ids(letter)[k]!);
    });
  const own = (paper: string): boolean => partsOfPaper(paper).block === before.id;
  const moved = <Value>(record: Readonly<Record<string, Value>>): Record<string, Value> =>
    Object.fromEntries(
      Object.entries(record).flatMap(([paper, value]) => {
        if (!own(paper)) return [[paper, value]];
        const now = renamed.get(paper);
        return now === undefined ? [] : [[now, value]];
      }),
    );

  // A kept paper takes in each round as many patches as before, under their new names.
  const at = new Map<string, number>();
  const kept = work.rounds.map((round): WorkRound => {
    const takes = round.takes.flatMap((take): WorkTake[] => {
      if (!own(take.paper)) return [take];
      const paper = renamed.get(take.paper);
      if (paper === undefined) return [];
      const order = block.sections.find(({ letter }) => letter === partsOfPaper(paper).letter)!.order;
      const start = at.get(paper) ?? 0;
      at.set(paper, start + take.patches.length);
      return [{ paper, patches: order.slice(start, start + take.patches.length) }];
    });
    return { ...round, takes };
  });
  const turn = currentRound(work);
  const rounds = withFresh(
    kept,
    turn,
    block,
    fresh.flatMap(({ letter }) => ids(letter)),
  );

  const names = Array.from({ length: before.copies }, (_, k) => `${before.id}/${k + 1}`);
  const { partly, cut, ...rest } = work;
  const parts = moved(partly ?? {});
  // Rounds that no paper needs any more go; what is cut is known by the rounds that stay.
  const stay = rounds.map(({ takes }) => takes.length > 0);
  const place = new Map<number, number>();
  stay.forEach((isThere, k) => {
    if (isThere) place.set(k, place.size);
  });
  const cutNow = (cut ?? []).flatMap((k) => place.get(k) ?? []);
  const sewnLost = gone
    .flatMap(({ letter }) => ids(letter))
    .reduce((sum, paper) => sum + (work.sewn[paper] ?? 0), 0);
  return {
    kept: [...oldOf.keys()],
    fresh: fresh.map(({ letter }) => letter),
    gone: gone.map(({ letter, printedAs }) => printedAs ?? letter),
    sewnLost,
    work: {
      ...rest,
      blocks: work.blocks.map((one) => (one === before ? block : one)),
      rounds: rounds.filter((_, k) => stay[k]),
      sewn: moved(work.sewn),
      // Joins are other joins now; a block with fresh papers is not trimmed.
      joined: Object.fromEntries(Object.entries(work.joined).filter(([name]) => !names.includes(name))),
      trimmed:
        fresh.length + gone.length === 0 ? work.trimmed : work.trimmed.filter((one) => !names.includes(one)),
      ...(Object.keys(parts).length > 0 && { partly: parts }),
      ...(cutNow.length > 0 && { cut: cutNow }),
    },
  };
}

/** Sections alike stand for each other, each for one; those with the same letter first. By the new letter. */
function matched(before: WorkBlock, after: WorkBlock): ReadonlyMap<string, WorkSection> {
  const left = new Set(before.sections);
  const found = new Map<string, WorkSection>();
  for (const isSameLetter of [true, false])
    for (const { letter, stamp } of after.sections) {
      if (found.has(letter)) continue;
      const old = [...left].find((one) => one.stamp === stamp && (!isSameLetter || one.letter === letter));
      if (!old) continue;
      found.set(letter, old);
      left.delete(old);
    }
  return found;
}

/** Each new paper joins the rounds from `turn` on in turn, wherever its next fabric comes out; what is left, at the end. */
function withFresh(
  rounds: readonly WorkRound[],
  turn: number,
  block: WorkBlock,
  papers: readonly string[],
): readonly WorkRound[] {
  const fabricOf = new Map(block.patches.map(({ id, fabric }) => [id, fabric]));
  const after = rounds.map((round) => ({ ...round, takes: [...round.takes] }));
  for (const paper of papers) {
    const { order, startsFrom } = block.sections.find(({ letter }) => letter === partsOfPaper(paper).letter)!;
    const { copy } = partsOfPaper(paper);
    // It starts from a unit whose last paper is finished in this round.
    const units = (startsFrom ?? []).map((letter) => paperId(block.id, letter, copy));
    let k = Math.max(
      turn,
      ...units.map(
        (unit) => after.findLastIndex(({ takes }) => takes.some((take) => take.paper === unit)) + 1,
      ),
    );
    for (let at = 0; at < order.length; ) {
      const fabric = fabricOf.get(order[at]!);
      let end = at + 1;
      while (end < order.length && fabricOf.get(order[end]!) === fabric) end++;
      while (k < after.length && after[k]!.fabric !== fabric) k++;
      if (k === after.length) after.push({ ...(fabric === undefined ? {} : { fabric }), takes: [] });
      after[k]!.takes.push({ paper, patches: order.slice(at, end) });
      at = end;
      k++;
    }
  }
  return after;
}

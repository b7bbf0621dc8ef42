import type { PaperStage, Work } from '../document/work.ts';
import { papersIn, sewnOf } from './work.ts';

/** Two records of the same work, made one: of every paper, join and step what has come further. */
export interface Merged {
  readonly work: Work;
  /** Papers of which the other record knows more. */
  readonly fromThere: readonly string[];
  /** Papers of which this one knows more. */
  readonly fromHere: readonly string[];
  /** Joins, blocks and quilt steps of which the other record knows more. */
  readonly steps: number;
}

/** Do both follow the same papers through the same rounds? Names and what is done may differ. */
export function isSameWork(a: Work, b: Work): boolean {
  return textOf(a) === textOf(b);
}

const textOf = ({ blocks, rounds }: Work): string =>
  JSON.stringify([
    blocks.map(({ id, copies, sections }) => [
      id,
      copies,
      sections.map(({ letter, stamp }) => [letter, stamp]),
    ]),
    rounds.map(({ fabric, takes }) => [fabric ?? null, takes.map(({ paper, patches }) => [paper, patches])]),
  ]);

/**
 * Merges two records of the same work, paper by paper, the further one winning. Of a day the larger count stands, since
 * both may have grown from one record. Throws where the works are not the same: ask `isSameWork` first.
 */
export function mergeWork(here: Work, there: Work): Merged {
  if (!isSameWork(here, there)) throw new Error('these are not records of the same work');
  const sewn: Record<string, number> = {};
  const partly: Record<string, PaperStage> = {};
  const fromThere: string[] = [];
  const fromHere: string[] = [];
  for (const paper of papersIn(here)) {
    const order = farther(here, there, paper);
    const from = order < 0 ? there : here;
    if (order < 0) fromThere.push(paper);
    if (order > 0) fromHere.push(paper);
    const count = sewnOf(from, paper);
    if (count > 0) sewn[paper] = count;
    const stage = from.partly?.[paper];
    if (stage !== undefined) partly[paper] = stage;
  }
  const joined: Record<string, number> = { ...here.joined };
  let steps = 0;
  for (const [name, count] of Object.entries(there.joined)) {
    const own = joined[name] ?? 0;
    if (count > own) {
      steps += count - own;
      joined[name] = count;
    }
  }
  const trimmed = [...new Set([...here.trimmed, ...there.trimmed])];
  steps += trimmed.length - here.trimmed.length;
  const cut = [...new Set([...(here.cut ?? []), ...(there.cut ?? [])])].sort((a, b) => a - b);
  const days = { ...here.days };
  for (const [day, count] of Object.entries(there.days ?? {})) days[day] = Math.max(days[day] ?? 0, count);
  const time = (there.time?.patches ?? 0) > (here.time?.patches ?? 0) ? there.time : here.time;
  const quilt = here.quilt && {
    ...here.quilt,
    done: here.quilt.done.map((done, k) => {
      const both = [...new Set([...done, ...(there.quilt?.done[k] ?? [])])].sort((a, b) => a - b);
      steps += both.length - done.length;
      return both;
    }),
  };
  const { partly: _, cut: __, days: ___, time: ____, quilt: _____, ...rest } = here;
  const work: Work = {
    ...rest,
    sewn,
    joined,
    trimmed,
    ...(Object.keys(partly).length > 0 && { partly }),
    ...(cut.length > 0 && { cut }),
    ...(Object.keys(days).length > 0 && { days }),
    ...(time !== undefined && { time }),
    ...(quilt !== undefined && { quilt }),
  };
  return { work, fromThere, fromHere, steps };
}

const STAGES: readonly (PaperStage | undefined)[] = ['sewn', 'trimmed', undefined];

/** Above 0 where the first record of a paper has come further, below 0 where the second has. */
function farther(a: Work, b: Work, paper: string): number {
  const more = sewnOf(a, paper) - sewnOf(b, paper);
  if (more !== 0) return more;
  return STAGES.indexOf(a.partly?.[paper]) - STAGES.indexOf(b.partly?.[paper]);
}

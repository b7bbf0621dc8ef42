import type { MadeBlock } from '../making/making.ts';
import { type Form, formsOf } from './form.ts';

/** One copy of one foundation: the thing that lies on the table. */
export interface Paper {
  /** `b1/A/2`: block, section, copy. */
  readonly id: string;
  readonly block: string;
  readonly section: string;
  /** 1, 2, 3 … */
  readonly copy: number;
  readonly form: Form;
  /** Ids of the papers whose joined unit is laid as its position 1; they must be finished first. */
  readonly waitsFor: readonly string[];
}

export const paperId = (block: string, section: string, copy: number): string =>
  `${block}/${section}/${copy}`;

/** The parts of a paper's id. */
export function partsOfPaper(paper: string): {
  readonly block: string;
  readonly letter: string;
  readonly copy: number;
} {
  const [, block, letter, copy] = /^(.*)\/([^/]+)\/(\d+)$/.exec(paper)!;
  return { block: block!, letter: letter!, copy: Number(copy) };
}

/** The papers of the blocks in hand: block by block, copy by copy, by letter. Blocks that cannot be pieced have none. */
export function papersOf(made: readonly MadeBlock[]): Paper[] {
  return made.flatMap(({ block, plan, copies }) => {
    const forms = formsOf(plan);
    return Array.from({ length: copies }, (_, k) => k + 1).flatMap((copy) =>
      plan.sections.map(
        ({ letter, startsFrom }): Paper => ({
          id: paperId(block.id, letter, copy),
          block: block.id,
          section: letter,
          copy,
          form: forms.get(letter)!,
          waitsFor: startsFrom.map((other) => paperId(block.id, other, copy)),
        }),
      ),
    );
  });
}

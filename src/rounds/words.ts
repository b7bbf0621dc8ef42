import type { Project } from '../document/project.ts';
import type { Work, WorkCut, WorkJoin } from '../document/work.ts';
import type { LengthUnit } from '../geometry/length.ts';
import { listed } from '../piecing/sentences.ts';
import { sizeWords } from '../quilt/words.ts';
import { phrase } from '../words/phrase.ts';
import { partsOfPaper } from './papers.ts';
import type { Act, Standing } from './work.ts';
import { paperIn } from './work.ts';

/** What the Sew place and its pages call things. */

export const patchCount = (n: number): string =>
  phrase('{n, plural, one {# patch} other {# patches}}', { n });
export const paperCount = (n: number): string => phrase('{n, plural, one {# paper} other {# papers}}', { n });
export const pieceCount = (n: number): string => phrase('{n, plural, one {# piece} other {# pieces}}', { n });

/** A paper by its block, letter and copy, and the letter printed on it where that is another. */
export function paperName(work: Work, paper: string): string {
  const { block, section } = paperIn(work, paper)!;
  const { letter, copy } = partsOfPaper(paper);
  const printed =
    section.printedAs === undefined
      ? letter
      : phrase('{letter} (printed as {old})', { letter, old: section.printedAs });
  return block.copies > 1
    ? phrase('{block}, {letter}, copy {copy}', { block: block.name, letter: printed, copy })
    : phrase('{block}, {letter}', { block: block.name, letter: printed });
}

export const fabricName = ({ fabrics }: Project, id: string | undefined): string =>
  fabrics.find((fabric) => fabric.id === id)?.name ?? phrase('Without a fabric yet');

/** What is said of a paper in a round. */
export const STANDING_WORDS: Readonly<Record<Standing, string>> = {
  done: phrase('done'),
  sewn: phrase('to sew'),
  trimmed: phrase('sewn, to trim'),
  pressed: phrase('to press'),
  waiting: phrase('waits for an earlier step'),
};

/** What a press of the great button says, for a whole pile or for some papers of it. */
export const pileWords = (act: Act, papers: number, isWhole: boolean): string =>
  isWhole
    ? phrase(
        '{act, select, sewn {The whole pile is sewn} trimmed {The whole pile is trimmed} other {The whole pile is pressed}}',
        { act },
      )
    : phrase(
        '{act, select, sewn {{n, plural, one {# paper sewn} other {# papers sewn}}} trimmed {{n, plural, one {# paper trimmed} other {# papers trimmed}}} other {{n, plural, one {# paper pressed} other {# papers pressed}}}}',
        { act, n: papers },
      );

export const cutWords = ({ kind, width, height }: WorkCut, unit: LengthUnit): string =>
  phrase(
    '{kind, select, rectangle {{size}} half_square {{size}, each cut once corner to corner} quarter_square {{size}, each cut twice corner to corner} other {{size}, each cut once at a slant}}',
    { kind: kind.replace('-', '_'), size: sizeWords([width, height], unit) },
  );

/** How long something takes, as people say it: `about 3 h 20 min`. */
export function timeWords(seconds: number): string {
  const minutes = Math.max(1, Math.round(seconds / 60));
  if (minutes < 60) return phrase('about {minutes, number} min', { minutes });
  // Nobody plans ten hours to the minute.
  const hours = Math.floor(minutes / 60);
  const rest = hours >= 10 ? 0 : 5 * Math.round((minutes % 60) / 5);
  if (rest === 0 || rest === 60) return phrase('about {hours, number} h', { hours: hours + rest / 60 });
  return phrase('about {hours, number} h {rest, number} min', { hours, rest });
}

/** The units of a join inside a block: `A and B to C`. */
export const joinWords = ({ left, right }: Pick<WorkJoin, 'left' | 'right'>): string =>
  phrase('{left} to {right}', { left: listed(left), right: listed(right) });

/** What the two units of a step of the quilt are called: their place, or the step that made them. */
export function unitWords({ quilt, blocks }: Work, step: number): readonly [string, string] {
  const { steps, places } = quilt!;
  const name = (ids: readonly string[]): string => {
    if (ids.length > 1) {
      const made = steps
        .slice(0, step)
        .findLastIndex(({ left, right }) => [...left, ...right].includes(ids[0]!));
      if (made >= 0) return phrase('what step {step, number} made', { step: made + 1 });
    }
    const place = places.find(({ id }) => id === ids[0]);
    const number = place?.number ?? 0;
    const block = blocks.find(({ id }) => id === place?.block);
    return block
      ? phrase('place {number, number} ({block})', { number, block: block.name })
      : phrase('place {number, number}', { number });
  };
  const { left, right } = steps[step]!;
  return [name(left), name(right)];
}

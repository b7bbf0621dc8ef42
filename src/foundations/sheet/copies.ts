import type { MadeBlock } from '../../making/making.ts';
import type { Foundation } from '../print-work.ts';
import type { Nesting } from './filling.ts';

/** Only papers of one group share sheets. */
export const groupOf = ({ job, section }: Foundation, { together }: Nesting): string =>
  together === 'fewest' ? '' : together === 'blocks' ? job.block.id : `${job.block.id} ${section.letter}`;

/** What is made of every copy: all copies of a section one after another, or a block's sections copy by copy. */
export function copiesOf<
  One extends { readonly job: MadeBlock; readonly onlyCopy?: number | undefined },
  Made,
>(all: readonly One[], { together }: Nesting, make: (one: One) => (copy: number) => readonly Made[]): Made[] {
  if (together !== 'blocks')
    return all.flatMap((one) => {
      const made = make(one);
      return numbersOf(one).flatMap(made);
    });
  return [...new Set(all.map(({ job }) => job))].flatMap((job) => {
    const makers = all.filter((one) => one.job === job).map(make);
    return numbersOf(all.find((one) => one.job === job)!).flatMap((copy) =>
      makers.flatMap((made) => made(copy)),
    );
  });
}

/** The numbers of the copies that are made. */
const numbersOf = ({
  job,
  onlyCopy,
}: {
  readonly job: MadeBlock;
  readonly onlyCopy?: number | undefined;
}): readonly number[] =>
  onlyCopy === undefined ? Array.from({ length: job.copies }, (_, k) => k + 1) : [onlyCopy];

import type { Mend } from './draft.ts';

const counted = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`;

/** `4 lines on, 24 patches on 8 foundations`. */
export const outcomeOf = ({ straightLines, after }: Mend): string =>
  `${counted(straightLines, 'line')} on, ${counted(after.patches, 'patch', 'patches')} on ${counted(after.foundations, 'foundation')}`;

/** What a mend does, as one would say it. */
export function mendSentence(mend: Mend): string {
  const pulled = mend.pulled.length === 0 ? '' : `; ${counted(mend.pulled.length, 'loose end')} pulled in`;
  const doubt = mend.kind === 'fewest-patches' && !mend.isProven ? ' Perhaps not the fewest patches.' : '';
  return `${ASKED[mend.kind]}: ${outcomeOf(mend)}${pulled}.${doubt}`;
}

const ASKED: Readonly<Record<Mend['kind'], string>> = {
  'fewest-patches': 'Make it sewable, picture kept',
  symmetric: 'Make it sewable and symmetric, picture kept',
  'fewer-foundations': 'Make it sewable on fewer foundations, picture kept',
};

/** What fewer foundations cost a drawing that sews, as one would say it. */
export const wishSentence = (mend: Mend): string => `Fewer foundations, picture kept: ${outcomeOf(mend)}.`;

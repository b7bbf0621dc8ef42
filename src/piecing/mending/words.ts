import { phrase } from '../../words/phrase.ts';
import type { Mend } from './draft.ts';

/** `4 lines on, 24 patches on 8 foundations`. */
export const outcomeOf = ({ straightLines, after }: Mend): string =>
  phrase(
    '{straightLines, plural, one {# line} other {# lines}} on, {patches, plural, one {# patch} other {# patches}} on {foundations, plural, one {# foundation} other {# foundations}}',
    { straightLines, patches: after.patches, foundations: after.foundations },
  );

/** What a mend does, as one would say it. */
export function mendSentence(mend: Mend): string {
  const pulled =
    mend.pulled.length === 0
      ? ''
      : phrase('; {pulled, plural, one {# loose end} other {# loose ends}} pulled in', {
          pulled: mend.pulled.length,
        });
  const doubt =
    mend.kind === 'fewest-patches' && !mend.isProven ? phrase(' Perhaps not the fewest patches.') : '';
  return `${ASKED[mend.kind]}: ${outcomeOf(mend)}${pulled}.${doubt}`;
}

const ASKED: Readonly<Record<Mend['kind'], string>> = {
  'fewest-patches': phrase('Make it sewable, picture kept'),
  symmetric: phrase('Make it sewable and symmetric, picture kept'),
  'fewer-foundations': phrase('Make it sewable on fewer foundations, picture kept'),
};

/** What fewer foundations cost a drawing that sews, as one would say it. */
export const wishSentence = (mend: Mend): string =>
  phrase('Fewer foundations, picture kept: {outcomeOf}.', { outcomeOf: outcomeOf(mend) });

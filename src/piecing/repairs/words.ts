import { formatLength, type LengthUnit } from '../../geometry/length.ts';
import { perCent } from '../../words/numeral.ts';
import { phrase } from '../../words/phrase.ts';
import type { Cure } from './cure.ts';
import type { Repair } from './repair.ts';

/**
 * What a repair gains, before → after in numbers: `1 set-in corner → all straight; 2 foundations;
 * 5 → 6 patches`. Says only what changes, and the foundations always.
 */
export function gainWords({ before, after }: Pick<Repair, 'before' | 'after'>): string {
  const parts: string[] = [];
  if (before.setInCorners !== after.setInCorners)
    parts.push(
      after.setInCorners === 0
        ? phrase('{n, plural, one {# set-in corner} other {# set-in corners}} → all straight', {
            n: before.setInCorners,
          })
        : phrase('{old, number} → {n, plural, one {# set-in corner} other {# set-in corners}}', {
            old: before.setInCorners,
            n: after.setInCorners,
          }),
    );
  else if (before.troubles !== after.troubles)
    parts.push(
      phrase('{old, number} → {n, plural, one {# problem} other {# problems}}', {
        old: before.troubles,
        n: after.troubles,
      }),
    );
  parts.push(
    before.foundations === after.foundations
      ? phrase('{n, plural, one {# foundation} other {# foundations}}', { n: after.foundations })
      : phrase('{old, number} → {n, plural, one {# foundation} other {# foundations}}', {
          old: before.foundations,
          n: after.foundations,
        }),
  );
  if (before.cautions !== after.cautions)
    parts.push(
      phrase('{old, number} → {n, plural, one {# awkward place} other {# awkward places}}', {
        old: before.cautions,
        n: after.cautions,
      }),
    );
  if (before.patches !== after.patches)
    parts.push(
      phrase('{old, number} → {n, plural, one {# patch} other {# patches}}', {
        old: before.patches,
        n: after.patches,
      }),
    );
  return parts.join('; ');
}

/** What a cure does to the picture, in a sentence. */
export function pictureWords(
  { kind, picture: { share } }: Pick<Cure, 'kind' | 'picture'>,
  unit: LengthUnit,
): string {
  const part = share < 0.005 ? phrase('less than 1%') : perCent(share);
  switch (kind) {
    case 'mend':
    case 'kept':
    case 'wish':
      return phrase('The picture stays as it is.');
    case 'hair':
      return phrase('A line moves by less than {hair}: nobody sees it.', { hair: formatLength(1 / 8, unit) });
    case 'altered':
      return phrase('Changes {part} of the picture.', { part });
    case 'lost':
      return phrase('A line of the picture is lost, and {part} of it changes.', { part });
  }
}

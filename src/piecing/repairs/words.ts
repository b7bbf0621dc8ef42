import type { Cure } from './cure.ts';
import type { Repair } from './repair.ts';

const counted = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`;

/** `2 → 1 foundation`, or the number alone where it stays. */
const change = (before: number, after: number, one: string, many = `${one}s`): string =>
  before === after ? counted(after, one, many) : `${before} → ${counted(after, one, many)}`;

/**
 * What a repair gains, before → after in numbers: `1 set-in corner → all straight; 2 foundations;
 * 5 → 6 patches`. Says only what changes, and the foundations always.
 */
export function gainWords({ before, after }: Pick<Repair, 'before' | 'after'>): string {
  const parts: string[] = [];
  if (before.setInCorners !== after.setInCorners)
    parts.push(
      after.setInCorners === 0
        ? `${counted(before.setInCorners, 'set-in corner')} → all straight`
        : change(before.setInCorners, after.setInCorners, 'set-in corner'),
    );
  else if (before.troubles !== after.troubles)
    parts.push(`${change(before.troubles, after.troubles, 'place')} in the way`);
  parts.push(change(before.foundations, after.foundations, 'foundation'));
  if (before.cautions !== after.cautions)
    parts.push(change(before.cautions, after.cautions, 'awkward place'));
  if (before.patches !== after.patches) parts.push(change(before.patches, after.patches, 'patch', 'patches'));
  return parts.join('; ');
}

/** What a cure does to the picture, in a sentence. */
export function pictureWords({ kind, picture: { share } }: Pick<Cure, 'kind' | 'picture'>): string {
  const percent = Math.round(100 * share);
  const part = percent < 1 ? 'less than 1 %' : `${percent} %`;
  switch (kind) {
    case 'mend':
    case 'kept':
    case 'wish':
      return 'The picture stays as it is.';
    case 'hair':
      return 'A line moves by less than 1/8 in: nobody sees it.';
    case 'altered':
      return `Changes ${part} of the picture.`;
    case 'lost':
      return `A line of the picture is lost, and ${part} of it changes.`;
  }
}

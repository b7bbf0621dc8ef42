import { formatLength, type LengthUnit } from '../geometry/length.ts';
import { numeral } from '../words/numeral.ts';
import { phrase } from '../words/phrase.ts';
import type { FabricPlan } from './cutting-plan.ts';
import { type Slack, toBuy } from './lengths.ts';
import type { BoundKind } from './strips/strip-bound.ts';

/** Strips of one height, as they are added up. */
export interface StripSum {
  readonly count: number;
  readonly height: number;
  readonly total: number;
}

/** The strips of a fabric by height, the tallest first. */
export function stripSums({ strips }: Pick<FabricPlan, 'strips'>): readonly StripSum[] {
  const counts = new Map<number, number>();
  for (const { height } of strips) counts.set(height, (counts.get(height) ?? 0) + 1);
  return [...counts].map(([height, count]) => ({ count, height, total: count * height }));
}

const THREE = { minimumFractionDigits: 3, maximumFractionDigits: 3 };

const percent = (share: number): string => `${numeral(100 * share, { maximumFractionDigits: 2 })} %`;

/** `7/8 yd`, `1 1/4 yd`, `0.9 m`. */
export function boughtWords({ yards, metres }: { yards: number; metres: number }, unit: LengthUnit): string {
  return unit === 'mm'
    ? `${numeral(metres, { minimumFractionDigits: 1, maximumFractionDigits: 1 })} m`
    : phrase('{yards} yd', { yards: formatLength(yards, 'in').replace(/ in$/, '') });
}

/** The arithmetic of one fabric, a line a step, so that it can be gone through with a pencil. */
export function sumLines(plan: FabricPlan, slack: Slack, unit: LengthUnit): readonly string[] {
  const said = (inches: number): string => formatLength(inches, unit);
  const buy = toBuy(plan.length, slack);
  const lines = stripSums(plan).map(
    ({ count, height, total }) =>
      `${phrase('{count, plural, one {# strip} other {# strips}}', { count })} × ${said(height)} = ${said(total)}`,
  );
  if (lines.length > 1) lines.push(phrase('together {plan}', { plan: said(plan.length) }));
  if (slack.spare > 0)
    lines.push(
      phrase('and {percent} to spare: {plan}', {
        percent: percent(slack.spare),
        plan: said(plan.length * (1 + slack.spare)),
      }),
    );
  if (slack.shrinkage > 0)
    lines.push(
      phrase('before it shrinks by {shrinkage}: ÷ {share} = {length}', {
        shrinkage: percent(slack.shrinkage),
        share: numeral(1 - slack.shrinkage, { maximumFractionDigits: 4 }),
        length: said(buy.inches),
      }),
    );
  lines.push(
    unit === 'mm'
      ? phrase('÷ {thousand, number} = {metres} m, rounded up to a tenth: {bought}', {
          thousand: 1000,
          metres: numeral((buy.inches * 25.4) / 1000, THREE),
          bought: boughtWords(buy, unit),
        })
      : phrase('÷ 36 = {yards} yd, rounded up to an eighth: {bought}', {
          yards: numeral(buy.inches / 36, THREE),
          bought: boughtWords(buy, unit),
        }),
  );
  return lines;
}

/** What the lower bound of a length rests on, as the end of a sentence. */
export const BOUND_WORDS: Readonly<Record<BoundKind, string>> = {
  area: phrase('the cloth of all its pieces without a gap between them'),
  tallest: phrase('its longest piece'),
  wide: phrase('pieces too wide to lie side by side'),
};

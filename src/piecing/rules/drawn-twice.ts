import { TOUCH_IN } from '../../geometry/lattice.ts';
import { formatLength } from '../../geometry/length.ts';
import { distance, middle } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import type { Cut } from '../block.ts';
import { cutName, cutWithin, type Rule } from './rule.ts';

/** Lines that run so close side by side were meant as one: 1/32 in. */
export const TWICE_IN = 1 / 32;

/** They run side by side for at least this share of the shorter. */
const BESIDE_SHARE = 0.5;

/** Two cuts that run side by side less than 1/32 in apart. */
export const drawnTwice: Rule = {
  code: 'drawn-twice',
  title: phrase('Line drawn twice'),
  severity: 'caution',
  check: ({ block, options }) =>
    twicePairs(block.cuts).map(([cut, other]) => {
      const shorter = distance(cut.from, cut.to) <= distance(other.from, other.to) ? cut : other;
      return {
        at: middle(shorter.from, shorter.to),
        cuts: [cut.id, other.id],
        message: phrase(
          '{cutName} and {cutName2} lie less than {most} apart: the line is drawn twice, and no strip so thin can be sewn. Make them one.',
          {
            cutName: cutName(block, cut),
            cutName2: cutWithin(block, other),
            most: formatLength(TWICE_IN, options.unit ?? 'in'),
          },
        ),
      };
    }),
};

/** Pairs of cuts that run side by side, in the order they were drawn. Swept from left to right. */
function twicePairs(cuts: readonly Cut[]): (readonly [Cut, Cut])[] {
  const left = Float64Array.from(cuts, ({ from, to }) => Math.min(from[0], to[0]));
  const right = Float64Array.from(cuts, ({ from, to }) => Math.max(from[0], to[0]) + TWICE_IN);
  const top = Float64Array.from(cuts, ({ from, to }) => Math.min(from[1], to[1]) - TWICE_IN);
  const bottom = Float64Array.from(cuts, ({ from, to }) => Math.max(from[1], to[1]));
  const inTurn = Int32Array.from(cuts.keys()).sort((a, b) => left[a]! - left[b]!);
  const pairs: (readonly [number, number])[] = [];
  for (let i = 0; i < inTurn.length; i++) {
    const a = inTurn[i]!;
    for (let j = i + 1; j < inTurn.length && left[inTurn[j]!]! < right[a]!; j++) {
      const b = inTurn[j]!;
      if (top[b]! >= bottom[a]! || top[a]! >= bottom[b]!) continue;
      if (runsBeside(cuts[a]!, cuts[b]!)) pairs.push([Math.min(a, b), Math.max(a, b)]);
    }
  }
  return pairs.sort((a, b) => a[0] - b[0] || a[1] - b[1]).map(([i, j]) => [cuts[i]!, cuts[j]!] as const);
}

/** Do two cuts lie apart by more than a touch and less than 1/32 in, for half of the shorter or more? */
export function runsBeside(one: Cut, other: Cut): boolean {
  const isLonger = squared(one) >= squared(other);
  const { from: start, to: end } = isLonger ? one : other;
  const { from, to } = isLonger ? other : one;
  // Most pairs are told apart without a root being drawn.
  const dx = end[0] - start[0];
  const dy = end[1] - start[1];
  const most = TWICE_IN * TWICE_IN * (dx * dx + dy * dy);
  const a = (from[1] - start[1]) * dx - (from[0] - start[0]) * dy;
  const b = (to[1] - start[1]) * dx - (to[0] - start[0]) * dy;
  if (a * a >= most || b * b >= most) return false;
  const length = distance(start, end);
  const own = distance(from, to);
  if (own <= 4 * TWICE_IN || Math.max(Math.abs(a), Math.abs(b)) <= TOUCH_IN * length) return false;
  const s = ((from[0] - start[0]) * dx + (from[1] - start[1]) * dy) / length;
  const t = ((to[0] - start[0]) * dx + (to[1] - start[1]) * dy) / length;
  const beside = Math.min(length, Math.max(s, t)) - Math.max(0, Math.min(s, t));
  return beside >= BESIDE_SHARE * own;
}

const squared = ({ from, to }: Cut): number => (to[0] - from[0]) ** 2 + (to[1] - from[1]) ** 2;

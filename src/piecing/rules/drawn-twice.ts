import { TOUCH_IN } from '../../geometry/lattice.ts';
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
  check: ({ block }) =>
    nearPairs(block.cuts)
      .filter(([cut, other]) => runsBeside(cut, other))
      .map(([cut, other]) => {
        const shorter = distance(cut.from, cut.to) <= distance(other.from, other.to) ? cut : other;
        return {
          at: middle(shorter.from, shorter.to),
          cuts: [cut.id, other.id],
          message: phrase(
            '{cutName} and {cutName2} lie less than 1/32 in apart: the line is drawn twice, and no strip so thin can be sewn. Make them one.',
            { cutName: cutName(block, cut), cutName2: cutWithin(block, other) },
          ),
        };
      }),
};

/** Pairs of cuts whose boxes come so near each other, in the order they were drawn. Swept from left to right. */
function nearPairs(cuts: readonly Cut[]): (readonly [Cut, Cut])[] {
  const boxes = cuts
    .map(({ from, to }, k) => ({
      k,
      left: Math.min(from[0], to[0]),
      right: Math.max(from[0], to[0]),
      top: Math.min(from[1], to[1]),
      bottom: Math.max(from[1], to[1]),
    }))
    .sort((a, b) => a.left - b.left);
  const pairs: (readonly [number, number])[] = [];
  for (let i = 0; i < boxes.length; i++) {
    const box = boxes[i]!;
    for (let j = i + 1; j < boxes.length && boxes[j]!.left < box.right + TWICE_IN; j++) {
      const other = boxes[j]!;
      if (other.top < box.bottom + TWICE_IN && other.bottom > box.top - TWICE_IN)
        pairs.push([Math.min(box.k, other.k), Math.max(box.k, other.k)]);
    }
  }
  return pairs.sort((a, b) => a[0] - b[0] || a[1] - b[1]).map(([i, j]) => [cuts[i]!, cuts[j]!] as const);
}

/** Do two cuts lie apart by more than a touch and less than 1/32 in, for half of the shorter or more? */
export function runsBeside(one: Cut, other: Cut): boolean {
  const [long, short] =
    distance(one.from, one.to) >= distance(other.from, other.to) ? [one, other] : [other, one];
  const length = distance(long.from, long.to);
  const own = distance(short.from, short.to);
  if (own <= 4 * TWICE_IN) return false;
  const [ux, uy] = [(long.to[0] - long.from[0]) / length, (long.to[1] - long.from[1]) / length];
  const off = ([x, y]: readonly [number, number]): number =>
    Math.abs((y - long.from[1]) * ux - (x - long.from[0]) * uy);
  const [a, b] = [off(short.from), off(short.to)];
  if (a >= TWICE_IN || b >= TWICE_IN || Math.max(a, b) <= TOUCH_IN) return false;
  const along = ([x, y]: readonly [number, number]): number =>
    (x - long.from[0]) * ux + (y - long.from[1]) * uy;
  const [s, t] = [along(short.from), along(short.to)];
  const beside = Math.min(length, Math.max(s, t)) - Math.max(0, Math.min(s, t));
  return beside >= BESIDE_SHARE * own;
}

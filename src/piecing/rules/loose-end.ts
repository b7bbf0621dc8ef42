import { TOUCH_IN } from '../../geometry/lattice.ts';
import { formatLength } from '../../geometry/length.ts';
import type { Point, Segment } from '../../geometry/point.ts';
import { cross, distance } from '../../geometry/ring.ts';
import type { Block, Cut } from '../block.ts';
import { cutName, type Rule } from './rule.ts';

/** Parts of cuts that lead nowhere, each told at its end, from the line it misses there. */
export const looseEnd: Rule = {
  code: 'loose-end',
  title: 'Loose end',
  severity: 'caution',
  check: ({ block, pattern }) =>
    pattern.division.strays.flatMap(({ kind, line, at }) => {
      const cut = block.cuts[line];
      if (kind !== 'loose-end' || !cut) return [];
      const name = cutName(block, cut);
      const missed = missedBeyond(block, cut, at);
      if (!missed)
        return [
          {
            at,
            cuts: [cut.id],
            message: `${name} ends in the middle of a patch: the loose part is no seam. Draw it on to the next line, or pull it back.`,
          },
        ];
      const { gap, beside } = missed;
      const whither = beside ? cutName(block, beside).toLowerCase() : 'the edge of the block';
      return [
        {
          at: gap[0],
          cuts: [cut.id],
          stretches: [gap],
          message: `${name} ends in the middle of a patch, ${lengthWords(distance(...gap))} short of ${whither}: the loose part is no seam. Draw it on to ${whither}, or pull it back.`,
        },
      ];
    }),
};

/** To the nearest 1/8 in; what is less is told to be less. */
const lengthWords = (inches: number): string =>
  inches < 1 / 16 ? 'less than 1/8 in' : formatLength(Math.max(1, Math.round(inches * 8)) / 8, 'in');

/** From a loose end straight on to the line or edge it would come to first; null where it is no end of the cut. */
function missedBeyond(
  block: Block,
  cut: Cut,
  spot: Point,
): { readonly gap: Segment; readonly beside: Cut | null } | null {
  const isFrom = distance(cut.from, spot) < distance(cut.to, spot);
  const [start, end] = isFrom ? [cut.to, cut.from] : [cut.from, cut.to];
  if (distance(end, spot) > 2 * TOUCH_IN) return null;
  let least = Number.POSITIVE_INFINITY;
  let found: { readonly gap: Segment; readonly beside: Cut | null } | null = null;
  const look = (a: Point, b: Point, beside: Cut | null): void => {
    const [toA, toB] = [cross(start, end, a), cross(start, end, b)];
    if ((toA > 0 && toB > 0) || (toA < 0 && toB < 0) || toA === toB) return;
    const share = toA / (toA - toB);
    const at: Point = [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])];
    const ahead = (at[0] - end[0]) * (end[0] - start[0]) + (at[1] - end[1]) * (end[1] - start[1]);
    const away = distance(end, at);
    if (ahead <= 0 || away <= TOUCH_IN || away >= least) return;
    least = away;
    found = { gap: [end, at], beside };
  };
  for (const other of block.cuts) if (other !== cut) look(other.from, other.to, other);
  block.outline.forEach((corner, k) => {
    look(corner, block.outline[(k + 1) % block.outline.length]!, null);
  });
  return found;
}

import type { Point, Segment } from '../../src/geometry/point.ts';
import type { Block } from '../../src/piecing/block.ts';
import { piece } from '../../src/piecing/piece.ts';

/** An end this near a line lies on it, inches. */
const NEAR = 0.004;

/**
 * Patches added by the plain way: of all ends of cuts the one is drawn on to the line it meets next that leaves the fewest
 * corners to set in, then the fewest patches; and so on until straight seams sew it. Null where it comes to nothing within
 * so many steps.
 */
export function greedyExtension(block: Block, steps: number): number | null {
  const first = piece(block);
  let drawn = block;
  let plan = first;
  for (let step = 0; plan.verdict === 'set-in-seams'; step++) {
    if (step === steps) return null;
    let best: { drawn: Block; plan: typeof plan } | null = null;
    for (const [index, end] of drawn.cuts.flatMap((_, k) => [[k, 'from'] as const, [k, 'to'] as const])) {
      const longer = drawnOn(drawn, index, end);
      if (!longer) continue;
      const next = piece(longer);
      if (next.patches.length <= plan.patches.length) continue;
      if (!best || cornersOf(next) < cornersOf(best.plan)) best = { drawn: longer, plan: next };
      else if (cornersOf(next) === cornersOf(best.plan) && next.patches.length < best.plan.patches.length)
        best = { drawn: longer, plan: next };
    }
    if (!best) return null;
    drawn = best.drawn;
    plan = best.plan;
  }
  return plan.patches.length - first.patches.length;
}

const cornersOf = ({ joins }: ReturnType<typeof piece>): number =>
  joins.reduce((sum, { kind, stretches }) => sum + (kind === 'set-in' ? stretches.length : 0), 0);

function drawnOn(block: Block, index: number, end: 'from' | 'to'): Block | null {
  const cut = block.cuts[index]!;
  const [a, b] = end === 'to' ? [cut.from, cut.to] : [cut.to, cut.from];
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const lines: Segment[] = [
    ...block.outline.map((corner, k): Segment => [corner, block.outline[(k + 1) % block.outline.length]!]),
    ...block.cuts.filter((_, k) => k !== index).map(({ from, to }): Segment => [from, to]),
  ];
  let next: { at: Point; away: number } | null = null;
  for (const [c, d] of lines) {
    const [ux, uy] = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
    const across = ux * (d[1] - c[1]) - uy * (d[0] - c[0]);
    if (Math.abs(across) < 1e-9) continue;
    const away = ((c[0] - b[0]) * (d[1] - c[1]) - (c[1] - b[1]) * (d[0] - c[0])) / across;
    const at: Point = [b[0] + away * ux, b[1] + away * uy];
    const along =
      ((at[0] - c[0]) * (d[0] - c[0]) + (at[1] - c[1]) * (d[1] - c[1])) /
      ((d[0] - c[0]) ** 2 + (d[1] - c[1]) ** 2);
    if (away < NEAR || along < -1e-6 || along > 1 + 1e-6 || (next && next.away <= away)) continue;
    next = { at, away };
  }
  if (!next) return null;
  const at: Point = [Math.round(next.at[0] * 65536) / 65536, Math.round(next.at[1] * 65536) / 65536];
  const cuts = block.cuts.map((one, k) => (k === index ? { ...one, [end]: at } : one));
  return { ...block, cuts };
}

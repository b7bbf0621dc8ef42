import { TOUCH_IN } from '../../geometry/lattice.ts';
import type { Segment } from '../../geometry/point.ts';
import { distance } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import type { Block } from '../block.ts';
import type { PiecingPlan } from '../plan.ts';
import { meetingsAlong, replaced, withEnd } from './lines.ts';
import type { Candidate } from './repair.ts';

/** All loose ends at once, where there are two or more: each drawn on to what it misses, the shortest way first. */
export function looseEndsOn(
  block: Block,
  plan: PiecingPlan,
  nearness: (segment: Segment) => number,
): Candidate[] {
  const loose = plan.findings.filter(({ code }) => code === 'loose-end' || code === 'idle-cut');
  if (loose.length < 2) return [];
  const ends = loose.flatMap(({ cuts: [id], at }) => {
    const index = block.cuts.findIndex((cut) => cut.id === id);
    const cut = block.cuts[index];
    if (!cut || cut.locked) return [];
    const end = (['from', 'to'] as const).find((one) => distance(cut[one], at) <= 2 * TOUCH_IN);
    return end ? [{ index, end, gap: gapOf(block, index, end) }] : [];
  });
  if (ends.length < 2) return [];
  let drawn = block;
  let moved = 0;
  for (const { index, end } of ends.sort((a, b) => a.gap - b.gap)) {
    const cut = drawn.cuts[index]!;
    // What the ends before were drawn on to may lie in the way by now.
    const next = nextBeyond(drawn, index, end);
    if (!next) return [];
    moved += distance(cut[end], next.at);
    drawn = { ...drawn, cuts: replaced(drawn, new Map([[cut.id, withEnd(cut, end, next.at)]])) };
  }
  return [
    {
      id: 'extend-all',
      sentence: phrase('Extend all {ends} loose ends to the lines they miss.', { ends: ends.length }),
      change: { kind: 'cuts', cuts: drawn.cuts },
      rank: nearness([loose[0]!.at, loose[0]!.at]) - 1,
      loss: 0,
      moved,
      isOwn: true,
    },
  ];
}

function nextBeyond(block: Block, index: number, end: 'from' | 'to') {
  const { from, to } = block.cuts[index]!;
  const here = 1 + (2 * TOUCH_IN) / distance(from, to);
  return meetingsAlong(block, index, end).find(({ t }) => t > here);
}

function gapOf(block: Block, index: number, end: 'from' | 'to'): number {
  const next = nextBeyond(block, index, end);
  return next ? distance(block.cuts[index]![end], next.at) : Number.POSITIVE_INFINITY;
}

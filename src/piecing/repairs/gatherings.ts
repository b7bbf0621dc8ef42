import { snapPoint, TOUCH_IN } from '../../geometry/lattice.ts';
import type { Point, Segment } from '../../geometry/point.ts';
import { cross, distance, distanceToSegment } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import type { Block, Cut } from '../block.ts';
import { listed } from '../sentences.ts';
import { replaced } from './lines.ts';
import type { Candidate } from './repair.ts';

/** Lines that pass a spot by less than this may have been meant to meet there: 1/2 in. */
const ABOUT_IN = 0.5;

/** Spots looked at: of a drawing with more, those drawn first. */
const MOST_SPOTS = 12;

/** Spots where lines end or meet that are compared; a drawing with more of them has other troubles. */
const MOST_MEETINGS = 400;

/**
 * Three lines or more that nearly meet at one spot, brought together there: each moves the end that lies there, or turns about
 * one end until it runs through. No one of them alone would do. Cost: O(pairs of cuts), then O(spots²).
 */
export function gatherings(block: Block, nearness: (segment: Segment) => number): Candidate[] {
  const spots = spotsNearEachOther(block);
  const seen = new Set<string>();
  return spots.flatMap(({ at, through }): Candidate[] => {
    const moves = new Map<string, Cut | null>();
    let moved = 0;
    const kept = block.cuts.filter((cut) => distanceToSegment(at, cut.from, cut.to) <= 2 * TOUCH_IN);
    for (const index of through) {
      const cut = block.cuts[index]!;
      if (kept.includes(cut)) continue;
      const next = cut.locked ? null : broughtTo(block, cut, at);
      if (next === null) return [];
      moves.set(cut.id, next);
      moved = Math.max(moved, distance(cut.from, next.from), distance(cut.to, next.to));
    }
    const all = [...new Set([...through, ...kept.map((cut) => block.cuts.indexOf(cut))])].sort(
      (a, b) => a - b,
    );
    if (moves.size === 0 || all.length < 3) return [];
    const id = `gather ${all.join('-')} ${at.map((v) => v.toFixed(2)).join(' ')}`;
    if (seen.has(id)) return [];
    seen.add(id);
    return [
      {
        id,
        sentence: phrase('Let lines {all} meet at one spot.', { all: listed(all.map((k) => k + 1)) }),
        change: { kind: 'cuts', cuts: replaced(block, moves) },
        rank: nearness([at, at]) - 0.05,
        loss: 0,
        moved,
      },
    ];
  });
}

interface Spot {
  readonly at: Point;
  /** Cuts, by number, that come as near as 1/2 in and no nearer than a touch, or end there. */
  readonly through: readonly number[];
}

/** Spots where cuts meet or end, with others that just miss them. */
function spotsNearEachOther({ cuts }: Block): Spot[] {
  const meetings: { at: Point; of: readonly number[] }[] = cuts.flatMap(({ from, to }, k) => [
    { at: from, of: [k] },
    { at: to, of: [k] },
  ]);
  for (let i = 0; i < cuts.length; i++)
    for (let j = i + 1; j < cuts.length && meetings.length < MOST_MEETINGS; j++) {
      const at = meetingOf(cuts[i]!, cuts[j]!);
      if (at) meetings.push({ at, of: [i, j] });
    }
  const spots: Spot[] = [];
  // Where two meet already first: that is nearer to what was meant than where one ends.
  for (const { at, of } of meetings.toSorted((a, b) => b.of.length - a.of.length)) {
    if (spots.length === MOST_SPOTS) break;
    if (spots.some((spot) => distance(spot.at, at) <= 2 * TOUCH_IN)) continue;
    const through = new Set<number>(of);
    let isMissed = false;
    for (const other of meetings) {
      const apart = distance(at, other.at);
      if (apart > ABOUT_IN) continue;
      for (const k of other.of) {
        through.add(k);
        isMissed ||= apart > 2 * TOUCH_IN && !of.includes(k);
      }
    }
    if (isMissed && through.size >= 3) spots.push({ at, through: [...through].sort((a, b) => a - b) });
  }
  return spots;
}

/** Where two cuts cross or touch, ends no more than a touch short of it. */
function meetingOf(a: Cut, b: Cut): Point | null {
  const [c, d] = [cross(a.from, a.to, b.from), cross(a.from, a.to, b.to)];
  if (Math.abs(c - d) < 1e-9 || (c > 0 && d > 0 && Math.min(c, d) > 0.01) || (c < 0 && d < 0)) {
    const ends = [b.from, b.to].find((end) => distanceToSegment(end, a.from, a.to) <= TOUCH_IN);
    return ends ?? null;
  }
  const t = c / (c - d);
  const at: Point = [b.from[0] + t * (b.to[0] - b.from[0]), b.from[1] + t * (b.to[1] - b.from[1])];
  return distanceToSegment(at, a.from, a.to) <= TOUCH_IN && distanceToSegment(at, b.from, b.to) <= TOUCH_IN
    ? snapPoint(at)
    : null;
}

/** A cut that runs to a spot, or through it, the other end staying where it is. */
function broughtTo(block: Block, cut: Cut, at: Point): Cut | null {
  const near = (['from', 'to'] as const).find((end) => distance(cut[end], at) <= ABOUT_IN);
  if (near) return { ...cut, [near]: snapPoint(at) };
  const ways = (['from', 'to'] as const).flatMap((pivot) => {
    const end = pivot === 'from' ? 'to' : 'from';
    const landing = landingOf(block, cut, cut[pivot], at, cut[end]);
    return landing ? [{ ...cut, [end]: snapPoint(landing) }] : [];
  });
  return ways.length === 0 ? null : ways.reduce((a, b) => (turnOf(cut, a) <= turnOf(cut, b) ? a : b));
}

const turnOf = (cut: Cut, next: Cut): number => distance(cut.from, next.from) + distance(cut.to, next.to);

/** Where a line turned about one end comes to what its other end lay on. */
function landingOf(block: Block, cut: Cut, pivot: Point, through: Point, end: Point): Point | null {
  const sides: Segment[] = [
    ...block.outline.map((corner, k): Segment => [corner, block.outline[(k + 1) % block.outline.length]!]),
    ...block.cuts.filter((other) => other !== cut).map(({ from, to }): Segment => [from, to]),
  ];
  let best: Point | null = null;
  for (const [a, b] of sides) {
    if (distanceToSegment(end, a, b) > 2 * TOUCH_IN) continue;
    const [c, d] = [cross(pivot, through, a), cross(pivot, through, b)];
    if (Math.abs(c - d) < 1e-9 || (c > 0 && d > 0) || (c < 0 && d < 0)) continue;
    const t = c / (c - d);
    const at: Point = [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];
    if (distance(at, end) <= 2 * ABOUT_IN && (!best || distance(at, end) < distance(best, end))) best = at;
  }
  return best;
}

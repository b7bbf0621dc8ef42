import { snapPoint, TOUCH_IN } from '../../geometry/lattice.ts';
import type { Point, Segment } from '../../geometry/point.ts';
import { distance, distanceToSegment, farthestPair } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import type { Block, Cut } from '../block.ts';
import type { PiecingPlan } from '../plan.ts';
import { runsBeside, TWICE_IN } from '../rules/drawn-twice.ts';
import { NEAR_MISS_IN } from '../rules/near-miss.ts';
import { gatherings } from './gatherings.ts';
import { type Meeting, meetingsAlong, named, namedEnd, replaced, withEnd } from './lines.ts';
import { looseEndsOn } from './loose-ends.ts';
import type { Candidate } from './repair.ts';

/** Two cuts whose directions differ by less than this may be meant as one line, in degrees. */
const ALMOST_ALIGNED_DEGREES = 8;

/**
 * Every change of one cut, of some that nearly meet, or of all loose ends, that might mend a block; the likeliest have the
 * lowest rank.
 */
export function candidatesFor(block: Block, plan: PiecingPlan): Candidate[] {
  const spots = plan.findings
    .filter(({ severity, code }) => severity !== 'note' || code === 'knot')
    .flatMap(({ at, stretches, severity }) =>
      [at, ...stretches.flat()].map((point) => ({ point, weight: severity === 'trouble' ? 0 : 1 })),
    );
  const nearest = (segment: Segment): number =>
    spots.reduce(
      (best, { point, weight }) => Math.min(best, weight + distanceToSegment(point, ...segment)),
      100,
    );
  return block.cuts
    .flatMap((cut, index) => {
      const rank = nearest([cut.from, cut.to]);
      // A locked cut is neither moved nor taken away; how it is sewn may change.
      if (cut.locked) return releases(block, cut, index, rank);
      return [
        ...extensions(block, plan, cut, index, rank),
        ...throughLine(block, plan, cut, index, rank),
        ...retreats(block, plan, cut, index, rank),
        ...meetings(block, cut, index, rank),
        ...straightenings(block, cut, index, rank),
        ...mergings(block, cut, index, rank),
        ...releases(block, cut, index, rank),
        removal(block, plan, cut, index, rank),
      ];
    })
    .concat(unitFirst(block, plan), gatherings(block, nearest), looseEndsOn(block, plan, nearest))
    .sort((a, b) => a.rank - b.rank);
}

/** Each end drawn on to the next line, to the one after, and to the edge of the block. */
function extensions(block: Block, plan: PiecingPlan, cut: Cut, index: number, rank: number): Candidate[] {
  const length = distance(cut.from, cut.to);
  if (length === 0) return [];
  return (['from', 'to'] as const).flatMap((end) => {
    const here = 1 + (2 * TOUCH_IN) / length;
    const all = meetingsAlong(block, index, end);
    // An end on the rim cannot go on.
    if (all.some(({ t, met }) => met === null && Math.abs(t - 1) * length <= 2 * TOUCH_IN)) return [];
    const beyond = all.filter(({ t }) => t > here);
    const edge = beyond.findIndex(({ met }) => met === null);
    const reachable = edge < 0 ? [] : beyond.slice(0, edge + 1);
    const targets = reachable.filter(({ met }, k) => k < 2 || met === null);
    const isLoose = plan.findings.some(
      ({ code, cuts, at }) =>
        (code === 'loose-end' || code === 'idle-cut') &&
        cuts.includes(cut.id) &&
        distance(at, cut[end]) <= 2 * TOUCH_IN,
    );
    return targets.map((target, k): Candidate => {
      const changed = withEnd(cut, end, target.at);
      const where = target.met === null ? phrase('the edge of the block') : named(target.met);
      return {
        id: `extend ${cut.id} ${end} ${target.at.map((v) => v.toFixed(3)).join(' ')}`,
        sentence: phrase('Extend {namedEnd} to {where}.', { namedEnd: namedEnd(cut, index, end), where }),
        change: { kind: 'cuts', cuts: replaced(block, new Map([[cut.id, changed]])) },
        rank: rank + 0.01 * (target.t - 1) * length - (isLoose && k === 0 ? 0.2 : 0),
        loss: 0,
        moved: (target.t - 1) * length,
        ...(isLoose && k === 0 ? { isOwn: true } : {}),
      };
    });
  });
}

/** A cut drawn on at both ends at once, to what it meets next: for islands and rings, which one end alone may not open. */
function throughLine(block: Block, plan: PiecingPlan, cut: Cut, index: number, rank: number): Candidate[] {
  const length = distance(cut.from, cut.to);
  if (length === 0 || !plan.findings.some(({ code }) => code === 'island' || code === 'ring')) return [];
  const next = (end: 'from' | 'to'): Meeting | undefined =>
    meetingsAlong(block, index, end).find(({ t }) => t > 1 + (2 * TOUCH_IN) / length);
  const before = next('from');
  const after = next('to');
  if (!before || !after) return [];
  const changed = withEnd(withEnd(cut, 'from', before.at), 'to', after.at);
  const where =
    before.met === null && after.met === null ? phrase('the edges of the block') : phrase('the next lines');
  return [
    {
      id: `through ${cut.id}`,
      sentence: phrase('Extend {named} both ways to {where}.', { named: named(index), where }),
      change: { kind: 'cuts', cuts: replaced(block, new Map([[cut.id, changed]])) },
      rank: rank + 0.2,
      loss: 0,
      moved: (before.t - 1 + after.t - 1) * length,
    },
  ];
}

/** Each end pulled back to the line before. */
function retreats(block: Block, plan: PiecingPlan, cut: Cut, index: number, rank: number): Candidate[] {
  const length = distance(cut.from, cut.to);
  if (length === 0) return [];
  const loose = new Set(plan.findings.filter(({ code }) => code === 'loose-end').flatMap(({ cuts }) => cuts));
  return (['from', 'to'] as const).flatMap((end) => {
    const clear = (4 * TOUCH_IN) / length;
    const target = meetingsAlong(block, index, end)
      .filter(({ t }) => t > clear && t < 1 - clear)
      .at(-1);
    if (!target) return [];
    const changed = withEnd(cut, end, target.at);
    const where = target.met === null ? phrase('the edge of the block') : named(target.met);
    return [
      {
        id: `pull ${cut.id} ${end}`,
        sentence: phrase('Pull {namedEnd} back to {where}.', { namedEnd: namedEnd(cut, index, end), where }),
        change: { kind: 'cuts', cuts: replaced(block, new Map([[cut.id, changed]])) } as const,
        rank: rank + 0.3,
        // Pulling in a loose end gives up nothing.
        loss: loose.has(cut.id) ? 0 : 1,
        moved: (1 - target.t) * length,
      },
    ];
  });
}

/** An end moved onto the end of another cut a little way off, so that their seams meet. */
function meetings(block: Block, cut: Cut, index: number, rank: number): Candidate[] {
  return (['from', 'to'] as const).flatMap((end) =>
    block.cuts.flatMap((other, k) =>
      k === index
        ? []
        : (['from', 'to'] as const).flatMap((otherEnd): Candidate[] => {
            const apart = distance(cut[end], other[otherEnd]);
            if (apart <= TOUCH_IN || apart > 2 * NEAR_MISS_IN) return [];
            const changed = withEnd(cut, end, other[otherEnd]);
            return [
              {
                id: `meet ${cut.id} ${end} ${other.id} ${otherEnd}`,
                sentence: phrase('Let {namedEnd} meet {named}.', {
                  namedEnd: namedEnd(cut, index, end),
                  named: named(k),
                }),
                change: { kind: 'cuts', cuts: replaced(block, new Map([[cut.id, changed]])) },
                rank: rank - 0.05,
                loss: 0,
                moved: apart,
              },
            ];
          }),
    ),
  );
}

/** Two cuts that run on from each other almost straight, made one line. */
function straightenings(block: Block, cut: Cut, index: number, rank: number): Candidate[] {
  return block.cuts.flatMap((other, k) => {
    if (k <= index || other.locked) return [];
    return (['from', 'to'] as const).flatMap((end) =>
      (['from', 'to'] as const).flatMap((otherEnd): Candidate[] => {
        const gap = distance(cut[end], other[otherEnd]);
        if (gap > 2 * NEAR_MISS_IN) return [];
        const start = cut[end === 'from' ? 'to' : 'from'];
        const stop = other[otherEnd === 'from' ? 'to' : 'from'];
        const bend = turnBetween(start, cut[end], other[otherEnd], stop);
        const off = Math.max(
          distanceToSegment(cut[end], start, stop),
          distanceToSegment(other[otherEnd], start, stop),
        );
        if (bend > ALMOST_ALIGNED_DEGREES || off <= TOUCH_IN) return [];
        const one: Cut = { ...cut, from: snapPoint(start), to: snapPoint(stop) };
        return [
          {
            id: `straighten ${cut.id} ${other.id}`,
            sentence: phrase('Make {named} and {named2} one straight line.', {
              named: named(index),
              named2: named(k),
            }),
            change: {
              kind: 'cuts',
              cuts: replaced(
                block,
                new Map<string, Cut | null>([
                  [cut.id, one],
                  [other.id, null],
                ]),
              ),
            },
            rank: rank - 0.05,
            loss: 0,
            moved: off,
          },
        ];
      }),
    );
  });
}

/** A line drawn twice, made one: from end to end of both. */
function mergings(block: Block, cut: Cut, index: number, rank: number): Candidate[] {
  return block.cuts.flatMap((other, k): Candidate[] => {
    if (k <= index || other.locked || !runsBeside(cut, other)) return [];
    const [longer, shorter] =
      distance(cut.from, cut.to) >= distance(other.from, other.to) ? [cut, other] : [other, cut];
    const [from, to] = farthestPair([longer.from, longer.to, shorter.from, shorter.to]);
    const isOutside = (end: Point): boolean => distanceToSegment(end, longer.from, longer.to) > 2 * TWICE_IN;
    const one: Cut = {
      ...longer,
      from:
        [from, to].find((end) => isOutside(end) && distance(end, longer.from) < distance(end, longer.to)) ??
        longer.from,
      to:
        [from, to].find((end) => isOutside(end) && distance(end, longer.to) <= distance(end, longer.from)) ??
        longer.to,
    };
    return [
      {
        id: `merge ${cut.id} ${other.id}`,
        sentence: phrase('Make {named} and {named2} one line.', { named: named(index), named2: named(k) }),
        change: {
          kind: 'cuts',
          cuts: replaced(
            block,
            new Map<string, Cut | null>([
              [longer.id, one],
              [shorter.id, null],
            ]),
          ),
        },
        rank: rank - 0.3,
        loss: 0,
        moved: TWICE_IN,
      },
    ];
  });
}

function turnBetween(a: Point, b: Point, c: Point, d: Point): number {
  const before = Math.atan2(b[1] - a[1], b[0] - a[0]);
  const after = Math.atan2(d[1] - c[1], d[0] - c[0]);
  const turn = Math.abs(((after - before) * 180) / Math.PI) % 360;
  return Math.min(turn, 360 - turn);
}

/** A pinned role let go. */
function releases(block: Block, cut: Cut, index: number, rank: number): Candidate[] {
  if (cut.role === 'auto') return [];
  const changed: Cut = { ...cut, role: 'auto' };
  return [
    {
      id: `release ${cut.id}`,
      sentence:
        cut.role === 'join'
          ? phrase('Let {named} be a join only where the plan needs one.', { named: named(index) })
          : phrase('Let {named} be a join where the plan needs one.', { named: named(index) }),
      change: { kind: 'cuts', cuts: replaced(block, new Map([[cut.id, changed]])) },
      rank: rank - 0.1,
      loss: 0,
      moved: 0,
    },
  ];
}

/** Findings about cuts that can go without a loss to the picture. */
const NOTHING_LOST = new Set(['idle-cut', 'outside-cut', 'short-cut', 'unreadable-cut']);

/** A cut left out: patches of one fabric become one, or the picture loses a line. */
function removal(block: Block, plan: PiecingPlan, cut: Cut, index: number, rank: number): Candidate {
  const along = plan.patches.filter(({ polygon }) => {
    let wasOn = onCut(polygon.at(-1)!, cut);
    return polygon.some((p) => {
      const isOn = onCut(p, cut);
      const isAlong = wasOn && isOn;
      wasOn = isOn;
      return isAlong;
    });
  });
  const fabrics = new Set(along.map(({ fabric }) => fabric));
  const dividesNothing = plan.findings.some(
    ({ code, cuts }) => cuts.includes(cut.id) && NOTHING_LOST.has(code),
  );
  const isPlain = dividesNothing || (fabrics.size <= 1 && along.length > 0 && !fabrics.has(null));
  return {
    id: `remove ${cut.id}`,
    sentence: dividesNothing
      ? phrase('Leave out {named}: it divides nothing.', { named: named(index) })
      : isPlain
        ? phrase('Leave out {named}: the same fabric lies on both its sides.', { named: named(index) })
        : phrase('Leave out {named}.', { named: named(index) }),
    change: { kind: 'cuts', cuts: replaced(block, new Map([[cut.id, null]])) },
    rank: rank + (isPlain ? 0 : 0.6),
    loss: isPlain ? 0 : 3,
    // What is drawn is meant: drawing a line a little on comes before taking all of it away.
    moved: distance(cut.from, cut.to),
  };
}

function onCut(p: Point, { from, to }: Cut): boolean {
  // Far from the line through it is far from the cut: most spots are told apart by that alone.
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const across = dx * (p[1] - from[1]) - dy * (p[0] - from[0]);
  if (across * across > 16 * TOUCH_IN * TOUCH_IN * (dx * dx + dy * dy)) return false;
  return distanceToSegment(p, from, to) <= 2 * TOUCH_IN;
}

function unitFirst(block: Block, plan: PiecingPlan): Candidate[] {
  if (block.plan === 'unit-first' || plan.sections.length < 3) return [];
  return [
    {
      id: 'plan unit-first',
      sentence: phrase('Let a finished unit be position 1 of a further paper.'),
      change: { kind: 'plan', plan: 'unit-first' },
      rank: 0.2,
      loss: 0,
      moved: 0,
    },
  ];
}

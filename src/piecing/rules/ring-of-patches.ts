import type { Point, Segment } from '../../geometry/point.ts';
import { middle } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import { compareIds } from '../ids.ts';
import type { Pattern } from '../pattern.ts';
import { cellsOf, type Region } from '../region.ts';
import { contactsAmong } from './knot.ts';
import { listed, type Rule } from './rule.ts';

/** Patches that hold each other in a ring: none can come last, and no straight seam runs right across them. */
export const ringOfPatches: Rule = {
  code: 'ring',
  title: phrase('Ring of patches'),
  severity: 'trouble',
  check: ({ pattern, rings, idOf }) =>
    rings.map((ring) => {
      const ids = cellsOf(ring)
        .map((c) => idOf[c]!)
        .sort(compareIds);
      const { reason, stretches, at } = reasonOf(pattern, ring);
      return {
        at,
        patches: ids,
        stretches,
        message: phrase(
          '{reason} no straight seam runs right across {ids}. As drawn, a seam must turn a corner (a set-in seam, or Y-seam) or be sewn in two goes.',
          { reason, ids: listed(ids) },
        ),
      };
    }),
};

/** What keeps straight seams from running across, the plainest reason first, and where it is seen. */
function reasonOf(pattern: Pattern, ring: Region): { reason: string; stretches: Segment[]; at: Point } {
  const chase = chaseOf(pattern, ring);
  if (chase.length > 0)
    return {
      reason: phrase('Each of {chase} lines stops at the next, all the way round, so', {
        chase: chase.length,
      }),
      stretches: chase,
      at: middleOf(chase),
    };
  const star = starOf(pattern, ring);
  if (star.length > 0)
    return {
      reason: phrase('{star} lines meet at one spot and none of them runs straight on, so', {
        star: star.length,
      }),
      stretches: star,
      at: star[0]![0],
    };
  const { division } = pattern;
  const stretches = contactsAmong(pattern, cellsOf(ring));
  const island = cellsOf(ring).flatMap((c) => division.faces[c]!.islands)[0];
  return island === undefined
    ? { reason: phrase('The patches meet round corners, so'), stretches, at: middleOf(stretches) }
    : {
        reason: phrase('One patch lies inside another, so'),
        stretches,
        at: division.vertices[division.origin[island]!]!,
      };
}

function middleOf(stretches: readonly Segment[]): Point {
  const spots = stretches.flat();
  return spots.reduce<Point>(([x, y], [u, v]) => [x + u / spots.length, y + v / spots.length], [0, 0]);
}

/** The seams that leave an inner spot which no line passes straight through; empty when there is no such spot. */
function starOf(pattern: Pattern, ring: Region): Segment[] {
  const { division, straight } = pattern;
  const { face, next, origin, vertices } = division;
  const isSeen = new Uint8Array(vertices.length);
  for (let h = 0; h < face.length; h++) {
    if (isSeen[origin[h]!]) continue;
    isSeen[origin[h]!] = 1;
    const around: number[] = [];
    let k = h;
    while (face[k]! >= 0 && ring[face[k]!] === 1) {
      around.push(k);
      k = next[k ^ 1]!;
      if (k !== h) continue;
      const lines = new Set(around.map((e) => straight[e >> 1]!));
      if (around.length < 3 || lines.size < around.length) break;
      return around.map((e) => [vertices[origin[e]!]!, vertices[origin[e ^ 1]!]!]);
    }
  }
  return [];
}

/**
 * Lines of a region each of which ends in the middle of the next, the last in the middle of the first: the cycle
 * that keeps every one of them from running right across. Each stretch runs from the end where the line before
 * stops, to where it stops itself. Empty when the ring is held by an island or a bent outline instead.
 */
function chaseOf(pattern: Pattern, ring: Region): Segment[] {
  const { division, lines } = pattern;
  const { face, origin, vertices } = division;
  const isInner = (h: number): boolean =>
    (face[h]! >= 0 && face[h ^ 1]! >= 0 && ring[face[h]!] === 1 && ring[face[h ^ 1]!] === 1) === true;
  // The stretches of each line inside the ring, and for each inner vertex the stretch that passes through it.
  const stretches: { from: number; to: number }[] = [];
  const passing = new Map<number, number>();
  for (const { runs } of lines)
    for (const run of runs) {
      let from = -1;
      run.forEach((h, k) => {
        if (!isInner(h)) return;
        if (from < 0) from = origin[h]!;
        const next = run[k + 1];
        if (next !== undefined && isInner(next)) {
          passing.set(origin[next]!, stretches.length);
          return;
        }
        stretches.push({ from, to: origin[h ^ 1]! });
        from = -1;
      });
    }
  // Follow ends from stretch to stretch until one comes again.
  for (let start = 0; start < stretches.length; start++)
    for (const end of ['from', 'to'] as const) {
      const path: { stretch: number; stop: number }[] = [];
      let at = start;
      let stop = stretches[start]![end];
      for (;;) {
        const seen = path.findIndex(({ stretch }) => stretch === at);
        if (seen >= 0) {
          const cycle = path.slice(seen);
          if (cycle.length < 3) break;
          return cycle.map((step, k): Segment => {
            const entered = cycle[(k + cycle.length - 1) % cycle.length]!.stop;
            return [vertices[entered]!, vertices[step.stop]!];
          });
        }
        path.push({ stretch: at, stop });
        const next = passing.get(stop);
        if (next === undefined) break;
        // Turn always the same way: on along the next line to the end that lies on the side come from.
        const here = vertices[stop]!;
        const before = middle(vertices[stretches[at]!.from]!, vertices[stretches[at]!.to]!);
        const { from, to } = stretches[next]!;
        const a = vertices[from]!;
        const turn = (here[0] - before[0]) * (a[1] - here[1]) - (here[1] - before[1]) * (a[0] - here[0]);
        at = next;
        stop = turn > 0 === (end === 'to') ? from : to;
      }
    }
  return [];
}

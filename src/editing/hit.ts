import type { Block, Cut } from '../document/project.ts';
import { holdsPoint } from '../geometry/inner-spot.ts';
import type { Point } from '../geometry/point.ts';
import { distance, distanceToSegment } from '../geometry/ring.ts';
import { edgesOf } from '../geometry/segments.ts';
import type { PiecingPlan } from '../piecing/plan.ts';

/** What lies under the pointer. */
export type Hit =
  | { readonly kind: 'cut-end'; readonly cut: string; readonly end: 'from' | 'to' }
  | { readonly kind: 'corner'; readonly corner: number }
  | { readonly kind: 'cut'; readonly cut: string }
  /** A side of the outline, from the corner of this number. */
  | { readonly kind: 'edge'; readonly edge: number }
  | { readonly kind: 'patch'; readonly patch: string }
  | { readonly kind: 'nothing' };

/**
 * The thing at a place, within `reachIn` inches. Ends of chosen cuts come first, since their handles are drawn;
 * then corners of the outline, ends of other cuts, cuts, sides of the outline, patches. Cost: O(cuts + corners + patches).
 */
export function hitAt(
  block: Block,
  plan: PiecingPlan,
  selection: readonly string[],
  at: Point,
  reachIn: number,
): Hit {
  const chosen = block.cuts.filter(({ id }) => selection.includes(id));
  return (
    endAt(chosen, at, reachIn) ??
    cornerAt(block, at, reachIn) ??
    endAt(block.cuts, at, reachIn) ??
    cutAt(block.cuts, at, reachIn) ??
    // Half as far, or a patch along the edge could hardly be chosen.
    edgeAt(block, at, reachIn / 2) ??
    patchAt(plan, at) ?? { kind: 'nothing' }
  );
}

function endAt(cuts: readonly Cut[], at: Point, reachIn: number): Hit | null {
  let best: Hit | null = null;
  let bestDistance = reachIn;
  for (const cut of cuts) {
    // Near the middle of a short cut the whole of it is meant, or it could never be moved.
    const reach = Math.min(reachIn, distance(cut.from, cut.to) / 3);
    for (const end of ['from', 'to'] as const) {
      const away = distance(cut[end], at);
      if (away > reach || away > bestDistance) continue;
      best = { kind: 'cut-end', cut: cut.id, end };
      bestDistance = away;
    }
  }
  return best;
}

function cornerAt(block: Block, at: Point, reachIn: number): Hit | null {
  let best: Hit | null = null;
  let bestDistance = reachIn;
  for (const [corner, point] of block.outline.entries()) {
    const away = distance(point, at);
    if (away > bestDistance) continue;
    best = { kind: 'corner', corner };
    bestDistance = away;
  }
  return best;
}

function cutAt(cuts: readonly Cut[], at: Point, reachIn: number): Hit | null {
  let best: Hit | null = null;
  let bestDistance = reachIn;
  for (const cut of cuts) {
    const away = distanceToSegment(at, cut.from, cut.to);
    if (away > bestDistance) continue;
    best = { kind: 'cut', cut: cut.id };
    bestDistance = away;
  }
  return best;
}

function edgeAt({ outline }: Block, at: Point, reachIn: number): Hit | null {
  let best: Hit | null = null;
  let bestDistance = reachIn;
  for (const [edge, segment] of edgesOf(outline).entries()) {
    const away = distanceToSegment(at, ...segment);
    if (away > bestDistance) continue;
    best = { kind: 'edge', edge };
    bestDistance = away;
  }
  return best;
}

function patchAt(plan: PiecingPlan, at: Point): Hit | null {
  const patch = plan.patches.find((one) => holdsPoint(one, at));
  return patch === undefined ? null : { kind: 'patch', patch: patch.id };
}

import { overlapArea } from '../geometry/overlap.ts';
import { type Box, signedArea } from '../geometry/ring.ts';
import type { DrawnPatch, EnteredPatch } from './known-drawing.ts';

/** The old patch that a new one takes after. */
export interface Heir {
  readonly of: EnteredPatch;
  /** The old patch lives on in it; else it is another part of what that was. */
  readonly isSame: boolean;
}

/** Overlaps that differ by less than this share count as equal, so that rounding never picks the heir. */
const EQUAL_SHARE = 1e-9;

interface Claim {
  readonly of: EnteredPatch;
  readonly overlap: number;
}

/**
 * Which old patch each new one takes after, null where it overlaps none. That is the one it overlaps most, which lives
 * on in the new patch that overlaps it most; of equal overlaps a painted patch goes first, then the earlier one.
 *
 * With one exception, so that a line can be dragged far: an old patch that no new one takes after, and half of which or
 * more lies in one new patch, lives on in that one where the patch it would take after can live on in another. Where a
 * line goes over most of its neighbour on one side, the patch on its other side grows and keeps its fabric, instead
 * of giving way in the middle of the drag.
 */
export function heirsOf(now: readonly DrawnPatch[], old: readonly EnteredPatch[]): readonly (Heir | null)[] {
  const claims = now.map((patch) => mostOverlapped(patch, old));
  const claimants = new Map<EnteredPatch, number[]>(old.map((patch) => [patch, []]));
  for (const [i, claim] of claims.entries()) if (claim !== null) claimants.get(claim.of)!.push(i);
  for (const rivals of claimants.values())
    rivals.sort((i, j) => {
      const apart = claims[j]!.overlap - claims[i]!.overlap;
      return Math.abs(apart) <= EQUAL_SHARE * claims[i]!.overlap ? i - j : apart;
    });
  for (const patch of old) {
    if (claimants.get(patch)!.length > 0) continue;
    const i = holderOf(patch, now);
    const rivals = i === null ? [] : (claimants.get(claims[i]!.of) ?? []);
    if (i === null || rivals.length < 2) continue;
    rivals.splice(rivals.indexOf(i), 1);
    claims[i] = { of: patch, overlap: 0 };
    claimants.get(patch)!.push(i);
  }
  return claims.map((claim, i) => claim && { of: claim.of, isSame: claimants.get(claim.of)![0] === i });
}

function mostOverlapped({ area, box }: DrawnPatch, old: readonly EnteredPatch[]): Claim | null {
  let claim: Claim | null = null;
  for (const of of old) {
    if (areApart(box, of.box)) continue;
    const overlap = overlapArea(area, of.area);
    const most: number = claim?.overlap ?? 0;
    const isMore = overlap > most * (1 + EQUAL_SHARE);
    const isEqual = !isMore && claim !== null && overlap >= most * (1 - EQUAL_SHARE);
    const isPainted = claim?.of.entry.fabric === undefined && of.entry.fabric !== undefined;
    if (isMore || (isEqual && isPainted)) claim = { of, overlap: Math.max(most, overlap) };
  }
  return claim;
}

/** The new patch in which half of an old one or more lies, the first of two; null when there is none. */
function holderOf({ area, box }: EnteredPatch, now: readonly DrawnPatch[]): number | null {
  const whole = [area.polygon, ...area.holes].reduce((sum, ring) => sum + signedArea(ring), 0);
  const place = now.findIndex(
    (patch) => !areApart(box, patch.box) && overlapArea(patch.area, area) >= (whole / 2) * (1 - EQUAL_SHARE),
  );
  return place < 0 ? null : place;
}

const areApart = (a: Box, b: Box): boolean =>
  a.minX >= b.maxX || b.minX >= a.maxX || a.minY >= b.maxY || b.minY >= a.maxY;

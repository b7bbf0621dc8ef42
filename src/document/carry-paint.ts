import { type Area, holdsPoint, innerSpot } from '../geometry/inner-spot.ts';
import { overlapArea } from '../geometry/overlap.ts';
import type { Point, Ring } from '../geometry/point.ts';
import type { Block, Paint } from '../piecing/block.ts';
import { patchesOf } from './patches-of.ts';

/** A patch and the paint on it. */
interface Painted {
  readonly area: Area;
  readonly paint: Paint | null;
}

/** Overlaps that differ by less than this share count as equal, so that rounding never picks the fabric. */
const EQUAL_SHARE = 1e-9;

/**
 * The edited block with the paint of the block before it. Each new patch takes the fabric of the old patch that
 * it overlaps most, and the paint moves to its inmost spot; a patch that did not change keeps its paint as it
 * is. Of equal overlaps a painted patch goes first, then the earlier one. Paint that lies on no patch, and all
 * paint while either drawing is unusable, stays where it is, so that nothing is lost on the way through a bad shape.
 */
export function carryPaint(before: Block, after: Block): Block {
  if (before.paint.length === 0) return after;
  const oldPatches = patchesOf(before);
  const newPatches = patchesOf(after);
  if (oldPatches.length === 0 || newPatches.length === 0) return { ...after, paint: before.paint };

  const { painted, loose } = laidOn(oldPatches, before.paint);
  const unchanged = new Map(painted.map((patch) => [keyOf(patch.area), patch]));
  const kept = newPatches.map((area) => unchanged.get(keyOf(area)));
  const stillThere = new Set(kept);
  const changed = painted.filter((patch) => !stillThere.has(patch));

  const carried = newPatches.flatMap((area, i): readonly Paint[] => {
    const same = kept[i];
    if (same !== undefined) return same.paint === null ? [] : [same.paint];
    const heir = mostOverlapped(area, changed);
    return heir === null ? [] : [{ ...heir, at: innerSpot(area) }];
  });
  const covered = newPatches.filter((area) => carried.some(({ at }) => holdsPoint(area, at)));
  const stillLoose = loose.filter(({ at }) => !covered.some((area) => holdsPoint(area, at)));
  return { ...after, paint: inOrderOf(before.paint, [...carried, ...stillLoose]) };
}

/** The paint that shows on each patch, which is the last laid there, and the paint that lies on none. */
function laidOn(patches: readonly Area[], paint: readonly Paint[]) {
  const shown = new Map<Area, Paint>();
  const loose: Paint[] = [];
  for (const one of paint) {
    const area = patches.find((patch) => holdsPoint(patch, one.at));
    if (area === undefined) loose.push(one);
    else shown.set(area, one);
  }
  const painted = patches.map((area): Painted => ({ area, paint: shown.get(area) ?? null }));
  return { painted, loose };
}

function mostOverlapped(area: Area, candidates: readonly Painted[]): Paint | null {
  let most = 0;
  let heir: Paint | null = null;
  for (const { area: other, paint } of candidates) {
    const overlap = overlapArea(area, other);
    const isMore = overlap > most * (1 + EQUAL_SHARE);
    const isEqual = !isMore && most > 0 && overlap >= most * (1 - EQUAL_SHARE);
    if (isMore || (isEqual && heir === null && paint !== null)) {
      most = Math.max(most, overlap);
      heir = paint;
    }
  }
  return heir;
}

/** The same for the same area, wherever its rings begin. */
function keyOf({ polygon, holes }: Area): string {
  return [polygon, ...holes].map(ringKey).join('|');
}

function ringKey(ring: Ring): string {
  let first = 0;
  for (let i = 1; i < ring.length; i++) if (isBefore(ring[i]!, ring[first]!)) first = i;
  return [...ring.slice(first), ...ring.slice(0, first)].join(' ');
}

const isBefore = (a: Point, b: Point): boolean => a[0] < b[0] || (a[0] === b[0] && a[1] < b[1]);

/** Paint that was not moved keeps its place in the list; the rest follows in the order of the patches. */
function inOrderOf(before: readonly Paint[], after: readonly Paint[]): readonly Paint[] {
  const place = new Map(before.map((paint, i) => [paint, i]));
  const rank = (paint: Paint) => place.get(paint) ?? before.length;
  const sorted = [...after].sort((a, b) => rank(a) - rank(b));
  return sorted.length === before.length && sorted.every((paint, i) => paint === before[i]) ? before : sorted;
}

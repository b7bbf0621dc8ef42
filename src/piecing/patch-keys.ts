import { type Area, holdsPoint } from '../geometry/inner-spot.ts';
import { LATTICE_STEPS_PER_IN, TOUCH_IN } from '../geometry/lattice.ts';
import type { Point, Ring } from '../geometry/point.ts';
import { boxOf, distanceToSegment } from '../geometry/ring.ts';
import type { PatchEntry } from './block.ts';
import { codeOf } from './codes.ts';

/** What a block's entries say of the patches of its drawing. Patches are numbered as the division has them. */
export interface KnownPatches {
  /** The entry that stands for each patch; null where there is none. */
  readonly entries: readonly (PatchEntry | null)[];
  /** The patch that each entry lies in, by the entry's id; entries that lie in none are not in it. */
  readonly patchOf: ReadonlyMap<string, number>;
  /** The ids of all entries. */
  readonly ids: ReadonlySet<string>;
}

export function knownPatches(areas: readonly Area[], patches: readonly PatchEntry[]): KnownPatches {
  const entries: (PatchEntry | null)[] = areas.map(() => null);
  const patchOf = new Map<string, number>();
  const find = areaFinder(patches.length === 0 ? [] : areas);
  for (const entry of patches) {
    const patch = find(entry.at);
    if (patch < 0) continue;
    patchOf.set(entry.id, patch);
    if (entries[patch]?.fabric === undefined || entry.fabric !== undefined) entries[patch] = entry;
  }
  return { entries, patchOf, ids: new Set(patches.map(({ id }) => id)) };
}

/**
 * What each patch is known by, no two alike: the id of its entry. A patch without one is known by its shape and place,
 * and so by the same key until it is another.
 */
export function patchKeys(areas: readonly Area[], { entries, ids }: KnownPatches): readonly string[] {
  const taken = new Set(ids);
  return entries.map((entry, patch) => {
    if (entry !== null) return entry.id;
    const key = freeKey(areaKey(areas[patch]!), taken);
    taken.add(key);
    return key;
  });
}

/** Long enough that two patches of one block hardly ever ask for the same. */
const KEY_SIGNS = 8;

function freeKey(shape: string, taken: ReadonlySet<string>): string {
  for (let again = ''; ; again += '+') {
    const key = `p-${codeOf(shape + again, KEY_SIGNS).toLowerCase()}`;
    if (!taken.has(key)) return key;
  }
}

/** Finds the first area that holds a point, or -1. */
function areaFinder(areas: readonly Area[]): (at: Point) => number {
  const boxes = areas.map(({ polygon }) => boxOf(polygon));
  return (at) => {
    const [x, y] = at;
    for (let i = 0; i < areas.length; i++) {
      const { minX, minY, maxX, maxY } = boxes[i]!;
      if (x >= minX && x <= maxX && y >= minY && y <= maxY && holdsPoint(areas[i]!, at)) return i;
    }
    return -1;
  };
}

/** The same text for the same area, wherever its rings begin, and whatever ends on its edges from outside. */
export const areaKey = ({ polygon, holes }: Area): string =>
  holes.length === 0 ? ringKey(polygon) : [ringKey(polygon), ...holes.map(ringKey).sort()].join('|');

/** Four signs a corner, two for each coordinate: not to be read, but far sooner made than figures. */
function ringKey(ring: Ring): string {
  let key = '';
  for (const [x, y] of cornersOf(ring)) {
    const [a, b] = [Math.round(x * LATTICE_STEPS_PER_IN), Math.round(y * LATTICE_STEPS_PER_IN)];
    key += String.fromCharCode((a >>> 16) & 0xffff, a & 0xffff, (b >>> 16) & 0xffff, b & 0xffff);
  }
  return key;
}

/**
 * The corners at which a ring turns, from the one farthest left, and of those the uppermost. Left out are places that
 * stand in the middle of a straight stretch, as those do where another line ends, to within what ends may miss a line.
 */
export function cornersOf(ring: Ring): Ring {
  const first = firstCorner(ring);
  let before = ring[first]!;
  const corners: Point[] = [before];
  for (let i = 1; i < ring.length; i++) {
    const corner = ring[(first + i) % ring.length]!;
    const after = ring[(first + i + 1) % ring.length]!;
    if (distanceToSegment(corner, before, after) <= TOUCH_IN) continue;
    corners.push(corner);
    before = corner;
  }
  return corners;
}

function firstCorner(ring: Ring): number {
  let first = 0;
  for (let i = 1; i < ring.length; i++) if (isBefore(ring[i]!, ring[first]!)) first = i;
  return first;
}

const isBefore = (a: Point, b: Point): boolean => a[0] < b[0] || (a[0] === b[0] && a[1] < b[1]);

import { type Area, innerSpot } from '../geometry/inner-spot.ts';
import { type Box, boxOf } from '../geometry/ring.ts';
import type { Block, PatchEntry } from '../piecing/block.ts';
import { MAX_PATCHES } from '../piecing/divide-block.ts';
import { areaKey, knownPatches, patchKeys } from '../piecing/patch-keys.ts';
import { patchesOf } from './patches-of.ts';

/** A patch as it is drawn. */
export interface DrawnPatch {
  readonly area: Area;
  readonly box: Box;
  /** The same for the same area. */
  readonly shape: string;
}

/** A drawn patch with what the block remembers of it. */
export interface EnteredPatch extends DrawnPatch {
  readonly entry: PatchEntry;
}

/** A drawing with an entry for each of its patches. */
export interface KnownDrawing {
  /** In reading order. */
  readonly patches: readonly EnteredPatch[];
  readonly byShape: ReadonlyMap<string, EnteredPatch>;
  /** Entries that lie in no patch. */
  readonly loose: readonly PatchEntry[];
  /** The block's orders by the ids of `patches`: an entry that another stands for gives way to that one. */
  readonly orders: Block['orders'];
}

/**
 * The drawings worked out last, newest first. A drag asks for that of its first state at every move; a few more are
 * kept for gestures of several edits. No more, since every state that undo keeps would keep its patches too.
 */
const lately: { readonly block: WeakRef<Block>; readonly drawing: KnownDrawing | null }[] = [];
const MOST_DRAWINGS = 4;

/** The drawing of a block. Null while it is unusable, or has more patches than a block may. */
export function knownDrawing(block: Block): KnownDrawing | null {
  const place = lately.findIndex((one) => one.block.deref() === block);
  if (place >= 0) lately.unshift(...lately.splice(place, 1));
  else {
    const drawn = drawnPatches(block);
    lately.unshift({ block: new WeakRef(block), drawing: drawn === null ? null : entered(drawn, block) });
    lately.length = Math.min(lately.length, MOST_DRAWINGS);
  }
  return lately[0]!.drawing;
}

/** The patches of a block in reading order. Null while its drawing is unusable, or has more than a block may. */
export function drawnPatches(block: Pick<Block, 'outline' | 'cuts'>): readonly DrawnPatch[] | null {
  const areas = patchesOf(block);
  return areas.length === 0 || areas.length > MAX_PATCHES
    ? null
    : areas.map((area) => ({ area, box: boxOf(area.polygon), shape: areaKey(area) }));
}

function entered(drawn: readonly DrawnPatch[], block: Block): KnownDrawing {
  const areas = drawn.map(({ area }) => area);
  const known = knownPatches(areas, block.patches);
  const keys = patchKeys(areas, known);
  const patches = drawn.map((patch, i): EnteredPatch => {
    const entry = known.entries[i] ?? { id: keys[i]!, at: innerSpot(patch.area) };
    return { ...patch, entry };
  });
  return {
    patches,
    byShape: new Map(patches.map((patch) => [patch.shape, patch])),
    loose: block.patches.filter(({ id }) => !known.patchOf.has(id)),
    orders: block.orders?.map((order) => {
      const ids = order.map((id) => {
        const patch = known.patchOf.get(id);
        return patch === undefined ? id : patches[patch]!.entry.id;
      });
      return ids.every((id, i) => id === order[i]) ? order : [...new Set(ids)];
    }),
  };
}

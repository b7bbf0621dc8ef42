import { holdsPoint, innerSpot } from '../geometry/inner-spot.ts';
import type { Point, Ring } from '../geometry/point.ts';
import { boxOf, signedArea } from '../geometry/ring.ts';
import type { Block, PatchEntry } from '../piecing/block.ts';
import { areaKey } from '../piecing/patch-keys.ts';
import { heirsOf } from './heirs.ts';
import { freePatchIds } from './ids.ts';
import {
  type DrawnPatch,
  drawnPatches,
  type EnteredPatch,
  type KnownDrawing,
  knownDrawing,
} from './known-drawing.ts';
import { cleanPoint, onLattice } from './limits.ts';

/** Takes a place of a drawing to where an edit that moves all of it together puts it. */
export type Move = (point: Point) => Point;

/**
 * The edited block with the patches of the block before it, an entry for each. A new patch takes after the old one it
 * overlaps most (`heirs.ts` says what else): it has its fabric, and its id where that one lives on in it. Those left
 * without get ids of their own, so that a split makes an id and a merge lets one go. The entry moves to the inmost spot
 * of the new patch; a patch that did not change keeps its entry as it is. Orders by hand keep the ids still there.
 *
 * Entries that lie in no patch, and all of them while the edited drawing is unusable, stay as they are, so that nothing
 * is lost on the way through a bad shape. Give `moved` where the edit moves the whole drawing.
 *
 * Cost: that of dividing the drawing, and of the overlaps between patches that changed.
 */
export function carryPatches(before: Block, after: Block, moved?: Move): Block {
  const is = drawnPatches(after);
  if (is === null) return moved ? { ...after, patches: movedEntries(before.patches, moved) } : after;
  const known = knownDrawing(before);
  const was = known === null || moved === undefined ? known : movedDrawing(known, moved);
  if (was === null) {
    return completed(moved ? { ...after, patches: movedEntries(before.patches, moved) } : after);
  }
  const { taken, loose } = withLoose(carried(was, is), was.loose, is);
  return withEntries(after, before.patches, was.orders, [...taken, ...loose]);
}

/** The block with an entry for each of its patches and orders by their ids; itself where that is so already. */
export function completed(block: Block): Block {
  const drawing = knownDrawing(block);
  if (drawing === null) return block;
  const entries = [...drawing.patches.map(({ entry }) => entry), ...drawing.loose];
  return withEntries(block, block.patches, drawing.orders, entries);
}

/** The entry of each new patch; null where it overlaps no old one. */
function carried(was: KnownDrawing, is: readonly DrawnPatch[]): readonly (PatchEntry | null)[] {
  const kept = is.map(({ shape }) => was.byShape.get(shape));
  const stillThere = new Set(kept);
  const changed = is.filter((_, i) => kept[i] === undefined);
  const heirs = heirsOf(
    changed,
    was.patches.filter((patch) => !stillThere.has(patch)),
  );
  const heirOf = new Map(changed.map((patch, i) => [patch, heirs[i]!]));
  const ids = freePatchIds([...was.patches.map(({ entry }) => entry), ...was.loose]);
  return is.map((patch, i): PatchEntry | null => {
    const same = kept[i]?.entry;
    // Where the whole drawing was moved, a spot close to an edge may have come to lie beyond it.
    if (same !== undefined)
      return holdsPoint(patch.area, same.at) ? same : { ...same, at: inmost(patch.area) };
    const heir = heirOf.get(patch) ?? null;
    if (heir === null) return null;
    const { entry } = heir.of;
    return { ...entry, id: heir.isSame ? entry.id : ids.next().value, at: inmost(patch.area) };
  });
}

const inmost = (area: DrawnPatch['area']): Point => onLattice(innerSpot(area));

/**
 * An entry that lay in no patch is taken up by a new patch that has none, and one with a fabric paints a bare patch;
 * what lies in no patch still stays loose. The patches that are left without an entry get one.
 */
function withLoose(
  carriedOn: readonly (PatchEntry | null)[],
  wasLoose: readonly PatchEntry[],
  is: readonly DrawnPatch[],
) {
  const loose: PatchEntry[] = [];
  const entries = [...carriedOn];
  for (const entry of wasLoose) {
    const place = is.findIndex(({ area }) => holdsPoint(area, entry.at));
    if (place < 0) loose.push(entry);
    else if (carriedOn[place] === null) entries[place] = entry;
    else if (carriedOn[place]!.fabric === undefined && entry.fabric !== undefined)
      entries[place] = { ...entries[place]!, fabric: entry.fabric };
  }
  const ids = freePatchIds([...entries.filter((entry) => entry !== null), ...wasLoose]);
  const taken = entries.map((entry, i) => entry ?? { id: ids.next().value, at: inmost(is[i]!.area) });
  return { taken, loose };
}

/** The block with these entries, and with those orders as far as their patches are still there. */
function withEntries(
  block: Block,
  before: Block['patches'],
  orders: Block['orders'],
  entries: readonly PatchEntry[],
): Block {
  const patches = inOrderOf(before, entries);
  const ids = new Set(patches.map(({ id }) => id));
  const gone = new Set(orders?.flat().filter((id) => !ids.has(id)));
  const kept = orders?.map((order) => without(order, gone));
  return withOrders(patches === block.patches ? block : { ...block, patches }, kept);
}

/** The block with orders by hand; none that say nothing. */
export function withOrders(block: Block, orders: Block['orders'] = []): Block {
  const telling = orders.filter((order) => order.length > 0);
  const { orders: known, ...rest } = block;
  if (telling.length === (known?.length ?? 0) && telling.every((order, i) => order === known?.[i]))
    return block;
  return telling.length === 0 ? rest : { ...rest, orders: telling };
}

/** An order without some patches. One patch left of several says nothing of an order, and would pin it as the first. */
export function without(order: readonly string[], gone: ReadonlySet<string>): readonly string[] {
  const left = order.filter((id) => !gone.has(id));
  return left.length === order.length ? order : left.length === 1 ? [] : left;
}

/** Entries keep their places in the list and those of new patches follow; the same list where all are the same. */
function inOrderOf(before: readonly PatchEntry[], after: readonly PatchEntry[]): readonly PatchEntry[] {
  const place = new Map(before.map(({ id }, i) => [id, i]));
  const rank = ({ id }: PatchEntry): number => place.get(id) ?? before.length;
  const sorted = after.toSorted((a, b) => rank(a) - rank(b));
  return sorted.length === before.length && sorted.every((entry, i) => entry === before[i]) ? before : sorted;
}

/** What would be moved beyond the coordinate limit is let go: it lay in no patch. */
const movedEntries = (entries: readonly PatchEntry[], moved: Move): readonly PatchEntry[] =>
  entries.flatMap((entry) => {
    const at = cleanPoint(moved(entry.at));
    return at === null ? [] : [{ ...entry, at }];
  });

function movedDrawing(drawing: KnownDrawing, moved: Move): KnownDrawing {
  const patches = drawing.patches.map(({ area, entry }): EnteredPatch => {
    const outer = area.polygon.map((point) => onLattice(moved(point)));
    // A mirror turns rings the other way round: they are read backwards.
    const isTurned = signedArea(outer) < 0;
    const right = (ring: Ring): Ring => (isTurned ? ring.toReversed() : ring);
    const polygon = right(outer);
    const holes = area.holes.map((hole) => right(hole.map((point) => onLattice(moved(point)))));
    const there = { polygon, holes };
    return {
      area: there,
      box: boxOf(polygon),
      shape: areaKey(there),
      entry: { ...entry, at: onLattice(moved(entry.at)) },
    };
  });
  return {
    patches,
    byShape: new Map(patches.map((patch) => [patch.shape, patch])),
    loose: movedEntries(drawing.loose, moved),
    orders: drawing.orders,
  };
}

import { carryPatches } from '../document/carry-patches.ts';
import { changeBlock } from '../document/find.ts';
import { freeCutIds } from '../document/ids.ts';
import { CUTS_PER_BLOCK, onLattice } from '../document/limits.ts';
import type { Block, Cut, Project } from '../document/project.ts';
import { STRAIGHT_IN, TOUCH_IN } from '../geometry/lattice.ts';
import type { Point, Segment } from '../geometry/point.ts';
import { distance, distanceToSegment } from '../geometry/ring.ts';
import { crossing, shareAlong } from '../geometry/segments.ts';
import { spotsAlong } from './shapes/divide.ts';

/** Cuts parted into several, and several made one. The drawing looks the same before and after. */

/** Splits cuts wherever another cut meets them; locked ones stay whole. */
export const splitAtCrossings = (project: Project, blockId: string, cutIds: readonly string[]): Project =>
  splitEach(project, blockId, cutIds, (cut, { cuts }) => {
    const line: Segment = [cut.from, cut.to];
    return cuts
      .filter(({ id }) => id !== cut.id)
      .map(({ from, to }) => crossing(line, [from, to]))
      .filter((at) => at !== null);
  });

/** Splits cuts into equal parts. */
export const splitEvenly = (
  project: Project,
  blockId: string,
  cutIds: readonly string[],
  count: number,
): Project => splitEach(project, blockId, cutIds, ({ from, to }) => spotsAlong([from, to], count));

function splitEach(
  project: Project,
  blockId: string,
  cutIds: readonly string[],
  spotsOf: (cut: Cut, block: Block) => readonly Point[],
): Project {
  const chosen = new Set(cutIds);
  return changeBlock(project, blockId, (block) => {
    const ids = freeCutIds(block);
    const cuts = block.cuts.flatMap((cut): readonly Cut[] => {
      if (!chosen.has(cut.id) || cut.locked === true) return [cut];
      const line: Segment = [cut.from, cut.to];
      const places = [
        cut.from,
        ...spotsOf(cut, block)
          .map(onLattice)
          .toSorted((a, b) => shareAlong(line, a) - shareAlong(line, b)),
        cut.to,
      ];
      const apart = places.filter(
        (place, index) => index === 0 || distance(place, places[index - 1]!) > TOUCH_IN,
      );
      return apart.slice(1).map(
        (to, index): Cut => ({
          ...cut,
          id: index === 0 ? cut.id : ids.next().value,
          from: apart[index]!,
          to,
        }),
      );
    });
    return cuts.length === block.cuts.length || cuts.length > CUTS_PER_BLOCK
      ? block
      : carryPatches(block, { ...block, cuts });
  });
}

/** Makes one of those cuts that lie on one straight line and touch or overlap; the first keeps its id and role. */
export function joinCuts(project: Project, blockId: string, cutIds: readonly string[]): Project {
  const chosen = new Set(cutIds);
  return changeBlock(project, blockId, (block) => {
    const joined: Cut[] = [];
    for (const cut of block.cuts.filter(({ id, locked }) => chosen.has(id) && locked !== true)) {
      let whole = cut;
      // What joins may bring others within reach, so each is tried again until none does.
      for (;;) {
        const index = joined.findIndex((other) => together(other, whole) !== null);
        if (index < 0) break;
        whole = { ...joined[index]!, ...together(joined[index]!, whole)! };
        joined.splice(index, 1);
      }
      joined.push(whole);
    }
    const byId = new Map(joined.map((cut) => [cut.id, cut]));
    const cuts = block.cuts.flatMap((cut): readonly Cut[] => {
      if (!chosen.has(cut.id) || cut.locked === true) return [cut];
      const whole = byId.get(cut.id);
      return whole === undefined ? [] : [whole];
    });
    return cuts.length === block.cuts.length ? block : carryPatches(block, { ...block, cuts });
  });
}

/** The ends of two cuts made one, or null when they are not on one line or lie apart. */
function together(a: Cut, b: Cut): { readonly from: Point; readonly to: Point } | null {
  const touch =
    [b.from, b.to].some((end) => distanceToSegment(end, a.from, a.to) <= TOUCH_IN) ||
    [a.from, a.to].some((end) => distanceToSegment(end, b.from, b.to) <= TOUCH_IN);
  if (!touch) return null;
  const ends = [a.from, a.to, b.from, b.to];
  let [from, to] = [a.from, a.to];
  for (const one of ends)
    for (const other of ends) if (distance(one, other) > distance(from, to)) [from, to] = [one, other];
  // The longest stretch keeps the direction of the first cut.
  const ahead = (to[0] - from[0]) * (a.to[0] - a.from[0]) + (to[1] - from[1]) * (a.to[1] - a.from[1]);
  if (ahead < 0) [from, to] = [to, from];
  return ends.every((end) => distanceToSegment(end, from, to) <= STRAIGHT_IN) ? { from, to } : null;
}

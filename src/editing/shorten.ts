import { carryPatches } from '../document/carry-patches.ts';
import { changeBlock } from '../document/find.ts';
import { freeCutIds } from '../document/ids.ts';
import { CUTS_PER_BLOCK, cleanPoint, onLattice } from '../document/limits.ts';
import type { Block, Cut, Project } from '../document/project.ts';
import { TOUCH_IN } from '../geometry/lattice.ts';
import type { Point, Segment } from '../geometry/point.ts';
import { distance, distanceToSegment } from '../geometry/ring.ts';
import { along, edgesOf, meeting, shareAlong } from '../geometry/segments.ts';

/**
 * Cuts taken back to the lines they meet, and drawn on to the next one. Each is known by a place: of a stretch any
 * place on it, of an end the end itself. Inches; locked cuts stay as they are.
 */

/** A place this near to a cut lies on it, inches: forgives the lattice, nothing more. */
const EXACT_IN = 1 / 1000;

/** A stretch of a cut between two meetings, or between one and an end. */
export interface Stretch {
  readonly cut: string;
  readonly segment: Segment;
}

const lineOf = ({ from, to }: Cut): Segment => [from, to];

/** All that a cut can meet: the other cuts and the outline. */
const others = ({ cuts, outline }: Block, id: string): readonly Segment[] => [
  ...cuts.filter((cut) => cut.id !== id).map(lineOf),
  ...edgesOf(outline),
];

/** The stretch of a cut that holds the place nearest to `at`, from one line it meets to the next. */
export function stretchAt(block: Block, cut: Cut, at: Point): Stretch {
  const line = lineOf(cut);
  const least = TOUCH_IN / distance(...line);
  const here = shareAlong(line, at);
  let [from, to] = [0, 1];
  for (const other of others(block, cut.id)) {
    const share = meeting(line, other)?.onLine ?? 0;
    if (share <= least || share >= 1 - least) continue;
    if (share <= here) from = Math.max(from, share);
    else to = Math.min(to, share);
  }
  return { cut: cut.id, segment: [along(line, from), along(line, to)] };
}

/** Where a cut comes to when it is drawn on past its end to the next line or the edge; null when there is none. */
export function reachOf(block: Block, cut: Cut, end: 'from' | 'to'): Point | null {
  const line: Segment = end === 'to' ? [cut.from, cut.to] : [cut.to, cut.from];
  const least = 1 + TOUCH_IN / distance(...line);
  let nearest = Number.POSITIVE_INFINITY;
  for (const other of others(block, cut.id)) {
    const share = meeting(line, other)?.onLine ?? 0;
    if (share > least && share < nearest) nearest = share;
  }
  return Number.isFinite(nearest) ? cleanPoint(along(line, nearest)) : null;
}

/** Takes the stretches away that hold the places: a cut gets shorter, falls in two, or goes. */
export const shortenCuts = (project: Project, blockId: string, places: readonly Point[]): Project =>
  changeBlock(project, blockId, (block) => {
    const ids = freeCutIds(block);
    let cuts: readonly Cut[] = block.cuts;
    for (const place of places) {
      // Lines are taken back to what was there before, not to what other places have left of it.
      const cut = cuts.find((one) => one.locked !== true && isOn(one, place));
      if (cut === undefined) continue;
      const { segment } = stretchAt(block, cut, place);
      const left = [
        [cut.from, segment[0]],
        [segment[1], cut.to],
      ]
        .map(([from, to]): Segment => [onLattice(from!), onLattice(to!)])
        .filter((part) => distance(...part) > TOUCH_IN);
      const parts = left.map(
        ([from, to], k): Cut => ({ ...cut, id: k === 0 ? cut.id : ids.next().value, from, to }),
      );
      cuts = cuts.flatMap((one) => (one === cut ? parts : [one]));
    }
    return cuts === block.cuts || cuts.length > CUTS_PER_BLOCK
      ? block
      : carryPatches(block, { ...block, cuts });
  });

const isOn = ({ from, to }: Cut, at: Point): boolean => distanceToSegment(at, from, to) <= EXACT_IN;

/** An end of a cut, known by where both its ends lie. */
export interface LooseEnd {
  readonly end: Point;
  readonly other: Point;
}

/** Draws cuts on past their ends, each to the next line or the edge as the block was before. */
export const drawOn = (project: Project, blockId: string, ends: readonly LooseEnd[]): Project =>
  changeBlock(project, blockId, (block) => {
    let isChanged = false;
    const cuts = block.cuts.map((cut) => {
      if (cut.locked === true) return cut;
      let drawn = cut;
      for (const end of ['from', 'to'] as const) {
        const isMeant = ends.some(
          (one) => near(one.end, cut[end]) && near(one.other, cut[end === 'from' ? 'to' : 'from']),
        );
        const at = isMeant ? reachOf(block, cut, end) : null;
        if (at !== null) drawn = { ...drawn, [end]: at };
      }
      isChanged ||= drawn !== cut;
      return drawn;
    });
    return isChanged ? carryPatches(block, { ...block, cuts }) : block;
  });

const near = (a: Point, b: Point): boolean => distance(a, b) <= EXACT_IN;

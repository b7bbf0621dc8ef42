import type { Block, Cut } from '../document/project.ts';
import { TOUCH_IN } from '../geometry/lattice.ts';
import type { Point, Segment } from '../geometry/point.ts';
import { distance, distanceToSegment } from '../geometry/ring.ts';
import { along, edgesOf, meeting, shareAlong, shifted } from './nearness.ts';

/** Both ends of a cut as they shall be. */
export interface MovedCut {
  readonly id: string;
  readonly from: Point;
  readonly to: Point;
}

/** A straight line that changes its place: a cut, or an edge of the outline. */
interface MovedLine {
  readonly was: Segment;
  readonly is: Segment;
}

const touches = (segment: Segment, at: Point): boolean => distanceToSegment(at, ...segment) <= TOUCH_IN;

const segmentOf = (cut: { readonly from: Point; readonly to: Point }): Segment => [cut.from, cut.to];

/**
 * Cuts shifted by a vector in inches, and what goes with them. An end that lay on a line which stays is slid along
 * that line, so that the cut still reaches it; ends of other cuts that lay on a shifted cut stay on it, and joints
 * where several cuts meet move as one. Locked cuts neither move nor follow.
 */
export function shiftAttached(block: Block, chosen: ReadonlySet<string>, by: Point): readonly MovedCut[] {
  const cutIds = new Set(
    block.cuts.filter(({ id, locked }) => chosen.has(id) && locked !== true).map(({ id }) => id),
  );
  const staying = [
    ...block.cuts.filter(({ id }) => !cutIds.has(id)).map(segmentOf),
    ...edgesOf(block.outline),
  ];
  const moved = block.cuts
    .filter(({ id }) => cutIds.has(id))
    .map((cut): MovedCut => {
      const plain: Segment = [shifted(cut.from, by), shifted(cut.to, by)];
      return {
        id: cut.id,
        from: slid(cut.from, plain, plain[0], staying),
        to: slid(cut.to, plain, plain[1], staying),
      };
    });
  return withFollowers(block, moved);
}

/** The end of a shifted cut on whichever line it lay on before, nearest to where it would plainly go. */
function slid(was: Point, line: Segment, plain: Point, staying: readonly Segment[]): Point {
  let best: Point | null = null;
  for (const segment of staying) {
    if (!touches(segment, was)) continue;
    const met = meeting(line, segment);
    if (met === null) continue;
    const place = along(segment, met.onSegment);
    if (best === null || distance(place, plain) < distance(best, plain)) best = place;
  }
  return best ?? plain;
}

/** One end of a cut moved to a place, and the ends of other cuts that lay on that cut. */
export const moveEndAttached = (
  block: Block,
  cut: Cut,
  end: 'from' | 'to',
  to: Point,
): readonly MovedCut[] =>
  cut.locked === true ? [] : withFollowers(block, [{ id: cut.id, from: cut.from, to: cut.to, [end]: to }]);

/** What the ends of cuts on the two edges beside a moved corner of the outline do, and ends on the corner itself. */
export function cornerFollowers(block: Block, corner: number, to: Point): readonly MovedCut[] {
  const outline = block.outline.map((point, index) => (index === corner ? to : point));
  const after = edgesOf(outline);
  const lines = edgesOf(block.outline)
    .map((was, index): MovedLine => ({ was, is: after[index]! }))
    .filter(({ was, is }) => !sameSegment(was, is));
  return followers(block, new Set(), lines);
}

function withFollowers(block: Block, moved: readonly MovedCut[]): readonly MovedCut[] {
  const ids = new Set(moved.map(({ id }) => id));
  const lines = moved.map((cut): MovedLine => {
    const was = block.cuts.find(({ id }) => id === cut.id)!;
    return { was: segmentOf(was), is: segmentOf(cut) };
  });
  return [...moved, ...followers(block, ids, lines)];
}

function followers(
  block: Block,
  moving: ReadonlySet<string>,
  lines: readonly MovedLine[],
): readonly MovedCut[] {
  const movedWas = new Set(lines.map(({ was }) => was));
  const staying = (except: string): readonly Segment[] => [
    ...block.cuts.filter(({ id }) => id !== except && !moving.has(id)).map(segmentOf),
    ...edgesOf(block.outline).filter((edge) => ![...movedWas].some((was) => sameSegment(was, edge))),
  ];
  return block.cuts.flatMap((cut): MovedCut[] => {
    if (moving.has(cut.id) || cut.locked === true) return [];
    const held = staying(cut.id);
    const from = followed(cut.from, cut.to, lines, held);
    const to = followed(cut.to, cut.from, lines, held);
    return from === cut.from && to === cut.to ? [] : [{ id: cut.id, from, to }];
  });
}

/**
 * Where an end goes when the line it lay on has moved: along its own cut to the line's new place, or, where the
 * two no longer meet, to the same share of the line. An end that something else holds stays where it is.
 */
function followed(end: Point, other: Point, lines: readonly MovedLine[], staying: readonly Segment[]): Point {
  const line = lines.find(({ was }) => touches(was, end));
  if (line === undefined || staying.some((segment) => touches(segment, end))) return end;
  const share = shareAlong(line.was, end);
  const carried = along(line.is, share);
  const atItsEnd = distance(end, line.was[0]) <= TOUCH_IN || distance(end, line.was[1]) <= TOUCH_IN;
  if (atItsEnd) return carried;
  const met = meeting([other, end], line.is);
  return met === null || met.onLine <= 0 ? carried : along([other, end], met.onLine);
}

const sameSegment = (a: Segment, b: Segment): boolean =>
  a[0][0] === b[0][0] && a[0][1] === b[0][1] && a[1][0] === b[1][0] && a[1][1] === b[1][1];

import type { Block, Cut } from '../document/project.ts';
import { TOUCH_IN } from '../geometry/lattice.ts';
import { outlineFault } from '../geometry/outline.ts';
import type { Point, Ring, Segment } from '../geometry/point.ts';
import { distance, distanceToSegment } from '../geometry/ring.ts';
import { along, edgesOf, meeting, shareAlong, shifted } from '../geometry/segments.ts';

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

/** Most lines are far from most ends: those are told apart without a distance. */
const touches = ([a, b]: Segment, at: Point): boolean =>
  isBetween(at[0], a[0], b[0]) && isBetween(at[1], a[1], b[1]) && distanceToSegment(at, a, b) <= TOUCH_IN;

const isBetween = (at: number, a: number, b: number): boolean =>
  a < b ? at >= a - TOUCH_IN && at <= b + TOUCH_IN : at >= b - TOUCH_IN && at <= a + TOUCH_IN;

const isAt = (a: Point, b: Point): boolean =>
  Math.abs(a[0] - b[0]) <= TOUCH_IN && Math.abs(a[1] - b[1]) <= TOUCH_IN && distance(a, b) <= TOUCH_IN;

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

/** The same for an end that leaves its joint: what lies in the joint stays there. */
export const moveEndAlone = (block: Block, cut: Cut, end: 'from' | 'to', to: Point): readonly MovedCut[] =>
  moveEndAttached(block, cut, end, to).filter(({ id }) => {
    const other = block.cuts.find((one) => one.id === id)!;
    return id === cut.id || !endsAt(other, cut[end]);
  });

/**
 * The same for a joint: every end that lies on the one place goes with it, even along an edge or a line that holds
 * them. In a corner of the outline each end is for itself: the corner joins them.
 */
export function moveJointAttached(
  block: Block,
  cut: Cut,
  end: 'from' | 'to',
  to: Point,
): readonly MovedCut[] {
  if (cut.locked === true) return [];
  const joint = cut[end];
  const isThere = (at: Point): boolean => isAt(at, joint);
  if (block.outline.some(isThere)) return moveEndAttached(block, cut, end, to);
  return withFollowers(
    block,
    block.cuts.flatMap((one): readonly MovedCut[] => {
      if (one.id === cut.id) return [{ id: cut.id, from: cut.from, to: cut.to, [end]: to }];
      if (one.locked === true || !(isThere(one.from) || isThere(one.to))) return [];
      return [{ id: one.id, from: isThere(one.from) ? to : one.from, to: isThere(one.to) ? to : one.to }];
    }),
  );
}

/** What the ends of cuts on the two edges beside a moved corner of the outline do, and ends on the corner itself. */
export function cornerFollowers(block: Block, corner: number, to: Point): readonly MovedCut[] {
  return outlineFollowers(
    block,
    block.outline.map((point, index) => (index === corner ? to : point)),
  );
}

/** What the ends of cuts on edges that are elsewhere in another outline of as many corners do. */
export function outlineFollowers(block: Block, outline: Ring): readonly MovedCut[] {
  const after = edgesOf(outline);
  const lines = edgesOf(block.outline)
    .map((was, index): MovedLine => ({ was, is: after[index]! }))
    .filter(({ was, is }) => !sameSegment(was, is));
  return followers(block, new Set(), lines);
}

/** Corners of less than this hardly turn: along their neighbour an edge would slide away. Its sine. */
const HARDLY_TURNS = Math.sin((10 * Math.PI) / 180);

/**
 * The outline with one edge shifted by a vector in inches, its direction kept. Its corners slide along the edges
 * beside it, so that all angles stay; a corner on a straight side is shifted plainly. Null when an edge would vanish,
 * turn round or cross another.
 */
export function withEdgeShifted(outline: Ring, edge: number, by: Point): Ring | null {
  const edges = edgesOf(outline);
  const was = edges[edge];
  if (was === undefined) return null;
  const plain: Segment = [shifted(was[0], by), shifted(was[1], by)];
  const next = (edge + 1) % outline.length;
  const moved = outline.map((corner, index) => {
    if (index === edge) return onLineOf(plain, edges.at(edge - 1)!) ?? plain[0];
    if (index === next) return onLineOf(plain, edges[next]!) ?? plain[1];
    return corner;
  });
  const after = edgesOf(moved);
  const keepsWay = edges.every(([a, b], index) => {
    const [c, d] = after[index]!;
    return (b[0] - a[0]) * (d[0] - c[0]) + (b[1] - a[1]) * (d[1] - c[1]) > 0;
  });
  return keepsWay && outlineFault(moved) === null ? moved : null;
}

/** Where the endless lines through two segments meet; null when they hardly turn from one another. */
function onLineOf([a, b]: Segment, [c, d]: Segment): Point | null {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const [ex, ey] = [d[0] - c[0], d[1] - c[1]];
  const turn = dx * ey - dy * ex;
  if (Math.abs(turn) < HARDLY_TURNS * Math.hypot(dx, dy) * Math.hypot(ex, ey)) return null;
  const share = ((c[0] - a[0]) * ey - (c[1] - a[1]) * ex) / turn;
  return [a[0] + dx * share, a[1] + dy * share];
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
  const edges = edgesOf(block.outline).filter((edge) => !lines.some(({ was }) => sameSegment(was, edge)));
  const isHeld = (at: Point, cut: Cut): boolean =>
    edges.some((edge) => touches(edge, at)) ||
    block.cuts.some(
      (other) =>
        other.id !== cut.id &&
        !moving.has(other.id) &&
        touches(segmentOf(other), at) &&
        // One that ends there too does not hold: it hangs on the moved line itself, unless it is locked.
        (other.locked === true || !endsAt(other, at)),
    );
  const isJoint = (at: Point, cut: Cut): boolean =>
    block.cuts.some((other) => other.id !== cut.id && !moving.has(other.id) && endsAt(other, at));
  return block.cuts.flatMap((cut): MovedCut[] => {
    if (moving.has(cut.id) || cut.locked === true) return [];
    const place = (end: Point, other: Point): Point => {
      const line = lines.find(({ was }) => touches(was, end));
      if (line === undefined || isHeld(end, cut)) return end;
      return followed(end, other, line, isJoint(end, cut));
    };
    const from = place(cut.from, cut.to);
    const to = place(cut.to, cut.from);
    return from === cut.from && to === cut.to ? [] : [{ id: cut.id, from, to }];
  });
}

const endsAt = ({ from, to }: Cut, at: Point): boolean => isAt(from, at) || isAt(to, at);

/**
 * Where an end goes when the line it lay on has moved: along its own cut to the line's new place; to the same share of
 * the line where the two no longer meet, and for a joint, whose ends go on meeting there.
 */
function followed(end: Point, other: Point, line: MovedLine, isJoint: boolean): Point {
  const carried = along(line.is, shareAlong(line.was, end));
  const atItsEnd = isAt(end, line.was[0]) || isAt(end, line.was[1]);
  if (atItsEnd) return carried;
  if (touches(line.is, end)) return end;
  if (isJoint) return carried;
  const met = meeting([other, end], line.is);
  return met === null || met.onLine <= 0 ? carried : along([other, end], met.onLine);
}

const sameSegment = (a: Segment, b: Segment): boolean =>
  a[0][0] === b[0][0] && a[0][1] === b[0][1] && a[1][0] === b[1][0] && a[1][1] === b[1][1];

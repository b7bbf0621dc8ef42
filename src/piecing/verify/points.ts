import type { Point, Segment } from '../../geometry/point.ts';
import { distance } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import { letters } from '../ids.ts';
import type { Join } from '../plan.ts';
import { MAX_STRETCH_IN } from '../registration.ts';
import { type Boundary, contactBetween, type Side } from './boundary.ts';
import { along, isNearest, liesOn, ONE_SPOT_IN } from './stretch.ts';

/** A unit: the letters of its sections, and whether a patch is in one of them. */
export interface Unit {
  readonly sections: readonly string[];
  readonly has: (patch: string) => boolean;
}

/** Ids of the patches of each section, by its letter. */
export type Orders = ReadonlyMap<string, readonly string[]>;

export const patchesIn = ({ sections }: Unit, orderOf: Orders): string[] =>
  sections.flatMap((letter) => orderOf.get(letter) ?? []);

/** Both units of a join. */
export type Units = readonly [left: Unit, right: Unit];

/**
 * Are there pins where they belong: at both ends of every stretch, wherever seams meet it and called by what meets, no
 * farther apart than 4 in; in turn, each with the label of its turn?
 */
export function pointFaults(
  join: Join,
  contact: readonly Side[],
  units: Units,
  orderOf: Orders,
  boundary: Boundary,
): string[] {
  const { step, points, stretches } = join;
  const faults: string[] = [];
  points.forEach(({ label, at }, k) => {
    if (label !== `${step}${letters(k).toLowerCase()}`)
      faults.push(phrase('Point {label} has the wrong label.', { label }));
    if (!stretches.some((stretch) => liesOn(at, stretch)))
      faults.push(phrase('Point {label} is off its seam.', { label }));
  });
  if (!areInTurn(join)) faults.push(phrase('The points of join {step} are out of turn.', { step }));
  const isEndOfAny = (at: Point): boolean => stretches.flat().some((end) => distance(end, at) <= ONE_SPOT_IN);
  const [inLeft, inRight] = units.map((unit) => seamEnds(unit, orderOf, boundary)) as [SeamEnds, SeamEnds];
  for (const stretch of stretches) {
    const length = distance(...stretch);
    const here = points
      .filter(({ at }) => isNearest(stretch, stretches, [at]))
      .map((point) => ({ ...point, t: along(point.at, stretch) }))
      .sort((p, q) => p.t - q.t);
    for (const end of [0, length])
      if (!here.some(({ kind, t }) => kind === 'end' && Math.abs(t - end) <= ONE_SPOT_IN))
        faults.push(phrase('Join {step} has no point at an end.', { step }));
    if (here.some(({ t }, k) => k > 0 && t - here[k - 1]!.t > MAX_STRETCH_IN + 2 ** -14))
      faults.push(phrase('Join {step} goes too far without a point.', { step }));
    const onIt = contact.filter(({ edge }) => isNearest(stretch, stretches, edge));
    const [fromLeft, fromRight] = [
      meetings(onIt, stretch, ({ patch }) => patch),
      meetings(onIt, stretch, ({ other }) => other!),
    ];
    const near = (spots: readonly number[], t: number, reach = ONE_SPOT_IN): boolean =>
      spots.some((spot) => Math.abs(spot - t) <= reach);
    const isInside = (t: number): boolean => t > ONE_SPOT_IN && t < length - ONE_SPOT_IN;
    for (const t of [...fromLeft, ...fromRight].filter(isInside)) {
      const there = here.filter(
        ({ kind, t: its }) => (kind === 'match' || kind === 'junction') && near([its], t),
      );
      if (there.length === 0)
        faults.push(phrase('Join {step} has no point where a seam meets it.', { step }));
      // Seams of both sides on the very same spot; where spots crowd within the width of a line or two, one may be told apart.
      const isCrowded = here.filter(({ t: its }) => near([its], t, 2 * ONE_SPOT_IN)).length > 1;
      const isMet = near(fromLeft, t, 2 ** -15) && near(fromRight, t, 2 ** -15);
      if (isMet && !isCrowded && !there.some(({ kind }) => kind === 'match'))
        faults.push(phrase('Join {step} has no match where seams of both sides meet.', { step }));
    }
    for (const { kind, label, at, t } of here.filter((point) => isInside(point.t))) {
      const left = near(fromLeft, t);
      const right = near(fromRight, t);
      const isSo =
        kind === 'match'
          ? (left || inLeft(at)) && (right || inRight(at))
          : kind === 'junction'
            ? left || right || inLeft(at) || inRight(at)
            : kind === 'guide'
              ? !left && !right
              : isEndOfAny(at);
      if (!isSo) faults.push(phrase('Point {label} is no {kind}.', { label, kind }));
    }
  }
  return faults;
}

/** Do the points follow the stretches, and each stretch from its first end to its second? */
function areInTurn({ points, stretches }: Join): boolean {
  let reached = Number.NEGATIVE_INFINITY;
  for (const { at } of points) {
    let before = 0;
    const places: number[] = [];
    for (const stretch of stretches) {
      if (liesOn(at, stretch)) places.push(before + along(at, stretch));
      before += distance(...stretch);
    }
    const next = places.find((place) => place >= reached - ONE_SPOT_IN);
    if (places.length > 0 && next === undefined) return false;
    reached = next ?? reached;
  }
  return true;
}

/** How far along a stretch one patch of a side gives way to the next, in inches. */
function meetings(contact: readonly Side[], stretch: Segment, patchOf: (side: Side) => string): number[] {
  const spans = contact
    .map((side) => {
      const [p, q] = side.edge.map((at) => along(at, stretch)) as [number, number];
      return { patch: patchOf(side), low: Math.min(p, q), high: Math.max(p, q) };
    })
    // By their middles: where lines all but meet, an edge may begin a hair before one that ends earlier.
    .sort((a, b) => a.low + a.high - b.low - b.high);
  return spans.flatMap(({ patch, low }, k) => {
    const before = spans[k - 1];
    // A patch that goes on beyond a gap meets the seam anew.
    return before && (before.patch !== patch || low - before.high > 2 ** -15)
      ? [(before.high + low) / 2]
      : [];
  });
}

type SeamEnds = (at: Point) => boolean;

/** Does a seam inside a unit end at a spot, if only with one patch on both its sides, as at the tip of a square? */
function seamEnds(unit: Unit, orderOf: Orders, boundary: Boundary): SeamEnds {
  let ends: ReadonlySet<number> | null = null;
  return (at) => {
    ends ??= new Set(
      contactBetween(boundary, patchesIn(unit, orderOf), unit.has).flatMap(({ edge }) =>
        edge.map(boundary.numberOf),
      ),
    );
    return ends.has(boundary.numberOf(at));
  };
}

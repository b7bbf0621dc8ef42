import type { Point, Segment } from '../../geometry/point.ts';
import { distance } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import { letters } from '../ids.ts';
import type { Join, RegistrationPoint } from '../plan.ts';
import { MAX_STRETCH_IN } from '../registration.ts';
import { addContact, type Boundary } from './boundary.ts';
import { along, isNearest, liesOn, ONE_SPOT_IN } from './stretch.ts';
import type { Unit } from './units.ts';

/** An edge that both units of a join have, as it runs round the left one, and the patch on each side. */
export interface Contact {
  readonly edge: Segment;
  readonly left: number;
  readonly right: number;
}

/** Spots on the lattice that differ by less are one. */
const HAIR_IN = 2 ** -15;

/**
 * Are there pins where they belong: at both ends of every stretch, wherever seams meet it and called by what meets, no
 * farther apart than 4 in; in turn, each with the label of its turn?
 */
export function pointFaults(
  join: Join,
  contact: readonly Contact[],
  [left, right]: readonly [Unit, Unit],
  unitOf: (patch: number) => Unit,
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
  const inLeft = seamEnds(left, unitOf, boundary);
  const inRight = seamEnds(right, unitOf, boundary);
  for (const stretch of stretches) {
    const length = distance(...stretch);
    const here = pinsOn(stretch, join);
    for (const end of [0, length])
      if (!here.some(({ point, t }) => point.kind === 'end' && Math.abs(t - end) <= ONE_SPOT_IN))
        faults.push(phrase('Join {step} has no point at an end.', { step }));
    if (here.some(({ t }, k) => k > 0 && t - here[k - 1]!.t > MAX_STRETCH_IN + 2 ** -14))
      faults.push(phrase('Join {step} goes too far without a point.', { step }));
    const { fromLeft, fromRight } = meetings(contact, stretch, stretches);
    const isInside = (t: number): boolean => t > ONE_SPOT_IN && t < length - ONE_SPOT_IN;
    for (const t of [...fromLeft, ...fromRight]) {
      if (!isInside(t)) continue;
      let isTold = false;
      let isMatched = false;
      let crowd = 0;
      for (const { point, t: its } of here) {
        const apart = Math.abs(its - t);
        if (apart <= 2 * ONE_SPOT_IN) crowd++;
        if (apart > ONE_SPOT_IN) continue;
        if (point.kind === 'match') isMatched = true;
        if (point.kind === 'match' || point.kind === 'junction') isTold = true;
      }
      if (!isTold) faults.push(phrase('Join {step} has no point where a seam meets it.', { step }));
      // Seams of both sides on the very same spot; where spots crowd within the width of a line or two, one may be told apart.
      if (!isMatched && crowd <= 1 && isNear(fromLeft, t, HAIR_IN) && isNear(fromRight, t, HAIR_IN))
        faults.push(phrase('Join {step} has no match where seams of both sides meet.', { step }));
    }
    for (const { point, t } of here) {
      if (!isInside(t)) continue;
      const { kind, label, at } = point;
      const isMetLeft = isNear(fromLeft, t);
      const isMetRight = isNear(fromRight, t);
      const isSo =
        kind === 'match'
          ? (isMetLeft || inLeft(at)) && (isMetRight || inRight(at))
          : kind === 'junction'
            ? isMetLeft || isMetRight || inLeft(at) || inRight(at)
            : kind === 'guide'
              ? !isMetLeft && !isMetRight
              : stretches.some((each) => each.some((end) => distance(end, at) <= ONE_SPOT_IN));
      if (!isSo) faults.push(phrase('Point {label} is no {kind}.', { label, kind }));
    }
  }
  return faults;
}

const isNear = (spots: readonly number[], t: number, reach = ONE_SPOT_IN): boolean =>
  spots.some((spot) => Math.abs(spot - t) <= reach);

/** The points of a join that lie on one of its stretches, in turn, and how far along it, inches. */
function pinsOn(
  stretch: Segment,
  { points, stretches }: Join,
): { readonly point: RegistrationPoint; readonly t: number }[] {
  const pins: { readonly point: RegistrationPoint; readonly t: number }[] = [];
  for (const point of points)
    if (isNearest(stretch, stretches, [point.at])) pins.push({ point, t: along(point.at, stretch) });
  return pins.sort((p, q) => p.t - q.t);
}

/** Do the points follow the stretches, and each stretch from its first end to its second? */
function areInTurn({ points, stretches }: Join): boolean {
  let reached = Number.NEGATIVE_INFINITY;
  for (const { at } of points) {
    let before = 0;
    let isOn = false;
    let next = Number.POSITIVE_INFINITY;
    for (const stretch of stretches) {
      if (liesOn(at, stretch)) {
        isOn = true;
        const place = before + along(at, stretch);
        if (place >= reached - ONE_SPOT_IN) next = Math.min(next, place);
      }
      before += distance(...stretch);
    }
    if (isOn && next === Number.POSITIVE_INFINITY) return false;
    if (isOn) reached = next;
  }
  return true;
}

/** How far along a stretch one patch of a unit gives way to the next, in inches, for each of the two units. */
function meetings(
  contact: readonly Contact[],
  stretch: Segment,
  stretches: readonly Segment[],
): { readonly fromLeft: readonly number[]; readonly fromRight: readonly number[] } {
  const spans: { left: number; right: number; low: number; high: number }[] = [];
  for (const { edge, left, right } of contact) {
    if (stretches.length > 1 && !isNearest(stretch, stretches, edge)) continue;
    const p = along(edge[0], stretch);
    const q = along(edge[1], stretch);
    spans.push({ left, right, low: Math.min(p, q), high: Math.max(p, q) });
  }
  // By their middles: where lines all but meet, an edge may begin a hair before one that ends earlier.
  spans.sort((a, b) => a.low + a.high - b.low - b.high);
  const fromLeft: number[] = [];
  const fromRight: number[] = [];
  for (let k = 1; k < spans.length; k++) {
    const before = spans[k - 1]!;
    const { left, right, low } = spans[k]!;
    const at = (before.high + low) / 2;
    // A patch that goes on beyond a gap meets the seam anew.
    const isAnew = low - before.high > HAIR_IN;
    if (isAnew || before.left !== left) fromLeft.push(at);
    if (isAnew || before.right !== right) fromRight.push(at);
  }
  return { fromLeft, fromRight };
}

/** Does a seam inside a unit end at a spot, if only with one patch on both its sides, as at the tip of a square? */
function seamEnds(unit: Unit, unitOf: (patch: number) => Unit, boundary: Boundary): (at: Point) => boolean {
  let ends: ReadonlySet<number> | null = null;
  const find = (): ReadonlySet<number> => {
    const sides: number[] = [];
    for (const p of unit.patches) addContact(boundary, p, (other) => unitOf(other) === unit, sides);
    return new Set(sides.flatMap((side) => [boundary.from[side]!, boundary.to[side]!]));
  };
  return (at) => {
    ends ??= find();
    return ends.has(boundary.numberOf(at));
  };
}

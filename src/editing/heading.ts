import { snapPoint } from '../geometry/lattice.ts';
import type { Point, Segment } from '../geometry/point.ts';
import { distance, distanceToSegment } from '../geometry/ring.ts';
import { along, meeting, nearestOn, samePlace } from '../geometry/segments.ts';
import { free, lineUnder, nearestSpot, onGrid, onLine, type Snap, type SnapField } from './snapping.ts';

/** What catches the end of a line that runs from a place: all that catches a pointer, and directions and lengths. */

/** On a line it begins on, or at a spot: forgives the lattice, nothing more. Inches. */
const EXACT_IN = 1 / 1000;

/** Angles on offer with Shift, degrees. */
export const STEP_DEGREES = 15;

/** A direction worth keeping, from the start of a running line. */
interface Heading {
  /** Unit vector. */
  readonly way: Point;
  readonly kind: 'parallel' | 'perpendicular';
  readonly guide: Segment;
}

/**
 * What catches the end at `at` of a line from `from`, within `reachIn` inches. Spots first; then square onto a line,
 * or along a kept direction or with a known length onto one, unless a spot of the grid on it is pointed at; then lines,
 * directions, lengths and the grid in the open, the grid where it is near. With `inSteps` the direction is one of 15°
 * steps whatever else is near.
 */
export function snapFrom(field: SnapField, from: Point, at: Point, reachIn: number, inSteps: boolean): Snap {
  if (inSteps) return onStep(field, from, at, reachIn);
  const spot = nearestSpot(field, at, reachIn);
  if (spot !== null) return spot;
  if (distance(from, at) <= reachIn)
    return onLine(field, at, reachIn) ?? onGrid(field, at, reachIn) ?? free(at);
  const headings = headingsFrom(field, from);
  const directed =
    squareOnto(field, from, at, reachIn) ??
    headingOnto(field, headings, from, at, reachIn) ??
    lengthOnto(field, from, at, reachIn);
  const line = onLine(field, at, reachIn);
  if (directed === null) return line ?? inTheOpen(field, headings, from, at, reachIn);
  // The grid and the directions share the line: pointed at closely, a spot of the grid on it catches first.
  const pointedAt =
    line !== null && distance(line.at, at) <= reachIn / 2 && onGrid(field, line.at, EXACT_IN) !== null;
  return pointedAt && distance(line.at, at) < distance(directed.at, at) ? line : directed;
}

function inTheOpen(
  field: SnapField,
  headings: readonly Heading[],
  from: Point,
  at: Point,
  reachIn: number,
): Snap {
  // The grid and the directions share the reach, or one would never let the other in.
  const near = reachIn / 2;
  return (
    onGrid(field, at, near) ??
    alongHeading(field, headings, from, at, near) ??
    atLength(field, from, at, near) ??
    onGrid(field, at, reachIn) ??
    free(at)
  );
}

const unit = ([from, to]: Segment): Point => {
  const length = distance(from, to);
  return [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
};

/** Directions of the lines there are, and square to those the line begins on; each direction once. */
function headingsFrom({ lines }: SnapField, from: Point): readonly Heading[] {
  const headings: Heading[] = [];
  const add = (way: Point, kind: Heading['kind'], guide: Segment): void => {
    if (!headings.some((other) => Math.abs(way[0] * other.way[1] - way[1] * other.way[0]) < 1e-4))
      headings.push({ way, kind, guide });
  };
  for (const { segment } of lines) {
    if (samePlace(...segment) || distanceToSegment(from, ...segment) > EXACT_IN) continue;
    const [x, y] = unit(segment);
    add([-y, x], 'perpendicular', segment);
  }
  for (const { segment } of lines) if (!samePlace(...segment)) add(unit(segment), 'parallel', segment);
  return headings;
}

/** The foot of the square from the start to a line near the pointer. */
function squareOnto({ lines }: SnapField, from: Point, at: Point, reachIn: number): Snap | null {
  let best: Snap | null = null;
  let bestAway = reachIn;
  for (const { segment } of lines) {
    const foot = nearestOn(segment, from);
    const away = distance(foot, at);
    if (away > bestAway || distance(foot, from) <= EXACT_IN) continue;
    // At its very end the nearest place need not be square.
    const [x, y] = unit(segment);
    const slant = Math.abs((foot[0] - from[0]) * x + (foot[1] - from[1]) * y);
    if (slant > 1e-6) continue;
    best = { kind: 'perpendicular', at: snapPoint(foot), guide: segment };
    bestAway = away;
  }
  return best;
}

function headingOnto(
  field: SnapField,
  headings: readonly Heading[],
  from: Point,
  at: Point,
  reachIn: number,
): Snap | null {
  const line = lineUnder(field, at, reachIn);
  if (line === null) return null;
  let best: Snap | null = null;
  let bestAway = reachIn;
  for (const { way, kind, guide } of headings) {
    const met = meeting([from, [from[0] + way[0], from[1] + way[1]]], line.segment);
    if (met === null) continue;
    const place = along(line.segment, met.onSegment);
    const away = distance(place, at);
    if (away > bestAway || distance(place, from) <= EXACT_IN) continue;
    best = { kind, at: snapPoint(place), guide };
    bestAway = away;
  }
  return best;
}

/** Where the circle of a known length round the start crosses the line near the pointer. */
function lengthOnto(field: SnapField, from: Point, at: Point, reachIn: number): Snap | null {
  const line = lineUnder(field, at, reachIn);
  if (line === null) return null;
  const [dx, dy] = unit(line.segment);
  const [a, b] = line.segment;
  const [gx, gy] = [from[0] - a[0], from[1] - a[1]];
  const middle = gx * dx + gy * dy;
  const square = gx * gx + gy * gy - middle * middle;
  const whole = distance(a, b);
  let best: Snap | null = null;
  // Half the reach: lengths are many, and none should hide the grid on the line.
  let bestAway = reachIn / 2;
  for (const { segment, kind } of field.lines) {
    if (kind !== 'line') continue;
    const length = distance(...segment);
    const half = length * length - square;
    if (half < 0) continue;
    for (const place of [middle - Math.sqrt(half), middle + Math.sqrt(half)]) {
      if (place < 0 || place > whole) continue;
      const spot: Point = [a[0] + dx * place, a[1] + dy * place];
      const away = distance(spot, at);
      if (away >= bestAway) continue;
      best = { kind: 'same-length', at: snapPoint(spot), guide: segment };
      bestAway = away;
    }
  }
  return best;
}

function alongHeading(
  field: SnapField,
  headings: readonly Heading[],
  from: Point,
  at: Point,
  reachIn: number,
): Snap | null {
  let best: Snap | null = null;
  let bestAway = reachIn;
  for (const { way, kind, guide } of headings) {
    const length = (at[0] - from[0]) * way[0] + (at[1] - from[1]) * way[1];
    const place: Point = [from[0] + way[0] * length, from[1] + way[1] * length];
    const away = distance(place, at);
    if (away > bestAway) continue;
    const known = knownLength(field, Math.abs(length), reachIn);
    const kept = known === null ? length : Math.sign(length) * known.length;
    const spot: Point = [from[0] + way[0] * kept, from[1] + way[1] * kept];
    best = { kind, at: snapPoint(spot), guide };
    bestAway = away;
  }
  return best;
}

/** A cut as long as the running line nearly is. */
function knownLength(
  { lines }: SnapField,
  length: number,
  reachIn: number,
): { readonly length: number; readonly guide: Segment } | null {
  let best: { readonly length: number; readonly guide: Segment } | null = null;
  let bestOff = reachIn;
  for (const { segment, kind } of lines) {
    if (kind !== 'line') continue;
    const off = Math.abs(distance(...segment) - length);
    if (off >= bestOff) continue;
    best = { length: distance(...segment), guide: segment };
    bestOff = off;
  }
  return best;
}

function atLength(field: SnapField, from: Point, at: Point, reachIn: number): Snap | null {
  const length = distance(from, at);
  const known = knownLength(field, length, reachIn);
  if (known === null) return null;
  const place = along([from, at], known.length / length);
  return { kind: 'same-length', at: snapPoint(place), guide: known.guide };
}

/** The nearest 15° step: to a spot or line it meets near the pointer, else to a whole number of grid steps. */
function onStep(field: SnapField, from: Point, at: Point, reachIn: number): Snap {
  const step = (STEP_DEGREES * Math.PI) / 180;
  const angle = Math.round(Math.atan2(at[1] - from[1], at[0] - from[0]) / step) * step;
  // Level and upright exactly, which the sine of a rounded angle is not.
  const tidy = (value: number): number => (Math.abs(value) < 1e-12 ? 0 : value);
  const way: Point = [tidy(Math.cos(angle)), tidy(Math.sin(angle))];
  const lengthOf = (place: Point): number => (place[0] - from[0]) * way[0] + (place[1] - from[1]) * way[1];
  const on = (length: number): Point => [from[0] + way[0] * length, from[1] + way[1] * length];
  const wanted = Math.max(0, lengthOf(at));
  let best: number | null = null;
  const offer = (length: number): void => {
    if (length <= EXACT_IN || Math.abs(length - wanted) > reachIn) return;
    if (best === null || Math.abs(length - wanted) < Math.abs(best - wanted)) best = length;
  };
  for (const { at: spot } of field.spots)
    if (distance(on(lengthOf(spot)), spot) <= EXACT_IN) offer(lengthOf(spot));
  for (const { segment } of field.lines) {
    const met = meeting([from, on(1)], segment);
    if (met !== null) offer(met.onLine);
  }
  const { gridIn } = field;
  const plain = gridIn > 0 ? Math.round(wanted / gridIn) * gridIn : wanted;
  return { kind: 'step', at: snapPoint(on(best ?? plain)) };
}

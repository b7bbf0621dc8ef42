import type { Point, Segment } from '../geometry/point.ts';
import { distance } from '../geometry/ring.ts';

export interface LongLines {
  /** Every straight stretch once, as long as it goes on without a gap. */
  readonly lines: readonly Segment[];
  /** How many of the pieces that came in lay wholly on others. */
  readonly repeated: number;
}

/** A straight stretch along a line: its ends, and how far along the line they lie. */
interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly start: Point;
  readonly end: Point;
}

interface Carrier {
  readonly at: Point;
  readonly along: Point;
  stretches: Stretch[];
}

/** Sorts directions into drawers of half a degree. */
const DRAWERS = 360;

/**
 * Pieces that lie on one line and touch or overlap, put together to long lines; pieces told twice are dropped.
 *
 * Input: straight pieces in any unit; `tolerance`, in the same unit, is how far an end may lie from the line and
 * how wide a gap may be. Pieces not longer than the tolerance are left out. The ends that come out are ends that
 * came in. Lines grow from the longest piece, so that a chain of slight bends never counts as straight. Once they lie
 * on more than `most` lines the others are not looked at.
 * Cost: about O(n × lines of one direction).
 */
export function longLines(
  pieces: readonly Segment[],
  tolerance: number,
  most = Number.POSITIVE_INFINITY,
): LongLines {
  const drawers = new Map<number, Carrier[]>();
  const carriers: Carrier[] = [];
  let repeated = 0;
  const sized = pieces
    .map((piece) => ({ piece, length: distance(...piece) }))
    .filter(({ length }) => length > tolerance)
    .sort((a, b) => b.length - a.length);
  for (const { piece, length } of sized) {
    if (carriers.length > most) break;
    const [a, b] = piece;
    const home = drawerOf(a, b);
    const spread = Math.min(DRAWERS / 2, 1 + Math.ceil(((2 * tolerance) / length) * (DRAWERS / Math.PI)));
    const carrier = carrierFor(drawers, home, spread, a, b, tolerance);
    if (carrier === null) {
      const along: Point = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
      const made: Carrier = { at: a, along, stretches: [{ from: 0, to: length, start: a, end: b }] };
      carriers.push(made);
      const drawer = drawers.get(home);
      if (drawer) drawer.push(made);
      else drawers.set(home, [made]);
    } else if (!laidOn(carrier, a, b, tolerance)) repeated++;
  }
  return {
    lines: carriers.flatMap(({ stretches }) =>
      [...stretches].sort((a, b) => a.from - b.from).map(({ start, end }): Segment => [start, end]),
    ),
    repeated,
  };
}

function drawerOf(a: Point, b: Point): number {
  const angle = Math.atan2(b[1] - a[1], b[0] - a[0]);
  return Math.floor((((angle + 2 * Math.PI) % Math.PI) / Math.PI) * DRAWERS) % DRAWERS;
}

const awayFrom = ({ at, along }: Carrier, [x, y]: Point): number =>
  Math.abs((x - at[0]) * along[1] - (y - at[1]) * along[0]);

const placeOn = ({ at, along }: Carrier, [x, y]: Point): number =>
  (x - at[0]) * along[0] + (y - at[1]) * along[1];

/** The line both ends lie on. */
function carrierFor(
  drawers: ReadonlyMap<number, readonly Carrier[]>,
  home: number,
  spread: number,
  a: Point,
  b: Point,
  tolerance: number,
): Carrier | null {
  for (let k = -spread; k <= spread; k++) {
    const found = drawers
      .get((home + k + DRAWERS) % DRAWERS)
      ?.find((carrier) => awayFrom(carrier, a) <= tolerance && awayFrom(carrier, b) <= tolerance);
    if (found) return found;
  }
  return null;
}

/** Lengthens a stretch by a piece, uniting those it bridges. False when the piece lay there already. */
function laidOn(carrier: Carrier, a: Point, b: Point, tolerance: number): boolean {
  const [p, q] = placeOn(carrier, a) <= placeOn(carrier, b) ? [a, b] : [b, a];
  let grown: Stretch = { from: placeOn(carrier, p), to: placeOn(carrier, q), start: p, end: q };
  const apart: Stretch[] = [];
  for (const stretch of carrier.stretches) {
    if (stretch.from <= grown.from + tolerance && stretch.to >= grown.to - tolerance) return false;
    if (stretch.to < grown.from - tolerance || stretch.from > grown.to + tolerance) {
      apart.push(stretch);
      continue;
    }
    const low = stretch.from <= grown.from ? stretch : grown;
    const high = stretch.to >= grown.to ? stretch : grown;
    grown = { from: low.from, start: low.start, to: high.to, end: high.end };
  }
  carrier.stretches = [...apart, grown];
  return true;
}

import { type Division, divide, ringOf } from '../../geometry/division.ts';
import { holdsPoint, innerSpot } from '../../geometry/inner-spot.ts';
import { snapPoint, TOUCH_IN } from '../../geometry/lattice.ts';
import type { Point, Segment } from '../../geometry/point.ts';
import { distance, distanceToSegment, farthestPair, signedArea } from '../../geometry/ring.ts';
import type { Block, Cut } from '../block.ts';
import { uncovered } from './added-lines.ts';

/** A block with lines added, which parts patches of the old one and joins none. */
export interface DrawnMend {
  readonly cuts: readonly Cut[];
  /** What of the lines no cut lay on already. */
  readonly lines: readonly Segment[];
  /** Cuts whose loose ends are pulled in, because an added line would make patches of them. */
  readonly pulled: readonly string[];
}

/**
 * Stretches drawn into a block. Loose ends that one of them would catch are pulled back to where they part nothing; those
 * that lie on one are drawn on. Null where the picture would not stay as it is.
 */
export function drawnMend(block: Block, before: Division, stretches: readonly Segment[]): DrawnMend | null {
  let kept = block.cuts;
  let pulled: readonly string[] = [];
  for (;;) {
    const ids = freeIds(block.cuts);
    const lines = stretches.flatMap((stretch) => uncovered(stretch, kept));
    const cuts = [...kept, ...lines.map(([from, to]): Cut => ({ id: ids(), from, to, role: 'auto' }))];
    const divided = divide(
      block.outline,
      cuts.map(({ from, to }) => [from, to]),
    );
    if (!divided.ok) return null;
    // Pulled once, a cut has no loose end left.
    const caught = pulled.length > 0 ? [] : caughtEnds(block.cuts, before, divided.division, stretches);
    if (caught.length === 0) return keepsPicture(before, divided.division) ? { cuts, lines, pulled } : null;
    pulled = caught;
    kept = block.cuts.flatMap((cut, k) => (caught.includes(cut.id) ? pulledIn(cut, k, before) : [cut]));
  }
}

/** The ids that follow the highest number in use. */
function freeIds(cuts: readonly Cut[]): () => string {
  let last = cuts.reduce(
    (most, { id }) => Math.max(most, Number(/^c([1-9][0-9]{0,8})$/.exec(id)?.[1] ?? 0)),
    0,
  );
  return () => `c${++last}`;
}

const facesOf = (division: Division) =>
  division.faces.map(({ edge, islands }) => {
    const polygon = ringOf(division, edge);
    const holes = islands.map((h) => ringOf(division, h));
    return { polygon, holes, area: [polygon, ...holes].reduce((sum, ring) => sum + signedArea(ring), 0) };
  });

/** Does every new face lie in an old one, and do they fill it? */
function keepsPicture(before: Division, after: Division): boolean {
  const old = facesOf(before);
  const filled = old.map(() => 0);
  for (const face of facesOf(after)) {
    const spot = innerSpot(face);
    const host = old.findIndex((one) => holdsPoint(one, spot));
    if (host < 0) return false;
    filled[host]! += face.area;
  }
  return old.every(({ polygon, area }, k) => {
    const rim = polygon.reduce((sum, p, i) => sum + distance(p, polygon[(i + 1) % polygon.length]!), 0);
    return Math.abs(filled[k]! - area) <= rim * 2 * TOUCH_IN;
  });
}

const edgesOf = ({ line, origin, vertices }: Division, cut: number): Segment[] =>
  Array.from(line, (l, e) => (l === cut ? e : -1))
    .filter((e) => e >= 0)
    .map((e): Segment => [vertices[origin[2 * e]!]!, vertices[origin[2 * e + 1]!]!]);

/** The cuts that part more than they did before, elsewhere than along the stretches drawn. */
function caughtEnds(
  cuts: readonly Cut[],
  before: Division,
  after: Division,
  stretches: readonly Segment[],
): string[] {
  const loose = new Set(before.strays.map(({ line }) => line));
  return cuts.flatMap(({ id }, k) => {
    if (!loose.has(k)) return [];
    const meant = [...edgesOf(before, k), ...stretches];
    const isNew = edgesOf(after, k).some(([a, b]) => {
      const mid: Point = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
      return !meant.some((edge) => distanceToSegment(mid, ...edge) <= 2 * TOUCH_IN);
    });
    return isNew ? [id] : [];
  });
}

/** A cut as long as what it parts; nothing of one that parts nothing. */
function pulledIn(cut: Cut, index: number, before: Division): Cut[] {
  const spots = edgesOf(before, index).flat();
  if (spots.length === 0) return [];
  const [a, b] = farthestPair(spots);
  const isTurned = distance(cut.from, a) > distance(cut.from, b);
  const at = (end: Point, spot: Point): Point => (distance(end, spot) <= TOUCH_IN ? end : snapPoint(spot));
  return [{ ...cut, from: at(cut.from, isTurned ? b : a), to: at(cut.to, isTurned ? a : b) }];
}

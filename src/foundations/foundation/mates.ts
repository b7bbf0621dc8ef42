import { STRAIGHT_IN } from '../../geometry/lattice.ts';
import type { Point, Ring, Segment } from '../../geometry/point.ts';
import { distanceToSegment } from '../../geometry/ring.ts';
import type { Join, PiecingPlan, RegistrationPoint, Section } from '../../piecing/plan.ts';

/** A straight part of a section's outline that is sewn to other sections in one go. Front view, inches. */
export interface JoiningSide {
  /** Null where no join sews it: the section is in the unit that the mate's paper starts from. */
  readonly join: Join | null;
  /** Directed as the outline runs, so the section lies on the side of its positive area. */
  readonly side: Segment;
  /** Letters of the sections on the other side of the join that meet this part, in turn along it. */
  readonly mates: readonly string[];
  /** The registration points on this part, in turn along it. */
  readonly points: readonly RegistrationPoint[];
}

/**
 * Every part of a section's outline that is sewn to other sections: joins in the order of the steps, then seams of
 * papers that start from a unit with this section in it.
 */
export function joiningSides(plan: PiecingPlan, section: Section): readonly JoiningSide[] {
  const byLetter = new Map(plan.sections.map((other) => [other.letter, other]));
  const sides: JoiningSide[] = [];
  for (const join of plan.joins) {
    const inLeft = join.left.includes(section.letter);
    if (!inLeft && !join.right.includes(section.letter)) continue;
    const across = (inLeft ? join.right : join.left).flatMap((letter) => byLetter.get(letter) ?? []);
    for (const stretch of join.stretches) {
      const axis = axisOf(stretch);
      const met = across.flatMap((mate) =>
        partsOn(axis, mate).map((part) => ({ letter: mate.letter, ...ordered(part) })),
      );
      for (const part of partsOn(axis, section)) {
        const { low, high } = ordered(part);
        const inTurn = part.to > part.from ? 1 : -1;
        const mates = met
          .filter((other) => Math.min(other.high, high) - Math.max(other.low, low) > STRAIGHT_IN)
          .sort((a, b) => inTurn * (a.low - b.low))
          .map((other) => other.letter);
        const points = join.points
          .map((point) => ({ point, ...axis.place(point.at) }))
          .filter(({ t, off }) => off <= STRAIGHT_IN && t >= low - STRAIGHT_IN && t <= high + STRAIGHT_IN)
          .sort((a, b) => inTurn * (a.t - b.t))
          .map(({ point }) => point);
        sides.push({
          join,
          side: [axis.at(part.from), axis.at(part.to)],
          mates: [...new Set(mates)],
          points,
        });
      }
    }
  }
  return [...sides, ...startingSides(plan, section)];
}

/** Where a section in a finished unit meets the patches of the paper that starts from that unit. */
function startingSides(plan: PiecingPlan, section: Section): JoiningSide[] {
  return plan.sections.flatMap((other): JoiningSide[] => {
    if (!other.startsFrom.includes(section.letter)) return [];
    const theirs = new Set(
      plan.patches
        .filter((patch) => patch.section === other.letter)
        .flatMap(({ polygon, holes }) => [polygon, ...holes].flatMap(edgesOf))
        .map(([a, b]) => `${b} ${a}`),
    );
    const met: [Point, Point][] = [];
    for (const [a, b] of [section.outline, ...section.holes].flatMap(edgesOf)) {
      if (!theirs.has(`${a} ${b}`)) continue;
      const before = met.at(-1);
      // Edges in one line are one side; a T-junction between them is no corner.
      if (before && before[1] === a && distanceToSegment(a, before[0], b) <= STRAIGHT_IN) before[1] = b;
      else met.push([a, b]);
    }
    return met.map((side) => ({ join: null, side, mates: [other.letter], points: [] }));
  });
}

const edgesOf = (ring: Ring): [Point, Point][] => ring.map((a, i) => [a, ring[(i + 1) % ring.length]!]);

interface Axis {
  readonly length: number;
  /** Distance along the stretch from its first end, and distance from its line, in inches. */
  place(point: Point): { readonly t: number; readonly off: number };
  at(t: number): Point;
}

function axisOf([a, b]: Segment): Axis {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const ux = (b[0] - a[0]) / length;
  const uy = (b[1] - a[1]) / length;
  return {
    length,
    place: ([x, y]) => ({
      t: (x - a[0]) * ux + (y - a[1]) * uy,
      off: Math.abs((y - a[1]) * ux - (x - a[0]) * uy),
    }),
    // The ends themselves, not a rounding of them.
    at: (t) => (t === 0 ? a : t === length ? b : [a[0] + t * ux, a[1] + t * uy]),
  };
}

/** From and to along an axis, as the section's outline runs. */
interface Part {
  readonly from: number;
  readonly to: number;
}

const ordered = ({ from, to }: Part): { low: number; high: number } => ({
  low: Math.min(from, to),
  high: Math.max(from, to),
});

/** The parts of a section's outline on the axis, each as long as it runs unbroken. */
function partsOn(axis: Axis, { outline, holes }: Section): Part[] {
  return [outline, ...holes].flatMap((ring) => partsOfRing(axis, ring));
}

function partsOfRing(axis: Axis, ring: Ring): Part[] {
  const parts: { from: number; to: number }[] = [];
  const end = (t: number): number =>
    Math.abs(t) <= STRAIGHT_IN ? 0 : Math.abs(t - axis.length) <= STRAIGHT_IN ? axis.length : t;
  ring.forEach((corner, i) => {
    const p = axis.place(corner);
    const q = axis.place(ring[(i + 1) % ring.length]!);
    if (p.off > STRAIGHT_IN || q.off > STRAIGHT_IN) return;
    const clamp = (t: number): number => end(Math.max(0, Math.min(axis.length, t)));
    const from = clamp(p.t);
    const to = clamp(q.t);
    if (Math.abs(to - from) <= STRAIGHT_IN) return;
    const before = parts.at(-1);
    if (before && Math.abs(before.to - from) <= STRAIGHT_IN) before.to = to;
    else parts.push({ from, to });
  });
  const first = parts[0];
  const last = parts.at(-1);
  if (parts.length > 1 && first && last && Math.abs(last.to - first.from) <= STRAIGHT_IN) {
    first.from = last.from;
    parts.pop();
  }
  return parts;
}

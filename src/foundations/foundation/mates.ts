import { STRAIGHT_IN } from '../../geometry/lattice.ts';
import type { Point, Segment } from '../../geometry/point.ts';
import { distance, distanceToSegment, middle } from '../../geometry/ring.ts';
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
  const mateAt = matesOf(plan, section);
  const stretches = [section.outline, ...section.holes].flatMap((ring) => stretchesOf(ring, mateAt));
  const sewnBy = (wanted: (stretch: Stretch) => boolean, join: Join | null): JoiningSide[] =>
    stretches.filter(wanted).map(({ side, mates }) => ({
      join,
      side,
      mates: [...new Set(mates)],
      points: join ? pointsOn(join, side) : [],
    }));
  return [
    ...plan.joins.flatMap((join) =>
      // A join that turns corners goes from one of its stretches to the next.
      sewnBy((one) => one.seam === join, join).sort((a, b) => along(join, a.side) - along(join, b.side)),
    ),
    ...plan.sections
      .filter(({ startsFrom }) => startsFrom.includes(section.letter))
      .flatMap((other) => sewnBy((one) => one.seam === other, null)),
  ];
}

/** What sews an edge of the outline: a join, or the paper that starts from a unit; and the sections across. */
interface Mate {
  /** The one whose patch it is, and those whose papers start from a unit with that one in it. */
  readonly letters: readonly string[];
  readonly seam: Join | Section;
}

const nameOf = (a: Point, b: Point): string => `${a} ${b}`;

/** What meets a section, by the edges of its outline as they run round it. */
function matesOf(plan: PiecingPlan, section: Section): ReadonlyMap<string, Mate> {
  const sectionOf = new Map(plan.patches.map(({ id, section: letter }) => [id, letter]));
  const own = new Set([section.letter, ...section.startsFrom]);
  const seams = new Map(
    plan.sections.flatMap((other): [string, Join | Section][] => {
      const { letter, startsFrom } = other;
      if (own.has(letter)) return [];
      // Two sections come together in one join, or where the paper of one starts from a unit with the other in it.
      const join = plan.joins.find(
        ({ left, right }) =>
          (left.includes(section.letter) && right.includes(letter)) ||
          (right.includes(section.letter) && left.includes(letter)),
      );
      const seam = startsFrom.includes(section.letter) ? other : join;
      return seam ? [[letter, seam]] : [];
    }),
  );
  const mates = new Map<string, Mate>();
  const meet = (a: Point, b: Point, inside: string | null, beyond: string | null): void => {
    if (inside === null || beyond === null || !own.has(sectionOf.get(inside)!)) return;
    const letter = sectionOf.get(beyond)!;
    const seam = seams.get(letter);
    if (!seam) return;
    const across = plan.sections.filter(
      (one) => one.letter === letter || (one.startsFrom.includes(letter) && seams.get(one.letter) === seam),
    );
    mates.set(nameOf(a, b), { letters: across.map((one) => one.letter), seam });
  };
  for (const { from, to, right, left } of plan.edges) {
    // Round a positive area one walks with it on the right.
    meet(from, to, right, left);
    meet(to, from, left, right);
  }
  return mates;
}

/** A straight stretch of the outline that is sewn in one go. */
interface Stretch {
  readonly seam: Join | Section;
  readonly mates: readonly string[];
  readonly side: Segment;
}

/** The sewn stretches of a ring. A T-junction in one is no corner, wherever the ring begins. */
function stretchesOf(ring: readonly Point[], mateAt: ReadonlyMap<string, Mate>): Stretch[] {
  const stretches: Stretch[] = [];
  const isOne = (a: Stretch, b: Stretch): boolean =>
    a.seam === b.seam &&
    a.side[1] === b.side[0] &&
    distanceToSegment(a.side[1], a.side[0], b.side[1]) <= STRAIGHT_IN;
  const united = (a: Stretch, b: Stretch): Stretch => ({
    seam: a.seam,
    mates: [...a.mates, ...b.mates],
    side: [a.side[0], b.side[1]],
  });
  for (const [i, a] of ring.entries()) {
    const b = ring[(i + 1) % ring.length]!;
    const mate = mateAt.get(nameOf(a, b));
    if (!mate) continue;
    const next: Stretch = { seam: mate.seam, mates: mate.letters, side: [a, b] };
    const before = stretches.at(-1);
    if (before && isOne(before, next)) stretches[stretches.length - 1] = united(before, next);
    else stretches.push(next);
  }
  const [first, last] = [stretches[0], stretches.at(-1)];
  if (first && last && first !== last && isOne(last, first)) {
    stretches[0] = united(last, first);
    stretches.pop();
  }
  return stretches;
}

/** The registration points of a join that lie on a part of it, from its first end to its last. */
function pointsOn({ points }: Join, [a, b]: Segment): readonly RegistrationPoint[] {
  return points
    .filter(({ at }) => distanceToSegment(at, a, b) <= STRAIGHT_IN)
    .sort((p, q) => distance(a, p.at) - distance(a, q.at));
}

/** Which of the stretches of a join a side lies on. */
function along({ stretches }: Join, [a, b]: Segment): number {
  const offs = stretches.map((stretch) => distanceToSegment(middle(a, b), ...stretch));
  return offs.indexOf(Math.min(...offs));
}

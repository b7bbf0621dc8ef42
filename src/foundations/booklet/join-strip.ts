import { TOUCH_IN } from '../../geometry/lattice.ts';
import type { Point, Segment } from '../../geometry/point.ts';
import { distance } from '../../geometry/ring.ts';
import type { Join, PiecingPlan, RegistrationPoint } from '../../piecing/plan.ts';
import { stack } from '../foundation/label-request.ts';
import { type Mark, PT } from '../marks.ts';
import { blockMarks, wrapped } from '../type/lettering.ts';
import type { Typeface } from '../type/typeface.ts';
import { unitName } from './guide/steps.ts';

/** A drawing with its height, from its upper left corner. Inches. */
export interface Strip {
  readonly marks: readonly Mark[];
  readonly height: number;
}

/** Room for the names of the two units, before the seam. */
const NAMES_IN = 1.1;
/** From the end of the room for the seam to its ends, so that the labels of the ends find room. */
const INSET_IN = 0.15;
/** How far a tick reaches, how far a leader, and how high a label stands. */
const TICK_IN = 0.07;
const LEADER_IN = 0.19;
const LABEL_IN = 0.1;
const GAP_IN = 0.035;
const HEIGHT_IN = 2 * (LEADER_IN + LABEL_IN + 0.02);
const NAME_PT = 8;
const LABEL_PT = 6.5;

/**
 * A join laid straight and stretched over `width` inches, as the front shows it: its points in their places, dots at
 * its ends, rings at match points, elsewhere a tick on the side from which a seam comes in, or on both for a guide.
 * Every label stands on the side of its tick with a leader to it, in the order of the points.
 */
export function joinStrip(plan: PiecingPlan, join: Join, width: number, typeface: Typeface): Strip {
  const middle = HEIGHT_IN / 2;
  const { points, length, isLeftAbove } = laidStraight(plan, join);
  const from = NAMES_IN + INSET_IN;
  const long = width - from - INSET_IN;
  const [above, below] = isLeftAbove ? [join.left, join.right] : [join.right, join.left];
  const name = (letters: readonly string[], y: number): Mark[] => {
    const line = {
      text: unitName(plan, letters).replace(/^the /, ''),
      face: 'semibold',
      size: NAME_PT * PT,
    } as const;
    const block = stack(
      typeface,
      wrapped(typeface, line, NAMES_IN - 0.05).map((text) => [text, 'semibold', NAME_PT] as const),
    );
    return blockMarks(block, [block.width / 2, y]);
  };
  const placed = points.map(({ point, along }) => {
    const x = from + (long * along) / length;
    const comesFrom = (letters: readonly string[]): boolean => seamsAt(plan, letters, point.at);
    const isUp = comesFrom(above);
    const isDown = comesFrom(below);
    const both = isUp === isDown;
    return { point, x, up: both || isUp, down: both || isDown };
  });
  const marks: Mark[] = [
    {
      kind: 'line',
      pen: 'join',
      points: [
        [from, middle],
        [from + long, middle],
      ],
    },
    ...name(above, middle - LEADER_IN),
    ...name(below, middle + LEADER_IN),
    ...placed.flatMap(({ point, x, up, down }) => pointMarks(point, [x, middle], up, down)),
  ];
  // Where a tick stands on both sides its label stands where fewer are.
  const only = (up: boolean): number => placed.filter((one) => one.up === up && one.down !== up).length;
  let [upper, lower] = [only(true), only(false)];
  const sides = placed.map((one) => {
    const isUp = one.up !== one.down ? one.up : upper <= lower;
    if (one.up === one.down) {
      if (isUp) upper++;
      else lower++;
    }
    return { ...one, isUp };
  });
  for (const side of [true, false]) {
    const own = sides.filter(({ isUp }) => isUp === side);
    const blocks = own.map(({ point }) => stack(typeface, [[point.label, 'semibold', LABEL_PT]]));
    const spots = spread(
      own.map(({ x }) => x),
      blocks.map((block) => block.width + GAP_IN),
      NAMES_IN,
      width,
    );
    const sign = side ? -1 : 1;
    own.forEach(({ x }, i) => {
      const block = blocks[i]!;
      marks.push(
        {
          kind: 'line',
          pen: 'leader',
          points: [
            [x, middle + sign * TICK_IN],
            [spots[i]!, middle + sign * (LEADER_IN - 0.015)],
          ],
        },
        ...blockMarks(block, [spots[i]!, middle + sign * (LEADER_IN + LABEL_IN / 2)]),
      );
    });
  }
  return { marks, height: HEIGHT_IN };
}

function pointMarks({ kind }: RegistrationPoint, [x, y]: Point, up: boolean, down: boolean): Mark[] {
  if (kind === 'end') return [{ kind: 'circle', pen: 'frame', at: [x, y], radius: 0.03, filled: true }];
  if (kind === 'match') return [{ kind: 'circle', pen: 'frame', at: [x, y], radius: 0.05, filled: false }];
  return [
    {
      kind: 'line',
      pen: 'registration',
      points: [
        [x, y - (up ? TICK_IN : 0)],
        [x, y + (down ? TICK_IN : 0)],
      ],
    },
  ];
}

interface LaidStraight {
  /** From left to right, with where each lies along the seam, inches. */
  readonly points: readonly { readonly point: RegistrationPoint; readonly along: number }[];
  readonly length: number;
  readonly isLeftAbove: boolean;
}

/** The points of a join along it, turned so that it runs to the right on the front, or straight down. */
function laidStraight(plan: PiecingPlan, join: Join): LaidStraight {
  const { stretches } = join;
  const start = stretches[0]![0];
  const end = stretches.at(-1)![1];
  const [dx, dy] = [end[0] - start[0], end[1] - start[1]];
  const isTurned = dx < -1e-6 || (Math.abs(dx) <= 1e-6 && dy < 0);
  const length = stretches.reduce((sum, stretch) => sum + distance(...stretch), 0);
  const points = join.points
    .map((point) => {
      const along = alongOf(stretches, point.at);
      return { point, along: isTurned ? length - along : along };
    })
    .sort((p, q) => p.along - q.along);
  return { points, length, isLeftAbove: liesLeft(plan, join) !== isTurned };
}

/** Whether the left unit of a join lies on the left of who walks along it, seen from the front. */
function liesLeft(plan: PiecingPlan, { left, right, stretches }: Join): boolean {
  const [start, end] = stretches[0]!;
  const isIn = isInUnit(plan);
  const walked = plan.edges.flatMap((edge) => {
    const isLeftOnLeft = isIn(edge.left, left) && isIn(edge.right, right);
    if (!isLeftOnLeft && !(isIn(edge.right, left) && isIn(edge.left, right))) return [];
    const along =
      (edge.to[0] - edge.from[0]) * (end[0] - start[0]) + (edge.to[1] - edge.from[1]) * (end[1] - start[1]);
    return [
      { off: distance(along > 0 ? edge.from : edge.to, start), isLeft: isLeftOnLeft === along > 0, along },
    ];
  });
  // Of those that begin there the one along the stretch: a seam round an island comes back to its beginning.
  const first = walked.sort((a, b) => a.off - b.off || Math.abs(b.along) - Math.abs(a.along))[0];
  return first?.isLeft ?? false;
}

/** Tells whether a patch, by its id, is one of a unit's, by the letters of its sections. */
function isInUnit({ patches }: PiecingPlan): (patch: string | null, letters: readonly string[]) => boolean {
  const sectionOf = new Map(patches.map(({ id, section }) => [id, section]));
  return (patch, letters) => patch !== null && letters.includes(sectionOf.get(patch) ?? '');
}

/** How far along the stretches a spot on one of them lies. */
function alongOf(stretches: readonly Segment[], at: Point): number {
  let before = 0;
  let best = { along: 0, off: Number.POSITIVE_INFINITY };
  for (const [a, b] of stretches) {
    const off = distance(a, at) + distance(at, b) - distance(a, b);
    if (off < best.off - 1e-9) best = { along: before + distance(a, at), off };
    before += distance(a, b);
  }
  return best.along;
}

/** Whether a seam between patches of a unit ends at a spot of its edge. */
function seamsAt(plan: PiecingPlan, letters: readonly string[], at: Point): boolean {
  const isIn = isInUnit(plan);
  return plan.edges.some(
    ({ from, to, left, right }) =>
      (distance(from, at) <= TOUCH_IN || distance(to, at) <= TOUCH_IN) &&
      isIn(left, letters) &&
      isIn(right, letters),
  );
}

/**
 * Middles of labels of some widths on one line, each as near to the place it wishes as their order allows without one
 * on another (pool adjacent violators, Ayer and others 1955), between two bounds where they all fit.
 */
function spread(wishes: readonly number[], widths: readonly number[], from: number, to: number): number[] {
  const offsets: number[] = [];
  widths.forEach((width, i) => {
    offsets.push(i === 0 ? 0 : offsets[i - 1]! + (widths[i - 1]! + width) / 2);
  });
  const pools: { sum: number; count: number }[] = [];
  wishes.forEach((wish, i) => {
    pools.push({ sum: wish - offsets[i]!, count: 1 });
    for (;;) {
      const [last, before] = [pools.at(-1)!, pools.at(-2)];
      if (!before || before.sum / before.count <= last.sum / last.count) break;
      pools.pop();
      before.sum += last.sum;
      before.count += last.count;
    }
  });
  const least = from + (widths[0] ?? 0) / 2;
  const most = to - (widths.at(-1) ?? 0) / 2 - (offsets.at(-1) ?? 0);
  const shifts = pools.flatMap(({ sum, count }) => Array.from({ length: count }, () => sum / count));
  return shifts.map((shift, i) => Math.max(least, Math.min(most, shift)) + offsets[i]!);
}

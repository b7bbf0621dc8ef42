import type { Point, Ring, Segment } from '../../geometry/point.ts';
import { distance } from '../../geometry/ring.ts';
import type { Join, PiecingPlan, PointKind, RegistrationPoint } from '../../piecing/plan.ts';
import type { Ground } from '../foundation/ground.ts';
import { SMALLEST_PT, stack, type Try } from '../foundation/label-request.ts';
import { type Mark, PT } from '../marks.ts';
import type { Typeface } from '../type/typeface.ts';
import type { Fit } from './fit.ts';
import { direction, joinMark, lettersOn, linesOf, MOST_OVER_LINES, taken } from './front-letters.ts';
import { outlineMarks, patchMarks } from './patch-marks.ts';

/** The drawing of a join, and the labels of its points that found no place in it. */
export interface JoinDrawing {
  readonly marks: readonly Mark[];
  readonly unnamed: readonly string[];
}

/** The two units of a join in their shades, and the points where pins go first. `fit` is that of the unit it makes. */
export function joinDrawing(plan: PiecingPlan, join: Join, fit: Fit, typeface: Typeface): JoinDrawing {
  const inUnit = (letters: readonly string[]) =>
    plan.patches.filter(({ section }) => letters.includes(section));
  const [left, right] = [inUnit(join.left), inUnit(join.right)];
  const marks: Mark[] = [
    ...patchMarks(left, fit, () => UNIT_SHADES.left),
    ...patchMarks(right, fit, () => UNIT_SHADES.right),
    ...outlineMarks(plan, left, fit, 'frame'),
    ...outlineMarks(plan, right, fit, 'frame'),
    joinMark(join, fit),
    ...join.points.flatMap((point) => pointMarks(point, join, fit)),
  ];
  // A letter keeps off the dots and rings of the points.
  const rings = join.points.map(({ at }): Ring => {
    const [x, y] = fit.place(at);
    const r = POINT_IN.ring;
    return [
      [x - r, y - r],
      [x + r, y - r],
      [x + r, y + r],
      [x - r, y + r],
    ];
  });
  const sizes = [12, 10, 8, SMALLEST_PT];
  const wanted = [...join.left, ...join.right];
  // Of many sections those have a letter that hold one; the words name the units.
  const mayCross = wanted.length <= MOST_OVER_LINES;
  const letters = lettersOn(plan, wanted, fit, typeface, sizes, rings, mayCross);
  const { ground } = letters;
  for (const line of linesOf(marks)) ground.addLine(line);
  // No name touches a dot or a ring, its own or another's.
  for (const { at, kind } of join.points) {
    const half = kind === 'end' ? POINT_IN.dot : kind === 'match' ? POINT_IN.ring : 0;
    if (half > 0) ground.addLabel({ middle: fit.place(at), halfWidth: half, halfHeight: half, turn: 0 });
  }
  // The ends and what must meet are named first; the others where room is left.
  const order = { end: 0, match: 1, junction: 2, guide: 3 } as const;
  const points = [...join.points].sort((a, b) => order[a.kind] - order[b.kind]);
  const named = (onLines: readonly PointKind[], gap = 0): Mark[][] => {
    const free = ground.copy();
    return points.map((point) =>
      pointLabel(point, join, fit, free, typeface, { mayCross: onLines.includes(point.kind), gap }),
    );
  };
  const isWhole = (labels: readonly Mark[][]): boolean => labels.every(({ length }) => length > 0);
  const first = named(['end', 'match']);
  // Where a strip has to name the points anyway, none is named over a line or close by another.
  const labels = isWhole(first) ? first : named(['end'], 1.2 * PT);
  return {
    marks: [...marks, ...labels.flat(), ...letters.marks],
    unnamed: points.flatMap(({ label }, i) => (labels[i]!.length === 0 ? [label] : [])),
  };
}

/** A paper that starts from a finished unit: the unit shaded, the patches sewn to it in outline. */
export function startDrawing(
  plan: PiecingPlan,
  unit: readonly string[],
  section: string,
  fit: Fit,
  typeface: Typeface,
): Mark[] {
  const base = plan.patches.filter((patch) => unit.includes(patch.section));
  const own = plan.patches.filter((patch) => patch.section === section);
  const letters = lettersOn(plan, [...unit, section], fit, typeface, [12, 10, 8, SMALLEST_PT]);
  return [
    ...outlineMarks(plan, plan.patches, fit, 'rule'),
    ...patchMarks(base, fit, () => UNIT_SHADES.left),
    ...patchMarks(own, fit, () => undefined),
    ...outlineMarks(plan, base, fit, 'frame'),
    ...letters.marks,
  ];
}

const UNIT_SHADES = { left: '#d6d6d6', right: '#f2f2f2' } as const;

/** Half the length of a tick at a junction or guide, and radii of the dot at an end and the ring at a match; inches. */
const POINT_IN = { tick: 0.045, dot: 0.03, ring: 0.05 } as const;

function pointMarks({ at, kind }: RegistrationPoint, join: Join, { place }: Fit): Mark[] {
  const spot = place(at);
  if (kind === 'end') return [{ kind: 'circle', pen: 'frame', at: spot, radius: POINT_IN.dot, filled: true }];
  if (kind === 'match')
    return [{ kind: 'circle', pen: 'frame', at: spot, radius: POINT_IN.ring, filled: false }];
  const [x, y] = direction(stretchAt(join, at));
  const t = POINT_IN.tick;
  return [
    {
      kind: 'line',
      pen: 'registration',
      points: [
        [spot[0] - t * y, spot[1] + t * x],
        [spot[0] + t * y, spot[1] - t * x],
      ],
    },
  ];
}

/**
 * The label of a point beside it, off lines where it can and nearer to it than to any other; that of an end beyond
 * the join rather than beside it. With `mayCross` it may lie on a patch's edge where there is no free place; `gap` is
 * the space before and after it, inches.
 */
function pointLabel(
  point: RegistrationPoint,
  join: Join,
  { place }: Fit,
  ground: Ground,
  typeface: Typeface,
  { mayCross, gap }: { readonly mayCross: boolean; readonly gap: number },
): Mark[] {
  const at = place(point.at);
  const others = join.points.filter(({ label }) => label !== point.label).map((other) => place(other.at));
  const isOwn = (middle: Point): boolean =>
    others.every((other) => distance(other, middle) > 1.1 * distance(at, middle));
  const block = stack(typeface, [[point.label, 'semibold', 6.5]]);
  const tries = [0.1, 0.13, 0.17].flatMap((reach) =>
    Array.from({ length: 16 }, (_, i): Try => {
      const angle = ((i + 0.5) * Math.PI) / 8;
      const x = (reach + block.width / 2 - 0.03) * Math.cos(angle);
      return {
        block,
        pad: 0.4 * PT,
        gap,
        slot: { turn: 0, at: [at[0] + x, at[1] + reach * Math.sin(angle)] },
      };
    }),
  );
  const own = tries.filter(({ slot }) => isOwn(slot.at));
  if (point.kind === 'end') {
    const middle = nearestOf(others, at);
    const beyond = ({ slot }: Try): boolean =>
      (slot.at[0] - at[0]) * (at[0] - middle[0]) + (slot.at[1] - at[1]) * (at[1] - middle[1]) > 0;
    own.sort((p, q) => Number(beyond(q)) - Number(beyond(p)));
  }
  return taken(own, ground, mayCross);
}

const nearestOf = (points: readonly Point[], at: Point): Point =>
  points.reduce<Point>((best, one) => (distance(one, at) < distance(best, at) ? one : best), points[0] ?? at);

const stretchAt = ({ stretches }: Join, at: Point): Segment =>
  [...stretches].sort(
    (p, q) =>
      distance(p[0], at) +
      distance(at, p[1]) -
      distance(...p) -
      (distance(q[0], at) + distance(at, q[1]) - distance(...q)),
  )[0]!;

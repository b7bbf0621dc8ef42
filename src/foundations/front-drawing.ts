import type { Point, Ring, Segment } from '../geometry/point.ts';
import { boxOf, distance } from '../geometry/ring.ts';
import type { Join, Patch, PiecingPlan, RegistrationPoint } from '../piecing/plan.ts';
import { Ground } from './ground.ts';
import { boxAround, SMALLEST_PT, stack, type Try } from './label-request.ts';
import { blockMarks } from './lettering.ts';
import { type Mark, PT } from './marks.ts';
import { letterSpot, regionOf } from './picture.ts';
import { boundariesOf } from './regions.ts';
import type { Typeface } from './typeface.ts';

/** How the front of a block is laid into a drawing: fitted, never turned or mirrored. Inches. */
export interface Fit {
  readonly width: number;
  readonly height: number;
  /** Drawn inches per inch of the block. */
  readonly scale: number;
  readonly place: (point: Point) => Point;
}

/** Fits a block into a box, keeping its proportions, from the upper left corner. Never larger than `most` × its size. */
export function fitFront(plan: PiecingPlan, width: number, height: number, most = Infinity): Fit {
  const letters = plan.sections.map(({ letter }) => letter);
  return fitUnit(plan, letters, width, height, most);
}

/** Fits a unit, by the letters of all its sections, into a box as `fitFront` does a block. */
export function fitUnit(
  plan: PiecingPlan,
  letters: readonly string[],
  width: number,
  height: number,
  most = Infinity,
): Fit {
  const box = boxOf(
    plan.sections.filter(({ letter }) => letters.includes(letter)).flatMap(({ outline }) => outline),
  );
  const scale = Math.min(most, width / (box.maxX - box.minX), height / (box.maxY - box.minY));
  return {
    width: scale * (box.maxX - box.minX),
    height: scale * (box.maxY - box.minY),
    scale,
    place: ([x, y]) => [scale * (x - box.minX), scale * (y - box.minY)],
  };
}

/** All patches with their edges; `fillOf` gives each its colour, or undefined for none. */
export function patchMarks(
  patches: readonly Patch[],
  { place }: Fit,
  fillOf: (patch: Patch) => string | undefined,
  pen: 'patch' | 'picture' = 'patch',
): Mark[] {
  // A patch round an island is filled before the island.
  const inTurn = [...patches].sort((a, b) => b.holes.length - a.holes.length);
  return inTurn.flatMap((patch): Mark[] => {
    const fill = fillOf(patch);
    return [
      {
        kind: 'polygon',
        pen,
        ring: patch.polygon.map(place),
        ...(fill === undefined ? {} : { fill }),
      },
    ];
  });
}

/** The outline of what some patches cover together. */
export const outlineMarks = (
  patches: readonly Patch[],
  { place }: Fit,
  pen: 'frame' | 'rule' | 'picture',
): Mark[] => boundariesOf(patches).map((ring) => ({ kind: 'polygon', pen, ring: ring.map(place) }));

/** Shades that stay apart in print and let black letters be read. */
const SHADES = ['#ffffff', '#dedede', '#c8c8c8', '#efefef', '#b6b6b6'] as const;

/** A light shade for each section, so that neighbours differ wherever five shades suffice. By letter. */
export function sectionShades(plan: PiecingPlan): ReadonlyMap<string, string> {
  const sectionOf = new Map(plan.patches.map(({ id, section }) => [id, section]));
  const beside = new Map<string, Set<string>>(plan.sections.map(({ letter }) => [letter, new Set()]));
  for (const { section, neighbours } of plan.patches)
    for (const id of neighbours) {
      const other = sectionOf.get(id);
      if (other !== undefined && other !== section) beside.get(section)?.add(other);
    }
  const shades = new Map<string, string>();
  for (const { letter } of plan.sections) {
    const taken = new Set([...(beside.get(letter) ?? [])].map((other) => shades.get(other)));
    shades.set(letter, SHADES.find((shade) => !taken.has(shade)) ?? SHADES[0]);
  }
  return shades;
}

/** Front view of the whole block: sections lettered and shaded, joins dashed with their steps beside them. */
export function sectionsDrawing(plan: PiecingPlan, fit: Fit, typeface: Typeface): Mark[] {
  const shades = sectionShades(plan);
  const marks = [
    ...patchMarks(plan.patches, fit, ({ section }) => shades.get(section)),
    ...outlineMarks(plan.patches, fit, 'frame'),
    ...plan.joins.map((join): Mark => joinMark(join, fit)),
    ...startsOf(plan, fit),
  ];
  const letters = lettersOn(
    plan,
    plan.sections.map(({ letter }) => letter),
    fit,
    typeface,
    [18, 14, 11, 9, 7.5, SMALLEST_PT],
  );
  const ground = letters.ground;
  const numbers = plan.joins.flatMap((join): Mark[] => {
    const [a, b] = longest(join.stretches.map(([p, q]): Segment => [fit.place(p), fit.place(q)]));
    const block = stack(typeface, [[String(join.step), 'semibold', 9]]);
    const along = direction([a, b]);
    const tries = [0.5, 0.42, 0.58, 0.33, 0.67, 0.25, 0.75, 0.15, 0.85].flatMap((share) =>
      [0.1, -0.1, 0.14, -0.14].map(
        (off): Try => ({
          block,
          pad: 1 * PT,
          slot: {
            turn: 0,
            at: [
              a[0] + share * (b[0] - a[0]) - off * along[1],
              a[1] + share * (b[1] - a[1]) + off * along[0],
            ],
          },
        }),
      ),
    );
    return taken(tries, ground);
  });
  return [...marks, ...letters.marks, ...numbers];
}

/** Where a paper starts from a finished unit: the edge of that unit, as seams to sew in turn. */
const startsOf = (plan: PiecingPlan, fit: Fit): Mark[] =>
  plan.sections
    .filter(({ startsFrom }) => startsFrom.length > 0)
    .flatMap(({ startsFrom }) =>
      outlineMarks(
        plan.patches.filter(({ section }) => startsFrom.includes(section)),
        fit,
        'picture',
      ),
    );

const joinMark = (join: Join, { place }: Fit): Mark => ({
  kind: 'line',
  pen: 'join',
  points: [join.stretches[0]![0], ...join.stretches.map(([, to]) => to)].map(place),
});

/** The two units of a join in their shades, and the points where pins go first. `fit` is that of the unit it makes. */
export function joinDrawing(plan: PiecingPlan, join: Join, fit: Fit, typeface: Typeface): Mark[] {
  const inUnit = (letters: readonly string[]) =>
    plan.patches.filter(({ section }) => letters.includes(section));
  const [left, right] = [inUnit(join.left), inUnit(join.right)];
  const marks: Mark[] = [
    ...patchMarks(left, fit, () => UNIT_SHADES.left),
    ...patchMarks(right, fit, () => UNIT_SHADES.right),
    ...outlineMarks(left, fit, 'frame'),
    ...outlineMarks(right, fit, 'frame'),
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
  const letters = lettersOn(plan, [...join.left, ...join.right], fit, typeface, sizes, rings);
  const { ground } = letters;
  for (const line of linesOf(marks)) ground.addLine(line);
  // The ends and what must meet are named first; the others where room is left.
  const order = { end: 0, match: 1, junction: 2, guide: 3 } as const;
  const points = [...join.points].sort((a, b) => order[a.kind] - order[b.kind]);
  const labels = points.flatMap((point) => pointLabel(point, fit, ground, typeface));
  return [...marks, ...labels, ...letters.marks];
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
    ...outlineMarks(plan.patches, fit, 'rule'),
    ...patchMarks(base, fit, () => UNIT_SHADES.left),
    ...patchMarks(own, fit, () => undefined),
    ...outlineMarks(base, fit, 'frame'),
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

/** The label of a point beside it, off lines where it can; only ends and match points may lie on a patch's edge. */
function pointLabel(point: RegistrationPoint, { place }: Fit, ground: Ground, typeface: Typeface): Mark[] {
  const at = place(point.at);
  const block = stack(typeface, [[point.label, 'semibold', 6.5]]);
  const tries = [0.1, 0.13, 0.17].flatMap((reach) =>
    Array.from({ length: 16 }, (_, i): Try => {
      const angle = ((i + 0.5) * Math.PI) / 8;
      const x = (reach + block.width / 2 - 0.03) * Math.cos(angle);
      return { block, pad: 0.4 * PT, slot: { turn: 0, at: [at[0] + x, at[1] + reach * Math.sin(angle)] } };
    }),
  );
  return taken(tries, ground, point.kind === 'end' || point.kind === 'match');
}

/** The first try on free ground, or where `mayCross` the one over the fewest lines; it takes its ground. */
function taken(tries: readonly Try[], ground: Ground, mayCross = true): Mark[] {
  const free = tries.find((one) => ground.isFree(boxAround(one)));
  const allowed = free || !mayCross ? [] : tries.filter((one) => ground.isAllowed(boxAround(one)));
  const best =
    free ?? [...allowed].sort((a, b) => ground.linesUnder(boxAround(a)) - ground.linesUnder(boxAround(b)))[0];
  if (!best) return [];
  ground.addLabel(boxAround(best));
  return blockMarks(best.block, best.slot.at, best.slot.turn);
}

/**
 * Letters of some sections, all of one size: the largest at which each has a place off every line, else each where
 * it lies on none but edges of patches. The ground that comes back knows them.
 */
function lettersOn(
  plan: PiecingPlan,
  wanted: readonly string[],
  fit: Fit,
  typeface: Typeface,
  sizes: readonly number[],
  keepOff: readonly Ring[] = [],
): { readonly marks: Mark[]; readonly ground: Ground } {
  const regions = wanted.map((letter) => regionOf(plan, letter, fit.place));
  const patchLines = plan.patches.map(({ polygon }) => polygon.map(fit.place));
  const outlines = [
    ...plan.sections.flatMap(({ letter }) => regionOf(plan, letter, fit.place).rings),
    ...keepOff,
  ];
  const groundOf = (rings: readonly Ring[]): Ground => {
    const ground = new Ground(around(fit));
    for (const ring of rings) for (const side of sidesOf(ring)) ground.addLine(side);
    return ground;
  };
  let best: { found: readonly Try[]; ground: Ground } = { found: [], ground: groundOf(outlines) };
  for (const rings of [[...outlines, ...patchLines], outlines]) {
    for (const size of sizes) {
      const ground = groundOf(rings);
      const found = regions.flatMap(
        (region) => letterSpot(region, size, ground, typeface, 0.2 * size * PT) ?? [],
      );
      if (found.length > best.found.length) best = { found, ground };
      if (found.length === regions.length) break;
    }
    if (best.found.length === regions.length) break;
  }
  return {
    marks: best.found.flatMap(({ block, slot }) => blockMarks(block, slot.at)),
    ground: best.ground,
  };
}

/** Room for labels a little outside the drawing. */
const around = ({ width, height }: Fit) => ({
  minX: -0.25,
  minY: -0.2,
  maxX: width + 0.25,
  maxY: height + 0.2,
});

const sidesOf = (ring: Ring): Segment[] => ring.map((a, i): Segment => [a, ring[(i + 1) % ring.length]!]);

const linesOf = (marks: readonly Mark[]): Segment[] =>
  marks.flatMap((mark): Segment[] => {
    if (mark.kind === 'polygon') return sidesOf(mark.ring);
    if (mark.kind === 'line') return mark.points.slice(1).map((to, i): Segment => [mark.points[i]!, to]);
    return [];
  });

const longest = (segments: readonly Segment[]): Segment =>
  segments.reduce((best, one) => (distance(one[0], one[1]) > distance(best[0], best[1]) ? one : best));

const stretchAt = ({ stretches }: Join, at: Point): Segment =>
  [...stretches].sort(
    (p, q) =>
      distance(p[0], at) +
      distance(at, p[1]) -
      distance(...p) -
      (distance(q[0], at) + distance(at, q[1]) - distance(...q)),
  )[0]!;

function direction([a, b]: Segment): Point {
  const length = distance(a, b);
  return [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
}

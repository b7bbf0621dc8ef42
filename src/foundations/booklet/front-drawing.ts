import { downOf } from '../../document/fabric-picture.ts';
import type { FabricPicture } from '../../document/project.ts';
import { innerSpot } from '../../geometry/inner-spot.ts';
import type { Point, Ring, Segment } from '../../geometry/point.ts';
import { boxOf, cross, distance, signedArea } from '../../geometry/ring.ts';
import type { Join, Patch, PiecingPlan, PointKind, RegistrationPoint } from '../../piecing/plan.ts';
import { boxMeetsSegment, Ground, type LabelBox } from '../foundation/ground.ts';
import { boxAround, SMALLEST_PT, stack, type Try } from '../foundation/label-request.ts';
import { boundariesOf } from '../foundation/regions.ts';
import { type LineMark, type Mark, type Print, PT } from '../marks.ts';
import { letterSpot, regionOf } from '../sheet/front-picture.ts';
import { blockMarks, type TextBlock } from '../type/lettering.ts';
import type { Typeface } from '../type/typeface.ts';

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

/** How a fabric fills a patch: its colour, and the picture of it where there is one. */
export interface FabricFill {
  readonly color: string;
  readonly picture?: FabricPicture;
}

/** A picture of cloth as large as the drawing makes the block, laid from the block's own [0, 0]. */
const printOf = (picture: FabricPicture, { scale, place }: Fit): Print => ({
  data: picture.data,
  at: place([0, 0]),
  width: scale * picture.across,
  height: scale * downOf(picture),
  quarterTurns: 0,
});

/** All patches with their edges; `fillOf` gives each its colour or fabric, or undefined for none. */
export function patchMarks(
  patches: readonly Patch[],
  fit: Fit,
  fillOf: (patch: Patch) => string | FabricFill | undefined,
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
        ring: patch.polygon.map(fit.place),
        ...(fill === undefined ? {} : { fill: typeof fill === 'string' ? fill : fill.color }),
        ...(typeof fill === 'object' && fill.picture ? { print: printOf(fill.picture, fit) } : {}),
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

/** Front view of the whole block: sections lettered and shaded, joins dashed with their steps in them. */
export function sectionsDrawing(plan: PiecingPlan, fit: Fit, typeface: Typeface): Mark[] {
  const shades = sectionShades(plan);
  const letters = lettersOn(
    plan,
    plan.sections.map(({ letter }) => letter),
    fit,
    typeface,
    [18, 14, 11, 9, 7.5, SMALLEST_PT],
  );
  const { ground } = letters;
  const lines = plan.patches.flatMap(({ polygon }) => sidesOf(polygon.map(fit.place)));
  // A short join has the least choice of places.
  const inTurn = [...plan.joins].sort((a, b) => lengthOn(a) - lengthOn(b));
  const joins = inTurn.map((join) => numberedJoin(join, fit, ground, lines, typeface));
  return [
    ...patchMarks(plan.patches, fit, ({ section }) => shades.get(section)),
    ...outlineMarks(plan.patches, fit, 'frame'),
    ...joins.flatMap(({ line }) => line),
    ...startsOf(plan, fit),
    ...letters.marks,
    ...ledLetters(plan, letters.missing, fit, ground, typeface),
    ...joins.flatMap(({ number }) => number),
  ];
}

const lengthOn = ({ stretches }: Join): number =>
  Math.max(...stretches.map((stretch) => distance(...stretch)));

interface NumberedJoin {
  readonly line: readonly Mark[];
  readonly number: readonly Mark[];
}

/** Least radius of the ring round a number, and the space between the two, inches. */
const RING_IN = 0.08;
const RING_PAD_IN = 1.8 * PT;

/**
 * A join as a dashed line, interrupted where its number stands in it, ringed: over as few other lines as can be. A
 * join too short for that has its number beside it.
 */
function numberedJoin(
  join: Join,
  fit: Fit,
  ground: Ground,
  lines: readonly Segment[],
  typeface: Typeface,
): NumberedJoin {
  const stretches = join.stretches.map(([p, q]): Segment => [fit.place(p), fit.place(q)]);
  const own = longest(stretches);
  const [a, b] = own;
  const long = distance(a, b);
  const spot = (share: number): Point => [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])];
  const turn = Math.atan2(b[1] - a[1], b[0] - a[0]);
  const others = lines.filter((line) => !liesOn(line, own));
  let best: { block: TextBlock; box: LabelBox; share: number; crossed: number } | null = null;
  for (const size of [9, 7.5, SMALLEST_PT]) {
    const block = stack(typeface, [[String(join.step), 'semibold', size]]);
    const radius = Math.max((RING_IN * size) / 9, Math.hypot(block.width, block.height) / 2 + RING_PAD_IN);
    // Some of the dashed line must be left on both sides of it.
    const least = (radius + 0.06) / long;
    for (const share of [0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82]) {
      if (Math.min(share, 1 - share) < least) continue;
      const box: LabelBox = { middle: spot(share), halfWidth: radius, halfHeight: radius, turn };
      if (!ground.isAllowed(box)) continue;
      const crossed = others.filter((line) => boxMeetsSegment(box, line)).length;
      if (!best || crossed < best.crossed) best = { block, box, share, crossed };
    }
    // One thin line under a number hides less than a smaller number does.
    if (best && best.crossed <= 1) break;
  }
  const whole = joinMark(join, fit);
  if (!best) return { line: [whole], number: numberBeside(join.step, own, ground, typeface) };
  const { block, box, share } = best;
  ground.addLabel(box);
  const k = stretches.indexOf(own);
  const half = box.halfWidth / long;
  return {
    line: [
      { kind: 'line', pen: 'join', points: [...whole.points.slice(0, k + 1), spot(share - half)] },
      { kind: 'line', pen: 'join', points: [spot(share + half), ...whole.points.slice(k + 1)] },
      { kind: 'circle', pen: 'picture', at: box.middle, radius: box.halfWidth, filled: false },
    ],
    number: blockMarks(block, box.middle),
  };
}

/** Whether a line runs along a stretch. */
const liesOn = ([p, q]: Segment, [a, b]: Segment): boolean =>
  distanceToLine(p, a, b) < 1e-3 && distanceToLine(q, a, b) < 1e-3;

const distanceToLine = (p: Point, a: Point, b: Point): number => Math.abs(cross(a, b, p)) / distance(a, b);

/** The number of a join beside it, as near as there is a place off other labels. */
function numberBeside(step: number, own: Segment, ground: Ground, typeface: Typeface): Mark[] {
  const [a, b] = own;
  const [ux, uy] = direction(own);
  const block = stack(typeface, [[String(step), 'semibold', 7.5]]);
  const tries = [0.5, 0.3, 0.7, 0.1, 0.9].flatMap((share) =>
    [0.09, -0.09, 0.12, -0.12].map(
      (off): Try => ({
        block,
        pad: 0.5 * PT,
        slot: {
          turn: 0,
          at: [a[0] + share * (b[0] - a[0]) - off * uy, a[1] + share * (b[1] - a[1]) + off * ux],
        },
      }),
    ),
  );
  return taken(tries, ground);
}

/** The letters of sections too small to hold them: beside, with a line to a dot in the section. */
function ledLetters(
  plan: PiecingPlan,
  missing: readonly string[],
  fit: Fit,
  ground: Ground,
  typeface: Typeface,
): Mark[] {
  return missing.flatMap((letter): Mark[] => {
    const { areas } = regionOf(plan, letter, fit.place);
    const largest = areas.reduce((best, one) => (areaOf(one.polygon) > areaOf(best.polygon) ? one : best));
    const from = innerSpot(largest);
    const block = stack(typeface, [[letter, 'semibold', SMALLEST_PT]]);
    const tries = [0.14, 0.2, 0.27, 0.35, 0.45, 0.6].flatMap((reach) =>
      Array.from({ length: 16 }, (_, i): Try => {
        const angle = (i * Math.PI) / 8;
        return {
          block,
          pad: 0.8 * PT,
          slot: { turn: 0, at: [from[0] + reach * Math.cos(angle), from[1] + reach * Math.sin(angle)] },
        };
      }),
    );
    const label = taken(
      tries.filter((one) => !ground.crossesLabel([from, one.slot.at])),
      ground,
    );
    const [text] = label;
    if (text?.kind !== 'text') return [];
    const middle: Point = [text.at[0] + text.width / 2, text.at[1] - 0.35 * text.size];
    const long = distance(from, middle);
    const clear = Math.max(0.02, long - 0.07);
    const end: Point = [
      from[0] + (clear / long) * (middle[0] - from[0]),
      from[1] + (clear / long) * (middle[1] - from[1]),
    ];
    return [
      { kind: 'line', pen: 'leader', points: [from, end] },
      { kind: 'circle', pen: 'leader', at: from, radius: 0.9 * PT, filled: true },
      ...label,
    ];
  });
}

const areaOf = (ring: Ring): number => Math.abs(signedArea(ring));

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

const joinMark = (join: Join, { place }: Fit): LineMark => ({
  kind: 'line',
  pen: 'join',
  points: [join.stretches[0]![0], ...join.stretches.map(([, to]) => to)].map(place),
});

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
 * Letters of some sections: all of one size, the largest at which each has a place off every line, else each as
 * large as its section allows, with `mayCross` over edges of patches where there is no other place. The ground that
 * comes back knows them and every line; `missing` found no place.
 */
function lettersOn(
  plan: PiecingPlan,
  wanted: readonly string[],
  fit: Fit,
  typeface: Typeface,
  sizes: readonly number[],
  keepOff: readonly Ring[] = [],
  mayCross = true,
): { readonly marks: Mark[]; readonly ground: Ground; readonly missing: readonly string[] } {
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
  const allLines = [...outlines, ...patchLines];
  const pad = (size: number): number => 0.2 * size * PT;
  for (const size of sizes.filter((one) => one >= LEAST_ALIKE_PT)) {
    const ground = groundOf(allLines);
    const found = regions.flatMap((region) => letterSpot(region, size, ground, typeface, pad(size)) ?? []);
    if (found.length > best.found.length) best = { found, ground };
    if (found.length === regions.length) break;
  }
  if (best.found.length < regions.length) {
    // Each as large as its own section allows; where none is large enough off the lines, over edges of patches.
    const ground = groundOf(allLines);
    const over = groundOf(outlines);
    const found = regions.flatMap((region): readonly Try[] => {
      for (const [place, largest] of [
        [ground, MOST_UNLIKE_PT] as const,
        ...(mayCross ? [[over, LEAST_ALIKE_PT] as const] : []),
      ])
        for (const size of sizes) {
          if (size > largest) continue;
          const one = letterSpot(region, size, place, typeface, pad(size));
          if (!one) continue;
          (place === ground ? over : ground).addLabel(boxAround(one));
          return [one];
        }
      return [];
    });
    best = { found, ground };
  }
  return {
    marks: best.found.flatMap(({ block, slot }) => blockMarks(block, slot.at)),
    ground: best.ground,
    missing: wanted.filter((letter) => !best.found.some(({ block }) => block.lines[0]?.text === letter)),
  };
}

/** In the drawing of a join of more sections than this no letter lies over the edge of a patch. */
const MOST_OVER_LINES = 4;

/** Letters of one drawing are alike down to this size, in points; below, each is as large as its section allows. */
const LEAST_ALIKE_PT = 9;
const MOST_UNLIKE_PT = 12;

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

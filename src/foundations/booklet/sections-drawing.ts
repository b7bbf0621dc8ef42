import { innerSpot } from '../../geometry/inner-spot.ts';
import type { Point, Ring, Segment } from '../../geometry/point.ts';
import { cross, distance, signedArea } from '../../geometry/ring.ts';
import type { Join, PiecingPlan } from '../../piecing/plan.ts';
import { boxMeetsSegment, type Ground, type LabelBox } from '../foundation/ground.ts';
import { SMALLEST_PT, stack, type Try } from '../foundation/label-request.ts';
import { type Mark, PT } from '../marks.ts';
import { regionOf } from '../sheet/front-picture.ts';
import { blockMarks, type TextBlock } from '../type/lettering.ts';
import type { Typeface } from '../type/typeface.ts';
import type { Fit } from './fit.ts';
import { direction, joinMark, lettersOn, sidesOf, taken } from './front-letters.ts';
import { outlineMarks, patchMarks, sectionShades } from './patch-marks.ts';

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
    ...outlineMarks(plan, plan.patches, fit, 'frame'),
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
        plan,
        plan.patches.filter(({ section }) => startsFrom.includes(section)),
        fit,
        'picture',
      ),
    );

const longest = (segments: readonly Segment[]): Segment =>
  segments.reduce((best, one) => (distance(one[0], one[1]) > distance(best[0], best[1]) ? one : best));

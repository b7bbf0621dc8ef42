import type { Point, Ring, Segment } from '../../geometry/point.ts';
import { distance } from '../../geometry/ring.ts';
import type { Join, PiecingPlan } from '../../piecing/plan.ts';
import { Ground } from '../foundation/ground.ts';
import { boxAround, type Try } from '../foundation/label-request.ts';
import { type LineMark, type Mark, PT } from '../marks.ts';
import { letterSpot, regionOf } from '../sheet/front-picture.ts';
import { blockMarks } from '../type/lettering.ts';
import type { Typeface } from '../type/typeface.ts';
import type { Fit } from './fit.ts';

export const joinMark = (join: Join, { place }: Fit): LineMark => ({
  kind: 'line',
  pen: 'join',
  points: [join.stretches[0]![0], ...join.stretches.map(([, to]) => to)].map(place),
});

/** The first try on free ground, or where `mayCross` the one over the fewest lines; it takes its ground. */
export function taken(tries: readonly Try[], ground: Ground, mayCross = true): Mark[] {
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
export function lettersOn(
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
export const MOST_OVER_LINES = 4;

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

export const sidesOf = (ring: Ring): Segment[] =>
  ring.map((a, i): Segment => [a, ring[(i + 1) % ring.length]!]);

export const linesOf = (marks: readonly Mark[]): Segment[] =>
  marks.flatMap((mark): Segment[] => {
    if (mark.kind === 'polygon') return sidesOf(mark.ring);
    if (mark.kind === 'line') return mark.points.slice(1).map((to, i): Segment => [mark.points[i]!, to]);
    return [];
  });

export function direction([a, b]: Segment): Point {
  const length = distance(a, b);
  return [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
}

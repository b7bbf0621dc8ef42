import { type Area, holdsPoint } from '../../geometry/inner-spot.ts';
import type { Point, Ring } from '../../geometry/point.ts';
import { boxOf } from '../../geometry/ring.ts';
import type { Patch, PiecingPlan } from '../../piecing/plan.ts';
import { Ground } from '../foundation/ground.ts';
import { boxAround, SMALLEST_PT, stack, type Try } from '../foundation/label-request.ts';
import { spotsOver } from '../foundation/patch-labels.ts';
import { boundariesOf } from '../foundation/regions.ts';
import { type Mark, PT } from '../marks.ts';
import { blockMarks } from '../type/lettering.ts';
import type { Typeface } from '../type/typeface.ts';

/**
 * The small front view: the finished block as it is seen, not mirrored, its sections outlined and lettered.
 * Fitted into `width` × `height` inches from the upper left corner, in the middle of its foot. A section too
 * small for a letter of 6 pt has none.
 */
export function frontPicture(plan: PiecingPlan, width: number, height: number, typeface: Typeface): Mark[] {
  const box = boxOf(plan.sections.flatMap((section) => section.outline));
  const scale = Math.min(width / (box.maxX - box.minX), height / (box.maxY - box.minY));
  const left = (width - scale * (box.maxX - box.minX)) / 2;
  const top = height - scale * (box.maxY - box.minY);
  const place = ([x, y]: Point): Point => [left + scale * (x - box.minX), top + scale * (y - box.minY)];
  const marks: Mark[] = plan.patches.map((patch) => ({
    kind: 'polygon',
    pen: 'rule',
    ring: patch.polygon.map(place),
  }));
  const regions = plan.sections.map(({ letter }) => regionOf(plan, letter, place));
  const outlines = regions.flatMap(({ rings }) => rings);
  marks.push(...outlines.map((ring): Mark => ({ kind: 'polygon', pen: 'picture', ring })));
  return [...marks, ...letters(regions, outlines, typeface)];
}

/** What a section's own patches cover, in a drawing. */
export function regionOf(plan: PiecingPlan, letter: string, place: (point: Point) => Point): Region {
  const { patches, boundaries } = sectionOf(plan, letter);
  const rings = boundaries.map((ring) => ring.map(place));
  return {
    letter,
    rings,
    wholes: rings.map((polygon) => ({ polygon, holes: [] })),
    areas: patches.map(({ polygon, holes }) => ({
      polygon: polygon.map(place),
      holes: holes.map((hole) => hole.map(place)),
    })),
  };
}

interface OwnPatches {
  readonly patches: readonly Patch[];
  readonly boundaries: readonly Ring[];
}

const sectionsOf = new WeakMap<PiecingPlan, Map<string, OwnPatches>>();

/** A section's own patches, and what bounds them: looked for once a plan, since every drawing of it needs them all. */
function sectionOf(plan: PiecingPlan, letter: string): OwnPatches {
  const sections = sectionsOf.get(plan) ?? new Map<string, OwnPatches>();
  sectionsOf.set(plan, sections);
  const known = sections.get(letter);
  if (known) return known;
  const patches = plan.patches.filter(({ section }) => section === letter);
  const made = { patches, boundaries: boundariesOf(plan, patches) };
  sections.set(letter, made);
  return made;
}

/** What a section's own patches cover. */
export interface Region {
  readonly letter: string;
  readonly rings: readonly Ring[];
  /** What each ring bounds, islands and all. */
  readonly wholes: readonly Area[];
  readonly areas: readonly Area[];
}

/** Section letters, all of one size: the largest at which every section has room, else the smallest where it has. */
function letters(regions: readonly Region[], outlines: readonly Ring[], typeface: Typeface): Mark[] {
  let found: Try[] = [];
  for (const size of [11, 9, 7.5, SMALLEST_PT]) {
    const ground = new Ground(boxOf(outlines.flat()));
    for (const ring of outlines)
      ring.forEach((point, i) => {
        ground.addLine([point, ring[(i + 1) % ring.length]!]);
      });
    found = regions.flatMap((region) => letterSpot(region, size, ground, typeface) ?? []);
    if (found.length === regions.length) break;
  }
  return found.flatMap(({ block, slot }) => blockMarks(block, slot.at));
}

/** A free place for the letter of a section, taken on the ground; null where there is none. Size in points, clear space in inches. */
export function letterSpot(
  { letter, wholes, areas }: Region,
  size: number,
  ground: Ground,
  typeface: Typeface,
  pad = 0.6 * PT,
): Try | null {
  const block = stack(typeface, [[letter, 'semibold', size]]);
  for (const whole of wholes) {
    for (const at of spotsOver(whole, block)) {
      const one: Try = { block, slot: { at, turn: 0 }, pad };
      if (!areas.some((area) => holdsPoint(area, at)) || !ground.isFree(boxAround(one))) continue;
      ground.addLabel(boxAround(one));
      return one;
    }
  }
  return null;
}

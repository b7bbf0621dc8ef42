import { downOf } from '../../document/fabric-picture.ts';
import type { FabricPicture } from '../../document/project.ts';
import type { Patch, PiecingPlan } from '../../piecing/plan.ts';
import { boundariesOf } from '../foundation/regions.ts';
import type { Mark, Print } from '../marks.ts';
import type { Fit } from './fit.ts';

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
  plan: PiecingPlan,
  patches: readonly Patch[],
  { place }: Fit,
  pen: 'frame' | 'rule' | 'picture',
): Mark[] => boundariesOf(plan, patches).map((ring) => ({ kind: 'polygon', pen, ring: ring.map(place) }));

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

import { trimLine } from '../../foundations/foundation/allowance.ts';
import { cutAway, isOnOneSide } from '../../geometry/fold.ts';
import { STRAIGHT_IN } from '../../geometry/lattice.ts';
import type { Ring } from '../../geometry/point.ts';
import { centroid } from '../../geometry/ring.ts';
import type { Patch, PiecingPlan } from '../../piecing/plan.ts';

/** The fabric that lies on one paper after some of its positions are sewn. */
export interface Cloth {
  readonly patch: Patch;
  /** What is seen of it from the front; newer ones lie on top. Inches. */
  readonly ring: Ring;
}

/**
 * The pieces of fabric on a paper, the first sewn first: each reaches twice the allowance past its patch, ends at the
 * seam it is folded over, and is trimmed to the allowance along every seam up to and with position `trimmedTo`.
 */
export function clothOn(
  { patches: all }: Pick<PiecingPlan, 'patches'>,
  lying: readonly Patch[],
  trimmedTo: number,
  allowance: number,
): readonly Cloth[] {
  return lying.map((patch) => {
    const later = all.filter(
      ({ section, position }) =>
        section === patch.section && position > patch.position && position <= trimmedTo,
    );
    let ring = roughCut(patch, allowance);
    const keep = centroid(patch.polygon);
    if (patch.seam && isOnOneSide(patch.polygon, patch.seam, STRAIGHT_IN))
      ring = cutAway(ring, patch.seam, keep, 0);
    for (const { seam, neighbours } of later) {
      if (seam && neighbours.includes(patch.id) && isOnOneSide(patch.polygon, seam, STRAIGHT_IN))
        ring = cutAway(ring, seam, keep, allowance);
    }
    return { patch, ring };
  });
}

/** A piece of fabric as it is laid: generous by twice the allowance, but only the allowance past its own seam. */
export function laidCloth(patch: Patch, allowance: number): Ring {
  const rough = roughCut(patch, allowance);
  return patch.seam && isOnOneSide(patch.polygon, patch.seam, STRAIGHT_IN)
    ? cutAway(rough, patch.seam, centroid(patch.polygon), allowance)
    : rough;
}

const known = new WeakMap<Ring, { readonly allowance: number; readonly ring: Ring }>();

function roughCut({ polygon }: Patch, allowance: number): Ring {
  const made = known.get(polygon);
  if (made?.allowance === allowance) return made.ring;
  const ring = trimLine(polygon, 2 * allowance);
  known.set(polygon, { allowance, ring });
  return ring;
}

import { chordsOf, type Parting, partAlong } from './partings.ts';
import type { Pattern } from './pattern.ts';
import { knotOf } from './peel.ts';
import { maskOf, type Region } from './region.ts';

/**
 * The rings of a region: groups of cells that straight seams cannot take further apart, counted up to `enough`; none
 * exactly when straight joins alone sew it. Any straight seam may be taken first: a line that parts the whole parts
 * each half it runs through, so that no choice can spoil a later one, and the rings are the same whichever was made.
 */
export function ringsOf(pattern: Pattern, region: Region, enough = Number.POSITIVE_INFINITY): Region[] {
  const waiting = [region];
  const rings: Region[] = [];
  while (waiting.length > 0 && rings.length < enough) {
    // A patch that can come off last comes off along a straight seam as well.
    const held = knotOf(pattern, waiting.pop()!);
    if (held.length <= 1) continue;
    const knot = maskOf(pattern, held);
    const parting = firstParting(pattern, knot);
    if (parting) waiting.push(parting.left, parting.right);
    else rings.push(knot);
  }
  return rings;
}

function firstParting(pattern: Pattern, region: Region): Parting | null {
  // Only where the region lies round something a chord may not part it.
  for (const most of [1, Number.POSITIVE_INFINITY])
    for (const chord of chordsOf(pattern, region, most)) {
      const parting = partAlong(pattern, region, chord);
      if (parting) return parting;
    }
  return null;
}

import { type Area, holdsPoint } from '../geometry/inner-spot.ts';
import type { Segment } from '../geometry/point.ts';
import { distance } from '../geometry/ring.ts';
import { along, edgesOf, meeting } from '../geometry/segments.ts';

/** How far past its start a line is looked at to tell which patch it starts in, inches. */
const STEP_IN = 1 / 100;

/**
 * The part of a line that lies in the patch where it starts: up to where it first leaves it. The line itself when
 * it ends before that, or starts in no patch. Inches.
 */
export function inFirstPatch(patches: readonly Area[], line: Segment): Segment {
  const length = distance(...line);
  if (length === 0) return line;
  const inside = along(line, Math.min(0.5, STEP_IN / length));
  const patch = patches.find((one) => holdsPoint(one, inside));
  if (patch === undefined) return line;
  let leaves = 1;
  for (const edge of [patch.polygon, ...patch.holes].flatMap(edgesOf)) {
    const met = meeting(line, edge);
    if (met !== null && met.onLine > STEP_IN / 2 / length && met.onLine < leaves) leaves = met.onLine;
  }
  return leaves === 1 ? line : [line[0], along(line, leaves)];
}

import type { Unit } from '../../document/project.ts';
import { formatLength } from '../../geometry/length.ts';
import type { Segment } from '../../geometry/point.ts';
import { distance } from '../../geometry/ring.ts';

/** The length of stretches together, as near as a ruler is read: to the nearest 16th of an inch, or 0.1 mm. */
export function lengthOf(stretches: readonly Segment[], unit: Unit): string {
  const inches = stretches.reduce((sum, [from, to]) => sum + distance(from, to), 0);
  return formatLength(unit === 'in' ? Math.round(inches * 16) / 16 : inches, unit);
}

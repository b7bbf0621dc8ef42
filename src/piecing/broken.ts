import { MAX_COORDINATE_IN } from '../geometry/lattice.ts';
import type { OutlineFault } from '../geometry/outline.ts';
import type { Point } from '../geometry/point.ts';
import { phrase } from '../words/phrase.ts';
import type { PiecingPlan } from './plan.ts';

/** The plan of a block that has no usable outline or division: nothing but the reason. */
export function brokenPlan(code: string, at: Point, message: string): PiecingPlan {
  return {
    verdict: 'broken',
    fewest: false,
    patches: [],
    sections: [],
    joins: [],
    edges: [],
    findings: [{ code, severity: 'trouble', at, patches: [], cuts: [], message, stretches: [] }],
  };
}

export function outlineMessage(fault: OutlineFault): string {
  switch (fault.kind) {
    case 'too-few-corners':
      return phrase('The outline needs at least three corners.');
    case 'no-area':
      return phrase('The outline encloses nothing: its corners lie on one line.');
    case 'not-a-number':
      return phrase('Corner {corner} of the outline is not a number.', { corner: fault.corner + 1 });
    case 'too-far':
      return phrase('Corner {corner} of the outline is farther out than {maxCoordinate, number} in.', {
        corner: fault.corner + 1,
        maxCoordinate: MAX_COORDINATE_IN,
      });
    case 'too-close':
      return phrase('Corner {corner} of the outline and the one after it are one spot.', {
        corner: fault.corner + 1,
      });
    case 'crosses-itself':
      return phrase(
        'The outline crosses or touches itself: the side from corner {corner} meets the side from corner {other}.',
        { corner: fault.corner + 1, other: fault.other + 1 },
      );
  }
}

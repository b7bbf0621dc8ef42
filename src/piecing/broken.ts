import { MAX_COORDINATE_IN } from '../geometry/lattice.ts';
import type { OutlineFault } from '../geometry/outline.ts';
import type { Point } from '../geometry/point.ts';
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
      return 'The outline needs at least three corners.';
    case 'no-area':
      return 'The outline encloses nothing: its corners lie on one line.';
    case 'not-a-number':
      return `Corner ${fault.corner + 1} of the outline is not a number.`;
    case 'too-far':
      return `Corner ${fault.corner + 1} of the outline is farther out than ${MAX_COORDINATE_IN.toLocaleString('en')} in.`;
    case 'too-close':
      return `Corner ${fault.corner + 1} of the outline and the one after it are one spot.`;
    case 'crosses-itself':
      return `The outline crosses or touches itself: the side from corner ${fault.corner + 1} meets the side from corner ${fault.other + 1}.`;
  }
}

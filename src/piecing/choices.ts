import { STRAIGHT_IN } from '../geometry/lattice.ts';
import type { Wish } from './assembly.ts';
import type { PlanChoice } from './block.ts';
import type { Chord } from './partings.ts';
import type { Pattern } from './pattern.ts';

/** What the search is asked to wish for, for each plan there is to choose from. */
export function wishFor(choice: PlanChoice, pattern: Pattern): Wish {
  switch (choice) {
    case 'fewest':
    case 'partial-seams':
      return {};
    case 'rows':
      return { dislike: (chord) => (runs(pattern, chord, 1) ? 0 : 1) };
    case 'columns':
      return { dislike: (chord) => (runs(pattern, chord, 0) ? 0 : 1) };
    case 'least-matching':
      return { dislike: (_, parting) => parting.meetings };
    case 'unit-first':
      return { allowsUnitFirst: true };
  }
}

/** Does a chord keep to one value of x (0) or y (1) from end to end? */
function runs(pattern: Pattern, { edges }: Chord, axis: 0 | 1): boolean {
  const { origin, vertices } = pattern.division;
  const a = vertices[origin[edges[0]!]!]!;
  const b = vertices[origin[edges.at(-1)! ^ 1]!]!;
  return Math.abs(a[axis] - b[axis]) <= STRAIGHT_IN;
}

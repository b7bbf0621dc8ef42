import type { Unit } from '../../document/project.ts';
import type { Snap } from '../../editing/snapping.ts';
import { type Typed, typedEnd } from '../../editing/typing.ts';
import type { Point } from '../../geometry/point.ts';
import type { Mark } from './tool.ts';

/** Where the next point of what is drawn comes to lie. */
export interface Entry {
  /** What the pointer is caught by, or what was typed. */
  readonly to: Snap;
  /** Where the pointer is, for what is not typed. */
  readonly aim: Snap;
  readonly typed: Typed | null;
  /** Why what is typed cannot be used, as yet; the point then stays where it was. */
  readonly error: string | null;
}

/** An entry by the pointer alone. */
export const aimed = (aim: Snap): Entry => ({ to: aim, aim, typed: null, error: null });

/** The entry with what is typed now and where the pointer aims now; a length and an angle go from `from`, inches. */
export function entered(before: Entry, typed: Typed | null, from: Point, aim: Snap, unit: Unit): Entry {
  if (typed === null) return aimed(aim);
  const end = typedEnd(typed, from, aim.at, unit);
  return end.ok
    ? { aim, typed, to: { kind: 'typed', at: end.at }, error: null }
    : { ...before, aim, typed, error: end.error };
}

/** What catches the pointer, or what is typed, at the place of an entry. */
export const typedMarks = ({ to, typed, error }: Entry): readonly Mark[] =>
  typed === null ? [{ kind: 'snap', snap: to }] : [{ kind: 'typed', at: to.at, typed, error }];

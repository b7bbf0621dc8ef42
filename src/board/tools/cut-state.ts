import type { Snap } from '../../editing/snapping.ts';
import type { Point } from '../../geometry/point.ts';
import { aimed, type Entry, entered } from './entry.ts';
import { type Surroundings, stepTo } from './tool.ts';

/**
 * Draws cuts, both ways: press, drag, release; or click, click. A cut that ends in the open goes on from there
 * with the next click; one that ends on something is finished. While it runs, its length and angle can be typed, and
 * before that the place where it starts.
 */
export type CutState =
  | { readonly kind: 'idle'; readonly near: Snap | null }
  /** The place of its start is being typed. */
  | (Entry & { readonly kind: 'starting' })
  /** Pressed on the start; not yet known whether this is a drag or a click. */
  | { readonly kind: 'pressed'; readonly from: Snap; readonly at: Point }
  | (Running & { readonly kind: 'dragging' })
  /** Start clicked; the end follows the pointer. */
  | (Running & { readonly kind: 'placing' })
  /** Pressed on the end of a cut that was begun with a click. */
  | (Running & { readonly kind: 'ending' });

export interface Running extends Entry {
  readonly from: Snap;
}

export const IDLE: CutState = { kind: 'idle', near: null };

export const cancelled = stepTo<CutState>(IDLE, { kind: 'cancel-preview' });
export type In<Kind extends CutState['kind']> = Extract<CutState, { readonly kind: Kind }>;
export type RunningState = In<'dragging' | 'placing' | 'ending'>;

export const isRunning = (state: CutState): state is RunningState => 'from' in state && 'typed' in state;

/** The state with its end where the pointer aims, or where what is typed puts it. */
export const withEnd = <State extends RunningState>(
  state: State,
  aim: Snap,
  { project }: Surroundings,
): State => ({
  ...state,
  ...entered(state, state.typed, state.from.at, aim, project.unit),
});

export const running = <Kind extends RunningState['kind']>(kind: Kind, from: Snap, to: Snap) => ({
  kind,
  from,
  ...aimed(to),
});

import type { Unit } from '../../document/project.ts';
import type { FrameHandle, SizeHandle, Sizing } from '../../editing/frame.ts';
import type { Hit } from '../../editing/hit.ts';
import type { Snap, SnapField } from '../../editing/snapping.ts';
import type { Point, Segment } from '../../geometry/point.ts';
import type { Box } from '../../geometry/ring.ts';

/**
 * Chooses cuts, ends, corners, edges and patches, and moves what is chosen. A box drawn to the right takes the cuts
 * that lie in it whole, one drawn to the left all that it touches. Every move starts from the recorded block.
 */
export type SelectState =
  /** `twins`: the cuts that are images of the one under the pointer, itself first. */
  | {
      readonly kind: 'idle';
      readonly over: Hit;
      readonly at: Point | null;
      readonly twins?: readonly string[];
      /** The handle of the frame under the pointer, which comes before what lies there. */
      readonly handle?: FrameHandle;
    }
  /** Pressed on something; `kept` when it was chosen already, so that a click with Shift takes it out. */
  | {
      readonly kind: 'pressed';
      readonly hit: Hit;
      readonly start: Point;
      readonly kept: boolean;
      readonly field: SnapField;
    }
  | {
      readonly kind: 'moving-end';
      readonly cut: string;
      readonly end: 'from' | 'to';
      /** The other end, which stays. */
      readonly held: Point;
      /** The end leaves its joint. */
      readonly alone: boolean;
      readonly to: Snap;
      readonly field: SnapField;
    }
  | {
      readonly kind: 'moving-corner';
      readonly corner: number;
      /** The corner before it, which stays. */
      readonly held: Point;
      readonly to: Snap;
      readonly field: SnapField;
    }
  | {
      readonly kind: 'moving-cuts';
      readonly cuts: readonly string[];
      readonly start: Point;
      readonly anchors: readonly Point[];
      readonly by: Point;
      readonly at: Snap;
      readonly field: SnapField;
    }
  | {
      readonly kind: 'moving-edge';
      readonly edge: number;
      readonly start: Point;
      /** Its two corners, the one nearer to the pointer first: its place is told beside it. */
      readonly anchors: Segment;
      readonly by: Point;
      readonly at: Snap;
      readonly field: SnapField;
    }
  /** What is chosen turned about its middle. */
  | {
      readonly kind: 'turning';
      readonly cuts: readonly string[];
      readonly about: Point;
      readonly start: Point;
      readonly pointer: Point;
      readonly degrees: number;
    }
  /** What is chosen sized by a handle of its frame. */
  | {
      readonly kind: 'sizing';
      readonly cuts: readonly string[];
      readonly box: Box;
      readonly side: SizeHandle;
      readonly start: Point;
      readonly sizing: Sizing;
      readonly unit: Unit;
      readonly field: SnapField;
    }
  /** A box drawn from empty ground or a patch; `before` is what stays chosen with Shift. */
  | {
      readonly kind: 'boxing';
      readonly from: Point;
      readonly to: Point;
      readonly before: readonly string[];
    };

export type In<Kind extends SelectState['kind']> = Extract<SelectState, { readonly kind: Kind }>;

export type Moving = In<
  'moving-end' | 'moving-corner' | 'moving-cuts' | 'moving-edge' | 'turning' | 'sizing'
>;

export const NOTHING: Hit = { kind: 'nothing' };
export const IDLE: SelectState = { kind: 'idle', over: NOTHING, at: null };

/** A box drawn to the left takes all it touches. */
export const isTouching = ({ from, to }: In<'boxing'>): boolean => to[0] < from[0];

import type { Point, Ring, Segment } from '../geometry/point.ts';
import type { Cut, PatchEntry, PlanChoice } from '../piecing/block.ts';

/**
 * What has been taken into work. It keeps the drawings and plans that its papers were made from, so that no later edit,
 * and no later version of the search, changes a paper that lies on someone's table. What is done is never taken back by
 * undoing a drawing.
 */
export interface Work {
  readonly blocks: readonly WorkBlock[];
  readonly rounds: readonly WorkRound[];
  /** How many positions of each paper are sewn, by its id `b1/A/2`; a paper not begun is left out. */
  readonly sewn: Readonly<Record<string, number>>;
  /** How many joining steps are done, by block and copy: `b1/2`. */
  readonly joined: Readonly<Record<string, number>>;
  /** Blocks and copies that are trimmed: `b1/2`. */
  readonly trimmed: readonly string[];
  /** What is ticked besides the sewing, see `FollowedStage`; nothing when absent. */
  readonly stages?: readonly FollowedStage[];
  /** How far the last take of a paper has come, where it is sewn but a later stage is still to be ticked. */
  readonly partly?: Readonly<Record<string, PaperStage>>;
  /** Rounds, from 0, of which all pieces are cut. */
  readonly cut?: readonly number[];
  /** Papers that make a comfortable pile; a round is one pile when absent. */
  readonly pile?: number;
  /** Patches sewn on each day, `2026-05-09`. */
  readonly days?: Readonly<Record<string, number>>;
  /** What the timer has seen: seconds at the machine, and patches sewn in them. */
  readonly time?: { readonly seconds: number; readonly patches: number };
  readonly quilt?: WorkQuilt;
}

/** What can be ticked for a patch beside its sewing, in the order it is done: cut before, trimmed and pressed after. */
export type FollowedStage = 'cut' | 'trimmed' | 'pressed';

/** What is done last to the patches that a paper took. */
export type PaperStage = 'sewn' | 'trimmed';

/** How the finished blocks are joined into the quilt, once for each quilt that is made. */
export interface WorkQuilt {
  readonly copies: number;
  /** In reading order; `number` is printed on the map. Plain pieces name no block. */
  readonly places: readonly { readonly id: string; readonly number: number; readonly block?: string }[];
  /** Each joins two units, which are lists of places. */
  readonly steps: readonly WorkStep[];
  /** Steps done, by their numbers from 0, for each quilt. */
  readonly done: readonly (readonly number[])[];
}

export interface WorkStep {
  readonly left: readonly string[];
  readonly right: readonly string[];
  /** Inches. */
  readonly length: number;
  readonly kind: string;
  /** Spots to pin, and how many of them are where seams of both sides meet. */
  readonly pins: number;
  readonly matches: number;
}

/** A block as it was when it was taken into work. */
export interface WorkBlock {
  readonly id: string;
  readonly name: string;
  readonly copies: number;
  readonly outline: Ring;
  readonly patches: readonly WorkPatch[];
  readonly sections: readonly WorkSection[];
  /** In the order they are sewn. */
  readonly joins: readonly WorkJoin[];
  /** The drawing itself, so that a paper that is lost can be printed again as it was. */
  readonly drawing?: WorkDrawing;
}

/** Of a block what its plan hangs on, beside its outline. */
export interface WorkDrawing {
  readonly cuts: readonly Cut[];
  readonly patches: readonly PatchEntry[];
  readonly plan?: PlanChoice;
  readonly orders?: readonly (readonly string[])[];
}

export interface WorkPatch {
  /** As printed: `A1`. */
  readonly id: string;
  readonly fabric?: string;
  readonly polygon: Ring;
  /** What is cut for it. */
  readonly cut?: WorkCut;
}

/** A piece of cloth as it is cut, inches; `kind` says how many patches one cut serves. */
export interface WorkCut {
  readonly kind: 'rectangle' | 'half-square' | 'quarter-square' | 'half-rectangle';
  readonly width: number;
  readonly height: number;
}

export interface WorkSection {
  readonly letter: string;
  /** The letter on papers that were printed before the drawing was changed, where it is another. */
  readonly printedAs?: string;
  readonly stamp: string;
  readonly outline: Ring;
  /** Ids of its patches as they are sewn. */
  readonly order: readonly string[];
  /** Letters of the finished unit it starts from; absent where position 1 is a patch. */
  readonly startsFrom?: readonly string[];
}

export interface WorkJoin {
  readonly left: readonly string[];
  readonly right: readonly string[];
  readonly seam: Segment;
  readonly kind: string;
  readonly points: readonly { readonly label: string; readonly at: Point }[];
}

/** One fabric worked through every paper that takes it. */
export interface WorkRound {
  /** Absent for patches without a fabric. */
  readonly fabric?: string;
  readonly takes: readonly WorkTake[];
  /** Where papers were taken into work so many at a time: which batch it belongs to, from 1. */
  readonly batch?: number;
}

/** What a paper takes in a round. */
export interface WorkTake {
  readonly paper: string;
  /** As printed, in the order they are sewn. */
  readonly patches: readonly string[];
}

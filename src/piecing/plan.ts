import type { Point, Ring, Segment } from '../geometry/point.ts';

/**
 * The piecing plan: what `piece` answers about a block. Plain data (it is printed as JSON as it is), inches,
 * y down, front view. Everything later takes this and re-derives nothing from coordinates.
 */
export interface PiecingPlan {
  readonly verdict: Verdict;
  /** True when the number of foundations is proven to be the fewest that straight joins allow. */
  readonly fewest: boolean;
  /** In the order of sections, then of position. */
  readonly patches: readonly Patch[];
  /** In letter order. */
  readonly sections: readonly Section[];
  /** In sewing order: every unit a join needs is made by an earlier step. */
  readonly joins: readonly Join[];
  /** Every edge of the drawing once, in the order in which they begin, as one reads. */
  readonly edges: readonly Edge[];
  readonly findings: readonly Finding[];
}

/** All of a plan that is sewn by: what a plan is without its findings. */
export type SewingPlan = Omit<PiecingPlan, 'findings'>;

/**
 * - `undivided`: one patch, nothing to sew.
 * - `one-foundation`: all patches in one numbered order on one paper.
 * - `several-foundations`: several papers, every join one straight seam.
 * - `partial-seams`: every seam straight, and at least one sewn in two goes.
 * - `set-in-seams`: at least one join turns a corner.
 * - `broken`: no usable outline; `findings` says why, and there are no patches.
 */
export type Verdict =
  | 'undivided'
  | 'one-foundation'
  | 'several-foundations'
  | 'partial-seams'
  | 'set-in-seams'
  | 'broken';

export interface Patch {
  /** What it is known by through edits, unique in its block: the id of its entry, or one made from its shape. */
  readonly key: string;
  /** Section letter and position, as printed: `A1`. */
  readonly id: string;
  readonly section: string;
  /** 1, 2, 3 … in the piecing order of its foundation. */
  readonly position: number;
  /**
   * Corners and T-junctions in turn, open ring, shoelace area positive. Neighbours share vertices exactly:
   * every edge of an inner line stands in two patches with the same two end points.
   */
  readonly polygon: Ring;
  /** Outlines of islands inside the patch, each open, turning the other way. Almost always empty. */
  readonly holes: readonly Ring[];
  /** Fabric id, or null while unpainted. */
  readonly fabric: string | null;
  /** The straight stretch it is sewn along to the earlier positions; null for a patch at position 1. */
  readonly seam: Segment | null;
  /** Ids of all patches it shares an edge with, in its block. */
  readonly neighbours: readonly string[];
}

/**
 * A straight edge between two corners of patches: what patches, sections and joins share, without a look at
 * coordinates. Its ends are the very corners that the polygons beside it have.
 */
export interface Edge {
  /** It runs rightwards, or downwards when upright. */
  readonly from: Point;
  readonly to: Point;
  /** Id of the patch on the right of who walks along it, seen from the front; null outside the block. */
  readonly right: string | null;
  readonly left: string | null;
  /** Id of the cut it lies on; null where it is part of the outline. */
  readonly line: string | null;
}

export interface Section {
  /** What it is known by through edits: made from the keys of its patches, in whatever order they are sewn. */
  readonly key: string;
  /** A, B, … Z, AA, AB … */
  readonly letter: string;
  /**
   * Short code of its shape and its order, as printed. The same wherever it lies in its block, whatever its letter:
   * papers with one stamp are alike but for their labels and fabrics.
   */
  readonly stamp: string;
  /** Outer boundary, corners and T-junctions, open ring, shoelace area positive. */
  readonly outline: Ring;
  /** Outlines of what the section surrounds without holding it. Almost always empty. */
  readonly holes: readonly Ring[];
  /**
   * Letters of the finished unit that serves as position 1 of this paper; its own patches then start at position 2.
   * Empty where position 1 is a patch. The outline takes in the unit.
   */
  readonly startsFrom: readonly string[];
  /** Ids of its patches, the lowest position first. */
  readonly order: readonly string[];
}

export interface Join {
  /** 1, 2, 3 … */
  readonly step: number;
  /** Letters of every section of the unit on one side. */
  readonly left: readonly string[];
  readonly right: readonly string[];
  /** The two ends of the seam. */
  readonly seam: Segment;
  /** `partial`: it closes a ring. It is sewn straight, then the rest of a seam begun earlier, which it meets, is finished. */
  readonly kind: 'straight' | 'partial' | 'set-in';
  /** Of a partial join: the step whose seam it finishes, and the rest of that seam, one of its two stretches. */
  readonly finishes?: { readonly step: number; readonly rest: Segment };
  /** Of a join that is left open at one end: the step that finishes it, and where to stop. */
  readonly leftOpen?: { readonly step: number; readonly at: Point };
  /** The straight stretches in turn: one for a straight join, more where it turns a corner. */
  readonly stretches: readonly Segment[];
  /** Where pins go, in turn along the seam. Both mates carry each with the same label. */
  readonly points: readonly RegistrationPoint[];
}

/**
 * - `end`: an end of the seam, or a corner of a set-in one.
 * - `match`: seams from both sides meet the join at one spot.
 * - `junction`: a seam from one side meets it.
 * - `guide`: between others, so that no stretch exceeds 4 in.
 */
export type PointKind = 'end' | 'match' | 'junction' | 'guide';

export interface RegistrationPoint {
  /** Step of the join and a letter: `2c`. Unique in its block. */
  readonly label: string;
  readonly at: Point;
  readonly kind: PointKind;
}

/** `trouble`: cannot be sewn as drawn. `caution`: will be awkward. `note`: good to know. */
export type Severity = 'trouble' | 'caution' | 'note';

export interface Finding {
  /** Stable name of the rule that found it, such as `loose-end`. */
  readonly code: string;
  readonly severity: Severity;
  /** Where to look, inside or on the block. */
  readonly at: Point;
  /** Patch ids it concerns. */
  readonly patches: readonly string[];
  /** Cut ids it concerns. */
  readonly cuts: readonly string[];
  /** Plain sentences: what is there, and what it does at the machine. */
  readonly message: string;
  /** What to light up beside the spot and the patches: stretches that do not line up, or lines that chase each other. */
  readonly stretches: readonly Segment[];
}

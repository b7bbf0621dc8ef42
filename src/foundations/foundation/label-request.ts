import type { Area } from '../../geometry/inner-spot.ts';
import type { LengthUnit } from '../../geometry/length.ts';
import type { Point, Ring, Segment } from '../../geometry/point.ts';
import type { RegistrationPoint, Section } from '../../piecing/plan.ts';
import { PT } from '../marks.ts';
import type { Side } from '../side.ts';
import { setCentred, type TextBlock, type TextLine } from '../type/lettering.ts';
import type { Face, Typeface } from '../type/typeface.ts';
import type { LabelBox } from './ground.ts';
import type { TickCount } from './tick-counts.ts';

/** How a fabric is named on paper. */
export interface FabricLabel {
  /** Its name where the typeface can print it in full and it is no longer than a patch can hold, else null. */
  readonly name: string | null;
  /** Short sign that stands for it where there is no room. */
  readonly code: string;
  /** What the key of the sheets says the code stands for. */
  readonly meaning: string;
  /** Its colour `#rrggbb` and its place among the fabrics, from 0; null for what is no fabric. */
  readonly look: { readonly color: string; readonly number: number } | null;
}

/** Where labels of a paper may lie, counted in inches from the upper left corner of the paper drawn without them. */
export interface LabelRoom {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
  /** Upright and level lines no label may cross: where the paper is divided over several sheets. */
  readonly barriersX: readonly number[];
  readonly barriersY: readonly number[];
  /** More lines that labels keep off. */
  readonly lines: readonly Segment[];
}

/** A patch where it lies on the paper; or the finished unit that a paper starts from. */
export interface LaidPatch {
  /** Number as it is printed: `A1`. */
  readonly id: string;
  readonly area: Area;
  /** What stands under the number; null while the patch is unpainted. */
  readonly fabric: FabricLabel | null;
  /** Id of the fabric; null for a unit, and while the patch is unpainted. */
  readonly fabricId: string | null;
  /** Along the edge of the block, where a straight-grain arrow is wished for; else null. */
  readonly grain: Point | null;
  /** Position 1 of its paper. */
  readonly isFirst: boolean;
}

/** A part of the outer sewing line that is sewn to other sections, on the paper. The section lies to the right of it. */
export interface JoiningEdge {
  /** `join 2`, or for a unit that another paper starts from, null. */
  readonly step: string | null;
  readonly edge: Segment;
  /** Sections on the other side, in turn along the edge. */
  readonly mates: readonly string[];
  readonly points: readonly RegistrationPoint[];
  /** Where a partial seam stops, and is gone on with when it is closed. */
  readonly stop: Point | null;
  /** Ticks side by side at each point. */
  readonly ticks: TickCount;
}

/** All that a paper's labels depend on. Lengths in inches, places on the paper. */
export interface LabelRequest {
  readonly section: Section;
  readonly blockName: string;
  readonly copies: number;
  /** Whether room for a square code is looked for. */
  readonly hasCode?: boolean;
  readonly side: Side;
  readonly unit: LengthUnit;
  readonly allowance: number;
  readonly typeface: Typeface;
  /** Whether larger type is tried before the usual. */
  readonly large: boolean;
  readonly patches: readonly LaidPatch[];
  readonly outline: Ring;
  readonly trim: Ring;
  readonly edges: readonly JoiningEdge[];
  /** Drawn lines that labels keep off. */
  readonly obstacles: readonly Segment[];
  readonly room: LabelRoom;
}

/** Smallest type on any paper, in points. */
export const SMALLEST_PT = 6;

/** A place a label could stand: its middle, and its turn in radians clockwise. */
export interface Slot {
  readonly at: Point;
  readonly turn: number;
}

/** A text in a place, with the clear space it wants around its ink, in inches. */
export interface Try {
  readonly block: TextBlock;
  readonly slot: Slot;
  readonly pad: number;
  /** More space wished for before and after it. */
  readonly gap?: number;
}

export const boxAround = ({ block, slot, pad, gap = 0 }: Try): LabelBox => ({
  middle: slot.at,
  halfWidth: block.width / 2 + pad + gap,
  halfHeight: block.height / 2 + pad,
  turn: slot.turn,
});

/** Lines of text one under the other, with sizes in points. */
export const stack = (
  typeface: Typeface,
  lines: readonly (readonly [text: string, face: Face, points: number])[],
): TextBlock =>
  setCentred(
    typeface,
    lines.map(([text, face, points]): TextLine => ({ text, face, size: points * PT })),
  );

import type { Point, Ring } from '../geometry/point.ts';

/**
 * The quilt as the file holds it: what lies where, and how it is to be made and finished. Inches in the quilt's own
 * frame, y down. `places` alone always tells what lies where; all else says how the places came about or what is
 * still to be done to them.
 */
export interface Quilt {
  readonly places: readonly Place[];
  /** Step that places keep to when they are moved by hand, inches. */
  readonly module?: number;
  /** How the places inside the borders were made; absent once they were laid free. */
  readonly setting?: Setting;
  /** From the inside out. */
  readonly borders?: readonly Border[];
  /** How the places are joined; `balanced` when absent. */
  readonly joining?: Joining;
  /** Sets of places, by id, that are to be joined into units of their own first. */
  readonly units?: readonly (readonly string[])[];
  /** One for each quilt made beside the first: fabric for fabric, or the same fabrics where it is empty. */
  readonly copies?: readonly QuiltCopy[];
  readonly finishing?: Finishing;
  /** Other arrangements kept beside this one. */
  readonly layouts?: readonly KeptLayout[];
}

/** Where a block, or a plain piece of fabric, lies. */
export type Place = BlockPlace | PlainPlace;

interface PlaceBase {
  readonly id: string;
  /** Upper left corner of the box round the place as it lies, after turning. */
  readonly at: Point;
  /** What it serves as, where that is more than a block or a plain piece in the middle. */
  readonly part?: Part;
}

export interface BlockPlace extends PlaceBase {
  readonly block: string;
  /** Quarters clockwise, 0 … 3.5 in halves: 0.5 stands the block on its point. Mirrored first, then turned. */
  readonly turn: number;
  readonly mirrored: boolean;
}

export interface PlainPlace extends PlaceBase {
  /** Absent until one is chosen. */
  readonly fabric?: string;
  readonly size: Point;
  /** Corners from `at`, inside `size`, where it is no rectangle: a triangle, or a border with mitred ends. */
  readonly shape?: Ring;
}

export type Part = 'sashing' | 'cornerstone' | 'side-triangle' | 'corner-triangle' | 'strip' | 'border';

export const PARTS: readonly Part[] = [
  'sashing',
  'cornerstone',
  'side-triangle',
  'corner-triangle',
  'strip',
  'border',
];

export type Joining = 'balanced' | 'rows' | 'columns';

export const JOININGS: readonly Joining[] = ['balanced', 'rows', 'columns'];

export interface Sashing {
  readonly width: number;
  readonly fabric?: string;
  readonly cornerstones: boolean;
  readonly cornerstoneFabric?: string;
  /** Does it run round the outside as well? On point it always does. */
  readonly outside: boolean;
}

/**
 * - `straight`: rows and columns of one size.
 * - `offset`: the same, every other row moved by half a block and ended with plain halves.
 * - `on-point`: blocks on their points, `columns` × `rows` of them and others between, with setting triangles.
 * - `strips`: columns of blocks with plain strips between.
 * - `mixed`: blocks of several sizes in bands, as many modules wide as `columns`.
 */
export type SettingKind = 'straight' | 'offset' | 'on-point' | 'strips' | 'mixed';

export const SETTING_KINDS: readonly SettingKind[] = ['straight', 'offset', 'on-point', 'strips', 'mixed'];

export interface Setting {
  readonly kind: SettingKind;
  readonly columns: number;
  readonly rows: number;
  /** Size of one cell: of a block as it lies before it is stood on its point; the module of `mixed`. */
  readonly cell: Point;
  readonly sashing?: Sashing;
  /** Width and fabric of the strips between columns. */
  readonly strip?: { readonly width: number; readonly fabric?: string };
  /** Fabric of setting triangles, halves and what else fills the edge. */
  readonly fabric?: string;
}

export type BorderCorners = 'butted' | 'mitred' | 'squares';

export const BORDER_CORNERS: readonly BorderCorners[] = ['butted', 'mitred', 'squares'];

export interface Border {
  readonly width: number;
  readonly corners: BorderCorners;
  readonly fabric?: string;
  /** Fabric of corner squares. */
  readonly cornerFabric?: string;
  /** A border of this block, side by side, instead of plain cloth. */
  readonly block?: string;
}

export interface QuiltCopy {
  /** Fabric ids: what takes the place of what. */
  readonly fabrics: Readonly<Record<string, string>>;
  /** Block ids: blocks made in those fabrics for it, by the block of the first quilt. */
  readonly blocks?: Readonly<Record<string, string>>;
}

export interface Finishing {
  readonly binding?: {
    /** Width the strips are cut at. */
    readonly width: number;
    readonly isBias: boolean;
    readonly fabric?: string;
  };
  readonly backing?: { readonly extra: number; readonly fabric?: string };
  readonly batting?: { readonly extra: number };
  readonly sleeve?: { readonly height: number; readonly fabric?: string };
  readonly label?: { readonly size: Point; readonly fabric?: string };
}

export interface KeptLayout {
  readonly name: string;
  readonly places: readonly Place[];
  readonly module?: number;
  readonly setting?: Setting;
  readonly borders?: readonly Border[];
}

export const isBlockPlace = (place: Place): place is BlockPlace => 'block' in place;

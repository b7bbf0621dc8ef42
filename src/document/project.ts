import type { LengthUnit } from '../geometry/length.ts';
import type { Block } from '../piecing/block.ts';
import type { Severities } from '../piecing/options.ts';
import { phrase } from '../words/phrase.ts';
import type { Cloth } from './cloth.ts';
import type { CuttingChoices } from './cutting-choices.ts';
import type { Quilt } from './quilt.ts';
import type { Work } from './work.ts';

export type { Block, Cut, CutRole, PatchEntry, PlanChoice, UnderPicture } from '../piecing/block.ts';

export interface Fabric extends Cloth {
  readonly id: string;
  readonly name: string;
  /** `#rrggbb`. Stands for the fabric on paper and in numbers, whether it has a picture or not. */
  readonly color: string;
  /** A photo or scan of the real cloth, laid side by side with itself to fill patches. */
  readonly picture?: FabricPicture;
}

export interface FabricPicture {
  /** The picture written out: `data:image/png;base64,…`, or jpeg or webp. */
  readonly data: string;
  /** Pixels. */
  readonly width: number;
  readonly height: number;
  /** How many inches of real fabric its width shows, so that the print is seen at its true size in a block. */
  readonly across: number;
}

/** Unit in which lengths are shown and read when none is typed. Stored lengths are always inches. */
export type Unit = LengthUnit;

/** Quilters' quarter inch, 6.35 mm. */
export const DEFAULT_SEAM_ALLOWANCE_IN = 0.25;

/** The saved work: one project, as the file holds it. Immutable; every change makes a new one. */
export interface Project {
  readonly name: string;
  readonly unit: Unit;
  /** Seam allowance of every foundation, inches. */
  readonly seamAllowance: number;
  readonly fabrics: readonly Fabric[];
  readonly blocks: readonly Block[];
  /** How grave this project takes a finding to be, by its code, where that differs from the rule's own. */
  readonly severities?: Severities;
  /** What is in hand: by the ids of its blocks, how many copies of each are made. None has been chosen when absent. */
  readonly inHand?: Readonly<Record<string, number>>;
  /** What the blocks are set into; absent until one is begun. */
  readonly quilt?: Quilt;
  /** How cloth is cut, and what has been cut; absent until something is chosen. */
  readonly cutting?: CuttingChoices;
  /** What has been taken into work, and what of it is done; absent until something is. */
  readonly work?: Work;
}

/** A project with nothing in it. */
export const EMPTY_PROJECT: Project = {
  name: phrase('Untitled'),
  unit: 'in',
  seamAllowance: DEFAULT_SEAM_ALLOWANCE_IN,
  fabrics: [],
  blocks: [],
};

/** A pure edit: the same project back when there is nothing to change. */
export type ProjectEdit = (project: Project) => Project;

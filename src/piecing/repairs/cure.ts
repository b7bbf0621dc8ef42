import type { Mend } from '../mending/draft.ts';
import type { PictureChange } from './picture-change.ts';
import type { Repair } from './repair.ts';

/**
 * What a change does to the picture, the best kind first:
 * - `mend`: straight seams sew it, the picture as it was.
 * - `kept`: better, the picture as it was.
 * - `hair`: a line moves by less than 1/8 in; nobody sees it.
 * - `altered`: part of the picture becomes another fabric. `lost`: a line of it goes.
 * - `wish`: it sews already, and takes fewer foundations for patches added; the picture as it was.
 */
export type CureKind = 'mend' | 'kept' | 'hair' | 'altered' | 'lost' | 'wish';

/** A repair, and what it does to the picture. */
export interface Cure extends Repair {
  readonly kind: CureKind;
  readonly picture: PictureChange;
  /** What was drawn on, of a way to mend the block or to take fewer foundations. */
  readonly mended?: Mend;
}

const RANK: Readonly<Record<CureKind, number>> = { mend: 0, kept: 1, wish: 2, hair: 3, altered: 4, lost: 5 };

/** What keeps the picture first; of each kind as they were found. */
export const inRank = (cures: readonly Cure[]): Cure[] =>
  cures.toSorted((a, b) => RANK[a.kind] - RANK[b.kind]);

/** Does it leave every spot of the picture in its fabric? */
export const keepsPicture = ({ kind }: Cure): boolean => RANK[kind] < RANK.hair;

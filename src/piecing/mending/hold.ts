import type { Chords } from './chords.ts';
import type { Added } from './part-along.ts';
import type { Tract } from './tract.ts';

/** What holds, and what is known of opening it. */
export interface Hold {
  readonly tract: Tract;
  /** Pieces that are added at least. */
  least: number;
  /** Pieces that the best way known adds. */
  most: number;
  /** Chords parted along, and what came of it. */
  readonly openings: Opening[];
  chords: Chords | null;
  /** Drawn lines, and lines through two corners, have been gone along that run through so many pieces. */
  drawnTo: number;
  pairsTo: number;
  /** Every chord that does with the fewest has been gone into. */
  isOpenedEqually: boolean;
}

/** A hold parted along one chord, and what still holds in its halves. */
export interface Opening {
  readonly count: number;
  readonly added: readonly Added[];
  readonly left: readonly Hold[];
}

export const sum = <T>(items: readonly T[], of: (item: T) => number): number =>
  items.reduce((total, item) => total + of(item), 0);

/** Pieces that an opening adds at least. */
export const leastOf = ({ count, left }: Opening): number => count + sum(left, ({ least }) => least);

/** Pieces that the best way known through an opening adds. */
export const mostOf = ({ count, left }: Opening): number => count + sum(left, ({ most }) => most);

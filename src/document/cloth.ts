import { snap } from '../geometry/lattice.ts';
import { phrase } from '../words/phrase.ts';
import type { Checked } from './limits.ts';

/** What is known of a fabric beside its looks: what is cut from it, and what there is of it. */

export interface Price {
  /** In whatever money the person counts. */
  readonly amount: number;
  readonly per: 'yard' | 'metre';
}

/** Rectangles of one size that are at hand: fat quarters, precut strips and squares, scraps. */
export interface PiecesAtHand {
  /** As it is called: `Fat quarter`. */
  readonly name?: string;
  /** Inches; the straight grain runs along either. */
  readonly width: number;
  readonly height: number;
  readonly count: number;
}

export interface AtHand {
  /** Off the bolt, across the whole width: inches of length. */
  readonly length?: number;
  readonly pieces?: readonly PiecesAtHand[];
}

/** How the straight grain lies: along the seam of each piece unless told, or with the edges of the block. */
export type FabricGrain = 'seam' | 'block';

/** Optional keys of a fabric. */
export interface Cloth {
  /** The maker's number or shelf mark. */
  readonly code?: string;
  /** Usable width between the selvages, inches. */
  readonly width?: number;
  readonly grain?: FabricGrain;
  /** The print has an up and a down: pieces stand upright in the block. */
  readonly directional?: boolean;
  readonly price?: Price;
  readonly atHand?: AtHand;
  readonly notes?: string;
}

export const CODE_LENGTH = 60;
export const NOTES_LENGTH = 2_000;
export const LEAST_WIDTH_IN = 1;
export const MOST_WIDTH_IN = 200;
const MOST_PRICE = 1_000_000;
const MOST_LENGTH_IN = 100_000;
const MOST_COUNT = 10_000;
export const PIECES_AT_HAND = 200;

const refuse = (error: string): { readonly ok: false; readonly error: string } => ({ ok: false, error });

/** Usable width of a fabric, inches, snapped. */
export function checkWidth(inches: number): Checked<number> {
  if (!Number.isFinite(inches)) return refuse(phrase('The usable width is not a number.'));
  if (inches < LEAST_WIDTH_IN)
    return refuse(phrase('The usable width is less than {leastWidth} in.', { leastWidth: LEAST_WIDTH_IN }));
  if (inches > MOST_WIDTH_IN)
    return refuse(phrase('The usable width is more than {mostWidth} in.', { mostWidth: MOST_WIDTH_IN }));
  return { ok: true, value: snap(inches) };
}

export function checkPrice(amount: number): Checked<number> {
  if (!Number.isFinite(amount)) return refuse(phrase('The price is not a number.'));
  if (amount < 0) return refuse(phrase('The price is less than 0.'));
  if (amount > MOST_PRICE) return refuse(phrase('The price is more than a million.'));
  return { ok: true, value: Math.round(amount * 100) / 100 };
}

/** A length that is at hand, inches, snapped. */
export function checkStockLength(inches: number): Checked<number> {
  if (!Number.isFinite(inches)) return refuse(phrase('What is at hand is not a number.'));
  if (inches < 0) return refuse(phrase('What is at hand is less than 0.'));
  if (inches > MOST_LENGTH_IN) return refuse(phrase('What is at hand is more than 100,000 in (2,540 m).'));
  return { ok: true, value: snap(inches) + 0 };
}

export function checkStockCount(count: number): Checked<number> {
  if (!Number.isInteger(count) || count < 1)
    return refuse(phrase('The number at hand is not a whole number from 1 up.'));
  if (count > MOST_COUNT) return refuse(phrase('The number at hand is more than 10,000.'));
  return { ok: true, value: count };
}

/** A side of a piece that is at hand, inches, snapped. */
export function checkStockSide(inches: number): Checked<number> {
  if (!Number.isFinite(inches)) return refuse(phrase('The size at hand is not a number.'));
  if (inches <= 0) return refuse(phrase('The size at hand is not greater than 0.'));
  if (inches > MOST_LENGTH_IN) return refuse(phrase('The size at hand is more than 100,000 in (2,540 m).'));
  return { ok: true, value: snap(inches) };
}

/**
 * An amount of money as people write it: `12.50`, `12,50 €`, `$12`, `1,299.00`, `1.299,00`. The last comma or point with
 * one or two digits after it is the decimal one.
 */
export function readPrice(text: string): Checked<number> {
  const bare = text.replace(/[\s\u00a0]|[^\d.,\-−]/g, '').replace('−', '-');
  if (!/^-?[\d.,]*\d[\d.,]*$/.test(bare))
    return refuse(
      phrase('“{text}” is no price: type one such as 12.50.', { text: text.trim().slice(0, 24) }),
    );
  const decimal = /[.,](\d{1,2})$/.exec(bare);
  const whole = (decimal ? bare.slice(0, decimal.index) : bare).replace(/[.,]/g, '');
  return checkPrice(Number(`${whole || '0'}.${decimal?.[1] ?? '0'}`));
}

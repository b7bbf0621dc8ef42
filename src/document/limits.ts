import { MAX_COORDINATE_IN, snap, snapPoint } from '../geometry/lattice.ts';
import type { Point } from '../geometry/point.ts';
import { phrase } from '../words/phrase.ts';

/** What a project may hold. Every limit is one that a file is checked against and an edit respects. */

/** Largest file that is read at all, in bytes: 50 MB, about a hundred times a very large quilt. */
export const MAX_FILE_BYTES = 50_000_000;

export const CUTS_PER_BLOCK = 5_000;
/** More than the patches any drawing that can be divided has. */
export const PATCHES_PER_BLOCK = 100_000;
export const ORDERS_PER_BLOCK = 2_000;
/** As many as a block may have patches. */
export const PATCHES_PER_ORDER = 2_000;
export const CORNERS_PER_OUTLINE = 2_000;
export const BLOCKS_PER_PROJECT = 10_000;
export const MOST_COPIES = 999;
export const FABRICS_PER_PROJECT = 2_000;
export const NAME_LENGTH = 200;
export const ID_LENGTH = 200;

/** Widest seam allowance, inches. 0 is allowed: some print for cutting without one. */
export const MAX_SEAM_ALLOWANCE_IN = 2;

/** A usable value, or one plain sentence on why not. */
export type Checked<Value> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly error: string };

/** Length in inches within the limits of a seam allowance, snapped to the lattice. */
export function checkSeamAllowance(inches: number): Checked<number> {
  if (!Number.isFinite(inches)) return { ok: false, error: phrase('The seam allowance is not a number.') };
  if (inches < 0) return { ok: false, error: phrase('The seam allowance cannot be less than 0.') };
  if (inches > MAX_SEAM_ALLOWANCE_IN) {
    return {
      ok: false,
      error: phrase('The seam allowance can be at most {maxSeamAllowance} in.', {
        maxSeamAllowance: MAX_SEAM_ALLOWANCE_IN,
      }),
    };
  }
  // Adding 0 turns -0 into 0, which a file could not tell apart.
  return { ok: true, value: snap(inches) + 0 };
}

/** A name without blanks at its ends, neither empty nor longer than `NAME_LENGTH`. */
export function checkName(name: string): Checked<string> {
  const trimmed = name.trim();
  if (trimmed === '') return { ok: false, error: phrase('The name is empty.') };
  if (trimmed.length > NAME_LENGTH) {
    return {
      ok: false,
      error: phrase('The name is longer than {nameLength} letters.', { nameLength: NAME_LENGTH }),
    };
  }
  return { ok: true, value: trimmed };
}

/** `#rrggbb`, either case: the one form in which colours are kept. */
export const isColor = (text: string): boolean => /^#[0-9a-f]{6}$/i.test(text);

/** The point on the lattice, without the -0 that snapping a small negative gives: JSON writes both as 0. */
export function onLattice(point: Point): Point {
  const [x, y] = snapPoint(point);
  return [x + 0, y + 0];
}

/** The point on the lattice, or null when it is not a pair of numbers within the coordinate limit. */
export function cleanPoint(point: Point): Point | null {
  const inside = (value: number) => Number.isFinite(value) && Math.abs(value) <= MAX_COORDINATE_IN;
  return inside(point[0]) && inside(point[1]) ? onLattice(point) : null;
}

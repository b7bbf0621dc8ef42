import type { NewCut } from '../document/edit-cuts.ts';
import { CUTS_PER_BLOCK, cleanPoint } from '../document/limits.ts';
import type { Cut } from '../document/project.ts';
import type { Point } from '../geometry/point.ts';

/** Cuts as text, to be carried from block to block, and from window to window. */

const FORMAT = 'underpaper-cuts';

export const cutsToText = (cuts: readonly Cut[]): string =>
  JSON.stringify({ format: FORMAT, cuts: cuts.map(({ from, to, role }) => ({ from, to, role })) });

/** The cuts in a text, or null when it holds none of this kind; every point on the lattice and within bounds. */
export function cutsFromText(text: string): readonly NewCut[] | null {
  // Whatever is far longer than all the cuts a block may have is not worth reading.
  if (text.length > CUTS_PER_BLOCK * 200 || !text.includes(FORMAT)) return null;
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    return null;
  }
  if (!isRecord(json) || json.format !== FORMAT || !Array.isArray(json.cuts)) return null;
  const cuts = json.cuts.map(readCut);
  return cuts.length > 0 && cuts.every((cut) => cut !== null) ? cuts : null;
}

function readCut(value: unknown): NewCut | null {
  if (!isRecord(value)) return null;
  const from = readPoint(value.from);
  const to = readPoint(value.to);
  const { role } = value;
  if (from === null || to === null) return null;
  return { from, to, role: role === 'join' || role === 'seam' ? role : 'auto' };
}

function readPoint(value: unknown): Point | null {
  if (!Array.isArray(value) || value.length !== 2) return null;
  const [x, y] = value as readonly unknown[];
  return typeof x === 'number' && typeof y === 'number' ? cleanPoint([x, y]) : null;
}

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null;

import { MOST_COPIES } from './limits.ts';
import type { Project } from './project.ts';
import { turnedOverId } from './turned-over.ts';

/** How many copies of each block are in hand, as it is or turned over, of blocks that are there; null where none has been chosen. */
export function copiesInHand({ inHand, blocks }: Project): ReadonlyMap<string, number> | null {
  if (inHand === undefined) return null;
  const copies = new Map(Object.entries(inHand));
  return new Map(
    blocks
      .flatMap(({ id }) => [id, turnedOverId(id)])
      .flatMap((id) => (copies.has(id) ? [[id, copies.get(id)!] as const] : [])),
  );
}

/**
 * Takes blocks in hand, each in so many copies, and no others. Copies are rounded and brought within 1 and
 * `MOST_COPIES`; what is no number, or no block, is left out.
 */
export function takeInHand(project: Project, copies: ReadonlyMap<string, number>): Project {
  const known = new Set(project.blocks.flatMap(({ id }) => [id, turnedOverId(id)]));
  const inHand = Object.fromEntries(
    [...copies].flatMap(([id, count]) =>
      known.has(id) && Number.isFinite(count)
        ? [[id, Math.max(1, Math.min(MOST_COPIES, Math.round(count)))] as const]
        : [],
    ),
  );
  return JSON.stringify(inHand) === JSON.stringify(project.inHand) ? project : { ...project, inHand };
}

export const withoutCopies = (
  inHand: Readonly<Record<string, number>>,
  block: string,
): Readonly<Record<string, number>> =>
  Object.fromEntries(Object.entries(inHand).filter(([id]) => id !== block && id !== turnedOverId(block)));

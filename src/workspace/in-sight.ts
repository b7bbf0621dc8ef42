const counts = new Map<string, number>();

/** Is a picture of the block on the screen? Plans of such blocks are made before those of others. */
export const isInSight = (blockId: string): boolean => counts.has(blockId);

/** Notes that a picture of a block is on the screen, until the returned function is called. */
export function comeIntoSight(blockId: string): () => void {
  counts.set(blockId, (counts.get(blockId) ?? 0) + 1);
  return () => {
    const left = (counts.get(blockId) ?? 0) - 1;
    if (left > 0) counts.set(blockId, left);
    else counts.delete(blockId);
  };
}

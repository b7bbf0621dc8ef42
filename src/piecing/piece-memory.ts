/**
 * The stages of piecing, each hanging on the one before and on no more than this:
 * - `division`: the outline, and where the cuts run
 * - `assembly`: the roles of the cuts, the plan chosen, the budget
 * - `orders`: what lies on the patches, how light it is, orders by hand
 * - `findings`: severities, and the paper
 */
export type Stage = 'division' | 'assembly' | 'orders' | 'findings';

/** What a stage has made, and a number that no other making of the same memory has. */
export interface Kept<Made> {
  readonly made: Made;
  readonly number: number;
}

/** What the stages have made lately, kept by whoever pieces drawings again and again, and handed to `piece`. */
export interface PieceMemory {
  /** What a stage has made under this key, made now where it is not remembered. The result must not be changed. */
  readonly recall: <Made>(
    stage: Stage,
    key: string,
    make: () => Made,
    sizeOf: (made: Made) => number,
  ) => Kept<Made>;
  /** How often each stage had to be gone through so far. */
  readonly runs: () => Readonly<Record<Stage, number>>;
}

/** Patches remembered unless told otherwise: a quilt of 70 large blocks, some tens of megabytes. */
const MOST_PATCHES_KEPT = 16_000;

/** A memory of the most recent drawings, of so many patches together in each stage. The newest is always kept. */
export function pieceMemory(mostPatches = MOST_PATCHES_KEPT): PieceMemory {
  const runs: Record<Stage, number> = { division: 0, assembly: 0, orders: 0, findings: 0 };
  const stages: Readonly<Record<Stage, Shelf>> = {
    division: newShelf(),
    assembly: newShelf(),
    orders: newShelf(),
    findings: newShelf(),
  };
  let last = 0;
  return {
    runs: () => ({ ...runs }),
    recall<Made>(stage: Stage, key: string, make: () => Made, sizeOf: (made: Made) => number): Kept<Made> {
      const shelf = stages[stage];
      const known = shelf.entries.get(key);
      if (known) {
        // The most recent stands last.
        shelf.entries.delete(key);
        shelf.entries.set(key, known);
        return known.kept as Kept<Made>;
      }
      runs[stage]++;
      const kept: Kept<Made> = { made: make(), number: ++last };
      const size = Math.max(1, sizeOf(kept.made));
      shelf.entries.set(key, { kept, size });
      shelf.size += size;
      for (const [oldest, entry] of shelf.entries) {
        if (shelf.size <= mostPatches || oldest === key) break;
        shelf.entries.delete(oldest);
        shelf.size -= entry.size;
      }
      return kept;
    },
  };
}

interface Shelf {
  readonly entries: Map<string, { readonly kept: Kept<unknown>; readonly size: number }>;
  size: number;
}

const newShelf = (): Shelf => ({ entries: new Map(), size: 0 });

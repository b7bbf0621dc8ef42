import type { Ring } from '../../geometry/point.ts';

/** So many shapes are remembered, and as many from before them. */
const MOST_SHAPES = 4000;

interface Seen<T> {
  readonly rings: readonly Ring[];
  readonly made: T;
}

/**
 * What was made of shapes seen lately, found again by a number made of their corners: a plan that comes from elsewhere
 * brings new rings for the same patches, and while a cut is dragged all but a few stay as they are.
 */
export class ShapeCache<T> {
  readonly #make: (rings: readonly Ring[]) => T;
  readonly #byRing = new WeakMap<Ring, T>();
  #now = new Map<number, Seen<T>>();
  #before = this.#now;

  constructor(make: (rings: readonly Ring[]) => T) {
    this.#make = make;
  }

  /** `rings`: the outline, which always has the same holes, then those. */
  of(rings: readonly [Ring, ...Ring[]]): T {
    const [outline] = rings;
    const known = this.#byRing.get(outline);
    if (known !== undefined) return known;
    const key = keyOf(rings);
    const seen = this.#now.get(key) ?? this.#before.get(key);
    const made = seen !== undefined && isSame(seen.rings, rings) ? seen.made : this.#make(rings);
    if (this.#now.size >= MOST_SHAPES) {
      this.#before = this.#now;
      this.#now = new Map();
    }
    this.#now.set(key, { rings, made });
    this.#byRing.set(outline, made);
    return made;
  }
}

function keyOf(rings: readonly Ring[]): number {
  let key = 0;
  for (const ring of rings) for (const [x, y] of ring) key = (key * 31 + x * 7919 + y) % 1e9;
  return key;
}

const isSame = (a: readonly Ring[], b: readonly Ring[]): boolean =>
  a.length === b.length && a.every((ring, k) => isSameRing(ring, b[k]!));

const isSameRing = (a: Ring, b: Ring): boolean =>
  a.length === b.length && a.every(([x, y], k) => x === b[k]![0] && y === b[k]![1]);

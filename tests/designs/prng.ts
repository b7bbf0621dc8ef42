/**
 * Seeded random numbers, so that every generated design can be made again from the seed a failing test prints.
 * Source: mulberry32, a 32-bit mixing generator by Tommy Ettinger, in the public domain.
 */
export class Prng {
  private state: number;

  constructor(seed: number) {
    this.state = seed >>> 0;
  }

  /** Evenly spread in [0, 1). */
  next(): number {
    this.state = (this.state + 0x6d2b79f5) | 0;
    let t = Math.imul(this.state ^ (this.state >>> 15), 1 | this.state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  }

  /** Evenly spread in [low, high). */
  between(low: number, high: number): number {
    return low + this.next() * (high - low);
  }

  /** A whole number from `low` to `high`, both included. */
  whole(low: number, high: number): number {
    return low + Math.floor(this.next() * (high - low + 1));
  }

  chance(probability: number): boolean {
    return this.next() < probability;
  }

  pick<T>(items: readonly T[]): T {
    return items[Math.floor(this.next() * items.length)]!;
  }

  /** A new list in random order (Fisher-Yates). */
  shuffled<T>(items: readonly T[]): T[] {
    const list = [...items];
    for (let i = list.length - 1; i > 0; i--) {
      const j = this.whole(0, i);
      [list[i], list[j]] = [list[j]!, list[i]!];
    }
    return list;
  }
}

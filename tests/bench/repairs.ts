import { piece } from '../../src/piecing/piece.ts';
import { repairsOf } from '../../src/piecing/repairs/find-repairs.ts';
import { type DesignKind, designOf } from '../designs/designs.ts';

/** How long the repairs of blocks of about 60 patches take, all of them, on one thread. */
export interface RepairsRow {
  readonly family: DesignKind;
  readonly designs: number;
  readonly patches: number;
  readonly offered: number;
  readonly medianMs: number;
  readonly p95Ms: number;
  /** Designs whose repairs are all found within the time allowed. */
  readonly inTime: number;
}

const WARM_UP = 3;

export const ALLOWED_REPAIRS_MS = 200;

const SIZES: Readonly<Partial<Record<DesignKind, readonly [number, number]>>> = {
  chords: [56, 64],
  inward: [56, 64],
  lines: [50, 70],
  grid: [50, 70],
  floorplan: [34, 40],
};

export function benchRepairs(
  designs: number,
  families: readonly DesignKind[] = ['chords', 'inward', 'lines', 'grid', 'floorplan'],
): RepairsRow[] {
  return families.map((family) => {
    const patches = SIZES[family] ?? [50, 70];
    const times: number[] = [];
    let offered = 0;
    let total = 0;
    // Designs that are not counted let the machine compile: the worker has long been at work when a drawing is mended.
    for (let seed = 1; seed <= WARM_UP; seed++)
      repairsOf(designOf(120_000 + seed, { kind: family, patches }).block);
    for (let seed = 1; seed <= designs; seed++) {
      const { block } = designOf(110_000 + seed, { kind: family, patches });
      total += piece(block).patches.length;
      const start = performance.now();
      offered += repairsOf(block).length;
      times.push(performance.now() - start);
    }
    times.sort((a, b) => a - b);
    return {
      family,
      designs,
      patches: Math.round(total / designs),
      offered,
      medianMs: times[times.length >> 1]!,
      p95Ms: times[Math.min(times.length - 1, Math.floor(0.95 * times.length))]!,
      inTime: times.filter((ms) => ms <= ALLOWED_REPAIRS_MS).length,
    };
  });
}

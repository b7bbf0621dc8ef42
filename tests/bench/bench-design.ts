import type { Point, Ring, Segment } from '../../src/geometry/point.ts';
import { apart, areaOf, lerp, roundPoint } from '../designs/plane.ts';
import { Prng } from '../designs/prng.ts';

export interface BenchDesign {
  readonly outline: Ring;
  /** In an order in which each line crosses one face from rim to rim, so that face by face cutting can follow. */
  readonly lines: readonly Segment[];
  readonly faces: number;
}

/**
 * A square of about two square inches a face, halved and halved again across its longer way, a little askew:
 * exactly `faces` plump faces with T-junctions all along the lines. Cost: O(faces × log faces).
 */
export function benchDesign(seed: number, faces: number): BenchDesign {
  const rng = new Prng(seed);
  const side = Math.sqrt(2 * faces);
  const outline: Ring = (
    [
      [0, 0],
      [side, 0],
      [side, side],
      [0, side],
    ] as const
  ).map(roundPoint);
  const lines: Segment[] = [];
  let wave: { ring: Ring; faces: number }[] = [{ ring: outline, faces }];
  while (wave.length > 0) {
    wave = wave.flatMap((region) => {
      if (region.faces === 1) return [];
      const [line, halves] = halved(rng, region.ring);
      lines.push(line);
      const [first, second] = halves;
      const share = areaOf(first) / (areaOf(first) + areaOf(second));
      const count = Math.min(region.faces - 1, Math.max(1, Math.round(region.faces * share)));
      return [
        { ring: first, faces: count },
        { ring: second, faces: region.faces - count },
      ];
    });
  }
  return { outline, lines, faces };
}

/** A convex ring cut between two sides: from one that faces the longest side, across. */
function halved(rng: Prng, ring: Ring): [Segment, [Ring, Ring]] {
  const n = ring.length;
  const lengths = ring.map((p, i) => apart(p, ring[(i + 1) % n]!));
  const long = lengths.indexOf(Math.max(...lengths));
  const half = areaOf(ring) / 2;
  const at = rng.between(0.4, 0.6);
  const from = roundPoint(lerp(ring[long]!, ring[(long + 1) % n]!, at));
  // Walk round from the cut's start until half the area is passed: the cut ends on that side.
  let passed = 0;
  for (let k = 1; k < n; k++) {
    const i = (long + k) % n;
    const [a, b] = [ring[i]!, ring[(i + 1) % n]!];
    const piece = areaOf([from, a, b]);
    if (passed + piece >= half || k === n - 1) {
      const t = Math.min(0.85, Math.max(0.15, (half - passed) / piece));
      const to = roundPoint(lerp(a, b, t));
      const before = Array.from({ length: k }, (_, j) => ring[(long + 1 + j) % n]!);
      const after = Array.from({ length: n - k }, (_, j) => ring[(i + 1 + j) % n]!);
      const line: Segment = [from, to];
      return [line, [[from, ...before, to] as Point[], [to, ...after, from] as Point[]]];
    }
    passed += piece;
  }
  throw new Error('a ring of fewer than three corners cannot be halved');
}

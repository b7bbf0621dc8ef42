import type { Point, Ring } from '../../src/geometry/point.ts';
import { Prng } from '../designs/prng.ts';

const onLattice = (value: number): number => Math.round(value * 65536) / 65536;

const turned = (ring: Ring, angle: number): Ring =>
  ring.map(([x, y]) => [
    onLattice(x * Math.cos(angle) - y * Math.sin(angle)),
    onLattice(x * Math.sin(angle) + y * Math.cos(angle)),
  ]);

/** Simple outlines of many kinds, positive shoelace area, on the lattice: stars, combs, steps, convex rings. */
export function* simpleOutlines(count: number, firstSeed: number): Generator<{ ring: Ring; seed: number }> {
  for (let i = 0; i < count; i++) {
    const seed = firstSeed + i;
    const prng = new Prng(seed);
    const random = (): number => prng.next();
    const kinds = [star, comb, steps, convex, star];
    const ring = turned(kinds[i % kinds.length]!(random), i % 3 === 0 ? 0 : random() * Math.PI);
    yield { ring, seed };
  }
}

/** Corners at rising angles round a middle, near and far: simple, with inward corners and narrow bays. */
function star(random: () => number): Ring {
  const count = 5 + Math.floor(random() * 12);
  const angles = Array.from({ length: count }, (_, i) => ((i + 0.15 + 0.7 * random()) / count) * 2 * Math.PI);
  return angles.map((angle): Point => {
    const reach = 1 + 4 * random();
    return [reach * Math.cos(angle), reach * Math.sin(angle)];
  });
}

/** A bar with teeth of various widths and gaps, some narrower than two allowances. */
function comb(random: () => number): Ring {
  const ring: Point[] = [];
  let x = 0;
  const teeth = 2 + Math.floor(random() * 5);
  for (let i = 0; i < teeth; i++) {
    const width = 0.3 + random();
    const gap = 0.1 + 0.9 * random();
    const reach = 1 + 2 * random();
    ring.push([x, -reach], [x + width, -reach * (0.6 + 0.4 * random())]);
    x += width;
    if (i < teeth - 1) {
      const depth = -0.4 * random();
      ring.push([x, depth], [x + gap, depth]);
      x += gap;
    }
  }
  ring.push([x, 1], [0, 1]);
  return ring;
}

/** A staircase with level and upright sides only. */
function steps(random: () => number): Ring {
  const ring: Point[] = [];
  const count = 2 + Math.floor(random() * 6);
  let x = 0;
  let y = 0;
  for (let i = 0; i < count; i++) {
    const dx = 0.2 + random();
    const dy = 0.2 + random();
    ring.push([x, y], [x + dx, y]);
    x += dx;
    y += dy;
  }
  ring.push([x, y], [0, y]);
  return ring;
}

/** Corners on a stretched circle: always convex. */
function convex(random: () => number): Ring {
  const count = 3 + Math.floor(random() * 9);
  const stretch = 0.3 + random();
  const angles = Array.from({ length: count }, (_, i) => ((i + 0.8 * random()) / count) * 2 * Math.PI);
  return angles.map((angle): Point => [4 * Math.cos(angle), 4 * stretch * Math.sin(angle)]);
}

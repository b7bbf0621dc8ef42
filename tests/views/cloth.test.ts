import { describe, expect, it } from 'vitest';
import type { Point, Ring } from '../../src/geometry/point.ts';
import { contains, distanceToSegment } from '../../src/geometry/ring.ts';
import { piece } from '../../src/piecing/piece.ts';
import { clothOn, laidCloth } from '../../src/views/rehearsal/cloth.ts';
import { designOf } from '../designs/designs.ts';

const ALLOWANCE = 0.25;

/** Within, or so near to the edge that rounding decides. */
const isWithin = (ring: Ring, at: Point): boolean =>
  contains(ring, at) ||
  ring.some((from, k) => distanceToSegment(at, from, ring[(k + 1) % ring.length]!) < 0.005);

/** A convex patch, whose cloth is never cut by a line that runs through it. */
const isConvex = (ring: Ring): boolean =>
  ring.every((b, k) => {
    const a = ring[(k + ring.length - 1) % ring.length]!;
    const c = ring[(k + 1) % ring.length]!;
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]) > -1e-6;
  });

describe('the cloth drawn on a paper', () => {
  it('covers its patch, and past every later seam keeps the allowance and no more (common practice)', () => {
    const bad: string[] = [];
    let seams = 0;
    for (let seed = 9_201; seed <= 9_240; seed++) {
      const plan = piece(designOf(seed, { patches: [3, 16] }).block);
      for (const { letter } of plan.sections) {
        const own = plan.patches.filter(({ section }) => section === letter);
        for (const { patch, ring } of clothOn(plan, own, own.length, ALLOWANCE)) {
          if (!isConvex(patch.polygon)) continue;
          if (!patch.polygon.every((corner) => isWithin(ring, corner)))
            bad.push(`seed ${seed}: ${patch.id} is not covered`);
          for (const { seam, position, neighbours } of own) {
            if (!seam || position <= patch.position || !neighbours.includes(patch.id)) continue;
            const [a, b] = seam;
            const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
            const off = ([x, y]: Point): number =>
              ((b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0])) / length;
            const sides = patch.polygon.map(off);
            const isBelow = Math.max(...sides) < 0.005;
            if (!isBelow && Math.min(...sides) < -0.005) continue;
            const past = Math.max(...ring.map((at) => (isBelow ? off(at) : -off(at))));
            if (past > ALLOWANCE + 0.005) bad.push(`seed ${seed}: ${patch.id} hangs ${past} past a seam`);
            seams++;
          }
        }
      }
    }
    expect(bad).toEqual([]);
    expect(seams).toBeGreaterThan(100);
  });

  it('reaches the allowance past its own seam when it is laid, to be stitched', () => {
    let counted = 0;
    for (let seed = 9_201; seed <= 9_220; seed++) {
      const plan = piece(designOf(seed, { patches: [3, 16] }).block);
      for (const patch of plan.patches) {
        if (!patch.seam || !isConvex(patch.polygon)) continue;
        const laid = laidCloth(patch, ALLOWANCE);
        const [a, b] = patch.seam;
        const past = laid.filter((at) => !contains(patch.polygon, at));
        expect(past.length).toBeGreaterThan(0);
        expect(isWithin(laid, [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2])).toBe(true);
        counted++;
      }
    }
    expect(counted).toBeGreaterThan(50);
  });
});

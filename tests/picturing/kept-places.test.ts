import { describe, expect, it } from 'vitest';
import { mirroredPlaces } from '../../src/picturing/mirror.ts';
import { pictureBlocks } from '../../src/picturing/picture-block.ts';
import { halvedPlaces, partsKept, sumsOf } from '../../src/picturing/pixels.ts';
import { Prng } from '../designs/prng.ts';
import { halved, partedPicture } from './made-pictures.ts';

const SIZE = 96;
const OUTLINE = [0, 0, 12, 0, 12, 12, 0, 12];

/** Discs, numbered from 1: middle and radius in pixels. */
const discs = (places: readonly (readonly [x: number, y: number, r: number])[], size: number): Uint8Array =>
  Uint8Array.from({ length: size * size }, (_, at) => {
    const [x, y] = [(at % size) + 0.5, Math.floor(at / size) + 0.5];
    return places.findIndex(([cx, cy, r]) => Math.hypot(x - cx, y - cy) < r) + 1;
  });

const inside = (piece: readonly number[], x: number, y: number): boolean => {
  let side = 0;
  for (let i = 0; i < piece.length; i += 2) {
    const j = (i + 2) % piece.length;
    const turn =
      (piece[j]! - piece[i]!) * (y - piece[i + 1]!) - (piece[j + 1]! - piece[i + 1]!) * (x - piece[i]!);
    if (turn !== 0 && side !== 0 && Math.sign(turn) !== side) return false;
    if (turn !== 0) side = Math.sign(turn);
  }
  return true;
};

describe('places that must stay whole', () => {
  it('lie in one patch each, whatever the picture shows there', () => {
    for (let seed = 1; seed <= 8; seed++) {
      const rng = new Prng(seed);
      const places = [
        [rng.whole(20, 36), rng.whole(20, 76), rng.whole(5, 12)],
        [rng.whole(60, 76), rng.whole(20, 76), rng.whole(5, 12)],
      ] as const;
      const pixels = partedPicture(seed, 30, SIZE, 6);
      const fine = discs(places, SIZE);
      const coarse = halvedPlaces(fine, SIZE, SIZE);
      const results = pictureBlocks(
        sumsOf(halved(pixels), 12, null, coarse),
        sumsOf(pixels, 12, null, fine),
        OUTLINE,
        { patches: 40, fabrics: 6, width: 0.5, angle: 18, ease: 0.2, seed, steps: 1500 },
      );
      let made = results.next();
      while (!made.done) made = results.next();
      expect(made.value!.patches.length).toBeGreaterThan(10);
      for (const number of [1, 2]) {
        const own = [...fine.keys()].filter((at) => fine[at] === number);
        const shares = made.value!.patches.map(
          ({ piece }) =>
            own.filter((at) =>
              inside(piece, (((at % SIZE) + 0.5) * 12) / SIZE, ((Math.floor(at / SIZE) + 0.5) * 12) / SIZE),
            ).length / own.length,
        );
        // To within what a brush is exact, and one row of pixels.
        expect([seed, Math.max(...shares) > 0.93]).toEqual([seed, true]);
      }
    }
  });

  it('are parted by a piece that holds some of them, and by none that holds all or nothing', () => {
    const pixels = partedPicture(1, 5, SIZE, 0);
    const sums = sumsOf(pixels, 12, null, discs([[48, 48, 10]], SIZE));
    expect(partsKept(sums, [0, 0, 6, 0, 6, 12, 0, 12])).toBe(true);
    expect(partsKept(sums, [0, 0, 4, 0, 4, 12, 0, 12])).toBe(false);
    expect(partsKept(sums, [4, 4, 8, 4, 8, 8, 4, 8])).toBe(false);
    expect(partsKept(sums, OUTLINE)).toBe(false);
  });

  it('of both halves lie in the left one where these are made alike', () => {
    expect([...mirroredPlaces([1, 0, 0, 2], 4, 1)]).toEqual([1, 0]);
    expect([...mirroredPlaces([0, 0, 3, 0], 4, 1)]).toEqual([0, 3]);
  });
});

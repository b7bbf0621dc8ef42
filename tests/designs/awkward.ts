import type { Point, Ring } from '../../src/geometry/point.ts';
import type { Block, Cut } from '../../src/piecing/block.ts';
import { Prng } from './prng.ts';

/**
 * Awkward little blocks on whole inches: outlines that turn inward, one cut across several arms of an outline,
 * several lines through one spot, T-junctions in tight rows, islands, loose ends, lines drawn twice.
 * Many cannot be sewn with straight seams. The same seed always gives the same block.
 */
export function awkwardBlock(seed: number): Block {
  const rng = new Prng(seed);
  const outline = rng.pick(OUTLINES);
  const size = Math.max(...outline.flat());
  const spot = (): Point => [rng.whole(0, size), rng.whole(0, size)];
  const hubs = [spot(), spot()];
  const lines: [Point, Point][] = [];
  const add = (from: Point, to: Point): void => {
    if (from[0] !== to[0] || from[1] !== to[1]) lines.push([from, to]);
  };
  const count = rng.whole(2, 9);
  while (lines.length < count) {
    const along = rng.whole(0, size);
    const [low, high] = [rng.whole(0, size), rng.whole(0, size)];
    switch (rng.whole(0, 5)) {
      case 0:
        add(spot(), spot());
        break;
      case 1:
        add([along, low], [along, high]);
        break;
      case 2:
        add([low, along], [high, along]);
        break;
      case 3:
        // Right across, over every arm of the outline.
        if (rng.chance(0.5)) add([0, along], [size, along]);
        else add([along, 0], [along, size]);
        break;
      case 4:
        add(rng.pick(hubs), spot());
        break;
      default: {
        // Short uprights on a level line, from above and below by turns.
        add([0, along], [size, along]);
        for (let k = rng.whole(2, 4); k > 0; k--) {
          const x = rng.whole(1, size - 1);
          add([x, along], [x, rng.chance(0.5) ? 0 : size]);
        }
      }
    }
  }
  if (rng.chance(0.1)) {
    const [x, y] = [rng.whole(1, size - 2), rng.whole(1, size - 2)];
    const box: Point[] = [
      [x, y],
      [x + 1, y],
      [x + 1, y + 1],
      [x, y + 1],
    ];
    box.forEach((p, k) => {
      add(p, box[(k + 1) % 4]!);
    });
  }
  return {
    id: `awkward-${seed}`,
    name: `Awkward ${seed}`,
    outline,
    cuts: lines.map(([from, to], i): Cut => ({ id: `c${i + 1}`, from, to, role: 'auto' })),
    patches: [],
  };
}

const ringOf = (text: string): Ring =>
  text.split(' ').map((p) => p.split(',').map(Number) as unknown as Point);

const OUTLINES: readonly Ring[] = [
  '0,0 6,0 6,6 0,6',
  '0,0 8,0 8,8 0,8',
  '0,0 3,0 3,3 6,3 6,6 0,6',
  '0,0 2,0 2,4 4,4 4,0 6,0 6,6 0,6',
  '0,0 2,0 2,5 3,5 3,0 5,0 5,5 6,5 6,0 8,0 8,8 0,8',
  '2,0 4,0 4,2 6,2 6,4 4,4 4,6 2,6 2,4 0,4 0,2 2,2',
  '0,0 3,2 6,0 6,6 0,6',
  '0,0 7,0 7,2 2,2 2,5 5,5 5,4 7,4 7,7 0,7',
  '3,0 6,2 5,6 1,6 0,2',
].map(ringOf);

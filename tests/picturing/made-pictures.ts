import { colorOfLab } from '../../src/document/lab.ts';
import type { Pixels } from '../../src/picturing/pixels.ts';
import { Prng } from '../designs/prng.ts';

/** A picture of a known parting: random lines, each parting one piece, every piece of one colour, and some noise. */
export function partedPicture(seed: number, pieces: number, size: number, noise: number): Pixels {
  const rng = new Prng(seed);
  const owner = new Int32Array(size * size);
  const counts = [size * size];
  while (counts.length < pieces) {
    const piece = counts.indexOf(Math.max(...counts));
    const angle = rng.between(0, Math.PI);
    const [nx, ny] = [Math.cos(angle), Math.sin(angle)];
    const at = (k: number): number => nx * (k % size) + ny * Math.floor(k / size);
    const own = [...owner.keys()].filter((k) => owner[k] === piece);
    const across = own.map(at).sort((a, b) => a - b);
    const cut = across[Math.floor(across.length * rng.between(0.35, 0.65))]!;
    const taken = own.filter((k) => at(k) < cut);
    for (const k of taken) owner[k] = counts.length;
    counts[piece] = own.length - taken.length;
    counts.push(taken.length);
  }
  const colours = counts.map(() => ({
    l: rng.between(15, 95),
    a: rng.between(-50, 50),
    b: rng.between(-50, 50),
  }));
  const data = new Uint8ClampedArray(size * size * 4);
  owner.forEach((piece, k) => {
    const hex = colorOfLab(colours[piece]!);
    for (let c = 0; c < 3; c++)
      data[4 * k + c] = Number.parseInt(hex.slice(1 + 2 * c, 3 + 2 * c), 16) + noise * rng.between(-1, 1);
    data[4 * k + 3] = 255;
  });
  return { width: size, height: size, data };
}

/** Each second pixel of a picture, both ways. */
export function halved({ width, height, data }: Pixels): Pixels {
  const [w, h] = [width >> 1, height >> 1];
  const half = new Uint8ClampedArray(w * h * 4);
  for (let y = 0; y < h; y++)
    for (let x = 0; x < w; x++)
      for (let c = 0; c < 4; c++) {
        const at = (dx: number, dy: number): number => data[((2 * y + dy) * width + 2 * x + dx) * 4 + c]!;
        half[(y * w + x) * 4 + c] = (at(0, 0) + at(1, 0) + at(0, 1) + at(1, 1)) / 4;
      }
  return { width: w, height: h, data: half };
}

import { type Lab, labOfColor } from '../document/lab.ts';

/** A picture as it is looked at: four bytes a pixel, red, green, blue, opacity, row by row from the top. */
export interface Pixels {
  readonly width: number;
  readonly height: number;
  readonly data: ArrayLike<number>;
}

/**
 * What the picture adds up to, so that the sum over any convex piece is known from its edges alone. Four running
 * sums a row, from its left end: weight, and weight × L, a, b, with the mean of the whole taken off so that no
 * digits are lost. Pixels are spread over the piece of cloth: `scale` pixels an inch.
 */
export interface Sums {
  readonly width: number;
  readonly height: number;
  readonly scale: number;
  /** `running[((y × (width + 1)) + x) × 4 + k]`: row y, pixels left of x. */
  readonly running: Float64Array;
  readonly mean: Lab;
  /** Sum of weight × squared distance from the mean, and of weight: what is to be explained. */
  readonly variance: number;
  readonly weight: number;
  /** Places that must stay in one patch each. */
  readonly kept: readonly KeptPlace[];
}

/** A place that must stay whole: running sums of its pixels, as above with one number each, and how many there are. */
export interface KeptPlace {
  readonly running: Float64Array;
  readonly total: number;
}

/**
 * Sums of a picture over an area `inches` wide. `weights`: how much each pixel matters, 1 where absent. What is
 * transparent matters as little as it is seen. `places`: the number of the place that each pixel belongs to and that
 * must stay whole, 0 for none.
 */
export function sumsOf(
  pixels: Pixels,
  inches: number,
  weights: ArrayLike<number> | null = null,
  places: ArrayLike<number> | null = null,
): Sums {
  const { width, height, data } = pixels;
  const count = width * height;
  const lab = new Float64Array(count * 3);
  const known = new Map<number, Lab>();
  const weightOf = new Float64Array(count);
  const mean = { l: 0, a: 0, b: 0 };
  let weight = 0;
  for (let at = 0; at < count; at++) {
    const w = Math.max(1e-6, (data[at * 4 + 3]! / 255) * (weights?.[at] ?? 1));
    const color = colorAt(data, at * 4, known);
    lab[at * 3] = color.l;
    lab[at * 3 + 1] = color.a;
    lab[at * 3 + 2] = color.b;
    weightOf[at] = w;
    weight += w;
    mean.l += w * color.l;
    mean.a += w * color.a;
    mean.b += w * color.b;
  }
  for (const k of ['l', 'a', 'b'] as const) mean[k] /= weight;
  const running = new Float64Array((width + 1) * height * 4);
  let variance = 0;
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const at = y * width + x;
      const w = weightOf[at]!;
      const [l, a, b] = [lab[at * 3]! - mean.l, lab[at * 3 + 1]! - mean.a, lab[at * 3 + 2]! - mean.b];
      variance += w * (l * l + a * a + b * b);
      const from = (y * (width + 1) + x) * 4;
      running[from + 4] = running[from]! + w;
      running[from + 5] = running[from + 1]! + w * l;
      running[from + 6] = running[from + 2]! + w * a;
      running[from + 7] = running[from + 3]! + w * b;
    }
  return {
    width,
    height,
    scale: width / inches,
    running,
    mean,
    variance,
    weight,
    kept: places === null ? [] : keptPlaces(places, width, height),
  };
}

function keptPlaces(places: ArrayLike<number>, width: number, height: number): KeptPlace[] {
  const kept = new Map<number, { running: Float64Array; total: number }>();
  for (let at = 0; at < width * height; at++) {
    const number = places[at]!;
    if (number === 0) continue;
    const place = kept.get(number) ?? { running: new Float64Array((width + 1) * height), total: 0 };
    kept.set(number, place);
    place.total++;
    place.running[Math.floor(at / width) * (width + 1) + (at % width) + 1] = 1;
  }
  for (const { running } of kept.values())
    for (let at = 0; at < running.length; at++) if (at % (width + 1) !== 0) running[at]! += running[at - 1]!;
  return [...kept.values()];
}

/** Places as a picture half as large has them: no pixel of one is lost, so that what keeps them there keeps them here. */
export function halvedPlaces(places: ArrayLike<number>, width: number, height: number): Uint8Array {
  const [w, h] = [Math.max(1, Math.floor(width / 2)), Math.max(1, Math.floor(height / 2))];
  const half = new Uint8Array(w * h);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const place = places[y * width + x]!;
      if (place !== 0) half[Math.min(h - 1, y >> 1) * w + Math.min(w - 1, x >> 1)] = place;
    }
  return half;
}

/** A place counts as whole in a piece, or as beside it, up to this share: its edge is brushed by hand. */
const HAIR = 0.03;

/** Does a piece hold part of a place that must stay whole? Corners as for `sumOver`. */
export const partsKept = (sums: Sums, piece: readonly number[]): boolean =>
  sums.kept.some((place) => {
    const share = heldBy(sums, place, piece) / place.total;
    return share > HAIR && share < 1 - HAIR;
  });

function heldBy({ scale, width, height }: Sums, { running }: KeptPlace, piece: readonly number[]): number {
  let held = 0;
  const n = piece.length;
  for (let i = 0; i < n; i += 2) {
    const j = i + 2 === n ? 0 : i + 2;
    const [x1, y1, x2, y2] = [
      piece[i]! * scale,
      piece[i + 1]! * scale,
      piece[j]! * scale,
      piece[j + 1]! * scale,
    ];
    const isDown = y2 > y1;
    const from = Math.max(0, Math.ceil((isDown ? y1 : y2) - 0.5));
    const to = Math.min(height, Math.ceil((isDown ? y2 : y1) - 0.5));
    for (let row = from; row < to; row++) {
      const x = x1 + ((row + 0.5 - y1) * (x2 - x1)) / (y2 - y1);
      held += (isDown ? -1 : 1) * running[row * (width + 1) + Math.round(Math.max(0, Math.min(x, width)))]!;
    }
  }
  return Math.abs(held);
}

function colorAt(data: ArrayLike<number>, at: number, known: Map<number, Lab>): Lab {
  const key = (data[at]! << 16) | (data[at + 1]! << 8) | data[at + 2]!;
  const before = known.get(key);
  if (before !== undefined) return before;
  const lab = labOfColor(`#${key.toString(16).padStart(6, '0')}`);
  known.set(key, lab);
  return lab;
}

/** Weight, and weight × L, a, b less the mean, over a piece. */
export type Sum = readonly [w: number, l: number, a: number, b: number];

/**
 * The sum over a convex piece, corners x, y, x, y … in inches, turning one way. A row counts where its middle lies
 * inside; within a row the ends count by their share of a pixel. Cost: O(rows that the edges cross).
 */
export function sumOver(sums: Sums, piece: readonly number[]): Sum {
  const { scale, width, height, running } = sums;
  let [w, l, a, b] = [0, 0, 0, 0];
  const n = piece.length;
  for (let i = 0; i < n; i += 2) {
    const j = i + 2 === n ? 0 : i + 2;
    const [x1, y1, x2, y2] = [
      piece[i]! * scale,
      piece[i + 1]! * scale,
      piece[j]! * scale,
      piece[j + 1]! * scale,
    ];
    const isDown = y2 > y1;
    const from = Math.max(0, Math.ceil((isDown ? y1 : y2) - 0.5));
    const to = Math.min(height, Math.ceil((isDown ? y2 : y1) - 0.5));
    if (from >= to) continue;
    const slope = (x2 - x1) / (y2 - y1);
    const sign = isDown ? -1 : 1;
    let x = x1 + (from + 0.5 - y1) * slope;
    for (let row = from; row < to; row++, x += slope) {
      const inside = Math.max(0, Math.min(x, width));
      const whole = inside | 0;
      const share = inside - whole;
      const at = (row * (width + 1) + whole) * 4;
      if (share > 0) {
        w += sign * (running[at]! + share * (running[at + 4]! - running[at]!));
        l += sign * (running[at + 1]! + share * (running[at + 5]! - running[at + 1]!));
        a += sign * (running[at + 2]! + share * (running[at + 6]! - running[at + 2]!));
        b += sign * (running[at + 3]! + share * (running[at + 7]! - running[at + 3]!));
      } else {
        w += sign * running[at]!;
        l += sign * running[at + 1]!;
        a += sign * running[at + 2]!;
        b += sign * running[at + 3]!;
      }
    }
  }
  // Pieces may turn either way.
  return w < 0 ? [-w, -l, -a, -b] : [w, l, a, b];
}

import type { Lab } from '../document/lab.ts';
import type { Sum } from './pixels.ts';
import type { Leaf } from './tree.ts';

/** With few fabrics figure and ground are kept apart by hue: a and b count so much more when fabrics are chosen. */
const HUE = 1.8;

/** Fabrics as they lie in the sums: less the mean of the picture. */
export type Palette = readonly Lab[];

/** The fabric that comes nearest to what a piece shows, and what of the picture it explains. */
export function nearestFabric(
  [w, l, a, b]: Sum,
  palette: Palette,
): { readonly fabric: number; readonly value: number } {
  let [fabric, value] = [0, Number.NEGATIVE_INFINITY];
  for (let k = 0; k < palette.length; k++) {
    const c = palette[k]!;
    const explained = 2 * (l * c.l + a * c.a + b * c.b) - w * (c.l * c.l + c.a * c.a + c.b * c.b);
    if (explained > value) [fabric, value] = [k, explained];
  }
  return { fabric, value };
}

/** What a leaf explains when it must be cut from one of the fabrics. */
export const byFabric =
  (palette: Palette) =>
  (sum: Sum): number =>
    nearestFabric(sum, palette).value;

/**
 * So many colours that serve all leaves together best: k-means of their means (Lloyd, Least squares quantization in
 * PCM, IEEE Trans. Information Theory 28(2), 1982), begun with colours far from one another.
 */
export function mixedFabrics(leaves: readonly Leaf[], count: number, chance: () => number): Palette {
  const points = leaves
    .filter(({ sum: [w] }) => w > 0)
    .map(({ sum: [w, l, a, b] }) => ({ w, l: l / w, a: (HUE * a) / w, b: (HUE * b) / w }));
  const centres: { l: number; a: number; b: number }[] = [];
  const distance = (p: Lab, q: Lab): number => (p.l - q.l) ** 2 + (p.a - q.a) ** 2 + (p.b - q.b) ** 2;
  while (centres.length < count && points.length > 0) {
    const weights = points.map(
      (p) => p.w * (centres.length === 0 ? 1 : Math.min(...centres.map((c) => distance(p, c)))),
    );
    let at = chance() * weights.reduce((sum, w) => sum + w, 0);
    if (at <= 0 && centres.length > 0) break;
    let k = 0;
    while (k < points.length - 1 && at >= weights[k]!) at -= weights[k++]!;
    centres.push({ l: points[k]!.l, a: points[k]!.a, b: points[k]!.b });
  }
  for (let round = 0; round < 20; round++) {
    const sums = centres.map(() => [0, 0, 0, 0]);
    for (const p of points) {
      const near = centres.reduce(
        (best, c, k) => (distance(p, c) < distance(p, centres[best]!) ? k : best),
        0,
      );
      const sum = sums[near]!;
      sums[near] = [sum[0]! + p.w, sum[1]! + p.w * p.l, sum[2]! + p.w * p.a, sum[3]! + p.w * p.b];
    }
    sums.forEach(([w, l, a, b], k) => {
      if (w! > 0) centres[k] = { l: l! / w!, a: a! / w!, b: b! / w! };
    });
  }
  return centres.map(({ l, a, b }) => ({ l, a: a / HUE, b: b / HUE }));
}

/** Each fabric as the mean of the leaves that are cut from it; one that is used for none stays as it is. */
export function remixed(leaves: readonly Leaf[], palette: Palette): Palette {
  const sums = palette.map(() => [0, 0, 0, 0]);
  for (const { sum } of leaves) {
    const { fabric } = nearestFabric(sum, palette);
    sums[fabric] = sums[fabric]!.map((s, k) => s + sum[k]!);
  }
  return sums.map(([w, l, a, b], k) => (w! > 0 ? { l: l! / w!, a: a! / w!, b: b! / w! } : palette[k]!));
}

/**
 * So many of the fabrics at hand as serve all leaves together best: one after another the one that adds most, then
 * single exchanges as long as one helps. Result: their numbers, in the order of the fabrics at hand.
 */
export function chosenFabrics(leaves: readonly Leaf[], atHand: Palette, count: number): readonly number[] {
  const worth = (chosen: readonly number[]): number => {
    const palette = chosen.map((k) => atHand[k]!);
    return leaves.reduce((sum, leaf) => sum + nearestFabric(leaf.sum, palette).value, 0);
  };
  let chosen: number[] = [];
  const rest = (): number[] => [...atHand.keys()].filter((k) => !chosen.includes(k));
  const best = (ways: readonly number[][]): number[] => ways.reduce((a, b) => (worth(b) > worth(a) ? b : a));
  while (chosen.length < Math.min(count, atHand.length)) chosen = best(rest().map((k) => [...chosen, k]));
  for (let round = 0; round < 3; round++) {
    const ways = chosen.flatMap((_, at) => rest().map((k) => chosen.with(at, k)));
    if (ways.length === 0) break;
    const next = best(ways);
    if (worth(next) <= worth(chosen)) break;
    chosen = next;
  }
  return chosen.sort((a, b) => a - b);
}

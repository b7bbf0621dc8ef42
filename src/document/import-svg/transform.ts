import type { Point } from '../../geometry/point.ts';
import { readNumbers } from './numbers.ts';

/** [a, b, c, d, e, f]: x' = a x + c y + e, y' = b x + d y + f. Source: SVG 1.1, chapter 7. */
export type Matrix = readonly [number, number, number, number, number, number];

export const IDENTITY: Matrix = [1, 0, 0, 1, 0, 0];

/** First `inner`, then `outer`. */
export const after = (outer: Matrix, inner: Matrix): Matrix => {
  const [a, b, c, d, e, f] = outer;
  const [g, h, i, j, k, l] = inner;
  return [a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * l + e, b * k + d * l + f];
};

export const applied = ([a, b, c, d, e, f]: Matrix, [x, y]: Point): Point => [
  a * x + c * y + e,
  b * x + d * y + f,
];

/** A list of transforms, outermost first, as one matrix; null when it cannot be read or is beyond counting. */
export function readTransform(text: string | undefined): Matrix | null {
  if (text === undefined) return IDENTITY;
  let rest = text.trim();
  let matrix = IDENTITY;
  while (rest !== '') {
    const [whole, name, inner] = /^([a-z]+)\s*\(([^()]*)\)[\s,]*/i.exec(rest) ?? [];
    const numbers = inner === undefined ? null : readNumbers(inner);
    const next = name === undefined || numbers === null ? null : one(name, numbers);
    if (next === null) return null;
    matrix = after(matrix, next);
    rest = rest.slice(whole!.length);
  }
  return matrix.every(Number.isFinite) ? matrix : null;
}

const radians = (degrees: number): number => (degrees * Math.PI) / 180;

function one(name: string, values: readonly number[]): Matrix | null {
  const [p, q, r] = values;
  const count = values.length;
  switch (name) {
    case 'matrix':
      return count === 6 ? (values as unknown as Matrix) : null;
    case 'translate':
      return count === 1 || count === 2 ? [1, 0, 0, 1, p!, q ?? 0] : null;
    case 'scale':
      return count === 1 || count === 2 ? [p!, 0, 0, q ?? p!, 0, 0] : null;
    case 'rotate': {
      if (count !== 1 && count !== 3) return null;
      const turn: Matrix = rotation(p!);
      return count === 1 ? turn : after([1, 0, 0, 1, q!, r!], after(turn, [1, 0, 0, 1, -q!, -r!]));
    }
    case 'skewX':
      return count === 1 ? [1, 0, Math.tan(radians(p!)), 1, 0, 0] : null;
    case 'skewY':
      return count === 1 ? [1, Math.tan(radians(p!)), 0, 1, 0, 0] : null;
    default:
      return null;
  }
}

/** Quarter turns are exact, so that what lay level lies upright afterwards and not almost. */
function rotation(degrees: number): Matrix {
  const quarter = ((degrees % 360) + 360) % 360;
  const exact = (
    { 0: [1, 0], 90: [0, 1], 180: [-1, 0], 270: [0, -1] } as Record<number, readonly [number, number]>
  )[quarter];
  const [cos, sin] = exact ?? [Math.cos(radians(degrees)), Math.sin(radians(degrees))];
  return [cos, sin, -sin, cos, 0, 0];
}

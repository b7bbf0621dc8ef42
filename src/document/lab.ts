/** A colour by how it looks, CIELAB 1976 under D65: `l` 0 (black) … 100 (white), `a` green to red, `b` blue to yellow. */
export interface Lab {
  readonly l: number;
  readonly a: number;
  readonly b: number;
}

/** sRGB to CIE XYZ under D65, rows X, Y, Z. Source: IEC 61966-2-1. */
const TO_XYZ = [
  [0.4124, 0.3576, 0.1805],
  [0.2126, 0.7152, 0.0722],
  [0.0193, 0.1192, 0.9505],
] as const;

/** CIE XYZ to linear sRGB, the inverse of the above. Source: IEC 61966-2-1, with the digits that invert it exactly enough for 8 bits. */
const FROM_XYZ = [
  [3.2406255, -1.537208, -0.4986286],
  [-0.9689307, 1.8757561, 0.0415175],
  [0.0557101, -0.2040211, 1.0569959],
] as const;

/** The white that R = G = B = 1 gives. */
const WHITE = TO_XYZ.map(([r, g, b]) => r + g + b) as [number, number, number];

/** Where the cube root gives way to a straight line, and that line's slope. Source: CIE 15, exact fractions. */
const EPSILON = 216 / 24389;
const KAPPA = 24389 / 27;

/** CIELAB of `#rrggbb`. Sources: IEC 61966-2-1 for sRGB, CIE 15 for L*, a*, b*. */
export function labOfColor(color: string): Lab {
  const linear = [1, 3, 5].map((at) => {
    const value = Number.parseInt(color.slice(at, at + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  });
  const [x, y, z] = TO_XYZ.map((row, index) => {
    const share = row.reduce((sum, part, channel) => sum + part * linear[channel]!, 0) / WHITE[index]!;
    return share > EPSILON ? Math.cbrt(share) : (KAPPA * share + 16) / 116;
  }) as [number, number, number];
  return { l: 116 * y - 16, a: 500 * (x - y), b: 200 * (y - z) };
}

/**
 * `#rrggbb` of a CIELAB colour. What a screen cannot show keeps its lightness and hue and gives up as little of its
 * colourfulness as it must; lightness outside 0 … 100 becomes black or white.
 */
export function colorOfLab({ l, a, b }: Lab): string {
  if (l <= 0) return '#000000';
  if (l >= 100) return '#ffffff';
  if (isShown(linearOf({ l, a, b }))) return hexOf(linearOf({ l, a, b }));
  let [shown, tooMuch] = [0, 1];
  // 12 halvings: finer than one step of 8 bits at any colourfulness a screen has.
  for (let halving = 0; halving < 12; halving++) {
    const part = (shown + tooMuch) / 2;
    if (isShown(linearOf({ l, a: a * part, b: b * part }))) shown = part;
    else tooMuch = part;
  }
  return hexOf(linearOf({ l, a: a * shown, b: b * shown }));
}

function linearOf({ l, a, b }: Lab): readonly number[] {
  const y = (l + 16) / 116;
  const xyz = [y + a / 500, y, y - b / 200].map((root, index) => {
    const share = root ** 3 > EPSILON ? root ** 3 : (116 * root - 16) / KAPPA;
    return share * WHITE[index]!;
  });
  return FROM_XYZ.map((row) => row.reduce((sum, part, index) => sum + part * xyz[index]!, 0));
}

/** Half a step of 8 bits near white; less would refuse colours that rounding brings back in. */
const SLACK = 0.002;

const isShown = (linear: readonly number[]): boolean =>
  linear.every((value) => value >= -SLACK / 12.92 && value <= 1 + SLACK);

const hexOf = (linear: readonly number[]): string =>
  `#${linear
    .map((value) => {
      const inside = Math.min(1, Math.max(0, value));
      const coded = inside <= 0.0031308 ? inside * 12.92 : 1.055 * inside ** (1 / 2.4) - 0.055;
      return Math.round(coded * 255)
        .toString(16)
        .padStart(2, '0');
    })
    .join('')}`;

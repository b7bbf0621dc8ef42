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

/** What each of the 256 steps of a channel is in light, 0 … 1. Source: IEC 61966-2-1. */
const LIGHT = Float64Array.from({ length: 256 }, (_, step) => {
  const value = step / 255;
  return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
});

/** CIELAB of `#rrggbb`. Sources: IEC 61966-2-1 for sRGB, CIE 15 for L*, a*, b*. */
export function labOfColor(color: string): Lab {
  const [r, g, b] = [1, 3, 5].map((at) => LIGHT[Number.parseInt(color.slice(at, at + 2), 16)]!);
  return labOfLight(r!, g!, b!);
}

function labOfLight(r: number, g: number, b: number): Lab {
  const [x, y, z] = TO_XYZ.map((row, index) => {
    const share = (row[0] * r + row[1] * g + row[2] * b) / WHITE[index]!;
    return share > EPSILON ? Math.cbrt(share) : (KAPPA * share + 16) / 116;
  }) as [number, number, number];
  return { l: 116 * y - 16, a: 500 * (x - y), b: 200 * (y - z) };
}

/**
 * The average of some pixels as it looks: the mean in CIELAB, where equal steps look equally far apart. `rgba` holds
 * four bytes a pixel; what is transparent counts by how much of it is seen. Null when nothing of them is.
 */
export function averageLab(rgba: ArrayLike<number>): Lab | null {
  let [l, a, b, seen] = [0, 0, 0, 0];
  // Photos have long runs of one colour, and prints few colours in all: each is worked out once.
  const known = new Map<number, Lab>();
  for (let at = 0; at + 3 < rgba.length; at += 4) {
    const share = rgba[at + 3]! / 255;
    if (share === 0) continue;
    const key = (rgba[at]! << 16) | (rgba[at + 1]! << 8) | rgba[at + 2]!;
    let lab = known.get(key);
    if (lab === undefined) {
      lab = labOfLight(LIGHT[rgba[at]!]!, LIGHT[rgba[at + 1]!]!, LIGHT[rgba[at + 2]!]!);
      known.set(key, lab);
    }
    l += share * lab.l;
    a += share * lab.a;
    b += share * lab.b;
    seen += share;
  }
  return seen === 0 ? null : { l: l / seen, a: a / seen, b: b / seen };
}

/** Steps of light finer than 8 bits tell apart anywhere, even near black. */
const STEPS = 1 << 14;

let greys: Uint8Array | null = null;

/** The grey, 0 … 255, of each step of luminance; worked out once, since every pixel of a picture asks for one. */
function greysOf(): Uint8Array {
  greys ??= Uint8Array.from({ length: STEPS + 1 }, (_, step) => Math.round(255 * codedOf(step / STEPS)));
  return greys;
}

/**
 * The pixels as greys, each as light as its colour was: what CIE L* makes of it, which hangs on the luminance alone.
 * Four bytes a pixel, changed where they stand; transparency stays.
 */
export function makeValues(rgba: { [at: number]: number; readonly length: number }): void {
  const [r, g, b] = TO_XYZ[1];
  const grey8 = greysOf();
  for (let at = 0; at + 3 < rgba.length; at += 4) {
    const luminance = r * LIGHT[rgba[at]!]! + g * LIGHT[rgba[at + 1]!]! + b * LIGHT[rgba[at + 2]!]!;
    const grey = grey8[Math.round(STEPS * luminance)]!;
    rgba[at] = grey;
    rgba[at + 1] = grey;
    rgba[at + 2] = grey;
  }
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
      return Math.round(255 * codedOf(Math.min(1, Math.max(0, value))))
        .toString(16)
        .padStart(2, '0');
    })
    .join('')}`;

/** Light 0 … 1 as a screen's signal 0 … 1. Source: IEC 61966-2-1. */
const codedOf = (light: number): number =>
  light <= 0.0031308 ? light * 12.92 : 1.055 * light ** (1 / 2.4) - 0.055;

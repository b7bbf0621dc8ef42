import type { Point, Ring, Segment } from '../../src/geometry/point.ts';

/**
 * What cutting answers, checked from the words of the trade alone, with measuring of its own: cloth must reach past
 * the patch by the seam allowance on every side; strips run across the fabric and are cut across; every piece is cut
 * once. All of it takes the printed report, nothing of how it was found.
 */

/** What is noise of numbers, inches. */
const NOISE = 1e-6;

export interface CheckedCut {
  readonly kind: string;
  readonly width: number;
  readonly height: number;
  readonly slant?: readonly [number, number];
}

export interface CheckedReport {
  readonly pieces: readonly {
    readonly block: string;
    readonly patch: string;
    readonly fabric: string | null;
    readonly shape: readonly Point[];
    readonly cut: CheckedCut;
  }[];
  readonly fabrics: readonly {
    readonly fabric: string | null;
    readonly usableWidth: number;
    readonly length: number;
    readonly bound: number;
    readonly yards: number;
    readonly strips: readonly {
      readonly height: number;
      readonly cuts: readonly (CheckedCut & {
        readonly for: readonly (readonly [string, string, number])[];
      })[];
    }[];
  }[];
}

const apart = (a: Point, b: Point): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** How far a point lies inside the line through a and b, seen from the inside spot. */
function depth(point: Point, a: Point, b: Point, inside: Point): number {
  const at = (p: Point): number =>
    ((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / apart(a, b);
  return at(inside) > 0 ? at(point) : -at(point);
}

function middleOf(ring: Ring): Point {
  const sum = ring.reduce<[number, number]>(([x, y], p) => [x + p[0], y + p[1]], [0, 0]);
  return [sum[0] / ring.length, sum[1] / ring.length];
}

export interface CheckedPatch {
  readonly polygon: Ring;
  readonly seam: Segment | null;
  readonly allowance: number;
}

/** Everything wrong with the cloth of one patch. Empty when it is right. */
export function pieceFaults(shape: Ring, cut: CheckedCut, patch: CheckedPatch): string[] {
  const faults: string[] = [];
  const middle = middleOf(shape);
  const sides = shape.map((a, i): Segment => [a, shape[(i + 1) % shape.length]!]);
  for (const [a, b] of sides) {
    if (shape.some((corner) => depth(corner, a, b, middle) < -NOISE)) faults.push('the cloth is not convex');
    for (const corner of patch.polygon)
      if (depth(corner, a, b, middle) < patch.allowance - NOISE)
        faults.push(
          `corner ${corner} lies ${depth(corner, a, b, middle)} inside a side, less than ${patch.allowance}`,
        );
  }
  faults.push(...sizeFaults(shape, cut));
  return faults;
}

/** Whether cloth laid along the seam runs past it by the allowance: how far its nearest parallel side lies behind. */
export function pastSeam(shape: Ring, polygon: Ring, [p, q]: Segment): number | null {
  const middle = middleOf(polygon);
  const parallel = shape
    .map((a, i): Segment => [a, shape[(i + 1) % shape.length]!])
    .filter(
      ([a, b]) =>
        Math.abs((b[0] - a[0]) * (q[1] - p[1]) - (b[1] - a[1]) * (q[0] - p[0])) <
        1e-6 * apart(a, b) * apart(p, q),
    )
    .map(([a]) => -depth(a, p, q, middle))
    .filter((behind) => behind > -1e-4);
  return parallel.length === 0 ? null : Math.max(...parallel);
}

function sizeFaults(shape: Ring, cut: CheckedCut): string[] {
  const lengths = shape.map((a, i) => apart(a, shape[(i + 1) % shape.length]!)).sort((a, b) => a - b);
  const wanted: Readonly<Record<string, readonly number[]>> = {
    rectangle: [cut.width, cut.width, cut.height, cut.height],
    'half-square': [cut.width, cut.height, Math.hypot(cut.width, cut.height)],
    'quarter-square': [cut.width, cut.width / Math.SQRT2, cut.width / Math.SQRT2],
    'half-rectangle': cut.slant
      ? [cut.height, ...cut.slant, Math.hypot(cut.height, cut.slant[0] - cut.slant[1])].filter((x) => x > 0)
      : [],
  };
  const sides = [...(wanted[cut.kind] ?? [])].sort((a, b) => a - b);
  const faults: string[] = [];
  if (sides.length !== lengths.length || sides.some((side, i) => Math.abs(side - lengths[i]!) > NOISE))
    faults.push(`sides ${lengths} are not those of a ${cut.kind} ${cut.width} × ${cut.height}`);
  const isSquare = cut.kind.endsWith('-square');
  if (isSquare && cut.width !== cut.height) faults.push(`a ${cut.kind} is ${cut.width} × ${cut.height}`);
  if (cut.slant && Math.abs(cut.slant[0] + cut.slant[1] - cut.width) > NOISE)
    faults.push(`the slant ${cut.slant} does not halve ${cut.width}`);
  return faults;
}

const YIELD: Readonly<Record<string, number>> = {
  rectangle: 1,
  'half-square': 2,
  'quarter-square': 4,
  'half-rectangle': 2,
};

/**
 * Everything wrong with pieces and strips together: every patch of every copy cut once, in its own fabric and size;
 * every strip no wider than the fabric and no lower than what is cut from it; lengths and yards that add up.
 */
export function reportFaults(
  { pieces, fabrics }: CheckedReport,
  wanted: readonly { readonly block: string; readonly patch: string; readonly copies: number }[],
): string[] {
  const faults: string[] = [];
  const keyOf = (block: string, patch: string): string => JSON.stringify([block, patch]);
  const byPatch = new Map(pieces.map((piece) => [keyOf(piece.block, piece.patch), piece]));
  if (byPatch.size !== pieces.length) faults.push('a patch has two pieces');
  if (byPatch.size !== wanted.length) faults.push(`${byPatch.size} pieces for ${wanted.length} patches`);
  const missing = new Set(
    wanted.flatMap(({ block, patch, copies }) =>
      Array.from({ length: copies }, (_, i) => JSON.stringify([block, patch, i + 1])),
    ),
  );
  for (const { fabric, usableWidth, length, bound, yards, strips } of fabrics) {
    let sum = 0;
    for (const { height, cuts } of strips) {
      sum += height;
      const across = cuts.reduce((total, { width }) => total + width, 0);
      if (across > usableWidth + NOISE) faults.push(`${across} is cut from a strip of ${usableWidth}`);
      if (cuts.length === 0) faults.push('nothing is cut from a strip');
      for (const cut of cuts) {
        if (cut.height > height + NOISE) faults.push(`${cut.height} is cut from a strip ${height} high`);
        if (cut.for.length < 1 || cut.for.length > (YIELD[cut.kind] ?? 0))
          faults.push(`a ${cut.kind} is for ${cut.for.length}`);
        for (const [block, patch, copy] of cut.for) {
          if (!missing.delete(JSON.stringify([block, patch, copy])))
            faults.push(`${block} ${patch} copy ${copy} is cut twice, or not wanted`);
          const piece = byPatch.get(keyOf(block, patch));
          if (piece?.fabric !== fabric) faults.push(`${block} ${patch} is cut from ${fabric}`);
          const same = (w: number, h: number): boolean => piece?.cut.width === w && piece.cut.height === h;
          if (piece?.cut.kind !== cut.kind || !(same(cut.width, cut.height) || same(cut.height, cut.width)))
            faults.push(`${block} ${patch} is cut in another size than its piece`);
        }
      }
    }
    if (Math.abs(sum - length) > NOISE) faults.push(`strips of ${sum} make a length of ${length}`);
    if (length < bound - NOISE) faults.push(`${length} is less than the bound ${bound}`);
    const area = strips
      .flatMap(({ cuts }) => cuts)
      .reduce((total, { width, height }) => total + width * height, 0);
    if (bound < area / usableWidth - NOISE)
      faults.push(`the bound ${bound} is less than the cloth of the cuts`);
    if (yards * 36 < length - NOISE || yards * 36 >= length + 4.5)
      faults.push(`${yards} yd for ${length} in`);
    if (Math.abs(yards * 8 - Math.round(yards * 8)) > 1e-9) faults.push(`${yards} yd are no eighths`);
  }
  for (const one of missing) faults.push(`${one} is cut nowhere`);
  return faults;
}

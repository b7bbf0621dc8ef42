/** Convex pieces as corners x, y, x, y … in inches, turning one way; lines as all points with nx·x + ny·y = d. */
export type Piece = readonly number[];

export interface Line {
  readonly nx: number;
  readonly ny: number;
  readonly d: number;
}

/** Corners nearer than this to a line lie on it, inches. */
const ON_LINE_IN = 1e-9;

/**
 * A piece parted along a line: first the side where nx·x + ny·y is less. Null where the line leaves one side empty.
 * New corners are made once and stand in both sides.
 */
export function part(piece: Piece, { nx, ny, d }: Line): readonly [Piece, Piece] | null {
  const n = piece.length;
  const less: number[] = [];
  const more: number[] = [];
  let last = nx * piece[n - 2]! + ny * piece[n - 1]! - d;
  let [px, py] = [piece[n - 2]!, piece[n - 1]!];
  for (let i = 0; i < n; i += 2) {
    const x = piece[i]!;
    const y = piece[i + 1]!;
    const side = nx * x + ny * y - d;
    if ((last < -ON_LINE_IN && side > ON_LINE_IN) || (last > ON_LINE_IN && side < -ON_LINE_IN)) {
      const t = last / (last - side);
      const [cx, cy] = [px + t * (x - px), py + t * (y - py)];
      less.push(cx, cy);
      more.push(cx, cy);
    }
    if (side <= ON_LINE_IN) less.push(x, y);
    if (side >= -ON_LINE_IN) more.push(x, y);
    [last, px, py] = [side, x, y];
  }
  return less.length >= 6 && more.length >= 6 && areaOf(less) > 1e-9 && areaOf(more) > 1e-9
    ? [less, more]
    : null;
}

export function areaOf(piece: Piece): number {
  let sum = 0;
  for (let i = 0, j = piece.length - 2; i < piece.length; j = i, i += 2)
    sum += piece[j]! * piece[i + 1]! - piece[i]! * piece[j + 1]!;
  return Math.abs(sum) / 2;
}

/** The mean of the corners: inside a convex piece. */
export function middleOf(piece: Piece): readonly [number, number] {
  let [x, y] = [0, 0];
  for (let i = 0; i < piece.length; i += 2) [x, y] = [x + piece[i]!, y + piece[i + 1]!];
  return [(2 * x) / piece.length, (2 * y) / piece.length];
}

/** The narrowest a piece is, in any direction: a convex piece is narrowest at right angles to one of its sides. */
export function widthOf(piece: Piece): number {
  let narrowest = Number.POSITIVE_INFINITY;
  const n = piece.length;
  for (let i = 0; i < n; i += 2) {
    const j = i + 2 === n ? 0 : i + 2;
    const [dx, dy] = [piece[j]! - piece[i]!, piece[j + 1]! - piece[i + 1]!];
    const length = Math.hypot(dx, dy);
    if (length < 1e-9) continue;
    let farthest = 0;
    for (let k = 0; k < n; k += 2) {
      const off = Math.abs((piece[k]! - piece[i]!) * dy - (piece[k + 1]! - piece[i + 1]!) * dx) / length;
      if (off > farthest) farthest = off;
    }
    if (farthest < narrowest) narrowest = farthest;
  }
  return narrowest;
}

/** What a piece must not be narrower and sharper than: inches, and the cosine of the angle. */
export interface Limits {
  readonly width: number;
  readonly cosine: number;
}

/** A side shorter than this blunts no corner: what it cuts off is as sharp as before, inches. */
const SHORTEST_IN = 1 / 64;

/** Is no corner of a piece sharper, and no stretch of it narrower, than it may be? */
export function keepsLimits(piece: Piece, limits: Limits): boolean {
  const n = piece.length;
  for (let i = 0; i < n; i += 2) {
    const h = i === 0 ? n - 2 : i - 2;
    const j = i + 2 === n ? 0 : i + 2;
    const [ax, ay] = [piece[h]! - piece[i]!, piece[h + 1]! - piece[i + 1]!];
    const [bx, by] = [piece[j]! - piece[i]!, piece[j + 1]! - piece[i + 1]!];
    if (bx * bx + by * by < SHORTEST_IN * SHORTEST_IN) return false;
    const dot = ax * bx + ay * by;
    if (dot > 0 && dot * dot > limits.cosine * limits.cosine * (ax * ax + ay * ay) * (bx * bx + by * by))
      return false;
  }
  return widthOf(piece) >= limits.width;
}

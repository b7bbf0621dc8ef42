import type { Point, Ring } from '../../src/geometry/point.ts';

/**
 * An independent check of a joining plan, by what a seam is at the machine: two units lie side by side along one
 * straight line, touch along all of one stretch of it and nowhere else, and every unit was made before. Works on
 * polygons and ids alone and shares no code with the project.
 */
export interface CheckedStep {
  readonly left: readonly string[];
  readonly right: readonly string[];
  readonly kind: string;
}

const NEAR = 0.004;

export function joiningFaults(
  pieces: readonly { readonly id: string; readonly polygon: Ring }[],
  steps: readonly CheckedStep[],
): string[] {
  const faults: string[] = [];
  const polygon = new Map(pieces.map((piece) => [piece.id, piece.polygon]));
  let units: string[][] = pieces.map(({ id }) => [id]);
  const key = (ids: readonly string[]): string => [...ids].sort().join(' ');
  if (steps.length !== pieces.length - 1) faults.push(`${steps.length} steps for ${pieces.length} places`);
  steps.forEach(({ left, right, kind }, k) => {
    const made = [left, right].map((side) => units.find((unit) => key(unit) === key(side)));
    if (!made[0] || !made[1] || made[0] === made[1]) {
      faults.push(`step ${k + 1} joins what is not a unit yet`);
      return;
    }
    units = [...units.filter((unit) => unit !== made[0] && unit !== made[1]), [...left, ...right]];
    const shared = sharedStretches(
      left.map((id) => polygon.get(id)!),
      right.map((id) => polygon.get(id)!),
    );
    if (shared.length === 0) faults.push(`step ${k + 1} joins units that do not touch`);
    else if (kind === 'straight' && !isOneStretch(shared)) faults.push(`step ${k + 1} is no straight seam`);
  });
  if (units.length !== 1) faults.push(`${units.length} units are left`);
  return faults;
}

type Stretch = readonly [Point, Point];

/** Where sides of the polygons of one unit lie on sides of those of another. */
function sharedStretches(left: readonly Ring[], right: readonly Ring[]): Stretch[] {
  const found: Stretch[] = [];
  for (const a of left)
    for (const b of right)
      for (let i = 0; i < a.length; i++)
        for (let j = 0; j < b.length; j++) {
          const stretch = overlap([a[i]!, a[(i + 1) % a.length]!], [b[j]!, b[(j + 1) % b.length]!]);
          if (stretch) found.push(stretch);
        }
  return found;
}

function overlap([p, q]: Stretch, [r, s]: Stretch): Stretch | null {
  const length = Math.hypot(q[0] - p[0], q[1] - p[1]);
  const off = ([x, y]: Point): number =>
    Math.abs((q[0] - p[0]) * (y - p[1]) - (q[1] - p[1]) * (x - p[0])) / length;
  if (off(r) > NEAR || off(s) > NEAR) return null;
  const along = ([x, y]: Point): number => ((q[0] - p[0]) * (x - p[0]) + (q[1] - p[1]) * (y - p[1])) / length;
  const from = Math.max(0, Math.min(along(r), along(s)));
  const to = Math.min(length, Math.max(along(r), along(s)));
  if (to - from < NEAR) return null;
  const at = (t: number): Point => [p[0] + (t * (q[0] - p[0])) / length, p[1] + (t * (q[1] - p[1])) / length];
  return [at(from), at(to)];
}

/** Do stretches lie on one line and follow each other without a gap? */
function isOneStretch(stretches: readonly Stretch[]): boolean {
  const points = stretches.flat();
  let [a, b] = [points[0]!, points[1]!];
  for (const p of points)
    for (const q of points)
      if (Math.hypot(q[0] - p[0], q[1] - p[1]) > Math.hypot(b[0] - a[0], b[1] - a[1])) [a, b] = [p, q];
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const along = ([x, y]: Point): number => ((b[0] - a[0]) * (x - a[0]) + (b[1] - a[1]) * (y - a[1])) / length;
  if (
    points.some(([x, y]) => Math.abs((b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0])) / length > NEAR)
  )
    return false;
  const inTurn = stretches
    .map(([p, q]) => [Math.min(along(p), along(q)), Math.max(along(p), along(q))] as const)
    .sort((s, t) => s[0] - t[0]);
  let reached = 0;
  for (const [from, to] of inTurn) {
    if (from > reached + NEAR) return false;
    reached = Math.max(reached, to);
  }
  return true;
}

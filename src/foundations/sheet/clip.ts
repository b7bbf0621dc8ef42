import type { Point, Ring } from '../../geometry/point.ts';
import { type Mark, type TextMark, textCorners } from '../marks.ts';
import type { Typeface } from '../type/typeface.ts';

export interface View {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** Slack for a text or dot whose edge lies on the window's, inches. */
const TOUCH = 1e-6;

export function inView(mark: Mark, view: View, typeface: Typeface): Mark[] {
  const holds = ([x, y]: Point): boolean =>
    x >= view.minX - TOUCH && x <= view.maxX + TOUCH && y >= view.minY - TOUCH && y <= view.maxY + TOUCH;
  switch (mark.kind) {
    case 'line':
      return cut(mark.points, view).map((points) => ({ ...mark, points }));
    case 'polygon': {
      if (mark.ring.every(holds)) return [mark];
      if (mark.fill !== undefined) {
        const ring = cutRing(mark.ring, view);
        return ring.length > 2 ? [{ ...mark, ring }] : [];
      }
      return cut([...mark.ring, mark.ring[0]!], view).map((points) => ({
        kind: 'line',
        pen: mark.pen,
        points,
      }));
    }
    case 'circle': {
      const { at, radius } = mark;
      return holds([at[0] - radius, at[1] - radius]) && holds([at[0] + radius, at[1] + radius]) ? [mark] : [];
    }
    case 'text':
      return inkCorners(mark, typeface).every(holds) ? [mark] : [];
  }
}

function inkCorners(mark: TextMark, typeface: Typeface): readonly Point[] {
  const { up, down } = typeface.extent(mark.text, mark.face);
  return textCorners(mark, up * mark.size, down * mark.size);
}

/** The part of a filled ring inside the window (Sutherland and Hodgman 1974). */
function cutRing(ring: Ring, { minX, minY, maxX, maxY }: View): Ring {
  let rest: Ring = ring;
  for (const [axis, sign, limit] of [
    [0, 1, maxX],
    [0, -1, -minX],
    [1, 1, maxY],
    [1, -1, -minY],
  ] as const) {
    const over = (p: Point): number => sign * p[axis] - limit;
    rest = rest.flatMap((b, i): Point[] => {
      const a = rest.at(i - 1)!;
      const [da, db] = [over(a), over(b)];
      const kept: Point[] = db <= 0 ? [b] : [];
      if (da <= 0 === db <= 0) return kept;
      const t = da / (da - db);
      return [[a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])], ...kept];
    });
  }
  return rest;
}

/** The parts of a polyline inside the window (Liang and Barsky 1984), as few polylines as it falls into. */
function cut(points: readonly Point[], { minX, minY, maxX, maxY }: View): Point[][] {
  const parts: Point[][] = [];
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1]!, points[i]!];
    let from = 0;
    let to = 1;
    for (const [step, room] of [
      [b[0] - a[0], maxX - a[0]],
      [a[0] - b[0], a[0] - minX],
      [b[1] - a[1], maxY - a[1]],
      [a[1] - b[1], a[1] - minY],
    ] as const) {
      if (step === 0) {
        if (room < 0) to = -1;
      } else if (step > 0) to = Math.min(to, room / step);
      else from = Math.max(from, room / step);
    }
    if (from >= to) continue;
    const at = (t: number): Point =>
      t === 0 ? a : t === 1 ? b : [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];
    const last = parts.at(-1);
    const end = last?.at(-1);
    if (last && end && from === 0 && end[0] === a[0] && end[1] === a[1]) last.push(at(to));
    else parts.push([at(from), at(to)]);
  }
  return parts;
}

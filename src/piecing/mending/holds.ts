import type { Plane } from './plane.ts';
import { type Edge, type Tract, tractOf } from './tract.ts';

/** Pieces of a tract, as a mask over all of them. */
export type Part = Uint8Array;

/**
 * What holds in some parts of a tract: what straight seams along its lines cannot take further apart. None exactly when they
 * sew it as it is. A seam that parts the whole parts each half, so it does not matter which is taken first.
 */
export function holdsIn(plane: Plane, tract: Tract, parts: readonly Part[]): Tract[] {
  const lines = linesOf(plane, tract);
  const waiting = [...parts];
  const holds: Tract[] = [];
  while (waiting.length > 0) {
    const part = waiting.pop()!;
    let size = 0;
    for (const isIn of part) size += isIn;
    if (size <= 1) continue;
    const halves = partedFreely(tract, lines, part);
    if (halves) waiting.push(...halves);
    else
      holds.push(
        tractOf(
          plane,
          tract.pieces.filter((_, p) => part[p] === 1),
        ),
      );
  }
  return holds;
}

/** An edge as its line is gone along: from one spot to the next. */
interface Step {
  readonly edge: Edge;
  readonly from: number;
  readonly to: number;
}

/** The edges between pieces, line by line, in turn. */
function linesOf({ spots, lines }: Plane, tract: Tract): Step[][] {
  const byLine = new Map<number, { step: Step; t: number }[]>();
  for (const edge of tract.edges) {
    if (edge.beyond < 0) continue;
    const { along } = lines[edge.line]!;
    const [a, b] = [spots[tract.spots[edge.from]!]!, spots[tract.spots[edge.to]!]!];
    const [s, t] = [a[0] * along[0] + a[1] * along[1], b[0] * along[0] + b[1] * along[1]];
    const step = s < t ? { edge, from: edge.from, to: edge.to } : { edge, from: edge.to, to: edge.from };
    const others = byLine.get(edge.line);
    if (others) others.push({ step, t: Math.min(s, t) });
    else byLine.set(edge.line, [{ step, t: Math.min(s, t) }]);
  }
  return [...byLine.values()].map((steps) => steps.sort((a, b) => a.t - b.t).map(({ step }) => step));
}

/** The two halves of a part along a seam that runs right across it as drawn, or null where none does. */
function partedFreely(tract: Tract, lines: readonly Step[][], part: Part): [Part, Part] | null {
  const isRim = new Uint8Array(tract.spots.length);
  for (const { from, to, piece, beyond } of tract.edges) {
    if (part[piece] === (beyond < 0 ? 0 : part[beyond])) continue;
    isRim[from] = 1;
    isRim[to] = 1;
  }
  for (const steps of lines) {
    let seam: Step[] = [];
    for (const step of steps) {
      const { piece, beyond } = step.edge;
      if (part[piece] !== 1 || part[beyond] !== 1) {
        seam = [];
        continue;
      }
      if (isRim[step.from] === 1) seam = [];
      else if (seam.at(-1)?.to !== step.from) continue;
      seam.push(step);
      if (isRim[step.to] !== 1) continue;
      const halves = halvesAlong(tract, part, seam);
      if (halves) return halves;
      seam = [];
    }
  }
  return null;
}

/** The two halves of a part on either side of a seam; null where it holds together round it. */
function halvesAlong(tract: Tract, part: Part, seam: readonly Step[]): [Part, Part] | null {
  const isSeam = new Set(seam.map(({ edge }) => edge));
  const { piece, beyond } = seam[0]!.edge;
  const left = spreadIn(tract, part, piece, isSeam);
  if (left[beyond] === 1) return null;
  const right = part.slice();
  for (let p = 0; p < right.length; p++) if (left[p] === 1) right[p] = 0;
  return [left, right];
}

/** The pieces of a part reached from one of them without crossing a seam. Cost: O(edges) for each row of pieces. */
function spreadIn({ edges }: Tract, part: Part, first: number, isSeam: ReadonlySet<Edge>): Part {
  const reached = new Uint8Array(part.length);
  reached[first] = 1;
  for (let grew = true; grew; ) {
    grew = false;
    for (const edge of edges) {
      const { piece, beyond } = edge;
      if (beyond < 0 || reached[piece] === reached[beyond]) continue;
      const next = reached[piece] === 1 ? beyond : piece;
      if (part[next] !== 1 || isSeam.has(edge)) continue;
      reached[next] = 1;
      grew = true;
    }
  }
  return reached;
}

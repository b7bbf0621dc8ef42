import { type Division, isPassedThrough, OUTSIDE } from '../geometry/division.ts';
import type { Point, Segment } from '../geometry/point.ts';
import type { Cut } from './block.ts';
import type { Edge } from './plan.ts';

/** An edge between corners of the cells, before the cells have names. */
export interface CellEdge {
  readonly from: Point;
  readonly to: Point;
  /** Cells on the right and on the left of who walks along it, seen from the front; `OUTSIDE` beyond the outline. */
  readonly right: number;
  readonly left: number;
  /** Line it lies on, as a division counts lines. */
  readonly line: number;
}

/**
 * The edges of a division between the corners that its rings have, each once: rightwards, or downwards when upright,
 * in the order in which they begin, as one reads. Cost: O(edges log edges).
 */
export function edgesOf(division: Division): CellEdge[] {
  const { vertices, origin, next, face, line } = division;
  const edges: CellEdge[] = [];
  for (let h = 0; h < origin.length; h++) {
    const from = vertices[origin[h]!]!;
    if (isPassedThrough(division, h)) continue;
    let last = h;
    while (isPassedThrough(division, next[last]!)) last = next[last]!;
    const to = vertices[origin[last ^ 1]!]!;
    // Every edge is met twice, once from each of its ends.
    if (from[0] > to[0] || (from[0] === to[0] && from[1] > to[1])) continue;
    edges.push({ from, to, right: face[h]!, left: face[h ^ 1]!, line: line[h >> 1]! });
  }
  return edges.sort(
    (a, b) => a.from[1] - b.from[1] || a.from[0] - b.from[0] || a.to[1] - b.to[1] || a.to[0] - b.to[0],
  );
}

/** The same as the plan tells them: with the ids of patches and cuts. */
export function namedEdges(
  edges: readonly CellEdge[],
  idOf: readonly string[],
  cuts: readonly Cut[],
): Edge[] {
  const patch = (cell: number): string | null => (cell === OUTSIDE ? null : idOf[cell]!);
  return edges.map(({ from, to, right, left, line }) => ({
    from,
    to,
    right: patch(right),
    left: patch(left),
    line: line < 0 ? null : cuts[line]!.id,
  }));
}

/** A stretch of a patch's boundary that it shares with another patch. */
export interface Contact {
  /** As it runs round the patch. */
  readonly edge: Segment;
  /** Id of the patch beyond it. */
  readonly other: string;
}

/** What each patch shares with others, by patch id; none of a patch that stands alone. Cost: O(edges). */
export function contactsOf(edges: readonly Edge[]): ReadonlyMap<string, readonly Contact[]> {
  const contacts = new Map<string, Contact[]>();
  const add = (patch: string, contact: Contact): void => {
    const known = contacts.get(patch);
    if (known) known.push(contact);
    else contacts.set(patch, [contact]);
  };
  for (const { from, to, right, left } of edges) {
    if (right === null || left === null) continue;
    add(right, { edge: [from, to], other: left });
    add(left, { edge: [to, from], other: right });
  }
  return contacts;
}

import type { Cut, Project } from '../document/project.ts';
import type { Point, Segment } from '../geometry/point.ts';
import { distance } from '../geometry/ring.ts';
import { edgesOf } from '../geometry/segments.ts';
import { moveCornerAttached, moveEnds } from './reshape.ts';
import { placeAt } from './typing.ts';
import { degreesOf } from './words.ts';

/** Cuts and edges changed by numbers: the start stays, the end goes where the numbers put it. What ends on them follows. */

/** Gives cuts a length in inches; each keeps its own direction. */
export const setCutsLength = (
  project: Project,
  blockId: string,
  cutIds: readonly string[],
  inches: number,
): Project =>
  moveEnds(project, blockId, cutIds, 'to', (was, now) => lengthened([was.from, was.to], now.from, inches));

/** Gives cuts a direction in degrees, 0 to the right, against the clock; each keeps its own length. */
export const setCutsAngle = (
  project: Project,
  blockId: string,
  cutIds: readonly string[],
  degrees: number,
): Project =>
  moveEnds(project, blockId, cutIds, 'to', (was, now) =>
    placeAt(now.from, distance(was.from, was.to), degrees),
  );

/** Puts one end of each cut so far across or down, inches; the other way it stays. */
export const setCutsEnd = (
  project: Project,
  blockId: string,
  cutIds: readonly string[],
  end: 'from' | 'to',
  { x, y }: { readonly x?: number; readonly y?: number },
): Project => moveEnds(project, blockId, cutIds, end, (_, now) => [x ?? now[end][0], y ?? now[end][1]]);

/** Gives an edge of the outline a length in inches: the corner at its end moves along it. */
export const setEdgeLength = (project: Project, blockId: string, edge: number, inches: number): Project =>
  setEdge(project, blockId, edge, (segment) => lengthened(segment, segment[0], inches));

/** Turns an edge of the outline about the corner where it starts; degrees as for a cut. */
export const setEdgeAngle = (project: Project, blockId: string, edge: number, degrees: number): Project =>
  setEdge(project, blockId, edge, ([from, to]) => placeAt(from, distance(from, to), degrees));

function setEdge(project: Project, blockId: string, edge: number, to: (segment: Segment) => Point): Project {
  const outline = project.blocks.find(({ id }) => id === blockId)?.outline ?? [];
  const segment = edgesOf(outline)[edge];
  if (segment === undefined) return project;
  return moveCornerAttached(project, blockId, (edge + 1) % outline.length, to(segment));
}

/** Where a stretch of the direction of `line` and of a length in inches ends that begins at `from`. */
function lengthened(line: Segment, from: Point, inches: number): Point {
  const share = inches / distance(...line);
  return [from[0] + (line[1][0] - line[0][0]) * share, from[1] + (line[1][1] - line[0][1]) * share];
}

/** An angle as a field shows it: `45°`, `33.69°`. */
export const degreesText = ({ from, to }: Pick<Cut, 'from' | 'to'>): string =>
  `${Number(degreesOf(from, to).toFixed(2)) % 360}°`;

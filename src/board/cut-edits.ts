import type { Cut, Project } from '../document/project.ts';
import type { Point } from '../geometry/point.ts';
import { distance } from '../geometry/ring.ts';
import { moveEnd } from './reshape.ts';
import { placeAt } from './typing.ts';
import { degreesOf } from './words.ts';

/** A cut changed by numbers: its start stays, its end goes where length and angle put it. What ends on it follows. */

export const setCutLength = (project: Project, blockId: string, cut: Cut, inches: number): Project =>
  endAt(project, blockId, cut, inches, null);

/** Degrees from the start, 0 to the right, against the clock. */
export const setCutAngle = (project: Project, blockId: string, cut: Cut, degrees: number): Project =>
  endAt(project, blockId, cut, distance(cut.from, cut.to), degrees);

function endAt(project: Project, blockId: string, cut: Cut, inches: number, degrees: number | null): Project {
  const { from, to } = cut;
  const length = distance(from, to);
  const end: Point =
    degrees === null
      ? [from[0] + ((to[0] - from[0]) / length) * inches, from[1] + ((to[1] - from[1]) / length) * inches]
      : placeAt(from, inches, degrees);
  return moveEnd(project, blockId, cut.id, 'to', end);
}

/** The angle of a cut as a field shows it: `45`, `33.69`. */
export const degreesText = ({ from, to }: Cut): string => `${Number(degreesOf(from, to).toFixed(2)) % 360}°`;

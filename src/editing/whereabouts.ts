import type { Block, Cut, Unit } from '../document/project.ts';
import { TOUCH_IN } from '../geometry/lattice.ts';
import { formatLength } from '../geometry/length.ts';
import type { Point, Segment } from '../geometry/point.ts';
import { boxOf, distance, distanceToSegment, signedArea } from '../geometry/ring.ts';
import { crossing, edgesOf } from '../geometry/segments.ts';
import type { Patch } from '../piecing/plan.ts';
import { midSentence, phrase } from '../words/phrase.ts';
import { capital, cutName, lengthWords, placeWords } from './words.ts';

/** Places told by what is there, for whoever does not see the drawing. */

/** `from left edge 4 in down to crossing with cut 2, 6 in long`. */
export const cutStory = (block: Block, cut: Cut, unit: Unit): string =>
  phrase('from {placeStory} to {placeStory2}, {from} long', {
    placeStory: placeStory(block, cut.from, unit, cut.id),
    placeStory2: placeStory(block, cut.to, unit, cut.id),
    from: lengthWords(cut.from, cut.to, unit),
  });

/**
 * A place by the corner, the edge or the cut it lies on, and how far along: `top left corner`, `left edge 4 in down`,
 * `cut 2 3 1/2 in from its start`; else by its distances across and down.
 */
export function placeStory(block: Block, at: Point, unit: Unit, exceptCut: string | null = null): string {
  const corner = block.outline.findIndex((point) => distance(point, at) <= TOUCH_IN);
  if (corner >= 0) return cornerName(block, corner);
  for (const [index, edge] of edgesOf(block.outline).entries())
    if (distanceToSegment(at, ...edge) <= TOUCH_IN)
      return `${edgeName(block, index)} ${alongWords(edge, at, unit)}`;
  const on = block.cuts.filter(
    ({ id, from, to }) => id !== exceptCut && distanceToSegment(at, from, to) <= TOUCH_IN,
  );
  const [first, second] = on;
  if (first === undefined) return phrase('open ground at {at}', { at: placeWords(at, unit) });
  const name = midSentence(cutName(block.cuts, first.id));
  if (second !== undefined)
    return phrase('where {name} and {cutName} meet', {
      name,
      cutName: midSentence(cutName(block.cuts, second.id)),
    });
  const atEnd = distance(at, first.from) <= TOUCH_IN || distance(at, first.to) <= TOUCH_IN;
  return atEnd ? phrase('end of {name}', { name }) : phrase('crossing with {name}', { name });
}

/** Along an edge in the way one reads it: how far down an upright one, how far across any other. */
function alongWords([from, to]: Segment, at: Point, unit: Unit): string {
  const isUpright = Math.abs(from[0] - to[0]) < TOUCH_IN;
  const isLevel = Math.abs(from[1] - to[1]) < TOUCH_IN;
  const words = (value: number): string => formatLength(Math.round(value * 65536) / 65536, unit);
  if (isUpright) return phrase('{words} down', { words: words(at[1] - Math.min(from[1], to[1])) });
  if (isLevel) return phrase('{words} across', { words: words(at[0] - Math.min(from[0], to[0])) });
  return phrase('{from} along', { from: lengthWords(from, at, unit) });
}

/** `left edge`, or `edge 3` where an edge is slanted or there are several at that side. */
export function edgeName(block: Block, edge: number): string {
  const [from, to] = edgesOf(block.outline)[edge]!;
  const box = boxOf(block.outline);
  const lies = (axis: 0 | 1, value: number): boolean =>
    Math.abs(from[axis] - value) < TOUCH_IN && Math.abs(to[axis] - value) < TOUCH_IN;
  if (lies(0, box.minX)) return phrase('left edge');
  if (lies(0, box.maxX)) return phrase('right edge');
  if (lies(1, box.minY)) return phrase('top edge');
  if (lies(1, box.maxY)) return phrase('bottom edge');
  return phrase('edge {edge}', { edge: edge + 1 });
}

/** `top left corner`, or `corner 3` where it is none of the box's. */
export function cornerName(block: Block, corner: number): string {
  const [x, y] = block.outline[corner]!;
  const box = boxOf(block.outline);
  const down = y === box.minY ? 'top' : y === box.maxY ? 'bottom' : null;
  const across = x === box.minX ? 'left' : x === box.maxX ? 'right' : null;
  return down === null || across === null
    ? phrase('corner {corner}', { corner: corner + 1 })
    : phrase('{down} {across} corner', { down, across });
}

/** `top left corner, 0, 0 in, 90° inside`. */
export function cornerStory(block: Block, corner: number, unit: Unit): string {
  const at = block.outline[corner]!;
  const inside = phrase('{insideAngle}° inside', {
    insideAngle: Number(insideAngle(block.outline, corner).toFixed(1)),
  });
  return `${cornerName(block, corner)}, ${placeWords(at, unit)}, ${inside}`;
}

/** The angle of a corner inside the outline, degrees, 0 … 360. */
function insideAngle(outline: Block['outline'], corner: number): number {
  const at = outline[corner]!;
  const angleTo = ([x, y]: Point): number => (Math.atan2(y - at[1], x - at[0]) * 180) / Math.PI;
  const turn = angleTo(outline.at(corner - 1)!) - angleTo(outline[(corner + 1) % outline.length]!);
  return (((signedArea(outline) < 0 ? -turn : turn) % 360) + 360) % 360;
}

/** `top edge, from top left corner to top right corner, 6 in long, cut 1 and cut 3 end on it`. */
export function edgeStory(block: Block, edge: number, unit: Unit): string {
  const segment = edgesOf(block.outline)[edge]!;
  const to = (edge + 1) % block.outline.length;
  const ends = block.cuts
    .filter((cut) => [cut.from, cut.to].some((end) => distanceToSegment(end, ...segment) <= TOUCH_IN))
    .map(({ id }) => midSentence(cutName(block.cuts, id)));
  const held =
    ends.length === 0
      ? ''
      : phrase(
          ', {isEnds, select, true {{ends}} other {{ends2} lines}} {ends2, plural, one {ends} other {end}} on it',
          { isEnds: ends.length < 4, ends: inWords(ends), ends2: ends.length },
        );
  return phrase('{edgeName}, from {block} to {block2}, {value} long{held}', {
    edgeName: edgeName(block, edge),
    block: cornerName(block, edge),
    block2: cornerName(block, to),
    value: lengthWords(...segment, unit),
    held,
  });
}

const inWords = (names: readonly string[]): string =>
  names.length === 1
    ? names[0]!
    : phrase('{names} and {names2}', { names: names.slice(0, -1).join(', '), names2: names.at(-1) });

/** A place where lines meet, and the cuts that meet there. */
export interface Joint {
  readonly at: Point;
  /** Ids of cuts. */
  readonly cuts: readonly string[];
}

/** `Cut 1 and cut 2`, or `Cut 2, top edge 6 in across` where only one cut is there. */
export function jointName(block: Block, { at, cuts }: Joint, unit: Unit): string {
  const names = cuts.map((id) => midSentence(cutName(block.cuts, id)));
  return capital(names.length === 1 ? `${names[0]}, ${placeStory(block, at, unit)}` : inWords(names));
}

/** `Cut 1 and cut 2 meet at 6, 4 in`, `Cut 2 meets top edge 6 in across, at 6, 0 in`. */
export function jointStory(block: Block, { at, cuts }: Joint, unit: Unit): string {
  const names = cuts.map((id) => midSentence(cutName(block.cuts, id)));
  const place = placeWords(at, unit);
  return capital(
    names.length === 1
      ? phrase('{name} meets {placeStory}, at {place}', {
          name: names[0],
          placeStory: placeStory(block, at, unit),
          place,
        })
      : phrase('{names} meet at {place}', { names: inWords(names), place }),
  );
}

/** `A3, Fog, number 3 on foundation A, beside A1 and A2`. `fabric`: its name, null where none is laid. */
export function patchStory({ id, section, position, neighbours }: Patch, fabric: string | null): string {
  const turn = position === 1 ? phrase('the first') : phrase('number {position}', { position });
  const beside =
    neighbours.length === 0 ? '' : phrase(', beside {neighbours}', { neighbours: inWords(neighbours) });
  return phrase('{id}, {fabric}, {turn} on foundation {section}{beside}', {
    id,
    fabric: fabric ?? phrase('no fabric yet'),
    turn,
    section,
    beside,
  });
}

/** More pairs than this are not looked through. */
const CUTS_WITH_JOINTS = 600;

/** Every place where cuts meet each other or the outline, in reading order. Cost: O(cuts²). */
export function jointsOf({ cuts, outline }: Block): readonly Joint[] {
  if (cuts.length > CUTS_WITH_JOINTS) return [];
  const joints: { readonly at: Point; readonly cuts: Set<string> }[] = [];
  const note = (at: Point, ids: readonly string[]): void => {
    let joint = joints.find((one) => distance(one.at, at) <= TOUCH_IN);
    if (joint === undefined) {
      joint = { at, cuts: new Set() };
      joints.push(joint);
    }
    for (const id of ids) joint.cuts.add(id);
  };
  const edges = edgesOf(outline);
  for (const [index, cut] of cuts.entries()) {
    const line: Segment = [cut.from, cut.to];
    for (const other of cuts.slice(index + 1)) {
      const at = crossing(line, [other.from, other.to]);
      if (at !== null) note(at, [cut.id, other.id]);
    }
    for (const edge of edges) {
      const at = crossing(line, edge);
      if (at !== null) note(at, [cut.id]);
    }
  }
  return joints
    .map(({ at, cuts: ids }) => ({ at, cuts: [...ids] }))
    .toSorted((a, b) => a.at[1] - b.at[1] || a.at[0] - b.at[0]);
}

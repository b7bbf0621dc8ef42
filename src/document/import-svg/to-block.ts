import { divide, OUTSIDE, ringOf } from '../../geometry/division.ts';
import { LATTICE_STEPS_PER_IN, MAX_COORDINATE_IN, STRAIGHT_IN, TOUCH_IN } from '../../geometry/lattice.ts';
import { outlineFault } from '../../geometry/outline.ts';
import type { Point, Ring, Segment } from '../../geometry/point.ts';
import {
  type Box,
  boxOf,
  contains,
  distance,
  distanceToSegment,
  nearestOnSegment,
  signedArea,
} from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import { CORNERS_PER_OUTLINE, CUTS_PER_BLOCK } from '../limits.ts';
import { longLines } from '../long-lines.ts';
import type { SvgDrawing } from './read-svg.ts';

/**
 * What becomes the outline of the block:
 * - `closed`: the outer edge of what hangs together, the largest such; `box`: the smallest upright rectangle round
 *   all lines; `page`: the page that the file states.
 */
export type OutlineChoice = 'closed' | 'box' | 'page';

/** How large the drawing is: so many of its pixels to the inch, or so wide when finished. */
export type Scale =
  | { readonly kind: 'per-inch'; readonly pixels: number }
  | { readonly kind: 'width'; readonly inches: number };

export interface ToBlockOptions {
  readonly scale: Scale;
  /** Ends that miss each other, or a line, by no more than this are joined. Inches. */
  readonly joinWithin: number;
  /** Without a choice: the outer edge where there is one worth the name, else the rectangle. */
  readonly outline?: OutlineChoice;
}

export interface ImportedBlock {
  /** Inches, its box starting at [0, 0]. */
  readonly outline: Ring;
  readonly cuts: readonly Segment[];
  /** Lines, or parts of them, that lie outside the outline, in the same coordinates. */
  readonly outside: readonly Segment[];
  /** Curves that were left out, from where to where. */
  readonly skipped: readonly Segment[];
  readonly outlineChoice: OutlineChoice;
  /** Which outlines there are to choose from. */
  readonly choices: readonly OutlineChoice[];
  /** Straight pieces that came in; how many lay on others; how many ends were moved to meet something. */
  readonly pieces: number;
  readonly repeated: number;
  readonly joined: number;
}

export type ToBlock =
  | { readonly ok: true; readonly block: ImportedBlock }
  /** A whole sentence. */
  | { readonly ok: false; readonly error: string };

/** Ten times the cuts of a block: in a drawing made patch by patch each line comes several times, and in parts. */
const MOST_PIECES = 10 * CUTS_PER_BLOCK;

/** An outer edge with less than this share of the rectangle round everything is some shape, not the outline. */
const WORTH_THE_NAME = 0.5;

/**
 * Makes a block of what was read: near ends joined, collinear pieces united, repeated ones dropped, an outline
 * chosen, and what lies outside it set apart. Cost: O(n²) in lines, which are at most `CUTS_PER_BLOCK`.
 */
export function toBlock(drawing: SvgDrawing, options: ToBlockOptions): ToBlock {
  const pieces = piecesOf(drawing);
  if (pieces.length === 0) return refuse(phrase('No straight line was found in it.'));
  if (pieces.length > MOST_PIECES)
    return refuse(
      phrase(
        'It has {pieces, number} straight pieces, far too many for a block: up to {mostPieces, number} are read.',
        { pieces: pieces.length, mostPieces: MOST_PIECES },
      ),
    );
  const { scale } = options;
  if (scale.kind === 'per-inch') return atScale(drawing, pieces, 1 / scale.pixels, options);
  // The width meant is that of the outline, which may be narrower than all lines together.
  const box = boxOf(pieces.flat());
  const first = atScale(drawing, pieces, scale.inches / Math.max(box.maxX - box.minX, 1e-9), options);
  if (!first.ok) return first;
  const found = boxOf(first.block.outline);
  const ratio = scale.inches / (found.maxX - found.minX);
  if (Math.abs(ratio - 1) < 1e-9) return first;
  return atScale(drawing, pieces, (ratio * scale.inches) / Math.max(box.maxX - box.minX, 1e-9), options);
}

const refuse = (error: string): ToBlock => ({ ok: false, error });

function piecesOf({ runs }: SvgDrawing): readonly Segment[] {
  const pieces: Segment[] = [];
  for (const { points, isClosed } of runs) {
    for (let i = 1; i < points.length; i++) pieces.push([points[i - 1]!, points[i]!]);
    if (isClosed && points.length > 2) pieces.push([points.at(-1)!, points[0]!]);
  }
  return pieces;
}

function atScale(
  drawing: SvgDrawing,
  pixels: readonly Segment[],
  inPerPx: number,
  { joinWithin, outline: wanted }: ToBlockOptions,
): ToBlock {
  const grown = ([x, y]: Point): Point => [x * inPerPx, y * inPerPx];
  const inches = pixels.map(([a, b]): Segment => [grown(a), grown(b)]);
  const whole = boxOf(inches.flat());
  const [width, height] = [whole.maxX - whole.minX, whole.maxY - whole.minY];
  if (!(Math.max(width, height) <= MAX_COORDINATE_IN))
    return refuse(
      phrase('At this size it would be more than {maxCoordinate} in (25.4 m) across. Choose a smaller one.', {
        maxCoordinate: MAX_COORDINATE_IN,
      }),
    );
  // Everything is brought near the origin before it is measured any finer.
  const near = ([x, y]: Point): Point => [x - whole.minX, y - whole.minY];
  const placed = inches.map(([a, b]): Segment => [near(a), near(b)]);
  const welded = weld(placed, joinWithin);
  const { lines: long, repeated } = longLines(welded.pieces, STRAIGHT_IN / 2, CUTS_PER_BLOCK);
  if (long.length > CUTS_PER_BLOCK)
    return refuse(
      phrase('It comes to more than {cutsPerBlock, number} lines, which is the most that a block may have.', {
        cutsPerBlock: CUTS_PER_BLOCK,
      }),
    );
  const reached = reachOut(long, long, joinWithin);
  const box: Box = boxOf(reached.lines.flat());
  const closed = outerEdge(reached.lines, box);
  const page = drawing.page && {
    minX: drawing.page.minX * inPerPx - whole.minX,
    minY: drawing.page.minY * inPerPx - whole.minY,
    maxX: drawing.page.maxX * inPerPx - whole.minX,
    maxY: drawing.page.maxY * inPerPx - whole.minY,
  };
  const rings: Readonly<Record<OutlineChoice, Ring | null>> = {
    closed,
    box: usable(rectangleOf(box)),
    page: page && usable(rectangleOf(page)),
  };
  const choices = (['closed', 'box', 'page'] as const).filter((one) => rings[one] !== null);
  const own = closed !== null && Math.abs(signedArea(closed)) >= WORTH_THE_NAME * areaOf(box);
  const choice = wanted !== undefined && rings[wanted] !== null ? wanted : own ? 'closed' : 'box';
  const outline = rings[choice];
  if (outline === null)
    return refuse(
      phrase('Its lines lie all on one straight line, so there is nothing to make an outline of.'),
    );
  const sides = outline.map((a, i): Segment => [a, outline[(i + 1) % outline.length]!]);
  const onSides = reachOut(reached.lines, sides, joinWithin);
  const cuts: Segment[] = [];
  const outside: Segment[] = [];
  for (const line of onSides.lines) partBy(line, outline, sides, cuts, outside);
  const origin = boxOf(outline);
  const moved = ([x, y]: Point): Point => [x - origin.minX, y - origin.minY];
  const all = (segments: readonly Segment[]): readonly Segment[] =>
    segments.map(([a, b]): Segment => [moved(a), moved(b)]);
  return {
    ok: true,
    block: {
      outline: outline.map(moved),
      cuts: all(cuts),
      outside: all(outside),
      skipped: all(drawing.skipped.map(([a, b]): Segment => [near(grown(a)), near(grown(b))])),
      outlineChoice: choice,
      choices,
      pieces: pixels.length,
      repeated,
      joined: welded.joined + reached.joined + onSides.joined,
    },
  };
}

const areaOf = ({ minX, minY, maxX, maxY }: Box): number => (maxX - minX) * (maxY - minY);

const rectangleOf = ({ minX, minY, maxX, maxY }: Box): Ring => [
  [minX, minY],
  [maxX, minY],
  [maxX, maxY],
  [minX, maxY],
];

const usable = (ring: Ring): Ring | null =>
  ring.length <= CORNERS_PER_OUTLINE && outlineFault(ring) === null ? ring : null;

/** Ends that lie within a distance of an end met before become that end. */
function weld(
  pieces: readonly Segment[],
  within: number,
): { readonly pieces: readonly Segment[]; readonly joined: number } {
  if (!(within > 0)) return { pieces, joined: 0 };
  const cells = new Map<string, Point[]>();
  let joined = 0;
  const welded = (p: Point): Point => {
    const [cx, cy] = [Math.floor(p[0] / within), Math.floor(p[1] / within)];
    let best: Point | null = null;
    for (let x = cx - 1; x <= cx + 1; x++)
      for (let y = cy - 1; y <= cy + 1; y++)
        for (const q of cells.get(`${x} ${y}`) ?? [])
          if (distance(p, q) <= within && (best === null || distance(p, q) < distance(p, best))) best = q;
    if (best !== null) {
      if (distance(p, best) > TOUCH_IN) joined++;
      return best;
    }
    const key = `${cx} ${cy}`;
    const cell = cells.get(key);
    if (cell) cell.push(p);
    else cells.set(key, [p]);
    return p;
  };
  return { pieces: pieces.map(([a, b]): Segment => [welded(a), welded(b)]), joined };
}

/** Ends closer to a line than this lie on it as well as the lattice can tell. */
const ON_IN = 2 / LATTICE_STEPS_PER_IN;

/**
 * Moves ends that stop short of a line, or run past it, onto the nearest, when it is no farther than the distance: a
 * single end along its own line where that meets the other near by, else straight across; ends that meet one another
 * move together. Ends that touch a line are put right on it.
 */
function reachOut(
  lines: readonly Segment[],
  targets: readonly Segment[],
  within: number,
): { readonly lines: readonly Segment[]; readonly joined: number } {
  const reach = Math.max(within, TOUCH_IN);
  let joined = 0;
  const others = new Map<string, Point[]>();
  for (const [a, b] of lines)
    for (const [end, other] of [
      [a, b],
      [b, a],
    ] as const) {
      const far = others.get(`${end}`);
      if (far) far.push(other);
      else others.set(`${end}`, [other]);
    }
  const places = new Map<string, Point>();
  const placeOf = (end: Point): Point => {
    const meeting = others.get(`${end}`)!;
    let nearest: Segment | null = null;
    let least = reach;
    for (const target of targets) {
      if (isFar(end, target, least)) continue;
      // The lines that end here are no reason to stay, or to go.
      if (targets === lines && (samePoint(target[0], end) || samePoint(target[1], end))) continue;
      const away = distanceToSegment(end, ...target);
      if (away <= ON_IN) return end;
      if (away > least) continue;
      least = away;
      nearest = target;
    }
    if (nearest === null) return end;
    // Several ends at one place go straight across, and none of them may be used up by it.
    const met =
      meeting.length === 1
        ? meetingNear(end, meeting[0]!, nearest, reach)
        : nearestOnSegment(end, ...nearest);
    if (meeting.some((other) => distance(met, other) <= TOUCH_IN)) return end;
    if (least > TOUCH_IN) joined++;
    return met;
  };
  const moved = (end: Point): Point => {
    const place = places.get(`${end}`) ?? placeOf(end);
    places.set(`${end}`, place);
    return place;
  };
  return { lines: lines.map(([a, b]): Segment => [moved(a), moved(b)]), joined };
}

const samePoint = (a: Point, b: Point): boolean => a[0] === b[0] && a[1] === b[1];

const isFar = ([x, y]: Point, [a, b]: Segment, by: number): boolean =>
  x < Math.min(a[0], b[0]) - by ||
  x > Math.max(a[0], b[0]) + by ||
  y < Math.min(a[1], b[1]) - by ||
  y > Math.max(a[1], b[1]) + by;

function meetingNear(end: Point, other: Point, [a, b]: Segment, within: number): Point {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const [ux, uy] = [end[0] - other[0], end[1] - other[1]];
  const turn = ux * dy - uy * dx;
  if (turn !== 0) {
    const t = ((a[0] - end[0]) * dy - (a[1] - end[1]) * dx) / turn;
    const met: Point = [end[0] + t * ux, end[1] + t * uy];
    if (distance(met, end) <= 2 * within && distanceToSegment(met, a, b) <= TOUCH_IN) return met;
  }
  return nearestOnSegment(end, a, b);
}

/**
 * The outer edge of the largest part that hangs together and encloses something: the lines are laid in a frame
 * round them, and what the face along the frame leaves free is looked at.
 */
function outerEdge(lines: readonly Segment[], box: Box): Ring | null {
  const margin = 1 + Math.max(box.maxX - box.minX, box.maxY - box.minY) / 10;
  const frame = rectangleOf({
    minX: box.minX - margin,
    minY: box.minY - margin,
    maxX: box.maxX + margin,
    maxY: box.maxY + margin,
  });
  const divided = divide(frame, lines);
  if (!divided.ok) return null;
  const { division } = divided;
  const round = division.faces.find(({ edge }) => division.face[edge ^ 1] === OUTSIDE);
  let best: Ring | null = null;
  for (const island of round?.islands ?? []) {
    const ring = withoutStraightCorners(ringOf(division, island));
    if (best === null || Math.abs(signedArea(ring)) > Math.abs(signedArea(best))) best = ring;
  }
  if (best === null) return null;
  const turned = signedArea(best) < 0 ? [...best].reverse() : best;
  return usable(fromTopLeft(turned));
}

/** Corners at which the outline runs straight on are no corners. */
function withoutStraightCorners(ring: Ring): Ring {
  const kept: Point[] = [...ring];
  for (let i = 0; i < kept.length && kept.length > 3; ) {
    const before = kept[(i + kept.length - 1) % kept.length]!;
    const next = kept[(i + 1) % kept.length]!;
    if (distanceToSegment(kept[i]!, before, next) <= STRAIGHT_IN / 2) kept.splice(i, 1);
    else i++;
  }
  return kept;
}

/** The same ring beginning at its top left corner, as the outlines of new blocks do. */
function fromTopLeft(ring: Ring): Ring {
  const first = ring.reduce((best, p, i) => {
    const q = ring[best]!;
    return p[0] + p[1] < q[0] + q[1] ? i : best;
  }, 0);
  return [...ring.slice(first), ...ring.slice(0, first)];
}

/** Sorts the stretches of a line into those inside the outline and those outside; what lies on a side is neither. */
function partBy(
  [a, b]: Segment,
  outline: Ring,
  sides: readonly Segment[],
  inside: Segment[],
  outside: Segment[],
): void {
  const length = distance(a, b);
  const at = (t: number): Point =>
    t === 0 ? a : t === 1 ? b : [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];
  const breaks = [0, 1];
  for (const [c, d] of sides) {
    const turn = (b[0] - a[0]) * (d[1] - c[1]) - (b[1] - a[1]) * (d[0] - c[0]);
    for (const p of [c, d]) {
      // A corner of the outline beside the line parts it too.
      if (distanceToSegment(p, a, b) > STRAIGHT_IN) continue;
      breaks.push(((p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1])) / (length * length));
    }
    if (turn === 0) continue;
    const t = ((c[0] - a[0]) * (d[1] - c[1]) - (c[1] - a[1]) * (d[0] - c[0])) / turn;
    const s = ((c[0] - a[0]) * (b[1] - a[1]) - (c[1] - a[1]) * (b[0] - a[0])) / turn;
    if (t > 0 && t < 1 && s >= 0 && s <= 1) breaks.push(t);
  }
  const stops = breaks.filter((t) => t >= 0 && t <= 1).sort((p, q) => p - q);
  let from = 0;
  let kind: 'inside' | 'outside' | 'side' | null = null;
  const close = (to: number): void => {
    if (kind === 'inside') inside.push([at(from), at(to)]);
    if (kind === 'outside') outside.push([at(from), at(to)]);
  };
  for (let i = 1; i < stops.length; i++) {
    const [low, high] = [stops[i - 1]!, stops[i]!];
    // What is shorter than a touch goes with its neighbour.
    if ((high - low) * length <= TOUCH_IN) continue;
    const middle = at((low + high) / 2);
    const isSide = sides.some(([c, d]) => distanceToSegment(middle, c, d) <= STRAIGHT_IN);
    const here = isSide ? 'side' : contains(outline, middle) ? 'inside' : 'outside';
    if (here === kind) continue;
    if (kind !== null) close(low);
    from = kind === null ? 0 : low;
    kind = here;
  }
  close(1);
}

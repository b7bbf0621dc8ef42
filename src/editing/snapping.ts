import type { Block } from '../document/project.ts';
import { snapPoint } from '../geometry/lattice.ts';
import type { Point, Segment } from '../geometry/point.ts';
import { centroid, distance, middle } from '../geometry/ring.ts';
import { along, crossing, edgesOf, meeting, nearestOn } from '../geometry/segments.ts';
import { type GridKind, gridLinesNear, gridOriginFor, gridSpotNear } from './grid.ts';

/**
 * What the pointer is caught by, strongest first; `free` is nothing. `perpendicular`, `parallel`, `same-length` and
 * `step` (of 15°) have to do with where a running line began (`heading.ts`); `typed` is a place given in numbers.
 */
export const SNAP_KINDS = [
  'typed',
  'corner',
  'cut-end',
  'crossing',
  'center',
  'midpoint',
  'division',
  'third',
  'perpendicular',
  'parallel',
  'same-length',
  'step',
  'line',
  'edge',
  'grid',
  'free',
] as const;

export type SnapKind = (typeof SNAP_KINDS)[number];

/** A place on the lattice and the reason for it. */
export interface Snap {
  readonly at: Point;
  readonly kind: SnapKind;
  /** The line that is the reason, where it is not the one under the pointer. */
  readonly guide?: Segment;
}

/** Everything there is to catch the pointer in one state of a block. */
export interface SnapField {
  /** Single spots, strongest kind first. */
  readonly spots: readonly Snap[];
  readonly lines: readonly { readonly segment: Segment; readonly kind: 'line' | 'edge' }[];
  /** Step of the grid from [0, 0] in inches; 0 for none. */
  readonly gridIn: number;
  readonly gridKind: GridKind;
  /** A place the grid goes through; [0, 0] without it. */
  readonly gridOrigin?: Point;
}

export interface SnapOptions {
  readonly gridIn: number;
  readonly gridKind?: GridKind;
  /** Spots of the person's own: where an edge or a cut was divided. */
  readonly divisions?: readonly Point[];
  /** Cuts that are moving and so cannot catch anything. */
  readonly exceptCuts?: ReadonlySet<string>;
  /** Outline corners that are moving; their edges do not catch either. */
  readonly exceptCorners?: readonly number[];
}

/** Crossings are looked for up to this many cuts: pairs grow with the square. */
const CUTS_WITH_CROSSINGS = 600;

/** Collects what can catch the pointer. Cost: O(cuts²) for the crossings; make it once per gesture or edit. */
export function snapField(block: Block, options: SnapOptions): SnapField {
  const cuts: readonly Segment[] = block.cuts
    .filter(({ id }) => !options.exceptCuts?.has(id))
    .map(({ from, to }) => [from, to]);
  const moving = new Set(options.exceptCorners);
  const corners = block.outline.filter((_, index) => !moving.has(index));
  const edges = edgesOf(block.outline).filter(
    (_, index) => !moving.has(index) && !moving.has((index + 1) % block.outline.length),
  );
  const spots: Snap[] = [];
  const add = (kind: SnapKind, at: Point) => spots.push({ kind, at: snapPoint(at) });
  for (const corner of corners) add('corner', corner);
  for (const [from, to] of cuts) {
    add('cut-end', from);
    add('cut-end', to);
  }
  if (cuts.length <= CUTS_WITH_CROSSINGS) {
    for (const [index, cut] of cuts.entries()) {
      for (const other of [...cuts.slice(index + 1), ...edges]) {
        const at = crossing(cut, other);
        if (at !== null) add('crossing', at);
      }
    }
  }
  const center = centroid(block.outline);
  if (center.every(Number.isFinite)) add('center', center);
  for (const segment of [...cuts, ...edges]) add('midpoint', middle(...segment));
  for (const spot of options.divisions ?? []) add('division', spot);
  for (const segment of [...cuts, ...edges])
    for (const share of [1 / 3, 2 / 3]) add('third', along(segment, share));
  return {
    spots: distinct(spots),
    lines: [
      ...cuts.map((segment) => ({ segment, kind: 'line' as const })),
      ...edges.map((segment) => ({ segment, kind: 'edge' as const })),
    ],
    gridIn: options.gridIn,
    gridKind: options.gridKind ?? 'square',
    gridOrigin: gridOriginFor(options.gridKind ?? 'square', block.outline),
  };
}

const NO_DIVISIONS: readonly Point[] = [];

interface KnownField {
  readonly block: Block;
  readonly divisions: readonly Point[];
  readonly field: SnapField;
}

/** The fields made last, the newest first: each is as large as many plans, so those of a long history are let go. */
let fields: readonly KnownField[] = [];
const MOST_FIELDS = 4;

/** The whole field of a block as it lies, made once for each state of it. */
export function fieldOf(
  block: Block,
  gridIn: number,
  gridKind: GridKind = 'square',
  divisions: readonly Point[] = NO_DIVISIONS,
): SnapField {
  const known = fields.find(
    (one) =>
      one.block === block &&
      one.divisions === divisions &&
      one.field.gridIn === gridIn &&
      one.field.gridKind === gridKind,
  );
  if (known !== undefined) return known.field;
  const field = snapField(block, { gridIn, gridKind, divisions });
  fields = [{ block, divisions, field }, ...fields].slice(0, MOST_FIELDS);
  return field;
}

/** Field of an empty sheet: nothing but the grid. */
export const bareField = (gridIn: number, gridKind: GridKind = 'square'): SnapField => ({
  spots: [],
  lines: [],
  gridIn,
  gridKind,
});

/** One spot a place: the first, which is the strongest kind. */
function distinct(spots: readonly Snap[]): readonly Snap[] {
  const byPlace = new Map<string, Snap>();
  for (const spot of spots) {
    const place = `${spot.at[0]},${spot.at[1]}`;
    if (!byPlace.has(place)) byPlace.set(place, spot);
  }
  return [...byPlace.values()];
}

/**
 * What catches the pointer at `at` within `reachIn` inches: the strongest kind, then the nearest. On a line or an
 * edge, the place where the grid crosses it is preferred within the same reach.
 */
export function snapTo(field: SnapField, at: Point, reachIn: number): Snap {
  return (
    nearestSpot(field, at, reachIn) ?? onLine(field, at, reachIn) ?? onGrid(field, at, reachIn) ?? free(at)
  );
}

export const free = (at: Point): Snap => ({ kind: 'free', at: snapPoint(at) });

/** Place of a kind in the order of strength, 0 the strongest. */
export const rankOf = (kind: SnapKind): number => SNAP_KINDS.indexOf(kind);

/** The strongest single spot within reach, then the nearest. */
export function nearestSpot({ spots }: SnapField, at: Point, reachIn: number): Snap | null {
  let best: Snap | null = null;
  let bestRank: number = SNAP_KINDS.length;
  let bestDistance = reachIn;
  for (const spot of spots) {
    const away = distance(spot.at, at);
    if (away > reachIn) continue;
    const rank = rankOf(spot.kind);
    if (rank < bestRank || (rank === bestRank && away < bestDistance)) {
      best = spot;
      bestRank = rank;
      bestDistance = away;
    }
  }
  return best;
}

/** The nearest line within reach, and the place on it, or null. Cuts before edges. */
export function lineUnder(
  { lines }: SnapField,
  at: Point,
  reachIn: number,
): { readonly segment: Segment; readonly kind: 'line' | 'edge'; readonly foot: Point } | null {
  for (const kind of ['line', 'edge'] as const) {
    let best: { readonly segment: Segment; readonly kind: 'line' | 'edge'; readonly foot: Point } | null =
      null;
    let bestDistance = Infinity;
    for (const line of lines) {
      if (line.kind !== kind) continue;
      const foot = nearestOn(line.segment, at);
      const away = distance(foot, at);
      if (away > reachIn || away >= bestDistance) continue;
      best = { segment: line.segment, kind, foot };
      bestDistance = away;
    }
    if (best !== null) return best;
  }
  return null;
}

export function onLine(field: SnapField, at: Point, reachIn: number): Snap | null {
  const line = lineUnder(field, at, reachIn);
  if (line === null) return null;
  const { segment, kind, foot } = line;
  return { kind, at: snapPoint(gridOnLine(field, segment, foot, at, reachIn) ?? foot) };
}

/** The nearest place to the pointer where a line of the grid crosses the segment, within reach. */
function gridOnLine(
  { gridIn, gridKind, gridOrigin }: SnapField,
  segment: Segment,
  foot: Point,
  at: Point,
  reachIn: number,
): Point | null {
  if (gridIn <= 0) return null;
  let best: Point | null = null;
  let bestDistance = reachIn;
  for (const line of gridLinesNear(gridKind, gridIn, foot, gridOrigin)) {
    const met = meeting(line, segment);
    if (met === null) continue;
    const place = along(segment, met.onSegment);
    const away = distance(place, at);
    if (away <= bestDistance) {
      best = place;
      bestDistance = away;
    }
  }
  return best;
}

export function onGrid({ gridIn, gridKind, gridOrigin }: SnapField, at: Point, reachIn: number): Snap | null {
  if (gridIn <= 0) return null;
  const place = gridSpotNear(gridKind, gridIn, at, gridOrigin);
  return distance(place, at) <= reachIn ? { kind: 'grid', at: snapPoint(place) } : null;
}

/** Spots in reading order, row by row: the order in which a keyboard visits them. */
export const inReadingOrder = (field: SnapField): readonly Snap[] =>
  field.spots
    .filter(({ kind }) => kind !== 'midpoint' && kind !== 'third' && kind !== 'center')
    .toSorted((a, b) => a.at[1] - b.at[1] || a.at[0] - b.at[0]);

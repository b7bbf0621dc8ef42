import type { Block } from '../document/project.ts';
import { snapPoint } from '../geometry/lattice.ts';
import type { Point, Segment } from '../geometry/point.ts';
import { distance, middle } from '../geometry/ring.ts';
import { along, crossing, edgesOf, meeting, nearestOn } from './nearness.ts';

/** What the pointer is caught by, strongest first; `free` is nothing. */
export type SnapKind = 'corner' | 'cut-end' | 'crossing' | 'midpoint' | 'line' | 'edge' | 'grid' | 'free';

/** A place on the lattice and the reason for it. */
export interface Snap {
  readonly at: Point;
  readonly kind: SnapKind;
}

/** Everything there is to catch the pointer in one state of a block. */
export interface SnapField {
  /** Single spots, strongest kind first. */
  readonly spots: readonly Snap[];
  readonly lines: readonly { readonly segment: Segment; readonly kind: 'line' | 'edge' }[];
  /** Step of the grid from [0, 0] in inches; 0 for none. */
  readonly gridIn: number;
}

export interface SnapOptions {
  readonly gridIn: number;
  /** Cuts that are moving and so cannot catch anything. */
  readonly exceptCuts?: ReadonlySet<string>;
  /** An outline corner that is moving; its two edges do not catch either. */
  readonly exceptCorner?: number;
}

/** Crossings are looked for up to this many cuts: pairs grow with the square. */
const CUTS_WITH_CROSSINGS = 600;

/** Collects what can catch the pointer. Cost: O(cuts²) for the crossings; make it once per gesture or edit. */
export function snapField(block: Block, options: SnapOptions): SnapField {
  const cuts: readonly Segment[] = block.cuts
    .filter(({ id }) => !options.exceptCuts?.has(id))
    .map(({ from, to }) => [from, to]);
  const moving = options.exceptCorner;
  const corners = block.outline.filter((_, index) => index !== moving);
  const edges = edgesOf(block.outline).filter(
    (_, index) => moving === undefined || (index !== moving && (index + 1) % block.outline.length !== moving),
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
  for (const segment of [...cuts, ...edges]) add('midpoint', middle(...segment));
  return {
    spots: distinct(spots),
    lines: [
      ...cuts.map((segment) => ({ segment, kind: 'line' as const })),
      ...edges.map((segment) => ({ segment, kind: 'edge' as const })),
    ],
    gridIn: options.gridIn,
  };
}

const fields = new WeakMap<Block, SnapField>();

/** The whole field of a block as it lies, made once for each state of it. */
export function fieldOf(block: Block, gridIn: number): SnapField {
  const known = fields.get(block);
  if (known?.gridIn === gridIn) return known;
  const field = snapField(block, { gridIn });
  fields.set(block, field);
  return field;
}

/** Field of an empty sheet: nothing but the grid. */
export const bareField = (gridIn: number): SnapField => ({ spots: [], lines: [], gridIn });

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

const ORDER: readonly SnapKind[] = ['corner', 'cut-end', 'crossing', 'midpoint'];

function nearestSpot({ spots }: SnapField, at: Point, reachIn: number): Snap | null {
  let best: Snap | null = null;
  let bestRank = ORDER.length;
  let bestDistance = reachIn;
  for (const spot of spots) {
    const away = distance(spot.at, at);
    if (away > reachIn) continue;
    const rank = ORDER.indexOf(spot.kind);
    if (rank < bestRank || (rank === bestRank && away < bestDistance)) {
      best = spot;
      bestRank = rank;
      bestDistance = away;
    }
  }
  return best;
}

function onLine({ lines, gridIn }: SnapField, at: Point, reachIn: number): Snap | null {
  let best: Snap | null = null;
  let bestDistance = Infinity;
  for (const kind of ['line', 'edge'] as const) {
    for (const line of lines) {
      if (line.kind !== kind) continue;
      const foot = nearestOn(line.segment, at);
      const away = distance(foot, at);
      if (away > reachIn || away >= bestDistance) continue;
      best = { kind, at: snapPoint(gridOnLine(line.segment, foot, at, gridIn, reachIn) ?? foot) };
      bestDistance = away;
    }
    if (best !== null) return best;
  }
  return null;
}

/** The nearest place to the pointer where a line of the grid crosses the segment, within reach. */
function gridOnLine(segment: Segment, foot: Point, at: Point, gridIn: number, reachIn: number): Point | null {
  if (gridIn <= 0) return null;
  const x = Math.round(foot[0] / gridIn) * gridIn;
  const y = Math.round(foot[1] / gridIn) * gridIn;
  const upright: Segment = [
    [x, foot[1] - 1],
    [x, foot[1] + 1],
  ];
  const level: Segment = [
    [foot[0] - 1, y],
    [foot[0] + 1, y],
  ];
  let best: Point | null = null;
  let bestDistance = reachIn;
  for (const line of [upright, level]) {
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

function onGrid({ gridIn }: SnapField, at: Point, reachIn: number): Snap | null {
  if (gridIn <= 0) return null;
  const place: Point = [Math.round(at[0] / gridIn) * gridIn, Math.round(at[1] / gridIn) * gridIn];
  return distance(place, at) <= reachIn ? { kind: 'grid', at: snapPoint(place) } : null;
}

/** Spots in reading order, row by row: the order in which a keyboard visits them. */
export const inReadingOrder = (field: SnapField): readonly Snap[] =>
  field.spots
    .filter(({ kind }) => kind !== 'midpoint')
    .toSorted((a, b) => a.at[1] - b.at[1] || a.at[0] - b.at[0]);

import type { Point, Ring, Segment } from '../../src/geometry/point.ts';
import type { Block, Cut, CutRole } from '../../src/piecing/block.ts';
import { divideByChords } from './chords.ts';
import { entriesAt } from './entries.ts';
import { drawnWalls, isGuillotine, randomFloorplan } from './floorplans.ts';
import { convexOutline, inwardOutline } from './outlines.ts';
import {
  angleBetween,
  apart,
  areaOf,
  crossing,
  direction,
  distanceToStretch,
  lerp,
  rotated,
  roundPoint,
} from './plane.ts';
import { Prng } from './prng.ts';

/**
 * - `chords`: a convex outline divided by chords, T-junctions mostly. `inward`: the same in a non-convex outline.
 * - `lines`: full lines that cross. `star`: lines through one spot, and others across.
 * - `grid`: squares with diagonals, halves and geese in them. `floorplan`: rectangles, rings among them.
 */
export type DesignKind = 'chords' | 'inward' | 'lines' | 'star' | 'grid' | 'floorplan';

/** A drawn block, and what is known of it from the way it was made. */
export interface Design {
  readonly seed: number;
  readonly kind: DesignKind;
  readonly block: Block;
  /** Number of patches, known by construction. */
  readonly patches: number;
  /** Can straight joins sew it? Known by construction. */
  readonly sewsStraight: boolean;
  readonly area: number;
}

/** A straight line of a design; `fresh` ends have no other line ending there. */
interface Drawn {
  readonly from: Point;
  readonly to: Point;
  readonly freshFrom: boolean;
  readonly freshTo: boolean;
}

interface Sketch {
  readonly outline: Ring;
  readonly lines: readonly Drawn[];
  readonly patches: number;
  readonly sewsStraight: boolean;
}

const KINDS: readonly DesignKind[] = [
  'chords',
  'chords',
  'chords',
  'inward',
  'inward',
  'lines',
  'star',
  'grid',
  'floorplan',
];
const LEAST_PATCHES = 3;
const MOST_PATCHES = 80;
/** Tries before a design is refused: floorplans have 40 rooms at most, stars few more patches than that. */
const MOST_SKETCHES = 200;

export interface DesignOptions {
  readonly kind?: DesignKind;
  /** Fewest and most patches aimed at. */
  readonly patches?: readonly [number, number];
  /** Ends drawn a little past or short of where they belong: never, at ends of their own, or at all ends. */
  readonly endErrors?: 'none' | 'fresh' | 'all';
  /** Chance of a cut to be pinned as join or seam. */
  readonly pinned?: number;
}

/**
 * The design of a seed: 3 to 80 patches, half of them turned by an odd angle, a third with end errors, some with
 * cuts drawn in two goes or the other way round, in random order. Coordinates are multiples of 2^-16 in.
 * The same seed and options always give the same design. Throws where a kind cannot have so many patches.
 */
export function designOf(seed: number, options: DesignOptions = {}): Design {
  const rng = new Prng(seed);
  const kind = options.kind ?? rng.pick(KINDS);
  const [low, high] = options.patches ?? (rng.chance(0.5) ? [LEAST_PATCHES, 20] : [20, MOST_PATCHES]);
  const sketchAgain = (): Sketch =>
    sketchOf(rng, kind, rng.whole(low, high), low > MOST_PATCHES ? high : null);
  let sketch = sketchAgain();
  for (let made = 1; sketch.patches < low || sketch.patches > high; made++) {
    if (made >= MOST_SKETCHES)
      throw new Error(`No design of kind ${kind} with ${low} to ${high} patches in ${made} tries.`);
    sketch = sketchAgain();
  }
  const errors = options.endErrors ?? (rng.chance(1 / 3) ? 'fresh' : 'none');
  const cuts = rng
    .shuffled(sketch.lines)
    .flatMap((line) => drawnAsCuts(rng, line, errors))
    .map(([from, to], i): Cut => ({ id: `c${i + 1}`, from, to, role: roleOf(rng, options.pinned ?? 0) }));
  return {
    seed,
    kind,
    patches: sketch.patches,
    sewsStraight: sketch.sewsStraight,
    area: Math.abs(areaOf(sketch.outline)),
    block: {
      id: `design-${seed}`,
      name: `Design ${seed}`,
      outline: sketch.outline,
      cuts,
      patches: entriesAt(paintIn(rng, sketch)),
    },
  };
}

function roleOf(rng: Prng, pinned: number): CutRole {
  return rng.chance(pinned) ? rng.pick(['join', 'seam'] as const) : 'auto';
}

function paintIn(rng: Prng, sketch: Sketch): { at: Point; fabric: string }[] {
  if (rng.chance(0.5)) return [];
  const xs = sketch.outline.map((p) => p[0]);
  const ys = sketch.outline.map((p) => p[1]);
  return Array.from({ length: rng.whole(1, sketch.patches) }, () => ({
    at: roundPoint([
      rng.between(Math.min(...xs), Math.max(...xs)),
      rng.between(Math.min(...ys), Math.max(...ys)),
    ]),
    fabric: rng.pick(['night-sea', 'lamp', 'sand', 'gull']),
  }));
}

/** A line as a hand draws it: either way round, in one go or two, its ends up to 0.04 mm past or short. */
function drawnAsCuts(rng: Prng, line: Drawn, errors: 'none' | 'fresh' | 'all'): Segment[] {
  const length = apart(line.from, line.to);
  const off = (isFresh: boolean): number =>
    errors === 'all' || (errors === 'fresh' && isFresh) ? rng.between(-0.04, 0.04) / 25.4 / length : 0;
  const from = roundPoint(lerp(line.from, line.to, off(line.freshFrom)));
  const to = roundPoint(lerp(line.to, line.from, off(line.freshTo)));
  const ends: Segment = rng.chance(0.5) ? [from, to] : [to, from];
  if (length < 1 || !rng.chance(0.1)) return [ends];
  const middle = roundPoint(lerp(ends[0], ends[1], rng.between(0.3, 0.7)));
  return [
    [ends[0], middle],
    [ends[1], middle],
  ];
}

/** `most` patches where more are wanted than designs have by themselves, else null. */
function sketchOf(rng: Prng, kind: DesignKind, patches: number, most: number | null): Sketch {
  const side = Math.min(24, Math.max(4, 1.6 * Math.sqrt(patches)));
  switch (kind) {
    case 'chords':
    case 'inward': {
      const outline = kind === 'chords' ? convexOutline(rng, side) : inwardOutline(rng, side);
      const division = divideByChords(rng, outline, patches, { gap: 0.2, width: 0.15 });
      return { outline, lines: division.chords, patches: division.faces.length, sewsStraight: true };
    }
    case 'lines':
    case 'star':
      return crossingLines(rng, side, patches, kind === 'star', most);
    case 'grid':
      return grid(rng, patches);
    case 'floorplan':
      return floorplan(rng, patches);
  }
}

/** Full lines across a convex outline. Faces: one, one more a line, one more a line at each crossing. */
function crossingLines(rng: Prng, side: number, patches: number, star: boolean, most: number | null): Sketch {
  const mostTries = most === null ? 400 : 4000;
  const gap = 0.15;
  const outline = convexOutline(rng, side);
  const lines: Drawn[] = [];
  const spots: Point[] = [...outline];
  let faces = 1;
  const centre: Point = [
    outline.reduce((sum, p) => sum + p[0], 0) / outline.length,
    outline.reduce((sum, p) => sum + p[1], 0) / outline.length,
  ];
  const spokes = star ? rng.whole(3, 6) : 0;
  const first = rng.between(0, Math.PI);
  for (let i = 0; i < spokes; i++) {
    const angle = first + (Math.PI * (i + rng.between(-0.2, 0.2))) / spokes;
    const ends = rimSpots(outline, centre, [Math.cos(angle), Math.sin(angle)]);
    if (!ends || ends.some((end) => spots.some((spot) => apart(end, spot) < gap))) continue;
    spots.push(...ends);
    lines.push({ from: ends[0], to: ends[1], freshFrom: true, freshTo: true });
  }
  if (lines.length > 1) spots.push(centre);
  faces += lines.length > 0 ? 2 * lines.length - 1 : 0;
  for (let tries = 0; faces < patches && tries < mostTries; tries++) {
    const [side, other] = rng.shuffled(outline.map((_, i) => i));
    const rim = [rimSpot(rng, outline, side!), rimSpot(rng, outline, other!)] as const;
    const crossings: Point[] = [];
    let fits = apart(rim[0], rim[1]) > 1 && !outline.some((p) => distanceToStretch(p, rim[0], rim[1]) < gap);
    for (const line of lines) {
      if (!fits) break;
      const at = crossing([line.from, line.to], rim);
      if (at) crossings.push(at);
      const angle = angleBetween(direction(line.from, line.to), direction(rim[0], rim[1]));
      if (at ? angle < 0.2 || angle > Math.PI - 0.2 : endsNear(line, rim, gap)) fits = false;
    }
    const all = [...spots, ...crossings, ...rim];
    const isNear = (p: Point): boolean => all.some((q) => q !== p && apart(p, q) < gap);
    if (!fits || [...crossings, ...rim].some(isNear) || faces + 1 + crossings.length > (most ?? MOST_PATCHES))
      continue;
    if (lines.length > 1 && star && distanceToStretch(centre, rim[0], rim[1]) < gap) continue;
    spots.push(...crossings, ...rim);
    lines.push({ from: rim[0], to: rim[1], freshFrom: true, freshTo: true });
    faces += 1 + crossings.length;
  }
  return { outline, lines, patches: faces, sewsStraight: true };
}

const endsNear = (line: Drawn, [a, b]: Segment, gap: number): boolean =>
  distanceToStretch(line.from, a, b) < gap ||
  distanceToStretch(line.to, a, b) < gap ||
  distanceToStretch(a, line.from, line.to) < gap ||
  distanceToStretch(b, line.from, line.to) < gap;

function rimSpot(rng: Prng, outline: Ring, i: number): Point {
  return roundPoint(lerp(outline[i]!, outline[(i + 1) % outline.length]!, rng.between(0.05, 0.95)));
}

/** The two spots where a line through an inner point leaves a convex outline. */
function rimSpots(outline: Ring, [cx, cy]: Point, [dx, dy]: Point): [Point, Point] | null {
  const far: Segment = [
    [cx - 1000 * dx, cy - 1000 * dy],
    [cx + 1000 * dx, cy + 1000 * dy],
  ];
  const spots = outline
    .map((p, i) => crossing([p, outline[(i + 1) % outline.length]!], far))
    .filter((spot) => spot !== null);
  return spots.length === 2 ? [roundPoint(spots[0]!), roundPoint(spots[1]!)] : null;
}

/** What a grid square may hold: lines on the unit square, and the patches they leave. */
const SQUARES: readonly { readonly lines: readonly Segment[]; readonly patches: number }[] = [
  { lines: [], patches: 1 },
  {
    lines: [
      [
        [0, 0],
        [1, 1],
      ],
    ],
    patches: 2,
  },
  {
    lines: [
      [
        [1, 0],
        [0, 1],
      ],
    ],
    patches: 2,
  },
  {
    lines: [
      [
        [0, 0],
        [1, 1],
      ],
      [
        [1, 0],
        [0, 1],
      ],
    ],
    patches: 4,
  },
  {
    lines: [
      [
        [0.5, 0],
        [0.5, 1],
      ],
    ],
    patches: 2,
  },
  {
    lines: [
      [
        [0, 1],
        [0.5, 0],
      ],
      [
        [0.5, 0],
        [1, 1],
      ],
    ],
    patches: 3,
  },
  {
    lines: [
      [
        [0, 0.5],
        [0.5, 0],
      ],
    ],
    patches: 2,
  },
  {
    lines: [
      [
        [0, 0],
        [1, 1],
      ],
      [
        [0, 1],
        [0.5, 0.5],
      ],
    ],
    patches: 3,
  },
];

/** Squares in rows and columns with lines in them; the grid drawn as full lines, or side by side, or both. */
function grid(rng: Prng, patches: number): Sketch {
  const columns = rng.whole(1, Math.max(1, Math.floor(Math.sqrt(patches))));
  const rows = Math.max(1, Math.min(8, Math.round(patches / 2 / columns)));
  const cell = rng.pick([1, 1.5, 2, 1.37]);
  const palette = rng.shuffled(SQUARES).slice(0, rng.whole(1, 4));
  const angle = rng.chance(0.5) ? rng.between(0, 2 * Math.PI) : 0;
  const place = ([x, y]: Point): Point => roundPoint(rotated([x * cell, y * cell], [0, 0], angle));
  const lines: Segment[] = [];
  let count = 0;
  for (let x = 0; x < columns; x++) {
    for (let y = 0; y < rows; y++) {
      const square = rng.pick(palette);
      count += square.patches;
      for (const [a, b] of square.lines) {
        lines.push([
          [x + a[0], y + a[1]],
          [x + b[0], y + b[1]],
        ]);
      }
    }
  }
  const inPieces = rng.chance(0.3);
  for (let x = 1; x < columns; x++) {
    if (inPieces)
      for (let y = 0; y < rows; y++)
        lines.push([
          [x, y],
          [x, y + 1],
        ]);
    else
      lines.push([
        [x, 0],
        [x, rows],
      ]);
  }
  for (let y = 1; y < rows; y++) {
    if (inPieces)
      for (let x = 0; x < columns; x++)
        lines.push([
          [x, y],
          [x + 1, y],
        ]);
    else
      lines.push([
        [0, y],
        [columns, y],
      ]);
    if (rng.chance(0.1))
      lines.push([
        [0, y],
        [columns, y],
      ]);
  }
  const corners: Ring = [
    [0, 0],
    [columns, 0],
    [columns, rows],
    [0, rows],
  ];
  return {
    outline: corners.map(place),
    lines: lines.map(([a, b]) => ({ from: place(a), to: place(b), freshFrom: false, freshTo: false })),
    patches: count,
    sewsStraight: true,
  };
}

/** A random floorplan, drawn as its walls; many are rings that no straight joins can sew. */
function floorplan(rng: Prng, patches: number): Sketch {
  const plan = randomFloorplan(rng, Math.min(patches, 40));
  const rising = (steps: number): number[] => {
    const list = [0];
    for (let i = 0; i < steps; i++) list.push(list[i]! + rng.between(0.35, 1.2));
    return list;
  };
  const xs = rising(plan.width);
  const ys = rising(plan.height);
  const angle = rng.chance(0.5) ? rng.between(0, 2 * Math.PI) : 0;
  const place = (p: Point): Point => roundPoint(rotated(p, [0, 0], angle));
  const [width, height] = [xs[plan.width]!, ys[plan.height]!];
  const corners: Ring = [
    [0, 0],
    [width, 0],
    [width, height],
    [0, height],
  ];
  return {
    outline: corners.map(place),
    lines: drawnWalls(plan, xs, ys).map(([a, b]) => ({
      from: place(a),
      to: place(b),
      freshFrom: true,
      freshTo: true,
    })),
    patches: plan.rooms.length,
    sewsStraight: isGuillotine(plan.rooms),
  };
}

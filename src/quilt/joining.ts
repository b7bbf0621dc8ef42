import { isBlockPlace, type Joining } from '../document/quilt.ts';
import type { Point } from '../geometry/point.ts';
import { boxOf, centroid, cross, distance, signedArea } from '../geometry/ring.ts';
import { assemble } from '../piecing/assemble.ts';
import type { Assembly } from '../piecing/assembly.ts';
import { type Chord, chordLength, chordsOf, type Parting, partAlong } from '../piecing/partings.ts';
import type { Pattern } from '../piecing/pattern.ts';
import { holdsWithout, knotOf } from '../piecing/peel.ts';
import type { Join } from '../piecing/plan.ts';
import { cellsOf, maskOf, type Region, without } from '../piecing/region.ts';
import { setInSplits } from '../piecing/set-in.ts';
import type { Layout } from './layout.ts';

/** How the places of a quilt are joined: one step fewer than places, each unit made before it is needed. */
export interface JoiningPlan {
  /** `left` and `right` are ids of places. */
  readonly steps: readonly Join[];
  /** Places that hold each other so that no straight seam lets them in, by index; one for each step set in on their account. */
  readonly rings: readonly (readonly number[])[];
  /** Steps that sew a side of a mitred border on, turning at its corners: wanted so, and no trouble. */
  readonly mitres: number;
  /** Units asked for that straight seams cannot keep whole, by their number in the list. */
  readonly refused: readonly number[];
}

/** Why there is no joining plan. */
export type NoPlan = 'empty' | 'overlaps' | 'apart' | 'tangled';

export type Joined =
  | { readonly ok: true; readonly plan: JoiningPlan }
  | { readonly ok: false; readonly why: NoPlan };

/** Ways to open a ring that are weighed. */
const WAYS_IN = 8;

/**
 * The joining plan of a quilt, by the parting that serves inside a block. Any straight seam may be taken first without
 * spoiling a later one (`rings.ts`), so each region takes the seam that its way of joining likes best, and a plan by
 * straight seams is found whenever there is one.
 *
 * - `balanced`: blocks into blocks. The seam whose longer half is shortest, then the one whose larger half is smallest.
 *   The first choice alone settles the longest unit, so that it is the shortest there can be. The length of all seams
 *   together is the same for every plan: each edge between two places is sewn once.
 * - `rows`, `columns`: the last row, or column, wherever a seam runs that way; on point a row is slanted.
 *
 * `units` are kept whole by every seam that does not lie inside them, as far as straight seams can.
 */
export function joiningOf(
  layout: Layout,
  way: Joining = 'balanced',
  units: readonly (readonly string[])[] = [],
): Joined {
  const { pattern, region, pieces, pieceOf } = layout;
  if (pieces.length === 0) return { ok: false, why: 'empty' };
  if (pattern === null) return { ok: false, why: 'tangled' };
  if (layout.overlaps.length > 0) return { ok: false, why: 'overlaps' };
  if (!layout.isConnected) return { ok: false, why: 'apart' };
  const cellOf = new Map<string, number>();
  for (let c = 0; c < pieceOf.length; c++) if (pieceOf[c]! >= 0) cellOf.set(pieces[pieceOf[c]!]!.place.id, c);
  if (cellOf.size !== pieces.length) return { ok: false, why: 'tangled' };

  const kept: Region[] = units.map((ids) =>
    maskOf(
      pattern,
      ids.flatMap((id) => cellOf.get(id) ?? []),
    ),
  );
  const refused = new Set<number>();
  const weigh = weighing(pattern, way);
  const rings: number[][] = [];
  let mitres = 0;
  const tree = build(region);
  return {
    ok: true,
    plan: { steps: stepsOf(layout, tree), rings, mitres, refused: [...refused].sort((a, b) => a - b) },
  };

  function build(unit: Region): Assembly {
    const first = unit.indexOf(1);
    if (unit.indexOf(1, first + 1) < 0) return { kind: 'foundation', region: unit };
    const parting = bestParting(unit);
    if (parting)
      return { kind: 'straight', region: unit, left: build(parting.left), right: build(parting.right) };
    const mitred = mitredSide(unit);
    if (mitred) {
      mitres++;
      return { kind: 'set-in', region: unit, left: build(without(unit, mitred)), right: build(mitred) };
    }
    rings.push(knotOf(pattern!, unit).map((c) => pieceOf[c]!));
    const split = setInSplits(pattern!, unit, WAYS_IN)[0];
    if (!split) throw new Error('a ring of places has no way in');
    const kind = split.corners === 0 ? 'straight' : 'set-in';
    return { kind, region: unit, left: build(split.left), right: build(split.right) };
  }

  /**
   * A side of a mitred border, the outermost first. It is sewn on along its whole length and then along one slanting end
   * or both: a seam that turns at the corner, which is what a mitred corner is.
   */
  function mitredSide(unit: Region): Region | null {
    for (let k = pieces.length - 1; k >= 0; k--) {
      const { place } = pieces[k]!;
      if (place.part !== 'border' || isBlockPlace(place) || place.shape === undefined) continue;
      const c = cellOf.get(place.id)!;
      if (unit[c] === 1 && holdsWithout(pattern!, unit, c)) return maskOf(pattern!, [c]);
    }
    return null;
  }

  function bestParting(unit: Region): Parting | null {
    const chords = chordsOf(pattern!, unit);
    const holding = kept.map((_, k) => k).filter((k) => !refused.has(k) && isPartlyIn(kept[k]!, unit));
    for (;;) {
      const best = weigh(unit, chords, (parting) => holding.every((k) => isWhole(kept[k]!, parting)));
      if (best || holding.length === 0) return best;
      // Some unit asked for stands in the way of every seam: the smallest gives way first.
      const least = holding.reduce((a, b) => (sizeOf(kept[b]!) < sizeOf(kept[a]!) ? b : a));
      refused.add(least);
      holding.splice(holding.indexOf(least), 1);
    }
  }
}

const sizeOf = (region: Region): number => cellsOf(region).length;

/** Has the region cells of the unit asked for, but others as well? */
function isPartlyIn(asked: Region, unit: Region): boolean {
  let inside = 0;
  let others = 0;
  for (let c = 0; c < unit.length; c++) {
    if (unit[c] !== 1) continue;
    if (asked[c] === 1) inside++;
    else others++;
  }
  return inside > 1 && others > 0;
}

function isWhole(asked: Region, { left, right }: Parting): boolean {
  let inLeft = false;
  let inRight = false;
  for (let c = 0; c < asked.length; c++) {
    if (asked[c] !== 1) continue;
    inLeft ||= left[c] === 1;
    inRight ||= right[c] === 1;
  }
  return !(inLeft && inRight);
}

type Weigh = (
  unit: Region,
  chords: readonly Chord[],
  allows: (parting: Parting) => boolean,
) => Parting | null;

function weighing(pattern: Pattern, way: Joining): Weigh {
  if (way === 'balanced') return balanced(pattern);
  return (unit, chords, allows) => {
    const inTurn = chords
      .map((chord) => ({ chord, ...runOf(pattern, chord) }))
      .sort((a, b) => leaning(a.slope, way) - leaning(b.slope, way) || b.offset - a.offset);
    for (const { chord } of inTurn) {
      const parting = partAlong(pattern, unit, chord);
      if (parting && allows(parting)) return parting;
    }
    return null;
  };
}

/** How a chord runs: its angle from level, falling to the right positive, in (-90°, 90°]; and how far along its normal, down or right, it lies. */
function runOf({ division }: Pattern, { edges }: Chord): { slope: number; offset: number } {
  const { origin, vertices } = division;
  const [x1, y1] = vertices[origin[edges[0]!]!]!;
  const [x2, y2] = vertices[origin[edges.at(-1)! ^ 1]!]!;
  const length = distance([x1, y1], [x2, y2]);
  // Chords head rightwards, or downwards when upright (`pattern.ts`).
  const [dx, dy] = [(x2 - x1) / length, (y2 - y1) / length];
  const slope = (Math.atan2(dy, dx) * 180) / Math.PI;
  return { slope, offset: Math.abs(dx) < 1e-9 ? x1 : -dy * x1 + dx * y1 };
}

/** What rows and columns like: first seams that run their way, then those that lean, rising ones for rows and falling ones for columns. */
function leaning(slope: number, way: Joining): number {
  const off = Math.round(Math.abs(slope));
  const turned = way === 'rows' ? off : 90 - off;
  return 2 * turned + Number(slope > 0 === (way === 'rows'));
}

interface Extent {
  area: number;
  minX: number;
  minY: number;
  maxX: number;
  maxY: number;
}

const emptyExtent = (): Extent => ({
  area: 0,
  minX: Number.POSITIVE_INFINITY,
  minY: Number.POSITIVE_INFINITY,
  maxX: Number.NEGATIVE_INFINITY,
  maxY: Number.NEGATIVE_INFINITY,
});

function balanced(pattern: Pattern): Weigh {
  const { division } = pattern;
  const extents = division.faces.map((_, c): Extent & { readonly middle: Point } => {
    const ring = Array.from(pattern.loops[c]![0]!, (h): Point => division.vertices[division.origin[h]!]!);
    return { area: signedArea(ring), middle: centroid(ring), ...boxOf(ring) };
  });
  return (unit, chords, allows) => {
    const cells = cellsOf(unit);
    const weighed = chords
      .map((chord) => ({ chord, weight: weightOf(chord, cells) }))
      .sort((a, b) => compareWeights(a.weight, b.weight));
    for (const { chord } of weighed) {
      const parting = partAlong(pattern, unit, chord);
      if (parting && allows(parting)) return parting;
    }
    return null;
  };

  /** What a seam would leave to either side of its line: of a region without dents that is what it parts it into. */
  function weightOf(chord: Chord, cells: readonly number[]): readonly number[] {
    const { origin, vertices } = division;
    const a = vertices[origin[chord.edges[0]!]!]!;
    const b = vertices[origin[chord.edges.at(-1)! ^ 1]!]!;
    const halves = [emptyExtent(), emptyExtent()] as const;
    for (const c of cells) {
      const extent = extents[c]!;
      const half = halves[cross(a, b, extent.middle) > 0 ? 0 : 1];
      half.area += extent.area;
      half.minX = Math.min(half.minX, extent.minX);
      half.minY = Math.min(half.minY, extent.minY);
      half.maxX = Math.max(half.maxX, extent.maxX);
      half.maxY = Math.max(half.maxY, extent.maxY);
    }
    return [
      Math.max(longerSide(halves[0]), longerSide(halves[1])),
      Math.max(halves[0].area, halves[1].area),
      chordLength(pattern, chord),
    ];
  }
}

const longerSide = ({ minX, minY, maxX, maxY }: Extent): number => Math.max(maxX - minX, maxY - minY);

/** By the first number that differs by more than the lattice explains. */
function compareWeights(a: readonly number[], b: readonly number[]): number {
  for (let k = 0; k < a.length; k++) if (Math.abs(a[k]! - b[k]!) > 1e-3) return a[k]! - b[k]!;
  return 0;
}

/** The steps as the units come ready, the upper or left unit first: as sections are joined, each place one section. */
function stepsOf({ pattern, pieces, pieceOf }: Layout, tree: Assembly): Join[] {
  const { sections, joins } = assemble(pattern!, tree);
  const idOf = new Map(
    sections.map(({ letter, region }) => [letter, pieces[pieceOf[region.indexOf(1)]!]!.place.id]),
  );
  const ids = (letters: readonly string[]): string[] => letters.map((letter) => idOf.get(letter)!);
  return joins.map((join) => ({ ...join, left: ids(join.left), right: ids(join.right) }));
}

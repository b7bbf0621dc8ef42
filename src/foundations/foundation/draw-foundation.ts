import { holdsPoint } from '../../geometry/inner-spot.ts';
import type { LengthUnit } from '../../geometry/length.ts';
import type { Point, Ring, Segment } from '../../geometry/point.ts';
import { boxOf, contains, distance, distanceToSegment, middle } from '../../geometry/ring.ts';
import type { Patch, PiecingPlan, Section } from '../../piecing/plan.ts';
import { type Mark, PT, type TextMark, textCorners } from '../marks.ts';
import type { SheetShape } from '../sheet/filling.ts';
import type { Side } from '../side.ts';
import { blockMarks } from '../type/lettering.ts';
import type { Typeface } from '../type/typeface.ts';
import { corners, holeTrimLine, trimLine } from './allowance.ts';
import { setTitle, type Title } from './edge-labels.ts';
import { type FabricStyle, fabricMarks } from './fabric-marks.ts';
import type { LabelBox } from './ground.ts';
import type { FabricLabel, JoiningEdge, LabelRoom, LaidPatch } from './label-request.ts';
import { placeLabels } from './labels.ts';
import { type JoiningSide, joiningSides } from './mates.ts';
import { boundariesOf } from './regions.ts';
import type { TickCount } from './tick-counts.ts';

export type { Side } from '../side.ts';

export interface PaperRequest {
  readonly plan: PiecingPlan;
  /** Letter of the section to draw. */
  readonly section: string;
  /** Name of the block, as the typeface can print it. */
  readonly blockName: string;
  readonly fabrics: ReadonlyMap<string, FabricLabel>;
  /** Seam allowance, inches. */
  readonly allowance: number;
  readonly side: Side;
  readonly copies: number;
  readonly unit: LengthUnit;
  readonly room: LabelRoom;
  /** Ticks of each join of the plan, see `tickCounts`. */
  readonly ticks: ReadonlyMap<number, TickCount>;
  /** How patches show their fabric. */
  readonly style: FabricStyle;
  /** Whether patches at the edge of the block carry a straight-grain arrow. */
  readonly grain: boolean;
  readonly typeface: Typeface;
}

/** One foundation drawn, from the upper left corner of its box. Inches, y down. */
export interface Paper {
  readonly section: string;
  readonly width: number;
  readonly height: number;
  /** What it covers of its box: the trim line first, then the box of every mark that reaches beyond it. */
  readonly rings: readonly Ring[];
  /** All that is alike on every copy. */
  readonly marks: readonly Mark[];
  readonly title: Title | null;
  /** Ids of fabrics that are shown by their code somewhere on the paper. */
  readonly codedFabrics: readonly string[];
  /** Labels that found no free place, see `PlacedLabels`. */
  readonly crowded: readonly string[];
}

/** Half the length of an arm of a registration cross, inches. */
const CROSS_IN = 0.045;

/** From one of several ticks at a point to the next, inches. */
export const TICK_GAP_IN = 2.2 * PT;

/** A sewing line that meets the outline at a very flat angle is ticked no farther than this × the allowance. */
const LONGEST_TICK = 3;

/** Within this angle of a registration tick a line's own tick would lie on it and is left out: 4°. */
const SAME_TICK = Math.cos((4 * Math.PI) / 180);

/** Where a section lies on its paper. Rings turn as the section's do; inches from the paper's upper left corner. */
interface Frame {
  readonly width: number;
  readonly height: number;
  readonly toPaper: (point: Point) => Point;
  readonly outline: Ring;
  readonly holes: readonly Ring[];
  /** The trim line, then those in holes wide enough to have one. */
  readonly trims: readonly Ring[];
}

function frameOf(section: Section, allowance: number, side: Side): Frame {
  // The one place where a drawing is mirrored.
  const turnedOver = ([x, y]: Point): Point => (side === 'printed' ? [-x, y] : [x, y]);
  const ringOver = (ring: Ring, place: (point: Point) => Point): Ring => {
    const placed = ring.map(place);
    return side === 'printed' ? placed.reverse() : placed;
  };
  const trims: readonly Ring[] = [
    trimLine(ringOver(section.outline, turnedOver), allowance),
    ...section.holes
      .map((hole) => holeTrimLine(ringOver(hole, turnedOver), allowance))
      .filter((ring) => ring !== null),
  ];
  // Registration crosses at the corners reach beyond a very narrow allowance.
  const rim = Math.max(0, CROSS_IN - allowance);
  const { minX, minY, maxX, maxY } = boxOf(trims[0]!);
  const shift = ([x, y]: Point): Point => [x - minX + rim, y - minY + rim];
  const toPaper = (point: Point): Point => shift(turnedOver(point));
  return {
    width: maxX - minX + 2 * rim,
    height: maxY - minY + 2 * rim,
    toPaper,
    outline: ringOver(section.outline, toPaper),
    holes: section.holes.map((hole) => ringOver(hole, toPaper)),
    trims: trims.map((ring) => ring.map(shift)),
  };
}

/** A section's paper without labels beyond its trim line: its size in inches, and its trim line on it. */
export function bareShape(section: Section, allowance: number, side: Side): SheetShape {
  const { width, height, trims } = frameOf(section, allowance, side);
  return { width, height, rings: [trims[0]!], isStraight: false };
}

/** The lines a section's paper is sewn along: between its patches, and its outline; inches on the paper. */
export function sewnLines(
  plan: PiecingPlan,
  section: Section,
  allowance: number,
  side: Side,
): readonly Segment[] {
  const frame = frameOf(section, allowance, side);
  const patches = plan.patches.filter((patch) => patch.section === section.letter);
  const sides = [frame.outline, ...frame.holes].flatMap((ring) =>
    ring.map((a, i): Segment => [a, ring[(i + 1) % ring.length]!]),
  );
  return [...sharedEdges(patches).map(([a, b]): Segment => [frame.toPaper(a), frame.toPaper(b)]), ...sides];
}

/** The boxes of marks that do not lie inside the trim line. */
function beyond(trim: Ring, marks: readonly Mark[], typeface: Typeface): Ring[] {
  return marks
    .map((mark) => reach(mark, typeface))
    .filter((points) =>
      points.some(
        (point) =>
          !contains(trim, point) &&
          trim.every((a, i) => distanceToSegment(point, a, trim[(i + 1) % trim.length]!) > 1e-6),
      ),
    );
}

/**
 * Draws one foundation: the section mirrored (x → -x) for the printed side, with sewing lines, trim line, ticks,
 * registration points and labels. The section must be one of the plan's.
 */
export function drawPaper(request: PaperRequest): Paper {
  const { plan, allowance, side, fabrics } = request;
  const section = plan.sections.find((one) => one.letter === request.section);
  if (!section) throw new Error(`The plan has no section ${request.section}.`);
  const frame = frameOf(section, allowance, side);
  const patches = plan.patches.filter((patch) => patch.section === section.letter);
  const unit = plan.patches.filter((patch) => section.startsFrom.includes(patch.section));

  const place = ([a, b]: Segment): Segment => [frame.toPaper(a), frame.toPaper(b)];
  const sewnBefore = new Set(sharedEdges(unit).map(String));
  const seams = sharedEdges([...patches, ...unit])
    .filter((edge) => !sewnBefore.has(String(edge)))
    .map(place);
  const edges = joiningSides(plan, section).map((one) => joiningEdge(one, request.ticks, frame, side));
  const registration = registrationMarks(edges, frame, allowance);
  const ticks = allowance > 0 ? seamTicks(seams, frame, registration.ticks, allowance) : [];

  const lines: Mark[] = [
    ...sharedEdges(unit).map((edge): Mark => ({ kind: 'line', pen: 'unit', points: place(edge) })),
    ...seams.map((points): Mark => ({ kind: 'line', pen: 'seam', points })),
    ...[frame.outline, ...frame.holes].map(
      (ring): Mark => ({ kind: 'polygon', pen: 'edge', ring: corners(ring) }),
    ),
    ...ticks.map((points): Mark => ({ kind: 'line', pen: 'tick', points })),
    ...registration.marks,
    ...(allowance > 0 ? frame.trims : []).map((ring): Mark => ({ kind: 'polygon', pen: 'trim', ring })),
  ];

  const edgeOf = request.grain ? blockEdges(plan) : () => null;
  const laid = [
    ...laidUnit(section, unit, frame),
    ...patches.map((patch) => laidPatch(patch, fabrics, edgeOf(patch), frame)),
  ];
  const labels = placeLabels({
    ...request,
    section,
    patches: laid,
    outline: frame.outline,
    trim: frame.trims[0]!,
    edges,
    obstacles: obstaclesOf(lines),
  });

  const { title, codedFabrics, crowded } = labels;
  const titleMarks = title
    ? blockMarks(setTitle(request, title, request.copies), title.slot.at, title.slot.turn)
    : [];
  const box = boxOf([
    [0, 0],
    [frame.width, frame.height],
    ...[...labels.marks, ...titleMarks].flatMap((mark) => reach(mark, request.typeface)),
  ]);
  const dx = -box.minX;
  const dy = -box.minY;
  const fabricsShown = fabricMarks(
    laid,
    request.style,
    [...labels.marks, ...titleMarks].flatMap((mark) => labelBox(mark, request.typeface) ?? []),
  );
  const marks = [...fabricsShown, ...lines, ...labels.marks].map((mark) => shifted(mark, dx, dy));
  const trim = frame.trims[0]!.map(([x, y]): Point => [x + dx, y + dy]);
  return {
    section: section.letter,
    width: box.maxX - box.minX,
    height: box.maxY - box.minY,
    rings: [
      trim,
      ...beyond(trim, [...marks, ...titleMarks.map((mark) => shifted(mark, dx, dy))], request.typeface),
    ],
    marks,
    title: title && { ...title, slot: { ...title.slot, at: [title.slot.at[0] + dx, title.slot.at[1] + dy] } },
    codedFabrics,
    crowded,
  };
}

/** The box around a text, and around the line of an arrow, that hatching keeps off. */
function labelBox(mark: Mark, typeface: Typeface): LabelBox | null {
  if (mark.kind !== 'text') return null;
  const [a, , c] = textCorners(mark, ...inkOf(mark, typeface)) as [Point, Point, Point, Point];
  const { up, down } = typeface.extent(mark.text, mark.face);
  return {
    middle: middle(a, c),
    halfWidth: mark.width / 2 + LABEL_PAD_IN,
    halfHeight: ((up + down) * mark.size) / 2 + LABEL_PAD_IN,
    turn: (mark.turn * Math.PI) / 180,
  };
}

const inkOf = ({ text, face, size }: TextMark, typeface: Typeface): [up: number, down: number] => {
  const { up, down } = typeface.extent(text, face);
  return [up * size, down * size];
};

/** Clear space that hatching leaves around a label, inches. */
const LABEL_PAD_IN = 1.5 * PT;

/** The direction of a patch's longest edge on the outside of the block, as a vector on the front; null for none. */
export function blockEdges(plan: PiecingPlan): (patch: Patch) => Point | null {
  const name = (a: Point, b: Point): string => `${a} ${b}`;
  const all = new Set(plan.patches.flatMap((patch) => edgesOf(patch).map(([a, b]) => name(a, b))));
  return (patch) => {
    const outer = edgesOf(patch).filter(([a, b]) => !all.has(name(b, a)));
    const [longest] = outer.sort((a, b) => distance(...b) - distance(...a));
    return longest ? [longest[1][0] - longest[0][0], longest[1][1] - longest[0][1]] : null;
  };
}

const edgesOf = ({ polygon, holes }: Patch): [Point, Point][] =>
  [polygon, ...holes].flatMap((ring) =>
    ring.map((a, i): [Point, Point] => [a, ring[(i + 1) % ring.length]!]),
  );

function laidPatch(
  patch: Patch,
  fabrics: ReadonlyMap<string, FabricLabel>,
  edge: Point | null,
  { toPaper }: Frame,
): LaidPatch {
  const fabric = patch.fabric === null ? undefined : fabrics.get(patch.fabric);
  return {
    id: patch.id,
    area: { polygon: patch.polygon.map(toPaper), holes: patch.holes.map((hole) => hole.map(toPaper)) },
    fabric: fabric ?? null,
    fabricId: fabric ? patch.fabric : null,
    grain: edge && vector(toPaper([0, 0]), toPaper(edge)),
  };
}

const vector = (a: Point, b: Point): Point => [b[0] - a[0], b[1] - a[1]];

/** The finished unit at position 1, where the paper starts from one. */
function laidUnit({ letter, startsFrom }: Section, unit: readonly Patch[], { toPaper }: Frame): LaidPatch[] {
  const [ring] = boundariesOf(unit);
  if (!ring) return [];
  const code = startsFrom.join('');
  return [
    {
      id: `${letter}1`,
      area: { polygon: ring.map(toPaper), holes: [] },
      fabric: { name: `unit ${startsFrom.join(', ')}`, code, meaning: code, look: null },
      fabricId: null,
      grain: null,
    },
  ];
}

/** The title of one copy. */
export function titleOfCopy(typeface: Typeface, { title }: Paper, copy: number): readonly TextMark[] {
  return title ? blockMarks(setTitle({ typeface }, title, copy), title.slot.at, title.slot.turn) : [];
}

/** Every edge that two of the patches share, once, its ends in rising order. */
function sharedEdges(patches: readonly Patch[]): Segment[] {
  const seen = new Set<string>();
  const shared: Segment[] = [];
  for (const { polygon, holes } of patches) {
    for (const ring of [polygon, ...holes]) {
      ring.forEach((a, i) => {
        const b = ring[(i + 1) % ring.length]!;
        const edge: Segment = a[0] < b[0] || (a[0] === b[0] && a[1] < b[1]) ? [a, b] : [b, a];
        if (seen.has(String(edge))) shared.push(edge);
        else seen.add(String(edge));
      });
    }
  }
  return shared;
}

function joiningEdge(
  one: JoiningSide,
  ticksOf: ReadonlyMap<number, TickCount>,
  { toPaper }: Frame,
  side: Side,
): JoiningEdge {
  const [a, b] = one.side;
  const mirrored = side === 'printed';
  const inTurn = <T>(items: readonly T[]): readonly T[] => (mirrored ? [...items].reverse() : items);
  const { join } = one;
  return {
    step: join && (join.kind === 'set-in' ? `join ${join.step}, set in` : `join ${join.step}`),
    edge: mirrored ? [toPaper(b), toPaper(a)] : [toPaper(a), toPaper(b)],
    mates: inTurn(one.mates),
    points: inTurn(one.points.map((point) => ({ ...point, at: toPaper(point.at) }))),
    ticks: (join && ticksOf.get(join.step)) ?? 1,
  };
}

/** Crosses on the seam, a ring round those where seams must meet, and a tick across the allowance at each. */
function registrationMarks(
  edges: readonly JoiningEdge[],
  { trims }: Frame,
  allowance: number,
): { readonly marks: readonly Mark[]; readonly ticks: readonly Segment[] } {
  const marks: Mark[] = [];
  const ticks: Segment[] = [];
  const crossed: Point[] = [];
  const ringed: Point[] = [];
  for (const { edge, points, ticks: count } of edges) {
    const along = direction(edge);
    const outward: Point = [along[1], -along[0]];
    for (const { at, kind } of points) {
      if (!crossed.some((other) => distance(other, at) < CROSS_IN / 4)) {
        crossed.push(at);
        marks.push(...cross(at, along));
      }
      if (kind === 'match' && !ringed.some((other) => distance(other, at) < CROSS_IN / 4)) {
        ringed.push(at);
        marks.push({ kind: 'circle', pen: 'registration', at, radius: CROSS_IN, filled: false });
      }
      if (allowance <= 0) continue;
      const tickFrom = (from: Point): Segment => {
        const far = Math.min(allowance, rayTo(trims, from, outward));
        return [from, [from[0] + far * outward[0], from[1] + far * outward[1]]];
      };
      ticks.push(tickFrom(at));
      // Several stand evenly about the point, so that they lie on one another on both mates.
      for (let k = 0; k < count; k++) {
        const aside = (k - (count - 1) / 2) * TICK_GAP_IN;
        const points = tickFrom([at[0] + aside * along[0], at[1] + aside * along[1]]);
        marks.push({ kind: 'line', pen: 'registration', points });
      }
    }
  }
  return { marks, ticks };
}

/** Two arms aslant to the seam, so that neither hides in it. */
function cross(at: Point, along: Point): Mark[] {
  const c = Math.SQRT1_2 * CROSS_IN;
  const arms: readonly Point[] = [
    [c * (along[0] - along[1]), c * (along[0] + along[1])],
    [c * (along[0] + along[1]), c * (along[1] - along[0])],
  ];
  return arms.map(([x, y]) => ({
    kind: 'line',
    pen: 'registration',
    points: [
      [at[0] - x, at[1] - y],
      [at[0] + x, at[1] + y],
    ],
  }));
}

/** Where a sewing line meets the outline it runs on across the allowance, to the trim line. */
function seamTicks(
  seams: readonly Segment[],
  { outline, holes, trims }: Frame,
  registrationTicks: readonly Segment[],
  allowance: number,
): Segment[] {
  const onOutline = new Set([outline, ...holes].flat().map(String));
  const ticks: Segment[] = [];
  for (const [a, b] of seams) {
    for (const [from, at] of [
      [b, a],
      [a, b],
    ] as const) {
      if (!onOutline.has(String(at))) continue;
      const along = direction([from, at]);
      // At an inward corner a line may run on into the section itself.
      if (holdsPoint({ polygon: outline, holes }, [at[0] + 1e-3 * along[0], at[1] + 1e-3 * along[1]]))
        continue;
      const marked = registrationTicks.some(([start, end]) => {
        const other = direction([start, end]);
        return distance(start, at) < 1e-3 && other[0] * along[0] + other[1] * along[1] > SAME_TICK;
      });
      if (marked) continue;
      const far = Math.min(LONGEST_TICK * allowance, rayTo(trims, at, along));
      ticks.push([at, [at[0] + far * along[0], at[1] + far * along[1]]]);
    }
  }
  return ticks;
}

/** Distance from a point along a unit direction to the first side of the rings ahead of it; infinite when none. */
function rayTo(rings: readonly Ring[], from: Point, along: Point): number {
  let nearest = Number.POSITIVE_INFINITY;
  for (const ring of rings) {
    ring.forEach((a, i) => {
      const b = ring[(i + 1) % ring.length]!;
      const sideA = along[0] * (a[1] - from[1]) - along[1] * (a[0] - from[0]);
      const sideB = along[0] * (b[1] - from[1]) - along[1] * (b[0] - from[0]);
      if (sideA > 0 === sideB > 0) return;
      const share = sideA / (sideA - sideB);
      const x = a[0] + share * (b[0] - a[0]) - from[0];
      const y = a[1] + share * (b[1] - a[1]) - from[1];
      const ahead = x * along[0] + y * along[1];
      if (ahead > 1e-4 && ahead < nearest) nearest = ahead;
    });
  }
  return nearest;
}

function direction([a, b]: Segment): Point {
  const length = distance(a, b);
  return [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
}

/** The straight stretches of drawn lines, for labels to keep off. */
function obstaclesOf(lines: readonly Mark[]): Segment[] {
  return lines.flatMap((mark): Segment[] => {
    switch (mark.kind) {
      case 'line':
        return mark.points.slice(1).map((point, i): Segment => [mark.points[i]!, point]);
      case 'polygon':
        return mark.ring.map((point, i): Segment => [point, mark.ring[(i + 1) % mark.ring.length]!]);
      default:
        return [];
    }
  });
}

/** Points around a mark, as far as it reaches. */
function reach(mark: Mark, typeface: Typeface): readonly Point[] {
  switch (mark.kind) {
    case 'line':
      return mark.points;
    case 'polygon':
      return mark.ring;
    case 'circle':
      return [
        [mark.at[0] - mark.radius, mark.at[1] - mark.radius],
        [mark.at[0] + mark.radius, mark.at[1] - mark.radius],
        [mark.at[0] + mark.radius, mark.at[1] + mark.radius],
        [mark.at[0] - mark.radius, mark.at[1] + mark.radius],
      ];
    case 'text': {
      const { up, down } = typeface.extent(mark.text, mark.face);
      return textCorners(mark, up * mark.size, down * mark.size);
    }
  }
}

function shifted(mark: Mark, dx: number, dy: number): Mark {
  const move = ([x, y]: Point): Point => [x + dx, y + dy];
  switch (mark.kind) {
    case 'line':
      return { ...mark, points: mark.points.map(move) };
    case 'polygon':
      return { ...mark, ring: mark.ring.map(move) };
    case 'circle':
    case 'text':
      return { ...mark, at: move(mark.at) };
  }
}

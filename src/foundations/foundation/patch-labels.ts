import { type Area, holdsPoint, innerSpot, levelStretches } from '../../geometry/inner-spot.ts';
import type { Point, Ring } from '../../geometry/point.ts';
import { boxOf, distance } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import { type Mark, PT } from '../marks.ts';
import type { TextBlock } from '../type/lettering.ts';
import type { Face, Typeface } from '../type/typeface.ts';
import { boxCorners, type Ground } from './ground.ts';
import {
  boxAround,
  type LabelRequest,
  type LaidPatch,
  SMALLEST_PT,
  stack,
  type Try,
} from './label-request.ts';

/** Sizes in points of the number and of the fabric under it, largest first. */
const SIZES: readonly (readonly [number: number, fabric: number])[] = [
  [13, 8.5],
  [11, 7.5],
  [9, 7],
  [7.5, 6.5],
  [SMALLEST_PT, SMALLEST_PT],
];

/** Tried before them where type is to be large; with codes before smaller names. */
const LARGE_SIZES: typeof SIZES = [
  [20, 14],
  [17, 12],
  [14, 10.5],
  [12, 9],
];

type Lines = readonly (readonly [text: string, face: Face, points: number])[];

export interface PatchTry extends Try {
  /** The fabric is shown by its code. */
  readonly coded: boolean;
}

/**
 * Number and fabric inside the patch: upright and as large as fits, by name before by code; in a patch too narrow
 * for that, in one line along it. Null when none fits.
 */
export function insidePatch(request: LabelRequest, ground: Ground, laid: LaidPatch): PatchTry | null {
  const { area } = laid;
  const box = boxOf(area.polygon);
  for (const { lines, coded, isSpare } of wordings(request, laid)) {
    const block = stack(request.typeface, lines);
    const [wide, high] = isSpare ? ROOM_TO_SPARE : [1, 1];
    if (wide * block.width > box.maxX - box.minX || high * block.height > box.maxY - box.minY) continue;
    const size = lines[0]![2];
    const pad = Math.max(0.8, Math.min(2.5, size / 5)) * PT;
    // Fewer spots are tried at the larger sizes, since a smaller one will do.
    for (const at of spotsIn(area, block, size === SMALLEST_PT ? 16 : 6)) {
      const one = { block, slot: { at, turn: 0 }, pad, coded };
      if (holdsPoint(area, at) && ground.isFree(boxAround(one))) return one;
    }
  }
  return alongPatch(request, ground, laid);
}

/** Number and fabric in one line along the longest edge of the patch, reading from the left or from below. */
function alongPatch(request: LabelRequest, ground: Ground, laid: LaidPatch): PatchTry | null {
  const turn = readingTurn(laid.area.polygon);
  const level = rotated(laid.area, -turn);
  const { fabric, id: number } = laid;
  const texts = [
    ...(fabric?.name ? [{ text: `${number} ${fabric.name}`, coded: false }] : []),
    { text: fabric ? `${number} ${fabric.code}` : number, coded: fabric !== null },
  ];
  const box = boxOf(level.polygon);
  for (const { text, coded } of texts) {
    for (const size of [7, SMALLEST_PT]) {
      const block = stack(request.typeface, [[text, 'semibold', size]]);
      if (block.width > box.maxX - box.minX || block.height > box.maxY - box.minY) continue;
      for (const spot of spotsIn(level, block, 12)) {
        const at = turnedBy(spot, turn);
        const one = { block, slot: { at, turn }, pad: 0.5 * PT, coded };
        if (holdsPoint(laid.area, at) && ground.isFree(boxAround(one))) return one;
      }
    }
  }
  return null;
}

const turnedBy = ([x, y]: Point, angle: number): Point => [
  x * Math.cos(angle) - y * Math.sin(angle),
  x * Math.sin(angle) + y * Math.cos(angle),
];

const rotated = ({ polygon, holes }: Area, angle: number): Area => ({
  polygon: polygon.map((point) => turnedBy(point, angle)),
  holes: holes.map((hole) => hole.map((point) => turnedBy(point, angle))),
});

/** Direction of a ring's longest edge, in radians from -90° up to less than 90°. */
function readingTurn(ring: Ring): number {
  let longest = 0;
  let turn = 0;
  ring.forEach((a, i) => {
    const b = ring[(i + 1) % ring.length]!;
    if (distance(a, b) <= longest + 1e-9) return;
    longest = distance(a, b);
    turn = Math.atan2(b[1] - a[1], b[0] - a[0]);
  });
  if (turn >= Math.PI / 2 - 1e-9) return turn - Math.PI;
  return turn < -Math.PI / 2 - 1e-9 ? turn + Math.PI : turn;
}

interface Wording {
  readonly lines: Lines;
  readonly coded: boolean;
  /** It says more than it must: only where the patch has room to spare. */
  readonly isSpare?: boolean;
}

function* wordings(request: LabelRequest, laid: LaidPatch): Generator<Wording> {
  if (request.large) yield* wordingsIn(LARGE_SIZES, LARGE_SIZES, request, laid);
  yield* wordingsIn(SIZES, SIZES.slice(1), request, laid);
  if (laid.fabric)
    yield { lines: [[`${laid.id} ${laid.fabric.code}`, 'semibold', SMALLEST_PT]], coded: true };
}

/** How many times as wide and as high as the words a patch must be that has room to spare for more of them. */
const ROOM_TO_SPARE = [1.5, 2] as const;

/** So many of the sizes are tried with the words that say where to start. */
const START_TRIES = 3;

const START = phrase('start here');

/** Number and name in some sizes, largest first, then number and code; position 1 says that one starts there. */
function* wordingsIn(
  sizes: typeof SIZES,
  codeSizes: typeof SIZES,
  { typeface }: LabelRequest,
  { fabric, id: number, isFirst }: LaidPatch,
): Generator<Wording> {
  const inSizes = function* (
    some: typeof SIZES,
    unders: readonly (readonly string[])[],
    coded: boolean,
  ): Generator<Wording> {
    for (const start of isFirst ? [[START], []] : [[]])
      for (const [size, small] of start.length > 0 ? some.slice(0, START_TRIES) : some)
        for (const under of unders) {
          const smaller = [...under, ...start].map((text) => [text, 'regular', small] as const);
          yield { lines: [[number, 'semibold', size], ...smaller], coded, isSpare: start.length > 0 };
        }
  };
  if (!fabric) {
    yield* inSizes(sizes, [[]], false);
    return;
  }
  const { name, code } = fabric;
  if (name !== null) {
    const [upper, lower] = balanced(typeface, name);
    yield* inSizes(sizes, lower === '' ? [[name]] : [[name], [upper, lower]], false);
  }
  yield* inSizes(codeSizes, [[code]], true);
}

/** A name in two lines as even as its blanks allow; the lower is empty where it has none. */
function balanced(typeface: Typeface, name: string): readonly [string, string] {
  let best: readonly [string, string] = [name, ''];
  let least = Number.POSITIVE_INFINITY;
  for (let i = name.indexOf(' '); i >= 0; i = name.indexOf(' ', i + 1)) {
    const halves = [name.slice(0, i), name.slice(i + 1)] as const;
    const widest = Math.max(...halves.map((text) => typeface.extent(text, 'regular').width));
    if (widest >= least) continue;
    least = widest;
    best = halves;
  }
  return best;
}

/** The spot with most room for a box of these proportions: the inmost one of the area measured in box widths and heights. */
function roomiest(area: Area, block: TextBlock): Point {
  const scaled = (ring: Ring): Ring => ring.map(([x, y]) => [x / block.width, y / block.height]);
  const [x, y] = innerSpot({ polygon: scaled(area.polygon), holes: area.holes.map(scaled) });
  return [x * block.width, y * block.height];
}

/** The roomiest spot, then those of `spotsOver`: each is looked for only where those before it are taken. */
function* spotsIn(area: Area, block: TextBlock, most: number): Generator<Point> {
  yield roomiest(area, block);
  yield* spotsOver(area, block, most);
}

/** The inmost spot of an area, then spots all over it, those nearest to that first; at most `most` each way. */
export function* spotsOver(area: Area, block: TextBlock, most = 16): Generator<Point> {
  const inmost = inmostOf(area);
  yield inmost;
  const { minX, minY, maxX, maxY } = boxOf(area.polygon);
  const spots: { readonly at: Point; readonly off: number }[] = [];
  const columns = Math.min(most, Math.ceil((3 * (maxX - minX)) / block.width));
  const rows = Math.min(most, Math.ceil((3 * (maxY - minY)) / block.height));
  for (let i = 1; i < columns; i++)
    for (let j = 1; j < rows; j++) {
      const at: Point = [minX + ((maxX - minX) * i) / columns, minY + ((maxY - minY) * j) / rows];
      spots.push({ at, off: distance(at, inmost) });
    }
  spots.sort((a, b) => a.off - b.off);
  for (const { at } of spots) yield at;
}

const inmostSpots = new WeakMap<Area, Point>();

/** The inmost spot of an area, searched for once: one place is tried for many texts. */
function inmostOf(area: Area): Point {
  const known = inmostSpots.get(area);
  if (known) return known;
  const spot = innerSpot(area);
  inmostSpots.set(area, spot);
  return spot;
}

/** How far a leader reaches at most, inches. */
const LONGEST_LEADER_IN = 2.5;

/** What crossing a line costs, and where a label stands, in inches of leader. */
const COST = { line: 0.12, inAnotherPatch: 0.2, beyondTrim: 1.5 };

export interface LedLabel {
  readonly label: Try;
  readonly leader: readonly Mark[];
}

/**
 * A label beside its patch, with a dot in the patch and a line to the label. The allowance is the best place,
 * another patch the second, beyond the trim line the last; near before far, few lines crossed before many.
 * Null where no place within 2 1/2 in is free.
 */
export function besidePatch(request: LabelRequest, ground: Ground, laid: LaidPatch): LedLabel | null {
  for (const block of smallLabels(request, laid)) {
    let best: { found: LedLabel; cost: number } | null = null;
    for (const from of spotsAlong(laid.area)) {
      const next = nearestFree(request, ground, from, block, best?.cost ?? Number.POSITIVE_INFINITY);
      if (next) best = next;
    }
    if (best) return best.found;
  }
  return null;
}

/** The inmost spot of an area, and spots along it from end to end: where a leader may begin. */
function spotsAlong(area: Area): Point[] {
  const turn = readingTurn(area.polygon) - Math.PI / 2;
  const upright = rotated(area, -turn);
  const { minY, maxY } = boxOf(upright.polygon);
  const spots = [0.5, 0.08, 0.92, 0.29, 0.71].flatMap((share): Point[] => {
    const y = minY + share * (maxY - minY);
    const [widest] = [...levelStretches(upright, y)].sort((a, b) => b[1] - b[0] - (a[1] - a[0]));
    return widest ? [turnedBy([(widest[0] + widest[1]) / 2, y], turn)] : [];
  });
  return [inmostOf(area), ...spots];
}

/** Number and code in one line, larger and then as small as allowed. */
export function smallLabels(request: LabelRequest, laid: LaidPatch): TextBlock[] {
  const text = laid.fabric ? `${laid.id} ${laid.fabric.code}` : laid.id;
  return [7, SMALLEST_PT].map((size) => stack(request.typeface, [[text, 'semibold', size]]));
}

/** The cheapest free place for a label led from one spot, where it costs less than `limit`. */
function nearestFree(
  { outline, trim }: LabelRequest,
  ground: Ground,
  from: Point,
  block: TextBlock,
  limit: number,
): { readonly found: LedLabel; readonly cost: number } | null {
  const pad = 1.2 * PT;
  let least = limit;
  let best: { label: Try; end: Point } | null = null;
  for (let reach = 0.08; reach <= LONGEST_LEADER_IN && reach < least; reach += 0.05) {
    for (let i = 0; i < 32; i++) {
      const x = Math.cos((i * Math.PI) / 16);
      const y = Math.sin((i * Math.PI) / 16);
      // The reach is to the near side of the box, not to its middle.
      const half = Math.min(
        (block.width / 2 + pad) / Math.max(1e-9, Math.abs(x)),
        (block.height / 2 + pad) / Math.max(1e-9, Math.abs(y)),
      );
      const label: Try = {
        block,
        slot: { at: [from[0] + (reach + half) * x, from[1] + (reach + half) * y], turn: 0 },
        pad,
      };
      const box = boxAround(label);
      if (!ground.isFree(box)) continue;
      const end: Point = [from[0] + reach * x, from[1] + reach * y];
      if (ground.crossesLabel([from, end])) continue;
      const beyond = boxCorners(box).some((corner) => !holdsPoint({ polygon: trim, holes: [] }, corner));
      const inside = holdsPoint({ polygon: outline, holes: [] }, label.slot.at);
      const cost =
        reach +
        COST.line * ground.linesCrossed([from, end]) +
        (beyond ? COST.beyondTrim : inside ? COST.inAnotherPatch : 0);
      if (cost >= least) continue;
      least = cost;
      best = { label, end };
    }
  }
  if (!best) return null;
  const leader: Mark[] = [
    { kind: 'line', pen: 'leader', points: [from, best.end] },
    { kind: 'circle', pen: 'leader', at: from, radius: 0.9 * PT, filled: true },
  ];
  return { found: { label: best.label, leader }, cost: least };
}

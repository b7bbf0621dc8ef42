import { type NestShape, nest } from '../../geometry/nest.ts';
import type { Ring } from '../../geometry/point.ts';
import { distance, signedArea } from '../../geometry/ring.ts';
import { type Placement, placedRing } from '../marks.ts';
import { CUTTING_GAP_IN, freeSpot } from './free-spot.ts';
import { layInLevels, type Rectangle } from './level-packing.ts';

/** How papers may be turned to fit: by whole quarters, or so that any of their sides lies level. */
export type Turning = 'quarters' | 'free';

/** What shares sheets: all that fits, only the papers of one block, or only the copies of one section. */
export type Together = 'fewest' | 'blocks' | 'sections';

export interface Nesting {
  readonly turning: Turning;
  readonly together: Together;
  /** How much trying is allowed, see `nest`. */
  readonly effort: number;
}

/** Papers as they come, any that fit together on a sheet. The effort keeps the first sheets within a moment. */
export const DEFAULT_NESTING: Nesting = { turning: 'quarters', together: 'fewest', effort: 4e7 };

/** A paper or tile to be laid: its box from its upper left corner, and what it covers of it. */
export interface SheetShape extends Rectangle {
  readonly rings: readonly Ring[];
  /** Turned by whole quarters only: a tile, whose sides are the sheet's. */
  readonly isStraight: boolean;
}

export interface SheetItem {
  /** The same object for all copies. */
  readonly shape: SheetShape;
  /** Only items of one group share sheets. */
  readonly group: string;
  readonly copy: number;
  /** Names the paper that it is a tile of; null for a whole paper. */
  readonly tileOf: string | null;
}

/** Where an item lies, from the upper left corner of the sheet's room. */
export interface LaidItem {
  readonly sheet: number;
  readonly placement: Placement;
}

/**
 * Lays papers on the fewest sheets found, in levels or nested by their true outlines: levels where they need no more
 * sheets, since the papers then lie upright. Each must fit on an empty sheet, upright or turned. Inches; result in
 * the order of the items; the same input gives the same result. With `isNested` false in levels only, for a quick count.
 */
export function fillSheets(
  items: readonly SheetItem[],
  room: Rectangle,
  nesting: Nesting,
  isNested = true,
): readonly LaidItem[] {
  const laid: LaidItem[] = [];
  let sheets = 0;
  for (const group of new Set(items.map((item) => item.group))) {
    const own = [...items.keys()].filter((i) => items[i]!.group === group);
    const fill = nesting.together === 'blocks' ? fillCopies : fillTilesFirst;
    const found = fill(
      own.map((i) => items[i]!),
      room,
      isNested ? nesting : null,
    );
    for (const [k, i] of own.entries()) laid[i] = { ...found[k]!, sheet: found[k]!.sheet + sheets };
    sheets += sheetsOf(found);
  }
  return laid;
}

/** How many sheets were filled. */
export const sheetsOf = (laid: readonly { readonly sheet: number }[]): number =>
  laid.reduce((most, { sheet }) => Math.max(most, sheet + 1), 0);

/** All of a group; copy by copy where each copy on sheets of its own needs no more of them. */
function fillCopies(
  items: readonly SheetItem[],
  room: Rectangle,
  nesting: Nesting | null,
): readonly LaidItem[] {
  const mixed = fillTilesFirst(items, room, nesting);
  // Copies are alike and come one after the other, so that one says how all are laid.
  const one = items.filter(({ copy }) => copy === items[0]!.copy);
  const copies = items.length / one.length;
  const alone = copies > 1 && one.length > 1 ? fillTilesFirst(one, room, nesting) : mixed;
  const each = sheetsOf(alone);
  if (alone === mixed || copies * each > sheetsOf(mixed)) return mixed;
  return items.map((_, i) => {
    const laid = alone[i % one.length]!;
    return { ...laid, sheet: laid.sheet + each * Math.floor(i / one.length) };
  });
}

/** Places looked for beside tiles before the rest goes on sheets of its own. */
const MOST_LOOKS = 600;

/**
 * The tiles of each paper on sheets one after another, so that they are found and joined together; other papers in the
 * room that is left beside them, the largest first, and the rest on further sheets.
 */
function fillTilesFirst(
  items: readonly SheetItem[],
  room: Rectangle,
  nesting: Nesting | null,
): readonly LaidItem[] {
  const papers = new Map<string, number[]>();
  for (const [i, { tileOf }] of items.entries())
    if (tileOf !== null) papers.set(tileOf, [...(papers.get(tileOf) ?? []), i]);
  if (papers.size === 0) return fillGroup(items, room, nesting);
  const laid: LaidItem[] = [];
  /** What is covered on each sheet with tiles, and how much of it. */
  const taken: { readonly rings: Ring[]; area: number; readonly tooLarge: Set<SheetShape> }[] = [];
  const put = (i: number, sheet: number, placement: Placement): void => {
    laid[i] = { sheet, placement };
    taken[sheet] ??= { rings: [], area: 0, tooLarge: new Set() };
    const { rings } = items[i]!.shape;
    taken[sheet].rings.push(...rings.map((ring) => placedRing(ring, placement)));
    taken[sheet].area += Math.abs(signedArea(rings[0]!));
    taken[sheet].tooLarge.clear();
  };
  for (const own of papers.values()) {
    const from = taken.length;
    const found = fillGroup(
      own.map((i) => items[i]!),
      room,
      nesting,
    );
    for (const [k, i] of own.entries()) put(i, from + found[k]!.sheet, found[k]!.placement);
  }
  let looks = 0;
  const areaOf = (i: number): number => Math.abs(signedArea(items[i]!.shape.rings[0]!));
  const whole = [...items.keys()].filter((i) => items[i]!.tileOf === null);
  for (const i of whole.toSorted((a, b) => areaOf(b) - areaOf(a) || a - b)) {
    const { shape } = items[i]!;
    for (const [sheet, { rings, area, tooLarge }] of taken.entries()) {
      if (area + areaOf(i) > room.width * room.height || tooLarge.has(shape)) continue;
      if (looks++ >= MOST_LOOKS) break;
      const upright = freeSpot(rings, room, shape);
      const turned = upright ? null : freeSpot(rings, room, { width: shape.height, height: shape.width });
      if (!upright && !turned) {
        tooLarge.add(shape);
        continue;
      }
      put(
        i,
        sheet,
        upright
          ? { at: upright, quarterTurns: 0 }
          : { at: [turned![0] + shape.height, turned![1]], quarterTurns: 1 },
      );
      break;
    }
  }
  const rest = whole.filter((i) => laid[i] === undefined);
  const found = fillGroup(
    rest.map((i) => items[i]!),
    room,
    nesting,
  );
  for (const [k, i] of rest.entries()) laid[i] = { ...found[k]!, sheet: found[k]!.sheet + taken.length };
  return laid;
}

function fillGroup(
  items: readonly SheetItem[],
  room: Rectangle,
  nesting: Nesting | null,
): readonly LaidItem[] {
  const shapes = items.map(({ shape }) => shape);
  const levels = layInLevels(shapes, room, CUTTING_GAP_IN).map(
    ({ item, sheet, x, y, turned }): LaidItem => ({
      sheet,
      placement: turned
        ? { at: [x + shapes[item]!.height, y], quarterTurns: 1 }
        : { at: [x, y], quarterTurns: 0 },
    }),
  );
  const needed = sheetsOf(levels);
  if (needed <= 1 || !nesting) return levels;
  const kinds = [...new Set(shapes)];
  const number = new Map(kinds.map((shape, i) => [shape, i]));
  const nested = nest(
    kinds.map((shape): NestShape => ({ rings: shape.rings, turns: turnsOf(shape, nesting.turning) })),
    shapes.map((shape) => number.get(shape)!),
    { sheet: room, gap: CUTTING_GAP_IN, effort: nesting.effort, seed: 1 },
  );
  if (!nested || sheetsOf(nested) >= needed) return levels;
  return nested.map(({ sheet, at, quarterTurns }) => ({ sheet, placement: { at, quarterTurns } }));
}

const QUARTERS: readonly number[] = [0, 1, 2, 3];

/** Sides that a paper may lie level on, the longest ones. */
const SIDES_TRIED = 3;

function turnsOf({ rings, isStraight }: SheetShape, turning: Turning): readonly number[] {
  if (turning === 'quarters' || isStraight) return QUARTERS;
  const ring = rings[0] ?? [];
  const sides = ring
    .map((a, i) => {
      const b = ring[(i + 1) % ring.length]!;
      const quarters = Math.atan2(b[1] - a[1], b[0] - a[0]) / (Math.PI / 2);
      // What is left of the turn to the next whole quarter.
      return { length: distance(a, b), turn: Math.ceil(quarters) - quarters };
    })
    .sort((a, b) => b.length - a.length);
  const turns: number[] = [];
  for (const { turn } of sides) {
    const isKnown = turn < 1e-3 || turn > 1 - 1e-3 || turns.some((other) => Math.abs(other - turn) < 1e-2);
    if (!isKnown) turns.push(turn);
    if (turns.length === SIDES_TRIED) break;
  }
  return [...QUARTERS, ...turns.flatMap((turn) => QUARTERS.map((quarter) => quarter + turn))];
}

import type { Cut } from '../document/project.ts';
import type { Point } from '../geometry/point.ts';
import { type Box, boxOf, distance } from '../geometry/ring.ts';
import { type SnapField, snapTo } from './snapping.ts';

/** The frame round several chosen cuts, by whose handles they are turned and sized together. */

/** Handles by the side they stand at: `[-1, -1]` the upper left corner, `[1, 0]` the middle of the right side. */
export type SizeHandle = readonly [-1 | 0 | 1, -1 | 0 | 1];

export type FrameHandle =
  | { readonly kind: 'size'; readonly side: SizeHandle }
  /** Above the middle of the upper side. */
  | { readonly kind: 'turn' };

/** How far the frame stands off what it holds, and the handle that turns off the frame. CSS pixels. */
const OFF_PX = 16;
const TURN_OFF_PX = 26;

/** A frame smaller than this has no room for the handles in the middle of its sides. CSS pixels. */
const ROOM_PX = 48;

/** The box of chosen cuts, or null where there is nothing to turn or size: fewer than two, or all on one line. */
export function frameOf(cuts: readonly Cut[]): Box | null {
  if (cuts.length < 2) return null;
  const box = boxOf(cuts.flatMap(({ from, to }) => [from, to]));
  return box.maxX > box.minX && box.maxY > box.minY ? box : null;
}

/** The frame as it is drawn, off what it holds; `pxIn`: inches to a CSS pixel. */
export const frameBox = ({ minX, minY, maxX, maxY }: Box, pxIn: number): Box => ({
  minX: minX - OFF_PX * pxIn,
  minY: minY - OFF_PX * pxIn,
  maxX: maxX + OFF_PX * pxIn,
  maxY: maxY + OFF_PX * pxIn,
});

const CORNERS: readonly SizeHandle[] = [
  [-1, -1],
  [1, -1],
  [1, 1],
  [-1, 1],
];

/** Every handle of a frame and where it is drawn, inches. */
export function frameHandles(
  box: Box,
  pxIn: number,
): readonly { readonly handle: FrameHandle; readonly at: Point }[] {
  const drawn = frameBox(box, pxIn);
  const isWide = drawn.maxX - drawn.minX >= ROOM_PX * pxIn;
  const isHigh = drawn.maxY - drawn.minY >= ROOM_PX * pxIn;
  const sides: readonly SizeHandle[] = [
    ...CORNERS,
    ...(isHigh ? ([[1, 0] as const, [-1, 0] as const] as const) : []),
    ...(isWide ? ([[0, 1] as const, [0, -1] as const] as const) : []),
  ];
  return [
    { handle: { kind: 'turn' }, at: [(drawn.minX + drawn.maxX) / 2, drawn.minY - TURN_OFF_PX * pxIn] },
    ...sides.map((side) => ({ handle: { kind: 'size', side } as const, at: spotOf(drawn, side) })),
  ];
}

/** The place of a box that a handle is for. */
export const spotOf = ({ minX, minY, maxX, maxY }: Box, [x, y]: SizeHandle): Point => [
  x < 0 ? minX : x > 0 ? maxX : (minX + maxX) / 2,
  y < 0 ? minY : y > 0 ? maxY : (minY + maxY) / 2,
];

/** The handle at a place, within reach; never from further away than half the way to what it frames. */
export function handleAt(box: Box, at: Point, reachIn: number, pxIn: number): FrameHandle | null {
  const reach = Math.min(reachIn, OFF_PX * 0.75 * pxIn);
  let best: FrameHandle | null = null;
  let bestAway = reach;
  for (const { handle, at: spot } of frameHandles(box, pxIn)) {
    const away = distance(spot, at);
    if (away > bestAway) continue;
    best = handle;
    bestAway = away;
  }
  return best;
}

/** How a frame is sized: factors across and down, about the place that stays. */
export interface Sizing {
  readonly across: number;
  readonly down: number;
  readonly about: Point;
  /** Where the pulled place of the box comes to lie. */
  readonly at: Point;
}

/** Nothing is made smaller than a hundredth, nor turned over. */
const LEAST = 0.01;

/**
 * What pulling a handle by a way makes of a box. A corner keeps the proportions unless it is `loose`, a side changes one
 * way alone; the pulled place is caught by the field within reach.
 */
export function sizingOf(
  box: Box,
  side: SizeHandle,
  by: Point,
  field: SnapField | null,
  reachIn: number,
  loose: boolean,
): Sizing {
  const about = spotOf(box, [-side[0] as SizeHandle[0], -side[1] as SizeHandle[1]]);
  const spot = spotOf(box, side);
  const wanted: Point = [spot[0] + by[0], spot[1] + by[1]];
  const caught = field === null ? null : snapTo(field, wanted, reachIn);
  const target = caught === null || caught.kind === 'free' ? wanted : caught.at;
  const factor = (k: 0 | 1, to: Point): number =>
    side[k] === 0 ? 1 : Math.max(LEAST, (to[k] - about[k]) / (spot[k] - about[k]));
  let [across, down] = [factor(0, target), factor(1, target)];
  if (side[0] !== 0 && side[1] !== 0 && !loose) {
    const [vx, vy] = [spot[0] - about[0], spot[1] - about[1]];
    const straight = ((wanted[0] - about[0]) * vx + (wanted[1] - about[1]) * vy) / (vx * vx + vy * vy);
    const even =
      caught === null || caught.kind === 'free'
        ? straight
        : Math.abs(across - straight) <= Math.abs(down - straight)
          ? across
          : down;
    across = Math.max(LEAST, even);
    down = across;
  }
  return {
    across,
    down,
    about,
    at: [about[0] + (spot[0] - about[0]) * across, about[1] + (spot[1] - about[1]) * down],
  };
}

/** Steps that catch a turn, and from how far. Degrees. */
const STEP_DEG = 15;
const CATCH_DEG = 3;

/** Degrees against the clock that a pull from one place to another turns about a middle, caught by steps of 15°. */
export function turningOf(about: Point, from: Point, to: Point, how: 'steps' | 'caught' | 'free'): number {
  const angle = ([x, y]: Point): number => (Math.atan2(about[1] - y, x - about[0]) * 180) / Math.PI;
  const raw = ((((angle(to) - angle(from) + 540) % 360) + 360) % 360) - 180;
  if (how === 'free') return raw;
  const step = Math.round(raw / STEP_DEG) * STEP_DEG;
  if (how === 'steps' || Math.abs(raw - step) <= CATCH_DEG) return step;
  return Math.round(raw);
}

export const middleOfBox = ({ minX, minY, maxX, maxY }: Box): Point => [(minX + maxX) / 2, (minY + maxY) / 2];

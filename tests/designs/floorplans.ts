import type { Point, Segment } from '../../src/geometry/point.ts';
import type { Prng } from './prng.ts';

/** A room: left, bottom, right, top. */
export type Room = readonly [number, number, number, number];

/** A rectangle parted into rooms, on whole-number coordinates from [0, 0]. */
export interface Floorplan {
  readonly width: number;
  readonly height: number;
  readonly rooms: readonly Room[];
}

const ONE_ROOM: Floorplan = { width: 1, height: 1, rooms: [[0, 0, 1, 1]] };

/** Rooms on the right side from the top down, and on the top side from the left. */
function sides(plan: Floorplan): { right: Room[]; top: Room[] } {
  return {
    right: plan.rooms.filter((room) => room[2] === plan.width).sort((a, b) => b[3] - a[3]),
    top: plan.rooms.filter((room) => room[3] === plan.height).sort((a, b) => a[0] - b[0]),
  };
}

/** The next room to the right of the top `k` rooms on the right side; the rooms below them grow along. */
function insertRight(plan: Floorplan, k: number): Floorplan {
  const { right } = sides(plan);
  const beside = right.slice(0, k);
  const { width, height } = plan;
  return {
    width: width + 1,
    height,
    rooms: [
      ...plan.rooms.map((room): Room => {
        const grows = room[2] === width && !beside.includes(room);
        return grows ? [room[0], room[1], width + 1, room[3]] : room;
      }),
      [width, beside.at(-1)![1], width + 1, height],
    ],
  };
}

/** The next room above the last `k` rooms on the top side; the rooms left of them grow along. */
function insertAbove(plan: Floorplan, k: number): Floorplan {
  const { top } = sides(plan);
  const below = top.slice(top.length - k);
  const { width, height } = plan;
  return {
    width,
    height: height + 1,
    rooms: [
      ...plan.rooms.map((room): Room => {
        const grows = room[3] === height && !below.includes(room);
        return grows ? [room[0], room[1], room[2], height + 1] : room;
      }),
      [below[0]![0], height, width, height + 1],
    ],
  };
}

function children(plan: Floorplan): (() => Floorplan)[] {
  const { right, top } = sides(plan);
  return [
    ...right.map((_, k) => () => insertRight(plan, k + 1)),
    ...top.map((_, k) => () => insertAbove(plan, k + 1)),
  ];
}

/**
 * Every mosaic floorplan with n rooms once, by the corner-insertion tree: the next room goes to the right of the
 * top k rooms on the right side, or above the last k rooms on the top side. Each insertion makes one new wall on
 * a coordinate of its own, so no two T-junctions coincide and no walls cross.
 */
export function allFloorplans(n: number): Floorplan[] {
  let plans = [ONE_ROOM];
  for (let rooms = 2; rooms <= n; rooms++)
    plans = plans.flatMap((plan) => children(plan).map((grow) => grow()));
  return plans;
}

/** One branch of the tree, chosen by the seed. */
export function randomFloorplan(rng: Prng, n: number): Floorplan {
  let plan = ONE_ROOM;
  while (plan.rooms.length < n) plan = rng.pick(children(plan))();
  return plan;
}

/** The walls: each the longest stretch on its coordinate. One fewer than rooms. */
export function wallsOf(plan: Floorplan): Segment[] {
  const walls: Segment[] = [];
  for (let x = 1; x < plan.width; x++) {
    const along = plan.rooms.filter((room) => room[0] === x || room[2] === x);
    walls.push([
      [x, Math.min(...along.map((room) => room[1]))],
      [x, Math.max(...along.map((room) => room[3]))],
    ]);
  }
  for (let y = 1; y < plan.height; y++) {
    const along = plan.rooms.filter((room) => room[1] === y || room[3] === y);
    walls.push([
      [Math.min(...along.map((room) => room[0])), y],
      [Math.max(...along.map((room) => room[2])), y],
    ]);
  }
  return walls;
}

/**
 * Can full straight cuts, one after another, part the rectangle into its rooms (a slicing or guillotine
 * floorplan)? Decided on the rooms alone: is there an upright or level line that splits no room?
 */
export function isGuillotine(rooms: readonly Room[]): boolean {
  if (rooms.length <= 1) return true;
  for (const axis of [0, 1] as const) {
    const low = Math.min(...rooms.map((room) => room[axis]));
    for (const cut of new Set(rooms.map((room) => room[axis]))) {
      if (cut === low || rooms.some((room) => room[axis] < cut && room[axis + 2]! > cut)) continue;
      return (
        isGuillotine(rooms.filter((room) => room[axis] < cut)) &&
        isGuillotine(rooms.filter((room) => room[axis] >= cut))
      );
    }
  }
  return false;
}

/**
 * The permutation of a floorplan: rooms counted from the top left corner, listed from the bottom left corner.
 * Two rooms stand left and right of each other, or above and below, but never both: chains of rooms on the two
 * sides of one wall say which. Every wall must lie on a coordinate of its own, as here.
 * Source: Ackerman, Barequet, Pinter, "A bijection between permutations and floorplans, and its applications",
 * Discrete Applied Mathematics 154 (2006): mosaic floorplans ↔ Baxter permutations, slicing ones ↔ separable.
 */
export function permutationOf(rooms: readonly Room[]): number[] {
  const n = rooms.length;
  const reach = (touches: (a: Room, b: Room) => boolean): boolean[][] => {
    const before = rooms.map((a) => rooms.map((b) => touches(a, b)));
    for (let k = 0; k < n; k++) {
      for (let i = 0; i < n; i++) {
        if (before[i]![k]) for (let j = 0; j < n; j++) before[i]![j] ||= before[k]![j]!;
      }
    }
    return before;
  };
  const isLeft = reach((a, b) => a[2] === b[0]);
  const isBelow = reach((a, b) => a[3] === b[1]);
  const ranked = (first: (i: number, j: number) => boolean): number[] =>
    rooms.map((_, i) => i).sort((i, j) => (first(i, j) ? -1 : first(j, i) ? 1 : 0));
  const fromTopLeft = ranked((i, j) => isLeft[i]![j]! || isBelow[j]![i]!);
  const fromBottomLeft = ranked((i, j) => isLeft[i]![j]! || isBelow[i]![j]!);
  return fromBottomLeft.map((room) => fromTopLeft.indexOf(room) + 1);
}

/** Rooms drawn in inches: whole coordinates moved to the given rising lists, y down. */
export function drawnWalls(plan: Floorplan, xs: readonly number[], ys: readonly number[]): Segment[] {
  const place = ([x, y]: Point): Point => [xs[x]!, ys[plan.height]! - ys[y]!];
  return wallsOf(plan).map(([a, b]): Segment => [place(a), place(b)]);
}

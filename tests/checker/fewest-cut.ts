import type { Room } from '../designs/floorplans.ts';

/** The fewest rooms to cut in two, by trying every level and upright cut along a wall. Knows rooms as four numbers only. */
export function fewestCut(rooms: readonly Room[], known = new Map<string, number>()): number {
  if (rooms.length <= 1) return 0;
  const key = rooms.map(String).sort().join(' ');
  const found = known.get(key);
  if (found !== undefined) return found;
  let best = Number.POSITIVE_INFINITY;
  for (const axis of [0, 1] as const) {
    const low = Math.min(...rooms.map((room) => room[axis]));
    for (const at of new Set(rooms.map((room) => room[axis]))) {
      if (at === low) continue;
      const before = rooms.filter((room) => room[axis] < at);
      const after = rooms.filter((room) => room[axis + 2]! > at);
      const cut = before.length + after.length - rooms.length;
      if (cut >= best) continue;
      const ends = before.map((room): Room => withAt(room, axis + 2, Math.min(room[axis + 2]!, at)));
      const starts = after.map((room): Room => withAt(room, axis, Math.max(room[axis], at)));
      best = Math.min(best, cut + fewestCut(ends, known) + fewestCut(starts, known));
    }
  }
  known.set(key, best);
  return best;
}

const withAt = (room: Room, place: number, value: number): Room =>
  room.map((v, i) => (i === place ? value : v)) as unknown as Room;

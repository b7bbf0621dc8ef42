import type { Pattern } from './pattern.ts';
import type { Region } from './region.ts';

/** Cuts pinned to part two foundations that lie inside the region. */
export function joinsInside(pattern: Pattern, region: Region): number {
  const { role, division } = pattern;
  const cuts = new Set<number>();
  for (let e = 0; e < role.length; e++) {
    if (role[e] !== 1) continue;
    const a = division.face[2 * e]!;
    const b = division.face[2 * e + 1]!;
    if (a >= 0 && b >= 0 && region[a] === 1 && region[b] === 1) cuts.add(division.line[e]!);
  }
  return cuts.size;
}

import type { Pattern } from './pattern.ts';

/** Cells of a section or unit, as a mask over all cells of the pattern: 1 for those in it. */
export type Region = Uint8Array;

/** A text naming a set of cells, 15 cells a character. */
export function keyOf(region: Region): string {
  let key = '';
  for (let start = 0; start < region.length; start += 15) {
    let bits = 0;
    const end = Math.min(region.length, start + 15);
    for (let c = start; c < end; c++) bits = (bits << 1) | region[c]!;
    key += String.fromCharCode(bits);
  }
  return key;
}

export function without(region: Region, taken: Region): Region {
  const rest = region.slice();
  for (let c = 0; c < rest.length; c++) if (taken[c] === 1) rest[c] = 0;
  return rest;
}

export function cellsOf(region: Region): number[] {
  const cells: number[] = [];
  for (let c = 0; c < region.length; c++) if (region[c] === 1) cells.push(c);
  return cells;
}

/** The half-edges round each cell of a region, cell by cell. */
export function sidesOf({ loops }: Pattern, region: Region): number[] {
  const sides: number[] = [];
  for (let c = 0; c < region.length; c++)
    if (region[c] === 1) for (const loop of loops[c]!) for (const h of loop) sides.push(h);
  return sides;
}

export function maskOf(pattern: Pattern, cells: Iterable<number>): Region {
  const region = new Uint8Array(pattern.cells);
  for (const c of cells) region[c] = 1;
  return region;
}

/** All cells of a pattern. */
export const wholeOf = (pattern: Pattern): Region => new Uint8Array(pattern.cells).fill(1);

/** Do the cells hold together edge to edge? An empty region does. */
export function isConnected(pattern: Pattern, region: Region): boolean {
  const first = region.indexOf(1);
  if (first < 0) return true;
  const reached = spread(pattern, region, first);
  for (let c = 0; c < region.length; c++) if (region[c] === 1 && reached[c] !== 1) return false;
  return true;
}

/** The cells of a region reached from one of them without crossing an edge that is marked in `stops`. */
export function spread(
  pattern: Pattern,
  region: Region,
  first: number,
  stops: Uint8Array | null = null,
): Region {
  const { loops } = pattern;
  const { face } = pattern.division;
  const reached = new Uint8Array(region.length);
  const stack = [first];
  reached[first] = 1;
  while (stack.length > 0)
    for (const loop of loops[stack.pop()!]!)
      for (const h of loop) {
        const beyond = face[h ^ 1]!;
        if (beyond < 0 || region[beyond] !== 1 || reached[beyond] === 1 || stops?.[h >> 1] === 1) continue;
        reached[beyond] = 1;
        stack.push(beyond);
      }
  return reached;
}

import { distance } from '../geometry/ring.ts';
import type { Pattern } from './pattern.ts';
import { type Region, spread, without } from './region.ts';

/** A straight run of inner edges right across a region, from rim to rim. */
export interface Chord {
  /** Index into `Pattern.lines`. */
  readonly line: number;
  /** Half-edges in turn. */
  readonly edges: readonly number[];
}

/** A straight seam right across a region, and the two units it unites. */
export interface Parting {
  readonly left: Region;
  readonly right: Region;
  /** Spots where seams from both sides meet it. */
  readonly matches: number;
  /** Spots where a seam from one side or both meets it. */
  readonly meetings: number;
  /** Inches. */
  readonly length: number;
  /** Cuts pinned to stay inside a foundation that it runs along. */
  readonly refused: number;
}

/**
 * The straight seams that may part a region, or the first `most` of them. Cost: O(sides of its cells, and edges of the
 * lines through it).
 */
export function chordsOf(pattern: Pattern, region: Region, most = Number.POSITIVE_INFINITY): Chord[] {
  const { division, lines, loops, lineOf } = pattern;
  const { face, origin } = division;
  /** The vertices on the rim: those an edge with only one side in the region ends at. */
  const isRim = new Uint8Array(division.vertices.length);
  const isWithin = new Uint8Array(lines.length);
  for (let c = 0; c < region.length; c++) {
    if (region[c] !== 1) continue;
    for (const loop of loops[c]!)
      for (const h of loop) {
        const beyond = face[h ^ 1]!;
        if (beyond >= 0 && region[beyond] === 1) isWithin[lineOf[h >> 1]!] = 1;
        else {
          isRim[origin[h]!] = 1;
          isRim[origin[h ^ 1]!] = 1;
        }
      }
  }
  const chords: Chord[] = [];
  for (let line = 0; line < lines.length && chords.length < most; line++) {
    if (isWithin[line] !== 1) continue;
    for (const run of lines[line]!.runs) {
      let start = -1;
      for (let k = 0; k < run.length; k++) {
        const h = run[k]!;
        if (region[face[h]!] !== 1 || region[face[h ^ 1]!] !== 1) {
          start = -1;
          continue;
        }
        if (isRim[origin[h]!] === 1) start = k;
        if (start < 0 || isRim[origin[h ^ 1]!] !== 1) continue;
        chords.push({ line, edges: run.slice(start, k + 1) });
      }
    }
  }
  return chords;
}

/** The parting along a chord, or null where the region holds together round it. Cost: O(sides of the region). */
export function partAlong(pattern: Pattern, region: Region, { edges }: Chord): Parting | null {
  const { division, role } = pattern;
  const { face } = division;
  const isSeam = new Uint8Array(role.length);
  for (const h of edges) isSeam[h >> 1] = 1;
  const left = spread(pattern, region, face[edges[0]!]!, isSeam);
  if (left[face[edges[0]! ^ 1]!] === 1) return null;
  const right = without(region, left);
  let matches = 0;
  let meetings = 0;
  edges.forEach((h, k) => {
    if (k === 0) return;
    const sides = Number(seamMeets(pattern, left, h)) + Number(seamMeets(pattern, right, h));
    if (sides > 0) meetings++;
    if (sides === 2) matches++;
  });
  return {
    left,
    right,
    matches,
    meetings,
    length: chordLength(pattern, { edges }),
    refused: refusedAlong(pattern, edges),
  };
}

/** Cuts pinned to stay inside a foundation that a seam runs along. */
export const refusedAlong = ({ division, role }: Pattern, edges: readonly number[]): number =>
  new Set(edges.filter((h) => role[h >> 1] === 2).map((h) => division.line[h >> 1]!)).size;

/** From end to end, inches. */
export function chordLength(pattern: Pattern, { edges }: Pick<Chord, 'edges'>): number {
  const { origin, vertices } = pattern.division;
  return distance(vertices[origin[edges[0]!]!]!, vertices[origin[edges.at(-1)! ^ 1]!]!);
}

/** Is a chord crossed by no other straight line, so that every other parting lies wholly on one side of it? */
export function isUncrossed(pattern: Pattern, chord: Chord, isCrossing: Uint8Array): boolean {
  const { origin } = pattern.division;
  return chord.edges.every((h, k) => k === 0 || isCrossing[origin[h]!] !== 1);
}

/** Does a seam inside the unit end at the vertex half-edge `h` starts from? */
export function seamMeets(pattern: Pattern, unit: Region, h: number): boolean {
  const { face, next } = pattern.division;
  let k = h;
  do {
    const a = face[k]!;
    const b = face[k ^ 1]!;
    if (a >= 0 && b >= 0 && a !== b && unit[a] === 1 && unit[b] === 1) return true;
    k = next[k ^ 1]!;
  } while (k !== h);
  return false;
}

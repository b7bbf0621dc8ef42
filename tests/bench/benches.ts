import { divide } from '../../src/geometry/division.ts';
import type { Block } from '../../src/piecing/block.ts';
import { piece } from '../../src/piecing/piece.ts';
import { divideByChords } from '../designs/chords.ts';
import { roundPoint } from '../designs/plane.ts';
import { Prng } from '../designs/prng.ts';
import { benchDesign } from './bench-design.ts';
import { median, type Patience, timeOf } from './measure.ts';
import { clipperFaces, jstsFaces } from './peers.ts';

export interface FacesRow {
  readonly faces: number;
  /** Faces found by each, and milliseconds each took. */
  readonly underpaper: { readonly found: number; readonly ms: number };
  readonly jsts: { readonly found: number; readonly ms: number };
  readonly clipper: { readonly found: number; readonly ms: number };
}

/** Faces from segments: the same plain lines to each, in one run. */
export function benchFaces(faces: number, patience: Patience): FacesRow {
  const design = benchDesign(faces, faces);
  const ours = (): number => {
    const result = divide(design.outline, design.lines);
    return result.ok ? result.division.faces.length : 0;
  };
  return {
    faces,
    underpaper: { found: ours(), ms: timeOf(ours, patience) },
    jsts: { found: jstsFaces(design), ms: timeOf(() => jstsFaces(design), patience) },
    clipper: { found: clipperFaces(design), ms: timeOf(() => clipperFaces(design), patience) },
  };
}

export interface PlanRow {
  readonly patches: number;
  readonly designs: number;
  /** Milliseconds: the median over the designs, and the slowest of them. */
  readonly ms: number;
  readonly slowest: number;
  readonly foundations: number;
}

/** The whole plan, from drawn block to findings, on several random blocks of a size. */
export function benchPlan(patches: number, designs: number, patience: Patience): PlanRow {
  const blocks = Array.from({ length: designs }, (_, i) => chordBlock(i + 1, patches));
  const times = blocks.map((block) => timeOf(() => piece(block), patience));
  return {
    patches,
    designs,
    ms: median(times),
    slowest: Math.max(...times),
    foundations: median(blocks.map((block) => piece(block).sections.length)),
  };
}

function chordBlock(seed: number, patches: number): Block {
  const side = Math.max(4, 1.6 * Math.sqrt(patches));
  const outline = (
    [
      [0, 0],
      [side, 0],
      [side, side],
      [0, side],
    ] as const
  ).map(roundPoint);
  const { chords } = divideByChords(new Prng(seed), outline, patches, { gap: 0.2, width: 0.15 });
  return {
    id: `bench-${seed}`,
    name: `Bench ${seed}`,
    outline,
    cuts: chords.map(({ from, to }, i) => ({ id: `c${i + 1}`, from, to, role: 'auto' as const })),
    patches: [],
  };
}

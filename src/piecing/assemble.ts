import { isPassedThrough, ringOf } from '../geometry/division.ts';
import type { Point, Ring } from '../geometry/point.ts';
import { signedArea } from '../geometry/ring.ts';
import type { Assembly } from './assembly.ts';
import { letters } from './ids.ts';
import { joinOf, seamEnds } from './joins.ts';
import { withPartsTold } from './partial-joins.ts';
import type { Pattern } from './pattern.ts';
import type { Join, Section } from './plan.ts';
import { cellsOf, type Region, sidesOf } from './region.ts';

/** A section before its patches are put in order. */
export interface Lettered extends Omit<Section, 'order' | 'key' | 'stamp'> {
  readonly region: Region;
  /** The finished unit that serves as position 1. */
  readonly base?: Region;
}

/** What a search found, with letters and steps: all of a plan that no fabric and no order by hand has a say in. */
export interface Assembled {
  readonly sections: readonly Lettered[];
  readonly joins: readonly Join[];
}

/** Letters in the order in which the units lie, top or left first; steps as the units come ready. */
export function assemble(pattern: Pattern, assembly: Assembly): Assembled {
  const sections: Lettered[] = [];
  const joins: Join[] = [];
  const loads = loadsOf(pattern);
  walk(assembly);
  return { sections, joins: withPartsTold(joins) };

  function walk(node: Assembly): string[] {
    if (node.kind === 'foundation') return [section(node.region, [])];
    if (node.kind === 'sewn-on') {
      const startsFrom = walk(node.base);
      return [...startsFrom, section(node.region, startsFrom, node.base.region)];
    }
    const isTurned = liesBefore(pattern, loads, node.right.region, node.left.region);
    const [first, second] = isTurned ? [node.right, node.left] : [node.left, node.right];
    const left = walk(first);
    const right = walk(second);
    joins.push(joinOf(pattern, joins.length + 1, node.kind, first.region, second.region, left, right));
    return [...left, ...right];
  }

  function section(region: Region, startsFrom: readonly string[], base?: Region): string {
    const letter = letters(sections.length);
    const [outline, ...holes] = outlinesOf(pattern, region);
    sections.push({ letter, outline: outline!, holes, startsFrom, region, ...(base && { base }) });
    return letter;
  }
}

/**
 * Of two units beside each other, does `a` come first? The upper one where the seam lies nearer to level, the left one
 * where it stands nearer to upright, so that letters run as one reads.
 */
function liesBefore(pattern: Pattern, loads: readonly Load[], a: Region, b: Region): boolean {
  const [first, last] = seamEnds(pattern, a, b);
  const p = middleOf(loads, a);
  const q = middleOf(loads, b);
  const isLevel = Math.abs(last[0] - first[0]) >= Math.abs(last[1] - first[1]);
  return isLevel ? p[1] < q[1] : p[0] < q[0];
}

/** A cell's area, and the middle of its corners times that. */
interface Load {
  readonly area: number;
  readonly x: number;
  readonly y: number;
}

const loadsOf = ({ division }: Pattern): readonly Load[] =>
  division.faces.map(({ edge }) => {
    const ring = ringOf(division, edge);
    const area = signedArea(ring);
    let x = 0;
    let y = 0;
    for (const p of ring) {
      x += p[0];
      y += p[1];
    }
    return { area, x: (area * x) / ring.length, y: (area * y) / ring.length };
  });

function middleOf(loads: readonly Load[], region: Region): Point {
  let x = 0;
  let y = 0;
  let total = 0;
  for (const c of cellsOf(region)) {
    const load = loads[c]!;
    x += load.x;
    y += load.y;
    total += load.area;
  }
  return [x / total, y / total];
}

/** Outer boundary of a region, then the boundaries of what it surrounds. Each vertex as its patches have it. */
function outlinesOf(pattern: Pattern, region: Region): Ring[] {
  const { face, next, origin, vertices } = pattern.division;
  const isRim = (h: number): boolean =>
    face[h]! >= 0 && region[face[h]!] === 1 && !(face[h ^ 1]! >= 0 && region[face[h ^ 1]!] === 1);
  const used = new Set<number>();
  const rings: Ring[] = [];
  for (const start of sidesOf(pattern, region)) {
    if (used.has(start) || !isRim(start)) continue;
    const ring: Point[] = [];
    let e = start;
    do {
      used.add(e);
      if (!isPassedThrough(pattern.division, e)) ring.push(vertices[origin[e]!]!);
      // On to the next rim edge round the vertex, staying inside the region.
      e = next[e]!;
      while (!isRim(e)) e = next[e ^ 1]!;
    } while (e !== start);
    rings.push(ring);
  }
  return rings.sort((a, b) => signedArea(b) - signedArea(a));
}

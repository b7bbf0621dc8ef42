import { STRAIGHT_IN } from '../../geometry/lattice.ts';
import { distanceToSegment, signedArea } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import type { Block, Cut } from '../block.ts';
import type { Edge, SewingPlan } from '../plan.ts';
import type { Boundary } from './boundary.ts';

/** A line bends a little on its way to all that it touches, and its ends may be such spots. */
const BENT_IN = 2 * STRAIGHT_IN;

/** Do edges, neighbours and outlines say what the polygons of the patches say? */
export function topologyFaults(
  plan: SewingPlan,
  drawing: Pick<Block, 'outline' | 'cuts'>,
  boundary: Boundary,
): string[] {
  const { patches } = plan;
  const faults = boundary.doubled.map(([a, b]) =>
    phrase('{a} and {b} lie on each other.', { a: patches[a]!.id, b: patches[b]!.id }),
  );
  patches.forEach(({ id, polygon, holes }) => {
    if (!(signedArea(polygon) > 0) || holes.some((hole) => !(signedArea(hole) < 0)))
      faults.push(phrase('{id} has no inside.', { id }));
  });
  faults.push(...neighbourFaults(plan, boundary));
  faults.push(...edgeFaults(plan, drawing, boundary));
  faults.push(...outlineFaults(plan, boundary));
  return faults;
}

function neighbourFaults({ patches }: SewingPlan, { numberOfPatch, firstSide, beyond }: Boundary): string[] {
  const faults: string[] = [];
  /** The patch each was last found beside, from 1; below 0 once it has been named as its neighbour. */
  const beside = new Int32Array(patches.length);
  patches.forEach(({ id, neighbours }, p) => {
    let count = 0;
    for (let s = firstSide[p]!; s < firstSide[p + 1]!; s++) {
      const other = beyond[s]!;
      if (other < 0 || other === p || beside[other] === p + 1) continue;
      beside[other] = p + 1;
      count++;
    }
    for (const other of neighbours) {
      const number = numberOfPatch.get(other) ?? -1;
      if (number < 0 || beside[number] !== p + 1) count = -1;
      else beside[number] = -(p + 1);
    }
    if (count !== neighbours.length) faults.push(phrase('{id} has other neighbours than it says.', { id }));
  });
  return faults;
}

function edgeFaults(
  { edges, patches }: SewingPlan,
  { outline, cuts }: Pick<Block, 'outline' | 'cuts'>,
  { beyond, patch, numberOf, sideFrom }: Boundary,
): string[] {
  const faults: string[] = [];
  const lineOf = new Map<string, Cut[]>();
  // Two cuts of one name are no good drawing, and no harm.
  for (const cut of cuts) {
    const known = lineOf.get(cut.id);
    if (known) known.push(cut);
    else lineOf.set(cut.id, [cut]);
  }
  // Where lines all but meet, a sliver may lie between the outline as drawn and as it runs from corner to corner.
  const sides = outline.map((from, k) => ({ from, to: outline[(k + 1) % outline.length]! }));
  const idAt = (side: number): string | null => (side < 0 ? null : patches[patch[side]!]!.id);
  const isTold = new Uint8Array(patch.length);
  let told = 0;
  for (const edge of edges) {
    const { from, to, right, left, line } = edge;
    const [a, b] = [numberOf(from), numberOf(to)];
    const [onRight, onLeft] = [sideFrom(a, b), sideFrom(b, a)];
    if (right !== idAt(onRight) || left !== idAt(onLeft) || right === left)
      faults.push(phrase('An edge has other patches beside it than it says.'));
    for (const side of [onRight, onLeft])
      if (side >= 0 && isTold[side] === 0) {
        isTold[side] = 1;
        told += beyond[side] === -1 ? 2 : 1;
      }
    if (from[0] > to[0] || (from[0] === to[0] && from[1] > to[1]))
      faults.push(phrase('An edge runs the wrong way.'));
    if (line === null) {
      if (!sides.some((side) => liesAlong(edge, side)))
        faults.push(phrase('An edge lies on no line, and not on the outline.'));
    } else if (!lineOf.get(line)?.some((cut) => liesAlong(edge, cut)))
      faults.push(phrase('An edge does not lie on line {line}.', { line }));
  }
  // An edge inside the block stands round two patches, one of the outline round one.
  if (told !== 2 * edges.length || isTold.includes(0))
    faults.push(phrase('The edges are not told once each.'));
  return faults;
}

type Stretch = Pick<Edge, 'from' | 'to'>;

const liesAlong = ({ from, to }: Stretch, line: Stretch): boolean =>
  distanceToSegment(from, line.from, line.to) <= BENT_IN &&
  distanceToSegment(to, line.from, line.to) <= BENT_IN;

/** The outline of a section is all that its patches, and the unit it starts from, share with none of each other. */
function outlineFaults(plan: SewingPlan, boundary: Boundary): string[] {
  const { firstSide, patch, beyond, numberOf, sideFrom } = boundary;
  const faults: string[] = [];
  const patchesOf = new Map<string, number[]>(plan.sections.map(({ letter }) => [letter, []]));
  plan.patches.forEach(({ section }, p) => {
    patchesOf.get(section)?.push(p);
  });
  /** The section each patch was last a member of, from 1, and the one whose outline each side was last in. */
  const memberOf = new Int32Array(plan.patches.length);
  const inOutline = new Int32Array(patch.length);
  plan.sections.forEach(({ letter, outline, holes, startsFrom }, s) => {
    const members = [letter, ...startsFrom].flatMap((each) => patchesOf.get(each) ?? []);
    for (const p of members) memberOf[p] = s + 1;
    const isMember = (p: number): boolean => p >= 0 && memberOf[p] === s + 1;
    let length = 0;
    for (const p of members)
      for (let side = firstSide[p]!; side < firstSide[p + 1]!; side++) if (!isMember(beyond[side]!)) length++;
    let isRim = signedArea(outline) > 0 && holes.every((hole) => signedArea(hole) < 0);
    let count = 0;
    for (const ring of [outline, ...holes]) {
      let from = numberOf(ring.at(-1)!);
      for (const corner of ring) {
        const to = numberOf(corner);
        const side = sideFrom(from, to);
        // Each once, with a member on this side of it and none beyond.
        isRim &&=
          side >= 0 && inOutline[side] !== s + 1 && isMember(patch[side]!) && !isMember(beyond[side]!);
        if (side >= 0) inOutline[side] = s + 1;
        count++;
        from = to;
      }
    }
    if (!isRim || count !== length)
      faults.push(phrase('The outline of {letter} is not that of its patches.', { letter }));
  });
  return faults;
}

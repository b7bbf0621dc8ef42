import { STRAIGHT_IN } from '../../geometry/lattice.ts';
import { distanceToSegment, signedArea } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import type { Block, Cut } from '../block.ts';
import type { Edge, Section, SewingPlan } from '../plan.ts';
import type { Boundary } from './boundary.ts';

/** A line bends a little on its way to all that it touches, and its ends may be such spots. */
const BENT_IN = 2 * STRAIGHT_IN;

/** Do edges, neighbours and outlines say what the polygons of the patches say? */
export function topologyFaults(
  plan: SewingPlan,
  drawing: Pick<Block, 'outline' | 'cuts'>,
  boundary: Boundary,
): string[] {
  const faults = boundary.doubled.map(([a, b]) => phrase('{a} and {b} lie on each other.', { a, b }));
  for (const { id, polygon, holes, neighbours } of plan.patches) {
    if (!(signedArea(polygon) > 0) || holes.some((hole) => !(signedArea(hole) < 0)))
      faults.push(phrase('{id} has no inside.', { id }));
    const beside = new Set(boundary.sidesOf.get(id)!.flatMap(({ other }) => other ?? []));
    beside.delete(id);
    if (beside.size !== neighbours.length || neighbours.some((other) => !beside.has(other)))
      faults.push(phrase('{id} has other neighbours than it says.', { id }));
  }
  faults.push(...edgeFaults(plan.edges, drawing, boundary));
  for (const section of plan.sections) faults.push(...outlineFaults(plan, section, boundary));
  return faults;
}

function edgeFaults(
  edges: readonly Edge[],
  { outline, cuts }: Pick<Block, 'outline' | 'cuts'>,
  { sidesOf, numberOf, wayOf, ownerOf }: Boundary,
): string[] {
  const faults: string[] = [];
  const lineOf = new Map<string, Cut[]>();
  // Two cuts of one name are no good drawing, and no harm.
  for (const cut of cuts) lineOf.set(cut.id, [...(lineOf.get(cut.id) ?? []), cut]);
  const told = new Set<number>();
  for (const edge of edges) {
    const { from, to, right, left, line } = edge;
    const [a, b] = [numberOf(from), numberOf(to)];
    told.add(wayOf(a, b));
    if (right !== ownerOf(wayOf(a, b)) || left !== ownerOf(wayOf(b, a)) || right === left)
      faults.push(phrase('An edge has other patches beside it than it says.'));
    if (from[0] > to[0] || (from[0] === to[0] && from[1] > to[1]))
      faults.push(phrase('An edge runs the wrong way.'));
    if (line !== null && !lineOf.get(line)?.some((cut) => liesAlong(edge, cut)))
      faults.push(phrase('An edge does not lie on cut {line}.', { line }));
  }
  // An edge inside the block stands round two patches, one of the outline round one.
  let count = 0;
  for (const sides of sidesOf.values()) for (const { other } of sides) count += other === null ? 2 : 1;
  if (told.size !== edges.length || 2 * told.size !== count)
    faults.push(phrase('The edges are not told once each.'));
  // Where lines all but meet, a sliver may lie between the outline as drawn and as it runs from corner to corner.
  const sides = outline.map((from, k) => ({ from, to: outline[(k + 1) % outline.length]! }));
  for (const edge of edges)
    if (edge.line === null && !sides.some((side) => liesAlong(edge, side)))
      faults.push(phrase('An edge lies on no cut, and not on the outline.'));
  return faults;
}

type Stretch = Pick<Edge, 'from' | 'to'>;

const liesAlong = ({ from, to }: Stretch, line: Stretch): boolean =>
  [from, to].every((at) => distanceToSegment(at, line.from, line.to) <= BENT_IN);

/** The outline of a section is all that its patches, and the unit it starts from, share with none of each other. */
function outlineFaults(
  plan: SewingPlan,
  section: Section,
  { sidesOf, numberOf, wayOf, ownerOf }: Boundary,
): string[] {
  const { letter, outline, holes, startsFrom } = section;
  const members = new Set<string>();
  for (const patch of plan.patches)
    if (patch.section === letter || startsFrom.includes(patch.section)) members.add(patch.id);
  const isMember = (patch: string | null): boolean => patch !== null && members.has(patch);
  let length = 0;
  for (const id of members) for (const { other } of sidesOf.get(id)!) if (!isMember(other)) length++;
  const told = new Set<number>();
  let isRim = true;
  let count = 0;
  for (const ring of [outline, ...holes]) {
    const spots = ring.map(numberOf);
    spots.forEach((from, i) => {
      const to = spots[(i + 1) % spots.length]!;
      told.add(wayOf(from, to));
      count++;
      isRim &&= isMember(ownerOf(wayOf(from, to))) && !isMember(ownerOf(wayOf(to, from)));
    });
  }
  const isWhole = count === length && told.size === length;
  const turnsRight = signedArea(outline) > 0 && holes.every((hole) => signedArea(hole) < 0);
  return isRim && isWhole && turnsRight
    ? []
    : [phrase('The outline of {letter} is not that of its patches.', { letter })];
}

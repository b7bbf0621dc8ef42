import { describe, expect, it } from 'vitest';
import type { Point, Segment } from '../../src/geometry/point.ts';
import type { Block } from '../../src/piecing/block.ts';
import { piece } from '../../src/piecing/piece.ts';
import type { Edge, Join, Patch, PiecingPlan, RegistrationPoint, Section } from '../../src/piecing/plan.ts';
import { verifyPlan } from '../../src/piecing/verify.ts';
import { designOf } from '../designs/designs.ts';
import { Prng } from '../designs/prng.ts';

/** Good plans: on one foundation and on several, set in, from a finished unit, by whatever ends were drawn. */
const PLANS: readonly { readonly seed: number; readonly plan: PiecingPlan; readonly block: Block }[] =
  Array.from({ length: 90 }, (_, k) => {
    const seed = k + 1;
    const { block } = designOf(seed, {
      patches: [4, 22],
      endErrors: k % 3 === 0 ? 'fresh' : 'none',
      ...(k % 4 === 0 && { kind: 'floorplan' as const }),
    });
    return { seed, block, plan: piece(block, { plan: k % 5 === 0 ? 'unit-first' : 'fewest' }) };
  });

/** A plan with one thing in it made wrong; null where the plan has no such thing. */
type Spoil = (plan: PiecingPlan, rng: Prng) => PiecingPlan | null;

const nudge = ([x, y]: Point): Point => [x + 0.25, y + 0.125];
const nudged = ([a, b]: Segment): Segment => [nudge(a), b];

/** One item of a list of the plan changed, of those for which a change is known. */
function oneOf<Item>(
  items: readonly Item[],
  rng: Prng,
  change: (item: Item) => Item | null,
): readonly Item[] | null {
  const choices = items.flatMap((item, k) => {
    const next = change(item);
    return next === null ? [] : [[k, next] as const];
  });
  if (choices.length === 0) return null;
  const [at, next] = rng.pick(choices);
  return items.map((item, k) => (k === at ? next : item));
}

const inPatch =
  (change: (patch: Patch, plan: PiecingPlan) => Partial<Patch> | null): Spoil =>
  (plan, rng) => {
    const patches = oneOf(plan.patches, rng, (patch) => {
      const next = change(patch, plan);
      return next && { ...patch, ...next };
    });
    return patches && { ...plan, patches };
  };
const inSection =
  (change: (section: Section, plan: PiecingPlan) => Partial<Section> | null): Spoil =>
  (plan, rng) => {
    const sections = oneOf(plan.sections, rng, (section) => {
      const next = change(section, plan);
      return next && { ...section, ...next };
    });
    return sections && { ...plan, sections };
  };
const inJoin =
  (change: (join: Join, rng: Prng) => Partial<Join> | null): Spoil =>
  (plan, rng) => {
    const joins = oneOf(plan.joins, rng, (join) => {
      const next = change(join, rng);
      return next && { ...join, ...next };
    });
    return joins && { ...plan, joins };
  };
const inEdge =
  (change: (edge: Edge, plan: PiecingPlan) => Partial<Edge> | null): Spoil =>
  (plan, rng) => {
    const edges = oneOf(plan.edges, rng, (edge) => {
      const next = change(edge, plan);
      return next && { ...edge, ...next };
    });
    return edges && { ...plan, edges };
  };
const inPoint = (change: (point: RegistrationPoint) => Partial<RegistrationPoint> | null): Spoil =>
  inJoin(({ points }, rng) => {
    const next = oneOf(points, rng, (point) => {
      const changed = change(point);
      return changed && { ...point, ...changed };
    });
    return next && { points: next };
  });
const relabelled = (points: readonly RegistrationPoint[], step: number): RegistrationPoint[] =>
  points.map((point, k) => ({ ...point, label: `${step}${String.fromCharCode(97 + k)}` }));

const SPOILS: Readonly<Record<string, Spoil>> = {
  'another verdict': (plan) => ({
    ...plan,
    verdict: plan.verdict === 'set-in-seams' ? 'several-foundations' : 'set-in-seams',
  }),
  'one foundation not called the fewest': (plan) =>
    plan.sections.length === 1 ? { ...plan, fewest: false } : null,
  'a patch left out': (plan) => ({ ...plan, patches: plan.patches.slice(1) }),
  'a patch twice': (plan) => ({ ...plan, patches: [...plan.patches, plan.patches[0]!] }),
  'a patch of another name': inPatch(({ id }) => ({ id: `${id}0` })),
  'a patch in another section': inPatch(({ section }, { sections }) => {
    const other = sections.find(({ letter }) => letter !== section);
    return other ? { section: other.letter } : null;
  }),
  'a patch at another position': inPatch(({ position }) => ({ position: position + 1 })),
  'a corner of a patch moved': inPatch(({ polygon }) => ({
    polygon: [nudge(polygon[0]!), ...polygon.slice(1)],
  })),
  'a corner of a patch left out': inPatch(({ polygon }) =>
    polygon.length > 3 ? { polygon: polygon.slice(1) } : null,
  ),
  'a patch that turns the other way': inPatch(({ polygon }) => ({ polygon: polygon.toReversed() })),
  'a hole too many': inPatch(({ polygon, holes }) => ({ holes: [...holes, polygon.toReversed()] })),
  'a seam left out': inPatch(({ seam }) => (seam ? { seam: null } : null)),
  'a seam for position 1': inPatch(({ seam, polygon }) =>
    seam ? null : { seam: [polygon[0]!, polygon[1]!] },
  ),
  'a seam moved': inPatch(({ seam }) => seam && { seam: nudged(seam) }),
  'half a seam': inPatch(
    ({ seam }) => seam && { seam: [seam[0], [(seam[0][0] + seam[1][0]) / 2, (seam[0][1] + seam[1][1]) / 2]] },
  ),
  'a neighbour left out': inPatch(({ neighbours }) =>
    neighbours.length > 0 ? { neighbours: neighbours.slice(1) } : null,
  ),
  'a neighbour too many': inPatch(({ id, neighbours }, { patches }) => {
    const other = patches.find((one) => one.id !== id && !neighbours.includes(one.id));
    return other ? { neighbours: [...neighbours, other.id] } : null;
  }),
  'a section left out': (plan) =>
    plan.sections.length > 1 ? { ...plan, sections: plan.sections.slice(1) } : null,
  'a section of another letter': inSection(() => ({ letter: 'Q' })),
  'a corner of an outline moved': inSection(({ outline }) => ({
    outline: [nudge(outline[0]!), ...outline.slice(1)],
  })),
  'a corner of an outline left out': inSection(({ outline }) =>
    outline.length > 3 ? { outline: outline.slice(1) } : null,
  ),
  'an outline that turns the other way': inSection(({ outline }) => ({ outline: outline.toReversed() })),
  'a hole in a section that has none': inSection(({ outline }) => ({ holes: [outline.toReversed()] })),
  'a section that starts from a unit it does not start from': inSection(
    ({ letter, startsFrom }, { sections }) => {
      const other = sections.find((one) => one.letter !== letter && !startsFrom.includes(one.letter));
      return other ? { startsFrom: [...startsFrom, other.letter] } : null;
    },
  ),
  'a section that starts from nothing': inSection(({ startsFrom }) =>
    startsFrom.length > 0 ? { startsFrom: [] } : null,
  ),
  'two patches in the other order': inSection(({ order }) =>
    order.length > 1 ? { order: [order[1]!, order[0]!, ...order.slice(2)] } : null,
  ),
  'an order without its last': inSection(({ order }) => ({ order: order.slice(0, -1) })),
  'a join left out': (plan) => (plan.joins.length > 0 ? { ...plan, joins: plan.joins.slice(0, -1) } : null),
  'two joins in the other order': (plan) =>
    plan.joins.length > 1
      ? { ...plan, joins: [plan.joins[1]!, plan.joins[0]!, ...plan.joins.slice(2)] }
      : null,
  'a join of another step': inJoin(({ step }) => ({ step: step + 1 })),
  'a unit without one of its sections': inJoin(({ left }) =>
    left.length > 1 ? { left: left.slice(1) } : null,
  ),
  'a unit joined to itself': inJoin(({ left }) => ({ right: left })),
  'a join of the other kind': inJoin(({ kind }) => ({ kind: kind === 'straight' ? 'set-in' : 'straight' })),
  'a join with its seam moved': inJoin(({ seam }) => ({ seam: nudged(seam) })),
  'a join with a stretch moved': inJoin(({ stretches }) => ({
    stretches: [nudged(stretches[0]!), ...stretches.slice(1)],
  })),
  'a join without its last stretch': inJoin(({ stretches }) => ({ stretches: stretches.slice(0, -1) })),
  'a join with a stretch too many': inJoin(({ stretches }) => ({ stretches: [...stretches, stretches[0]!] })),
  'a join without points': inJoin(() => ({ points: [] })),
  'a point left out': inJoin(({ points, step }, rng) => {
    const gone = rng.whole(0, points.length - 1);
    return {
      points: relabelled(
        points.filter((_, k) => k !== gone),
        step,
      ),
    };
  }),
  'points out of turn': inJoin(({ points, step }) => ({ points: relabelled(points.toReversed(), step) })),
  'a point of another label': inPoint(({ label }) => ({ label: `${label}z` })),
  'a point off its seam': inPoint(({ at }) => ({ at: [at[0] + 0.13, at[1] + 0.17] })),
  'an end called a match': inPoint(({ kind }) => (kind === 'end' ? { kind: 'match' } : null)),
  'a match called a guide': inPoint(({ kind }) => (kind === 'match' ? { kind: 'guide' } : null)),
  'a match called a junction': inPoint(({ kind }) => (kind === 'match' ? { kind: 'junction' } : null)),
  'a junction called a match': inPoint(({ kind }) => (kind === 'junction' ? { kind: 'match' } : null)),
  'a junction called a guide': inPoint(({ kind }) => (kind === 'junction' ? { kind: 'guide' } : null)),
  'a guide called a junction': inPoint(({ kind }) => (kind === 'guide' ? { kind: 'junction' } : null)),
  'a guide called an end': inPoint(({ kind }) => (kind === 'guide' ? { kind: 'end' } : null)),
  'an edge left out': (plan) => ({ ...plan, edges: plan.edges.slice(1) }),
  'an edge twice': (plan) => ({ ...plan, edges: [...plan.edges, plan.edges[0]!] }),
  'an edge with its sides changed': inEdge(({ right, left }) => ({ right: left, left: right })),
  'an edge with another patch beside it': inEdge(({ right, left }, { patches }) => {
    const other = patches.find(({ id }) => id !== right && id !== left);
    return other ? { right: other.id } : null;
  }),
  'an edge that runs the other way': inEdge(({ from, to, right, left }) => ({
    from: to,
    to: from,
    right: left,
    left: right,
  })),
  'an edge with an end moved': inEdge(({ to }) => ({ to: nudge(to) })),
  'an edge inside the block on no cut': inEdge(({ right, left, line }) =>
    right !== null && left !== null && line !== null ? { line: null } : null,
  ),
  'an edge on another cut': inEdge(({ from, to, line }, { edges }) => {
    // One that does not run on in line with it, or a person could not tell them apart.
    const other = edges.find((one) => {
      const turn = (at: Point): number =>
        (to[0] - from[0]) * (at[1] - from[1]) - (to[1] - from[1]) * (at[0] - from[0]);
      const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
      return one.line !== null && one.line !== line && Math.abs(turn(one.from) - turn(one.to)) / length > 0.1;
    });
    return other ? { line: other.line } : null;
  }),
};

describe('the check of a plan', () => {
  it('passes plans that are good, of every kind', () => {
    for (const { seed, plan, block } of PLANS)
      expect({ seed, faults: verifyPlan(plan, block) }).toEqual({ seed, faults: [] });
    const verdicts = new Set(PLANS.map(({ plan }) => plan.verdict));
    expect([...verdicts].sort()).toEqual(['one-foundation', 'set-in-seams', 'several-foundations']);
    expect(
      PLANS.filter(({ plan }) => plan.sections.some(({ startsFrom }) => startsFrom.length > 0)).length,
    ).toBeGreaterThan(3);
  });

  it.each(Object.entries(SPOILS))('finds %s', (_, spoil) => {
    let tried = 0;
    for (const { seed, plan, block } of PLANS) {
      const bad = spoil(plan, new Prng(seed));
      if (bad === null) continue;
      tried++;
      expect({ seed, faults: verifyPlan(bad, block).length > 0 }).toEqual({ seed, faults: true });
    }
    expect(tried).toBeGreaterThan(3);
  });

  it('has a spoiled plan for every field that is printed or built upon', () => {
    const { findings: _, ...sewing } = PLANS[0]!.plan;
    expect(Object.keys(sewing).sort()).toEqual([
      'edges',
      'fewest',
      'joins',
      'patches',
      'sections',
      'verdict',
    ]);
  });
});

import { describe, expect, it } from 'vitest';
import type { Point } from '../../src/geometry/point.ts';
import type { Block } from '../../src/piecing/block.ts';
import { firstOrder } from '../../src/piecing/first-in-order.ts';
import { freeMoves, moved, orderFault } from '../../src/piecing/hand-order.ts';
import { piece } from '../../src/piecing/piece.ts';
import type { Patch, PiecingPlan, Section } from '../../src/piecing/plan.ts';
import { checkPlan } from '../checker/check-plan.ts';
import { asOneStretch, pointInside, sharedBoundary } from '../checker/shared-boundary.ts';
import { awkwardBlock } from '../designs/awkward.ts';
import { designOf } from '../designs/designs.ts';
import { entriesAt, orderedAt } from '../designs/entries.ts';
import { Prng } from '../designs/prng.ts';

/** Orders set by hand, against trying all of them by the sentence they stand on. */

const MOST = 6;

function permutations<T>(items: readonly T[]): T[][] {
  if (items.length === 0) return [[]];
  return items.flatMap((item, k) =>
    permutations([...items.slice(0, k), ...items.slice(k + 1)]).map((rest) => [item, ...rest]),
  );
}

/** Tells of any order whether it can be sewn on to what is there already, from the outlines of patches alone. */
function judgeOf(plan: PiecingPlan, section: Section): (order: readonly string[]) => boolean {
  const byId = new Map(plan.patches.map((patch) => [patch.id, patch]));
  const base = plan.patches.filter((patch) => section.startsFrom.includes(patch.section));
  const known = new Map<string, boolean>();
  const goesOn = (id: string, earlier: readonly Patch[]): boolean => {
    const key = `${id} ${earlier
      .map((patch) => patch.id)
      .sort()
      .join(' ')}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    const pieces = earlier.flatMap((patch) => sharedBoundary(byId.get(id)!, patch));
    const answer = asOneStretch(pieces).kind === 'straight';
    known.set(key, answer);
    return answer;
  };
  return (order) =>
    order.every((id, k) => {
      const earlier = [...base, ...order.slice(0, k).map((other) => byId.get(other)!)];
      return earlier.length === 0 || goesOn(id, earlier);
    });
}

interface Case {
  readonly name: string;
  readonly block: Block;
  readonly plan: PiecingPlan;
  readonly section: Section;
}

/** Sections of a few patches, some of them starting from a finished unit. */
const CASES: readonly Case[] = Array.from({ length: 150 }, (_, k) => k + 1).flatMap((seed) => {
  const drawn = seed % 3 === 0 ? awkwardBlock(seed) : designOf(60_000 + seed, { patches: [3, 14] }).block;
  const block: Block = seed % 2 === 0 ? { ...drawn, plan: 'unit-first' } : drawn;
  const plan = piece(block);
  const isSmall = ({ order }: Section, least: number): boolean =>
    order.length >= least && order.length <= MOST;
  const section =
    plan.sections.find((found) => found.startsFrom.length > 0 && isSmall(found, 2)) ??
    plan.sections.find((found) => isSmall(found, 3));
  return section ? [{ name: block.name, block, plan, section }] : [];
});

describe('orders by hand, against all permutations', () => {
  it('are tried on enough sections, of both kinds', () => {
    expect(CASES.length).toBeGreaterThan(45);
    expect(CASES.filter(({ section }) => section.startsFrom.length > 0).length).toBeGreaterThan(2);
  });

  it('can be sewn just when no fault is found; a fault names the first patch that does not go on', () => {
    const wrong: string[] = [];
    for (const { name, plan, section } of CASES) {
      const sews = judgeOf(plan, section);
      const neighbours = new Map(plan.patches.map((patch) => [patch.id, patch.neighbours]));
      for (const order of permutations(section.order)) {
        const fault = orderFault(plan, section, order);
        const say = (what: string): unknown => wrong.push(`${name}, ${order}: ${what}`);
        if ((fault === null) !== sews(order)) say(fault ? fault.message : 'no fault is found');
        if (!fault) continue;
        const k = order.indexOf(fault.patch);
        if (!sews(order.slice(0, k)) || sews(order.slice(0, k + 1))) say(`${fault.patch} is not the first`);
        if (![fault.patch, ...fault.touches].every((id) => fault.message.includes(id))) say(fault.message);
        if (!fault.touches.every((id) => neighbours.get(fault.patch)!.includes(id)))
          say('touches what it does not');
      }
    }
    expect(wrong.slice(0, 5)).toEqual([]);
  });

  it('free moves are all moves of one patch that can be sewn, its own place among them', () => {
    let free = 0;
    let barred = 0;
    for (const { name, plan, section } of CASES) {
      const sews = judgeOf(plan, section);
      const moves = freeMoves(plan, section);
      expect([...moves.keys()]).toEqual(section.order);
      section.order.forEach((id, from) => {
        const places = section.order
          .map((_, to) => to)
          .filter((to) => {
            const others = section.order.filter((other) => other !== id);
            return sews([...others.slice(0, to), id, ...others.slice(to)]);
          });
        expect({ name, id, places: moves.get(id) }).toEqual({ name, id, places });
        expect(places).toContain(from);
        free += places.length;
        barred += section.order.length - places.length;
      });
    }
    expect(Math.min(free, barred)).toBeGreaterThan(100);
  });

  it('a patch can be first just when some order begins with it, and the order given is one', () => {
    for (const { name, plan, section } of CASES) {
      const sews = judgeOf(plan, section);
      const firsts = new Set(
        permutations(section.order)
          .filter(sews)
          .map((order) => order[0]),
      );
      for (const id of section.order) {
        const order = firstOrder(plan, section, id);
        expect({ name, id, can: order !== null }).toEqual({ name, id, can: firsts.has(id) });
        if (!order) continue;
        expect(order[0]).toBe(id);
        expect([...order].sort()).toEqual([...section.order].sort());
        expect(sews(order)).toBe(true);
      }
    }
  });

  it('taking an item to another place keeps all others in turn', () => {
    expect(moved(['a', 'b', 'c', 'd'], 0, 2)).toEqual(['b', 'c', 'a', 'd']);
    expect(moved(['a', 'b', 'c', 'd'], 3, 0)).toEqual(['d', 'a', 'b', 'c']);
    expect(moved(['a'], 0, 0)).toEqual(['a']);
  });
});

/** The block with an order set by hand for some patches of its plan. */
function ordered({ block, plan }: Case, ids: readonly string[]): { asked: Block; spots: Point[] } {
  const spots = ids.map((id) => pointInside(plan.patches.find((patch) => patch.id === id)!));
  return { asked: orderedAt(block, [spots]), spots };
}

/** Positions of spots in a plan. */
function positionsOf(plan: PiecingPlan, spots: readonly Point[]): number[] {
  return spots.map((spot) => {
    const inside = plan.patches.find(
      (patch) => pointInside(patch)[0] === spot[0] && pointInside(patch)[1] === spot[1],
    );
    return inside!.position;
  });
}

describe('an order kept with the block', () => {
  it('is the order of the plan where it can be sewn, and refused with a finding where it cannot', () => {
    let kept = 0;
    let refused = 0;
    for (const item of CASES) {
      const sews = judgeOf(item.plan, item.section);
      const rng = new Prng(item.section.order.length);
      for (const order of rng.shuffled(permutations(item.section.order)).slice(0, 12)) {
        const { asked, spots } = ordered(item, order);
        const plan = piece(asked);
        const positions = positionsOf(plan, spots);
        const isKept = positions.every((position, k) => k === 0 || position > positions[k - 1]!);
        const isRefused = plan.findings.some(({ code }) => code === 'order-refused');
        const can = sews(order);
        expect({ name: item.name, order, isKept, isRefused }).toEqual({
          name: item.name,
          order,
          isKept: can,
          isRefused: !can,
        });
        expect(checkPlan(asked, plan)).toEqual([]);
        if (can) kept++;
        else refused++;
      }
    }
    expect(Math.min(kept, refused)).toBeGreaterThan(100);
  });

  it('of one patch makes it position 1 wherever it can be, and is refused where it cannot', () => {
    let refused = 0;
    for (const item of CASES) {
      // After a finished unit, its first patch is position 2.
      const least = item.section.startsFrom.length > 0 ? 2 : 1;
      const sews = judgeOf(item.plan, item.section);
      const all = permutations(item.section.order).filter(sews);
      for (const id of item.section.order) {
        const { asked, spots } = ordered(item, [id]);
        const plan = piece(asked);
        const can = all.some((order) => order[0] === id);
        const isRefused = plan.findings.some(({ code }) => code === 'order-refused');
        expect({ name: item.name, id, first: positionsOf(plan, spots)[0] === least, isRefused }).toEqual({
          name: item.name,
          id,
          first: can,
          isRefused: !can,
        });
        if (!can) refused++;
      }
    }
    expect(refused).toBeGreaterThan(5);
  });
});

describe('light before dark', () => {
  const lights: Readonly<Record<string, number>> = { foam: 0.95, sand: 0.7, dusk: 0.4, night: 0.1 };
  const lightness = new Map(Object.entries(lights));

  /** The case with every patch painted, by seed. */
  const painted = ({ block, plan }: Case, seed: number): Block => {
    const rng = new Prng(seed);
    return {
      ...block,
      patches: entriesAt(
        plan.patches.map((patch) => ({ at: pointInside(patch), fabric: rng.pick(Object.keys(lights)) })),
      ),
    };
  };
  /** Pairs of which the darker comes first. */
  const inversions = (order: readonly string[], plan: PiecingPlan): number => {
    const values = order.map((id) => lights[plan.patches.find((patch) => patch.id === id)!.fabric!]!);
    return values.reduce(
      (sum, value, k) => sum + values.slice(k + 1).filter((later) => later > value).length,
      0,
    );
  };

  it('wherever two patches that follow each other could change places, the lighter comes first', () => {
    let free = 0;
    CASES.forEach((item, seed) => {
      const plan = piece(painted(item, seed), { lightness });
      for (const section of plan.sections) {
        if (section.order.length > 12) continue;
        const sews = judgeOf(plan, section);
        for (let k = 0; k + 1 < section.order.length; k++) {
          const swapped = [...section.order];
          [swapped[k], swapped[k + 1]] = [swapped[k + 1]!, swapped[k]!];
          if (!sews(swapped)) continue;
          free++;
          expect({
            name: item.name,
            order: section.order,
            k,
            better: inversions(swapped, plan) < inversions(section.order, plan),
          }).toEqual({ name: item.name, order: section.order, k, better: false });
        }
      }
    });
    expect(free).toBeGreaterThan(60);
  });

  it('is near the best that any order can do', () => {
    let own = 0;
    let best = 0;
    let worst = 0;
    CASES.forEach((item, seed) => {
      const plan = piece(painted(item, seed), { lightness });
      for (const section of plan.sections) {
        if (section.order.length < 3 || section.order.length > MOST) continue;
        const all = permutations(section.order)
          .filter(judgeOf(plan, section))
          .map((order) => inversions(order, plan));
        own += inversions(section.order, plan);
        best += Math.min(...all);
        worst += Math.max(...all);
      }
    });
    console.log(
      `light before dark: ${own} pairs the wrong way; the best orders have ${best}, the worst ${worst}`,
    );
    expect(worst).toBeGreaterThan(2 * best);
    expect(own - best).toBeLessThan(0.1 * (worst - best));
  });
});

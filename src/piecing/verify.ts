import { isOneStretch } from '../geometry/one-stretch.ts';
import type { Segment } from '../geometry/point.ts';
import { pointNumbers } from '../geometry/point-numbers.ts';
import type { Patch, SewingPlan } from './plan.ts';

/**
 * Checks a plan by the rule itself, from the polygons of its patches alone: for every position after the first,
 * all the boundary the patch shares with earlier ones is one straight, unbroken stretch; every straight join is
 * one too; every patch has its place. Knows nothing of how the plan was found.
 * Result: the faults as sentences, none for a plan that may be printed. Cost: O(edges).
 */
export function verifyPlan(plan: SewingPlan): string[] {
  if (plan.verdict === 'broken') return [];
  const faults: string[] = [];
  const patches = new Map(plan.patches.map((patch) => [patch.id, patch]));
  const shared = sharedEdges(plan.patches);
  const placed = new Set<string>();
  for (const section of plan.sections) {
    const earlier = new Set(
      plan.patches.filter((p) => section.startsFrom.includes(p.section)).map((p) => p.id),
    );
    for (const id of section.order) {
      const patch = patches.get(id);
      if (!patch || placed.has(id)) {
        faults.push(`${id} does not stand exactly once in the plan.`);
        continue;
      }
      if (earlier.size > 0) {
        const contact = shared.get(id)!.filter(({ other }) => earlier.has(other));
        if (!isOneStretch(contact.map(({ edge }) => edge)))
          faults.push(`${id} does not meet the patches before it along one straight line.`);
      }
      earlier.add(id);
      placed.add(id);
    }
  }
  if (placed.size !== plan.patches.length) faults.push('A patch stands on no foundation.');

  const unitOf = new Map(plan.sections.map(({ letter }) => [letter, letter]));
  /** Name of the unit that is made of just these sections, or null when there is none yet. */
  const unit = (letters: readonly string[]): string | null => {
    const names = new Set(letters.map((letter) => unitOf.get(letter)));
    const [name] = names;
    const members = [...unitOf.values()].filter((n) => n === name).length;
    return names.size === 1 && name !== undefined && members === letters.length ? name : null;
  };
  const waiting = new Set(plan.sections.filter(({ startsFrom }) => startsFrom.length > 0));
  /** Sections that start from a unit are sewn as soon as it is there. */
  const sewOn = (): void => {
    for (const section of waiting) {
      const name = unit(section.startsFrom);
      if (name === null) continue;
      unitOf.set(section.letter, name);
      waiting.delete(section);
      sewOn();
      return;
    }
  };
  for (const join of plan.joins) {
    sewOn();
    const left = unit(join.left);
    const right = unit(join.right);
    if (left === null || right === null || left === right) {
      faults.push(`Join ${join.step} needs units that are not made before it.`);
      continue;
    }
    if (join.kind === 'straight') {
      const isLeft = new Set(join.left);
      const isRight = new Set(join.right);
      const seam = plan.patches
        .filter(({ section }) => isLeft.has(section))
        .flatMap(({ id }) => shared.get(id)!.filter(({ other }) => isRight.has(patches.get(other)!.section)));
      if (!isOneStretch(seam.map(({ edge }) => edge)))
        faults.push(`Join ${join.step} is not one straight seam.`);
    }
    for (const letter of join.right) unitOf.set(letter, left);
  }
  sewOn();
  if (new Set(unitOf.values()).size > 1) faults.push('The sections are not all joined.');
  return faults;
}

/** A stretch of a patch's boundary that it shares with another patch. */
interface SharedEdge {
  readonly edge: Segment;
  /** Id of the patch beyond it. */
  readonly other: string;
}

/**
 * What each patch shares with others, by patch id. Neighbours share vertices exactly, so the patch beyond an edge is
 * the one that has the same edge the other way. Cost: O(edges).
 */
function sharedEdges(patches: readonly Patch[]): ReadonlyMap<string, readonly SharedEdge[]> {
  const { numberOf, count } = pointNumbers();
  const rings = patches.map(({ polygon, holes }) =>
    [polygon, ...holes].map((ring) => ({ ring, ids: ring.map(numberOf) })),
  );
  const owner = new Map<number, string>();
  const points = count();
  const keyOf = (from: number, to: number): number => from * points + to;
  rings.forEach((ofPatch, k) => {
    for (const { ids } of ofPatch)
      ids.forEach((from, i) => {
        owner.set(keyOf(from, ids[(i + 1) % ids.length]!), patches[k]!.id);
      });
  });
  return new Map(
    patches.map(({ id }, k) => {
      const shared: SharedEdge[] = [];
      for (const { ring, ids } of rings[k]!)
        ids.forEach((from, i) => {
          const next = (i + 1) % ids.length;
          const other = owner.get(keyOf(ids[next]!, from));
          if (other !== undefined && other !== id) shared.push({ edge: [ring[i]!, ring[next]!], other });
        });
      return [id, shared];
    }),
  );
}

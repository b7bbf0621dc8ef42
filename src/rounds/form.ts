import { isOneStretch } from '../geometry/one-stretch.ts';
import type { Segment } from '../geometry/point.ts';
import { contactsOf } from '../piecing/edges.ts';
import type { PiecingPlan, Section } from '../piecing/plan.ts';

/** Patches of one foundation as the rounds see them: what each is cut from, and which boundary any two share. */
export interface Form {
  /** Ids as printed, in the order of the plan. */
  readonly patches: readonly string[];
  /** Fabric id of each patch, or null while unpainted. */
  readonly fabrics: readonly (string | null)[];
  /** For each patch the others it touches, by index; `BASE` stands for the finished unit it may start from. */
  readonly contacts: readonly (readonly Contact[])[];
  /** Position 1 is a finished unit, not a patch. */
  readonly startsFromUnit: boolean;
}

/** Index that stands for the unit a paper starts from. */
export const BASE = -1;

export interface Contact {
  readonly other: number;
  readonly edges: readonly Segment[];
}

/** The forms of all sections of a plan, by letter. Cost: O(edges). */
export function formsOf(plan: PiecingPlan): Map<string, Form> {
  const shared = contactsOf(plan.edges);
  const byId = new Map(plan.patches.map((patch) => [patch.id, patch]));
  return new Map(plan.sections.map((section) => [section.letter, formOf(section)]));

  function formOf(section: Section): Form {
    const numberOf = new Map(section.order.map((id, k) => [id, k]));
    const base = new Set(section.startsFrom);
    return {
      patches: section.order,
      fabrics: section.order.map((id) => byId.get(id)!.fabric),
      startsFromUnit: base.size > 0,
      contacts: section.order.map((id) => {
        const edges = new Map<number, Segment[]>();
        for (const { edge, other } of shared.get(id) ?? []) {
          const k = numberOf.get(other) ?? (base.has(byId.get(other)!.section) ? BASE : null);
          if (k === null) continue;
          const there = edges.get(k);
          if (there) there.push(edge);
          else edges.set(k, [edge]);
        }
        return [...edges].map(([other, own]) => ({ other, edges: own }));
      }),
    };
  }
}

/**
 * Tells for each patch whether it meets a set of others along one straight unbroken stretch: the rule of an order.
 * `sewn`: 1 for those that are there. Answers are kept by which of its neighbours are there.
 */
export function contactRule(form: Form): (patch: number, sewn: Uint8Array) => boolean {
  const known = form.patches.map(() => new Map<string, boolean>());
  return (patch, sewn) => {
    let key = '';
    const contacts = form.contacts[patch]!;
    for (const { other } of contacts) key += other === BASE || sewn[other] === 1 ? '1' : '0';
    const before = known[patch]!.get(key);
    if (before !== undefined) return before;
    const answer = isOneStretch(contacts.flatMap(({ edges }, k) => (key[k] === '1' ? edges : [])));
    known[patch]!.set(key, answer);
    return answer;
  };
}

import { setOrder } from '../../document/edit-plan.ts';
import { knownDrawing } from '../../document/known-drawing.ts';
import type { Block, Project } from '../../document/project.ts';
import { firstOrder } from '../../piecing/first-in-order.ts';
import type { Patch, PiecingPlan, Section } from '../../piecing/plan.ts';
import { phrase } from '../../words/phrase.ts';
import { edit } from '../../workspace/actions.ts';

const byIds = new WeakMap<PiecingPlan, ReadonlyMap<string, Patch>>();

/** The patches of a section in their order. */
export function patchesOf(plan: PiecingPlan, { order }: Section): readonly Patch[] {
  const byId = byIds.get(plan) ?? new Map(plan.patches.map((patch) => [patch.id, patch]));
  byIds.set(plan, byId);
  return order.flatMap((id) => byId.get(id) ?? []);
}

/** The orders set by hand that say something of a section. */
export function ordersFor(block: Block, plan: PiecingPlan, section: Section): readonly (readonly string[])[] {
  const keys = new Set(patchesOf(plan, section).map(({ key }) => key));
  const orders = knownDrawing(block)?.orders ?? [];
  return orders.filter((order) => order.some((id) => keys.has(id)));
}

/** The project with another order for one section; what earlier ones said of other sections is kept. */
function reordered(
  project: Project,
  block: Block,
  plan: PiecingPlan,
  section: Section,
  ids: readonly string[],
): Project {
  const patches = patchesOf(plan, section);
  const keyOf = new Map(patches.map(({ id, key }) => [id, key]));
  return setOrder(
    project,
    block.id,
    ids.flatMap((id) => keyOf.get(id) ?? []),
    [...keyOf.values()],
  );
}

/** Sets the whole order of a section by hand, as one step. */
export function setSectionOrder(
  block: Block,
  plan: PiecingPlan,
  section: Section,
  ids: readonly string[],
): void {
  edit(phrase('Set the order of {letter}', { letter: section.letter }), (project) =>
    reordered(project, block, plan, section, ids),
  );
}

/** Lets the plan choose the order of a section again. */
export function suggestOrder(block: Block, plan: PiecingPlan, section: Section): void {
  edit(phrase('Suggested order of {letter}', { letter: section.letter }), (project) =>
    reordered(project, block, plan, section, []),
  );
}

/** Pins a patch as the first of its section; an order set by hand before is kept as far as it can be. */
export function sewFirst(block: Block, plan: PiecingPlan, section: Section, id: string): void {
  const isByHand = ordersFor(block, plan, section).some((order) => order.length > 1);
  const ids = isByHand ? (firstOrder(plan, section, id) ?? [id]) : [id];
  edit(phrase('Sew {id} first', { id }), (project) => reordered(project, block, plan, section, ids));
}

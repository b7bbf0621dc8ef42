import { labelSpot } from '../../board/draw/label-spot.ts';
import { setOrder } from '../../document/edit-plan.ts';
import type { Block, Project } from '../../document/project.ts';
import { holdsPoint } from '../../geometry/inner-spot.ts';
import type { Point } from '../../geometry/point.ts';
import { firstOrder } from '../../piecing/first-in-order.ts';
import type { Patch, PiecingPlan, Section } from '../../piecing/plan.ts';
import { edit } from '../../workspace/actions.ts';

const byIds = new WeakMap<PiecingPlan, ReadonlyMap<string, Patch>>();

/** The patches of a section in their order. */
export function patchesOf(plan: PiecingPlan, { order }: Section): readonly Patch[] {
  const byId = byIds.get(plan) ?? new Map(plan.patches.map((patch) => [patch.id, patch]));
  byIds.set(plan, byId);
  return order.flatMap((id) => byId.get(id) ?? []);
}

/** The orders set by hand that say something of a section. */
export function ordersFor(block: Block, plan: PiecingPlan, section: Section): readonly (readonly Point[])[] {
  const patches = patchesOf(plan, section);
  return (block.orders ?? []).filter((order) => order.some((at) => holds(patches, at)));
}

const holds = (patches: readonly Patch[], at: Point): boolean =>
  patches.some((patch) => holdsPoint(patch, at));

/** The project with other orders for one section; what earlier ones said of other sections is kept. */
function reordered(
  project: Project,
  block: Block,
  plan: PiecingPlan,
  section: Section,
  ids: readonly string[],
): Project {
  const patches = patchesOf(plan, section);
  const cleared = ordersFor(block, plan, section).reduce(
    (before, order) =>
      setOrder(
        before,
        block.id,
        order.filter((at) => !holds(patches, at)),
        order,
      ),
    project,
  );
  const spots = ids.flatMap((id) => {
    const patch = patches.find((one) => one.id === id);
    return patch === undefined ? [] : [labelSpot(patch).at];
  });
  return setOrder(cleared, block.id, spots);
}

/** Sets the whole order of a section by hand, as one step. */
export function setSectionOrder(
  block: Block,
  plan: PiecingPlan,
  section: Section,
  ids: readonly string[],
): void {
  edit(`Set the order of ${section.letter}`, (project) => reordered(project, block, plan, section, ids));
}

/** Lets the plan choose the order of a section again. */
export function suggestOrder(block: Block, plan: PiecingPlan, section: Section): void {
  edit(`Suggested order of ${section.letter}`, (project) => reordered(project, block, plan, section, []));
}

/** Pins a patch as the first of its section; an order set by hand before is kept as far as it can be. */
export function sewFirst(block: Block, plan: PiecingPlan, section: Section, id: string): void {
  const isByHand = ordersFor(block, plan, section).some((order) => order.length > 1);
  const ids = isByHand ? (firstOrder(plan, section, id) ?? [id]) : [id];
  edit(`Sew ${id} first`, (project) => reordered(project, block, plan, section, ids));
}

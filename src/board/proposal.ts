import { createStore } from 'zustand/vanilla';
import { applyRepair } from '../document/edit-plan.ts';
import type { Block, ProjectEdit } from '../document/project.ts';
import { STRAIGHT_IN } from '../geometry/lattice.ts';
import type { Point, Segment } from '../geometry/point.ts';
import { distance } from '../geometry/ring.ts';
import type { Cure } from '../piecing/repairs/cure.ts';
import { session } from '../workspace/session.ts';
import { inSymmetry } from './board-acts.ts';

/** A change to the block on the board that is shown, not made. */
export interface Proposal {
  /** The state of the block it was made for; shown on that one only. */
  readonly block: Block;
  readonly repair: Cure;
  /** The block as it would be, under an id of its own. */
  readonly after: Block;
  /** Lines that would come, and those that would go. */
  readonly added: readonly Segment[];
  readonly removed: readonly Segment[];
  /** Cuts of the block that would be others, or gone. */
  readonly changed: readonly string[];
}

interface Proposals {
  readonly shown: Proposal | null;
  /** It stays when the pointer goes: a finger that showed it cannot rest on it. */
  readonly isHeld: boolean;
}

export const proposals = createStore<Proposals>(() => ({ shown: null, isHeld: false }));

/** Is it a repair that is shown? It may have come anew with others found since. */
export const isShown = ({ shown }: Proposals, block: Block, repair: Cure): boolean =>
  shown !== null && shown.block === block && shown.repair.id === repair.id;

/** Shows on the board what a repair would leave of a block of the recorded project. */
export function propose(block: Block, repair: Cure): void {
  if (isShown(proposals.getState(), block, repair)) return;
  const alone: ProjectEdit = (project) => applyRepair(project, block.id, repair.change);
  // What was drawn for the whole block is not drawn again at its other places.
  const change = repair.mended ? alone : inSymmetry(alone);
  const changed = change(session.getState().project).blocks.find(({ id }) => id === block.id);
  if (changed === undefined) return;
  const after = { ...changed, id: `${block.id} as proposed` };
  proposals.setState({ shown: { block, repair, after, ...changesOf(block, after) }, isHeld: false });
}

/** The same, and it stays until it is done or taken back. */
export function proposeAndHold(block: Block, repair: Cure): void {
  propose(block, repair);
  proposals.setState({ isHeld: true });
}

/** The pointer or the keyboard goes on: the block as it is, unless what is shown is held. */
export function leaveProposal(): void {
  if (!proposals.getState().isHeld) withdraw();
}

/** The block as it is. */
export function withdraw(): void {
  if (proposals.getState().shown !== null) proposals.setState({ shown: null, isHeld: false });
}

/** What is drawn anew and what goes away between two states of a block. A line that only grows or shrinks counts by its stretch. */
function changesOf(before: Block, after: Block): Pick<Proposal, 'added' | 'removed' | 'changed'> {
  const was = new Map(before.cuts.map((cut) => [cut.id, cut]));
  const is = new Map(after.cuts.map((cut) => [cut.id, cut]));
  const added: Segment[] = [];
  const removed: Segment[] = [];
  for (const [id, { from, to }] of was) {
    const next = is.get(id);
    if (next === undefined) removed.push([from, to]);
    else removed.push(...stretchesBeside([from, to], [next.from, next.to]));
  }
  for (const [id, { from, to }] of is) {
    const last = was.get(id);
    if (last === undefined) added.push([from, to]);
    else added.push(...stretchesBeside([from, to], [last.from, last.to]));
  }
  const changed = before.cuts.filter((cut) => {
    const next = is.get(cut.id);
    return (
      next === undefined || String([next.from, next.to, next.role]) !== String([cut.from, cut.to, cut.role])
    );
  });
  return { added, removed, changed: changed.map(({ id }) => id) };
}

/** The stretches of a segment that another does not cover; all of it where they are not one straight line. */
function stretchesBeside([a, b]: Segment, [c, d]: Segment): Segment[] {
  const length = distance(a, b);
  if (length <= STRAIGHT_IN) return [];
  const [ux, uy] = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
  const along = (p: Point): number => (p[0] - a[0]) * ux + (p[1] - a[1]) * uy;
  const off = (p: Point): number => Math.abs((p[1] - a[1]) * ux - (p[0] - a[0]) * uy);
  if (off(c) > STRAIGHT_IN || off(d) > STRAIGHT_IN) return [[a, b]];
  const at = (t: number): Point => [a[0] + ux * t, a[1] + uy * t];
  const low = Math.min(along(c), along(d));
  const high = Math.max(along(c), along(d));
  const stretches: Segment[] = [];
  if (low > STRAIGHT_IN) stretches.push([a, at(Math.min(low, length))]);
  if (high < length - STRAIGHT_IN) stretches.push([at(Math.max(high, 0)), b]);
  return stretches;
}

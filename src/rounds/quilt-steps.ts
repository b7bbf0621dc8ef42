import type { Project } from '../document/project.ts';
import { isBlockPlace } from '../document/quilt.ts';
import { madeFor } from '../document/turned-over.ts';
import type { Work, WorkQuilt } from '../document/work.ts';
import type { PiecingPlan } from '../piecing/plan.ts';
import { joiningOf } from '../quilt/joining.ts';
import { layOut } from '../quilt/layout.ts';
import { matchingOf } from '../quilt/matching.ts';
import { numbersOf, seamLength } from '../quilt/words.ts';

/** How the finished blocks are joined into the quilt, once they are in work. */

/**
 * The joining of the project's quilt, to be kept in work; null where there is no quilt or no plan to join it. `planOf`:
 * the plan of a block, null where it is not made.
 */
export function quiltSteps(
  { quilt, blocks }: Pick<Project, 'quilt' | 'blocks'>,
  copies: number,
  planOf: (block: string) => PiecingPlan | null,
): WorkQuilt | null {
  if (!quilt || quilt.places.length < 2) return null;
  const layout = layOut(quilt, blocks);
  const joined = joiningOf(layout, quilt.joining, quilt.units);
  if (!joined.ok) return null;
  const { steps } = joined.plan;
  const numbers = numbersOf(layout);
  const pinned = new Map(
    matchingOf(layout, steps, blocks, (block) => planOf(block)?.patches ?? null).pinned.map((one) => [
      one.step,
      one.points,
    ]),
  );
  const places = [...layout.pieces]
    .map(({ place }) => ({
      id: place.id,
      number: numbers.get(place.id)!,
      ...(isBlockPlace(place) && { block: madeFor(place) }),
    }))
    .sort((a, b) => a.number - b.number);
  return {
    copies,
    places,
    steps: steps.map((step) => {
      const points = pinned.get(step.step) ?? [];
      return {
        left: step.left,
        right: step.right,
        length: seamLength(step),
        kind: step.kind,
        pins: points.length,
        matches: points.filter(({ kind }) => kind === 'match').length,
      };
    }),
    done: Array.from({ length: copies }, () => []),
  };
}

/** A joining step of the quilt whose units are both there, or that is done. */
export interface QuiltStep {
  /** From 0. */
  readonly step: number;
  readonly isDone: boolean;
}

/** Of one quilt, from 1: the steps that can be sewn now, and those done. */
export function quiltStepsOf(work: Work, copy: number): readonly QuiltStep[] {
  const { quilt } = work;
  if (!quilt) return [];
  const done = new Set(quilt.done[copy - 1] ?? []);
  const waiting = placesWaiting(work, copy);
  /** Which step made the unit that a place is in so far, by place. */
  const unitOf = new Map<string, number>();
  return quilt.steps.flatMap(({ left, right }, step): QuiltStep[] => {
    const isThere = ([first]: readonly string[]): boolean => {
      const made = unitOf.get(first!);
      return made === undefined ? !waiting.has(first!) : done.has(made);
    };
    const isReady = isThere(left) && isThere(right);
    for (const id of [...left, ...right]) unitOf.set(id, step);
    return isReady || done.has(step) ? [{ step, isDone: done.has(step) }] : [];
  });
}

/** Places of blocks in work that are not trimmed yet. The nth place of a block takes its nth copy. */
function placesWaiting(work: Work, copy: number): ReadonlySet<string> {
  const { quilt } = work;
  const inWork = new Map(work.blocks.map((block) => [block.id, block]));
  const trimmed = new Set(work.trimmed);
  const perQuilt = new Map<string, number>();
  for (const { block } of quilt!.places)
    if (block !== undefined) perQuilt.set(block, (perQuilt.get(block) ?? 0) + 1);
  const used = new Map<string, number>();
  const waiting = new Set<string>();
  for (const { id, block } of quilt!.places) {
    const there = block === undefined ? undefined : inWork.get(block);
    if (!there) continue;
    const nth = (used.get(there.id) ?? 0) + 1;
    used.set(there.id, nth);
    const number = (copy - 1) * perQuilt.get(there.id)! + nth;
    // Fewer copies than places: one in work stands for several, as where the rest were sewn before.
    const own = ((number - 1) % there.copies) + 1;
    if (!trimmed.has(`${there.id}/${own}`)) waiting.add(id);
  }
  return waiting;
}

/** A step of a quilt is done, or not after all, and with it every step that needs its unit. */
export function setQuiltStep(work: Work, copy: number, step: number, isDone: boolean): Work {
  const { quilt } = work;
  if (!quilt?.steps[step] || quilt.done[copy - 1] === undefined) return work;
  if (isDone && !quiltStepsOf(work, copy).some((one) => one.step === step)) return work;
  const before = quilt.done[copy - 1]!;
  const own = new Set([...quilt.steps[step]!.left, ...quilt.steps[step]!.right]);
  const after = isDone
    ? [...new Set([...before, step])].sort((a, b) => a - b)
    : before.filter(
        (one) =>
          one < step || ![...quilt.steps[one]!.left, ...quilt.steps[one]!.right].some((id) => own.has(id)),
      );
  return { ...work, quilt: { ...quilt, done: quilt.done.map((done, k) => (k === copy - 1 ? after : done)) } };
}

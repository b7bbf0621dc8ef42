import { createStore } from 'zustand/vanilla';
import type { Block, Project } from '../document/project.ts';
import { turnedOverId } from '../document/turned-over.ts';
import { type MadeBlock, madeAsChosen } from '../making/making.ts';
import { paperSettings } from './paper-settings.ts';
import { madePlan, plansCome, requestPlan } from './plans.ts';
import { session } from './session.ts';

/** How many blocks of the recorded project are still to be worked out; it changes whenever one comes. */
export const plansToCome = createStore<{ readonly blocks: number }>(() => ({ blocks: 0 }));

/**
 * Has every block of the recorded project pieced in the worker, and again whenever something changes: the open block
 * first, then those in sight, then the others. Nothing is asked for in the midst of a gesture, nor while the screen is
 * drawn. Returns a stop function.
 */
export function startPlanning(): () => void {
  let isToCome = false;
  let wait: ReturnType<typeof setTimeout> | undefined;
  const askForAll = (): void => {
    isToCome = false;
    // Before and after, so that whoever waits hears of what is made at once too.
    count();
    const { project, draft } = session.getState();
    if (draft === null) for (const block of project.blocks) requestPlan(block);
    count();
  };
  const soon = (): void => {
    if (isToCome) return;
    isToCome = true;
    wait = setTimeout(askForAll, 0);
  };
  const stops = [
    session.subscribe((now, before) => {
      if (now.project !== before.project || now.draft !== before.draft) soon();
    }),
    paperSettings.subscribe(soon),
    plansCome.subscribe(count),
  ];
  soon();
  return () => {
    clearTimeout(wait);
    for (const stop of stops) stop();
  };
}

function count(): void {
  const blocks = session.getState().project.blocks.filter((block) => madePlan(block) === null).length;
  if (blocks !== plansToCome.getState().blocks) plansToCome.setState({ blocks });
}

/** What is made of a project as far as its plans are there. */
export interface MakingAtHand {
  /** Those of the chosen blocks whose plan is there, in the order of the project. */
  readonly blocks: readonly MadeBlock[];
  /** How many more are still to come. */
  readonly toCome: number;
}

/** What is made of these blocks, in so many copies by their ids, or those of blocks turned over; asks for nothing. */
export function makingAtHand(project: Project, copies: ReadonlyMap<string, number>): MakingAtHand {
  let toCome = 0;
  const blocks = project.blocks.flatMap((block: Block): MadeBlock[] => {
    if (!copies.has(block.id) && !copies.has(turnedOverId(block.id))) return [];
    const plan = madePlan(block);
    if (plan === null) toCome++;
    return plan === null ? [] : madeAsChosen(block, plan, (id) => copies.get(id));
  });
  return { blocks, toCome };
}

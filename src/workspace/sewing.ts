import { proxy, type Remote, wrap } from 'comlink';
import { createStore } from 'zustand/vanilla';
import { completed, withOrders } from '../document/carry-patches.ts';
import { changeBlock } from '../document/find.ts';
import type { Project } from '../document/project.ts';
import { drawnFor } from '../document/turned-over.ts';
import type { Work, WorkBlock } from '../document/work.ts';
import type { PiecingPlan } from '../piecing/plan.ts';
import type { BatchChoice } from '../rounds/batches.ts';
import type { TakenChanges } from '../rounds/take-changes.ts';
import { drawingIn } from '../rounds/take-into-work.ts';
import { noted } from '../rounds/work.ts';
import { phrase } from '../words/phrase.ts';
import { edit, noteDone, say } from './actions.ts';
import { flushWork } from './autosave.ts';
import { drawingOf } from './drawing-of.ts';
import { makingAtHand } from './making.ts';
import { pieceOptions } from './present-options.ts';
import type { RoundsHand, RoundsNews } from './rounds-worker.ts';
import { onOtherProject, session } from './session.ts';
import { sewWishes } from './sew-wishes.ts';
import { startWorker } from './worker-hand.ts';

export type { RoundsNews } from './rounds-worker.ts';

/** The planning of rounds: the best plan so far, whether a better one is looked for, and what failed. */
export interface Planning {
  readonly news: RoundsNews | null;
  readonly isBusy: boolean;
  /** One sentence, where it failed. */
  readonly failure: string | null;
}

const RESTING: Planning = { news: null, isBusy: false, failure: null };

export const planning = createStore<Planning>(() => RESTING);

let hand: Remote<RoundsHand> | null = null;
let asked = 0;

function theHand(): Remote<RoundsHand> {
  if (hand === null) {
    const worker = startWorker('rounds');
    worker.addEventListener('error', () => failed(phrase('The part that plans rounds could not be loaded.')));
    hand = wrap<RoundsHand>(worker);
  }
  return hand;
}

function failed(reason: string): void {
  hand = null;
  planning.setState({
    isBusy: false,
    failure: phrase('The rounds could not be planned. {reason}', { reason }),
  });
}

const reasonOf = (thrown: unknown): string => (thrown instanceof Error ? thrown.message : String(thrown));

/** Forgets the plan, as when another project is opened. */
export function dropRounds(): void {
  asked++;
  planning.setState(RESTING);
}

onOtherProject(dropRounds);

/** Plans the rounds of some blocks, in copies by their ids, telling of each better plan as it comes. */
export async function planSewing(
  copies: ReadonlyMap<string, number>,
  isFirstPairCut: boolean,
  batches: BatchChoice,
): Promise<void> {
  const own = ++asked;
  const { project } = session.getState();
  const { blocks, toCome } = makingAtHand(project, copies);
  if (toCome > 0 || blocks.length === 0) return;
  planning.setState({ news: null, isBusy: true, failure: null });
  try {
    const order = { made: blocks, fabrics: project.fabrics.map(({ id }) => id), isFirstPairCut, batches };
    const hear = proxy((news: RoundsNews) => {
      if (own === asked) planning.setState({ news });
    });
    const isWhole = await theHand().plan(order, hear);
    if (own === asked && isWhole) planning.setState({ isBusy: false });
  } catch (thrown) {
    if (own === asked) failed(reasonOf(thrown));
  }
}

/**
 * Takes the best plan so far into work. The blocks keep the orders it settled, so that their papers are numbered as
 * they will be sewn: that is an edit, and can be undone; what is in work stays whatever is undone.
 */
export async function takePlanIntoWork(pile: number | null): Promise<void> {
  const own = ++asked;
  try {
    const taken = await theHand().take({ project: plainProject(), options: pieceOptions(), pile });
    if (taken === null || own !== asked) return;
    edit(phrase('Take into work'), (project) =>
      taken.orders.reduce((before, [id, orders]) => {
        const block = drawnFor(before, id);
        // A block that is made both ways is numbered as it is drawn.
        if (block !== id && taken.orders.some(([other]) => other === block)) return before;
        return changeBlock(before, block, (one) => withOrders(completed(one), orders));
      }, project),
    );
    noteDone((project) => ({ ...project, work: taken.work }));
    planning.setState(RESTING);
  } catch (thrown) {
    failed(reasonOf(thrown));
  }
}

/** The project without pictures, to be handed to the worker. */
function plainProject(): Project {
  const { work: _, ...project } = session.getState().project;
  return {
    ...project,
    blocks: project.blocks.map(drawingOf),
    fabrics: project.fabrics.map(({ picture: __, ...fabric }) => fabric),
  };
}

/** Notes what hands have done of what is in work, for the day and the timer too. */
export function noteSewn(change: (work: Work) => Work): void {
  const day = dayOf(new Date());
  const seconds = secondsSinceLooked();
  // Most moments of the history hold one and the same work.
  const known = new Map<Work, Work>();
  noteDone((project) => {
    const { work } = project;
    if (work === undefined) return project;
    const after = known.get(work) ?? noted(work, change(work), day, seconds);
    known.set(work, after);
    return after === work ? project : { ...project, work: after };
  });
  // A tick is on the disk before the next one: whoever sews has no hand free to do it again.
  void flushWork();
}

/** A day as the person's calendar has it: `2026-05-09`. */
export const dayOf = (date: Date): string =>
  [date.getFullYear(), date.getMonth() + 1, date.getDate()]
    .map((part) => String(part).padStart(2, '0'))
    .join('-');

/** When the timer was last looked at, ms since 1970; null while it rests. It never runs on by itself after a reload. */
export const timer = createStore<{ readonly since: number | null }>(() => ({ since: null }));

onOtherProject(() => timer.setState({ since: null }));

export const startTimer = (): void => timer.setState({ since: Date.now() });
export const pauseTimer = (): void => timer.setState({ since: null });

function secondsSinceLooked(): number | null {
  const { since } = timer.getState();
  if (since === null) return null;
  const now = Date.now();
  timer.setState({ since: now });
  return Math.max(0, (now - since) / 1000);
}

/**
 * What taking the present drawing of a block into work would do, for it to be looked at first; null where its plan is
 * still to come. Throws with one sentence where it failed.
 */
export async function changesToTake(blockId: string): Promise<TakenChanges | null> {
  const { project } = session.getState();
  const { work } = project;
  const copies = work?.blocks.find(({ id }) => id === blockId)?.copies;
  if (work === undefined || copies === undefined) return null;
  const { blocks, toCome } = makingAtHand(project, new Map([[blockId, copies]]));
  const [made] = blocks;
  if (toCome > 0 || !made) return null;
  return theHand().change(work, made, plainProject());
}

/** Takes what was looked at, unless something was done meanwhile. */
export function takeDrawing(blockName: string, before: Work, { work }: TakenChanges): void {
  if (session.getState().project.work !== before) {
    say('trouble', phrase('Something was ticked meanwhile: look at the new drawing once more.'));
    return;
  }
  noteDone((project) => ({ ...project, work }));
  say(
    'done',
    phrase('‘{name}’ goes on as it is drawn now. Print the new papers before you sew them.', {
      name: blockName,
    }),
  );
}

/** The plan that the papers of a block in work were made from; null where its drawing was not kept. */
export async function planInWork(block: WorkBlock): Promise<PiecingPlan | null> {
  const drawing = drawingIn(block);
  return drawing === null ? null : theHand().planFor(drawing, pieceOptions());
}

/** Merges another record of the same work into this one; what is already further here stays. */
export function takeMerged(work: Work): void {
  noteDone((project) => ({ ...project, work }));
  say('done', phrase('Both records are one now: of every paper what has come further.'));
}

/** Puts all work away. The drawings, plans and papers stay; what is sewn is no longer followed. */
export function putWorkAway(): void {
  const { work } = session.getState().project;
  if (work === undefined) return;
  if (work.time !== undefined) sewWishes.setState({ pace: work.time });
  noteDone(({ work: _, ...project }) => project);
  say('done', phrase('The work is put away.'));
}

import { proxy, type Remote, wrap } from 'comlink';
import { createStore } from 'zustand/vanilla';
import { completed, withOrders } from '../document/carry-patches.ts';
import { changeBlock } from '../document/find.ts';
import type { Work } from '../document/work.ts';
import { phrase } from '../words/phrase.ts';
import { edit, noteDone, say } from './actions.ts';
import { makingAtHand } from './making.ts';
import { pieceOptions } from './present-options.ts';
import type { RoundsHand, RoundsNews } from './rounds-worker.ts';
import { onOtherProject, session } from './session.ts';
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
): Promise<void> {
  const own = ++asked;
  const { project } = session.getState();
  const { blocks, toCome } = makingAtHand(project, copies);
  if (toCome > 0 || blocks.length === 0) return;
  planning.setState({ news: null, isBusy: true, failure: null });
  try {
    const order = { made: blocks, fabrics: project.fabrics.map(({ id }) => id), isFirstPairCut };
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
export async function takePlanIntoWork(): Promise<void> {
  const own = ++asked;
  try {
    const taken = await theHand().take(pieceOptions());
    if (taken === null || own !== asked) return;
    edit(phrase('Take into work'), (project) =>
      taken.orders.reduce(
        (before, [block, orders]) => changeBlock(before, block, (one) => withOrders(completed(one), orders)),
        project,
      ),
    );
    noteDone((project) => ({ ...project, work: taken.work }));
    planning.setState(RESTING);
  } catch (thrown) {
    failed(reasonOf(thrown));
  }
}

/** Notes what hands have done of what is in work. */
export const noteSewn = (change: (work: Work) => Work): void =>
  noteDone((project) => (project.work === undefined ? project : { ...project, work: change(project.work) }));

/** Puts all work away. The drawings, plans and papers stay; what is sewn is no longer followed. */
export function putWorkAway(): void {
  const { work } = session.getState().project;
  if (work === undefined) return;
  noteDone(({ work: _, ...project }) => project);
  say('done', phrase('The work is put away.'));
}

import type { Remote } from 'comlink';
import { createStore } from 'zustand/vanilla';
import type { PlainCuts } from '../cutting/plain-cuts.ts';
import { clothsOf, cuttingRulesOf, handSizesOf } from '../cutting/project-cutting.ts';
import type { Project } from '../document/project.ts';
import { copiesForQuilts } from '../document/recoloured-blocks.ts';
import type { MadeBlock } from '../making/making.ts';
import type { Patch } from '../piecing/plan.ts';
import { clothOfQuilts } from '../quilt/finishing/project-finishing.ts';
import { phrase } from '../words/phrase.ts';
import type { CutSum, CuttingHand, CuttingOrder, FabricCuts, OrderedBlock } from './cutting-worker.ts';
import { makingAtHand } from './making.ts';
import { plansCome } from './plans.ts';
import { onOtherProject, session } from './session.ts';
import { handOf, startWorker } from './worker-hand.ts';

export type { CutSum, FabricCuts, FabricSum } from './cutting-worker.ts';

/** Of what cloth is counted. */
export interface CuttingChoice {
  /** Copies of each block by its id; null for one of every block. Those of the quilt where that is counted. */
  readonly copies: ReadonlyMap<string, number> | null;
  /** The plain cloth of the quilt as well, and what finishes it. */
  readonly withQuilt: boolean;
}

export const cuttingChoice = createStore<CuttingChoice>(() => ({ copies: null, withQuilt: false }));

onOtherProject(() => {
  cuttingChoice.setState({ copies: null, withQuilt: false });
  cuttings.setState({ sum: null, isBusy: true });
});

export interface Cuttings {
  /** What was worked out last; stays on show while a newer one comes. */
  readonly sum: CutSum | null;
  readonly isBusy: boolean;
  /** Blocks whose plans are still to come and that are not counted yet. */
  readonly toCome: number;
  /** One sentence, where it failed. */
  readonly failure: string | null;
}

export const cuttings = createStore<Cuttings>(() => ({ sum: null, isBusy: false, toCome: 0, failure: null }));

let hand: Remote<CuttingHand> | null = null;

function theHand(): Remote<CuttingHand> {
  hand ??= handOf<CuttingHand>(startWorker('cutting'), () => {
    hand = null;
    isSent = new Set();
  });
  return hand;
}

/** What the worker has been sent, by number. */
const numbers = new WeakMap<readonly Patch[], number>();
let lastNumber = 0;
let isSent = new Set<number>();

function numberOf(patches: readonly Patch[]): number {
  const number = numbers.get(patches) ?? ++lastNumber;
  numbers.set(patches, number);
  return number;
}

/** Sends what the worker does not know yet, a block at a time, so that frames come between. */
async function teach(blocks: readonly MadeBlock[]): Promise<void> {
  for (const { plan } of blocks) {
    const number = numberOf(plan.patches);
    if (isSent.has(number)) continue;
    isSent.add(number);
    // Only what cutting looks at: to hand over the rest would take as long again.
    await theHand().learn(
      number,
      plan.patches.map((patch) => ({ ...patch, holes: [], neighbours: [] })),
    );
  }
}

/** Copies of every block that cloth is counted for, as it is or turned over. */
export function copiesInHand(project: Project): ReadonlyMap<string, number> {
  const { copies, withQuilt } = cuttingChoice.getState();
  if (withQuilt && project.quilt) return copiesForQuilts(project);
  return copies ?? new Map(project.blocks.map(({ id }) => [id, 1]));
}

/** The plain cloth of the quilts that are made, with what finishes them; none unless it is counted. */
const plainOf = (project: Project): readonly PlainCuts[] =>
  cuttingChoice.getState().withQuilt ? clothOfQuilts(project) : [];

function orderFor(project: Project, blocks: readonly MadeBlock[]): CuttingOrder {
  const sizeOf = handSizesOf(project);
  const sizes: [string, NonNullable<ReturnType<typeof sizeOf>>][] = [];
  if (project.cutting?.sizes)
    for (const { block, plan } of blocks)
      for (const patch of plan.patches) {
        const size = sizeOf(block.id, patch);
        if (size) sizes.push([`${block.id}/${patch.key}`, { width: size.width, height: size.height }]);
      }
  const ordered = blocks.map(
    ({ block, plan, copies }): OrderedBlock => ({ id: block.id, copies, number: numberOf(plan.patches) }),
  );
  isSent = new Set(ordered.map(({ number }) => number));
  return {
    blocks: ordered,
    plain: plainOf(project),
    cloths: clothsOf(project),
    rules: cuttingRulesOf(project),
    sizes: new Map(sizes),
  };
}

/** Whether anyone looks at strips, or only at about how much is needed. */
let isThoroughWanted = false;
let isRunning = false;
let isWanted = false;

/** Works out what to cut of the project as it is now; what comes meanwhile is taken up when that is done. */
async function work(): Promise<void> {
  if (isRunning) {
    isWanted = true;
    return;
  }
  isRunning = true;
  do {
    isWanted = false;
    try {
      const { project } = session.getState();
      const { blocks, toCome } = makingAtHand(project, copiesInHand(project));
      cuttings.setState({ isBusy: true, toCome });
      await teach(blocks);
      const first = await theHand().begin(orderFor(project, blocks));
      cuttings.setState({ sum: first, failure: null });
      if (isWanted || !isThoroughWanted) continue;
      const thorough = await theHand().finish(first.number);
      if (thorough) cuttings.setState({ sum: thorough });
    } catch (thrown) {
      // The next order starts with nothing known.
      hand = null;
      isSent = new Set();
      const reason = thrown instanceof Error ? thrown.message : String(thrown);
      cuttings.setState({ failure: phrase('What to cut could not be worked out. {reason}', { reason }) });
    }
  } while (isWanted);
  isRunning = false;
  cuttings.setState({ isBusy: false });
}

/** So long after a change, ms: a drawing that goes on is not counted at every step. */
const QUIET_MS = 120;

/**
 * Keeps what to cut up to date as long as someone looks at it: after every change of the recorded project, of the plans
 * and of the copies in hand, never in the midst of a gesture. Returns a stop function. `quick`: a first answer only.
 */
export function followCutting(how: 'quick' | 'thorough' = 'thorough'): () => void {
  isThoroughWanted = how === 'thorough';
  let wait: ReturnType<typeof setTimeout> | undefined;
  const soon = (): void => {
    clearTimeout(wait);
    wait = setTimeout(() => void work(), QUIET_MS);
  };
  const stops = [
    session.subscribe((now, before) => {
      if (
        now.draft === null &&
        now.project !== before.project &&
        isAnotherMatter(now.project, before.project)
      )
        soon();
    }),
    plansCome.subscribe(soon),
    cuttingChoice.subscribe(soon),
  ];
  void work();
  return () => {
    clearTimeout(wait);
    for (const stop of stops) stop();
  };
}

/** A piece ticked off changes nothing that is to be cut. */
const isAnotherMatter = (now: Project, before: Project): boolean =>
  (['blocks', 'quilt', 'fabrics', 'seamAllowance', 'unit'] as const).some(
    (key) => now[key] !== before[key],
  ) || JSON.stringify({ ...now.cutting, done: null }) !== JSON.stringify({ ...before.cutting, done: null });

/** All about one fabric of an answer; null when it has been overtaken. */
export const cutsOfFabric = (number: number, fabric: string | null): Promise<FabricCuts | null> =>
  theHand().fabric(number, fabric);

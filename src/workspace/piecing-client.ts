import { proxy, type Remote, wrap } from 'comlink';
import { piece } from '../piecing/piece.ts';
import { pieceMemory } from '../piecing/piece-memory.ts';
import type { Cure } from '../piecing/repairs/cure.ts';
import type { CureNews } from '../piecing/repairs/find-cures.ts';
import type { MadePlan, PieceOrder, Piecing } from './piecing-worker.ts';
import { startWorker } from './worker-hand.ts';

export type { MadePlan, PieceOrder } from './piecing-worker.ts';

/** Plans and repairs made away from the main thread; on it, step by step, where no worker can be had. */

interface Hand {
  readonly piecing: Remote<Piecing>;
  /** Rejects when the worker fails or is let go; never resolves. */
  readonly lost: Promise<never>;
  readonly letGo: (reason: unknown) => void;
}

const ABANDONED = new Error('abandoned');

const memoryHere = pieceMemory();

let hand: Hand | null = null;
/** A worker that has failed once is not tried again: each try would keep the person waiting. */
let hasFailed = false;

function theHand(): Hand {
  if (hand) return hand;
  const worker = startWorker('piecing');
  let letGo: (reason: unknown) => void = () => undefined;
  const lost = new Promise<never>((_, reject) => {
    letGo = (reason) => {
      worker.terminate();
      hand = null;
      reject(reason);
    };
  });
  // Whoever waits for the worker hears of it; nobody need.
  lost.catch(() => undefined);
  worker.addEventListener('error', letGo);
  worker.addEventListener('messageerror', letGo);
  hand = { piecing: wrap<Piecing>(worker), lost, letGo };
  return hand;
}

/** Has work done by the worker, and where that fails, here. Rejects with `ABANDONED` when the worker was let go. */
async function inWorker<T>(
  work: (piecing: Remote<Piecing>) => Promise<T>,
  here: () => Promise<T>,
): Promise<T> {
  if (hasFailed || typeof Worker === 'undefined') return here();
  try {
    const { piecing, lost } = theHand();
    return await Promise.race([work(piecing), lost]);
  } catch (thrown) {
    if (thrown === ABANDONED) throw thrown;
    hasFailed = true;
    hand?.letGo(thrown);
    return here();
  }
}

/** Lets the screen be drawn, and whatever else waits, come between. */
const breathe = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

export const makePlan = (order: PieceOrder): Promise<MadePlan> =>
  inWorker(
    (piecing) => piecing.plan(order),
    async () => {
      await breathe();
      const begun = performance.now();
      const plan = piece(order.block, order.options, memoryHere);
      return { plan, ms: performance.now() - begun };
    },
  );

/** Stops the worker in the middle of whatever it does; the next order starts another. */
export function abandonPlan(): void {
  hand?.letGo(ABANDONED);
}

let searchHere = 0;

/** Repairs of a block; null when another search, or `dropRepairs`, came before it was done. */
export async function searchForRepairs(
  order: PieceOrder,
  onProgress: (news: CureNews) => void,
): Promise<readonly Cure[] | null> {
  const mine = ++searchHere;
  try {
    return await inWorker<readonly Cure[] | null>(
      (piecing) => piecing.repairs(order, proxy(onProgress)),
      async () => {
        // Needed here only where there is no worker.
        const { findCures } = await import('../piecing/repairs/find-cures.ts');
        const steps = findCures(order.block, order.options);
        while (mine === searchHere) {
          await breathe();
          const step = steps.next();
          if (step.done) return step.value;
          onProgress(step.value);
        }
        return null;
      },
    );
  } catch {
    return null;
  }
}

export function dropRepairs(): void {
  searchHere++;
  void hand?.piecing.dropRepairs();
}

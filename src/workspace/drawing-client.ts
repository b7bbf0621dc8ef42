import { proxy } from 'comlink';
import type { DrawingHand, DrawingWish, Understanding } from './drawing-worker.ts';
import { handOf, startWorker } from './worker-hand.ts';

export type { DrawingWish, Understanding, Understood } from './drawing-worker.ts';

/** Reads one drawing away from the main thread. */
export interface DrawingReader {
  /** Null when a newer wish came meanwhile. Rejects with a sentence when the worker fails. `onShare`: 0 to 1. */
  readonly understand: (wish: DrawingWish, onShare: (share: number) => void) => Promise<Understanding | null>;
  /** Stops in the midst of whatever is being read. */
  readonly stop: () => void;
}

export function drawingReader(text: string): DrawingReader {
  const worker = startWorker('drawing');
  const hand = handOf<DrawingHand>(worker, () => undefined);
  let newest = 0;
  let running: Promise<unknown> = hand.hold(text);
  return {
    understand: async (wish, onShare) => {
      const own = ++newest;
      // While one is being read only the newest of those that wait is worth reading.
      await running;
      if (own !== newest) return null;
      const answer = hand.understand(wish, proxy(onShare));
      running = answer.catch(() => undefined);
      const understanding = await answer;
      return own === newest ? understanding : null;
    },
    stop: () => {
      newest++;
      worker.terminate();
    },
  };
}

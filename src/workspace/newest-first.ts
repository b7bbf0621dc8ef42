/** Something that makes one thing at a time, elsewhere. */
export interface Maker<Order, Made> {
  readonly make: (order: Order) => Promise<Made>;
  /** Stops what is being made; its promise may settle or not. */
  readonly abandon: () => void;
}

interface NewestFirstOptions<Order, Made> extends Maker<Order, Made> {
  /** `isNewest`: nothing newer has been wanted under the same key meanwhile. */
  readonly onMade: (key: string, order: Order, made: Made, isNewest: boolean) => void;
  readonly onFailed: (key: string, order: Order) => void;
  /** Keys of a lower rank go before the others; one of rank 0 is waited for by a person. */
  readonly rankOf: (key: string) => number;
  /**
   * How long an order may go on before it is abandoned, ms, once a newer one has overtaken it, or one of rank 0 waits
   * for it. What is abandoned for the sake of another key is made later.
   */
  readonly patienceMs: number;
}

export interface NewestFirst<Order> {
  /** Wants an order made, soon. Of those that wait under one key only the newest is kept. */
  readonly want: (key: string, order: Order) => void;
  /** Nothing is wanted under the key any more. */
  readonly forget: (key: string) => void;
  readonly isWaiting: (key: string) => boolean;
}

/**
 * Orders made one after another, the newest of each key only. One that is being made goes on when a newer one comes,
 * since its result is nearer to the newest than what is shown; but not longer than `patienceMs` after it began.
 */
export function newestFirst<Order, Made>(options: NewestFirstOptions<Order, Made>): NewestFirst<Order> {
  const waiting = new Map<string, Order>();
  let running: { key: string; order: Order; isNewest: boolean; begun: number } | null = null;
  let isToBegin = false;
  let patience: ReturnType<typeof setTimeout> | undefined;

  function begin(): void {
    if (running !== null || waiting.size === 0) return;
    const key = mostUrgent();
    const order = waiting.get(key)!;
    waiting.delete(key);
    const mine = { key, order, isNewest: true, begun: performance.now() };
    running = mine;
    options.make(order).then(
      (made) => {
        if (running !== mine) return;
        end();
        options.onMade(key, order, made, mine.isNewest);
        begin();
      },
      () => {
        if (running !== mine) return;
        end();
        if (mine.isNewest) options.onFailed(key, order);
        begin();
      },
    );
  }

  /** Of those of one rank the one that came first. */
  function mostUrgent(): string {
    let best = '';
    let rank = Number.POSITIVE_INFINITY;
    for (const key of waiting.keys()) {
      const its = options.rankOf(key);
      if (its < rank) [best, rank] = [key, its];
    }
    return best;
  }

  /** Whoever wants something is in the midst of a frame, and to hand an order over takes its time. */
  function beginSoon(): void {
    if (isToBegin) return;
    isToBegin = true;
    setTimeout(() => {
      isToBegin = false;
      begin();
    }, 0);
  }

  function end(): void {
    clearTimeout(patience);
    patience = undefined;
    running = null;
  }

  /** What runs and is overtaken, or holds up what a person waits for, is given the rest of its time; else all it takes. */
  function setPatience(): void {
    if (running === null) return;
    const mine = running;
    const { key, order, begun } = mine;
    const isWaitedFor =
      options.rankOf(key) > 0 && [...waiting.keys()].some((one) => options.rankOf(one) === 0);
    if (mine.isNewest && !isWaitedFor) {
      clearTimeout(patience);
      patience = undefined;
      return;
    }
    patience ??= setTimeout(
      () => {
        if (mine.isNewest && !waiting.has(key)) waiting.set(key, order);
        end();
        options.abandon();
        begin();
      },
      Math.max(0, options.patienceMs - (performance.now() - begun)),
    );
  }

  return {
    want(key, order) {
      if (running?.key === key && running.order === order) {
        waiting.delete(key);
        running.isNewest = true;
        setPatience();
        return;
      }
      if (waiting.get(key) === order) return;
      waiting.set(key, order);
      if (running?.key === key) running.isNewest = false;
      setPatience();
      beginSoon();
    },
    forget(key) {
      waiting.delete(key);
      if (running?.key === key) running.isNewest = false;
      else setPatience();
    },
    isWaiting: (key) => waiting.has(key) || running?.key === key,
  };
}

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
  /** Which key goes before the others. */
  readonly isFirst: (key: string) => boolean;
  /** How long an order that a newer one has overtaken may go on before it is abandoned, ms. */
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
    const key = [...waiting.keys()].find(options.isFirst) ?? [...waiting.keys()][0]!;
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

  /** What runs is overtaken: it is given the rest of its time. */
  function overtake(): void {
    if (running === null) return;
    running.isNewest = false;
    patience ??= setTimeout(
      () => {
        end();
        options.abandon();
        begin();
      },
      Math.max(0, options.patienceMs - (performance.now() - running.begun)),
    );
  }

  return {
    want(key, order) {
      if (running?.key === key && running.order === order) {
        waiting.delete(key);
        running.isNewest = true;
        clearTimeout(patience);
        patience = undefined;
        return;
      }
      if (waiting.get(key) === order) return;
      waiting.set(key, order);
      if (running?.key === key) overtake();
      beginSoon();
    },
    forget(key) {
      waiting.delete(key);
      if (running?.key === key) running.isNewest = false;
    },
    isWaiting: (key) => waiting.has(key) || running?.key === key,
  };
}

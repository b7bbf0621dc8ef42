import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { type NewestFirst, newestFirst } from '../../src/workspace/newest-first.ts';

/** A worker that makes what it is told to, when it is told to. */
interface Order {
  readonly name: string;
}

const order = (name: string): Order => ({ name });

let begun: { order: Order; finish: (made: string) => void; fail: () => void }[];
let told: string[];
let abandoned: number;
let queue: NewestFirst<Order>;

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'performance'] });
  begun = [];
  told = [];
  abandoned = 0;
  queue = newestFirst<Order, string>({
    make: (wanted) =>
      new Promise((resolve, reject) => {
        begun.push({ order: wanted, finish: resolve, fail: () => reject(new Error('lost')) });
      }),
    abandon: () => {
      abandoned++;
    },
    onMade: (key, { name }, made, isNewest) => told.push(`${key} ${name} ${made}${isNewest ? '' : ' late'}`),
    onFailed: (key, { name }) => told.push(`${key} ${name} failed`),
    rankOf: (key) => (key === 'open' ? 0 : key === 'seen' ? 1 : 2),
    patienceMs: 1000,
  });
});

afterEach(() => {
  vi.useRealTimers();
});

/** Wants an order made, and lets what else there is to do at this moment be done. */
function want(key: string, wanted: Order): void {
  queue.want(key, wanted);
  vi.advanceTimersByTime(0);
}

const names = (): string[] => begun.map((one) => one.order.name);

/** Lets promises that have settled be heard. */
const settle = async (): Promise<void> => {
  for (let k = 0; k < 4; k++) await Promise.resolve();
};

describe('orders made newest first', () => {
  it('makes one at a time, and of those that wait only the newest', async () => {
    for (const name of ['1', '2', '3', '4']) want('open', order(name));
    expect(names()).toEqual(['1']);
    begun[0]!.finish('plan');
    await settle();
    expect(names()).toEqual(['1', '4']);
    begun[1]!.finish('plan');
    await settle();
    expect(told).toEqual(['open 1 plan late', 'open 4 plan']);
    expect(names()).toEqual(['1', '4']);
    expect(queue.isWaiting('open')).toBe(false);
  });

  it('begins when all else that is done at this moment is done, with the newest by then', () => {
    queue.want('open', order('1'));
    queue.want('open', order('2'));
    expect(names()).toEqual([]);
    expect(queue.isWaiting('open')).toBe(true);
    vi.advanceTimersByTime(0);
    expect(names()).toEqual(['2']);
    queue.want('other', order('3'));
    queue.forget('other');
    begun[0]!.finish('plan');
    vi.advanceTimersByTime(0);
    expect(names()).toEqual(['2']);
  });

  it('asks once for what is asked for twice', async () => {
    const one = order('1');
    want('open', one);
    want('open', one);
    const two = order('2');
    want('open', two);
    want('open', two);
    begun[0]!.finish('plan');
    await settle();
    begun[1]!.finish('plan');
    await settle();
    expect(names()).toEqual(['1', '2']);
    expect(told).toEqual(['open 1 plan late', 'open 2 plan']);
  });

  it('comes back to what runs when that is wanted again', async () => {
    const one = order('1');
    want('open', one);
    want('open', order('2'));
    want('open', one);
    begun[0]!.finish('plan');
    await settle();
    expect(told).toEqual(['open 1 plan']);
    expect(names()).toEqual(['1']);
    vi.advanceTimersByTime(5000);
    expect(abandoned).toBe(0);
  });

  it('takes the open block before the others, those in the order they came', async () => {
    want('a', order('a1'));
    want('b', order('b1'));
    want('c', order('c1'));
    want('open', order('o1'));
    for (let k = 0; k < 4; k++) {
      begun[k]!.finish('plan');
      await settle();
    }
    expect(names()).toEqual(['a1', 'o1', 'b1', 'c1']);
  });

  it('takes what is in sight before what is not', async () => {
    for (const key of ['a', 'b', 'seen', 'open']) want(key, order(key));
    for (let k = 0; k < 4; k++) {
      begun[k]!.finish('plan');
      await settle();
    }
    expect(names()).toEqual(['a', 'open', 'seen', 'b']);
  });

  it('lets what holds up the open block take so long, and makes it later', async () => {
    want('a', order('slow'));
    vi.advanceTimersByTime(400);
    want('open', order('o1'));
    vi.advanceTimersByTime(599);
    expect([abandoned, names()]).toEqual([0, ['slow']]);
    vi.advanceTimersByTime(1);
    expect([abandoned, names()]).toEqual([1, ['slow', 'o1']]);
    begun[1]!.finish('plan');
    await settle();
    expect(names()).toEqual(['slow', 'o1', 'slow']);
    begun[2]!.finish('plan');
    await settle();
    expect(told).toEqual(['open o1 plan', 'a slow plan']);
  });

  it('gives it all its time again when the open block needs it no more', async () => {
    want('a', order('slow'));
    want('open', order('o1'));
    queue.forget('open');
    vi.advanceTimersByTime(60_000);
    expect([abandoned, names()]).toEqual([0, ['slow']]);
  });

  it('gives what a newer one has overtaken the rest of its time, then begins the newer', async () => {
    want('open', order('slow'));
    vi.advanceTimersByTime(900);
    want('open', order('new'));
    vi.advanceTimersByTime(99);
    expect([abandoned, names()]).toEqual([0, ['slow']]);
    want('open', order('newest'));
    vi.advanceTimersByTime(1);
    expect([abandoned, names()]).toEqual([1, ['slow', 'newest']]);
    // What was abandoned may still settle; nobody hears of it.
    begun[0]!.finish('plan');
    begun[1]!.finish('plan');
    await settle();
    expect(told).toEqual(['open newest plan']);
  });

  it('never abandons what nothing has overtaken, however long it takes', async () => {
    want('open', order('slow'));
    want('other', order('1'));
    vi.advanceTimersByTime(60_000);
    expect(abandoned).toBe(0);
    begun[0]!.finish('plan');
    await settle();
    expect(told).toEqual(['open slow plan']);
  });

  it('drops what is forgotten, and tells that a result comes too late', async () => {
    want('open', order('1'));
    want('open', order('2'));
    queue.forget('open');
    begun[0]!.finish('plan');
    await settle();
    expect(told).toEqual(['open 1 plan late']);
    expect(names()).toEqual(['1']);
  });

  it('tells of a failure where nothing newer is wanted, and goes on', async () => {
    want('open', order('1'));
    want('open', order('2'));
    begun[0]!.fail();
    await settle();
    expect(told).toEqual([]);
    begun[1]!.fail();
    await settle();
    expect(told).toEqual(['open 2 failed']);
    want('open', order('3'));
    expect(names()).toEqual(['1', '2', '3']);
  });
});

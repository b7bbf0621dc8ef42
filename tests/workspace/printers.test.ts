import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';

/** The printing store as a page opened now has it: `printers.ts` reads the browser's storage when it is loaded. */
const opened = async () => {
  vi.resetModules();
  return import('../../src/workspace/printers.ts');
};

let kept: Map<string, string>;

/** A browser's local storage, as far as it is used (HTML Living Standard, Web storage). */
const storage = {
  getItem: (key: string): string | null => kept.get(key) ?? null,
  setItem: (key: string, value: string): void => {
    kept.set(key, value);
  },
};

beforeEach(() => {
  kept = new Map();
  vi.stubGlobal('localStorage', storage);
});

afterEach(() => {
  vi.unstubAllGlobals();
});

describe('the printers of this browser', () => {
  it('are none on a first visit, and nothing is corrected', async () => {
    const { printers, chosenCorrection } = await opened();
    expect(printers.getState()).toEqual({ known: [], chosen: null });
    expect(chosenCorrection(printers.getState())).toBeNull();
  });

  it('are kept under their names, with what was chosen, for the next visit', async () => {
    const first = await opened();
    first.addPrinter();
    first.changePrinter({ name: 'Harbour office', across: '50.4', down: '50.2' });
    first.addPrinter();
    first.changePrinter({ name: 'Loft', across: '49.8' });
    first.choosePrinter('Harbour office');

    const { printers, chosenCorrection } = await opened();
    expect(printers.getState()).toEqual({
      known: [
        { name: 'Harbour office', across: '50.4', down: '50.2' },
        { name: 'Loft', across: '49.8', down: '50' },
      ],
      chosen: 'Harbour office',
    });
    const choice = chosenCorrection(printers.getState());
    // What comes out 50.4 long must be drawn 50/50.4 as long to come out 50 long.
    expect(choice).toMatchObject({ ok: true, correction: { printer: 'Harbour office' } });
    if (choice?.ok) {
      expect(choice.correction.across * 50.4).toBeCloseTo(50, 12);
      expect(choice.correction.down * 50.2).toBeCloseTo(50, 12);
    }
  });

  it('begin true: one that is added and not measured changes nothing', async () => {
    const { addPrinter, chosenCorrection, printers } = await opened();
    addPrinter();
    expect(chosenCorrection(printers.getState())).toMatchObject({
      ok: true,
      correction: { across: 1, down: 1 },
    });
  });

  it('refuse a measure that no printer is off by, and keep what was typed', async () => {
    const { addPrinter, changePrinter, chosenCorrection, printers } = await opened();
    addPrinter();
    changePrinter({ across: '45' });
    const choice = chosenCorrection(printers.getState());
    expect(choice?.ok).toBe(false);
    if (choice?.ok === false) expect(choice.error).toMatch(/across is more than 5% off.*viewer/);
    expect(printers.getState().known[0]?.across).toBe('45');
    changePrinter({ across: '' });
    expect(chosenCorrection(printers.getState())?.ok).toBe(false);
  });

  it('have a name each: a new one is free, and one that another has is not taken', async () => {
    const { addPrinter, changePrinter, printers } = await opened();
    addPrinter();
    addPrinter();
    addPrinter();
    const names = () => printers.getState().known.map(({ name }) => name);
    expect(new Set(names()).size).toBe(3);
    const before = names();
    changePrinter({ name: before[0]! });
    expect(names()).toEqual(before);
    changePrinter({ name: 'Loft' });
    expect(names()).toEqual([before[0], before[1], 'Loft']);
    expect(printers.getState().chosen).toBe('Loft');
  });

  it('take a name of any length, and keep so much of it as a list can show', async () => {
    const { addPrinter, changePrinter, printers } = await opened();
    addPrinter();
    changePrinter({ name: 'x'.repeat(5000) });
    expect(printers.getState().known[0]!.name).toMatch(/^x{20,100}$/);
    expect(printers.getState().chosen).toBe(printers.getState().known[0]!.name);
  });

  it('are forgotten when told to, and the others stay', async () => {
    const { addPrinter, changePrinter, forgetPrinter, printers } = await opened();
    addPrinter();
    changePrinter({ name: 'Loft' });
    addPrinter();
    forgetPrinter();
    expect(printers.getState().known.map(({ name }) => name)).toEqual(['Loft']);
    expect(printers.getState().chosen).toBeNull();
    // With none chosen there is nothing to change.
    changePrinter({ across: '49' });
    expect(printers.getState().known[0]?.across).toBe('50');
  });

  it('do not grow without end: the oldest go', async () => {
    const { addPrinter, changePrinter, printers } = await opened();
    for (let n = 1; n <= 60; n++) {
      addPrinter();
      changePrinter({ name: `Quay ${n}` });
    }
    const { known } = printers.getState();
    expect(known.length).toBeLessThan(60);
    expect(known.at(-1)?.name).toBe('Quay 60');
    expect(known.map(({ name }) => name)).not.toContain('Quay 1');
  });

  it('choose none for a name that is not known', async () => {
    const { addPrinter, choosePrinter, printers } = await opened();
    addPrinter();
    choosePrinter('Ghost ship');
    expect(printers.getState().chosen).toBeNull();
  });

  it('survive storage that holds nonsense, and drop only what is unsound in it', async () => {
    for (const nonsense of ['', '{', 'null', '7', '[]', '{"known":7}', '{"known":[null,{"name":1}]}']) {
      kept.set('underpaper-printers', nonsense);
      const { printers, addPrinter } = await opened();
      expect(printers.getState().known, nonsense).toEqual([]);
      addPrinter();
      expect(printers.getState().known, nonsense).toHaveLength(1);
    }
    kept.set(
      'underpaper-printers',
      JSON.stringify({
        known: [{ name: 'Loft', across: '50', down: '50' }, { name: 'Half' }],
        chosen: 'Half',
      }),
    );
    const { printers } = await opened();
    expect(printers.getState()).toEqual({
      known: [{ name: 'Loft', across: '50', down: '50' }],
      chosen: null,
    });
  });

  it('hold until the window is closed where nothing can be stored', async () => {
    const refuse = (): never => {
      throw new DOMException('The quota has been exceeded.', 'QuotaExceededError');
    };
    vi.stubGlobal('localStorage', { getItem: refuse, setItem: refuse });
    const { addPrinter, changePrinter, printers } = await opened();
    addPrinter();
    changePrinter({ across: '49.5' });
    expect(printers.getState().known[0]?.across).toBe('49.5');
  });
});

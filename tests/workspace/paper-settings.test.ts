import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';

/** As much of a browser's storage as is used (HTML Living Standard, 12.2). */
const held = new Map<string, string>();

beforeEach(() => {
  held.clear();
  vi.stubGlobal('localStorage', {
    getItem: (key: string) => held.get(key) ?? null,
    setItem: (key: string, value: string) => void held.set(key, value),
  });
  vi.resetModules();
});
afterEach(() => vi.unstubAllGlobals());

/** The settings as a window that has just been opened finds them. */
const opened = () => import('../../src/workspace/paper-settings.ts');

describe('how this browser prints', () => {
  it('is found again when the window is opened anew', async () => {
    const { paperSettings } = await opened();
    const chosen = {
      parts: new Set(['cover', 'foundations'] as const),
      page: 'other',
      otherPage: '8.5x14in',
      margin: '6mm',
      side: 'front',
      turning: 'free',
      together: 'blocks',
      style: 'hatched',
      grain: true,
      zoom: 'overview',
    } as const;
    paperSettings.setState(chosen);
    vi.resetModules();
    const again = await opened();
    expect(again.paperSettings.getState()).toMatchObject(chosen);
    // The seam check goes by it from the start.
    expect(again.chosenSheet('in')).toEqual({ width: 8.5, height: 14, margin: 6 / 25.4 });
  });

  it('keeps to the last sheet while what is typed makes none', async () => {
    const { paperSettings, chosenSheet } = await opened();
    paperSettings.setState({ page: 'a3' });
    const sheet = chosenSheet('mm');
    paperSettings.setState({ page: 'other', otherPage: '8 x' });
    expect(chosenSheet('mm')).toBe(sheet);
  });

  it.each([
    ['{'],
    ['null'],
    ['[1]'],
    ['{"page":"constructor","margin":7,"side":"back","parts":["all"],"zoom":null,"grain":"yes"}'],
    [`{"margin":"${'9'.repeat(1000)}"}`],
  ])('is the usual one where %.40s is what was kept', async (text) => {
    const usual = (await opened()).paperSettings.getState();
    held.set('underpaper-paper', text);
    vi.resetModules();
    expect((await opened()).paperSettings.getState()).toEqual(usual);
  });
});

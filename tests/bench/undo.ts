import { dragDesign, withApp } from './page.ts';

/** What so many steps of undo hold in memory, in the page of the built app, after its rubbish is cleared away. */
export interface UndoRow {
  readonly patches: number;
  readonly steps: number;
  /** Megabytes: before the first step, after the last, and when all have been undone. */
  readonly beforeMb: number;
  readonly afterMb: number;
  readonly undoneMb: number;
}

const UNDO = 'button[aria-label^="Undo"]';

/** A cut is dragged to and fro, each time a step of the history. Null when there is no browser or no build. */
export const benchUndo = (patches: number, steps: number): Promise<UndoRow | null> =>
  withApp(async (open) => {
    const { block, at } = dragDesign(1, patches);
    const { page, devtools, toScreen } = await open(block, patches);
    const heap = async (): Promise<number> => {
      await page.waitForTimeout(1500);
      await devtools.send('HeapProfiler.collectGarbage');
      const { metrics } = await devtools.send('Performance.getMetrics');
      return metrics.find(({ name }) => name === 'JSHeapUsedSize')!.value / 1e6;
    };
    const [x, y] = await toScreen(at);
    const dragBy = async (by: number): Promise<void> => {
      const from = by > 0 ? 0 : -by;
      await page.mouse.move(x + from, y);
      await page.mouse.down();
      await page.mouse.move(x + from + by / 2, y);
      await page.mouse.move(x + from + by, y);
      await page.mouse.up();
    };
    await dragBy(12);
    await dragBy(-12);
    const beforeMb = await heap();
    for (let step = 0; step < steps; step++) await dragBy(step % 2 === 0 ? 12 : -12);
    const afterMb = await heap();
    let undone = 0;
    for (; undone < steps && (await page.locator(UNDO).isEnabled()); undone++)
      await page.keyboard.press('Control+z');
    if (undone < steps) throw new Error(`Only ${undone} of ${steps} steps could be undone.`);
    return { patches, steps, beforeMb, afterMb, undoneMb: await heap() };
  });

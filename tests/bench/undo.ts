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

/** After so many steps their plan is waited for, so that plans are made and kept on the way as well. */
const PLANNED_STEPS = 10;

/**
 * A cut is dragged to and fro by the mouse, each time a step of the history, until there are so many; then all are
 * undone by the keyboard. Null when there is no browser or no build.
 */
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
    // Sent one after another without waiting for what comes of each: the page takes them in their order.
    const mouse = (type: 'mousePressed' | 'mouseMoved' | 'mouseReleased', by: number) =>
      devtools.send('Input.dispatchMouseEvent', {
        type,
        x: x + by,
        y,
        button: 'left',
        buttons: type === 'mouseReleased' ? 0 : 1,
        clickCount: 1,
      });
    const drag = (from: number, to: number) =>
      Promise.all([
        mouse('mousePressed', from),
        mouse('mouseMoved', (from + to) / 2),
        mouse('mouseMoved', to),
        mouse('mouseReleased', to),
      ]);
    const planned = () => page.locator('.seam-check[aria-busy="false"]').waitFor();
    const dragToAndFro = async (times: number): Promise<void> => {
      for (let step = 0; step < times; step++) {
        await (step % 2 === 0 ? drag(0, 12) : drag(12, 0));
        if (step % PLANNED_STEPS === 0) await planned();
      }
      await planned();
    };
    await dragToAndFro(2);
    const beforeMb = await heap();
    await dragToAndFro(steps);
    const afterMb = await heap();
    let undone = 0;
    for (; undone < steps && (await page.locator(UNDO).isEnabled()); undone++)
      await page.keyboard.press('Control+z');
    if (undone < steps) throw new Error(`Only ${undone} of ${steps} steps could be undone.`);
    return { patches, steps, beforeMb, afterMb, undoneMb: await heap() };
  });

import type { Page } from '@playwright/test';
import { type BenchPage, type DragDesign, dragDesign, percentile, withApp } from './page.ts';

/**
 * How long the hand waits, in a headless Chromium on the built app, without a graphics card: a cut is dragged, the
 * mouse moved again as soon as the last move is painted, or is checked as well.
 *
 * - `drawing`: by the clock, from the browser's handing out of the `pointermove` to the end of the first frame in
 *   which the board's canvases were painted: tool, snapping, piecing where it is done at once, canvas calls, React,
 *   styles, layout and the canvases' pixels, which Chromium without a graphics card draws on the same thread before
 *   it ends the frame. A browser hands moves out at the beginning of a frame, so no waiting for the screen is in it;
 *   nor is what comes after, the compositor's copying of the finished frame.
 * - `check`: the same, to the end of the first frame that has the verdict and the numbers of this very state (the
 *   lists below them are written anew when the hand rests); where the worker pieces it, with the way there and back
 *   and the wait for a frame of the screen, up to 16.7 ms.
 * - `work`: processor time of the main thread for one move, until nothing of it is left to paint; other programs on
 *   the machine do not count, but the handing over of the numbers does, about 1 ms.
 */
export interface PointerRow {
  readonly patches: number;
  readonly moves: number;
  readonly drawing: readonly number[];
  readonly check: readonly number[];
  readonly work: readonly number[];
  /** From the end of each drag to its repairs, without the rest before they are looked for. */
  readonly searches: readonly number[];
}

export interface PointerOptions {
  readonly moves: number;
  /** The next move waits for the check of the last; otherwise moves go on while the worker is at it. */
  readonly isCheckAwaited: boolean;
}

/** Repairs are looked for only when a drawing has rested so long, ms. */
const REST_MS = 150;

/** The first moves find cold code. */
const WARM_UP_MOVES = 20;

declare global {
  interface Window {
    drawings: number[];
    checks: number[];
    searches: number[];
    /** Settles at the end of the first frame that shows the last move, or that shows its check as well. */
    painted: (isCheckAwaited: boolean) => Promise<void>;
  }
}

/** Runs in the page: times every pointer move, and every search for repairs from the end of a drag. */
function watch(): void {
  window.drawings = [];
  window.checks = [];
  window.searches = [];
  let dropped = 0;
  let begun = 0;
  let isDrawn = true;
  let isChecked = true;
  // Every painting of a canvas begins with its being wiped.
  let wiped = 0;
  const { clearRect } = CanvasRenderingContext2D.prototype;
  CanvasRenderingContext2D.prototype.clearRect = function (...box) {
    wiped = performance.now();
    clearRect.apply(this, box);
  };
  const check = document.querySelector('.seam-check')!;
  // A message sent in a frame comes when the frame is done, its canvases drawn; where the next frame follows at once, it
  // comes after that, but its callbacks tell as well.
  const frameEnd = (): Promise<void> =>
    new Promise((resolve) =>
      requestAnimationFrame(() => {
        const channel = new MessageChannel();
        channel.port1.onmessage = () => resolve();
        channel.port2.postMessage(null);
        requestAnimationFrame(() => resolve());
      }),
    );
  window.painted = async (isCheckAwaited) => {
    do await frameEnd();
    while (!isDrawn || (isCheckAwaited && !isChecked));
  };
  const look = async (mine: number): Promise<void> => {
    do {
      await frameEnd();
      if (mine !== begun) return;
      const now = performance.now();
      if (!isDrawn && wiped >= begun) {
        window.drawings.push(now - begun);
        isDrawn = true;
      }
      if (!isChecked && isDrawn && check.getAttribute('aria-busy') === 'false') {
        window.checks.push(now - begun);
        isChecked = true;
      }
    } while (!isDrawn || !isChecked);
  };
  window.addEventListener(
    'pointermove',
    () => {
      begun = performance.now();
      isDrawn = false;
      isChecked = false;
      void look(begun);
    },
    true,
  );
  window.addEventListener('pointerup', () => {
    dropped = performance.now();
  });
  new MutationObserver(() => {
    const section = document.querySelector('section[aria-labelledby="repairs-title"]');
    if (dropped === 0 || section?.getAttribute('aria-busy') === 'true') return;
    window.searches.push(performance.now() - dropped);
    dropped = 0;
  }).observe(document.body, { subtree: true, childList: true, attributes: true });
}

/** Drags a cut of one design about. */
async function dragAbout(
  { page, devtools, toScreen }: BenchPage,
  { at, moves, isCheckAwaited }: Pick<DragDesign, 'at'> & PointerOptions,
) {
  await page.evaluate(watch);
  const [x, y] = await toScreen(at);
  const spent = async (): Promise<number> => {
    const { metrics } = await devtools.send('Performance.getMetrics');
    return 1000 * metrics.find(({ name }) => name === 'TaskDuration')!.value;
  };
  await page.mouse.move(x, y);
  await page.mouse.down();
  const work: number[] = [];
  for (let k = 0; k < moves + WARM_UP_MOVES; k++) {
    const turn = (k / moves) * 4 * Math.PI;
    if (k === WARM_UP_MOVES) await page.evaluate(forget);
    const before = await spent();
    await page.mouse.move(x + 14 * Math.sin(turn), y + 9 * Math.sin(1.7 * turn));
    await page.evaluate((isAwaited) => window.painted(isAwaited), isCheckAwaited);
    if (k >= WARM_UP_MOVES) work.push((await spent()) - before);
  }
  const { drawings, checks } = await timesOf(page);
  await page.mouse.up();
  await page.waitForTimeout(4000);
  const searches = await page.evaluate(() => window.searches);
  return { drawings, checks, work, searches: searches.map((found) => found - REST_MS) };
}

function forget(): void {
  window.drawings = [];
  window.checks = [];
}

const timesOf = (page: Page) => page.evaluate(() => ({ drawings: window.drawings, checks: window.checks }));

/** Null when there is no browser or no build. */
export const benchPointer = (
  patches: number,
  { designs, ...options }: PointerOptions & { readonly designs: number },
): Promise<PointerRow | null> =>
  withApp(async (open) => {
    const drawing: number[] = [];
    const check: number[] = [];
    const work: number[] = [];
    const searches: number[] = [];
    for (let seed = 1; seed <= designs; seed++) {
      const { block, at } = dragDesign(seed, patches);
      const bench = await open(block, patches);
      const times = await dragAbout(bench, { at, ...options });
      drawing.push(...times.drawings);
      check.push(...times.checks);
      work.push(...times.work);
      searches.push(...times.searches);
      await bench.page.close();
    }
    return { patches, moves: drawing.length, drawing, check, work, searches };
  });

export const inPercentiles = (values: readonly number[]): string =>
  [0.5, 0.95, 1].map((share) => percentile(values, share).toFixed(1).padStart(7)).join('');

import { fileURLToPath } from 'node:url';
import { chromium, type Page } from '@playwright/test';
import { preview } from 'vite';
import { dropFile } from '../../e2e/window.ts';
import { piece } from '../../src/piecing/piece.ts';
import { designOf } from '../designs/designs.ts';
import { BROWSER_SWITCHES, findBrowser } from '../harness/tools.ts';

/**
 * How long the hand waits, in a headless Chromium on the built app (`npm run build` first): from a pointer move on a
 * 60-patch block to the repainted drawing and check, and from a finished edit to its repairs. Printed, not judged.
 *
 * Work: processor time of the main thread for one move, all of it, until that is painted; other programs on the
 * machine do not count. Wait: from the move to that paint by the clock, which takes in the time until the screen's
 * next frame, up to 17 ms, and whatever else the machine is at.
 */

const PATCHES = 60;
const DESIGNS = 5;
const MOVES = 120;
/** Repairs are looked for only when a drawing has rested so long. */
const REST_MS = 150;

declare global {
  interface Window {
    waits: number[];
    searches: number[];
    /** Settles when what the last move changed is painted. */
    painted: () => Promise<void>;
  }
}

const percentile = (values: readonly number[], share: number): number =>
  [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(share * values.length))] ?? 0;

const fileOf = (seed: number): { text: string; at: readonly [number, number] } => {
  const { block } = designOf(seed, { kind: 'chords', patches: [PATCHES, PATCHES], endErrors: 'none' });
  // A long cut is dragged at its middle.
  const cut = [...block.cuts].sort(
    (a, b) =>
      Math.hypot(b.from[0] - b.to[0], b.from[1] - b.to[1]) -
      Math.hypot(a.from[0] - a.to[0], a.from[1] - a.to[1]),
  )[4]!;
  return {
    text: JSON.stringify({
      format: 'underpaper',
      version: 1,
      name: 'Bench',
      blocks: [{ ...block, paint: [] }],
    }),
    at: [(cut.from[0] + cut.to[0]) / 2, (cut.from[1] + cut.to[1]) / 2],
  };
};

/** Runs in the page: times every pointer move, and every search for repairs from the end of a drag. */
function watch(): void {
  window.waits = [];
  window.searches = [];
  window.painted = () =>
    new Promise((resolve) =>
      requestAnimationFrame(() => {
        const channel = new MessageChannel();
        channel.port1.onmessage = () => resolve();
        channel.port2.postMessage(null);
      }),
    );
  let dropped = 0;
  window.addEventListener(
    'pointermove',
    () => {
      const begun = performance.now();
      void window.painted().then(() => window.waits.push(performance.now() - begun));
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

async function toScreen(page: Page, [x, y]: readonly [number, number]): Promise<[number, number]> {
  const board = page.locator('.drawing-board');
  const [scale, left, top] = (await board.getAttribute('data-camera'))!.split(' ').map(Number);
  const box = (await board.boundingBox())!;
  return [box.x + x * scale! + left!, box.y + y * scale! + top!];
}

const browser = findBrowser();
const server = await preview({
  root: fileURLToPath(new URL('../..', import.meta.url)),
  configFile: false,
  build: { outDir: process.env.UNDERPAPER_DIST ?? 'dist' },
  preview: { host: '127.0.0.1', port: 4491 },
});
const chrome = await chromium.launch({
  args: [...BROWSER_SWITCHES],
  ...(browser?.path ? { executablePath: browser.path } : {}),
});
try {
  const work: number[] = [];
  const wait: number[] = [];
  const searches: number[] = [];
  console.log(`Pointer moves on ${PATCHES} patches, ${DESIGNS} designs, ${MOVES} moves each, milliseconds`);
  console.log('  design   piece here   work p50    p95   wait p50    p95   searches for repairs');
  for (let seed = 1; seed <= DESIGNS; seed++) {
    const { text, at } = fileOf(seed);
    const page = await chrome.newPage({ viewport: { width: 1280, height: 800 } });
    await page.goto(server.resolvedUrls!.local[0]!);
    await page.locator('.block-open').first().waitFor();
    await dropFile(page, 'bench.underpaper.json', text);
    await page
      .locator('.numbers')
      .filter({ hasText: `${PATCHES} patches` })
      .waitFor();
    await page.evaluate(watch);
    const [x, y] = await toScreen(page, at);
    const devtools = await page.context().newCDPSession(page);
    await devtools.send('Performance.enable', { timeDomain: 'threadTicks' });
    const spent = async (): Promise<number> => {
      const { metrics } = await devtools.send('Performance.getMetrics');
      return 1000 * metrics.find(({ name }) => name === 'TaskDuration')!.value;
    };
    await page.mouse.move(x, y);
    await page.mouse.down();
    const moves: number[] = [];
    for (let k = 0; k < MOVES; k++) {
      const turn = (k / MOVES) * 4 * Math.PI;
      const before = await spent();
      await page.mouse.move(x + 14 * Math.sin(turn), y + 9 * Math.sin(1.7 * turn));
      await page.evaluate(() => window.painted());
      moves.push((await spent()) - before);
    }
    await page.mouse.up();
    await page.waitForTimeout(4000);
    const { waits, found } = await page.evaluate(() => ({ waits: window.waits, found: window.searches }));
    const begun = performance.now();
    piece(JSON.parse(text).blocks[0]);
    const here = performance.now() - begun;
    // The first moves find cold code.
    const own = { work: moves.slice(10), wait: waits.slice(10) };
    work.push(...own.work);
    wait.push(...own.wait);
    searches.push(...found.map((ms) => ms - REST_MS));
    const ms = (value: number): string => value.toFixed(1).padStart(7);
    console.log(
      `${String(seed).padStart(8)} ${ms(here)}      ${ms(percentile(own.work, 0.5))}${ms(percentile(own.work, 0.95))}    ${ms(percentile(own.wait, 0.5))}${ms(percentile(own.wait, 0.95))}   ${found.map((f) => (f - REST_MS).toFixed(0)).join(', ')}`,
    );
    await page.close();
  }
  console.log(
    `     all                ${percentile(work, 0.5).toFixed(1).padStart(7)}${percentile(work, 0.95).toFixed(1).padStart(7)}    ${percentile(wait, 0.5).toFixed(1).padStart(7)}${percentile(wait, 0.95).toFixed(1).padStart(7)}   median ${percentile(searches, 0.5).toFixed(0)}`,
  );
} finally {
  await chrome.close();
  await server.close();
}

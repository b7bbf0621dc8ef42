import { fileURLToPath } from 'node:url';
import { chromium } from '@playwright/test';
import { preview } from 'vite';
import { Prng } from '../designs/prng.ts';
import { BROWSER_SWITCHES, findBrowser } from './tools.ts';

/**
 * `npx tsx tests/harness/memory.ts [MINUTES [SEED]]`, on the last build: one page is worked on without a pause, lines drawn,
 * moved and taken back, blocks added, opened and deleted, every place gone to, papers laid out. Each minute tells what the
 * page holds once all that is no longer used is let go: memory that grows and grows shows. Nothing here passes or fails.
 */

const [minutes = 30, seed = 1] = process.argv.slice(2).map(Number);
const server = await preview({
  root: fileURLToPath(new URL('../..', import.meta.url)),
  preview: { host: '127.0.0.1', port: 0 },
});
const browser = findBrowser();
const chrome = await chromium.launch({
  args: [...BROWSER_SWITCHES],
  ...(browser?.path ? { executablePath: browser.path } : {}),
});
const page = await chrome.newPage({ viewport: { width: 1280, height: 800 } });
const devtools = await page.context().newCDPSession(page);
await devtools.send('HeapProfiler.enable');
await page.goto(server.resolvedUrls!.local[0]!);
const board = page.locator('.drawing-board');
await board.waitFor();
const rng = new Prng(seed);

async function drawSome(): Promise<void> {
  const box = (await board.boundingBox())!;
  const spot = (): [number, number] => [
    box.x + box.width * (0.3 + 0.4 * rng.next()),
    box.y + box.height * (0.2 + 0.6 * rng.next()),
  ];
  await page.mouse.click(...spot());
  await page.keyboard.press(rng.pick(['c', 'v', 'd']));
  for (let k = rng.whole(1, 5); k > 0; k--) {
    await page.mouse.move(...spot());
    await page.mouse.down();
    await page.mouse.move(...spot(), { steps: 6 });
    await page.mouse.up();
  }
  await page.keyboard.press('Escape');
  for (let k = rng.whole(0, 6); k > 0; k--) await page.keyboard.press('Control+z');
  if (rng.chance(0.3)) await page.keyboard.press('Control+Shift+z');
}

async function goRound(): Promise<void> {
  await page.keyboard.press(`Alt+${rng.whole(2, 5)}`);
  await page.locator('main').waitFor();
  await page.waitForTimeout(rng.whole(200, 900));
  await page.keyboard.press('Alt+1');
  await board.waitFor();
}

async function changeBlocks(): Promise<void> {
  if (rng.chance(0.5)) {
    await page.keyboard.press('Control+Alt+b');
    await drawSome();
    await page.locator('.block-item-open .block-open').focus();
    await page.keyboard.press('Delete');
  }
  const blocks = page.locator('.block-open');
  await blocks.nth(rng.whole(0, (await blocks.count()) - 1)).click();
}

let edits = 0;
const held: number[] = [];
for (let minute = 0; minute <= minutes; minute++) {
  if (minute > 0) {
    const end = performance.now() + 60_000;
    while (performance.now() < end) {
      await (rng.chance(0.7) ? drawSome() : rng.chance(0.5) ? goRound() : changeBlocks());
      edits++;
    }
  }
  for (let k = 0; k < 3; k++) await devtools.send('HeapProfiler.collectGarbage');
  const { usedSize } = (await devtools.send('Runtime.getHeapUsage')) as { usedSize: number };
  const { nodes } = (await devtools.send('Memory.getDOMCounters')) as { nodes: number };
  held.push(usedSize / 1e6);
  console.log(`minute ${minute}: ${(usedSize / 1e6).toFixed(1)} MB, ${nodes} nodes, ${edits} rounds of work`);
}
const half = held.slice(Math.ceil(held.length / 2));
console.log(
  `the second half: from ${Math.min(...half).toFixed(1)} to ${Math.max(...half).toFixed(1)} MB, at its end ${half.at(-1)!.toFixed(1)}`,
);
await chrome.close();
await server.close();

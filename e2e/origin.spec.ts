import { gzipSync } from 'node:zlib';
import { expect, test } from '@playwright/test';
import { openApp } from './window.ts';

const PLACES = ['Quilt', 'Fabric', 'Paper', 'Block'];

test('no request leaves the origin, the policy of the page holds everywhere, and it all works offline', async ({
  page,
  context,
  baseURL,
}) => {
  const strangers: string[] = [];
  const refused: string[] = [];
  context.on('request', (request) => {
    const url = request.url();
    if (!url.startsWith(baseURL!) && !/^(blob|data):/.test(url)) strangers.push(url);
  });
  page.on('console', (message) => {
    if (/Content.Security.Policy/i.test(message.text())) refused.push(message.text());
  });
  await openApp(page);
  await expect(page.locator('meta[http-equiv="Content-Security-Policy"]')).toHaveAttribute(
    'content',
    /default-src 'none'/,
  );
  const walk = async () => {
    for (const name of PLACES) {
      await page.getByRole('navigation', { name: 'Places' }).getByRole('button', { name }).click();
      if (name === 'Paper') {
        const coming = page.waitForEvent('download');
        await page.getByRole('button', { name: 'Download PDF' }).click();
        expect((await coming).suggestedFilename()).toMatch(/\.pdf$/);
      }
    }
    await page.keyboard.press('?');
    await expect(page.getByRole('dialog')).toBeVisible();
    await page.keyboard.press('Escape');
  };
  await walk();
  // Everything is there once the worker stands by.
  await page.evaluate(async () => void (await navigator.serviceWorker.ready));
  await context.setOffline(true);
  await page.reload();
  await expect(page.locator('.drawing-board')).toBeVisible();
  await walk();
  expect(strangers).toEqual([]);
  expect(refused).toEqual([]);
});

test('before the first drawing little is asked for: its program in one piece, no worker, nothing for a later visit', async ({
  page,
  context,
}) => {
  await page.addInitScript(() => {
    const { fillText } = CanvasRenderingContext2D.prototype;
    CanvasRenderingContext2D.prototype.fillText = function (...args) {
      document.documentElement.dataset.drawn ??= String(performance.now());
      return fillText.apply(this, args);
    };
  });
  const packed = new Map<string, Promise<number>[]>();
  context.on('response', (response) => {
    const isPacked = /\.woff2$/.test(response.url());
    const size = response.body().then((body) => (isPacked ? body.length : gzipSync(body).length));
    // What was asked for ahead is answered twice, and one of the answers has no body.
    packed.set(response.url(), [...(packed.get(response.url()) ?? []), size.catch(() => 0)]);
  });
  await page.goto('/');
  await page.locator('html[data-drawn]').waitFor();
  const names = await page.evaluate(() => {
    const drawn = Number(document.documentElement.dataset.drawn);
    const asked = performance.getEntriesByType('resource').filter(({ startTime }) => startTime < drawn);
    return [location.href, ...asked.map(({ name }) => name)];
  });
  expect(names.filter((name) => /worker/.test(name))).toEqual([]);
  expect(names.some((name) => /\.woff2$/.test(name))).toBe(true);
  const sizes = await Promise.all(
    names.map(async (name) => Math.max(0, ...(await Promise.all(packed.get(name) ?? [])))),
  );
  const bytes = sizes.reduce((sum, one) => sum + one, 0);
  console.log(`${Math.round(bytes / 1000)} kB packed before the first drawing`);
  // All of it came: the drawing stands on its plan, the type on its font.
  expect(bytes).toBeGreaterThan(200_000);
  expect(bytes).toBeLessThan(340_000);
});

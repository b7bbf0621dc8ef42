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

import { readFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import { extname, join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, type Page, test } from '@playwright/test';
import { drawingBoard, numbers } from './window.ts';

const DIST = fileURLToPath(new URL('../dist', import.meta.url));

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
  '.json': 'application/json',
  '.webmanifest': 'application/manifest+json',
  '.woff2': 'font/woff2',
};

/** The built app below some path of a server of its own, where `changed` may answer otherwise. */
async function served(
  prefix: string,
  changed: (file: string, body: Buffer) => Buffer | null = (_, body) => body,
): Promise<{ readonly address: string; readonly server: Server }> {
  const server = createServer((request, response) => {
    const path = new URL(request.url!, 'http://here').pathname;
    const file = path.startsWith(prefix) ? normalize(path.slice(prefix.length)) || 'index.html' : '..';
    try {
      if (file.startsWith('..')) throw new Error('not here');
      const name = file === '.' ? 'index.html' : file;
      const body = changed(name, readFileSync(join(DIST, name)));
      if (body === null) throw new Error('taken away');
      response
        .writeHead(200, { 'content-type': TYPES[extname(name)] ?? 'application/octet-stream' })
        .end(body);
    } catch {
      response.writeHead(404).end();
    }
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const at = server.address();
  return { address: `http://127.0.0.1:${typeof at === 'object' ? at?.port : 0}${prefix}`, server };
}

const standsBy = (page: Page): Promise<void> =>
  page.evaluate(async () => void (await navigator.serviceWorker.ready));

test.describe('installed, without a network, in German, enlarged twice', () => {
  test.use({ locale: 'de-DE', viewport: { width: 640, height: 400 }, deviceScaleFactor: 2 });

  test('a block goes from drawing to PDF by keyboard alone', async ({ page, context }) => {
    await page.goto('/');
    await expect(drawingBoard(page)).toBeVisible();
    // What a browser asks of a page that can be installed: a name, where it starts, a window of its own, an icon.
    const manifest = await page.evaluate(async () => {
      const link = document.querySelector<HTMLLinkElement>('link[rel="manifest"]')!;
      const told = await (await fetch(link.href)).json();
      const icons = await Promise.all(
        told.icons.map(async ({ src }: { src: string }) => (await fetch(new URL(src, link.href))).ok),
      );
      return { ...told, icons };
    });
    expect(manifest).toMatchObject({ name: 'Underpaper', start_url: './', display: 'standalone' });
    expect(manifest.icons).toEqual([true, true]);
    await standsBy(page);
    await context.setOffline(true);
    await page.reload();
    await expect(drawingBoard(page)).toBeFocused();
    expect(await page.evaluate(() => navigator.serviceWorker.controller !== null)).toBe(true);

    await page.keyboard.press('Control+Alt+b');
    await expect(drawingBoard(page)).toHaveAccessibleName(/^Zeichnung von Block/);
    await expect(drawingBoard(page)).toBeFocused();
    await page.keyboard.press('c');
    await page.keyboard.press('n');
    for (let step = 0; step < 3; step++) await page.keyboard.press('Control+ArrowDown');
    await page.keyboard.press('Enter');
    for (let step = 0; step < 6; step++) await page.keyboard.press('Control+ArrowRight');
    await page.keyboard.press('Enter');
    await expect(numbers(page)).toHaveText('2 Flicken, keine Verbindungsnähte.');
    await page.keyboard.press('Alt+4');
    const button = page.getByRole('button', { name: 'PDF herunterladen' });
    await expect(button).toBeVisible();
    for (
      let presses = 0;
      presses < 60 && !(await button.evaluate((one) => one === document.activeElement));
      presses++
    )
      await page.keyboard.press('Tab');
    await expect(button).toBeFocused();
    const download = page.waitForEvent('download');
    await page.keyboard.press('Enter');
    expect(
      readFileSync(await (await download).path())
        .subarray(0, 5)
        .toString(),
    ).toBe('%PDF-');
  });
});

test('it works below any path, and a newer version is offered there, never forced', async ({ page }) => {
  let version = '';
  const { address, server } = await served('/quilts/of/2026/', (file, body) =>
    file === 'offline-worker.js' ? Buffer.from(`${body}\n// ${version}\n`) : body,
  );
  try {
    await page.goto(address);
    await expect(drawingBoard(page)).toBeVisible();
    await standsBy(page);
    await page.reload();
    await expect(drawingBoard(page)).toBeVisible();
    const offer = page.getByText('A new version of Underpaper is ready.');
    await expect(offer).toHaveCount(0);

    version = 'newer';
    await page.keyboard.press('Control+Alt+b');
    await expect(drawingBoard(page)).toHaveAccessibleName(/Block/);
    await page.evaluate(async () => void (await (await navigator.serviceWorker.ready).update()));
    await expect(offer).toBeVisible();
    // Nothing happens by itself: the drawing is there and answers.
    await page.keyboard.press('Control+Alt+b');
    const blocks = await page.locator('.block-item').count();
    await page.getByRole('button', { name: 'Save and reload' }).click();
    await expect(offer).toHaveCount(0);
    await expect(page.locator('.block-item')).toHaveCount(blocks);
  } finally {
    server.close();
  }
});

test('a part that does not come over the network is told of, the work stays, and the rest goes on', async ({
  page,
}) => {
  const gone = new Set<RegExp>();
  const { address, server } = await served('/', (file, body) =>
    [...gone].some((name) => name.test(file)) ? null : body,
  );
  try {
    // Kept for a visit without a network everything would come all the same.
    await page.addInitScript(() => Object.defineProperty(navigator, 'serviceWorker', { value: undefined }));
    gone.add(/fabric-place|pdf-worker|shelf-dialog/);
    await page.goto(address);
    await expect(drawingBoard(page)).toBeVisible();
    const blocks = await page.locator('.block-item').count();

    await page.getByRole('button', { name: 'From the shelf' }).click();
    await expect(page.getByText('This dialog could not be loaded.')).toBeVisible();
    await page.getByRole('button', { name: 'Fabric', exact: true }).click();
    await expect(page.getByRole('heading', { name: 'Fabric could not be loaded' })).toBeVisible();
    await page.getByRole('button', { name: 'Paper', exact: true }).click();
    await expect(page.getByText(/could not be loaded or stopped working/).first()).toBeVisible();

    await page.getByRole('button', { name: 'Block', exact: true }).click();
    await expect(page.locator('.block-item')).toHaveCount(blocks);
    gone.clear();
    await page.getByRole('button', { name: 'From the shelf' }).click();
    await expect(page.getByRole('dialog')).toBeVisible();
  } finally {
    server.close();
  }
});

test('a screen that fails is closed, and nothing of the work is taken back', async ({ page }) => {
  const { address, server } = await served('/', (file, body) =>
    /assets\/fabric-place-.*\.js$/.test(file)
      ? Buffer.from('export default function Broken() { throw new Error("a thread broke"); }')
      : body,
  );
  try {
    await page.goto(address);
    await expect(drawingBoard(page)).toBeVisible();
    await page.keyboard.press('Control+Alt+b');
    await expect(page.getByRole('button', { name: 'Undo add block' })).toBeVisible();
    const blocks = await page.locator('.block-item').count();
    await page.getByRole('button', { name: 'Fabric', exact: true }).click();
    const failed = page.getByRole('alert').filter({ hasText: 'This screen could not be shown' });
    await expect(failed).toContainText('a thread broke');
    const saved = page.waitForEvent('download');
    await failed.getByRole('button', { name: 'Save to a file' }).click();
    const file = JSON.parse(readFileSync(await (await saved).path(), 'utf8'));
    expect(file.blocks).toHaveLength(blocks);
    await failed.getByRole('button', { name: 'Go to Block' }).click();
    await expect(page.locator('.block-item')).toHaveCount(blocks);
    // Its step is there to be undone, and done again.
    await page.getByRole('button', { name: 'Undo add block' }).click();
    await expect(page.locator('.block-item')).toHaveCount(blocks - 1);
    await page.getByRole('button', { name: 'Redo add block' }).click();
    await expect(page.locator('.block-item')).toHaveCount(blocks);
  } finally {
    server.close();
  }
});

import { readFileSync } from 'node:fs';
import AxeBuilder from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';
import { drawingBoard, openApp, verdict } from './window.ts';

const svg = (inside: string, size = 'width="6in" height="6in"'): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" ${size} viewBox="0 0 600 600">${inside}</svg>`;

/** A quay: a square of 5 in, a waterline, two slanted stays that end just short of it. */
const QUAY =
  '<g fill="none" stroke="#000"><rect x="50" y="50" width="500" height="500"/><path d="M50 350H550M200 50L300 349M400 50L300 349"/></g>';

const dialog = (page: Page) => page.getByRole('dialog', { name: /^Import/ });

async function choose(page: Page, name: string, text: string): Promise<void> {
  const choosing = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: 'Import a drawing' }).click();
  await (await choosing).setFiles({ name, mimeType: 'image/svg+xml', buffer: Buffer.from(text) });
}

test('an SVG drawing is understood, added as one step, taken back, and leaves true to size', async ({
  page,
}) => {
  await openApp(page);
  const blocks = page.locator('.block-item');
  const before = await blocks.count();
  await choose(
    page,
    'Old quay.svg',
    svg(`${QUAY}<text x="9" y="20">quay</text><path d="M5 5H30" stroke="red"/>`),
  );
  await expect(dialog(page)).toContainText('4 patches, sewn on 1 foundation.');
  await expect(dialog(page)).toContainText('5 in by 5 in finished.');
  await expect(dialog(page)).toContainText('Left out: 1 piece of text, 1 line outside the outline.');
  await dialog(page).getByRole('button', { name: 'Add block' }).click();
  await expect(drawingBoard(page)).toHaveAccessibleName('Drawing of Old quay');
  await expect(verdict(page)).toHaveText('Sews on one foundation.');
  await page.getByRole('button', { name: 'Undo import drawing' }).click();
  await expect(blocks).toHaveCount(before);
  await page.keyboard.press('Control+Shift+z');
  await expect(blocks).toHaveCount(before + 1);

  // Out again as lines, and back in: the same block.
  await page.getByRole('button', { name: 'Menu' }).click();
  await page.getByRole('button', { name: 'Export the block…' }).click();
  const [lines] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save', exact: true }).click(),
  ]);
  expect(lines.suggestedFilename()).toBe('Old quay.svg');
  const text = readFileSync(await lines.path(), 'utf8');
  await choose(page, 'again.svg', text);
  await expect(dialog(page)).toContainText('4 patches, sewn on 1 foundation.');
  await expect(dialog(page)).toContainText('5 in by 5 in finished.');
  await page.keyboard.press('Escape');
});

test('a picture of the block is as wide as asked', async ({ page }) => {
  await openApp(page);
  await page.getByRole('button', { name: 'Menu' }).click();
  await page.getByRole('button', { name: 'Export the block…' }).click();
  await page.getByRole('radio', { name: 'PNG picture' }).check();
  await page.getByRole('radio', { name: 'In its colours' }).check();
  const width = page.getByLabel('Width in pixels');
  await width.fill('99999');
  await expect(page.getByText('Type a whole number from 16 to 8,000')).toBeVisible();
  await width.fill('640');
  const [picture] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Enter')]);
  expect(picture.suggestedFilename()).toMatch(/\.png$/);
  const bytes = readFileSync(await picture.path());
  // The sizes stand in the first chunk of a PNG (ISO/IEC 15948, 11.2.2). The demo's first block is square.
  expect([bytes.readUInt32BE(16), bytes.readUInt32BE(20)]).toEqual([640, 640]);
});

test('a drawing that does not say its size is asked about, and so is read by keyboard', async ({ page }) => {
  await openApp(page);
  await choose(page, 'plan.svg', svg(QUAY, ''));
  await expect(dialog(page)).toContainText('How large is it? The file does not say.');
  const add = dialog(page).getByRole('button', { name: 'Add block' });
  await expect(add).toHaveAttribute('aria-disabled', 'true');
  await dialog(page).getByRole('radio', { name: 'So wide when finished:' }).press('Space');
  await dialog(page).getByLabel('Finished width').fill('8');
  await expect(dialog(page)).toContainText('8 in by 8 in finished.');
  await dialog(page).getByLabel('Join ends that miss by at most').fill('0');
  await expect(dialog(page)).toContainText('3 patches, with set-in seams.');
  await dialog(page).getByLabel('Join ends that miss by at most').fill('1/16');
  await expect(dialog(page)).toContainText('4 patches');
  await add.press('Enter');
  await expect(drawingBoard(page)).toHaveAccessibleName('Drawing of plan');
});

test('files that mean harm run nothing, fetch nothing, and lose nothing', async ({ page }) => {
  const asked: string[] = [];
  const dialogs: string[] = [];
  page.on('request', (request) => asked.push(request.url()));
  page.on('dialog', (shown) => {
    dialogs.push(shown.message());
    void shown.dismiss();
  });
  await openApp(page);
  const blocks = page.locator('.block-item');
  const before = await blocks.count();
  const notice = page.locator('.notice');
  await choose(page, 'letter.svg', 'Dear reader, this is no drawing.');
  await expect(notice).toContainText('‘letter.svg’ was not imported. It is not an SVG drawing.');
  await choose(page, 'deep.svg', `<svg>${'<g>'.repeat(100_000)}`);
  await expect(notice).toContainText('nested deeper than 500 levels');
  await choose(page, 'many.svg', svg(`<path d="M0 0${' 1 1 2 0'.repeat(300_000)}"/>`));
  await expect(notice).toContainText('more than 200,000 points');

  // A long one is read beside the screen, which answers meanwhile: it is stopped in the midst of it.
  await choose(
    page,
    'endless.svg',
    svg(`${'<g id="a"></g>'.repeat(490_000)}${QUAY}`, 'width="6in" height="6in"'),
  );
  await expect(dialog(page)).toContainText('Reading the drawing …');
  await page.keyboard.press('Escape');
  await expect(dialog(page)).toBeHidden();

  const seen = asked.length;
  await choose(
    page,
    '<img src=x onerror=alert(3)>.svg',
    svg(
      `<script>alert(1)</script><image href="http://127.0.0.1:9/lamp.png" onerror="alert(2)" width="9" height="9"/>${QUAY}`,
      'width="6in" height="6in" onload="alert(0)"',
    ),
  );
  await expect(dialog(page)).toContainText('nothing is ever run');
  await expect(dialog(page)).toContainText('nothing is fetched');
  expect(
    await page.evaluate(() => document.querySelectorAll('script:not([src]), image, foreignObject').length),
  ).toBe(0);
  expect(asked.slice(seen).filter((url) => url.includes('lamp'))).toEqual([]);
  await page.keyboard.press('Escape');
  await expect(blocks).toHaveCount(before);
  expect(dialogs).toEqual([]);
});

test('a drawing is dropped on the window', async ({ page }) => {
  await openApp(page);
  const dropped = await page.evaluateHandle((text) => {
    const data = new DataTransfer();
    data.items.add(new File([text], 'mole.svg', { type: 'image/svg+xml' }));
    return data;
  }, svg(QUAY));
  await page.dispatchEvent('body', 'drop', { dataTransfer: dropped });
  await expect(dialog(page)).toContainText('4 patches, sewn on 1 foundation.');
});

for (const colorScheme of ['light', 'dark'] as const) {
  test.describe(`in the ${colorScheme} theme`, () => {
    test.use({ colorScheme });

    test('the shelf and both dialogs keep WCAG 2.2 AA', async ({ page }) => {
      const faults = async (): Promise<string[]> => {
        const { violations } = await new AxeBuilder({ page })
          .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'])
          .analyze();
        return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join('\n  ')}`);
      };
      await openApp(page);
      await page.getByRole('button', { name: 'From the shelf' }).click();
      await page.getByRole('radio', { name: /^Log cabin/ }).check();
      expect(await faults()).toEqual([]);
      await page.keyboard.press('Escape');
      await choose(
        page,
        'plan.svg',
        svg(`${QUAY}<circle cx="300" cy="500" r="20" stroke="black"/><text>x</text>`, ''),
      );
      await dialog(page).getByRole('radio', { name: 'So wide when finished:' }).check();
      expect(await faults()).toEqual([]);
      await page.keyboard.press('Escape');
      await page.getByRole('button', { name: 'Menu' }).click();
      await page.getByRole('button', { name: 'Export the block…' }).click();
      await expect(page.getByRole('dialog', { name: /^Export/ })).toBeVisible();
      expect(await faults()).toEqual([]);
    });
  });
}

import { expect, test } from '@playwright/test';
import sharp from 'sharp';
import { onScreen, openApp, verdict } from './window.ts';

/** A ship at sea, drawn for the trial: sky, water, a hull and a sail. */
const SHIP = `<svg xmlns="http://www.w3.org/2000/svg" width="640" height="480">
  <rect width="640" height="480" fill="#bcd7e6"/><rect y="320" width="640" height="160" fill="#1d3557"/>
  <path d="M140 300H500L440 380H200Z" fill="#8a3b2c"/><path d="M310 60L310 290L460 290Z" fill="#f4f1e6"/>
</svg>`;

test('a picture becomes a block that sews, in one step of the history', async ({ page }) => {
  await openApp(page);
  await page.getByRole('button', { name: 'Make a block from a picture' }).click();
  const dialog = page.getByRole('dialog', { name: 'A block or a quilt from a picture' });
  const file = dialog.locator('input[type="file"]');

  // What is no picture is told in a sentence, and nothing changes.
  await file.setInputFiles({
    name: 'ship.png',
    mimeType: 'image/png',
    buffer: Buffer.from('a ship, in words'),
  });
  await expect(dialog.getByRole('alert')).toBeVisible();

  const png = await sharp(Buffer.from(SHIP)).png().toBuffer();
  await file.setInputFiles({ name: 'ship.png', mimeType: 'image/png', buffer: png });
  await expect(dialog.getByText(/\d+ patches in \d+ fabrics on \d+ foundations?/)).toBeVisible();
  await dialog.getByRole('slider', { name: 'Patches' }).fill('16');
  await expect(dialog.getByText(/^1?\d patches in/)).toBeVisible();
  // A brush lays where it points: the picture fills its frame, however narrow the window, with nothing beside it.
  await page.setViewportSize({ width: 768, height: 1024 });
  for (const part of [
    dialog.locator('.picturing-canvas').first(),
    dialog.locator('.picturing-block').first(),
  ]) {
    const frame = (await part.boundingBox())!;
    expect(frame.width / frame.height).toBeCloseTo(1, 1);
  }
  // What is on show can be stopped at; a control answers at once all the same.
  await dialog.getByRole('checkbox', { name: 'Both halves alike' }).check();
  await expect(dialog.getByRole('button', { name: 'Another version' })).toBeVisible();
  await dialog.getByRole('button', { name: 'Make the block' }).click();

  await expect(dialog).toHaveCount(0);
  await expect(verdict(page)).toContainText(/Sews on (one|\d+) foundations?/);
  const blocks = page.getByRole('region', { name: 'Blocks' });
  await expect(blocks.getByText('ship', { exact: true })).toBeVisible();

  // A patch of it is divided again to follow the picture that lies under it; all other lines stay.
  const lines = page.getByText(/^Lines \(\d+\)$/);
  const before = Number((await lines.textContent())!.match(/\d+/)![0]);
  // In the sky, away from its lines.
  await page.mouse.click(...(await onScreen(page, 4, 1.5)));
  await expect(page.getByRole('heading', { name: /^Patch [A-Z]\d+$/ })).toBeVisible();
  await page.keyboard.press('Control+k');
  await page.keyboard.type('follow the picture');
  await page.keyboard.press('Enter');
  const again = page.getByRole('dialog', { name: 'Divide a patch to follow the picture' });
  await again.getByLabel('Narrowest patch').fill('1/4');
  await expect(again.getByText(/^[2-9] patches in \d+ fabrics? in place of one$/)).toBeVisible();
  await again.getByRole('button', { name: 'Divide the patch' }).click();
  await expect(again).toHaveCount(0);
  await expect
    .poll(async () => Number((await lines.textContent())!.match(/\d+/)![0]))
    .toBeGreaterThan(before);
  await expect(verdict(page)).toContainText(/Sews on (one|\d+) foundations?/);
  await page.keyboard.press('Control+z');
  await expect.poll(async () => Number((await lines.textContent())!.match(/\d+/)![0])).toBe(before);

  await page.keyboard.press('Control+z');
  await expect(blocks.getByText('ship', { exact: true })).toHaveCount(0);

  // Spread over blocks it is a quilt, set at once; the arrangement before stays beside it, and one undo takes all back.
  await page.getByRole('button', { name: 'Make a block from a picture' }).click();
  await file.setInputFiles({ name: 'ship.png', mimeType: 'image/png', buffer: png });
  await dialog.getByRole('slider', { name: 'Blocks across' }).fill('3');
  await dialog.getByRole('slider', { name: 'Blocks down' }).fill('2');
  await expect(dialog.getByText(/^6 blocks, all sewn by straight seams/)).toBeVisible();
  await dialog.getByRole('button', { name: 'Make the quilt' }).click();
  const size = page.locator('.quilt-size');
  await expect(size).toContainText('6 places');
  await expect(size).toContainText('36 × 24 in');
  await expect(page.getByText('Before ‘ship’')).toBeVisible();
  await page.keyboard.press('Control+z');
  await expect(size).toContainText('58 places');
});

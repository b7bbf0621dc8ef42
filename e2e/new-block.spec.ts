import { expect, test } from '@playwright/test';
import { addSquare, drag, numbers, onScreen, openApp, verdict } from './window.ts';

test('a new block is drawn, checked, undone, redone and kept', async ({ page }) => {
  await openApp(page);
  await addSquare(page, 'Ferry');
  await expect(verdict(page)).toHaveText('One patch, nothing to sew.');

  // Two full levels, and two uprights between them: five patches on one paper, the middle strip first.
  await drag(page, [0, 1.5], [6, 1.5]);
  await expect(verdict(page)).toHaveText('Sews on one foundation.');
  await drag(page, [0, 4.5], [6, 4.5]);
  await drag(page, [2, 1.5], [2, 4.5]);
  await drag(page, [4, 1.5], [4, 4.5]);
  await expect(verdict(page)).toHaveText('Sews on one foundation.');
  await expect(numbers(page)).toHaveText('5 patches, no joins.');

  await page.getByRole('button', { name: 'Undo draw line' }).click();
  await page.keyboard.press('Control+z');
  await expect(numbers(page)).toHaveText('3 patches, no joins.');
  await page.keyboard.press('Control+Shift+z');
  await page.getByRole('button', { name: 'Redo draw line' }).click();
  await expect(numbers(page)).toHaveText('5 patches, no joins.');

  await expect(page.getByText('Saved in this browser')).toBeVisible();
  await page.reload();
  await expect(page.locator('.block-item-open')).toContainText('Ferry');
  await expect(numbers(page)).toHaveText('5 patches, no joins.');
});

test('fabric is laid by clicking and dragging, and a block is renamed, copied, moved and deleted', async ({
  page,
}) => {
  await openApp(page);
  await addSquare(page, 'Gull');
  await drag(page, [0, 3], [6, 3]);

  await page.getByRole('button', { name: 'Add a fabric' }).click();
  await page.keyboard.type('Seaweed');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Seaweed', exact: true }).click();
  await drag(page, [3, 1], [3, 5]);
  await page.getByText('Patches (2)').click();
  await expect(page.locator('.row-patch', { hasText: 'Seaweed' })).toHaveCount(2);

  await page.getByRole('button', { name: 'Rename Gull' }).click();
  await page.keyboard.type('Herring gull');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Duplicate Herring gull' }).click();
  const names = page.locator('.block-name');
  await expect(names.last()).toHaveText('Herring gull copy');
  await page.getByRole('button', { name: 'Move Herring gull copy up' }).click();
  await expect(names.last()).toHaveText('Herring gull');
  const count = await names.count();
  await page.getByRole('button', { name: 'Delete Herring gull copy' }).click();
  await expect(names).toHaveCount(count - 1);
  await page.keyboard.press('Control+z');
  await expect(names).toHaveCount(count);
});

test('an outline is drawn point by point', async ({ page }) => {
  await openApp(page);
  await page.getByRole('button', { name: 'Add a block' }).click();
  await page.getByLabel('Name', { exact: true }).fill('Sail');
  await page.getByRole('radio', { name: 'By points' }).check();
  await page.getByRole('button', { name: 'Draw it' }).click();
  const corners: readonly (readonly [number, number])[] = [
    [2, 1],
    [8, 9],
    [2, 9],
    [2, 1],
  ];
  for (const [x, y] of corners) await page.mouse.click(...(await onScreen(page, x, y)));
  await expect(page.locator('.block-item-open')).toContainText('Sail');
  await expect(verdict(page)).toHaveText('One patch, nothing to sew.');
  // The tool that comes next is in hand.
  await expect(page.getByRole('button', { name: 'Line (C)' })).toHaveAttribute('aria-pressed', 'true');
  await drag(page, [0, 6], [6, 6]);
  await expect(verdict(page)).toHaveText('Sews on one foundation.');
});

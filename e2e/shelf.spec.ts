import { expect, type Page, test } from '@playwright/test';
import { drawingBoard, openApp, verdict } from './window.ts';

const shelf = (page: Page) => page.getByRole('dialog', { name: 'From the shelf' });

async function openShelf(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'From the shelf' }).click();
  await expect(shelf(page)).toBeVisible();
}

test('a traditional block is found, set, added, undone and brought back', async ({ page }) => {
  await openApp(page);
  const blocks = page.locator('.block-item');
  const before = await blocks.count();
  await openShelf(page);
  await shelf(page).getByLabel('Search by name').fill('cabin');
  await expect(shelf(page).getByRole('radio')).toHaveCount(1);
  await shelf(page)
    .getByRole('radio', { name: /^Log cabin/ })
    .check();
  await expect(shelf(page).locator('.starter-preview')).toContainText('13 patches, 1 foundation');

  // One round more, four logs more.
  await shelf(page)
    .getByLabel(/^Rounds/)
    .fill('4');
  await expect(shelf(page).locator('.starter-preview')).toContainText('17 patches, 1 foundation');
  await shelf(page).getByLabel('Finished width').fill('9 in');
  await expect(shelf(page)).toContainText('Finished size 9 in by 9 in (229 by 229 mm).');
  await shelf(page).getByRole('button', { name: 'Add block' }).click();

  await expect(drawingBoard(page)).toHaveAccessibleName('Drawing of Log cabin');
  await expect(verdict(page)).toHaveText('Sews on one foundation.');
  await expect(blocks).toHaveCount(before + 1);
  await page.getByText('Patches (17)').click();
  await expect(page.locator('.row-patch', { hasText: 'no fabric' })).toHaveCount(0);
  await page.getByRole('button', { name: /^Undo add block from the shelf/ }).click();
  await expect(blocks).toHaveCount(before);
  await page.keyboard.press('Control+Shift+z');
  await expect(blocks).toHaveCount(before + 1);
});

test('the shelf is sorted through by patches and foundations, and all by keyboard', async ({ page }) => {
  await openApp(page);
  await page.getByRole('button', { name: 'From the shelf' }).focus();
  await page.keyboard.press('Enter');
  const dialog = shelf(page);
  await expect(dialog.getByLabel('Search by name')).toBeFocused();

  await dialog.getByLabel('Number of patches').selectOption({ label: 'Patches: over 20' });
  await dialog.getByLabel('Number of foundations').selectOption({ label: 'Foundations: one' });
  await expect(dialog.getByRole('radio')).toHaveCount(1);
  await expect(dialog.locator('.starter')).toContainText('Pineapple');
  await dialog.getByLabel('Number of patches').selectOption({ label: 'Patches: any' });
  await dialog.getByLabel('Number of foundations').selectOption({ label: 'Set-in seams' });
  await dialog.getByLabel('Order').selectOption({ label: 'Order: patches' });
  const names = dialog.locator('.starter-name');
  await expect(names.last()).toHaveText('Lemoyne star');

  await dialog.getByLabel('Number of foundations').selectOption({ label: 'Foundations: any' });
  await dialog.getByLabel('Search by name').fill('barn');
  await page.keyboard.press('Enter');
  await expect(dialog.locator('.starter-preview')).toContainText('Churn dash');
  await dialog.getByLabel('Lay fabrics of this project on it').uncheck();
  await dialog.getByLabel('Finished width').fill('much');
  await dialog.getByRole('button', { name: 'Add block' }).press('Enter');
  await expect(dialog).toBeVisible();
  await dialog.getByLabel('Finished width').fill('180 mm');
  await page.keyboard.press('Enter');
  await expect(drawingBoard(page)).toHaveAccessibleName('Drawing of Churn dash');
  await page.getByText('Patches (17)').click();
  await expect(page.locator('.row-patch', { hasText: 'no fabric' })).toHaveCount(17);
});

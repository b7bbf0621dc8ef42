import { expect, type Page, test } from '@playwright/test';
import { openApp } from './window.ts';

/** Presses Tab until the thing with this name has the keyboard. */
async function tabTo(page: Page, name: string): Promise<void> {
  for (let presses = 0; presses < 80; presses++) {
    await page.keyboard.press('Tab');
    const here = await page.evaluate(() => {
      const element = document.activeElement;
      return element?.getAttribute('aria-label') ?? element?.textContent ?? '';
    });
    if (here === name) return;
  }
  throw new Error(`The keyboard never came to “${name}”.`);
}

test('a block and a cut are made with the keyboard alone, and the verdict is heard', async ({ page }) => {
  await openApp(page);
  await tabTo(page, 'Add a block');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('dialog', { name: 'Add a block' })).toBeVisible();
  await expect(page.getByRole('radio', { name: 'Square' })).toBeFocused();
  await page.keyboard.press('Tab');
  await page.keyboard.press('Control+a');
  await page.keyboard.type('Buoy');
  await page.keyboard.press('Enter');
  await expect(page.locator('.block-item-open')).toContainText('Buoy');

  // The keyboard is on its drawing, and the block in sight in the list.
  await expect(page.getByRole('application', { name: 'Drawing of Buoy' })).toBeFocused();
  await expect(page.locator('.block-item-open')).toBeInViewport();
  const told = page.locator('.desk').getByRole('status');
  await page.keyboard.press('n');
  await expect(told).toHaveText('0, 0 in, corner');
  await page.keyboard.press('Control+ArrowDown');
  await page.keyboard.press('Control+ArrowDown');
  await expect(told).toHaveText('0, 2 in, third');
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Shift+ArrowUp');
  await expect(told).toHaveText('0, 2 3/16 in, edge');
  await page.keyboard.press('ArrowUp');
  await expect(told).toHaveText('0, 2 in, third');

  await page.keyboard.press('Enter');
  await expect(told).toContainText('Line begins at 0, 2 in, third');
  await page.keyboard.press('n');
  await expect(told).toHaveText('0, 6 in, corner');
  await page.keyboard.press('Escape');
  await page.keyboard.press('p');
  await page.keyboard.press('p');
  await expect(told).toHaveText('0, 0 in, corner');
  for (let step = 0; step < 8; step++) await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  for (let step = 0; step < 6; step++) await page.keyboard.press('Control+ArrowRight');
  await page.keyboard.press('Enter');
  await expect(told).toHaveText('Line drawn to 6, 2 in, third, 6 in long.');
  await expect(page.getByTestId('spoken-verdict')).toContainText('Sews on one foundation.');

  // The same cut in the list beside the board: made a join, which takes two papers, then deleted.
  await tabTo(page, 'Lines (1)');
  await page.keyboard.press('Enter');
  await expect(page.locator('.row-choose')).toBeVisible();
  await page.keyboard.press('Tab');
  await expect(page.locator('.row-choose')).toBeFocused();
  await page.keyboard.press('Tab');
  await page.keyboard.press('j');
  await expect(page.getByTestId('spoken-verdict')).toContainText('Sews on 2 foundations');
  await page.keyboard.press('Shift+Tab');
  await page.keyboard.press('Delete');
  await expect(page.getByTestId('spoken-verdict')).toContainText('One patch');
});

test('a cut is picked up, moved and put down with the keyboard', async ({ page }) => {
  await openApp(page);
  await page.keyboard.press('Control+Alt+b');
  await tabTo(
    page,
    await page
      .locator('.drawing-board')
      .getAttribute('aria-label')
      .then((name) => name!),
  );
  const told = page.locator('.desk').getByRole('status');
  await page.keyboard.press('c');
  await page.keyboard.press('n');
  for (let step = 0; step < 3; step++) await page.keyboard.press('Control+ArrowDown');
  await page.keyboard.press('Enter');
  for (let step = 0; step < 6; step++) await page.keyboard.press('Control+ArrowRight');
  await page.keyboard.press('Enter');
  await page.keyboard.press('v');
  for (let step = 0; step < 3; step++) await page.keyboard.press('Control+ArrowLeft');
  await page.keyboard.press('Enter');
  await expect(told).toContainText('Line 1 picked up, from 0, 3 in to 6, 3 in, 6 in long.');
  await page.keyboard.press('Control+ArrowDown');
  await page.keyboard.press('Enter');
  await expect(told).toContainText('Put down');
  await expect(page.locator('.chosen-card')).toContainText('0, 4 → 6, 4, 6 in long');
  await expect(page.getByRole('button', { name: 'Undo move line' })).toBeVisible();
});

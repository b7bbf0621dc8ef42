import { expect, type Page, test } from '@playwright/test';
import { drawingBoard, dropFile, openApp } from './window.ts';

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
  await expect(drawingBoard(page)).toHaveAccessibleName(/Block/);
  await expect(drawingBoard(page)).toBeFocused();
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

test('a list is one stop for Tab; arrows walk it, and what is deleted leaves the keyboard to its neighbour', async ({
  page,
}) => {
  await openApp(page);
  await expect(drawingBoard(page)).toBeFocused();
  const open = page.locator('.block-open');
  await open.first().focus();
  await page.keyboard.press('ArrowDown');
  await expect(open.nth(1)).toBeFocused();
  await page.keyboard.press('End');
  await expect(open.last()).toBeFocused();
  const names = await page.locator('.block-name').allTextContents();
  await page.keyboard.press('Home');
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Delete');
  await expect(open).toHaveCount(names.length - 1);
  await expect(open.nth(1)).toBeFocused();
  await expect(open.nth(1)).toContainText(names[2]!);
  // Nothing is open in this row: the next stop is beyond the list.
  await page.keyboard.press('Tab');
  await expect(page.locator('.block-list :focus')).toHaveCount(0);
  await expect(page.locator('.fabrics :focus')).toHaveCount(1);
  await page.keyboard.press('Shift+Tab');
  await expect(open.nth(1)).toBeFocused();

  // Letters act at the drawing alone, and nowhere once they are switched off.
  const line = page.getByRole('button', { name: 'Line (C)' });
  await page.keyboard.press('c');
  await expect(line).toHaveAttribute('aria-pressed', 'false');
  await drawingBoard(page).focus();
  await page.keyboard.press('c');
  await expect(line).toHaveAttribute('aria-pressed', 'true');
  await page.getByRole('button', { name: 'Menu' }).click();
  await page.getByRole('group', { name: 'Letter keys' }).getByRole('radio', { name: 'Off' }).check();
  await page.keyboard.press('Escape');
  await drawingBoard(page).focus();
  await page.keyboard.press('v');
  await expect(line).toHaveAttribute('aria-pressed', 'true');
});

test('the keyboard goes back to what opened a dialog, and to the drawing or the screen of a place gone to', async ({
  page,
}) => {
  await openApp(page);
  const help = page.getByRole('button', { name: 'Help', exact: true });
  await help.focus();
  await page.keyboard.press('Enter');
  await expect(page.getByRole('dialog')).toBeVisible();
  await page.keyboard.press('Escape');
  await expect(help).toBeFocused();
  await page.keyboard.press('Control+k');
  await page.keyboard.type('palette of nothing');
  await page.keyboard.press('Escape');
  await expect(help).toBeFocused();
  // Of what is left nothing has it: the place that comes has.
  await drawingBoard(page).focus();
  await page.keyboard.press('Alt+2');
  await expect(page.locator('.quilt-board')).toBeFocused();
  await page.keyboard.press('Alt+3');
  await expect(page.locator('main')).toBeFocused();
  await page.keyboard.press('Alt+1');
  await expect(drawingBoard(page)).toBeFocused();
});

test('ten thousand blocks are listed without a row for each, and walked to both ends', async ({ page }) => {
  await openApp(page);
  const blocks = Array.from({ length: 10_000 }, (_, k) => ({
    id: `b${k + 1}`,
    name: `Shed ${k + 1}`,
    outline: [
      [0, 0],
      [4, 0],
      [4, 4],
      [0, 4],
    ],
  }));
  await dropFile(
    page,
    'sheds.underpaper.json',
    JSON.stringify({ format: 'underpaper', version: 2, name: 'Sheds', blocks }),
  );
  const row = page.locator('.block-item');
  await expect(row.first()).toContainText('Shed 1');
  await expect(row.first()).toHaveAttribute('aria-setsize', '10000');
  expect(await row.count()).toBeLessThan(250);
  expect(await page.locator('*').count()).toBeLessThan(6_000);
  await page.locator('.block-open').first().focus();
  await page.keyboard.press('End');
  await expect(page.locator('.block-open:focus')).toContainText('Shed 10000');
  await page.keyboard.press('ArrowUp');
  await expect(page.locator('.block-open:focus')).toContainText('Shed 9999');
  expect(await row.count()).toBeLessThan(250);
  await page.keyboard.press('Home');
  await expect(page.locator('.block-open:focus')).toContainText('Shed 1');
});

import { expect, test } from '@playwright/test';
import { addSquare, drag, dragTo, openApp, verdict } from './window.ts';

test('a block that cannot be sewn is cured by moving a line until the check agrees', async ({ page }) => {
  await openApp(page);
  await addSquare(page, 'Whirlpool');
  // The spiral of five: no line runs right across, so no straight seam parts it (common practice; the smallest such).
  await drag(page, [2, 0], [2, 4]);
  await drag(page, [0, 4], [4, 4]);
  await drag(page, [4, 6], [4, 2]);
  await drag(page, [6, 2], [2, 2]);
  await expect(verdict(page)).toContainText('Cannot be joined with straight seams');
  await expect(page.getByRole('heading', { name: /Problems/ })).toBeVisible();

  // The second line is drawn out to the far edge. The check agrees while it is still in hand.
  await page.getByRole('button', { name: 'Select (V)' }).click();
  await dragTo(page, [1, 4], [1, 4]);
  await page.mouse.up();
  await dragTo(page, [4, 4], [6, 4]);
  await expect(verdict(page)).toContainText(/^Sews on/);
  await page.mouse.up();
  await expect(verdict(page)).toContainText(/^Sews on/);
  await expect(page.getByRole('heading', { name: /Problems/ })).toBeHidden();

  // Esc in the middle of a move leaves everything as it was.
  await dragTo(page, [6, 4], [4, 4]);
  await expect(verdict(page)).toContainText('Cannot be joined');
  await page.keyboard.press('Escape');
  await expect(verdict(page)).toContainText(/^Sews on/);
  await page.mouse.up();
  await expect(page.getByRole('button', { name: 'Undo move end of line' })).toBeVisible();
});

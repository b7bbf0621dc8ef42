import { expect, test } from '@playwright/test';
import { drag, drawingBoard, numbers, verdict } from './window.ts';

test.use({ locale: 'de-DE' });

test('in a German browser a block goes from drawing to PDF, and the language can be chosen', async ({
  page,
}) => {
  await page.goto('/');
  await expect(page.getByRole('navigation', { name: 'Plätze' })).toBeVisible();
  await expect(page.locator('html')).toHaveAttribute('lang', 'de');
  await expect(drawingBoard(page)).toBeVisible();
  await page.getByRole('button', { name: 'Menü' }).click();
  await page.getByRole('radio', { name: 'Millimeter' }).check();
  await page.keyboard.press('Escape');

  await page.getByRole('button', { name: 'Block hinzufügen' }).click();
  const dialog = page.getByRole('dialog');
  await dialog.getByLabel('Name', { exact: true }).fill('Möwe');
  await dialog.getByLabel('Seite').fill('152,4');
  await dialog.getByRole('button', { name: 'Block hinzufügen' }).click();
  await expect(drawingBoard(page)).toHaveAccessibleName('Zeichnung von Möwe');
  await drag(page, [0, 2], [6, 2]);
  await page.keyboard.press('Escape');
  await drag(page, [3, 0], [3, 2]);
  await expect(verdict(page)).toHaveText('Näht sich auf einer Schablone.');
  await expect(numbers(page)).toHaveText('3 Flicken, keine Verbindungsnähte.');
  await expect(page.getByRole('button', { name: 'Rückgängig: Linie zeichnen' })).toBeVisible();

  await page.getByRole('button', { name: /^Papier/ }).click();
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'PDF herunterladen' }).click();
  expect((await download).suggestedFilename()).toMatch(/\.pdf$/);

  await page.getByRole('button', { name: 'Menü' }).click();
  await page.getByRole('radio', { name: 'English' }).click();
  await expect(page.getByRole('navigation', { name: 'Places' })).toBeVisible();
  await expect(page.locator('html')).toHaveAttribute('lang', 'en');
});

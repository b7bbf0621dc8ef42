import { readFileSync } from 'node:fs';
import { expect, type Page, test } from '@playwright/test';
import { openApp } from './window.ts';

async function openFabric(page: Page): Promise<void> {
  await openApp(page);
  await page.getByRole('button', { name: 'Fabric', exact: true }).click();
  await expect(page.locator('.fabric-desk[data-thorough=true]')).toBeVisible();
}

test('what to cut is there for every fabric, proved, drawn and ticked off', async ({ page }) => {
  await openFabric(page);
  const sea = page.getByRole('button', { name: /^Night sea/ });
  await expect(sea).toContainText('yd');
  await expect(page.getByRole('heading', { name: 'Night sea' })).toBeVisible();
  await expect(page.getByText('rounded up to an eighth')).toBeVisible();
  await expect(page.getByRole('img', { name: /^Strip 1,/ })).toBeVisible();

  await page.locator('.piece-patch').first().click();
  const proof = page.getByRole('dialog');
  await expect(proof.getByText(/^It covers: at least/)).toBeVisible();
  await proof.getByLabel('Width').fill('1');
  await proof.getByRole('button', { name: 'Cut this size' }).click();
  await expect(proof.getByText(/^It falls short by/)).toBeVisible();
  await proof.getByRole('button', { name: 'Back to the size worked out' }).click();
  await expect(proof.getByText(/^It covers/)).toBeVisible();
  await page.keyboard.press('Escape');

  const first = page.locator('.piece-size input').first();
  await first.check();
  await expect(page.locator('.fabric-sheet-head')).toContainText('1 cut');
  // It is no edit: undo takes back the size, and leaves what is cut.
  await page.keyboard.press('ControlOrMeta+z');
  await expect(first).toBeChecked();
});

test('cloth at hand, its price and copies change the sums', async ({ page }) => {
  await openFabric(page);
  await page.getByLabel('Price per yard').fill('12,00');
  await page.getByLabel('At hand, off the bolt').fill('1/8 yd');
  await page.getByLabel('At hand, off the bolt').press('Enter');
  await expect(page.getByText('What is at hand falls short by')).toBeVisible();
  await expect(page.locator('.fabric-total')).toContainText('in all');
  await page.getByLabel('At hand, off the bolt').fill('-3');
  await expect(page.getByText('What is at hand is less than 0.')).toBeVisible();
  await page.getByLabel('At hand, off the bolt').fill('');
  const before = await page.getByRole('button', { name: /^Night sea/ }).textContent();
  await page.getByLabel('Lighthouse', { exact: true }).fill('6');
  await expect(page.getByRole('button', { name: /^Night sea/ })).not.toHaveText(before!);
});

test('the list goes out as a table and comes in again', async ({ page }, testInfo) => {
  await openFabric(page);
  const downloading = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Export' }).click();
  const file = testInfo.outputPath('fabrics.csv');
  await (await downloading).saveAs(file);
  expect(readFileSync(file, 'utf8')).toContain('Night sea');
  await page.locator('input[type=file]').setInputFiles({
    name: 'more.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from('\uFEFFName;Colour;Price\r\n"Kelp; dried";#405a33;9,50\r\n'),
  });
  await expect(page.getByRole('button', { name: /^Kelp; dried/ })).toBeVisible();
});

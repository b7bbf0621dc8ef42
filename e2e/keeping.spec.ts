import { expect, type Page, test } from '@playwright/test';
import { dropFile, openApp } from './window.ts';

const PIER = JSON.stringify({ format: 'underpaper', version: 1, name: 'Pier', blocks: [] });

const openProjects = async (page: Page) => {
  await page.keyboard.press('Control+Alt+o');
  const dialog = page.getByRole('dialog', { name: 'Projects' });
  await expect(dialog).toBeVisible();
  return dialog;
};

test('a file opened is a project more; each is opened, copied, archived, deleted and brought back', async ({
  page,
}) => {
  await openApp(page);
  await dropFile(page, 'pier.json', PIER);
  await expect(page.getByLabel('Project name')).toHaveValue('Pier');
  await expect(page.locator('.save-saved')).toBeVisible();
  await page.reload();
  await expect(page.getByLabel('Project name')).toHaveValue('Pier');

  const dialog = await openProjects(page);
  await expect(dialog.locator('.project-row')).toHaveCount(2);
  await dialog.getByRole('button', { name: 'Duplicate ‘Harbour sampler’' }).click();
  await expect(dialog.locator('.project-row')).toHaveCount(3);
  await dialog.getByRole('button', { name: 'Delete ‘Harbour sampler (copy)’' }).click();
  await dialog.getByText('Deleted (1)').click();
  await dialog.getByRole('button', { name: 'Bring back ‘Harbour sampler (copy)’' }).click();
  await dialog.getByRole('button', { name: 'Archive ‘Harbour sampler (copy)’' }).click();
  await expect(dialog.getByText('Archived (1)')).toBeVisible();
  await dialog.getByRole('button', { name: 'Open ‘Harbour sampler’' }).last().click();
  await expect(page.getByLabel('Project name')).toHaveValue('Harbour sampler');
});

test('an earlier state is looked at and brought back; undo takes that back', async ({ page }) => {
  await openApp(page);
  await page.getByLabel('Project name').fill('Quay');
  await page.keyboard.press('Enter');
  await expect(page.locator('.save-saved')).toBeVisible();
  await page.getByRole('button', { name: 'Menu' }).click();
  await page.getByText('Earlier states…').click();
  const dialog = page.getByRole('dialog', { name: 'Earlier states' });
  await dialog.locator('.earlier-state').last().click();
  await expect(dialog.getByText('Harbour sampler', { exact: true })).toBeVisible();
  await dialog.getByRole('button', { name: 'Bring back' }).click();
  await expect(page.getByLabel('Project name')).toHaveValue('Harbour sampler');
  await page.keyboard.press('Control+z');
  await expect(page.getByLabel('Project name')).toHaveValue('Quay');
});

test('of two tabs one saves; the other follows, and saves when asked', async ({ page, context }) => {
  await openApp(page);
  await page.getByLabel('Project name').fill('Quay');
  await page.keyboard.press('Enter');
  await expect(page.locator('.save-saved')).toBeVisible();
  const other = await context.newPage();
  await openApp(other);
  await expect(other.locator('.follow-line')).toContainText('open in another tab');
  await page.getByLabel('Project name').fill('Mole');
  await page.keyboard.press('Enter');
  await expect(other.getByLabel('Project name')).toHaveValue('Mole');
  await other.getByRole('button', { name: 'Edit here' }).click();
  await expect(other.locator('.follow-line')).toBeHidden();
  await expect(page.locator('.follow-line')).toBeVisible();
  await other.getByLabel('Project name').fill('Pier');
  await other.keyboard.press('Enter');
  await expect(page.getByLabel('Project name')).toHaveValue('Pier');
});

test('a tab killed in the midst of fast editing has lost no more than a second', async ({ browser }) => {
  const context = await browser.newContext();
  const page = await context.newPage();
  await openApp(page);
  const field = page.getByLabel('Project name');
  const written: { n: number; at: number }[] = [];
  for (let n = 0; n < 20; n++) {
    await field.fill(`Quay ${n}`);
    await page.keyboard.press('Enter');
    written.push({ n, at: Date.now() });
    await page.waitForTimeout(150);
  }
  const killed = Date.now();
  const session = await context.newCDPSession(page);
  const crashed = page.waitForEvent('crash');
  session.send('Page.crash').catch(() => undefined);
  await crashed;
  const again = await context.newPage();
  await openApp(again);
  const kept = Number(/\d+/.exec(await again.getByLabel('Project name').inputValue())?.[0] ?? -1);
  const owed = written.findLast(({ at }) => at < killed - 1000)?.n ?? -1;
  expect(kept).toBeGreaterThanOrEqual(owed);
  await context.close();
});

import { expect, test } from '@playwright/test';
import { openApp } from './window.ts';

test('a project goes as a link from one browser to another, where it is looked at and added beside the rest', async ({
  page,
  browser,
  baseURL,
}) => {
  await openApp(page);
  await page.getByLabel('Project name').fill('Lighthouse for Greta');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Menu' }).click();
  await page.getByRole('button', { name: 'Share…' }).click();
  const link = await page.getByRole('dialog').getByLabel('Link', { exact: true }).inputValue();
  await expect(page.getByRole('dialog')).toContainText(/[\d,]+ characters/);

  const context = await browser.newContext();
  const other = await context.newPage();
  const asked: string[] = [];
  context.on('request', (request) => asked.push(request.url()));
  await other.goto(link);
  const dialog = other.getByRole('dialog', { name: 'A project was shared with you' });
  await expect(dialog).toContainText('Lighthouse for Greta');
  expect(new URL(other.url()).hash).toBe('');
  // Nothing has been replaced, and nothing after the # has left the machine.
  await expect(other.getByLabel('Project name')).toHaveValue('Harbour sampler');
  expect(asked.filter((url) => url.length > 500)).toEqual([]);
  await dialog.getByRole('button', { name: 'Add to my projects' }).click();
  await expect(other.getByLabel('Project name')).toHaveValue('Lighthouse for Greta');
  await expect(other.locator('.save-saved')).toBeVisible();
  await other.keyboard.press('Control+Alt+o');
  await expect(other.locator('.project-row')).toHaveCount(2);
  await other.keyboard.press('Escape');

  // Cut on its way.
  await other.goto(`${baseURL}/`);
  await other.evaluate((hash) => (location.hash = hash), new URL(link).hash.slice(0, 900));
  await expect(other.getByRole('dialog')).toContainText('The link is broken');
  await other.getByRole('button', { name: 'Close' }).last().click();
  await expect(other.getByLabel('Project name')).toHaveValue('Lighthouse for Greta');
  await context.close();
});

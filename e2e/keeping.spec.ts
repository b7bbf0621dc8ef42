import { expect, type Page, test } from '@playwright/test';
import { Prng } from '../tests/designs/prng.ts';
import { endOnce, WAYS_TO_END } from './kill.ts';
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

for (const [i, way] of WAYS_TO_END.entries())
  test(`work comes back whole: ${way} in the midst of fast editing`, async ({ baseURL }) => {
    const { edits, oldestLostMs } = await endOnce(way, `${baseURL}/`, new Prng(i));
    expect(edits).toBeGreaterThan(0);
    // A second, on a machine five times as slow; `npm run audit` asks for the second itself, many times over.
    expect(oldestLostMs).toBeLessThan(5_000);
  });

test('a tab closed after another has written the same project does not win over it', async ({
  page,
  context,
}) => {
  await openApp(page);
  await page.getByLabel('Project name').fill('Quay');
  await page.keyboard.press('Enter');
  await expect(page.locator('.save-saved')).toBeVisible();
  const other = await context.newPage();
  await openApp(other);
  // Both edit before either has told the other, and the first is closed: all within 400 ms, or as near as can be.
  const rename = (name: string) => (tab: Page) =>
    tab.evaluate((text) => {
      const field = document.querySelector<HTMLInputElement>('input[aria-label="Project name"]')!;
      const set = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value')!.set!;
      set.call(field, text);
      field.dispatchEvent(new Event('input', { bubbles: true }));
      // A tab that is not in front has no focus to lose.
      field.dispatchEvent(new FocusEvent('focusout', { bubbles: true }));
    }, name);
  await rename('Breakwater')(other);
  await rename('Jetty')(page);
  // As a person closes it; a question whether to leave is answered with yes.
  page.on('dialog', (question) => void question.accept());
  const closed = page.waitForEvent('close');
  await page.close({ runBeforeUnload: true });
  await closed;
  await expect(other.locator('.save-saved, .follow-line')).not.toHaveCount(0);
  await other.close();

  const later = await context.newPage();
  await openApp(later);
  const name = await later.getByLabel('Project name').inputValue();
  // What lost is kept as an earlier state.
  await later.getByRole('button', { name: 'Menu' }).click();
  await later.getByText('Earlier states…').click();
  const states = later.locator('.earlier-state');
  await expect(states.first()).toBeVisible();
  const found: string[] = [];
  for (let i = 0; i < (await states.count()); i++) {
    await states.nth(i).click();
    const look = later.locator('.earlier-look b');
    await expect(look).toBeVisible();
    found.push((await look.textContent()) ?? '');
  }
  expect(name).toBe('Jetty');
  expect(found).toEqual(expect.arrayContaining(['Jetty', 'Breakwater', 'Quay']));
});

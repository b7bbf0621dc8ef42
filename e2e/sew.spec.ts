import { expect, type Page, test } from '@playwright/test';
import { openApp } from './window.ts';

/** Sews the whole of two small blocks through the screens, with a reload and an edit on the way. */

test.use({ viewport: { width: 820, height: 1180 } });

async function choose(page: Page, wanted: readonly string[]): Promise<void> {
  const fields = page.getByRole('group', { name: 'Blocks and copies' }).getByRole('spinbutton');
  await expect(fields.first()).toBeVisible();
  for (const field of await fields.all()) {
    const id = await field.getAttribute('id');
    const label = await page.locator(`label[for="${id}"]`).textContent();
    await field.fill(wanted.includes(label ?? '') ? '2' : '0');
  }
}

test('two blocks, two copies, from taking into work to trimmed', async ({ page }) => {
  test.setTimeout(120_000);
  await openApp(page);
  await page.keyboard.press('Alt+5');
  await choose(page, ['Sailing boat', 'Lighthouse']);
  await expect(page.getByText(/rounds for 8 papers/)).toBeVisible();
  await page.getByRole('button', { name: 'Take into work' }).click();

  const pile = page.getByRole('button', { name: /pile is sewn|papers? sewn$/ });
  const round = page.getByText(/^Round \d+ of \d+/);
  await pile.click();
  await expect(page.getByText('done', { exact: true }).first()).toBeVisible();
  const sewn = await page.getByText(/of \d+ patches/).textContent();

  // A paper is found by the code printed on it, as a camera would read it, and can be begun again.
  const code = await page.locator('.sew-where-row .sew-soft').first().textContent();
  await page.getByRole('button', { name: 'Scan' }).click();
  await page.getByLabel('Or type the short code beside it').fill('nothing');
  await page.getByRole('button', { name: 'Find', exact: true }).click();
  await expect(page.getByText('No paper in work has the code ‘nothing’.')).toBeVisible();
  await page.getByLabel('Or type the short code beside it').fill(code!);
  await page.getByRole('button', { name: 'Find', exact: true }).click();
  await expect(page.getByText('2 of 8 papers')).toBeVisible();
  await page.getByRole('searchbox').fill('');
  await page.evaluate(() => {
    location.hash = '#paper=b1%2FA%2F1';
  });
  await expect(page.getByRole('dialog', { name: 'Lighthouse, A, copy 1' })).toBeVisible();
  await page.keyboard.press('Escape');

  // An edit of a block in work, undone and done again, takes nothing back; nor does a reload.
  await page.keyboard.press('Alt+1');
  await page
    .getByRole('button', { name: /^Lighthouse/ })
    .first()
    .click();
  await page.keyboard.press('Control+z');
  await page.keyboard.press('Alt+5');
  await expect(page.getByText(sewn!.trim())).toBeVisible();
  await expect(page.getByText('Saved in this browser')).toBeAttached();
  await page.reload();
  await expect(page.getByRole('navigation', { name: 'Places' })).toBeVisible();
  await page.keyboard.press('Alt+5');
  await expect(page.getByText(sewn!.trim())).toBeVisible();

  for (let k = 0; k < 40 && !(await page.getByText('Every paper is sewn').isVisible()); k++) {
    const before = await round.textContent();
    await pile.click();
    const next = page.getByRole('button', { name: /^On to round/ });
    await expect(next.or(page.getByRole('button', { name: 'All sewn' })).first()).toBeVisible();
    if (await next.isVisible()) await next.click();
    else break;
    await expect(round.or(page.getByText('Every paper is sewn'))).not.toHaveText(before!);
  }
  await expect(page.getByText('100%')).toBeVisible();
  // Joins open in turn; the last tick of each block is its trimming, and takes it from the list.
  const blocks = page.getByRole('region', { name: 'Ready to join' }).getByRole('group');
  await expect(blocks).toHaveCount(4);
  for (let left = 4; left > 0; left--) {
    const steps = await blocks.first().getByRole('checkbox').count();
    for (let k = 0; k < steps; k++) await blocks.first().getByRole('checkbox').nth(k).click();
    await expect(blocks).toHaveCount(left - 1);
  }
  await expect(page.getByText('4 of 4 blocks trimmed')).toBeVisible();
});

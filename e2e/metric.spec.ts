import { expect, test } from '@playwright/test';
import { openApp } from './window.ts';

/** `6 in`, `1/4 in`, `2 inches`; not `in 3 places`. */
const INCHES = /\d\s?(?:in|yd)(?![\p{L}])(?!\s+(?:the|all|a|this|it|one|each)\b)|inch|yard/iu;

test('in a metric project no screen, menu or finding speaks of inches', async ({ page }) => {
  await openApp(page);
  await page.getByRole('button', { name: 'Menu' }).click();
  await page.getByRole('radio', { name: 'Millimetres' }).check();
  await page.keyboard.press('Escape');
  const told: string[] = [];
  const look = async (where: string): Promise<void> => {
    const lines = await page
      .locator('body *')
      .evaluateAll((all) =>
        all.flatMap((one) => (one.children.length === 0 && one.checkVisibility() ? [one.textContent] : [])),
      );
    const titles = await page
      .locator('[title], [aria-label]')
      .evaluateAll((all) =>
        all.map((one) => `${one.getAttribute('title')} ${one.getAttribute('aria-label')}`),
      );
    const values = await page
      .locator('input, select')
      .evaluateAll((all) => all.map((one) => (one as HTMLInputElement).value));
    for (const line of [...lines, ...titles, ...values])
      if (INCHES.test(line)) told.push(`${where}: ${line}`);
  };
  for (const name of ['Lighthouse', 'Gull over waves']) {
    await page.locator('.block-open').filter({ hasText: name }).click();
    await page.locator('.check-panel details:not([open]) > summary').evaluateAll((all) => {
      for (const one of all) (one as HTMLElement).click();
    });
    await look(name);
  }
  for (const place of ['Quilt', 'Fabric', 'Paper', 'Sew']) {
    await page.getByRole('button', { name: place, exact: true }).click();
    await expect(page.locator('main')).toBeVisible();
    await expect(page.locator('[aria-busy="true"]')).toHaveCount(0);
    await look(place);
    if (place === 'Quilt')
      for (const task of ['Join', 'Finish', 'Print']) {
        const tab = page.locator('.quilt-tasks').getByRole('radio', { name: new RegExp(task) });
        if ((await tab.count()) > 0) {
          await tab.check();
          await look(`Quilt, ${task}`);
        }
      }
  }
  expect(told).toEqual([]);
});

import { expect, type Locator, type Page, test } from '@playwright/test';
import { UNSEWABLE } from '../tests/designs/unsewable.ts';
import { drawingBoard, dropFile, numbers, openApp, verdict } from './window.ts';

const mends = (page: Page): Locator => page.locator('.repair', { hasText: /^Make it sewable/ });

/** All ways are known: until then a better one may take the place of the first. */
const settled = (page: Page): Promise<void> =>
  expect(page.locator('section[aria-labelledby="repairs-title"]')).toHaveAttribute('aria-busy', 'false');

const undo = (page: Page): Locator => page.getByRole('button', { name: /^Undo/ });

const file = (): string =>
  JSON.stringify({
    format: 'underpaper',
    version: 1,
    name: 'What straight seams do not sew',
    blocks: UNSEWABLE.map(({ name, outline, cuts }, k) => ({ id: `b${k + 1}`, name, outline, cuts })),
  });

async function open(page: Page, name: string): Promise<void> {
  await page.locator('.block-open', { hasText: name }).first().click();
  await expect(drawingBoard(page)).toHaveAccessibleName(`Drawing of ${name}`);
  await expect(page.locator('.seam-check')).toHaveAttribute('aria-busy', 'false');
}

test('drawings that straight seams do not sew are each mended in one press, the picture kept', async ({
  page,
}) => {
  test.setTimeout(300_000);
  await openApp(page);
  await dropFile(page, 'unsewable.underpaper.json', file());
  await expect(page.getByLabel('Project name')).toHaveValue('What straight seams do not sew');
  for (const { name } of UNSEWABLE) {
    await open(page, name);
    await expect(verdict(page)).toContainText('Cannot be joined with straight seams');
    const [before] = (await numbers(page).textContent())!.match(/^\d+/)!;
    const first = page.locator('.repair').first();
    await expect(first).toContainText('Make it sewable, picture kept:', { timeout: 60_000 });
    await settled(page);
    const told = (await first.textContent())!.match(/on, (\d+) patches on (\d+) foundation/)!;
    await first.click();
    await expect(verdict(page)).toContainText(
      told[2] === '1' ? 'Sews on one foundation' : `Sews on ${told[2]} foundations`,
    );
    await expect(numbers(page)).toContainText(`${told[1]} patches`);
    expect(Number(told[1])).toBeGreaterThan(Number(before));
  }
});

test('a mend is shown before it is made, stands beside others in kind, and is one step', async ({ page }) => {
  await openApp(page);
  await dropFile(page, 'unsewable.underpaper.json', file());
  await open(page, 'Harbour star');
  await expect(numbers(page)).toContainText('16 patches');
  const even = mends(page).filter({ hasText: 'symmetric' });
  await expect(even).toContainText('4 lines on, 24 patches on 8 foundations.', { timeout: 60_000 });
  await even.hover();
  await expect(page.getByTestId('proposal-line')).toContainText('othing has changed yet');
  await expect(numbers(page)).toContainText('16 patches');
  await even.click();
  await expect(verdict(page)).toContainText('Sews on 8 foundations');
  await expect(undo(page)).toHaveAccessibleName(/^Undo make it sewable and symmetric, picture kept/);
  await page.keyboard.press('Control+z');
  await expect(numbers(page)).toContainText('16 patches');
  await expect(mends(page).first()).toBeVisible();
});

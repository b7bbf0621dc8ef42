import AxeBuilder from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';
import { addSquare, drag, openApp } from './window.ts';

/** Rules of WCAG 2.2 A and AA, as axe-core tests them. */
const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

async function expectNoViolations(page: Page): Promise<void> {
  const { violations } = await new AxeBuilder({ page }).withTags(TAGS).analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join('\n  ')}`)).toEqual(
    [],
  );
}

for (const colorScheme of ['light', 'dark'] as const) {
  test.describe(`in the ${colorScheme} theme`, () => {
    test.use({ colorScheme });

    test('the Block place', async ({ page }) => {
      await openApp(page);
      await expectNoViolations(page);
      // With trouble found, a cut chosen and the lists unfolded.
      await addSquare(page, 'Whirlpool');
      await drag(page, [2, 0], [2, 4]);
      await drag(page, [0, 4], [4, 4]);
      await drag(page, [4, 6], [4, 2]);
      await drag(page, [6, 2], [2, 2]);
      await drag(page, [1, 5], [2, 5]);
      await page.getByText('Lines (5)').click();
      await page.getByText('Patches (5)').click();
      await expectNoViolations(page);
    });

    test('its dialogs, the menu and a notice', async ({ page }) => {
      await openApp(page);
      await page.getByRole('button', { name: 'Add a block' }).click();
      await expectNoViolations(page);
      await page.getByLabel('Side').fill('much');
      await expectNoViolations(page);
      await page.keyboard.press('Escape');
      await page.getByRole('button', { name: 'Help' }).click();
      await expectNoViolations(page);
      await page.keyboard.press('Escape');
      await page.getByRole('button', { name: 'Menu' }).click();
      await expectNoViolations(page);
      await page.getByRole('button', { name: 'New project' }).click();
      await expect(page.getByRole('heading', { name: 'Begin with a block' })).toBeVisible();
      await expectNoViolations(page);
    });

    test('the Fabric place, and the proof of a patch', async ({ page }) => {
      await openApp(page);
      await page.getByRole('button', { name: 'Fabric', exact: true }).click();
      await expect(page.locator('.fabric-desk[data-thorough=true]')).toBeVisible();
      await expectNoViolations(page);
      await page.locator('.piece-patch').first().click();
      await expect(page.getByText(/^It covers/)).toBeVisible();
      await expectNoViolations(page);
    });

    test('the Quilt place, every task of it', async ({ page }) => {
      await openApp(page);
      await page.getByRole('button', { name: 'Quilt', exact: true }).click();
      await expect(page.locator('.quilt-size')).toContainText('58 places');
      for (const task of ['Set', 'Join', 'Finish', 'Print']) {
        await page.getByLabel(task, { exact: true }).check({ force: true });
        await expectNoViolations(page);
      }
    });

    test('the Paper place', async ({ page }) => {
      await openApp(page);
      await page.getByRole('button', { name: 'Paper', exact: true }).click();
      await expect(page.getByText(/^\d+ foundations? on \d+ sheets?$/)).toBeVisible();
      await expectNoViolations(page);
    });
  });
}

test('targets are at least 24 px, and 44 px for a finger', async ({ browser }) => {
  // WCAG 2.2, 2.5.8 target size (minimum) and 2.5.5 (enhanced).
  for (const [hasTouch, least] of [
    [false, 24],
    [true, 44],
  ] as const) {
    const context = await browser.newContext({
      hasTouch,
      isMobile: hasTouch,
      viewport: { width: 1024, height: 768 },
    });
    const page = await context.newPage();
    await openApp(page);
    const small = await page.evaluate(
      (px) =>
        [...document.querySelectorAll<HTMLElement>('button, select, summary, input:not([type="radio"])')]
          .filter((element) => element.checkVisibility())
          .map((element) => ({
            name: element.ariaLabel ?? element.textContent,
            box: element.getBoundingClientRect(),
          }))
          .filter(({ box }) => box.width > 0 && (box.width < px - 0.5 || box.height < px - 0.5))
          .map(({ name, box }) => `${name}: ${box.width.toFixed(0)} × ${box.height.toFixed(0)}`),
      least,
    );
    expect(small).toEqual([]);
    await context.close();
  }
});

for (const [width, height] of [
  [1440, 900],
  [1024, 768],
  [820, 1180],
] as const) {
  test(`nothing is cut at ${width} × ${height}`, async ({ page }) => {
    await page.setViewportSize({ width, height });
    await openApp(page);
    const overflow = await page.evaluate(() => ({
      page: document.documentElement.scrollWidth - document.documentElement.clientWidth,
      parts: [...document.querySelectorAll<HTMLElement>('header, section, .check-panel, button')]
        .filter((element) => element.checkVisibility() && !element.closest('.only-heard, .block-list'))
        .filter((element) => {
          const { left, right } = element.getBoundingClientRect();
          return left < -0.5 || right > window.innerWidth + 0.5;
        })
        .map((element) => element.outerHTML.slice(0, 80)),
    }));
    expect(overflow).toEqual({ page: 0, parts: [] });
  });
}

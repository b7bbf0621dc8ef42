import { expect, type Page, test } from '@playwright/test';
import { drawingBoard } from './window.ts';

/**
 * WCAG 2.2, 1.4.10: at 320 CSS pixels, which is a window of 1,280 enlarged four times, nothing has to be scrolled both
 * ways, and every control can be brought into sight. German has the longer words.
 */
const unreachable = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() => {
    const found = new Set<string>();
    const nameOf = (one: Element): string =>
      `${one.className} ${one.getAttribute('aria-label') ?? one.textContent ?? ''}`.slice(0, 60);
    const scrollsAcross = (one: Element): boolean => {
      for (let around = one.parentElement; around !== null; around = around.parentElement)
        if (
          /auto|scroll/.test(getComputedStyle(around).overflowX) &&
          around.scrollWidth > around.clientWidth + 1
        )
          return true;
      return false;
    };
    const isShown = (one: Element): boolean => {
      const { width, height } = one.getBoundingClientRect();
      return one.checkVisibility({ visibilityProperty: true }) && width > 0 && height > 0;
    };
    if (document.scrollingElement!.scrollWidth > innerWidth + 1) found.add('The page scrolls across.');
    const screen = document.querySelector('dialog[open]') ?? document;
    for (const one of screen.querySelectorAll('button, a, input, select, summary, textarea, h1, h2, h3, p')) {
      if (!isShown(one) || one.closest('.only-heard') !== null) continue;
      const { left, right } = one.getBoundingClientRect();
      if ((left < -1 || right > innerWidth + 1) && !scrollsAcross(one))
        found.add(`Past the edge: ${nameOf(one)}`);
      if (!one.matches('button, a, input, select, summary, textarea')) continue;
      one.scrollIntoView({ block: 'nearest', inline: 'nearest' });
      const at = one.getBoundingClientRect();
      const [x, y] = [(at.left + at.right) / 2, (at.top + at.bottom) / 2];
      if (x < 0 || y < 0 || x > innerWidth || y > innerHeight) found.add(`Out of reach: ${nameOf(one)}`);
    }
    return [...found];
  });

for (const [width, height] of [
  [320, 640],
  [640, 400],
  [1024, 768],
] as const)
  test.describe(`at ${width} × ${height}`, () => {
    test.use({ viewport: { width, height }, locale: 'de-DE' });

    test('every control of every place and dialog can be reached, and nothing runs past the edge', async ({
      page,
    }) => {
      await page.goto('/');
      await expect(drawingBoard(page)).toBeVisible();
      const places = page.getByRole('navigation').getByRole('button');
      for (const place of await places.all()) {
        await place.click();
        await expect(page.locator('main')).toBeVisible();
        await expect(page.locator('[aria-busy="true"]')).toHaveCount(0);
        expect([await place.textContent(), await unreachable(page)]).toEqual([await place.textContent(), []]);
      }
      await places.first().click();
      const dialog = page.getByRole('dialog');
      for (const name of ['Aus dem Regal', 'Block hinzufügen', 'Block aus einem Bild machen']) {
        await page.getByRole('button', { name, exact: true }).first().click();
        await expect(dialog).toBeVisible();
        expect([name, await unreachable(page)]).toEqual([name, []]);
        await page.keyboard.press('Escape');
      }
      for (const name of ['Projekte…', 'Frühere Stände…', 'Teilen…']) {
        await page.getByRole('button', { name: 'Menü' }).click();
        await page.getByRole('button', { name, exact: true }).click();
        await expect(dialog).toBeVisible();
        expect([name, await unreachable(page)]).toEqual([name, []]);
        await page.keyboard.press('Escape');
      }
      await page.getByRole('button', { name: 'Hilfe', exact: true }).click();
      expect(await unreachable(page)).toEqual([]);
    });
  });

import AxeBuilder from '@axe-core/playwright';
import { expect, type Locator, type Page, test } from '@playwright/test';
import { addSquare, drag, dragTo, dropFile, onScreen, openApp, verdict } from './window.ts';

const repairs = (page: Page): Locator => page.locator('.repair:not(.repair-awaited)');

const undo = (page: Page): Locator => page.getByRole('button', { name: /^Undo/ });

/** What the drawing looks like now. */
const picture = (page: Page): Promise<Buffer> => page.locator('.drawing-board').screenshot();

test('the ring of the Lifebuoy is explained, and opened by the first repair, with the mouse', async ({
  page,
}) => {
  await openApp(page);
  await page.getByRole('button', { name: /^Lifebuoy/ }).click();
  await expect(verdict(page)).toContainText('Cannot be joined with straight seams');
  const ring = page.locator('.finding-trouble');
  // Five patches in a spiral: each of its four lines stops at the next (common practice; the smallest such).
  await expect(ring).toContainText('Each of 4 lines stops at the next');
  // Fewest patches, and symmetric: what adds as many patches on no fewer papers is not offered beside them.
  await expect(repairs(page)).toHaveCount(2);

  // Pointed at, the ring is drawn over the block; the repair shows what it would draw. Neither changes anything.
  await page.mouse.move(...(await onScreen(page, -0.5, -0.5)));
  const plain = await picture(page);
  await ring.hover();
  await expect(ring).toHaveAttribute('data-lit', 'true');
  await expect.poll(async () => (await picture(page)).equals(plain)).toBe(false);
  const first = repairs(page).first();
  await expect(first).toContainText('6 patches on 2 foundations');
  await first.hover();
  await expect(first).toHaveAttribute('data-lit', 'true');
  await expect(page.getByTestId('proposal-line')).toContainText(
    '1 set-in corner → all straight; 2 foundations; 5 → 6 patches',
  );
  await expect.poll(async () => (await picture(page)).equals(plain)).toBe(false);
  await expect(verdict(page)).toContainText('Cannot be joined');
  await page.mouse.move(...(await onScreen(page, -0.5, -0.5)));
  await expect.poll(async () => (await picture(page)).equals(plain)).toBe(true);
  await expect(undo(page)).toHaveAttribute('aria-disabled', 'true');

  await first.click();
  await expect(verdict(page)).toHaveText('Sews on 2 foundations, the fewest possible.');
  await expect(page.locator('.numbers')).toContainText('6 patches');
  await expect(page.getByRole('heading', { name: 'What would help' })).toBeHidden();
  await page.keyboard.press('Control+z');
  await expect(verdict(page)).toContainText('Cannot be joined');
  await expect(repairs(page)).toHaveCount(2);
  await expect(undo(page)).toHaveAttribute('aria-disabled', 'true');
});

test('the same by keyboard alone', async ({ page }) => {
  await openApp(page);
  const open = page.getByRole('button', { name: /^Lifebuoy/ });
  await tabTo(page, /^Lighthouse/);
  for (let presses = 0; presses < 20; presses++) {
    await page.keyboard.press('ArrowDown');
    if (await open.evaluate((element) => element === document.activeElement)) break;
  }
  await page.keyboard.press('Enter');
  await expect(verdict(page)).toContainText('Cannot be joined with straight seams');
  await expect(repairs(page)).toHaveCount(2);
  await tabTo(page, /^1Problem/);
  await expect(page.locator('.finding-trouble')).toHaveAttribute('data-lit', 'true');
  await page.keyboard.press('Tab');
  await expect(repairs(page).first()).toBeFocused();
  await expect(repairs(page).first()).toHaveAttribute('data-lit', 'true');
  await page.keyboard.press('Enter');
  await expect(verdict(page)).toHaveText('Sews on 2 foundations, the fewest possible.');
  await expect(verdict(page)).toBeFocused();
  await expect(page.getByTestId('spoken-verdict')).toContainText('Sews on 2 foundations');
  await page.keyboard.press('Control+z');
  await expect(verdict(page)).toContainText('Cannot be joined');
});

test('a loose end is mended by its repair, in one step', async ({ page }) => {
  await openApp(page);
  await addSquare(page, 'Jetty');
  await drag(page, [0, 3], [6, 3]);
  await drag(page, [2, 0], [2, 4]);
  await expect(page.locator('.finding-caution')).toContainText('ends in the middle of a patch');
  await expect(page.getByRole('heading', { name: 'What would help' })).toBeVisible();
  await repairs(page).filter({ hasText: 'Pull the lower end of line 2 back to line 1' }).click();
  await expect(page.locator('.finding-caution')).toHaveCount(0);
  await expect(page.locator('.numbers')).toHaveText('3 patches, no joins.');
  await expect(undo(page)).toHaveAccessibleName(/^Undo pull the lower end of line 2 back to line 1/);
});

test('nothing is said of repairs where there is nothing to mend', async ({ page }) => {
  await openApp(page);
  await addSquare(page, 'Pennant');
  await drag(page, [0, 3], [6, 3]);
  await expect(verdict(page)).toHaveText('Sews on one foundation.');
  await page.waitForTimeout(800);
  await expect(page.getByText('What would help')).toBeHidden();
  await expect(page.getByText('Could be simpler')).toBeHidden();
});

test('what the check looks for is set in the project, undone and put back', async ({ page }) => {
  await openApp(page);
  await page.getByRole('button', { name: /^Gull over waves/ }).click();
  await page.getByText(/^Notes/).click();
  // Those of a kind stand under one title, with their numbers, and each can be reached.
  const shadowing = page.locator('summary', { hasText: /^Shadowing: \d+ places$/ });
  const places = Number.parseInt((await shadowing.textContent())!.replace(/\D+/, ''), 10);
  await shadowing.click();
  await expect(page.locator('.finding-group details[open] .finding')).toHaveCount(places);
  const place = page.getByRole('list', { name: 'Places: Shadowing' }).getByRole('button').first();
  await place.focus();
  await expect(page.locator('.finding-group details[open] .finding').first()).toHaveAttribute(
    'data-lit',
    'true',
  );

  await page.getByRole('button', { name: 'What the check looks for', exact: true }).click();
  const dialog = page.getByRole('dialog', { name: 'What the check looks for' });
  const { violations } = await new AxeBuilder({ page }).include('.check-settings').analyze();
  expect(violations.map(({ id }) => id)).toEqual([]);
  await dialog.getByLabel('Shadowing').selectOption('trouble');
  await expect(dialog.getByRole('status')).toHaveText('1 changed.');
  await page.keyboard.press('Escape');
  await expect(page.getByRole('heading', { name: `Problems (${places})` })).toBeVisible();
  await page.getByRole('button', { name: 'What the check looks for', exact: true }).click();
  await dialog.getByLabel('Shadowing').selectOption('off');
  await page.keyboard.press('Escape');
  await expect(page.getByText('Shadowing')).toHaveCount(0);
  await page.getByRole('button', { name: 'What the check looks for', exact: true }).click();
  await dialog.getByRole('button', { name: 'Reset to defaults' }).click();
  await expect(dialog.getByRole('status')).toHaveText('All are at their defaults.');
  await page.keyboard.press('Escape');
  await page.keyboard.press('Control+z');
  await page.keyboard.press('Control+z');
  await expect(page.getByRole('heading', { name: `Problems (${places})` })).toBeVisible();
});

/** A quay wall of 20 courses with ten bricks each: by construction 200 patches, and each course one foundation. */
function quayWall(): string {
  const cuts: { id: string; from: number[]; to: number[] }[] = [];
  const draw = (from: number[], to: number[]): unknown => cuts.push({ id: `c${cuts.length + 1}`, from, to });
  for (let row = 1; row < 20; row++) draw([0, row], [20, row]);
  for (let row = 0; row < 20; row++)
    for (let k = 1; k < 10; k++) {
      const x = 2 * k + (row % 2 === 0 ? -0.25 : 0.5);
      draw([x, row], [x, row + 1]);
    }
  const outline = [
    [0, 0],
    [20, 0],
    [20, 20],
    [0, 20],
  ];
  return JSON.stringify({
    format: 'underpaper',
    version: 1,
    name: 'Quay',
    blocks: [{ id: 'b1', name: 'Quay wall', outline, cuts }],
  });
}

interface Glimpse {
  readonly isBusy: boolean;
  readonly isSaid: boolean;
  readonly text: string;
}

declare global {
  interface Window {
    glimpses: Glimpse[];
  }
}

/** Writes down every state the seam check is seen in. */
async function watchCheck(page: Page): Promise<void> {
  await page.evaluate(() => {
    window.glimpses = [];
    const look = (): void => {
      const check = document.querySelector('.seam-check');
      const glimpse = {
        isBusy: check?.getAttribute('aria-busy') === 'true',
        isSaid: check?.querySelector<HTMLElement>('.updating')?.dataset.on === 'true',
        text: check?.querySelector('.numbers')?.textContent ?? '',
      };
      if (JSON.stringify(glimpse) !== JSON.stringify(window.glimpses.at(-1))) window.glimpses.push(glimpse);
    };
    new MutationObserver(look).observe(document.body, {
      subtree: true,
      childList: true,
      attributes: true,
      characterData: true,
    });
  });
}

test('a large block is pieced beside the drawing: the last plan stays, marked, until the newest edit has its own', async ({
  page,
}) => {
  await openApp(page);
  await dropFile(page, 'quay.underpaper.json', quayWall());
  await expect(page.getByLabel('Project name')).toHaveValue('Quay');
  await expect(page.locator('.numbers')).toContainText('200 patches');
  await expect(verdict(page)).toHaveText('Sews on 20 foundations, the fewest possible.');

  await watchCheck(page);
  await page.getByRole('button', { name: 'Line (C)' }).click();
  // Down through all courses: one brick more in each that it passes, so that every moment of the drag is another plan.
  await dragTo(page, [1, 0], [1, 20]);
  await page.mouse.up();
  await expect(page.locator('.numbers')).toContainText('220 patches');
  await expect(page.locator('.seam-check')).toHaveAttribute('aria-busy', 'false');
  await expect(page.getByText('being updated')).toBeHidden();
  await expect(verdict(page)).toHaveText('Sews on 20 foundations, the fewest possible.');

  const glimpses = await page.evaluate(() => window.glimpses);
  const busy = glimpses.filter(({ isBusy }) => isBusy);
  expect(busy.length).toBeGreaterThan(0);
  expect(glimpses.every(({ isBusy, isSaid }) => isBusy === isSaid)).toBe(true);
  // While a plan is on its way the one before it is there to be read.
  expect(busy[0]!.text).toContain('200 patches');
  expect(glimpses.at(-1)).toMatchObject({ isBusy: false, isSaid: false });
  // Plans come in the order of the drawing: bricks are never taken back.
  const counts = glimpses.map(({ text }) => Number.parseInt(text, 10));
  expect(counts).toEqual([...counts].sort((a, b) => a - b));

  // Taken back, the plan that is known already is there at once.
  await page.keyboard.press('Control+z');
  await expect(page.locator('.numbers')).toContainText('200 patches');
});

test('where the worker cannot be had, plans and repairs are made all the same', async ({ page }) => {
  let refused = 0;
  await page.route('**/piecing-worker*', (route) => {
    refused++;
    return route.abort();
  });
  await openApp(page);
  await page.getByRole('button', { name: /^Lifebuoy/ }).click();
  await expect(repairs(page)).toHaveCount(2);
  await dropFile(page, 'quay.underpaper.json', quayWall());
  await expect(page.locator('.numbers')).toContainText('200 patches');
  expect(refused).toBe(1);
});

/** Presses Tab until the thing whose words begin so has the keyboard. */
async function tabTo(page: Page, words: RegExp): Promise<void> {
  for (let presses = 0; presses < 120; presses++) {
    await page.keyboard.press('Tab');
    const here = await page.evaluate(() => {
      const element = document.activeElement;
      return element?.getAttribute('aria-label') ?? element?.textContent ?? '';
    });
    if (words.test(here)) return;
  }
  throw new Error(`The keyboard never came to ${words}.`);
}

import { expect, type Page, test } from '@playwright/test';
import { addSquare, drag, drawingBoard, numbers, onScreen, openApp, verdict } from './window.ts';

/** How fast a hand goes: half a second to a place, and a short rest before and after each press. Milliseconds. */
const REACH_MS = 500;
const REST_MS = 150;
const STEPS = 20;

async function goTo(page: Page, from: [number, number], to: [number, number]): Promise<void> {
  for (let step = 1; step <= STEPS; step++) {
    const share = step / STEPS;
    await page.mouse.move(from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share);
    await page.waitForTimeout(REACH_MS / STEPS);
  }
}

test('four flying geese, twelve patches, are drawn by hand in under a minute', async ({ page }) => {
  await openApp(page);
  const begun = Date.now();
  await page.getByRole('button', { name: 'Add a block' }).click();
  await page.getByRole('radio', { name: 'Rectangle' }).check();
  await page.getByLabel('Name', { exact: true }).fill('Flying geese');
  await page.getByLabel('Width').fill('6');
  await page.getByLabel('Height').fill('12');
  await page.getByRole('button', { name: 'Add block' }).click();
  await expect(drawingBoard(page)).toHaveAccessibleName('Drawing of Flying geese');

  // Four rows of 3 in, a goose of 6 by 3 in each: two slants from the middle of its top to its lower corners.
  let hand: [number, number] = await onScreen(page, 0, 0);
  const rows = [0, 3, 6, 9];
  const lines: readonly (readonly [number, number, number, number])[] = [
    ...rows.slice(1).map((y) => [0, y, 6, y] as const),
    ...rows.flatMap((y) => [[3, y, 0, y + 3] as const, [3, y, 6, y + 3] as const]),
  ];
  for (const [fromX, fromY, toX, toY] of lines) {
    const from = await onScreen(page, fromX, fromY);
    const to = await onScreen(page, toX, toY);
    await goTo(page, hand, from);
    await page.waitForTimeout(REST_MS);
    await page.mouse.down();
    await goTo(page, from, to);
    await page.mouse.up();
    await page.waitForTimeout(REST_MS);
    hand = to;
  }
  await expect(numbers(page)).toHaveText('12 patches, no joins.');
  expect(Date.now() - begun).toBeLessThan(60_000);
  // A strip of flying geese is sewn on one foundation from one end to the other: common practice.
  await expect(verdict(page)).toHaveText('Sews on one foundation.');
});

/** The palette takes what is typed once it has the focus. */
async function openPalette(page: Page): Promise<void> {
  await expect(page.getByRole('dialog')).toHaveCount(0);
  await page.keyboard.press('Control+k');
  await expect(page.getByRole('dialog').getByRole('combobox')).toBeFocused();
}

/** Presses a key several times. */
async function press(page: Page, key: string, times = 1): Promise<void> {
  for (let time = 0; time < times; time++) await page.keyboard.press(key);
}

test('a pinwheel of twelve patches is drawn with the keyboard alone, by symmetry and typed numbers', async ({
  page,
}) => {
  await openApp(page);
  await page.keyboard.press('Control+Alt+b');
  const told = page.locator('.desk').getByRole('status');
  await openPalette(page);
  await page.keyboard.type('cut c');
  await page.keyboard.press('Escape');
  await openPalette(page);
  await page.keyboard.type('measure');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('button', { name: 'Measure (M)' })).toHaveAttribute('aria-pressed', 'true');
  await page.keyboard.press('c');
  // None, two mirrors, both, diagonals, half turn, quarter turns.
  await press(page, 's', 6);
  await expect(told).toHaveText('Symmetry: Quarter turns');

  await drawingBoard(page).focus();
  await page.keyboard.press('n');
  await expect(told).toHaveText('0, 0 in, corner');
  await page.keyboard.press('Enter');
  await press(page, 'Control+ArrowRight', 3);
  await press(page, 'Control+ArrowDown', 3);
  await page.keyboard.press('Enter');
  await expect(told).toContainText('4 cuts with its images.');
  await press(page, 'Control+ArrowUp', 3);
  await page.keyboard.press('Enter');
  await page.keyboard.type('3');
  await page.keyboard.press('Tab');
  await page.keyboard.type('270');
  await page.keyboard.press('Enter');
  await expect(told).toContainText('3 in long. 4 cuts with its images.');
  await expect(numbers(page)).toContainText('8 patches');
  await page.keyboard.press('Enter');
  await press(page, 'Control+ArrowLeft');
  await press(page, 'ArrowLeft', 2);
  await press(page, 'Control+ArrowDown');
  await press(page, 'ArrowDown', 2);
  await page.keyboard.press('Enter');
  await expect(numbers(page)).toContainText('12 patches');
});

test('a cut is set by numbers, a line drawn beside it, and each is one step of the history', async ({
  page,
}) => {
  await openApp(page);
  await addSquare(page, 'Mooring');
  await drag(page, [0, 2], [6, 2]);
  const card = page.getByRole('region', { name: 'Chosen' });
  await card.getByLabel('End down').fill('92 mm');
  await page.keyboard.press('Enter');
  await expect(card.getByLabel('End down')).toHaveValue('3.622 in');
  await card.getByLabel('Angle').fill('0');
  await page.keyboard.press('Enter');
  await expect(card.getByLabel('Angle')).toHaveValue('0°');
  await card.getByLabel('Length').fill('6');
  await page.keyboard.press('Enter');
  await card.getByLabel('Length').fill('long');
  await page.keyboard.press('Enter');
  await expect(card.getByRole('alert')).toContainText('long');
  await page.keyboard.press('Escape');

  await openPalette(page);
  await page.keyboard.type('lines beside');
  await page.keyboard.press('Enter');
  await expect(page.getByLabel('Distance')).toBeFocused();
  await page.keyboard.type('1 1/2');
  // The drawing shows it before it is done.
  await expect(numbers(page)).toHaveText('3 patches, no joins.');
  await page.keyboard.press('Escape');
  await expect(numbers(page)).toHaveText('2 patches, no joins.');
  await openPalette(page);
  await page.keyboard.type('lines beside');
  await page.keyboard.press('Enter');
  await expect(page.getByLabel('Distance')).toBeFocused();
  await page.keyboard.type('1 1/2');
  await page.keyboard.press('Tab');
  await page.keyboard.type('2');
  await page.keyboard.press('Enter');
  await expect(numbers(page)).toHaveText('4 patches, no joins.');
  await page.keyboard.press('Control+z');
  await expect(numbers(page)).toHaveText('2 patches, no joins.');
});

test('cuts are boxed, copied to another block, locked, and the block turned', async ({ page }) => {
  await openApp(page);
  await addSquare(page, 'Cleat');
  await drag(page, [0, 2], [6, 2]);
  await drag(page, [2, 2], [2, 6]);
  await page.keyboard.press('v');
  await drag(page, [5.5, 5.5], [0.5, 0.5]);
  await expect(page.locator('.chosen-card')).toContainText('2 cuts');
  await page.keyboard.press('Control+c');
  await addSquare(page, 'Bollard');
  await drawingBoard(page).focus();
  await page.keyboard.press('Control+v');
  await expect(numbers(page)).toHaveText('3 patches, no joins.');
  await page.keyboard.press('l');
  await page.keyboard.press('Delete');
  await expect(numbers(page)).toHaveText('3 patches, no joins.');
  await page.getByText('Cuts (2)').click();
  await expect(
    page.getByRole('button', { name: /^Cut 1, from left edge 2 in down to right edge 2 in down.*locked$/ }),
  ).toBeVisible();
  await openPalette(page);
  await page.keyboard.type('turn the block left');
  await page.keyboard.press('Enter');
  await expect(
    page.getByRole('button', { name: /^Cut 1, from bottom edge 2 in across to top edge 2 in across/ }),
  ).toBeVisible();
});

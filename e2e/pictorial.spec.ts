import { expect, type Page, test } from '@playwright/test';
import {
  drag,
  dragTo,
  drawingBoard,
  numbers,
  onScreen,
  openApp,
  takeFabricByKeys,
  verdict,
} from './window.ts';

/*
 * A pictorial block of 52 patches, a gull over waves on 12 by 12 in, drawn from an empty sheet: once with the pointer,
 * once with the keyboard alone. Every line begins and ends on a quarter inch.
 */

type Line = readonly [number, number, number, number];
type Place = readonly [number, number];

const SIDE = 12;
const acrossFrom = ([x1, y1, x2, y2]: Line): Line => [SIDE - x1, y1, SIDE - x2, y2];

/** Horizon, the gull's body band, the middle of the sky, haze, and the troughs between the waves. */
const BANDS: readonly Line[] = [
  [0, 7.5, 12, 7.5],
  [0, 4.5, 12, 4.5],
  [0, 6, 12, 6],
  [6, 0, 6, 4.5],
  [0, 7, 12, 6.5],
  [0, 9, 12, 9],
  [0, 10.5, 12, 10.5],
];

const WING: readonly Line[] = [
  [6, 2.5, 0, 0.5],
  [6, 4.5, 0, 1.5],
  [1.5, 1, 1, 2],
  [3, 1.5, 3, 3],
  [4.5, 2, 4, 3.5],
  [4.25, 2.75, 6, 3.5],
];

const BODY: readonly Line[] = [
  [2.5, 4.5, 2, 6],
  [4, 4.5, 3.5, 6],
  [8, 4.5, 8.5, 6],
  [9.5, 4.5, 9.5, 6],
  [9.5, 4.75, 12, 6],
  [9.5, 5.5, 11, 5.5],
  [3.75, 5.25, 8.5, 6],
  [2.25, 5.25, 3.75, 5.25],
];

/** Eight slants, up and down by turns, across a band of 1 1/2 in. */
function waves(top: number, beginsLow: boolean): readonly Line[] {
  return Array.from({ length: 8 }, (_, index): Line => {
    const [from, to] = (index % 2 === 0) === beginsLow ? [top + 1.5, top] : [top, top + 1.5];
    return [index * 1.5, from, index * 1.5 + 1.5, to];
  });
}

const GULL: readonly Line[] = [
  ...BANDS,
  ...WING,
  ...WING.map(acrossFrom),
  ...BODY,
  ...waves(7.5, true),
  ...waves(9, false),
  ...waves(10.5, true),
];

/** Four places 3 in apart. */
function row(y: number, from: number): Place[] {
  return [0, 1, 2, 3].map((step): Place => [from + step * 3, y]);
}

/** Where each fabric is laid: a place in every patch of it, on the quarter inch. */
const PLACES: readonly (readonly [fabric: string, ...places: Place[]])[] = [
  [
    'Morning sky',
    [3, 0.5],
    [9, 0.5],
    [0.5, 1.25],
    [11.5, 1.25],
    [2, 3.5],
    [10, 3.5],
    [1, 5.25],
    [11.5, 5],
    [10, 5.75],
    [6, 6.25],
  ],
  ['Tar', [2, 1.75], [10, 1.75], [2.75, 5.75]],
  ['Granite', [3.5, 2.25], [8.5, 2.25], [3, 4.75]],
  ['Sailcloth', [5, 3.5], [7, 3.5], [4.5, 5.75]],
  ['Lamp yellow', [9.75, 5.25]],
  ['Evening rose', [6, 7.25]],
  [
    'Foam',
    [5.25, 2.5],
    [6.75, 2.5],
    [5.5, 4.75],
    [8.75, 5],
    [0.25, 7.75],
    [3, 8],
    [6, 8],
    [9, 8],
    [11.75, 7.75],
  ],
  [
    'Harbour water',
    ...row(8.5, 1.5),
    ...row(10, 3).slice(0, 3),
    [0.25, 10.25],
    [11.75, 10.25],
    ...row(11, 3).slice(0, 3),
    [0.25, 10.75],
    [11.75, 10.75],
  ],
  ['Shoal water', ...row(9.5, 1.5)],
  ['Night sea', ...row(11.5, 1.5)],
];

/** Seven papers and six joins; the four bands, both halves of the sky and the beak's end ask for them. */
async function isSewable(page: Page): Promise<void> {
  await expect(numbers(page)).toHaveText(/^52 patches, \d+ joins/);
  await expect(verdict(page)).toHaveText(/^Sews on \d+ foundations/);
  await page.getByText('Patches (52)').click();
  await expect(page.locator('.row-patch', { hasText: 'no fabric' })).toHaveCount(0);
  await page.getByText('Patches (52)').click();
}

test('a gull over waves, 52 patches, is drawn and coloured from scratch with the pointer', async ({
  page,
}) => {
  test.slow();
  await page.setViewportSize({ width: 1440, height: 900 });
  await openApp(page);
  await page.getByRole('button', { name: 'Add a block' }).click();
  await page.getByLabel('Name', { exact: true }).fill('Gull at the bar');
  await page.getByLabel('Side').fill('12');
  await page.getByRole('button', { name: 'Add block' }).click();
  await expect(drawingBoard(page)).toHaveAccessibleName('Drawing of Gull at the bar');

  for (const [index, [x1, y1, x2, y2]] of GULL.entries()) {
    // Both ways of drawing, by turns: a drag, and two clicks.
    if (index % 2 === 0) await drag(page, [x1, y1], [x2, y2]);
    else {
      await page.mouse.click(...(await onScreen(page, x1, y1)));
      await page.mouse.move(...(await onScreen(page, x2, y2)), { steps: 6 });
      await page.mouse.click(...(await onScreen(page, x2, y2)));
    }
  }
  await page.screenshot({ path: test.info().outputPath('drawn.png') });
  const takeFabric = (fabric: string) =>
    page.locator('.swatches').getByRole('button', { name: fabric, exact: true }).click();
  // One stroke lays sky over everything above the horizon on the left; what is not sky is laid over it.
  await takeFabric('Morning sky');
  await dragTo(page, [3, 0.5], [2, 7]);
  await page.mouse.up();
  for (const [fabric, ...places] of PLACES) {
    await takeFabric(fabric);
    for (const place of places) await page.mouse.click(...(await onScreen(page, ...place)));
  }
  await isSewable(page);
  await page.screenshot({ path: test.info().outputPath('coloured.png') });
});

/** Presses Tab until the thing with this name has the keyboard. */
async function tabTo(page: Page, name: string, key = 'Tab'): Promise<void> {
  for (let presses = 0; presses < 120; presses++) {
    await page.keyboard.press(key);
    const here = await page.evaluate(() => {
      const element = document.activeElement;
      return element?.getAttribute('aria-label') ?? element?.textContent ?? '';
    });
    if (here === name) return;
  }
  throw new Error(`The keyboard never came to “${name}”.`);
}

/** A walker for the crosshair: whole inches with Ctrl, quarters without. */
function walker(page: Page, start: Place) {
  let at = start;
  const along = async (axis: 0 | 1, to: number): Promise<void> => {
    const [less, more] = axis === 0 ? ['ArrowLeft', 'ArrowRight'] : ['ArrowUp', 'ArrowDown'];
    let now = at[axis];
    while (now !== to) {
      const forth = to > now;
      const whole = forth ? Math.floor(now) + 1 : Math.ceil(now) - 1;
      const takesWhole = forth ? whole <= to : whole >= to;
      await page.keyboard.press(`${takesWhole ? 'Control+' : ''}${forth ? more : less}`);
      now = takesWhole ? whole : now + (forth ? 0.25 : -0.25);
    }
    at = axis === 0 ? [to, at[1]] : [at[0], to];
  };
  return async ([x, y]: Place): Promise<void> => {
    await along(0, x);
    await along(1, y);
  };
}

test('the same gull is drawn and coloured with the keyboard alone', async ({ page }) => {
  test.slow();
  await page.setViewportSize({ width: 1440, height: 900 });
  await openApp(page);
  await tabTo(page, 'Add a block');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('radio', { name: 'Square' })).toBeFocused();
  await page.keyboard.press('Tab');
  await page.keyboard.press('Control+a');
  await page.keyboard.type('Gull by keys');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Control+a');
  await page.keyboard.type('12');
  await page.keyboard.press('Enter');
  await expect(drawingBoard(page)).toHaveAccessibleName('Drawing of Gull by keys');

  await tabTo(page, 'Drawing of Gull by keys');
  const told = page.locator('.desk').getByRole('status');
  await page.keyboard.press('n');
  await expect(told).toHaveText('0, 0 in, corner');
  const walk = walker(page, [0, 0]);
  for (const [x1, y1, x2, y2] of GULL) {
    await walk([x1, y1]);
    await page.keyboard.press('Enter');
    await walk([x2, y2]);
    await page.keyboard.press('Enter');
  }
  for (const [fabric, ...places] of PLACES) {
    await takeFabricByKeys(page, fabric);
    await tabTo(page, 'Drawing of Gull by keys');
    for (const place of places) {
      await walk(place);
      await page.keyboard.press('Enter');
    }
  }
  await isSewable(page);
  await page.screenshot({ path: test.info().outputPath('by-keys.png') });
});

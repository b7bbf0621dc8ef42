import { type CDPSession, expect, type Page, test } from '@playwright/test';
import { drag, drawingBoard, numbers, onScreen, openApp, takeFabricByKeys, verdict } from './window.ts';

/*
 * Three pictures drawn from nothing and painted, each by another hand: a fox with the pointer, a ship with a finger on a
 * tablet held upright, an eight-pointed star with the keyboard alone. Every line begins and ends on a quarter inch.
 */

type Line = readonly [number, number, number, number];
type Place = readonly [number, number];
type Paint = readonly (readonly [fabric: string, ...places: Place[]])[];

const FOX: readonly Line[] = [
  [0, 4, 12, 4],
  [0, 4, 1.5, 0],
  [1.5, 0, 4, 4],
  [0, 4, 6, 12],
  [4, 4, 6, 12],
  [0, 4, 5, 8],
  [5.5, 10, 6.5, 10],
];
const FOX_PAINT: Paint = [
  ['Night sea', [0.25, 1], [6, 1.5], [1, 10]],
  ['Brick red', [1.75, 2.5], [3.5, 5.25], [6, 7]],
  ['Foam', [4, 8]],
  ['Tar', [6, 10.5]],
];

const SHIP: readonly Line[] = [
  [0, 9, 12, 9],
  [0, 7, 12, 7],
  [6, 0, 6, 7],
  [6, 1, 1.5, 7],
  [6, 2, 10, 7],
  [1, 7, 2.5, 9],
  [11, 7, 9.5, 9],
  [0, 10.5, 12, 10.5],
];
const SHIP_PAINT: Paint = [
  ['Morning sky', [1, 3], [10, 2], [0.5, 8], [11.5, 8]],
  ['Sailcloth', [5, 5]],
  ['Evening rose', [7, 5.5]],
  ['Brick red', [6, 8]],
  ['Harbour water', [6, 9.75]],
  ['Night sea', [6, 11.5]],
];

const STAR: readonly Line[] = [
  [0, 0, 12, 12],
  [6, 0, 6, 12],
  [6, 0, 8.5, 3.5],
  [6, 0, 3.5, 3.5],
  [12, 0, 7.25, 1.75],
  [12, 0, 10.25, 4.75],
];
const STAR_PAINT: Paint = [
  ['Foam', [8.5, 0.5], [11.5, 2.5]],
  ['Night sea', [6.5, 3]],
  ['Harbour water', [5.5, 3]],
  ['Brick red', [9.25, 2]],
  ['Lamp yellow', [10, 2.75]],
];

async function isPainted(page: Page, patches: number): Promise<void> {
  await expect(numbers(page)).toHaveText(new RegExp(`^${patches} patches`));
  await expect(verdict(page)).toHaveText(/^Sews on \d+ foundations/);
  await page.getByText(`Patches (${patches})`).click();
  await expect(page.locator('.row-patch').first()).toBeVisible();
  await expect(page.locator('.row-patch', { hasText: 'no fabric' })).toHaveCount(0);
}

async function addBlock(page: Page, name: string): Promise<void> {
  await page.getByRole('button', { name: 'Add a block' }).click();
  await page.getByLabel('Name', { exact: true }).fill(name);
  await page.getByLabel('Side').fill('12');
  await page.getByRole('button', { name: 'Add block' }).click();
  await expect(drawingBoard(page)).toHaveAccessibleName(`Drawing of ${name}`);
}

test('a fox with the pointer, half of it drawn; kept as a motif from the menu at the pointer, placed and sized by its handle', async ({
  page,
}) => {
  await openApp(page);
  await addBlock(page, 'Fox');
  await page.keyboard.press('s');
  await expect(page.getByRole('button', { name: 'Aids: symmetry' })).toBeVisible();
  for (const [x1, y1, x2, y2] of FOX) await drag(page, [x1, y1], [x2, y2]);
  for (const [fabric, ...places] of FOX_PAINT) {
    await page.locator('.swatches').getByRole('button', { name: fabric, exact: true }).click();
    for (const place of places) await page.mouse.click(...(await onScreen(page, ...place)));
  }
  await isPainted(page, 13);

  await page.keyboard.press('v');
  await page.keyboard.press('Control+a');
  await page.mouse.click(...(await onScreen(page, 6, 7)), { button: 'right' });
  await page.getByRole('menuitem', { name: 'Keep as a motif…' }).click();
  await page.getByLabel('Keep what is chosen as').fill('Fox’s head');
  await page.getByRole('button', { name: 'Keep', exact: true }).click();
  await expect(page.getByRole('radio', { name: 'Fox’s head' })).toBeChecked();
  await page.keyboard.press('Escape');

  // In another block, after the page was loaded anew: half as large, with its fabrics.
  await page.reload();
  await addBlock(page, 'Fox small');
  await page.keyboard.press('Shift+F10');
  await page.getByRole('menuitem', { name: 'Motifs…' }).click();
  await page.getByLabel('Width').fill('6');
  await page.getByRole('button', { name: 'Place', exact: true }).click();
  await expect(page.locator('.chosen-card')).toContainText('12 lines');
  // The frame stands 16 px off the six inches it holds.
  const [scale] = (await drawingBoard(page).getAttribute('data-camera'))!.split(' ').map(Number);
  const corner = 9 + 16 / scale!;
  await drag(page, [corner, corner], [corner + 2, corner + 2]);
  await expect(page.getByRole('button', { name: 'Undo resize lines' })).toBeVisible();
  await page.keyboard.press('Escape');
  await expect(page.locator('.chosen-card')).toHaveCount(0);
  await page.getByText(/^Patches \(/).click();
  await expect(page.locator('.row-patch', { hasText: 'Tar' })).toHaveCount(1);
});

/** What one finger does, sent through the browser's own input. */
class Finger {
  readonly #page: Page;
  readonly #devtools: CDPSession;

  constructor(page: Page, devtools: CDPSession) {
    this.#page = page;
    this.#devtools = devtools;
  }

  async draw([x1, y1, x2, y2]: Line): Promise<void> {
    await this.#touch('touchStart', [x1, y1]);
    for (let step = 1; step <= 4; step++)
      await this.#touch('touchMove', [x1 + ((x2 - x1) * step) / 4, y1 + ((y2 - y1) * step) / 4]);
    await this.#touch('touchEnd');
  }

  async tap(place: Place): Promise<void> {
    await this.#touch('touchStart', place);
    await this.#touch('touchEnd');
  }

  async hold(place: Place): Promise<void> {
    await this.#touch('touchStart', place);
    await expect(this.#page.getByRole('menu')).toBeVisible();
    await this.#touch('touchEnd');
  }

  async #touch(type: 'touchStart' | 'touchMove' | 'touchEnd', ...places: readonly Place[]): Promise<void> {
    const touchPoints = [];
    for (const [id, place] of places.entries()) {
      const [x, y] = await onScreen(this.#page, ...place);
      touchPoints.push({ x, y, id });
    }
    await this.#devtools.send('Input.dispatchTouchEvent', { type, touchPoints });
  }
}

const fingerOn = async (page: Page): Promise<Finger> =>
  new Finger(page, await page.context().newCDPSession(page));

test.describe('on a tablet held upright', () => {
  test.use({ hasTouch: true, isMobile: true, viewport: { width: 820, height: 1180 } });

  test('a ship with a finger: the drawing has the width, its fabrics and the menu are at hand', async ({
    page,
  }) => {
    await openApp(page);
    await addBlock(page, 'Ship');
    const [scale] = (await drawingBoard(page).getAttribute('data-camera'))!.split(' ').map(Number);
    expect((12 * scale!) / 820).toBeGreaterThan(0.75);
    const finger = await fingerOn(page);
    for (const [k, line] of SHIP.entries())
      if (k % 3 === 2) {
        await finger.tap([line[0], line[1]]);
        await finger.tap([line[2], line[3]]);
      } else await finger.draw(line);
    for (const [fabric, ...places] of SHIP_PAINT) {
      await page
        .locator('.fabric-strip')
        .getByRole('button', { name: `Lay ${fabric}`, exact: true })
        .tap();
      await expect(drawingBoard(page)).toHaveAttribute('data-tool', 'paint');
      for (const place of places) await finger.tap(place);
    }
    await isPainted(page, 9);

    await page.evaluate(() => document.querySelector('.block-place')!.scrollTo(0, 0));
    await page.getByRole('button', { name: 'Select (V)' }).tap();
    await finger.hold([6, 10.5]);
    // Lifting the finger over the menu presses nothing.
    await expect(numbers(page)).toHaveText(/^9 patches/);
    await page.getByRole('menuitem', { name: /^Delete the line/ }).tap();
    await expect(numbers(page)).toHaveText(/^8 patches/);
  });
});

test.describe('on a phone', () => {
  test.use({ hasTouch: true, isMobile: true, viewport: { width: 390, height: 844 } });

  test('a block is painted in sight of its verdict', async ({ page }) => {
    await openApp(page);
    await expect(verdict(page)).toBeInViewport();
    const finger = await fingerOn(page);
    await page.locator('.fabric-strip').getByRole('button', { name: 'Lay Foam', exact: true }).tap();
    await finger.tap([8, 6]);
    await expect(page.getByRole('button', { name: 'Undo lay fabric' })).toBeVisible();
    await page.getByRole('button', { name: 'Select (V)' }).tap();
    await finger.tap([8, 6]);
    const card = page.locator('.chosen-card');
    await expect(card).toBeInViewport();
    await card.getByRole('button', { name: 'Numbers and what to do' }).tap();
    await expect(card.getByLabel('Fabric')).toHaveValue(/./);
    await expect(card.getByLabel('Fabric').locator('option:checked')).toHaveText('Foam');
  });
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

test('an eight-pointed star with the keyboard alone, a quarter of it drawn', async ({ page }) => {
  await openApp(page);
  await tabTo(page, 'Add a block');
  await page.keyboard.press('Enter');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Control+a');
  await page.keyboard.type('Star');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Control+a');
  await page.keyboard.type('12');
  await page.keyboard.press('Enter');
  await expect(drawingBoard(page)).toBeFocused();
  const told = page.locator('.desk').getByRole('status').first();
  for (const words of [
    'left and right',
    'top and bottom',
    'both ways',
    'diagonals',
    'Half turn',
    'Quarter turns',
  ]) {
    await page.keyboard.press('s');
    await expect(told).toContainText(words);
  }
  await page.keyboard.press('n');
  let at: Place = [0, 0];
  const walk = async (to: Place): Promise<void> => {
    for (const [axis, less, more] of [
      [0, 'ArrowLeft', 'ArrowRight'],
      [1, 'ArrowUp', 'ArrowDown'],
    ] as const) {
      const by = to[axis] - at[axis];
      const key = by < 0 ? less : more;
      const onInch = Number.isInteger(at[axis]);
      const whole = onInch ? Math.trunc(Math.abs(by)) : 0;
      for (let k = 0; k < whole; k++) await page.keyboard.press(`Control+${key}`);
      for (let k = 0; k < (Math.abs(by) - whole) * 4; k++) await page.keyboard.press(key);
    }
    at = to;
  };
  for (const [x1, y1, x2, y2] of STAR) {
    await walk([x1, y1]);
    await page.keyboard.press('Enter');
    await walk([x2, y2]);
    await page.keyboard.press('Enter');
  }
  for (const [fabric, ...places] of STAR_PAINT) {
    await takeFabricByKeys(page, fabric);
    await tabTo(page, 'Drawing of Star');
    for (const place of places) {
      await walk(place);
      await page.keyboard.press('Enter');
    }
  }
  await isPainted(page, 24);
});

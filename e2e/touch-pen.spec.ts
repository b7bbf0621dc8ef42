import { type CDPSession, expect, type Page, test } from '@playwright/test';
import { addSquare, drag, drawingBoard, numbers, onScreen, openApp } from './window.ts';

/**
 * A finger, a resting hand and a pen as the browser tells of them: sent through the browser's own input, so that
 * capture, cancelling and the events' times are its own.
 */
class Hand {
  readonly #page: Page;
  readonly #devtools: CDPSession;

  constructor(page: Page, devtools: CDPSession) {
    this.#page = page;
    this.#devtools = devtools;
  }

  static async at(page: Page): Promise<Hand> {
    return new Hand(page, await page.context().newCDPSession(page));
  }

  /** Every finger that is down now, in inches; by its number where there are several. */
  async touch(
    type: 'touchStart' | 'touchMove' | 'touchEnd' | 'touchCancel',
    ...places: readonly (readonly [number, number])[]
  ): Promise<void> {
    const touchPoints = [];
    for (const [id, [inchX, inchY]] of places.entries()) {
      const [x, y] = await onScreen(this.#page, inchX, inchY);
      touchPoints.push({ x, y, id });
    }
    await this.#devtools.send('Input.dispatchTouchEvent', { type, touchPoints });
  }

  async tap(x: number, y: number): Promise<void> {
    await this.touch('touchStart', [x, y]);
    await this.touch('touchEnd');
  }

  async swipe(from: readonly [number, number], to: readonly [number, number]): Promise<void> {
    await this.touch('touchStart', from);
    for (let step = 1; step <= 6; step++)
      await this.touch('touchMove', [
        from[0] + ((to[0] - from[0]) * step) / 6,
        from[1] + ((to[1] - from[1]) * step) / 6,
      ]);
    await this.touch('touchEnd');
  }

  async pen(
    type: 'mousePressed' | 'mouseMoved' | 'mouseReleased',
    [inchX, inchY]: readonly [number, number],
    isDown = type !== 'mouseMoved',
  ): Promise<void> {
    const [x, y] = await onScreen(this.#page, inchX, inchY);
    await this.#devtools.send('Input.dispatchMouseEvent', {
      type,
      x,
      y,
      pointerType: 'pen',
      button: isDown ? 'left' : 'none',
      buttons: isDown && type !== 'mouseReleased' ? 1 : 0,
      clickCount: type === 'mouseMoved' ? 0 : 1,
    });
  }

  async penStroke(from: readonly [number, number], to: readonly [number, number]): Promise<void> {
    await this.pen('mouseMoved', from);
    await this.pen('mousePressed', from);
    for (let step = 1; step <= 6; step++)
      await this.pen(
        'mouseMoved',
        [from[0] + ((to[0] - from[0]) * step) / 6, from[1] + ((to[1] - from[1]) * step) / 6],
        true,
      );
    await this.pen('mouseReleased', to);
  }
}

test.use({ hasTouch: true, viewport: { width: 1024, height: 768 } });

const undoButton = (page: Page) => page.getByRole('button', { name: /^Undo/ });

/** The tool's own words and marks are on a canvas: what catches is read from what the board tells aloud or draws. */
const camera = (page: Page) => drawingBoard(page).getAttribute('data-camera');

test('a finger draws, moves an end from 20 px away, and taps an outline corner by corner', async ({
  page,
}) => {
  await openApp(page);
  await addSquare(page, 'Gangway');
  const hand = await Hand.at(page);
  await hand.swipe([0.1, 2.05], [5.9, 2.1]);
  await expect(numbers(page)).toHaveText('2 patches, no joins.');
  await page.getByRole('button', { name: 'Select (V)' }).click();
  const [scale] = (await camera(page))!.split(' ').map(Number);
  // 44 px across is the least target for a finger (WCAG 2.2, 2.5.5): 20 px beside the end still takes hold of it.
  const beside = 20 / scale!;
  await hand.swipe([6, 2 + beside], [6, 4 + beside]);
  await expect(undoButton(page)).toHaveAccessibleName('Undo move end of line');
  await expect(page.locator('.chosen-card')).toContainText('→ 6, 4');
});

test('two fingers in the middle of an outline move the sheet, and its corners stay', async ({ page }) => {
  await openApp(page);
  await page.getByRole('button', { name: 'Add a block' }).click();
  await page.getByLabel('Name', { exact: true }).fill('Sail');
  await page.getByRole('radio', { name: 'By points' }).check();
  await page.getByRole('button', { name: 'Draw it' }).click();
  const hand = await Hand.at(page);
  await hand.tap(2, 1);
  await hand.tap(8, 9);
  const before = await camera(page);
  await hand.touch('touchStart', [4, 4]);
  await hand.touch('touchStart', [4, 4], [6, 4]);
  for (let step = 1; step <= 4; step++) await hand.touch('touchMove', [4, 4 + step / 10], [6, 4 + step / 10]);
  await hand.touch('touchEnd');
  expect(await camera(page)).not.toBe(before);
  await hand.tap(2, 9);
  await hand.tap(2, 1);
  await expect(page.locator('.block-item-open')).toContainText('Sail');
  await page.getByText('Outline (3 corners)').click();
  await expect(page.getByRole('button', { name: /^Top left corner, 0, 0 in/ })).toBeVisible();
});

test('a press that the browser cancels takes back only itself, and says so', async ({ page }) => {
  await openApp(page);
  await addSquare(page, 'Pontoon');
  const hand = await Hand.at(page);
  // A cut begun with a tap; its end pressed, then the touch is taken away.
  await hand.tap(0, 3);
  await hand.touch('touchStart', [3, 3]);
  await hand.touch('touchMove', [6, 3]);
  await expect(numbers(page)).toHaveText('2 patches, no joins.');
  await hand.touch('touchCancel');
  await expect(numbers(page)).toHaveText('Draw a line from edge to edge to divide it.');
  await expect(page.getByText('The pointer was lost on the way.')).toBeVisible();
  // The cut still runs from where it began.
  await hand.tap(6, 3);
  await expect(numbers(page)).toHaveText('2 patches, no joins.');
  await expect(page.locator('.chosen-card')).toContainText('0, 3 → 6, 3');
});

test('beside a pen a resting hand draws nothing, whichever came first', async ({ page }) => {
  await openApp(page);
  await addSquare(page, 'Winch');
  const hand = await Hand.at(page);

  // The hand first, then the pen: what the hand began is taken back, and the pen draws.
  await hand.touch('touchStart', [5, 5]);
  await hand.touch('touchMove', [5, 5.4]);
  await hand.penStroke([0, 2], [6, 2]);
  await hand.touch('touchEnd');
  await expect(numbers(page)).toHaveText('2 patches, no joins.');
  await expect(page.locator('.chosen-card')).toContainText('0, 2 → 6, 2');

  // The pen first, the hand comes down beside it and slides, the pen goes on.
  await hand.pen('mouseMoved', [0, 4]);
  await hand.pen('mousePressed', [0, 4]);
  const before = await camera(page);
  await hand.touch('touchStart', [5, 5]);
  await hand.touch('touchMove', [4, 5.5]);
  await hand.pen('mouseMoved', [3, 4], true);
  await hand.touch('touchEnd');
  await hand.pen('mouseMoved', [6, 4], true);
  await hand.pen('mouseReleased', [6, 4]);
  await expect(numbers(page)).toHaveText('3 patches, no joins.');
  await expect(page.locator('.chosen-card')).toContainText('0, 4 → 6, 4');

  // Just after the pen the hand still rests: a touch draws nothing. A second later a finger does.
  await hand.swipe([1, 4], [1, 6]);
  await expect(numbers(page)).toHaveText('3 patches, no joins.');
  expect(await camera(page)).toBe(before);
  await page.waitForTimeout(1100);
  await hand.swipe([1, 4], [1, 6]);
  await expect(numbers(page)).toHaveText('4 patches, no joins.');
});

test('a hovering pen shows what would catch it before it touches', async ({ page }) => {
  await openApp(page);
  await addSquare(page, 'Buoy');
  const hand = await Hand.at(page);
  const picture = async () => (await drawingBoard(page).screenshot()).toString('base64');
  await hand.pen('mouseMoved', [8.2, 3]);
  const away = await picture();
  await hand.pen('mouseMoved', [0.05, 3.02]);
  await expect.poll(picture).not.toBe(away);
  await expect(undoButton(page)).toHaveAttribute('aria-disabled', 'false');
  await expect(numbers(page)).toHaveText('Draw a line from edge to edge to divide it.');
});

test('what Shift and Alt do is done by switches', async ({ page }) => {
  await openApp(page);
  await addSquare(page, 'Anchor');
  const hand = await Hand.at(page);
  const tools = page.getByRole('toolbar', { name: 'Tools' });
  await tools.getByRole('button', { name: '15° steps for every line' }).click();
  await hand.swipe([0, 3], [2, 2.2]);
  // 15° steps: the length is a whole number of grid steps along 15°.
  await expect(page.locator('.chosen-card').getByLabel('Angle')).toHaveValue('15°');
  await tools.getByRole('button', { name: '15° steps for every line' }).click();
  await page.getByRole('button', { name: 'Undo draw line' }).click();

  await tools.getByRole('button', { name: 'Free: no snapping' }).click();
  await hand.swipe([0.4, 1.06], [3.43, 5.31]);
  const across = await page.locator('.chosen-card').getByLabel('Start across').inputValue();
  expect(Math.abs(Number.parseFloat(across) - 0.4)).toBeLessThan(0.03);
  await tools.getByRole('button', { name: 'Free: no snapping' }).click();
  await page.getByRole('button', { name: 'Undo draw line' }).click();

  await hand.swipe([0, 2], [6, 2]);
  await hand.swipe([0, 4], [6, 4]);
  await page.getByRole('button', { name: 'Select (V)' }).click();
  await hand.tap(1.5, 2);
  await tools.getByRole('button', { name: 'Add to what is chosen' }).click();
  await hand.tap(1.5, 4);
  await expect(page.locator('.chosen-card')).toContainText('2 lines');
});

test('every control of the Block place is 44 px for a finger, whatever is chosen', async ({ browser }) => {
  const context = await browser.newContext({
    hasTouch: true,
    isMobile: true,
    viewport: { width: 1024, height: 768 },
  });
  const page = await context.newPage();
  await openApp(page);
  await addSquare(page, 'Capstan');
  await drag(page, [0, 2], [6, 2]);
  await drag(page, [0, 4], [6, 4]);
  const small = async () =>
    page.evaluate(() =>
      [
        ...document.querySelectorAll<HTMLElement>(
          'main button, main select, main summary, main .choice-option, main input:not([type="radio"], [type="checkbox"])',
        ),
      ]
        .filter((element) => element.checkVisibility())
        .map((element) => ({
          name: element.ariaLabel ?? element.textContent ?? element.tagName,
          box: element.getBoundingClientRect(),
        }))
        .filter(({ box }) => box.width > 0 && (box.width < 43.5 || box.height < 43.5))
        .map(({ name, box }) => `${name}: ${box.width.toFixed(0)} × ${box.height.toFixed(0)}`),
    );
  for (const list of [
    'Lines (2)',
    'Patches (3)',
    'Where lines meet',
    'Outline (4 corners)',
    'What to do with the block',
  ])
    await page.getByText(list, { exact: true }).click();
  await page.getByText('What to do with it').click();
  expect(await small()).toEqual([]);
  await page.keyboard.press('Control+a');
  expect(await small()).toEqual([]);
  await page.getByRole('button', { name: 'Move by numbers…' }).first().click();
  expect(await small()).toEqual([]);
  await page.getByRole('button', { name: 'Close', exact: true }).click();
  for (const row of [/^Top left corner,/, /^Top edge,/, /^A1/]) {
    await page
      .locator('.row-choose')
      .filter({ visible: true })
      .and(page.getByRole('button', { name: row }))
      .first()
      .click();
    expect(await small()).toEqual([]);
  }
  await page.getByRole('button', { name: /^Aids/ }).click();
  expect(await small()).toEqual([]);
  await context.close();
});

import { expect, test } from '@playwright/test';
import { addSquare, drag, dragTo, drawingBoard, numbers, onScreen, openApp } from './window.ts';

test('the wheel zooms about the pointer, space and the middle button move the sheet, 0 fits it again', async ({
  page,
}) => {
  await openApp(page);
  const fitted = await drawingBoard(page).getAttribute('data-camera');
  const before = await onScreen(page, 3, 2);
  await page.mouse.move(...before);
  await page.mouse.wheel(0, -400);
  await expect(drawingBoard(page)).not.toHaveAttribute('data-camera', fitted!);
  const after = await onScreen(page, 3, 2);
  // The browser tells the wheel's place in whole pixels.
  expect(Math.hypot(after[0] - before[0], after[1] - before[1])).toBeLessThan(1.5);

  const moved = async (act: () => Promise<void>): Promise<readonly [number, number]> => {
    const from = await onScreen(page, 3, 2);
    await page.mouse.move(...from);
    await act();
    const to = await onScreen(page, 3, 2);
    return [Math.round(to[0] - from[0]), Math.round(to[1] - from[1])];
  };
  const by = async (button: 'left' | 'middle'): Promise<void> => {
    const [x, y] = await onScreen(page, 3, 2);
    await page.mouse.down({ button });
    await page.mouse.move(x + 60, y + 40, { steps: 5 });
    await page.mouse.up({ button });
  };
  await drawingBoard(page).focus();
  expect(await moved(() => by('middle'))).toEqual([60, 40]);
  await page.keyboard.down('Space');
  expect(await moved(() => by('left'))).toEqual([60, 40]);
  await page.keyboard.up('Space');
  await expect(page.getByRole('button', { name: 'Undo', exact: true })).toHaveAttribute(
    'aria-disabled',
    'true',
  );

  await page.keyboard.press('0');
  await expect(drawingBoard(page)).toHaveAttribute('data-camera', fitted!);
});

test('a finding is gone to, a foundation is lit, and the grid is chosen', async ({ page }) => {
  await openApp(page);
  await addSquare(page, 'Anchor');
  await drag(page, [1, 1], [2, 2]);
  await page
    .getByRole('button', { name: /^Awkward|Awkward\./ })
    .first()
    .click();
  await expect
    .poll(async () => {
      const box = (await drawingBoard(page).boundingBox())!;
      const ends = await Promise.all([onScreen(page, 1, 1), onScreen(page, 1.5, 1.5), onScreen(page, 2, 2)]);
      const middle = [box.x + box.width / 2, box.y + box.height / 2] as const;
      return Math.min(...ends.map(([x, y]) => Math.hypot(x - middle[0], y - middle[1])));
    })
    .toBeLessThan(2);
  await page.getByLabel('Grid').selectOption('1 in');
  await page.getByRole('button', { name: 'Fit the sheet' }).click();
  await drag(page, [0, 3.1], [6, 3.1]);
  await expect(page.locator('.chosen-card')).toContainText('0, 3 → 6, 3, 6 in long');
});

test('two fingers move and scale the sheet, and what the first one began is taken back', async ({
  browser,
}) => {
  const context = await browser.newContext({ hasTouch: true, viewport: { width: 1024, height: 768 } });
  const page = await context.newPage();
  await openApp(page);
  await page.getByRole('button', { name: 'Line (C)' }).click();
  const touch = await context.newCDPSession(page);
  const at = async (...places: readonly (readonly [number, number])[]) =>
    places.map(([x, y], id) => ({ x, y, id }));
  const [x, y] = await onScreen(page, 4, 4);
  const before = (await drawingBoard(page).getAttribute('data-camera'))!.split(' ').map(Number);
  await touch.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: await at([x - 50, y]) });
  await touch.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: await at([x - 50, y + 2]) });
  await touch.send('Input.dispatchTouchEvent', {
    type: 'touchStart',
    touchPoints: await at([x - 50, y], [x + 50, y]),
  });
  for (let step = 1; step <= 5; step++)
    await touch.send('Input.dispatchTouchEvent', {
      type: 'touchMove',
      touchPoints: await at([x - 50 - step * 10, y], [x + 50 + step * 10, y]),
    });
  await touch.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
  const after = (await drawingBoard(page).getAttribute('data-camera'))!.split(' ').map(Number);
  expect(after[0]! / before[0]!).toBeCloseTo(2, 1);
  const [nowX, nowY] = await onScreen(page, 4, 4);
  expect(Math.hypot(nowX - x, nowY - y)).toBeLessThan(3);
  await expect(page.getByRole('button', { name: 'Undo', exact: true })).toHaveAttribute(
    'aria-disabled',
    'true',
  );
  await context.close();
});

test('undo in the middle of a gesture drops it, and nothing is lost', async ({ page }) => {
  await openApp(page);
  await addSquare(page, 'Jetty');
  await drag(page, [0, 3], [6, 3]);
  await expect(numbers(page)).toHaveText('2 patches, no joins.');
  await dragTo(page, [3, 0], [3, 3]);
  await expect(numbers(page)).toHaveText('3 patches, no joins.');
  await page.keyboard.press('Control+z');
  await expect(numbers(page)).toHaveText('Draw a line from edge to edge to divide it.');
  await page.mouse.move(...(await onScreen(page, 3, 5)));
  await page.mouse.up();
  await expect(numbers(page)).toHaveText('Draw a line from edge to edge to divide it.');
  await page.keyboard.press('Control+Shift+z');
  await expect(numbers(page)).toHaveText('2 patches, no joins.');
});

const LOST = 'The pointer was lost on the way. The drawing is as it was before.';

test('undo and redo in bursts during a drag keep every recorded step', async ({ page }) => {
  await openApp(page);
  await addSquare(page, 'Bollard');
  await drag(page, [0, 2], [6, 2]);
  await drag(page, [0, 4], [6, 4]);
  await expect(numbers(page)).toHaveText('3 patches, no joins.');
  await page.keyboard.press('v');
  await expect(drawingBoard(page)).toHaveAttribute('data-tool', 'select');
  await page.mouse.move(...(await onScreen(page, 3, 2)));
  await page.mouse.down();
  for (let step = 0; step < 8; step++) {
    await page.mouse.move(...(await onScreen(page, 3, 2 + step / 8)));
    await page.keyboard.press(step % 2 === 0 ? 'Control+z' : 'Control+Shift+z');
  }
  await page.mouse.up();
  await page.keyboard.press('Control+Shift+z');
  await page.keyboard.press('Control+Shift+z');
  await expect(numbers(page)).toHaveText('3 patches, no joins.');
  await page.getByText('Lines (2)').click();
  for (const name of [/^Line 1, from left edge 2 in down/, /^Line 2, from left edge 4 in down/])
    await expect(page.getByRole('button', { name })).toBeVisible();
});

test('undo with nothing to undo drops the drag it interrupts', async ({ page }) => {
  await openApp(page);
  await page.mouse.move(...(await onScreen(page, 0, 0.5)));
  await page.keyboard.press('c');
  const before = await numbers(page).textContent();
  await page.mouse.down();
  await page.mouse.move(...(await onScreen(page, 8, 0.5)), { steps: 6 });
  await expect(numbers(page)).not.toHaveText(before!);
  await page.keyboard.press('Control+z');
  await expect(numbers(page)).toHaveText(before!);
  await page.mouse.move(...(await onScreen(page, 9, 0.5)), { steps: 3 });
  await page.mouse.up();
  await expect(numbers(page)).toHaveText(before!);
  await expect(page.getByRole('button', { name: 'Undo', exact: true })).toHaveAttribute(
    'aria-disabled',
    'true',
  );
});

test('a drag let go outside the window ends at the edge of the board’s reach, as one step', async ({
  page,
}) => {
  await openApp(page);
  await addSquare(page, 'Hawser');
  await drag(page, [0, 3], [6, 3]);
  await page.keyboard.press('v');
  await dragTo(page, [3, 3], [3, 4]);
  // The pointer is captured: the board hears of it outside too.
  await page.mouse.move(-80, -60, { steps: 4 });
  await page.mouse.move(-80, (await onScreen(page, 3, 5))[1], { steps: 4 });
  await page.mouse.up();
  await expect(page.getByRole('button', { name: 'Undo move line' })).toBeVisible();
  await page.keyboard.press('Control+z');
  await page.getByText('Lines (1)').click();
  await expect(page.getByRole('button', { name: /^Line 1, from left edge 3 in down/ })).toBeVisible();
});

for (const [how, leave] of [
  ['the window is left', () => window.dispatchEvent(new Event('blur'))],
  ['the page is hidden', () => document.dispatchEvent(new Event('visibilitychange'))],
] as const) {
  test(`a drag is taken back, with a sentence, when ${how}`, async ({ page }) => {
    await openApp(page);
    await addSquare(page, 'Rudder');
    await drag(page, [0, 3], [6, 3]);
    await dragTo(page, [2, 0], [2, 3]);
    await expect(numbers(page)).toHaveText('3 patches, no joins.');
    // The browser of this test never really loses the focus, so it is told that it has.
    await page.evaluate(() => {
      document.hasFocus = () => false;
      Object.defineProperty(document, 'hidden', { configurable: true, get: () => true });
    });
    await page.evaluate(leave);
    await expect(numbers(page)).toHaveText('2 patches, no joins.');
    await expect(page.getByText(LOST)).toBeVisible();
    // The button comes up later: nothing is drawn, and the next drag is.
    await page.mouse.move(...(await onScreen(page, 2, 5)), { steps: 3 });
    await page.mouse.up();
    await expect(numbers(page)).toHaveText('2 patches, no joins.');
    await drag(page, [2, 0], [2, 3]);
    await expect(numbers(page)).toHaveText('3 patches, no joins.');
  });
}

test('a release that no window saw is noticed at the next move', async ({ page }) => {
  await openApp(page);
  await addSquare(page, 'Tiller');
  await drag(page, [0, 3], [6, 3]);
  await dragTo(page, [2, 0], [2, 2.9]);
  const [x, y] = await onScreen(page, 4, 1);
  // A move of the same mouse with no button down, as comes when it was let go elsewhere.
  const devtools = await page.context().newCDPSession(page);
  await devtools.send('Input.dispatchMouseEvent', { type: 'mouseMoved', x, y, button: 'none', buttons: 0 });
  await expect(page.getByText(LOST)).toBeVisible();
  await expect(numbers(page)).toHaveText('2 patches, no joins.');
  await page.mouse.up();
});

test('Escape in a drag takes it back though the button stays down', async ({ page }) => {
  await openApp(page);
  await addSquare(page, 'Keel');
  await dragTo(page, [0, 3], [6, 3]);
  await expect(numbers(page)).toHaveText('2 patches, no joins.');
  await page.keyboard.press('Escape');
  await expect(numbers(page)).toHaveText('Draw a line from edge to edge to divide it.');
  await page.mouse.move(...(await onScreen(page, 6, 5)), { steps: 4 });
  await page.mouse.up();
  await expect(numbers(page)).toHaveText('Draw a line from edge to edge to divide it.');
  await expect(page.locator('.desk').getByRole('status')).toHaveText('Cancelled.');
});

test('the sheet lies still under the hand when the board changes its size, and is fitted after', async ({
  page,
}) => {
  await openApp(page);
  await addSquare(page, 'Rowlock');
  const camera = () => drawingBoard(page).getAttribute('data-camera');
  const height = () => drawingBoard(page).evaluate((board) => board.clientHeight);
  const before = await camera();
  const high = await height();
  await dragTo(page, [0, 3], [6, 3]);
  // A strip that comes, a window made smaller, a tablet's keyboard: the board has less room.
  await page.setViewportSize({ width: 1280, height: 720 });
  await expect.poll(height).toBeLessThan(high);
  expect(await camera()).toBe(before);
  await page.mouse.up();
  await expect(page.locator('.chosen-card')).toContainText('0, 3 → 6, 3');
  await expect.poll(camera).not.toBe(before);
});

test('text pasted on the board, nonsense or hostile, changes nothing and says so', async ({ page }) => {
  await openApp(page);
  await addSquare(page, 'Oar');
  await drag(page, [0, 3], [6, 3]);
  const paste = (text: string) =>
    page.evaluate((content) => {
      const clipboardData = new DataTransfer();
      clipboardData.setData('text/plain', content);
      document
        .querySelector('.drawing-board')!
        .dispatchEvent(new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }));
    }, text);
  for (const text of [
    'two yards of linen',
    '<svg onload="document.title=1"><script>document.title = 2</script></svg>',
    '{"format":"underpaper-cuts","cuts":[{"from":[0,0],"to":[1e99,"x"]}]}',
    'x'.repeat(3_000_000),
  ]) {
    await paste(text);
    await expect(page.getByText('The clipboard holds no lines.')).toBeVisible();
    await expect(numbers(page)).toHaveText('2 patches, no joins.');
    await page.getByRole('button', { name: 'Dismiss' }).or(page.locator('.notice button')).first().click();
  }
  await expect(page).toHaveTitle(/Underpaper/);
  // In the middle of a running line too: the line goes on.
  await page.mouse.click(...(await onScreen(page, 2, 0)));
  await expect(page.locator('.desk').getByRole('status')).toContainText('Line begins at 2, 0 in');
  await paste('two yards of linen');
  await expect(page.getByText('The clipboard holds no lines.')).toBeVisible();
  await page.mouse.click(...(await onScreen(page, 2, 3)));
  await expect(numbers(page)).toHaveText('3 patches, no joins.');
  // Letters that mean nothing to the board do nothing.
  await page.keyboard.type('qqq;#äé');
  await expect(numbers(page)).toHaveText('3 patches, no joins.');
});

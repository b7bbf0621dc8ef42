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
  await page.getByRole('button', { name: 'Cut (C)' }).click();
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
  await dragTo(page, [3, 0], [3, 3]);
  await expect(numbers(page)).toHaveText('3 patches, no joins.');
  await page.keyboard.press('Control+z');
  await expect(numbers(page)).toHaveText('Draw a cut from edge to edge to divide it.');
  await page.mouse.move(...(await onScreen(page, 3, 5)));
  await page.mouse.up();
  await expect(numbers(page)).toHaveText('Draw a cut from edge to edge to divide it.');
  await page.keyboard.press('Control+Shift+z');
  await expect(numbers(page)).toHaveText('2 patches, no joins.');
});

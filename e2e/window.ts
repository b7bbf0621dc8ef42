import { expect, type Locator, type Page } from '@playwright/test';

/** Opens the app on its demo, as a first visit does. */
export async function openApp(page: Page): Promise<void> {
  await page.goto('/');
  await expect(page.getByRole('navigation', { name: 'Places' })).toBeVisible();
  // The screen of the place comes after the bar.
  await expect(drawingBoard(page)).toBeVisible();
}

export const drawingBoard = (page: Page): Locator => page.locator('.drawing-board');

/** Takes a fabric in hand by keys alone: the swatches are one stop for Tab, walked by arrows. */
export async function takeFabricByKeys(page: Page, fabric: string): Promise<void> {
  const at = page.locator('.fabrics .swatches :focus');
  while ((await at.count()) === 0) await page.keyboard.press('Shift+Tab');
  await page.keyboard.press('Home');
  while ((await at.getAttribute('aria-label')) !== fabric) await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Enter');
}

export const verdict = (page: Page): Locator => page.locator('.verdict');

export const numbers = (page: Page): Locator => page.locator('.numbers');

/** Where a place of the block, in inches, is on the screen now. */
export async function onScreen(page: Page, x: number, y: number): Promise<[number, number]> {
  const board = drawingBoard(page);
  const [scale, left, top] = (await board.getAttribute('data-camera'))!.split(' ').map(Number);
  const box = (await board.boundingBox())!;
  return [box.x + x * scale! + left!, box.y + y * scale! + top!];
}

/** Presses, drags as a hand does, and lets go. Places in inches. */
export async function drag(page: Page, from: [number, number], to: [number, number]): Promise<void> {
  await dragTo(page, from, to);
  await page.mouse.up();
}

/** The same without letting go. */
export async function dragTo(page: Page, from: [number, number], to: [number, number]): Promise<void> {
  await page.mouse.move(...(await onScreen(page, ...from)));
  await page.mouse.down();
  await page.mouse.move(...(await onScreen(page, ...to)), { steps: 12 });
}

/** Adds a square block of 6 in with the mouse; the Cut tool is in hand afterwards. */
export async function addSquare(page: Page, name: string): Promise<void> {
  await page.getByRole('button', { name: 'Add a block' }).click();
  await page.getByLabel('Name', { exact: true }).fill(name);
  await page.getByLabel('Side').fill('6');
  await page.getByRole('button', { name: 'Add block' }).click();
  await expect(drawingBoard(page)).toHaveAccessibleName(`Drawing of ${name}`);
}

/** Drops a file on the middle of the window, as from a folder beside it. */
export async function dropFile(page: Page, name: string, text: string): Promise<void> {
  const files = await page.evaluateHandle(
    ([fileName, content]) => {
      const transfer = new DataTransfer();
      transfer.items.add(new File([content!], fileName!, { type: 'application/json' }));
      return transfer;
    },
    [name, text],
  );
  await page.dispatchEvent('.desk', 'dragenter', { dataTransfer: files });
  await expect(page.getByText('Drop to open the file')).toBeVisible();
  await page.dispatchEvent('.desk', 'drop', { dataTransfer: files });
  await expect(page.getByText('Drop to open the file')).toBeHidden();
}

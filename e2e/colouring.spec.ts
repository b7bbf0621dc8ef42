import AxeBuilder from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';
import { addSquare, drag, drawingBoard, onScreen, openApp } from './window.ts';

/** The colour of the drawing at a place in inches, as the canvas holds it: `#rrggbb`. */
async function colorAt(page: Page, x: number, y: number): Promise<string> {
  const box = (await drawingBoard(page).boundingBox())!;
  const [left, top] = await onScreen(page, x, y);
  return drawingBoard(page)
    .locator('canvas')
    .first()
    .evaluate(
      (canvas, [cssX, cssY]) => {
        const element = canvas as HTMLCanvasElement;
        const ratio = element.width / element.clientWidth;
        const pixel = element.getContext('2d')!.getImageData(cssX! * ratio, cssY! * ratio, 1, 1).data;
        return `#${[...pixel.slice(0, 3)].map((value) => value.toString(16).padStart(2, '0')).join('')}`;
      },
      [left - box.x, top - box.y],
    );
}

const isColor = (page: Page, x: number, y: number, color: string) =>
  expect.poll(() => colorAt(page, x, y)).toBe(color);

const fabricButton = (page: Page, name: string) =>
  page.locator('.swatches').getByRole('button', { name, exact: true });

/** A square of two patches, night sea (#1b3050) above foam (#f5f2e8); places well off lines and labels. */
const ABOVE = [1, 1] as const;
const BELOW = [1, 5] as const;

async function seaAboveFoam(page: Page, name: string): Promise<void> {
  await addSquare(page, name);
  await drag(page, [0, 3], [6, 3]);
  await fabricButton(page, 'Night sea').click();
  await page.mouse.click(...(await onScreen(page, ...ABOVE)));
  await fabricButton(page, 'Foam').click();
  await page.mouse.click(...(await onScreen(page, ...BELOW)));
  await isColor(page, ...ABOVE, '#1b3050');
  await isColor(page, ...BELOW, '#f5f2e8');
}

test('two fabrics change places in one block, one takes the place of another in all, each in one step', async ({
  page,
}) => {
  await openApp(page);
  await seaAboveFoam(page, 'Tide table');
  await seaAboveFoam(page, 'Breakwater');

  await page.getByRole('button', { name: 'Replace or swap fabrics' }).click();
  const dialog = page.getByRole('dialog', { name: 'Replace or swap fabrics' });
  await dialog.getByRole('radio', { name: 'Swap' }).check();
  await dialog.getByRole('combobox', { name: 'Swap' }).selectOption('Night sea');
  await dialog.getByLabel('With').selectOption('Foam');
  await dialog.getByRole('button', { name: 'Swap fabrics' }).click();
  await isColor(page, ...ABOVE, '#f5f2e8');
  await isColor(page, ...BELOW, '#1b3050');
  await page
    .getByRole('button', { name: /Tide table/ })
    .first()
    .click();
  await isColor(page, ...ABOVE, '#1b3050');

  // Again from the list of commands.
  await page.keyboard.press('Control+k');
  await page.keyboard.type('replace or swap');
  await page.keyboard.press('Enter');
  await dialog.getByRole('combobox', { name: 'Replace' }).selectOption('Foam');
  await dialog.getByLabel('By').selectOption('Foam');
  await expect(dialog.getByRole('status')).toHaveText('Choose two different fabrics.');
  await dialog.getByLabel('By').selectOption('Brick red');
  await dialog.getByRole('radio', { name: 'In the whole project' }).check();
  await dialog.getByRole('button', { name: 'Replace fabric' }).press('Enter');
  await isColor(page, ...BELOW, '#a23b2d');
  await page
    .getByRole('button', { name: /Breakwater/ })
    .first()
    .click();
  await isColor(page, ...ABOVE, '#a23b2d');

  // Undo goes back to the block that was open then: first to the one, then to the other.
  await page.keyboard.press('Control+z');
  await isColor(page, ...BELOW, '#f5f2e8');
  await expect(drawingBoard(page)).toHaveAccessibleName('Drawing of Tide table');
  await page.keyboard.press('Control+z');
  await isColor(page, ...ABOVE, '#1b3050');
  await expect(drawingBoard(page)).toHaveAccessibleName('Drawing of Breakwater');
});

test('values are shown as greys of the same lightness, with numbers on the shelf, and back', async ({
  page,
}) => {
  await openApp(page);
  await seaAboveFoam(page, 'Tide table');
  const toggle = page.getByRole('button', { name: 'Values' });
  await expect(toggle).toHaveAttribute('aria-pressed', 'false');
  await drawingBoard(page).focus();
  await page.keyboard.press('w');
  await expect(toggle).toHaveAttribute('aria-pressed', 'true');
  // L* of #1b3050 is 19.7 and of #f5f2e8 95.5; grey #303030 is 19.9, #2f2f2f 19.4, #f2f2f2 95.5, by CIE 15 and IEC 61966-2-1.
  await expect.poll(() => colorAt(page, ...ABOVE)).toMatch(/^#(2f2f2f|303030)$/);
  await expect.poll(() => colorAt(page, ...BELOW)).toMatch(/^#f2f2f2$/);
  await expect(fabricButton(page, 'Foam, lightness 95')).toBeVisible();
  await toggle.click();
  await isColor(page, ...ABOVE, '#1b3050');
});

test('a colour that goes with a fabric becomes one with a press, and two that look alike are told', async ({
  page,
}) => {
  await openApp(page);
  await expect(page.locator('.fabrics-alike')).toHaveCount(0);
  await fabricButton(page, 'Brick red').click();
  await page.getByText('What goes with these').click();
  await page.getByRole('button', { name: 'Add Brick red, opposite' }).click();
  await expect(fabricButton(page, 'Brick red, opposite')).toBeVisible();
  await expect(fabricButton(page, 'Brick red')).toHaveAttribute('aria-pressed', 'true');
  // The next one is under the keyboard at once.
  await page.keyboard.press('Enter');
  await expect(fabricButton(page, 'Brick red, neighbour')).toBeVisible();
  await page.keyboard.press('Control+z');
  await page.keyboard.press('Control+z');
  await expect(fabricButton(page, 'Brick red, neighbour')).toHaveCount(0);
  await expect(fabricButton(page, 'Brick red, opposite')).toHaveCount(0);

  await page.getByRole('button', { name: 'Add a fabric' }).click();
  await page.getByLabel(/^Colour of/).fill('#f4f1e7');
  await expect(page.locator('.fabrics-alike')).toContainText(/‘Foam’.*can hardly be told apart\./);
});

for (const colorScheme of ['light', 'dark'] as const) {
  test.describe(`in the ${colorScheme} theme`, () => {
    test.use({ colorScheme });

    test('numbers, warnings, harmonies and the dialog can be read by all (WCAG 2.2 AA)', async ({ page }) => {
      const violations = async () =>
        (await new AxeBuilder({ page }).withTags(['wcag2a', 'wcag2aa', 'wcag22aa']).analyze()).violations.map(
          ({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`,
        );
      await openApp(page);
      await fabricButton(page, 'Brick red').click();
      await page.getByLabel(/^Colour of/).fill('#1c3151');
      await page.getByRole('button', { name: 'Values' }).click();
      await page.getByText('What goes with these').click();
      await expect(page.locator('.fabrics-alike')).toBeVisible();
      expect(await violations()).toEqual([]);
      await page.getByRole('button', { name: 'Replace or swap fabrics' }).click();
      expect(await violations()).toEqual([]);
    });
  });
}

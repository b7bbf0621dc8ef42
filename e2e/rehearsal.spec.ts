import AxeBuilder from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';
import { addSquare, drag, drawingBoard, openApp } from './window.ts';

const steps = (page: Page) => page.getByRole('listbox', { name: 'Steps' });
const stage = (page: Page) => page.locator('.stage');
const sentence = (page: Page) => page.locator('.stage-sentence');

/** A radio button of a row lies under its label. */
const choose = (page: Page, name: string) =>
  page
    .locator('.choice-option')
    .filter({ hasText: new RegExp(`^${name}$`) })
    .click();

/** One cut across and one below it: three patches on one paper. */
async function drawThree(page: Page): Promise<void> {
  await addSquare(page, 'Jetty');
  await drag(page, [0, 2], [6, 2]);
  await drag(page, [0, 4], [6, 4]);
}

test('a step is laid on the stage with the mouse, its parts and both sides looked at', async ({ page }) => {
  await openApp(page);
  await drawThree(page);
  await expect(page.getByText('3 steps')).toBeVisible();
  await steps(page).getByRole('option', { name: 'A2' }).click();
  await expect(page.getByText('2 of 3')).toBeVisible();
  await expect(sentence(page)).toHaveText(
    'Lay A2 right sides together on A1, stitch the line between them, flip, press, trim to 1/4 in.',
  );
  await page.getByRole('button', { name: 'Stitch' }).click();
  await expect(stage(page)).toHaveAttribute('data-phase', 'stitch');
  await expect(page.getByText('Seen from the front')).toBeVisible();
  await choose(page, 'From the printed side');
  await expect(page.getByText('Seen from the printed side, mirrored')).toBeVisible();

  // Words of care stand where a tool is first taken in hand, and nowhere else.
  await expect(page.locator('.stage-cautions')).toContainText('needle');
  await page.getByRole('button', { name: 'Next step' }).click();
  await expect(page.getByText('3 of 3')).toBeVisible();
  await expect(sentence(page)).toContainText('outside the outline');
  await expect(page.locator('.stage-cautions')).toHaveCount(0);
  await page.getByRole('button', { name: 'Back to the drawing' }).click();
  await expect(stage(page)).toHaveCount(0);
});

test('from the printed side everything lies mirrored, and letters read all the same', async ({ page }) => {
  await openApp(page);
  await addSquare(page, 'Jetty');
  await drag(page, [2, 0], [2, 6]);
  await steps(page).getByRole('option').last().click();
  const middle = async (id: string): Promise<number> => {
    const box = (await page.locator('.stage-words', { hasText: id }).first().boundingBox())!;
    return box.x + box.width / 2;
  };
  await page.getByRole('button', { name: 'Trim' }).click();
  await expect(stage(page)).toHaveAttribute('data-phase', 'trim');
  const front = [await middle('A1'), await middle('A2')] as const;
  await choose(page, 'From the printed side');
  await expect
    .poll(async () => Math.sign((await middle('A1')) - (await middle('A2'))))
    .toBe(-Math.sign(front[0] - front[1]));
  const transforms = await page
    .locator('.stage-words')
    .evaluateAll((words) => words.map((word) => (word as SVGTextElement).getCTM()!.a));
  expect(transforms.every((across) => across > 0)).toBe(true);
});

test('the rehearsal is walked through with the keyboard', async ({ page }) => {
  await openApp(page);
  await steps(page).focus();
  const at = (step: number) => expect(page.locator('.rehearsal-count')).toHaveText(`${step} of 19`);
  await page.keyboard.press('ArrowRight');
  await at(1);
  await page.keyboard.press('ArrowRight');
  await at(2);
  await page.keyboard.press('End');
  await at(19);
  await expect(sentence(page)).toContainText(/^Pin .* right sides together at/);
  await page.keyboard.press('ArrowLeft');
  await at(18);
  await page.keyboard.press('Home');
  await at(1);
  await expect(sentence(page)).toContainText('blank side of paper A');
  await page.keyboard.press(' ');
  await expect(page.getByRole('button', { name: 'Pause' })).toBeVisible();
  await at(2);
  await page.keyboard.press(' ');
  await expect(page.getByRole('button', { name: 'Play the rehearsal' })).toBeVisible();
  await page.keyboard.press('Escape');
  await expect(stage(page)).toHaveCount(0);
  await expect(steps(page)).toBeFocused();
});

test('it folds away, and makes room for the drawing when a tool is taken up', async ({ page }) => {
  await openApp(page);
  await page.getByRole('button', { name: 'Rehearsal', exact: true }).click();
  await expect(steps(page)).toHaveCount(0);
  await page.getByRole('button', { name: 'Paper', exact: true }).click();
  await page.getByRole('button', { name: 'Block', exact: true }).click();
  await expect(page.getByRole('button', { name: 'Rehearsal', exact: true })).toHaveAttribute(
    'aria-expanded',
    'false',
  );
  await page.getByRole('button', { name: 'Rehearsal', exact: true }).click();
  await steps(page).getByRole('option').first().click();
  await expect(stage(page)).toBeVisible();
  await page.keyboard.press('c');
  await expect(stage(page)).toHaveCount(0);
});

test('there is no step where nothing is sewn, and the drawing stands still when the first comes', async ({
  page,
}) => {
  await openApp(page);
  await expect(steps(page)).toBeVisible();
  await addSquare(page, 'Jetty');
  await expect(page.locator('.rehearsal-count')).toHaveText('Nothing to sew yet');
  const camera = await drawingBoard(page).getAttribute('data-camera');
  await drag(page, [0, 2], [6, 2]);
  await expect(page.getByText('2 steps')).toBeVisible();
  await expect(drawingBoard(page)).toHaveAttribute('data-camera', camera!);
});

test.describe('with less motion', () => {
  test.use({ contextOptions: { reducedMotion: 'reduce' } });

  test('the parts of a step stand side by side', async ({ page }) => {
    await openApp(page);
    await drawThree(page);
    await steps(page).getByRole('option', { name: 'A2' }).click();
    await expect(page.locator('.stage figcaption')).toHaveText(['Lay', 'Stitch', 'Flip and press', 'Trim']);
  });
});

for (const colorScheme of ['light', 'dark'] as const) {
  test.describe(`in the ${colorScheme} theme`, () => {
    test.use({ colorScheme });

    test('the stage, the plans and the order can be used by everyone', async ({ page }) => {
      await openApp(page);
      const expectClean = async (): Promise<void> => {
        const { violations } = await new AxeBuilder({ page })
          .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'])
          .analyze();
        expect(
          violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join('\n  ')}`),
        ).toEqual([]);
      };
      await page.getByText('Other plans').click();
      await expect(page.locator('.plan-card').first()).toBeVisible();
      await page.locator('.section-row').first().click();
      await page.getByRole('button', { name: 'Move A4', exact: true }).click();
      await expect(page.locator('.order-place').first()).toBeVisible();
      await expectClean();
      await steps(page).getByRole('option').nth(1).click();
      await expect(sentence(page)).toBeVisible();
      await expectClean();
    });
  });
}

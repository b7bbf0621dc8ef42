import { expect, test } from '@playwright/test';
import { dropFile, openApp } from './window.ts';

const GOOD = JSON.stringify({
  format: 'underpaper',
  version: 1,
  name: 'Pier',
  blocks: [
    {
      id: 'b1',
      name: 'Bollard',
      outline: [
        [0, 0],
        [4, 0],
        [4, 4],
        [0, 4],
      ],
      cuts: [{ id: 'c1', from: [0, 1], to: [4, 1] }],
    },
  ],
});

const BROKEN: readonly (readonly [string, string])[] = [
  ['cut off in the middle', GOOD.slice(0, GOOD.length / 2)],
  ['another program’s', JSON.stringify({ type: 'drawing', shapes: [1, 2, 3] })],
  ['newer', GOOD.replace('"version":1', '"version":99')],
  ['empty', ''],
];

for (const [what, text] of BROKEN) {
  test(`a file that is ${what} is refused in a sentence, the open project untouched`, async ({ page }) => {
    await openApp(page);
    const before = await page.locator('.block-name').allTextContents();
    await dropFile(page, 'pier.json', text);
    await expect(page.getByRole('alert')).toContainText('pier.json');
    await expect(page.getByRole('alert')).toContainText('was not opened');
    await expect(page.getByLabel('Project name')).toHaveValue('Harbour sampler');
    expect(await page.locator('.block-name').allTextContents()).toEqual(before);
    await expect(page.getByRole('button', { name: 'Undo', exact: true })).toHaveAttribute(
      'aria-disabled',
      'true',
    );
    await page.getByRole('button', { name: 'Dismiss' }).click();
    await expect(page.getByRole('alert')).toBeEmpty();
  });
}

test('a good file opens by drop, and undo brings the earlier project back', async ({ page }) => {
  await openApp(page);
  await dropFile(page, 'pier.json', GOOD);
  await expect(page.getByLabel('Project name')).toHaveValue('Pier');
  await expect(page.locator('.verdict')).toHaveText('Sews on one foundation.');
  await page.keyboard.press('Control+z');
  await expect(page.getByLabel('Project name')).toHaveValue('Harbour sampler');
});

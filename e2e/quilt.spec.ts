import { expect, type Page, test } from '@playwright/test';
import { dropFile, openApp } from './window.ts';

const board = (page: Page) => page.locator('.quilt-board');
const tray = (page: Page) => page.getByRole('complementary', { name: 'Tray' });
const size = (page: Page) => page.locator('.quilt-size');

/** A spot of the quilt, in inches, on the screen. */
async function onQuilt(page: Page, x: number, y: number): Promise<[number, number]> {
  const [scale, left, top] = (await board(page).getAttribute('data-camera'))!.split(' ').map(Number);
  const box = (await board(page).boundingBox())!;
  return [box.x + x * scale! + left!, box.y + y * scale! + top!];
}

/** Four blocks of 6 in with nothing set yet. */
const FOUR = JSON.stringify({
  format: 'underpaper',
  version: 2,
  name: 'Sampler',
  fabrics: [
    { id: 'f1', name: 'Night sea', color: '#1b3050' },
    { id: 'f2', name: 'Foam', color: '#f5f2e8' },
  ],
  blocks: ['Rail', 'Pennant', 'Jetty', 'Plain sea'].map((name, k) => ({
    id: `b${k + 1}`,
    name,
    outline: [
      [0, 0],
      [6, 0],
      [6, 6],
      [0, 6],
    ],
    cuts: [{ id: 'c1', from: [0, k + 1], to: [6, 5 - k] }],
    patches: [
      { id: 'p1', at: [3, 0.5], fabric: 'f1' },
      { id: 'p2', at: [3, 5.5], fabric: 'f2' },
    ],
  })),
});

async function openFour(page: Page): Promise<void> {
  await openApp(page);
  await dropFile(page, 'sampler.underpaper.json', FOUR);
  await page.keyboard.press('Alt+2');
  await expect(page.getByRole('heading', { name: 'Set your blocks into a quilt' })).toBeVisible();
}

const setNumber = async (page: Page, label: string, value: string): Promise<void> => {
  const field = page.getByLabel(label, { exact: true }).first();
  await field.fill(value);
  await field.press('Enter');
};

test('a 5 × 6 sampler on point with sashing and two borders, by mouse', async ({ page }) => {
  await openFour(page);
  await page.locator('.quilt-empty').getByRole('button', { name: 'On point' }).click();
  await setNumber(page, 'Across', '5');
  await setNumber(page, 'Down', '6');
  await page.getByLabel('Sashing between the blocks').check();
  await page.getByRole('button', { name: 'Add a border', exact: true }).click();
  await page.getByRole('button', { name: 'Add a border', exact: true }).click();
  // 5 × 7 √2 and two borders of 2 and 4 in on either side.
  await expect(size(page)).toContainText('61 1/2 × 71 3/8 in');

  // A block from the tray on to the first place: it takes the place of what lay there.
  const before = await tray(page)
    .getByRole('button', { name: /^Plain sea/ })
    .textContent();
  const from = (await tray(page)
    .getByRole('button', { name: /^Plain sea/ })
    .boundingBox())!;
  await page.mouse.move(from.x + 30, from.y + 20);
  await page.mouse.down();
  await page.mouse.move(...(await onQuilt(page, 6 + 4.95, 6 + 4.95)), { steps: 8 });
  await page.mouse.up();
  await expect(tray(page).getByRole('button', { name: /^Plain sea/ })).not.toHaveText(before!);

  // Another with a click in hand and a click on the quilt.
  await tray(page)
    .getByRole('button', { name: /^Jetty/ })
    .click();
  await page.mouse.click(...(await onQuilt(page, 6 + 4.95, 6 + 4.95)));
  await expect(tray(page).getByRole('button', { name: /^Plain sea/ })).toHaveText(before!);
  await page.keyboard.press('Escape');

  await page.getByLabel('Join', { exact: true }).check({ force: true });
  await expect(page.locator('.quilt-sentence').first()).toContainText('all of them straight');
  await page.getByRole('button', { name: 'Next step' }).click();
  await expect(page.locator('.quilt-step-list [aria-current="step"]')).toContainText('seam');
  await page.getByLabel('Finish', { exact: true }).check({ force: true });
  await expect(page.getByRole('row', { name: /Side triangles/ })).toContainText('5 × 9 3/4 × 9 3/4 in');
  await expect(page.getByRole('row', { name: /Corner triangles/ })).toContainText('2 × 5 1/8 × 5 1/8 in');
});

test('a 3 × 3 is set with the keyboard alone, and undone', async ({ page }) => {
  await openFour(page);
  await page.locator('.quilt-empty').getByRole('button', { name: 'Straight rows' }).focus();
  await page.keyboard.press('Enter');
  await expect(size(page)).toContainText('18 × 18 in');
  await board(page).focus();
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('4');
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('4');
  await expect(board(page).getByRole('status')).toHaveText('Place 2, Plain sea');
  await page.keyboard.press('r');
  await page.keyboard.press('m');
  await page.keyboard.press('Control+a');
  await page.keyboard.press('3');
  await expect(tray(page).getByRole('button', { name: /^Jetty/ })).toContainText('× 9');
  await page.keyboard.press('Control+z');
  await expect(tray(page).getByRole('button', { name: /^Plain sea/ })).toContainText('× 4');
  await page.keyboard.press('Delete');
  await expect(tray(page).getByRole('button', { name: /^Plain sea/ })).toContainText(/in4$/);
});

test('the demo is a quilt: joined, printed, and no block vanishes from it unnoticed', async ({ page }) => {
  await openApp(page);
  await page.getByRole('button', { name: 'Quilt', exact: true }).click();
  await expect(size(page)).toContainText('73 × 73 in');
  await expect(size(page)).toContainText('58 places');
  await page.getByLabel('Join', { exact: true }).check({ force: true });
  await expect(page.locator('.quilt-sentence').first()).toContainText(
    '58 places, 57 seams, all of them straight.',
  );
  await page.getByLabel('Print', { exact: true }).check({ force: true });
  const [map] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Download PDF' }).click(),
  ]);
  expect(map.suggestedFilename()).toBe('Harbour sampler, quilt.pdf');

  await page.keyboard.press('Alt+1');
  await page.getByRole('button', { name: 'Delete Lighthouse' }).click();
  await expect(page.getByRole('status').filter({ hasText: 'Deleted' })).toContainText(
    'which lay in 2 places of the quilt: they are empty now',
  );
  await page.keyboard.press('Control+z');
  await page.keyboard.press('Alt+2');
  await expect(tray(page).getByRole('button', { name: /^Lighthouse/ })).toContainText('× 2');
});

/** Plain places of two fabrics that lie free. */
const plainQuilt = (places: readonly (readonly [number, number, number, number])[]): string =>
  JSON.stringify({
    ...JSON.parse(FOUR),
    quilt: {
      module: 6,
      places: places.map(([x, y, w, h], k) => ({
        id: `p${k + 1}`,
        fabric: `f${(k % 2) + 1}`,
        at: [x, y],
        size: [w, h],
      })),
    },
  });

test('a ring is shown and cured; places that lie free are dragged on their module', async ({ page }) => {
  await openApp(page);
  const windmill = [
    [0, 0, 12, 6],
    [12, 0, 6, 12],
    [6, 12, 12, 6],
    [0, 6, 6, 12],
    [6, 6, 6, 6],
  ] as const;
  await dropFile(page, 'ring.underpaper.json', plainQuilt(windmill));
  await page.keyboard.press('Alt+2');
  await page.getByLabel('Join', { exact: true }).check({ force: true });
  const sentence = page.locator('.quilt-sentence').first();
  await expect(sentence).toContainText('1 of them set in: 5 places hold each other in a ring');
  const cure = page.getByRole('button', { name: 'Set these 5 otherwise' });
  await cure.hover();
  await expect(sentence).toContainText('in a ring');
  await cure.click();
  await expect(sentence).toContainText('5 places, 4 seams, all of them straight.');
  await page.keyboard.press('Control+z');
  await expect(sentence).toContainText('in a ring');

  // The place in the middle, a module and a bit to the right: it lands on the module, over its neighbour.
  await page.mouse.move(...(await onQuilt(page, 9, 9)));
  await page.mouse.down();
  await page.mouse.move(...(await onQuilt(page, 15.7, 9.4)), { steps: 8 });
  await page.mouse.up();
  await expect(page.locator('.quilt-fault')).toHaveText('1 overlap, 1 gap');
  await expect(sentence).toContainText(/Places 2 and \d overlap/);
  await board(page).focus();
  await page.keyboard.press('Control+ArrowLeft');
  await expect(page.locator('.quilt-fault')).toBeHidden();
});

test('seams that all but meet are brought together in either block', async ({ page }) => {
  await openApp(page);
  const project = JSON.parse(FOUR);
  project.blocks[1].cuts[0] = { id: 'c1', from: [0, 5.125], to: [6, 1] };
  project.quilt = {
    places: [
      { id: 'p1', block: 'b1', at: [0, 0] },
      { id: 'p2', block: 'b2', at: [6, 0] },
    ],
  };
  await dropFile(page, 'miss.underpaper.json', JSON.stringify(project));
  await page.keyboard.press('Alt+2');
  await page.getByLabel('Join', { exact: true }).check({ force: true });
  await expect(page.locator('.quilt-misses li')).toHaveText(/1 and 2: 1\/8 in apart/);
  await page.getByRole('button', { name: 'Move it in ‘Pennant’' }).click();
  await expect(page.locator('.quilt-misses li')).toHaveCount(0);
  await page.keyboard.press('Control+z');
  await expect(page.locator('.quilt-misses li')).toHaveCount(1);
});

import { expect, type Page, test } from '@playwright/test';
import { drag, dropFile, onScreen, openApp, verdict } from './window.ts';

type Cut = readonly [x1: number, y1: number, x2: number, y2: number];

/** Opens a file with one block of 6 in by 6 in, its patches painted as told. */
async function openBlock(
  page: Page,
  name: string,
  cuts: readonly Cut[],
  paint: readonly (readonly [x: number, y: number, fabric: string])[] = [],
): Promise<void> {
  await openApp(page);
  const project = {
    format: 'underpaper',
    version: 1,
    name: 'Pier',
    fabrics: [
      { id: 'f1', name: 'Night sea', color: '#1b2f4f' },
      ...['Foam', 'Sand', 'Gull', 'Mist'].map((light) => ({ id: light, name: light, color: '#f5f2e8' })),
    ],
    blocks: [
      {
        id: 'b1',
        name,
        outline: [
          [0, 0],
          [6, 0],
          [6, 6],
          [0, 6],
        ],
        cuts: cuts.map(([x1, y1, x2, y2], k) => ({ id: `c${k + 1}`, from: [x1, y1], to: [x2, y2] })),
        paint: paint.map(([x, y, fabric]) => ({ at: [x, y], fabric })),
      },
    ],
  };
  await dropFile(page, 'pier.json', JSON.stringify(project));
  await expect(page.getByLabel('Project name')).toHaveValue('Pier');
}

/** Four squares: two rows or two columns, on two papers either way (common practice). */
const FOUR_PATCH: readonly Cut[] = [
  [3, 0, 3, 6],
  [0, 3, 6, 3],
];

/** Five strips on one paper, sewn from either end or outwards from any strip (common practice). */
const STRIPS: readonly Cut[] = [
  [0, 1, 6, 1],
  [0, 2, 6, 2],
  [0, 3, 6, 3],
  [0, 4, 6, 4],
];

test('another plan is chosen among those that differ, kept with the block, and taken back', async ({
  page,
}) => {
  await openBlock(page, 'Bollards', FOUR_PATCH);
  await page.getByText('Other plans').click();
  const cards = page.locator('.plan-card');
  await expect(cards.filter({ hasText: 'In rows' })).toHaveCount(1);
  await expect(cards.filter({ hasText: 'In columns' })).toHaveCount(1);
  await expect(cards).toHaveCount(2);
  await expect(cards.filter({ hasText: 'The present plan' })).toContainText('Fewest foundations');

  const other = page.locator('.plan-card[aria-pressed="false"]');
  const name = (await other.locator('.plan-name').textContent())!;
  await expect(other).toContainText('2 foundations, 1 join');
  await expect(other).toContainText('longest join 6 in');
  await other.click();
  await expect(page.locator('.plan-card[aria-pressed="true"] .plan-name')).toHaveText(name);
  await expect(verdict(page)).toContainText('2 foundations');

  // Kept with the block when the page is opened again.
  await expect(page.getByText('Saved in this browser')).toBeVisible();
  await page.reload();
  await page.getByText('Other plans').click();
  await expect(page.locator('.plan-card[aria-pressed="true"] .plan-name')).toHaveText(name);
});

test('choosing a plan is one step to undo', async ({ page }) => {
  await openBlock(page, 'Bollards', FOUR_PATCH);
  await page.getByText('Other plans').click();
  await expect(page.locator('.plan-card')).toHaveCount(2);
  await page.locator('.plan-card[aria-pressed="false"]').focus();
  await page.keyboard.press('Enter');
  await expect(page.getByRole('button', { name: 'Undo choose a plan' })).toBeVisible();
  await page.keyboard.press('Control+z');
  await expect(page.locator('.plan-card[aria-pressed="true"]')).toContainText('Fewest foundations');
});

test('a block on one paper says that every way leads there', async ({ page }) => {
  await openBlock(page, 'Planks', STRIPS);
  await page.getByText('Other plans').click();
  await expect(page.getByText('every way leads to this plan')).toBeVisible();
  await expect(page.locator('.plan-card')).toHaveCount(1);
});

/** The fabrics of the unfolded order, the first sewn first. */
const fabricsInOrder = (page: Page): Promise<string[]> => page.locator('.order-fabric').allTextContents();

/** The top strip dark, the others of one lightness. */
const PAINT = [
  [3, 0.5, 'f1'],
  [3, 1.5, 'Foam'],
  [3, 2.5, 'Sand'],
  [3, 3.5, 'Gull'],
  [3, 5, 'Mist'],
] as const;

async function dragGrip(page: Page, id: string, beside: string, past: number): Promise<void> {
  const grip = (await page.getByRole('button', { name: `Move ${id}`, exact: true }).boundingBox())!;
  const x = grip.x + grip.width / 2;
  await page.mouse.move(x, grip.y + grip.height / 2);
  await page.mouse.down();
  await page.mouse.move(x, grip.y + grip.height / 2 + 8, { steps: 3 });
  // The rows have moved apart to let the places show.
  const row = (await page.locator('.order-row').filter({ hasText: beside }).boundingBox())!;
  await page.mouse.move(x, row.y + row.height / 2 + past, { steps: 6 });
}

test('a patch is dragged to a free place, refused at another, and let back', async ({ page }) => {
  await openBlock(page, 'Planks', STRIPS, PAINT);
  await page.locator('.section-row').click();
  const suggested = await fabricsInOrder(page);
  // Light before dark where the order is free, so the dark strip comes last, and the others lead up to it.
  expect(suggested).toEqual(['Mist', 'Gull', 'Sand', 'Foam', 'Night sea']);
  await expect(page.locator('.order-counts')).toHaveText(
    '4 changes of fabric, no light patch over a dark one.',
  );

  // First of all the dark strip at the top cannot be sewn in this order: the one after it lies at the bottom.
  await dragGrip(page, 'A5', 'A1', -28);
  await expect(page.locator('.order-place[data-over="true"]')).toHaveAttribute('data-free', 'false');
  await page.mouse.up();
  await expect(page.locator('.order').getByRole('alert')).toHaveText(
    'Not there: A1 would touch nothing sewn before it.',
  );
  expect(await fabricsInOrder(page)).toEqual(suggested);
  await expect(page.getByRole('button', { name: 'Undo open ‘Pier’' })).toBeVisible();

  // The first and the second may change places.
  await dragGrip(page, 'A1', 'A2', 28);
  await expect(page.locator('.order-place[data-over="true"]')).toHaveAttribute('data-free', 'true');
  await page.mouse.up();
  await expect.poll(() => fabricsInOrder(page)).toEqual(['Gull', 'Mist', 'Sand', 'Foam', 'Night sea']);
  await expect(page.getByText('Set by hand.')).toBeVisible();

  await page.getByRole('button', { name: 'Back to the suggested order' }).click();
  await expect.poll(() => fabricsInOrder(page)).toEqual(suggested);
  await expect(page.getByText('Set by hand.')).toBeHidden();
});

test('the order is changed with the keyboard alone', async ({ page }) => {
  await openBlock(page, 'Planks', STRIPS, PAINT);
  const row = page.locator('.section-row');
  await row.focus();
  await page.keyboard.press('Enter');
  await expect(row).toHaveAttribute('aria-expanded', 'true');
  const suggested = await fabricsInOrder(page);
  await page.getByRole('button', { name: 'Move A1', exact: true }).focus();
  await page.keyboard.press('Alt+ArrowDown');
  await expect.poll(() => fabricsInOrder(page)).toEqual(['Gull', 'Mist', 'Sand', 'Foam', 'Night sea']);
  await expect(page.getByRole('button', { name: 'Move A2', exact: true })).toBeFocused();
  await page.keyboard.press('Control+z');
  await expect.poll(() => fabricsInOrder(page)).toEqual(suggested);

  // Refused where it would go, with the reason.
  await page.getByRole('button', { name: 'Move A5', exact: true }).focus();
  await page.keyboard.press('Alt+ArrowUp');
  await expect(page.locator('.order').getByRole('alert')).toContainText('Not there:');

  // Taken up, shown where it may go, and put back with Esc.
  await page.getByRole('button', { name: 'Move A2', exact: true }).focus();
  await page.keyboard.press('Enter');
  await expect(page.locator('.order-place[data-free="true"]').first()).toBeVisible();
  await expect(page.locator('.order-place[data-free="false"]').first()).toBeVisible();
  const refused = page.locator('.order-place[data-free="false"] button').first();
  await refused.focus();
  await expect(page.locator('.order-refusal')).toBeVisible();
  await page.keyboard.press('Escape');
  await expect(page.locator('.order-place')).toHaveCount(0);
  await expect(page.getByRole('button', { name: 'Move A2', exact: true })).toBeFocused();
  expect(await fabricsInOrder(page)).toEqual(suggested);
});

test('a chosen patch is sewn first, where that can be', async ({ page }) => {
  await openBlock(page, 'Planks', STRIPS, PAINT);
  await page.locator('.section-row').click();
  await page.mouse.click(...(await onScreen(page, 3, 0.5)));
  const card = page.getByRole('region', { name: 'Chosen' });
  await expect(card).toContainText('Patch A5');
  await card.getByRole('button', { name: 'Sew this one first' }).click();
  await expect(card).toContainText('Patch A1');
  await expect.poll(async () => (await fabricsInOrder(page))[0]).toBe('Night sea');
  await expect(page.locator('.order-counts')).toContainText('1 light over dark');
  await expect(page.getByRole('button', { name: 'Undo sew A5 first' })).toBeVisible();
});

test('an order set by hand stays with its patches while cuts are dragged, drawn and taken back', async ({
  page,
}) => {
  await openBlock(page, 'Planks', STRIPS, PAINT);
  await page.locator('.section-row').click();
  await dragGrip(page, 'A1', 'A2', 28);
  await page.mouse.up();
  const byHand = ['Gull', 'Mist', 'Sand', 'Foam', 'Night sea'];
  await expect.poll(() => fabricsInOrder(page)).toEqual(byHand);

  // Each line in turn to where the next patch lay, so that every patch leaves the spot it was named by.
  await page.keyboard.press('v');
  for (const [from, to] of [
    [1, 0.25],
    [2, 0.75],
    [3, 1.5],
    [4, 2.25],
  ] as const) {
    await drag(page, [2, from], [2, to]);
    await expect.poll(() => fabricsInOrder(page)).toEqual(byHand);
  }
  await expect(page.getByText('Set by hand.')).toBeVisible();

  // A new cut parts a patch: the larger part keeps its place.
  await page.keyboard.press('c');
  await drag(page, [0, 5], [6, 5]);
  await expect.poll(() => fabricsInOrder(page)).toHaveLength(6);
  expect((await fabricsInOrder(page)).filter((name, i, all) => all.indexOf(name) === i)).toEqual(byHand);
  await page.keyboard.press('Control+z');
  await expect.poll(() => fabricsInOrder(page)).toEqual(byHand);
});

import { expect, type Page, test } from '@playwright/test';
import { addSquare, drag, drawingBoard, numbers, onScreen, openApp, verdict } from './window.ts';

/** How fast a hand goes: half a second to a place, and a short rest before and after each press. Milliseconds. */
const REACH_MS = 500;
const REST_MS = 150;
const STEPS = 20;

async function goTo(page: Page, from: [number, number], to: [number, number]): Promise<void> {
  for (let step = 1; step <= STEPS; step++) {
    const share = step / STEPS;
    await page.mouse.move(from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share);
    await page.waitForTimeout(REACH_MS / STEPS);
  }
}

test('four flying geese, twelve patches, are drawn by hand in under a minute', async ({ page }) => {
  await openApp(page);
  const begun = Date.now();
  await page.getByRole('button', { name: 'Add a block' }).click();
  await page.getByRole('radio', { name: 'Rectangle' }).check();
  await page.getByLabel('Name', { exact: true }).fill('Flying geese');
  await page.getByLabel('Width').fill('6');
  await page.getByLabel('Height').fill('12');
  await page.getByRole('button', { name: 'Add block' }).click();
  await expect(drawingBoard(page)).toHaveAccessibleName('Drawing of Flying geese');

  // Four rows of 3 in, a goose of 6 by 3 in each: two slants from the middle of its top to its lower corners.
  let hand: [number, number] = await onScreen(page, 0, 0);
  const rows = [0, 3, 6, 9];
  const lines: readonly (readonly [number, number, number, number])[] = [
    ...rows.slice(1).map((y) => [0, y, 6, y] as const),
    ...rows.flatMap((y) => [[3, y, 0, y + 3] as const, [3, y, 6, y + 3] as const]),
  ];
  for (const [fromX, fromY, toX, toY] of lines) {
    const from = await onScreen(page, fromX, fromY);
    const to = await onScreen(page, toX, toY);
    await goTo(page, hand, from);
    await page.waitForTimeout(REST_MS);
    await page.mouse.down();
    await goTo(page, from, to);
    await page.mouse.up();
    await page.waitForTimeout(REST_MS);
    hand = to;
  }
  await expect(numbers(page)).toHaveText('12 patches, no joins.');
  expect(Date.now() - begun).toBeLessThan(60_000);
  // A strip of flying geese is sewn on one foundation from one end to the other: common practice.
  await expect(verdict(page)).toHaveText('Sews on one foundation.');
});

/** The palette takes what is typed once it has the focus. */
async function openPalette(page: Page): Promise<void> {
  await expect(page.getByRole('dialog')).toHaveCount(0);
  await page.keyboard.press('Control+k');
  await expect(page.getByRole('dialog').getByRole('combobox')).toBeFocused();
}

/** Presses a key several times. */
async function press(page: Page, key: string, times = 1): Promise<void> {
  for (let time = 0; time < times; time++) await page.keyboard.press(key);
}

test('a pinwheel of twelve patches is drawn with the keyboard alone, by symmetry and typed numbers', async ({
  page,
}) => {
  await openApp(page);
  await page.keyboard.press('Control+Alt+b');
  const told = page.locator('.desk').getByRole('status');
  await openPalette(page);
  await page.keyboard.type('cut c');
  await page.keyboard.press('Escape');
  await openPalette(page);
  await page.keyboard.type('measure');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('button', { name: 'Measure (M)' })).toHaveAttribute('aria-pressed', 'true');
  await page.keyboard.press('c');
  // None, two mirrors, both, diagonals, half turn, quarter turns.
  await press(page, 's', 6);
  await expect(told).toHaveText('Symmetry: Quarter turns');

  await drawingBoard(page).focus();
  await page.keyboard.press('n');
  await expect(told).toHaveText('0, 0 in, corner');
  await page.keyboard.press('Enter');
  await press(page, 'Control+ArrowRight', 3);
  await press(page, 'Control+ArrowDown', 3);
  await page.keyboard.press('Enter');
  await expect(told).toContainText('4 lines with its images.');
  await press(page, 'Control+ArrowUp', 3);
  await page.keyboard.press('Enter');
  await page.keyboard.type('3');
  await page.keyboard.press('Tab');
  await page.keyboard.type('270');
  await page.keyboard.press('Enter');
  await expect(told).toContainText('3 in long. 4 lines with its images.');
  await expect(numbers(page)).toContainText('8 patches');
  await page.keyboard.press('Enter');
  await press(page, 'Control+ArrowLeft');
  await press(page, 'ArrowLeft', 2);
  await press(page, 'Control+ArrowDown');
  await press(page, 'ArrowDown', 2);
  await page.keyboard.press('Enter');
  await expect(numbers(page)).toContainText('12 patches');
});

test('a cut is set by numbers, a line drawn beside it, and each is one step of the history', async ({
  page,
}) => {
  await openApp(page);
  await addSquare(page, 'Mooring');
  await drag(page, [0, 2], [6, 2]);
  const card = page.getByRole('region', { name: 'Chosen' });
  await card.getByLabel('End down').fill('92 mm');
  await page.keyboard.press('Enter');
  await expect(card.getByLabel('End down')).toHaveValue('3.622 in');
  await card.getByLabel('Angle').fill('0');
  await page.keyboard.press('Enter');
  await expect(card.getByLabel('Angle')).toHaveValue('0°');
  await card.getByLabel('Length').fill('6');
  await page.keyboard.press('Enter');
  await card.getByLabel('Length').fill('long');
  await page.keyboard.press('Enter');
  await expect(card.getByRole('alert')).toContainText('long');
  await page.keyboard.press('Escape');

  await openPalette(page);
  await page.keyboard.type('parallel lines');
  await page.keyboard.press('Enter');
  await expect(page.getByLabel('Distance')).toBeFocused();
  await page.keyboard.type('1 1/2');
  // The drawing shows it before it is done.
  await expect(numbers(page)).toHaveText('3 patches, no joins.');
  await page.keyboard.press('Escape');
  await expect(numbers(page)).toHaveText('2 patches, no joins.');
  await openPalette(page);
  await page.keyboard.type('parallel lines');
  await page.keyboard.press('Enter');
  await expect(page.getByLabel('Distance')).toBeFocused();
  await page.keyboard.type('1 1/2');
  await page.keyboard.press('Tab');
  await page.keyboard.type('2');
  await page.keyboard.press('Enter');
  await expect(numbers(page)).toHaveText('4 patches, no joins.');
  await page.keyboard.press('Control+z');
  await expect(numbers(page)).toHaveText('2 patches, no joins.');
});

test('cuts are boxed, copied to another block, locked, and the block turned', async ({ page }) => {
  await openApp(page);
  await addSquare(page, 'Cleat');
  await drag(page, [0, 2], [6, 2]);
  await drag(page, [2, 2], [2, 6]);
  await page.keyboard.press('v');
  await drag(page, [5.5, 5.5], [0.5, 0.5]);
  await expect(page.locator('.chosen-card')).toContainText('2 lines');
  await page.keyboard.press('Control+c');
  await addSquare(page, 'Bollard');
  await drawingBoard(page).focus();
  await page.keyboard.press('Control+v');
  await expect(numbers(page)).toHaveText('3 patches, no joins.');
  await page.keyboard.press('l');
  await page.keyboard.press('Delete');
  await expect(numbers(page)).toHaveText('3 patches, no joins.');
  await page.getByText('Lines (2)').click();
  await expect(
    page.getByRole('button', { name: /^Line 1, from left edge 2 in down to right edge 2 in down.*locked$/ }),
  ).toBeVisible();
  await openPalette(page);
  await page.keyboard.type('turn the block left');
  await page.keyboard.press('Enter');
  await expect(
    page.getByRole('button', { name: /^Line 1, from bottom edge 2 in across to top edge 2 in across/ }),
  ).toBeVisible();
});

test('numbers of several cuts: what they share, where they differ, set for all in one step', async ({
  page,
}) => {
  await openApp(page);
  await addSquare(page, 'Fender');
  await drag(page, [0, 2], [3, 2]);
  await page.keyboard.press('Escape');
  await drag(page, [0, 4], [5, 4]);
  await page.keyboard.press('Control+a');
  const card = page.getByRole('region', { name: 'Chosen' });
  await expect(card.getByRole('heading')).toHaveText('2 lines');
  await expect(card.getByLabel('Start across')).toHaveValue('0 in');
  await expect(card.getByLabel('Angle')).toHaveValue('0°');
  await expect(card.getByLabel('Length')).toHaveValue('differ');
  // Looked at and left, nothing changes.
  await card.getByLabel('Length').focus();
  await page.keyboard.press('Tab');
  await expect(page.getByRole('button', { name: 'Undo draw line' })).toBeVisible();
  await card.getByLabel('Length').fill('152,4 mm');
  await page.keyboard.press('Enter');
  await expect(card.getByLabel('Length')).toHaveValue('6 in');
  await expect(numbers(page)).toHaveText('3 patches, no joins.');
  await card.getByRole('button', { name: 'Lock' }).click();
  await expect(card.getByRole('button', { name: 'Locked' })).toHaveAttribute('aria-pressed', 'true');
  await expect(card).toContainText('They are locked');
  await page.keyboard.press('l');
  await page.keyboard.press('Control+z');
  await page.keyboard.press('Control+z');
  await page.getByRole('button', { name: 'Undo set length of lines' }).click();
  await expect(card.getByLabel('Length')).toHaveValue('differ');

  await card.getByRole('button', { name: 'Move by numbers…' }).click();
  await expect(page.getByLabel('To the right')).toBeFocused();
  await page.keyboard.type('1/2');
  await page.keyboard.press('Tab');
  await page.keyboard.type('-1');
  await page.keyboard.press('Enter');
  await expect(card.getByLabel('Start down')).toHaveValue('differ');
  await page.getByRole('button', { name: 'Undo move lines' }).click();
  await page.keyboard.press('Escape');
  await page.getByText('Lines (2)').click();
  await expect(page.getByRole('button', { name: /^Line 1, from left edge 2 in down/ })).toBeVisible();
});

test('an outline is drawn by keys and numbers alone, its edges and corners reached in the list', async ({
  page,
}) => {
  await openApp(page);
  await page.keyboard.press('Control+Alt+b');
  const told = page.locator('.desk').getByRole('status');
  await drawingBoard(page).focus();
  await page.keyboard.press('o');
  for (const [first, second] of [
    ['t0', '0'],
    ['6', '0'],
    ['4 1/2', '270'],
    ['6', '180'],
  ] as const) {
    await page.keyboard.type(first);
    await page.keyboard.press('Tab');
    await page.keyboard.type(second);
    await page.keyboard.press('Enter');
  }
  await expect(told).toContainText('Corner 4 at 0, 4 1/2 in, as typed, 6 in from the last.');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('button', { name: 'Undo draw outline' })).toBeVisible();
  const list = page.getByText('Outline (4 corners)');
  await list.focus();
  await page.keyboard.press('Enter');
  await expect(page.getByRole('button', { name: /^Top left corner,/ })).toBeVisible();
  await page.keyboard.press('Tab');
  const row = page.locator('.row-choose:focus');
  await expect(row).toHaveAccessibleName('Top left corner, 0, 0 in, 90° inside');
  await page.keyboard.press('ArrowDown');
  await expect(row).toHaveAccessibleName('Top edge, from top left corner to top right corner, 6 in long');
  // What a press on the edge offers is offered here: it is divided, and lengthened.
  await page.keyboard.press('Enter');
  const card = page.getByRole('region', { name: 'Chosen' });
  await expect(card.getByRole('heading')).toHaveText('Top edge');
  await card.getByRole('button', { name: 'Divide evenly…' }).focus();
  await page.keyboard.press('Enter');
  await expect(page.getByLabel('Parts')).toBeFocused();
  await page.keyboard.type('4');
  await page.keyboard.press('Enter');
  await expect(numbers(page)).toHaveText('4 patches, no joins.');
  await page
    .getByRole('button', { name: /^Right edge, from top right corner to bottom right corner/ })
    .focus();
  await page.keyboard.press('Enter');
  await card.getByRole('button', { name: 'Add a corner in the middle' }).focus();
  await page.keyboard.press('Enter');
  await expect(page.getByText('Outline (5 corners)')).toBeVisible();
  await card.getByLabel('Corner across').fill('7');
  await page.keyboard.press('Enter');
  await expect(
    page.getByRole('button', { name: /^Corner 3, 7, 2 1\/4 in|^[A-Z].*7, 2 1\/4 in/ }),
  ).toBeVisible();
});

test('an edge of the outline is dragged and nudged as a whole, its joints go along, and it stays in view', async ({
  page,
}) => {
  await openApp(page);
  await addSquare(page, 'Slipway');
  const told = page.locator('.desk').getByRole('status');
  const card = page.getByRole('region', { name: 'Chosen' });
  // A level line, and a gable of two slants from its middle to the lower corners.
  for (const [from, to] of [
    [
      [0, 2],
      [6, 2],
    ],
    [
      [3, 2],
      [0, 6],
    ],
    [
      [3, 2],
      [6, 6],
    ],
  ] as const) {
    await drag(page, [...from], [...to]);
    await page.keyboard.press('Escape');
  }
  await page.keyboard.press('v');
  await drag(page, [6, 1.2], [7.52, 1.9]);
  await expect(card.getByRole('heading')).toHaveText('Right edge');
  await expect(page.getByRole('button', { name: 'Undo move edge' })).toBeVisible();
  await drawingBoard(page).focus();
  await page.keyboard.press('Alt+ArrowRight');
  await page.keyboard.press('Alt+ArrowRight');
  await expect(told).toHaveText('Right edge moved.');
  await page.keyboard.press('Alt+ArrowDown');
  await expect(told).toHaveText('An edge moves to its sides, not along itself.');
  const board = (await drawingBoard(page).boundingBox())!;
  expect((await onScreen(page, 8, 0))[0]).toBeLessThan(board.x + board.width);
  await page.getByText('Outline (4 corners)').click();
  await expect(
    page.getByRole('button', { name: /^Right edge, .* 6 in long, line 1 and line 3 end on it$/ }),
  ).toBeVisible();
  await expect(page.getByRole('button', { name: /^Top right corner, 8, 0 in, 90° inside$/ })).toBeVisible();

  // By keyboard alone: picked up where the crosshair stands, moved, put down.
  await drawingBoard(page).focus();
  await page.keyboard.press('n');
  await expect(told).toHaveText('0, 0 in, corner');
  await press(page, 'Control+ArrowRight');
  await page.keyboard.press('Enter');
  await expect(told).toHaveText('Top edge picked up. Arrows move it, Enter puts it down.');
  await press(page, 'Control+ArrowUp');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('button', { name: /^Top left corner, 0, -1 in/ })).toBeVisible();

  // The top of the gable is a joint: both slants go where it is put.
  await drag(page, [3, 2], [4, 2]);
  await page.getByText('Lines (3)').click();
  for (const name of [
    /^Line 2, from where line 1 and line 3 meet to bottom left corner/,
    /^Line 3, from where line 1 and line 2 meet to bottom right corner/,
  ])
    await expect(page.getByRole('button', { name })).toBeVisible();
  await expect(numbers(page)).toContainText('4 patches');
  // The line it stands on takes it along.
  await drag(page, [1, 2], [1, 1]);
  await expect(page.getByRole('button', { name: /^Line 1, from left edge 2 in down/ })).toBeVisible();
  await expect(
    page.getByRole('button', { name: /^Line 2, from where line 1 and line 3 meet to bottom left corner/ }),
  ).toBeVisible();
});

test('a crossing catches, a patch is divided, cuts are split, chosen by kind, joined and lined up', async ({
  page,
}) => {
  await openApp(page);
  await addSquare(page, 'Fairlead');
  const told = page.locator('.desk').getByRole('status');
  const card = page.getByRole('region', { name: 'Chosen' });
  await drag(page, [0, 0], [6, 4]);
  await page.keyboard.press('Escape');
  await drag(page, [0, 6], [4, 0]);
  await page.keyboard.press('Escape');
  // y = 2x/3 and y = 6 - 3x/2 meet at x = 36/13, y = 24/13: 2.769 and 1.846. Two hundredths beside it the crossing catches.
  await page.mouse.click(...(await onScreen(page, 2.79, 1.86)));
  await expect(told).toContainText('Line begins at ≈ 2 25/32, 1 27/32 in, crossing');
  await page.keyboard.press('Escape');

  await page.keyboard.press('v');
  await page.mouse.click(...(await onScreen(page, 5, 5)));
  await card.getByText('What to do with it').click();
  await card.getByRole('button', { name: 'Divide evenly…' }).click();
  await page.getByLabel('Parts').fill('3');
  await expect(numbers(page)).toContainText('6 patches');
  await page.keyboard.press('Enter');
  await expect(told).toHaveText('Divide patch: done.');
  await expect(numbers(page)).toContainText('6 patches');

  await page.mouse.click(...(await onScreen(page, 1, 2 / 3)));
  await expect(card.getByRole('heading')).toHaveText('Line 1');
  await openPalette(page);
  await page.keyboard.type('split at');
  await page.keyboard.press('Enter');
  await expect(told).toHaveText(/^Split: [3-9] lines chosen\.$/);
  const pieces = (await card.getByRole('heading').textContent())!;
  expect(pieces).toMatch(/^[3-9] lines$/);
  await page.mouse.click(...(await onScreen(page, 1, 2 / 3)));
  await expect(card.getByRole('heading')).toHaveText('Line 1');
  await openPalette(page);
  await page.keyboard.type('choose all in this');
  await page.keyboard.press('Enter');
  await expect(card.getByRole('heading')).toHaveText(pieces);
  await page.keyboard.press('j');
  await expect(told).toHaveText('Joined.');
  await expect(card.getByRole('heading')).toHaveText('Line 1');
  await expect(card).toContainText('0, 0 → 6, 4');
});

test('cuts are cut out and pasted in another block, lined up, and the block resized with or without them', async ({
  page,
}) => {
  await openApp(page);
  await addSquare(page, 'Rudder');
  const told = page.locator('.desk').getByRole('status');
  const card = page.getByRole('region', { name: 'Chosen' });
  await drag(page, [1, 1], [4, 1]);
  await page.keyboard.press('Escape');
  await drag(page, [2, 3], [5, 3]);
  await page.keyboard.press('Control+a');
  await page.keyboard.press('Control+x');
  await expect(page.getByText('Lines (0)')).toBeVisible();
  await addSquare(page, 'Tiller');
  await drawingBoard(page).focus();
  await page.keyboard.press('Control+v');
  await expect(card.getByRole('heading')).toHaveText('2 lines');

  await openPalette(page);
  await page.keyboard.type('align');
  await page.keyboard.press('Enter');
  await card.getByLabel('Align by').selectOption({ label: 'Right ends' });
  await card.getByRole('button', { name: 'Align' }).click();
  await expect(card.getByLabel('Start across')).toHaveValue('2 in');
  await expect(card.getByLabel('End across')).toHaveValue('5 in');

  const resize = async (width: string, drawing: string): Promise<void> => {
    await openPalette(page);
    await page.keyboard.type('resize the block');
    await page.keyboard.press('Enter');
    await expect(page.getByLabel('Width')).toBeFocused();
    await page.getByLabel('Width').fill(width);
    await page.getByLabel('Height').fill(width);
    await page.getByLabel('The drawing in it').selectOption({ label: drawing });
    await page.getByRole('button', { name: 'Resize', exact: true }).click();
  };
  await resize('9', 'Stays as it is');
  await expect(card.getByLabel('End across')).toHaveValue('5 in');
  await resize('18', 'Grows along');
  await expect(card.getByLabel('End across')).toHaveValue('10 in');
  // What has grown is seen whole.
  const board = (await drawingBoard(page).boundingBox())!;
  const [x, y] = await onScreen(page, 18, 18);
  expect(x).toBeLessThan(board.x + board.width);
  expect(y).toBeLessThan(board.y + board.height);
  await page.getByText('Outline (4 corners)').click();
  await expect(page.getByRole('button', { name: /^Bottom right corner, 18, 18 in/ })).toBeVisible();

  // Millimetres: 1 in is 25.4 mm exactly, the grid has steps of its own, and the crosshair walks them.
  await page.getByRole('button', { name: 'Menu' }).click();
  await page.getByRole('radio', { name: 'Millimetres' }).check();
  await page.keyboard.press('Escape');
  await expect(page.getByRole('button', { name: /^Bottom right corner, 457\.2, 457\.2 mm/ })).toBeVisible();
  await page.locator('.grid-choice select').selectOption({ label: '10 mm' });
  await drawingBoard(page).focus();
  await page.keyboard.press('n');
  await expect(told).toHaveText('0, 0 mm, corner');
  await press(page, 'ArrowRight', 2);
  await expect(told).toContainText('20, 0 mm');
  // 60°: a row lies half the square root of three of a step below the last, and half a step to the side.
  await page.keyboard.press('g');
  await press(page, 'ArrowDown');
  await expect(told).toContainText('25, 8.7 mm');
});

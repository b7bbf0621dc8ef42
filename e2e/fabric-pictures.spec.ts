import { readFile } from 'node:fs/promises';
import AxeBuilder from '@axe-core/playwright';
import { type Download, expect, type Page, test } from '@playwright/test';
import { has, renderPdf, runOn } from '../tests/foundations/tools.ts';
import { addSquare, drag, drawingBoard, onScreen, openApp } from './window.ts';

/** Upright stripes, dark and light in turn, four of each, as a PNG of 400 by 300 pixels. */
const stripes = async (page: Page, dark = '#1b3050', light = '#f5f2e8'): Promise<Buffer> => {
  const address = await page.evaluate(
    ([one, other]) => {
      const canvas = document.createElement('canvas');
      canvas.width = 400;
      canvas.height = 300;
      const pen = canvas.getContext('2d')!;
      for (let i = 0; i < 8; i++) {
        pen.fillStyle = (i % 2 === 0 ? one : other)!;
        pen.fillRect(50 * i, 0, 50, 300);
      }
      return canvas.toDataURL('image/png');
    },
    [dark, light],
  );
  return Buffer.from(address.split(',')[1]!, 'base64');
};

const fabricButton = (page: Page, name: string) =>
  page.locator('.swatches').getByRole('button', { name, exact: true });

const pictureDialog = (page: Page) => page.getByRole('dialog', { name: /^Picture of/ });

const file = (buffer: Buffer, name = 'cloth.png') => ({ name, mimeType: 'image/png', buffer });

const across = (page: Page) => page.getByLabel('Width of the cloth in the frame');

/** A square of one fabric, night sea, with a picture that shows a piece so wide. */
async function stripedSquare(page: Page, width: string): Promise<void> {
  await addSquare(page, 'Awning');
  await fabricButton(page, 'Night sea').click();
  await page.mouse.click(...(await onScreen(page, 1, 1)));
  await page.getByRole('button', { name: 'Add a picture of Night sea' }).click();
  await page.getByLabel('Picture file').setInputFiles(file(await stripes(page)));
  await across(page).fill(width);
  await page.getByRole('button', { name: 'Use picture' }).click();
  await expect(pictureDialog(page)).toBeHidden();
}

/** How light the drawing is along a level line, from left to right, 0 … 255; places in inches. */
async function lightnessAlong(page: Page, y: number, from: number, to: number): Promise<readonly number[]> {
  const box = (await drawingBoard(page).boundingBox())!;
  const [left, top] = await onScreen(page, from, y);
  const [right] = await onScreen(page, to, y);
  return drawingBoard(page).evaluate(
    (board, [x0, x1, y0]) => {
      // The canvases as they lie over each other.
      const layers = [...board.querySelectorAll('canvas')];
      const ratio = layers[0]!.width / layers[0]!.clientWidth;
      const flat = document.createElement('canvas');
      flat.width = Math.round((x1! - x0!) * ratio);
      flat.height = 1;
      const pen = flat.getContext('2d')!;
      for (const layer of layers) pen.drawImage(layer, -Math.round(x0! * ratio), -Math.round(y0! * ratio));
      const row = pen.getImageData(0, 0, flat.width, 1).data;
      return Array.from(
        { length: flat.width },
        (_, i) => (row[4 * i]! + row[4 * i + 1]! + row[4 * i + 2]!) / 3,
      );
    },
    [left - box.x, right - box.x, top - box.y],
  );
}

/** Places where dark turns to light or light to dark, as shares of the row. */
const turnsOf = (row: readonly number[]): readonly number[] =>
  row.flatMap((light, i) => (i > 0 && light < 140 !== row[i - 1]! < 140 ? [i / row.length] : []));

/** From 0.25 in of a row that is so many inches long, stripes of `stripe` inches turn here. */
const turnsMeant = (start: number, length: number, stripe: number): readonly number[] => {
  const turns: number[] = [];
  for (let k = Math.floor(start / stripe) + 1; k * stripe < start + length; k++)
    turns.push((k * stripe - start) / length);
  return turns;
};

function expectTurns(found: readonly number[], meant: readonly number[], slack: number): void {
  expect(found).toHaveLength(meant.length);
  for (const [i, turn] of meant.entries()) expect(Math.abs(found[i]! - turn)).toBeLessThan(slack);
}

const [START, LENGTH] = [0.2, 5.6];

test('a print lies in the block at its true size, near and far, and in the value view', async ({ page }) => {
  await openApp(page);
  // Eight stripes on 2 in: one is 1/4 in wide, and 24 of them cross a square of 6 in.
  await stripedSquare(page, '2');
  const along = () => lightnessAlong(page, 1, START, START + LENGTH);
  await expect.poll(async () => turnsOf(await along()).length).toBe(turnsMeant(START, LENGTH, 0.25).length);
  expectTurns(turnsOf(await along()), turnsMeant(START, LENGTH, 0.25), 0.005);

  // Nearer, the stripes grow with the block.
  await page.getByRole('button', { name: 'Zoom in' }).click();
  await expect.poll(async () => turnsOf(await along()).length).toBe(turnsMeant(START, LENGTH, 0.25).length);
  expectTurns(turnsOf(await along()), turnsMeant(START, LENGTH, 0.25), 0.005);

  // The same piece said to be 50 mm wide: stripes of 6.25 mm.
  await page.getByRole('button', { name: 'Picture 2 in wide of Night sea' }).click();
  await across(page).fill('50 mm');
  await page.getByRole('button', { name: 'Use picture' }).click();
  await expect
    .poll(async () => turnsOf(await along()).length)
    .toBe(turnsMeant(START, LENGTH, 6.25 / 25.4).length);
  expectTurns(turnsOf(await along()), turnsMeant(START, LENGTH, 6.25 / 25.4), 0.005);

  await page.getByRole('button', { name: 'Values' }).click();
  // Greys as light as #1b3050 (L* 19.7) and #f5f2e8 (L* 95.5): #303030 and #f2f2f2, by CIE 15 and IEC 61966-2-1.
  // Pictures are kept as JPEG, which may be a few steps off.
  await expect
    .poll(async () => {
      const row = [...(await along())].sort((a, b) => a - b);
      const [dark, light] = [row[Math.floor(row.length / 4)]!, row[Math.floor((3 * row.length) / 4)]!];
      return Math.abs(dark - 0x30) < 5 && Math.abs(light - 0xf2) < 5;
    })
    .toBe(true);
});

test('a picture is given and taken in one step each, is kept, and goes into files', async ({ page }) => {
  await openApp(page);
  await stripedSquare(page, '3 1/2');
  const shown = page.getByRole('button', { name: 'Picture 3 1/2 in wide of Night sea' });
  await expect(shown).toBeVisible();
  await drawingBoard(page).focus();
  await page.keyboard.press('Control+z');
  await expect(page.getByRole('button', { name: 'Add a picture of Night sea' })).toBeVisible();
  // Its colour is the old one again too.
  await expect(page.getByLabel('Colour of Night sea')).toHaveValue('#1b3050');
  await page.keyboard.press('Control+Shift+z');
  await expect(shown).toBeVisible();

  await expect(page.getByText('Saved in this browser')).toBeVisible();
  await page.reload();
  await fabricButton(page, 'Night sea').click();
  await expect(shown).toBeVisible();

  const [saved] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Control+s')]);
  const text = await readFile((await saved.path())!, 'utf8');
  expect(text.match(/data:image\/jpeg;base64,/g)).toHaveLength(1);
  // Listened for well before the key is pressed: the browser has to be told first, or its own chooser opens.
  const choosing = page.waitForEvent('filechooser');
  await shown.click();
  await page.getByRole('button', { name: 'Take the picture away' }).click();
  await expect(page.getByRole('button', { name: 'Add a picture of Night sea' })).toBeVisible();
  await expect(page.locator('dialog')).toHaveCount(0);
  await page.keyboard.press('Control+o');
  const chooser = await choosing;
  await chooser.setFiles((await saved.path())!);
  await fabricButton(page, 'Night sea').click();
  await expect(shown).toBeVisible();
});

async function takeElsewhere(page: Page, kind: 'SVG, measures true' | 'PNG picture'): Promise<Download> {
  await page.keyboard.press('Control+k');
  await expect(page.getByRole('dialog').getByRole('combobox')).toBeFocused();
  await page.keyboard.type('export the block');
  await page.keyboard.press('Enter');
  const dialog = page.getByRole('dialog', { name: /^Export/ });
  await dialog.getByRole('radio', { name: kind }).check();
  await dialog.getByRole('radio', { name: 'In its colours' }).check();
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    dialog.getByRole('button', { name: 'Save' }).click(),
  ]);
  return download;
}

test('the print repeats as often in the PNG and in the SVG', async ({ page }) => {
  await openApp(page);
  await stripedSquare(page, '2');
  const png = await readFile((await (await takeElsewhere(page, 'PNG picture')).path())!);
  const row = await page.evaluate(
    async (bytes) => {
      const bitmap = await createImageBitmap(new Blob([Uint8Array.from(bytes)], { type: 'image/png' }));
      const canvas = document.createElement('canvas');
      canvas.width = bitmap.width;
      canvas.height = 1;
      const pen = canvas.getContext('2d')!;
      pen.drawImage(bitmap, 0, -Math.round(bitmap.height / 5));
      const data = pen.getImageData(0, 0, bitmap.width, 1).data;
      return Array.from({ length: bitmap.width }, (_, i) => data[4 * i + 1]!);
    },
    [...png],
  );
  expect(row).toHaveLength(1200);
  // Off the outline at both ends, whose line is 0.4 mm of the 6 in.
  const line = 0.4 / 25.4;
  const dots = 1200 / (6 + line);
  const inner = row.slice(
    Math.round((START + line / 2) * dots),
    Math.round((START + LENGTH + line / 2) * dots),
  );
  expectTurns(turnsOf(inner), turnsMeant(START, LENGTH, 0.25), 0.004);

  const svg = await readFile((await (await takeElsewhere(page, 'SVG, measures true')).path())!, 'utf8');
  expect(svg).not.toMatch(/https?:\/\/(?!www\.w3\.org\/)/);
  if (!has('rsvg-convert') || !has('pdftoppm')) return;
  const dpi = 200;
  const sheet = renderPdf(runOn(svg, 'svg', 'rsvg-convert', ['-f', 'pdf', '{}']), dpi);
  const level = Array.from({ length: Math.round(LENGTH * dpi) }, (_, i) =>
    sheet.at(Math.round((START + line / 2) * dpi) + i, Math.round(1.2 * dpi)),
  );
  expectTurns(turnsOf(level), turnsMeant(START, LENGTH, 0.25), 0.004);
});

/** The first bytes of a PNG that says to be so large, with nothing to show in it (ISO/IEC 15948, 11.2.2). */
function pngOf(width: number, height: number): Buffer {
  const header = Buffer.alloc(25);
  header.writeUInt32BE(13, 0);
  header.write('IHDR', 4, 'latin1');
  header.writeUInt32BE(width, 8);
  header.writeUInt32BE(height, 12);
  header.set([8, 2, 0, 0, 0], 16);
  const end = Buffer.from([0, 0, 0, 0, ...Buffer.from('IEND', 'latin1'), 0xae, 0x42, 0x60, 0x82]);
  return Buffer.concat([Buffer.from([0x89, ...Buffer.from('PNG\r\n', 'latin1'), 0x1a, 0x0a]), header, end]);
}

test('what is no picture, is cut off or far too large is told, and the last good one stays', async ({
  page,
}) => {
  await openApp(page);
  await stripedSquare(page, '2');
  await page.getByRole('button', { name: 'Picture 2 in wide of Night sea' }).click();
  const dialog = pictureDialog(page);
  const note = dialog.getByRole('status');
  const choose = (buffer: Buffer) => page.getByLabel('Picture file').setInputFiles(file(buffer));
  const good = await stripes(page);
  for (const [bytes, sentence] of [
    [Buffer.from('just some words'), /not a picture.*\.$/],
    [
      Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"><script>window.hit = 1</script></svg>'),
      /SVG.*\.$/,
    ],
    [good.subarray(0, good.length / 2), /stops in the middle.*\.$/],
    [pngOf(20_000, 20_000), /20,000 by 20,000 pixels.*\.$/],
    [pngOf(400, 300), /damaged.*\.$/],
    [Buffer.alloc(0), /empty.*\.$/],
  ] as const) {
    await choose(bytes);
    await expect(note).toHaveText(sentence);
    await expect(dialog.locator('.picture-frame img')).toBeVisible();
  }
  for (const [typed, sentence] of [
    ['0', 'A size must be greater than 0.'],
    ['1/32', 'The width of the piece is less than 1/16 in (1.6 mm).'],
    ['400', 'The width of the piece is more than 120 in (3 m).'],
  ] as const) {
    await choose(good);
    await across(page).fill(typed);
    await expect(dialog).toContainText(sentence);
    await expect(dialog.getByRole('button', { name: 'Use picture' })).toHaveAttribute(
      'aria-disabled',
      'true',
    );
  }
  await page.keyboard.press('Escape');
  await expect(page.getByRole('button', { name: 'Picture 2 in wide of Night sea' })).toBeVisible();
  await expect
    .poll(async () => turnsOf(await lightnessAlong(page, 1, START, START + LENGTH)).length)
    .toBe(turnsMeant(START, LENGTH, 0.25).length);
});

test('a picture is dropped on its fabric, or pasted where the keyboard is', async ({ page }) => {
  await openApp(page);
  const bytes = [...(await stripes(page))];
  const dropped = await page.evaluateHandle((content) => {
    const transfer = new DataTransfer();
    transfer.items.add(new File([Uint8Array.from(content)], 'cloth.png', { type: 'image/png' }));
    return transfer;
  }, bytes);
  await page.dispatchEvent('.swatches li:nth-child(2)', 'dragenter', { dataTransfer: dropped });
  await page.dispatchEvent('.swatches li:nth-child(2)', 'drop', { dataTransfer: dropped });
  await expect(page.getByRole('dialog', { name: 'Picture of ‘Harbour water’' })).toBeVisible();
  await expect(page.getByText('Drop to open the file')).toBeHidden();
  await page.getByRole('button', { name: 'Use picture' }).click();
  await fabricButton(page, 'Harbour water').click();
  await expect(page.getByRole('button', { name: /^Picture .+ of Harbour water$/ })).toBeVisible();

  await fabricButton(page, 'Foam').click();
  await fabricButton(page, 'Foam').evaluate((element, content) => {
    const transfer = new DataTransfer();
    transfer.items.add(new File([Uint8Array.from(content)], 'cloth.png', { type: 'image/png' }));
    element.dispatchEvent(
      new ClipboardEvent('paste', { clipboardData: transfer, bubbles: true, cancelable: true }),
    );
  }, bytes);
  await expect(page.getByRole('dialog', { name: 'Picture of ‘Foam’' })).toBeVisible();
});

test('the frame takes part of the picture, by keyboard and by pointer, and the colour follows', async ({
  page,
}) => {
  await openApp(page);
  await stripedSquare(page, '2');
  await page.getByRole('button', { name: 'Picture 2 in wide of Night sea' }).click();
  const dialog = pictureDialog(page);
  const right = dialog.getByRole('slider', { name: 'Right side of the frame' });
  await right.focus();
  for (let i = 0; i < 5; i++) await page.keyboard.press('PageUp');
  await expect(right).toHaveAttribute('aria-valuenow', '50');
  const left = dialog.getByRole('slider', { name: 'Left side of the frame' });
  const picture = (await dialog.locator('.picture-frame img').boundingBox())!;
  const handle = (await left.boundingBox())!;
  expect(Math.min(handle.width, handle.height)).toBeGreaterThanOrEqual(44);
  await page.mouse.move(handle.x + handle.width / 2, handle.y + handle.height / 2);
  await page.mouse.down();
  await page.mouse.move(picture.x + picture.width / 4, handle.y + 10, { steps: 5 });
  await page.mouse.up();
  await expect(left).toHaveAttribute('aria-valuenow', '25');
  // A quarter of the picture, two stripes, on 2 in: one is 1 in wide.
  await dialog.getByLabel(/Take the colour/).check();
  await page.getByRole('button', { name: 'Use picture' }).click();
  await expect
    .poll(async () => turnsOf(await lightnessAlong(page, 1, START, START + LENGTH)).length)
    .toBe(turnsMeant(START, LENGTH, 1).length);
  expectTurns(
    turnsOf(await lightnessAlong(page, 1, START, START + LENGTH)),
    turnsMeant(START, LENGTH, 1),
    0.006,
  );
  // Half of it L* 19.7, half 95.5: 57.6 together, #8b8b8b or near (CIE 15).
  const color = await page.getByLabel('Colour of Night sea').inputValue();
  const [r, g, b] = [1, 3, 5].map((at) => Number.parseInt(color.slice(at, at + 2), 16));
  expect(Math.abs(0.2126 * r! + 0.7152 * g! + 0.0722 * b! - 0x8b)).toBeLessThan(8);
});

test('letters stay in the middle of a print on a slip that is read by all', async ({ page }) => {
  await openApp(page);
  await addSquare(page, 'Ticking');
  await drag(page, [0, 3], [6, 3]);
  await fabricButton(page, 'Night sea').click();
  await page.mouse.click(...(await onScreen(page, 1, 1)));
  await page.getByRole('button', { name: 'Add a picture of Night sea' }).click();
  await page.getByLabel('Picture file').setInputFiles(file(await stripes(page, '#000000', '#000000')));
  await page.getByRole('button', { name: 'Use picture' }).click();
  // Black cloth: beside the letters the slip is light, in them ink is dark, at 4.5 : 1 at least (WCAG 2.2, 1.4.3).
  const spread = async (): Promise<readonly number[]> => {
    const row = await lightnessAlong(page, 1.5, 2.9, 3.1);
    return [Math.min(...row), Math.max(...row)];
  };
  const light = (value: number): number => {
    const share = value / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  };
  await expect
    .poll(async () => {
      const [dark, pale] = await spread();
      return pale! > 150 && (light(pale!) + 0.05) / (light(dark!) + 0.05) >= 4.5;
    })
    .toBe(true);
});

for (const colorScheme of ['light', 'dark'] as const) {
  test.describe(`in the ${colorScheme} theme`, () => {
    test.use({ colorScheme });

    test('the dialog and the shelf can be used by all (WCAG 2.2 AA)', async ({ page }) => {
      const violations = async () =>
        (await new AxeBuilder({ page }).withTags(['wcag2a', 'wcag2aa', 'wcag22aa']).analyze()).violations.map(
          ({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`,
        );
      await openApp(page);
      await fabricButton(page, 'Night sea').click();
      await page.getByRole('button', { name: 'Add a picture of Night sea' }).press('Enter');
      await expect(page.getByRole('button', { name: 'Choose a picture…' })).toBeFocused();
      expect(await violations()).toEqual([]);
      await page.getByLabel('Picture file').setInputFiles(file(await stripes(page)));
      await expect(across(page)).toBeVisible();
      expect(await violations()).toEqual([]);
      await page.getByRole('button', { name: 'Use picture' }).click();
      await page.getByRole('button', { name: 'Values' }).click();
      expect(await violations()).toEqual([]);
    });
  });
}

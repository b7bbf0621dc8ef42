import AxeBuilder from '@axe-core/playwright';
import { expect, type Locator, type Page, test } from '@playwright/test';
import { HEIGHT, inPhoto, photo, png, pngOf, SQUARES, WIDTH } from './photo.ts';
import { addSquare, onScreen, openApp } from './window.ts';

/** A photo is laid under a block, straightened, and measured on the screen. */

const dialog = (page: Page): Locator => page.getByRole('dialog', { name: 'Square the picture to the block' });
const card = (page: Page): Locator => page.locator('#under-picture-card');
const notice = (page: Page): Locator => page.locator('.notice-place');

async function expectNoViolations(page: Page): Promise<void> {
  const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
  const { violations } = await new AxeBuilder({ page }).withTags(tags).analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`)).toEqual([]);
}

interface Dropped {
  readonly name: string;
  readonly type: string;
  readonly content: Buffer;
  /** Zeros after it, up to so many bytes. */
  readonly filledTo?: number;
}

async function dropOn(page: Page, { name, type, content, filledTo = 0 }: Dropped): Promise<void> {
  const files = await page.evaluateHandle(
    ({ fileName, kind, text, size }) => {
      const bytes = Uint8Array.from(atob(text), (sign) => sign.charCodeAt(0));
      const zeros = new Uint8Array(Math.max(0, size - bytes.length));
      const transfer = new DataTransfer();
      transfer.items.add(new File([bytes, zeros], fileName, { type: kind }));
      return transfer;
    },
    { fileName: name, kind: type, text: content.toString('base64'), size: filledTo },
  );
  await page.dispatchEvent('.desk', 'drop', { dataTransfer: files });
}

const sheetPhoto = (): Dropped => ({ name: 'sheet.png', type: 'image/png', content: photo() });

/** Top left, top right, bottom right, bottom left, as the handles are called. */
const CORNERS = [
  ['Top left corner', [0, 0]],
  ['Top right corner', [SQUARES, 0]],
  ['Bottom right corner', [SQUARES, SQUARES]],
  ['Bottom left corner', [0, SQUARES]],
] as const;

const middleOf = async (handle: Locator): Promise<[number, number]> => {
  const box = (await handle.boundingBox())!;
  return [box.x + box.width / 2, box.y + box.height / 2];
};

async function squareUp(page: Page): Promise<void> {
  const picture = (await dialog(page).locator('.corner-sheet img').boundingBox())!;
  for (const [name, place] of CORNERS) {
    const [u, v] = inPhoto(place);
    await page.mouse.move(...(await middleOf(dialog(page).getByRole('button', { name }))));
    await page.mouse.down();
    await page.mouse.move(
      picture.x + (u / WIDTH) * picture.width,
      picture.y + (v / HEIGHT) * picture.height,
      { steps: 6 },
    );
    await expect(dialog(page).locator('.corner-loupe')).toBeVisible();
    await page.mouse.up();
  }
}

/** How light a row or column of the screen is, 0 … 255 for each pixel, from what is really seen. */
async function lightness(page: Page, clip: { x: number; y: number; width: number; height: number }) {
  const shot = await page.screenshot({ clip });
  return page.evaluate(async (text) => {
    const bytes = Uint8Array.from(atob(text), (sign) => sign.charCodeAt(0));
    const bitmap = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
    const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
    const pen = canvas.getContext('2d')!;
    pen.drawImage(bitmap, 0, 0);
    const { data } = pen.getImageData(0, 0, bitmap.width, bitmap.height);
    return Array.from({ length: data.length / 4 }, (_, k) => data[4 * k + 1]!);
  }, shot.toString('base64'));
}

/** Where light turns dark or dark light along a row, between pixels by their share. */
function edges(row: readonly number[]): readonly number[] {
  const half = (Math.max(...row) + Math.min(...row)) / 2;
  return row.flatMap((value, k) => {
    const before = row[k - 1];
    if (before === undefined || before < half === value < half) return [];
    return [k - 0.5 + (half - before) / (value - before)];
  });
}

/** Furthest that an edge between two squares lies from the line of the block it belongs to, CSS pixels. */
async function worstEdge(page: Page): Promise<number> {
  let worst = 0;
  for (const along of ['x', 'y'] as const)
    for (let row = 0; row < SQUARES; row++) {
      const ends = [
        [0.12, row + 0.35],
        [SQUARES - 0.12, row + 0.35],
      ].map(([a, b]) => onScreen(page, ...((along === 'x' ? [a!, b!] : [b!, a!]) as [number, number])));
      const [[x, y], [x2, y2]] = [await ends[0]!, await ends[1]!];
      const [left, top] = [Math.round(x), Math.round(y)];
      const row_ = await lightness(
        page,
        along === 'x'
          ? { x: left, y: top, width: Math.round(x2) - left, height: 1 }
          : { x: left, y: top, width: 1, height: Math.round(y2) - top },
      );
      const found = edges(row_);
      expect(found).toHaveLength(SQUARES - 1);
      for (const [k, edge] of found.entries()) {
        const line = await onScreen(page, k + 1, k + 1);
        const seen = (along === 'x' ? left : top) + edge + 0.5;
        worst = Math.max(worst, Math.abs(seen - line[along === 'x' ? 0 : 1]));
      }
    }
  return worst;
}

test('a photo of a sheet is squared up, and its lines lie on those of the block', async ({ page }) => {
  await openApp(page);
  await addSquare(page, 'Chequered flag');
  await page.locator('.grid-choice select').selectOption('off');
  await dropOn(page, sheetPhoto());
  await expect(dialog(page)).toBeVisible();
  await squareUp(page);
  await page.getByRole('button', { name: 'Lay it under' }).click();
  await expect(dialog(page)).toBeHidden();

  await expect(card(page)).toBeVisible();
  await card(page).getByLabel('Opacity').fill('100');
  await page.keyboard.press('Escape');
  await page.mouse.move(4, 4);
  await expect(async () => expect(await worstEdge(page)).toBeLessThan(2)).toPass({ timeout: 60_000 });

  // It stays what it is when the page is loaded anew.
  await expect(page.getByText('Saved in this browser')).toBeVisible();
  await page.reload();
  await expect(page.getByRole('button', { name: 'Picture', exact: true })).toBeVisible();
  await page.locator('.grid-choice select').selectOption('off');
  await expect(async () => expect(await worstEdge(page)).toBeLessThan(2)).toPass({ timeout: 60_000 });

  // Turned, it goes with the block.
  await page.keyboard.press('ControlOrMeta+k');
  await page.getByRole('combobox', { name: 'Command' }).fill('Turn the block left');
  await page.keyboard.press('Enter');
  await expect(async () => expect(await worstEdge(page)).toBeLessThan(2)).toPass({ timeout: 60_000 });
});

test('a picture is faded, hidden, locked, squared up again and taken away, each a step to undo', async ({
  page,
}) => {
  await openApp(page);
  await addSquare(page, 'Gull sketch');
  await dropOn(page, sheetPhoto());
  await page.getByRole('button', { name: 'Lay it under' }).click();
  const picture = page.getByRole('button', { name: /^Picture/ });
  const undo = page.getByRole('button', { name: /^Undo/ }).first();

  await card(page).getByLabel('Opacity').focus();
  await page.keyboard.press('ArrowLeft');
  await page.keyboard.press('ArrowLeft');
  await expect(card(page).getByText('50 %')).toBeVisible();
  await card(page).getByLabel('Locked').check();
  await expect(card(page).getByRole('button', { name: 'Take it away' })).toHaveAttribute(
    'aria-disabled',
    'true',
  );
  await dropOn(page, sheetPhoto());
  await expect(notice(page)).toContainText('is locked: unlock it first');
  await expect(dialog(page)).toBeHidden();

  await undo.click();
  await undo.click();
  await picture.click();
  await expect(card(page).getByText('60 %')).toBeVisible();
  await expect(card(page).getByLabel('Locked')).not.toBeChecked();

  await card(page).getByRole('button', { name: 'Square up again…' }).click();
  const handle = dialog(page).getByRole('button', { name: 'Top left corner' });
  await expect(handle).toBeFocused();
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Shift+ArrowDown');
  await expect(handle).toHaveAttribute('aria-description', /^97 across, 82 down/);
  await page.getByRole('button', { name: 'Square it up' }).click();

  await page.keyboard.press('Escape');
  await page.keyboard.press('u');
  await expect(picture).toContainText('hidden');
  await page.keyboard.press('ControlOrMeta+z');
  await expect(picture).not.toContainText('hidden');
  await picture.click();
  await card(page).getByRole('button', { name: 'Take it away' }).click();
  await expect(picture).toHaveCount(0);
  await page.keyboard.press('ControlOrMeta+z');
  await expect(picture).toBeVisible();
});

test('on a phone the acts of the dialog are in sight, whatever is scrolled', async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await openApp(page);
  await dropOn(page, sheetPhoto());
  const act = dialog(page).getByRole('button', { name: 'Lay it under' });
  await expect(act).toBeInViewport({ ratio: 1 });
  const sheet = (await dialog(page).boundingBox())!;
  const box = (await act.boundingBox())!;
  // Whole, and clear of the edge of the sheet.
  expect(box.y + box.height).toBeLessThan(sheet.y + sheet.height - 8);
});

test('in the value view the picture is a grey as well', async ({ page }) => {
  await openApp(page);
  await addSquare(page, 'Signal flag');
  // One red: CIE L* 53.24, so the grey as light is #7f7f7f (sRGB red, IEC 61966-2-1; L* by CIE 15).
  const red = png(240, 240, () => [255, 0, 0]);
  await dropOn(page, { name: 'red.png', type: 'image/png', content: red });
  await page.getByRole('button', { name: 'Lay it under' }).click();
  await card(page).getByLabel('Opacity').fill('100');
  await page.keyboard.press('Escape');
  const seen = async (): Promise<readonly number[]> => {
    const [x, y] = await onScreen(page, 2.1, 2.1);
    const shot = await page.screenshot({ clip: { x: Math.round(x), y: Math.round(y), width: 2, height: 2 } });
    return page.evaluate(async (text) => {
      const bytes = Uint8Array.from(atob(text), (sign) => sign.charCodeAt(0));
      const bitmap = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
      const canvas = new OffscreenCanvas(2, 2);
      const pen = canvas.getContext('2d')!;
      pen.drawImage(bitmap, 0, 0);
      return [...pen.getImageData(0, 0, 1, 1).data.slice(0, 3)];
    }, shot.toString('base64'));
  };
  await expect.poll(async () => (await seen())[0]! - (await seen())[1]!).toBeGreaterThan(200);
  await page.getByRole('button', { name: 'Values' }).click();
  await expect.poll(async () => Math.max(...(await seen())) - Math.min(...(await seen()))).toBeLessThan(4);
  expect(Math.abs((await seen())[0]! - 0x7f)).toBeLessThan(12);
});

test('a picture is pasted, and the keyboard alone squares it up', async ({ page }) => {
  await openApp(page);
  await addSquare(page, 'Buoy');
  await page.evaluate(async (text) => {
    const bytes = Uint8Array.from(atob(text), (sign) => sign.charCodeAt(0));
    const clipboardData = new DataTransfer();
    clipboardData.items.add(new File([bytes], 'image.png', { type: 'image/png' }));
    document
      .querySelector('.drawing-board')!
      .dispatchEvent(new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }));
  }, photo().toString('base64'));
  const corner = dialog(page).getByRole('button', { name: 'Top left corner' });
  await expect(corner).toBeFocused();
  const box = (await corner.boundingBox())!;
  expect(Math.min(box.width, box.height)).toBeGreaterThanOrEqual(44);
  // Across the whole picture, past the other corners: no longer a shape with four sides.
  for (let press = 0; press < 90; press++) await page.keyboard.press('Shift+ArrowRight');
  await expect(dialog(page)).toContainText('without dents and crossings');
  await expect(page.getByRole('button', { name: 'Lay it under' })).toHaveAttribute('aria-disabled', 'true');
  await page.getByRole('button', { name: 'Whole picture' }).click();
  await page.getByRole('button', { name: 'Lay it under' }).press('Enter');
  await expect(card(page)).toBeVisible();
});

/** A JPEG with the words of a camera in it: to be shown turned a quarter, and where it was taken. */
async function cameraPhoto(page: Page): Promise<Buffer> {
  const plain = await page.evaluate(async () => {
    const canvas = new OffscreenCanvas(320, 200);
    const pen = canvas.getContext('2d')!;
    pen.fillStyle = '#fff';
    pen.fillRect(0, 0, 320, 200);
    pen.fillStyle = '#a6322b';
    pen.fillRect(0, 0, 160, 100);
    const blob = await canvas.convertToBlob({ type: 'image/jpeg', quality: 0.95 });
    return Array.from(new Uint8Array(await blob.arrayBuffer()));
  });
  // One entry of the first directory: orientation (0x0112), a short, 6: the first row is the right side. Source: Exif 2.3, 4.6.4.
  const exif = Buffer.concat([
    Buffer.from('Exif\0\0MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0\x06\0\0\0\0\0\0', 'latin1'),
    Buffer.from('54.3233 N 10.1228 E, harbour wall', 'latin1'),
  ]);
  const head = Buffer.from([0xff, 0xd8, 0xff, 0xe1, 0, 0]);
  head.writeUInt16BE(exif.length + 2, 4);
  return Buffer.concat([head, exif, Buffer.from(plain.slice(2))]);
}

test('a photo stands as its camera was held, and what else the file tells stays behind', async ({ page }) => {
  await openApp(page);
  const content = await cameraPhoto(page);
  expect(content.includes('harbour wall')).toBe(true);
  await dropOn(page, { name: 'quay.jpg', type: 'image/jpeg', content });
  const seen = await dialog(page)
    .locator('.corner-sheet img')
    .evaluate(async (image: HTMLImageElement) => {
      await image.decode();
      const [width, height] = [image.naturalWidth, image.naturalHeight];
      const pen = new OffscreenCanvas(width, height).getContext('2d')!;
      pen.drawImage(image, 0, 0);
      const greenAt = (x: number, y: number): number => pen.getImageData(x, y, 1, 1).data[1]!;
      return { src: image.src, width, height, right: greenAt(width - 9, 9), left: greenAt(9, 9) };
    });
  expect([seen.width, seen.height]).toEqual([200, 320]);
  // What was top left is top right now.
  expect(seen.right).toBeLessThan(90);
  expect(seen.left).toBeGreaterThan(240);
  const kept = Buffer.from(seen.src.split(',')[1]!, 'base64');
  expect(kept.includes('harbour wall')).toBe(false);
  expect(kept.includes('Exif')).toBe(false);
});

test('everyone can use it', async ({ page }) => {
  await openApp(page);
  await dropOn(page, sheetPhoto());
  await expect(dialog(page)).toBeVisible();
  for (const colorScheme of ['light', 'dark'] as const) {
    // Colours do not glide from one scheme to the other while they are measured.
    await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
    await expectNoViolations(page);
  }
  await page.getByRole('button', { name: 'Lay it under' }).click();
  await expect(card(page)).toBeVisible();
  for (const colorScheme of ['dark', 'light'] as const) {
    // Colours do not glide from one scheme to the other while they are measured.
    await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
    await expectNoViolations(page);
  }
});

test('what is no picture, or too large a one, is refused in words and nothing is lost', async ({ page }) => {
  await openApp(page);
  await addSquare(page, 'Breakwater');
  const whole = photo();
  const huge = Buffer.alloc(13);
  huge.writeUInt32BE(20_000, 0);
  huge.writeUInt32BE(20_000, 4);
  huge.set([8, 2, 0, 0, 0], 8);
  const damaged = Buffer.from(whole);
  damaged.fill(0x55, 60, 4_000);
  const svg =
    '<svg xmlns="http://www.w3.org/2000/svg" onload="window.wasRun = true"><script>wasRun = 1</script></svg>';
  const cases: readonly (readonly [string, string, Buffer, string])[] = [
    ['nothing.png', 'image/png', Buffer.alloc(0), 'The file is empty.'],
    ['drawing.png', 'image/png', Buffer.from(svg), 'is an SVG drawing'],
    ['letter.jpg', 'image/jpeg', Buffer.from('Dear harbour master'), 'is not a picture'],
    ['half.png', 'image/png', whole.subarray(0, whole.length / 2), 'stops in the middle'],
    ['huge.png', 'image/png', pngOf(huge, Buffer.alloc(16)), '20,000 by 20,000 pixels'],
    ['broken.png', 'image/png', damaged, 'damaged'],
    ['fat.png', 'image/png', whole, '41 MB'],
  ];
  for (const [name, type, content, sentence] of cases) {
    await dropOn(page, { name, type, content, ...(name === 'fat.png' && { filledTo: 40_000_001 }) });
    await expect(notice(page)).toContainText(sentence);
    await expect(notice(page)).toContainText(`‘${name}’ was not laid under the drawing.`);
    await expect(dialog(page)).toHaveCount(0);
  }
  expect(await page.evaluate(() => 'wasRun' in window)).toBe(false);
  await expect(page.getByRole('button', { name: /^Undo add block/i }).first()).toBeVisible();

  // Long, but no larger than a photo: it is made smaller.
  await dropOn(page, {
    name: 'strip.png',
    type: 'image/png',
    content: png(20_000, 50, (x) => (x % 200 < 100 ? [40, 60, 90] : [240, 240, 230])),
  });
  await expect(dialog(page)).toBeVisible({ timeout: 20_000 });
  const size = await dialog(page)
    .locator('.corner-sheet img')
    .evaluate((image: HTMLImageElement) => [image.naturalWidth, image.naturalHeight]);
  expect(size).toEqual([1600, 4]);
});

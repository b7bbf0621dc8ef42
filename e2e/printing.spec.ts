import { expect, test } from '@playwright/test';
import { asksForNoScaling, hasPoppler, levels, pageSizes, rendered, runDown, textOf } from './ruler.ts';
import { addSquare, drag, openApp } from './window.ts';

test('a block is printed at true scale', async ({ page }, testInfo) => {
  await openApp(page);
  await addSquare(page, 'Ferry');
  await drag(page, [0, 1.5], [6, 1.5]);
  await drag(page, [0, 4.5], [6, 4.5]);
  await drag(page, [2, 1.5], [2, 4.5]);
  await drag(page, [4, 1.5], [4, 4.5]);

  await page.getByRole('button', { name: 'Paper', exact: true }).click();
  await expect(page.getByText('1 foundation on 1 sheet')).toBeVisible();
  const downloading = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Download PDF' }).click();
  const download = await downloading;
  expect(download.suggestedFilename()).toMatch(/\.pdf$/);
  const pdf = testInfo.outputPath('sheets.pdf');
  await download.saveAs(pdf);

  // Letter is 8 1/2 by 11 in, 612 by 792 points (ANSI/ASME Y14.1; ISO 32000-1, 8.3.2.3: 72 units to the inch).
  const sizes = pageSizes(pdf);
  expect(sizes).toHaveLength(1);
  expect(sizes[0]!.toSorted((a, b) => a - b)).toEqual([612, 792]);
  expect(asksForNoScaling(pdf)).toBe(true);

  test.skip(!hasPoppler(), 'poppler is not here to measure the sheet; its size was read from the file');
  const text = textOf(pdf);
  for (const label of ['A1', 'A5', 'Ferry', 'test square']) expect(text).toContain(label);

  const dpi = 300;
  const sheet = rendered(pdf, testInfo.outputDir, dpi);
  // The test square: level edges of 1 in with an upright edge of 1 in at their left ends.
  const squares = levels(sheet, dpi, 6).filter(({ x, y }) => Math.abs(runDown(sheet, x + 1, y) - dpi) <= 6);
  expect(squares.length).toBeGreaterThan(0);
  const [square] = squares;
  expect(Math.abs(square!.length - dpi)).toBeLessThanOrEqual(4);
  expect(Math.abs(runDown(sheet, square!.x + 1, square!.y) - dpi)).toBeLessThanOrEqual(4);
  // The block finishes 6 in wide: its outer sewing line is 6 in long.
  expect(levels(sheet, 6 * dpi, 6).length).toBeGreaterThan(0);
});

test('the sheets follow the page size and the copies', async ({ page }, testInfo) => {
  await openApp(page);
  await addSquare(page, 'Pennant');
  await drag(page, [0, 3], [6, 3]);
  await page.getByRole('button', { name: 'Paper', exact: true }).click();
  await page.getByLabel('Page size').selectOption('a4');
  await page.getByLabel('Copies of Pennant').fill('3');
  await expect(page.getByText(/^3 foundations on \d sheets$/)).toBeVisible();
  const downloading = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Download PDF' }).click();
  const pdf = testInfo.outputPath('copies.pdf');
  await (await downloading).saveAs(pdf);
  // A4 is 210 by 297 mm (ISO 216).
  for (const [width, height] of pageSizes(pdf).map((size) => size.toSorted((a, b) => a - b))) {
    expect((width! / 72) * 25.4).toBeCloseTo(210, 1);
    expect((height! / 72) * 25.4).toBeCloseTo(297, 1);
  }
});

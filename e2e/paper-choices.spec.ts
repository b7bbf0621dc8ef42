import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { expect, type Page, type TestInfo, test } from '@playwright/test';
import { unzipSync } from 'fflate';
import {
  asksForNoScaling,
  hasPoppler,
  levels,
  type Page as Picture,
  pageSizes,
  rendered,
  runDown,
  textOf,
} from './ruler.ts';
import { openApp } from './window.ts';

const DPI = 600;

/** What is chosen in the Paper place is printed: each choice is made by hand, and measured on the file it gives. */
const count = (page: Page) => page.locator('.paper-count');

const option = (page: Page, name: string) =>
  page
    .locator('.choice-option')
    .filter({ hasText: new RegExp(`^${name}$`) })
    .click();

/** Opens a block of the demo and goes to its papers. */
async function openPaper(page: Page, block: string): Promise<void> {
  await openApp(page);
  await page.locator('.block-item', { hasText: block }).click();
  await page.getByRole('button', { name: 'Paper', exact: true }).click();
  await expect(count(page)).toHaveText(/^\d+ foundations? on \d+ sheets?$/);
}

/** How many foundations and sheets the panel says there are, once they are laid out. */
async function counted(page: Page): Promise<readonly [foundations: number, sheets: number]> {
  await expect(count(page)).toHaveText(/^\d+ foundations? on \d+ sheets?$/, { timeout: 30_000 });
  await expect(page.getByRole('button', { name: 'Download PDF' })).toHaveAttribute('aria-disabled', 'false');
  const numbers = ((await count(page).textContent()) ?? '').match(/\d+/g)!.map(Number);
  return [numbers[0]!, numbers[1]!];
}

async function downloaded(page: Page, testInfo: TestInfo, name: string): Promise<string> {
  await counted(page);
  const downloading = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Download PDF' }).click();
  const pdf = testInfo.outputPath(`${name}.pdf`);
  await (await downloading).saveAs(pdf);
  expect(asksForNoScaling(pdf)).toBe(true);
  return pdf;
}

/** The test square of the first sheet, from the middle of one line to the middle of the other, in inches. */
function squareOf(pdf: string, testInfo: TestInfo): { readonly across: number; readonly down: number } {
  const sheet = rendered(pdf, testInfo.outputDir, DPI);
  const slack = 0.08 * DPI;
  const square = levels(sheet, DPI, slack).find(
    ({ x, y }) => Math.abs(runDown(sheet, x + 1, y) - DPI) <= slack,
  )!;
  const pen = runDown(sheet, square.x + Math.round(square.length / 2), square.y);
  return {
    across: (square.length - pen) / DPI,
    down: (runDown(sheet, square.x + 1, square.y) - pen) / DPI,
  };
}

/** Upright lines of ink as long as asked for within `slack` pixels, left to right. */
function hasUpright(sheet: Picture, length: number, slack: number): boolean {
  for (let x = 0; x < sheet.width; x++)
    for (let y = 0; y < sheet.height; ) {
      const run = runDown(sheet, x, y);
      if (Math.abs(run - length) <= slack) return true;
      y += Math.max(1, run);
    }
  return false;
}

/** The papers on each sheet, such as `Fish A`: read from the drawings, where titles set aslant keep their words. */
async function papersOn(page: Page, testInfo: TestInfo, name: string): Promise<readonly string[][]> {
  await counted(page);
  const button = page.getByRole('button', { name: 'An SVG for each sheet' });
  if (!(await button.isVisible())) await page.getByText('Other files').click();
  const downloading = page.waitForEvent('download');
  await button.click();
  const archive = testInfo.outputPath(`${name}.zip`);
  await (await downloading).saveAs(archive);
  return Object.values(unzipSync(readFileSync(archive))).map((drawing) => {
    const texts = [
      ...Buffer.from(drawing)
        .toString()
        .matchAll(/aria-label="([^"]*)"/g),
    ].map(([, text]) => text);
    return [...texts.join(' ').matchAll(/(\w+)(?:, section)? (\w+), copy (\d+) of \d+/g)].map(
      ([, block, section, copy]) => `${block} ${section} ${copy}`,
    );
  });
}

test.skip(!hasPoppler(), 'poppler is not here to measure the sheets');

test('a larger page takes a block whole that came in tiles', async ({ page }, testInfo) => {
  await openPaper(page, 'Fish');
  await expect(page.getByText(/^Fish: sections .* larger than one sheet/)).toBeVisible();
  expect(textOf(await downloaded(page, testInfo, 'letter'))).toContain('Tile 1 of 2');

  await page.getByLabel('Page size').selectOption('tabloid');
  await expect(page.getByText(/^Fish: sections .* larger than one sheet/)).toBeHidden();
  const pdf = await downloaded(page, testInfo, 'tabloid');
  // Tabloid is 11 by 17 in, 792 by 1,224 points (ANSI/ASME Y14.1 size B).
  for (const size of pageSizes(pdf)) expect(size.toSorted((a, b) => a - b)).toEqual([792, 1224]);
  expect(textOf(pdf)).not.toContain('Tile 1 of 2');
  const { across, down } = squareOf(pdf, testInfo);
  expect(Math.abs(across - 1)).toBeLessThan(2 / DPI);
  expect(Math.abs(down - 1)).toBeLessThan(2 / DPI);
  // The block finishes 12 in wide, and a foundation that reaches across it has a sewing line of that length.
  const sheet = rendered(pdf, testInfo.outputDir, 150);
  expect(levels(sheet, 12 * 150, 4).length > 0 || hasUpright(sheet, 12 * 150, 4)).toBe(true);

  await page.getByLabel('Page size').selectOption('other');
  await page.getByLabel('Width and height').fill('18x24');
  await expect(page.getByText('is no page')).toBeVisible();
  await page.getByLabel('Width and height').fill('450 x 610 mm');
  await expect(page.getByText('is no page')).toBeHidden();
  const [size] = pageSizes(await downloaded(page, testInfo, 'typed'));
  const millimetres = size!.map((points) => (points / 72) * 25.4).sort((a, b) => a - b);
  expect(millimetres[0]).toBeCloseTo(450, 1);
  expect(millimetres[1]).toBeCloseTo(610, 1);
});

test('the join that is offered makes a block fit, and undo takes it back', async ({ page }, testInfo) => {
  await openPaper(page, 'Fish');
  const [before] = await counted(page);
  const offer = page.getByRole('region', { name: 'Without tiles' });
  const [, promised, now] =
    /: (\d+) foundations instead of (\d+)/.exec((await offer.locator('p').textContent()) ?? '') ?? [];
  expect(Number(now)).toBe(before);
  await offer.getByRole('button', { name: /^Add th/ }).click();
  await expect(count(page)).toHaveText(new RegExp(`^${promised} foundations on`));
  await expect(offer).toBeHidden();
  const pdf = await downloaded(page, testInfo, 'joined');
  expect(textOf(pdf)).not.toMatch(/Tile \d+ of/);
  const papers = (await papersOn(page, testInfo, 'joined')).flat();
  expect(papers).toHaveLength(Number(promised));
  expect(new Set(papers).size).toBe(Number(promised));
  const { across, down } = squareOf(pdf, testInfo);
  expect(Math.abs(across - 1)).toBeLessThan(2 / DPI);
  expect(Math.abs(down - 1)).toBeLessThan(2 / DPI);

  await page.getByRole('button', { name: /^Undo add joins? to Fish/ }).click();
  await expect(count(page)).toHaveText(new RegExp(`^${before} foundations on`));
  await expect(offer).toBeVisible();
  expect(textOf(await downloaded(page, testInfo, 'undone'))).toContain('Tile 1 of 2');
});

test('copies are printed each with its number, and share sheets as chosen', async ({ page }, testInfo) => {
  await openPaper(page, 'Fish');
  await page.getByLabel('Page size').selectOption('tabloid');
  await page.getByRole('checkbox', { name: 'Compass star', exact: true }).check();
  await page.getByLabel('Copies of Fish').fill('3');
  const section = (paper: string): string => paper.replace(/ \d+$/, '');
  const block = (paper: string): string => paper.split(' ')[0]!;

  const share = page.getByLabel('Share a sheet');
  const desk = page.locator('.paper-desk');
  const [foundations, fewest] = await counted(page);
  const all = (await papersOn(page, testInfo, 'fewest')).flat().toSorted();
  // Each section of the block in the copies 1, 2 and 3, of the other once, none twice.
  expect(new Set(all).size).toBe(foundations);
  for (const paper of new Set(all.map(section)))
    expect(all.filter((one) => section(one) === paper)).toEqual(
      (block(paper) === 'Fish' ? [1, 2, 3] : [1]).map((copy) => `${paper} ${copy}`),
    );
  expect(pageSizes(await downloaded(page, testInfo, 'fewest'))).toHaveLength(fewest);

  const laidOutAgain = async (choose: () => Promise<unknown>): Promise<void> => {
    const before = (await desk.getAttribute('data-layout'))!;
    await choose();
    await expect(desk).not.toHaveAttribute('data-layout', before);
    await counted(page);
  };
  await laidOutAgain(() => share.selectOption({ label: 'Only papers of one block' }));
  const [, byBlock] = await counted(page);
  expect(byBlock).toBeGreaterThanOrEqual(fewest);
  const blocks = await papersOn(page, testInfo, 'blocks');
  for (const papers of blocks) expect(new Set(papers.map(block)).size).toBe(1);
  expect(blocks.flat().toSorted()).toEqual(all);
  expect(pageSizes(await downloaded(page, testInfo, 'blocks'))).toHaveLength(byBlock);

  await laidOutAgain(() => share.selectOption({ label: 'Only copies of one section' }));
  const sections = await papersOn(page, testInfo, 'sections');
  for (const papers of sections) expect(new Set(papers.map(section)).size).toBe(1);
  expect(sections.flat().toSorted()).toEqual(all);

  await laidOutAgain(() => share.selectOption({ label: 'Whatever fits, on the fewest sheets' }));
  await laidOutAgain(() => option(page, 'Freely'));
  expect((await counted(page))[1]).toBeLessThanOrEqual(fewest);
  expect((await papersOn(page, testInfo, 'free')).flat().toSorted()).toEqual(all);
  const { across, down } = squareOf(await downloaded(page, testInfo, 'free'), testInfo);
  expect(Math.abs(across - 1)).toBeLessThan(2 / DPI);
  expect(Math.abs(down - 1)).toBeLessThan(2 / DPI);
});

test('a printer that is a little off is corrected, one that is far off is not', async ({
  page,
}, testInfo) => {
  await openPaper(page, 'Fish');
  await page.getByLabel('Correct the drawing for').selectOption({ label: 'Another printer …' });
  await page.getByRole('textbox', { name: 'Name', exact: true }).fill('Loft');
  await page.getByLabel('50 mm line across').fill('50.4');
  await page.getByLabel('50 mm line down').fill('49,2');
  const told = page.locator('.paper-printer [role=status]');
  // 50 / 50.4 is 99.2 %, 50 / 49.2 is 101.6 %.
  await expect(told).toContainText('99.2 % across, 101.6 % down');
  await expect(page.locator('.sheet').first()).toContainText('corrected for ‘Loft’');
  const pdf = await downloaded(page, testInfo, 'corrected');
  expect(textOf(pdf).replace(/\s+/g, ' ')).toContain('corrected for ‘Loft’: 99.2 % across, 101.6 % down');
  for (const size of pageSizes(pdf)) expect(size.toSorted((a, b) => a - b)).toEqual([612, 792]);
  const square = squareOf(pdf, testInfo);
  // The printer makes 50.4 of 50 across and 49.2 of 50 down: what it lays down is 1 in.
  expect(Math.abs((square.across * 50.4) / 50 - 1)).toBeLessThan(2 / DPI);
  expect(Math.abs((square.down * 49.2) / 50 - 1)).toBeLessThan(2 / DPI);

  await page.getByLabel('50 mm line across').fill('45');
  await expect(told).toContainText('more than 5% off. Look at the viewer’s scaling first');
  await expect(told).toContainText('Nothing is corrected.');
  await expect(page.locator('.sheet').first()).not.toContainText('corrected');
  const plain = await downloaded(page, testInfo, 'refused');
  expect(textOf(plain)).not.toContain('corrected');
  expect(Math.abs(squareOf(plain, testInfo).across - 1)).toBeLessThan(2 / DPI);

  await page.getByLabel('50 mm line across').fill('50.4');
  await page.reload();
  await page.getByRole('button', { name: 'Paper', exact: true }).click();
  await expect(page.getByLabel('50 mm line down')).toHaveValue('49,2');
  await expect(page.locator('.sheet').first()).toContainText('corrected for ‘Loft’');
});

test('a file with other pages is numbered through', async ({ page }, testInfo) => {
  await openPaper(page, 'Fish');
  for (const part of ['Cover', 'Joining guide'])
    await page.getByRole('checkbox', { name: part, exact: true }).check();
  await expect(count(page)).toHaveText(/in all$/);
  await expect(page.getByRole('button', { name: 'Download PDF' })).toHaveAttribute('aria-disabled', 'false');
  const downloading = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Download PDF' }).click();
  const pdf = testInfo.outputPath('booklet.pdf');
  await (await downloading).saveAs(pdf);
  const pages = pageSizes(pdf).length;
  for (let i = 1; i <= pages; i++) {
    const text = execFileSync('pdftotext', ['-f', `${i}`, '-l', `${i}`, pdf, '-'], { encoding: 'utf8' });
    expect(text.match(/\b(?:Page|Sheet) \d+ of \d+/g)).toEqual([`Page ${i} of ${pages}`]);
  }
});

test('what is chosen is there again after a reload: copies in the file, page and margin in this browser', async ({
  page,
}, testInfo) => {
  await openPaper(page, 'Fish');
  await page.getByLabel('Copies of Fish').fill('3');
  await page.getByRole('checkbox', { name: 'Ferry', exact: true }).check();
  await page.getByLabel('Copies of Ferry').fill('2');
  await page.getByLabel('Page size').selectOption({ label: 'A4, 210 × 297 mm' });
  await page.getByLabel('Margin the printer leaves').fill('10 mm');
  await page.getByLabel('Margin the printer leaves').press('Tab');
  await option(page, 'Freely');
  const before = await counted(page);
  await expect(page.getByText('Saved in this browser')).toBeVisible();

  await page.reload();
  await page.getByRole('button', { name: 'Paper', exact: true }).click();
  await expect(page.getByLabel('Copies of Fish')).toHaveValue('3');
  await expect(page.getByLabel('Copies of Ferry')).toHaveValue('2');
  await expect(page.getByLabel('Page size')).toHaveValue('a4');
  await expect(page.getByLabel('Margin the printer leaves')).toHaveValue(/10/);
  expect(await counted(page)).toEqual(before);

  const pdf = await downloaded(page, testInfo, 'kept');
  for (const size of pageSizes(pdf)) expect(size.toSorted((a, b) => a - b)[0]).toBeCloseTo(595.28, 0);
});

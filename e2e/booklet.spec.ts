import { execFileSync, spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { expect, test } from '@playwright/test';
import { unzipSync } from 'fflate';
import { openFile } from '../src/document/file.ts';
import { lightnessOf } from '../src/document/lightness.ts';
import { piece } from '../src/piecing/piece.ts';
import { openApp } from './window.ts';

const has = (tool: string): boolean => spawnSync('which', [tool]).status === 0;

const demo = () => {
  const opened = openFile(readFileSync('public/demo/harbour-sampler.underpaper.json', 'utf8'));
  if (!opened.ok) throw new Error('The demo does not open.');
  return opened.project;
};

test('all blocks with their joining guides in one file', async ({ page }, testInfo) => {
  await openApp(page);
  await page.getByRole('button', { name: 'Paper', exact: true }).click();
  await page.getByRole('button', { name: 'Choose all' }).click();
  await page.getByRole('checkbox', { name: 'Joining guide', exact: true }).check();
  const sum = page.locator('.paper-count');
  await expect(sum).toHaveText(/^\d+ foundations, \d+ sheets in all$/, { timeout: 30_000 });
  const shown = Number(/(\d+) sheets/.exec((await sum.textContent()) ?? '')?.[1]);
  await expect(page.locator('.sheet-title').first()).toHaveText(
    `Lighthouse: joining guide, page 1 of ${shown}`,
  );

  const downloading = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Download PDF' }).click();
  const pdf = testInfo.outputPath('sampler.pdf');
  await (await downloading).saveAs(pdf);

  test.skip(
    !has('pdftotext') || !has('pdfinfo') || !has('qpdf'),
    'poppler and qpdf are not here to read the file',
  );
  expect(execFileSync('pdfinfo', [pdf]).toString()).toMatch(new RegExp(`Pages:\\s+${shown}\\n`));
  const { outlines } = JSON.parse(
    execFileSync('qpdf', ['--json', '--json-key=outlines', pdf], { maxBuffer: 1 << 26 }).toString(),
  ) as { outlines: { title: string; kids: { title: string; destpageposfrom1: number }[] }[] };

  const { blocks, fabrics } = demo();
  // Those that the quilt shows mirrored are made turned over as well, each after the block it is of.
  const drawn = outlines.filter(({ title }) => !title.endsWith(', mirrored'));
  expect(drawn.map(({ title }) => title)).toEqual(blocks.map(({ name }) => name));
  expect(drawn.length).toBeLessThan(outlines.length);
  for (const block of blocks) {
    const i = outlines.findIndex(({ title }) => title === block.name);
    const guide = outlines[i]!.kids.find(({ title }) => title === 'Joining guide')!;
    const next = outlines[i + 1]?.kids.find(({ title }) => title === 'Joining guide');
    const range = ['-f', `${guide.destpageposfrom1}`];
    if (next) range.push('-l', `${next.destpageposfrom1 - 1}`);
    const text = execFileSync('pdftotext', [...range, pdf, '-']).toString();
    expect(text).toContain(block.name);
    for (const { step } of piece(block, { lightness: lightnessOf(fabrics) }).joins)
      expect(text).toContain(`Join ${step}:`);
  }
});

test('a cover, templates and a drawing for each sheet', async ({ page }, testInfo) => {
  await openApp(page);
  await page.getByRole('button', { name: 'Paper', exact: true }).click();
  await expect(page.getByText(/^\d+ foundations? on \d+ sheets?$/)).toBeVisible();
  for (const part of ['Cover', 'Cutting templates', 'Cautions'])
    await page.getByRole('checkbox', { name: part, exact: true }).check();
  await page.getByRole('checkbox', { name: 'Foundations', exact: true }).uncheck();
  const sum = page.locator('.paper-count');
  // Only what is laid out whole can be written.
  await expect(page.getByRole('button', { name: 'Download PDF' })).toHaveAttribute('aria-disabled', 'false');
  await expect(sum).toHaveText(/^\d+ sheets$/);
  const shown = Number(/^(\d+)/.exec((await sum.textContent()) ?? '')?.[1]);
  await page.getByText('Other files').click();
  for (const [label, ending] of [
    ['An SVG for each sheet', 'svg'],
    ['A PNG for each sheet', 'png'],
  ] as const) {
    const downloading = page.waitForEvent('download');
    await page.getByRole('button', { name: label }).click();
    const file = testInfo.outputPath(`${ending}.zip`);
    await (await downloading).saveAs(file);
    const files = unzipSync(readFileSync(file));
    expect(Object.keys(files)).toHaveLength(shown);
    const first = Object.values(files)[0]!;
    if (ending === 'svg') expect(Buffer.from(first).toString()).toContain('<g id="cut">');
    else {
      // Width and height stand in a PNG's first chunk (PNG specification, IHDR): Letter at 300 dots to the inch.
      const head = Buffer.from(first);
      expect([head.readUInt32BE(16), head.readUInt32BE(20)]).toEqual([2550, 3300]);
    }
  }
});

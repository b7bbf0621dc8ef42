import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import type { Block } from '../../src/document/project.ts';
import { toText } from '../../src/document/to-text.ts';
import { harbour } from '../document/projects.ts';
import { gull, pennant, windmill } from '../foundations/harbour.ts';
import { has, lineMiddles, type Raster, renderPdf, row } from '../foundations/tools.ts';
import { underpaperHere, Workbench } from './command-line.ts';

const bench = new Workbench();
afterAll(() => bench.clear());

const blocks: readonly Block[] = [pennant, gull, windmill];
const path = bench.file('quay.underpaper.json', toText({ ...harbour, blocks }));

let written = 0;

/** The PDF that some options give, and how many sheets the command says it has. */
async function printed(...options: string[]) {
  const pdf = bench.path(`${++written}.pdf`);
  const { status, out, err } = await underpaperHere('foundations', path, '--out', pdf, ...options);
  expect([status, err]).toEqual([0, '']);
  return { pdf, bytes: readFileSync(pdf), sheets: Number(/(\d+) sheets?/.exec(out)![1]) };
}

/** What poppler reads on all pages, or on one. */
const textOf = (pdf: string, page?: number): string =>
  execFileSync('pdftotext', [...(page === undefined ? [] : ['-f', `${page}`, '-l', `${page}`]), pdf, '-'], {
    encoding: 'utf8',
  }).replace(/\s+/g, ' ');

/** Papers on each page, such as `Gull A`. */
const papersOn = ({ pdf, sheets }: { readonly pdf: string; readonly sheets: number }): string[][] =>
  Array.from({ length: sheets }, (_, i) =>
    [...textOf(pdf, i + 1).matchAll(/(\w+), section (\w+), copy \d+ of \d+/g)].map(
      ([, block, section]) => `${block} ${section}`,
    ),
  );

/** Distance of the ink from the nearest edge of the page, in pixels, and how dark the page is on the whole. */
function ink(picture: Raster): { readonly off: number; readonly dark: number } {
  let off = Number.POSITIVE_INFINITY;
  let dark = 0;
  for (let y = 0; y < picture.height; y++)
    for (let x = 0; x < picture.width; x++) {
      const shade = picture.at(x, y);
      dark += 255 - shade;
      if (shade < 128) off = Math.min(off, x, y, picture.width - 1 - x, picture.height - 1 - y);
    }
  return { off, dark };
}

const withPoppler = describe.skipIf(!has('pdftotext') || !has('pdftoppm'));

withPoppler('what is asked of the sheets on the command line', () => {
  it('margins: no ink nearer to the edge than asked, and nearer when less is asked', async () => {
    const dpi = 100;
    const offOf = async (margin: string) =>
      ink(renderPdf((await printed('--margin', margin, '--blocks', 'Gull')).bytes, dpi)).off;
    const [none, wide, metric] = [await offOf('0'), await offOf('0.6'), await offOf('20mm')];
    expect(none).toBeLessThan(0.1 * dpi);
    expect(wide).toBeGreaterThanOrEqual(0.6 * dpi - 1);
    expect(metric).toBeGreaterThanOrEqual((20 / 25.4) * dpi - 1);
  });

  it('side: mirrored unless the front is asked for, and the sheet says which', async () => {
    const staff = async (...options: string[]) => {
      const { pdf, bytes } = await printed('--blocks', 'Pennant', '--page', 'tabloid', ...options);
      // The paper lies in the corner of the sheet: the seam of the staff, 2 in from the left of the front, is the
      // longest upright line inside. Rows across it show where: trim, edge, staff …, edge, trim.
      const dpi = 300;
      const picture = renderPdf(bytes, dpi, 1, { x: 0, y: 0, width: 7 * dpi, height: 7 * dpi });
      const rows = Array.from({ length: 5 }, (_, i) => lineMiddles(row(picture, 180 + 4 * i)));
      return { text: textOf(pdf), at: rows.flat().map((x) => x / dpi) };
    };
    const near = (at: readonly number[], x: number) => at.some((one) => Math.abs(one - x) < 0.03);
    const mirrored = await staff();
    const front = await staff('--side', 'front');
    expect(mirrored.text).toContain('Printed side');
    expect(front.text).toContain('Front side');
    // Margin and allowance come before the block: 1/4 in each. 6 in wide, so mirrored the staff is 4 in in.
    expect([near(front.at, 0.5 + 2), near(front.at, 0.5 + 4)]).toEqual([true, false]);
    expect([near(mirrored.at, 0.5 + 2), near(mirrored.at, 0.5 + 4)]).toEqual([false, true]);
    expect((await staff('--side', 'printed')).text).toBe(mirrored.text);
  });

  it('together: what shares a sheet is what was asked for, and all is there each time', async () => {
    const of = async (word: string) => printed('--copies', '4', '--page', 'tabloid', '--together', word);
    const [fewest, byBlock, bySection] = [await of('fewest'), await of('blocks'), await of('sections')];
    const all = papersOn(fewest).flat().toSorted();
    for (const papers of papersOn(byBlock))
      expect(new Set(papers.map((one) => one.split(' ')[0])).size).toBeLessThanOrEqual(1);
    for (const papers of papersOn(bySection)) expect(new Set(papers).size).toBeLessThanOrEqual(1);
    expect(papersOn(byBlock).flat().toSorted()).toEqual(all);
    expect(papersOn(bySection).flat().toSorted()).toEqual(all);
    expect(fewest.sheets).toBeLessThanOrEqual(byBlock.sheets);
    expect(byBlock.sheets).toBeLessThanOrEqual(bySection.sheets);
  });

  it('nest: turning freely never takes more sheets than turning by quarters', async () => {
    const of = async (word: string) => printed('--copies', '9', '--nest', word);
    const [quarters, free] = [await of('quarters'), await of('free')];
    expect(free.sheets).toBeLessThanOrEqual(quarters.sheets);
    // A sheet holds no more than its own area of finished block.
    const finished = 9 * (6 * 6 + 4 * 2 + 6 * 6);
    expect(free.sheets).toBeGreaterThanOrEqual(finished / (8.5 * 11));
  });

  it('fabric: an outline takes the least ink', async () => {
    const of = async (word: string) =>
      ink(renderPdf((await printed('--blocks', 'Pennant', '--fabric', word)).bytes, 100)).dark;
    const outline = await of('outline');
    expect(await of('shaded')).toBeGreaterThan(1.1 * outline);
    expect(await of('hatched')).toBeGreaterThan(1.1 * outline);
  });

  it('grain: arrows and their meaning come only when asked for', async () => {
    expect(textOf((await printed()).pdf)).not.toContain('straight grain');
    expect(textOf((await printed('--grain')).pdf)).toContain('straight grain');
  });

  it('correct: the square is drawn as much larger as the printer makes it smaller, and the sheet says so', async () => {
    const dpi = 600;
    const { pdf, bytes } = await printed(
      ...['--blocks', 'Gull', '--correct', '49.2x50.4', '--printer', 'Harbour office'],
    );
    expect(textOf(pdf)).toContain('corrected for ‘Harbour office’');
    // 50 / 49.2 and 50 / 50.4.
    expect(textOf(pdf)).toContain('101.6 % across, 99.2 % down');
    const corner = renderPdf(bytes, dpi, 1, { x: 100, y: 5700, width: 1000, height: 800 });
    const [left, right] = lineMiddles(row(corner, 200));
    expect(Math.abs(((right! - left!) / dpi) * (49.2 / 50) - 1)).toBeLessThan(2 / dpi);
    // Without a name it is corrected all the same.
    expect(textOf((await printed('--correct', '50.4 × 49.2')).pdf)).toContain('99.2 % across, 101.6 % down');
  });

  it.each([
    ['guide', /Join 1:/],
    ['cover', /Quay|Harbour sampler/],
    ['line-drawing', /Windmill/],
    ['templates', /Not mirrored/],
    ['cutting', /rounded up to an eighth/],
    ['labels', /Night sea/],
    ['cautions', /magnet/i],
  ])('%s: adds its pages before the same foundations', async (part, says) => {
    const [alone, more] = [await printed(), await printed(`--${part}`)];
    const added = more.sheets - alone.sheets;
    expect(added).toBeGreaterThan(0);
    for (let page = 1; page <= added; page++)
      expect(textOf(more.pdf, page)).toContain(`Page ${page} of ${more.sheets}`);
    const text = Array.from({ length: added }, (_, i) => textOf(more.pdf, i + 1)).join(' ');
    expect(text).toMatch(says);
    expect(papersOn(more).flat().toSorted()).toEqual(papersOn(alone).flat().toSorted());
  });
});

describe('a wrong value', () => {
  it.each([
    [['--nest', 'sideways'], /--nest takes quarters or free\./],
    [['--nest', ''], /--nest takes/],
    [['--together', 'all'], /--together takes fewest, blocks or sections\./],
    [['--fabric', 'plaid'], /--fabric takes outline, shaded or hatched\./],
    [['--fabric', 'Outline'], /--fabric takes/],
    [['--side', 'back'], /--side takes printed or front\./],
    [['--margin', 'wide'], /--margin: /],
    [['--margin', '-1/4'], /--margin/],
    [['--margin=-1/4'], /--margin: /],
    [['--margin', '4in'], /--margin: .*too little of the page/],
    [['--correct', '50'], /--correct takes two measurements/],
    [['--correct', '50x'], /--correct/],
    [['--correct', 'x50'], /--correct/],
    [['--correct', '45x50'], /--correct: The line across is more than 5% off/],
    [['--correct', '50x55'], /--correct: The line down is more than 5% off/],
    [['--correct', 'fiftyx50'], /--correct: The line across/],
    [['--printer', 'Loft'], /--printer names the printer that --correct is for\./],
    [['--grain=yes'], /--grain/],
    [['--guide=all'], /--guide/],
    [['--cover', '--cover'], /--cover is given twice\./],
    [['--nest', 'free', '--nest', 'free'], /--nest is given twice\./],
    [['--template'], /--template/],
  ])('%j is refused in one line, and nothing is written', async (options, sentence) => {
    const pdf = bench.path('never.pdf');
    const { status, out, err } = await underpaperHere('foundations', path, '--out', pdf, ...options);
    expect([status, out]).toEqual([2, '']);
    expect(err).toMatch(/^[^\n]{10,240}\.\n$/);
    expect(err).toMatch(sentence);
    expect(existsSync(pdf)).toBe(false);
  });
});

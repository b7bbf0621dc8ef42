import { describe, expect, it } from 'vitest';
import { PAGES } from '../../../src/document/pages.ts';
import { toPdf } from '../../../src/foundations/files/pdf.ts';
import { type Ink, matrixOf, operatorsOf } from '../../../src/foundations/files/pdf-operators.ts';
import { PT, type TextMark } from '../../../src/foundations/marks.ts';
import type { Sheet } from '../../../src/foundations/sheet/sheet.ts';
import { freshTypeface, gull, lighthouse, pennant, print, typeface, windmill } from '../harbour.ts';
import { column, has, lineMiddles, renderPdf, row, runOn } from '../tools.ts';

const info = { title: 'Harbour sampler', createdAt: new Date(Date.UTC(2026, 10, 24, 12)) };

const pdfOf = (sheets: readonly Sheet[]): Promise<Uint8Array> => toPdf(sheets, typeface, info);

const DPI = 600;
const withPoppler = describe.skipIf(!has('pdftoppm'));
const missing = (tool: string): string => (has(tool) ? '' : ` (skipped: ${tool} is not installed)`);

describe('the PDF', () => {
  it('is the same, byte for byte, each time', async () => {
    const { sheets } = print([pennant, windmill]);
    expect(Buffer.from(await pdfOf(sheets)).equals(Buffer.from(await pdfOf(sheets)))).toBe(true);
  });

  it('asks viewers for no scaling and has exact page sizes', async () => {
    // ISO 32000-1 12.2, table 150: /PrintScaling /None in the catalogue's ViewerPreferences; PDF 1.6 or later.
    const text = Buffer.from(await pdfOf(print([gull], { page: PAGES.a4 }).sheets)).toString('latin1');
    expect(text.slice(0, 8)).toBe('%PDF-1.7');
    expect(text).toMatch(/\/ViewerPreferences (\d+) 0 R/);
    const [, id] = /\/ViewerPreferences (\d+) 0 R/.exec(text)!;
    expect(text).toMatch(new RegExp(`\\n${id} 0 obj\\n<<\\n/PrintScaling /None`));
    // ISO 216 A4 in points, 72 to the inch (ISO 32000-1 8.3.2.3).
    const [, width, height] = /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(text)!;
    expect(Number(width)).toBeCloseTo(595.2756, 3);
    expect(Number(height)).toBeCloseTo(841.8898, 3);
    // The size of a unit is left at 1/72 in (table 30, UserUnit: several readers ignore it).
    for (const [, unit] of text.matchAll(/\/UserUnit (\S+)/g)) expect(unit).toBe('1');
  });

  it('tells its progress, and stops when told to', async () => {
    const { sheets } = print([lighthouse, windmill]);
    const seen: string[] = [];
    await toPdf(sheets, typeface, { ...info, beforeSheet: (done, of) => void seen.push(`${done}/${of}`) });
    expect(seen).toEqual(sheets.map((_, i) => `${i}/${sheets.length}`));
    const stop = toPdf(sheets, typeface, {
      ...info,
      beforeSheet: (done) => {
        if (done === 1) throw new Error('stopped');
      },
    });
    await expect(stop).rejects.toThrow('stopped');
  });

  it('writes no number with an exponent, however little a text or paper is turned', () => {
    // ISO 32000-1 7.3.3: a PDF knows no exponents; poppler gives up a text after `6.1e-7`.
    const ink: Ink = {
      set: () => ({ font: 'F1', runs: [{ array: '<01>', along: 0, up: 0 }] }),
      pattern: () => null,
    };
    for (const turn of [3.5e-5, 4e-7, 90 + 2e-5, 180 - 3e-5, -90 - 1e-6]) {
      const text: TextMark = {
        kind: 'text',
        at: [1, 1],
        turn,
        face: 'regular',
        size: 9 * PT,
        text: 'A',
        width: 0.1,
      };
      const written = `${operatorsOf([text], ink)} ${matrixOf({ at: [1e-9, 2], quarterTurns: turn / 90 })}`;
      expect(written).toContain(' Tm ');
      expect(written).not.toMatch(/\d[eE][-+]?\d/);
    }
  });

  it.skipIf(!has('qpdf'))(`is clean for qpdf${missing('qpdf')}`, async () => {
    const report = runOn(await pdfOf(print([pennant, windmill, lighthouse]).sheets), 'pdf', 'qpdf', [
      '--check',
      '{}',
    ]).toString();
    expect(report).toContain('No syntax or stream encoding errors found');
  });

  it.skipIf(!has('qpdf'))(`has the print scaling where qpdf finds it${missing('qpdf')}`, async () => {
    const json = JSON.parse(
      runOn(await pdfOf(print([gull]).sheets), 'pdf', 'qpdf', ['--json', '{}']).toString(),
    );
    const objects: Record<string, { value?: Record<string, unknown> }> = json.qpdf[1];
    const catalogue = Object.values(objects).find(({ value }) => value?.['/Type'] === '/Catalog')!.value!;
    const preferences = objects[`obj:${catalogue['/ViewerPreferences'] as string}`]!.value!;
    expect(preferences['/PrintScaling']).toBe('/None');
  });

  it.skipIf(!has('pdffonts'))(`embeds subsets of every font${missing('pdffonts')}`, async () => {
    const lines = runOn(await pdfOf(print([pennant]).sheets), 'pdf', 'pdffonts', ['{}'])
      .toString()
      .trim()
      .split('\n')
      .slice(2);
    expect(lines).toHaveLength(2);
    for (const line of lines) {
      expect(line).toContain('SourceSans3');
      // Columns emb, sub, uni.
      expect(line).toMatch(/ yes yes yes /);
    }
  });

  it.skipIf(!has('pdftotext'))(
    `gives its text back, the right way round${missing('pdftotext')}`,
    async () => {
      const text = runOn(await pdfOf(print([pennant]).sheets), 'pdf', 'pdftotext', [
        '-layout',
        '{}',
        '-',
      ]).toString();
      for (const words of [
        'A1',
        'A4',
        'Signal red',
        'Pennant, section A, copy 1 of 1',
        'this edge 6 in',
        'test square',
      ]) {
        expect(text).toContain(words);
      }
    },
  );

  it.skipIf(!has('pdftotext'))(
    `gives back every letter, whatever was set before it${missing('pdftotext')}`,
    async () => {
      // The typeface draws these signs from the outlines of plainer ones: ” of ’, ó of o, ż of z.
      const fresh = freshTypeface();
      for (const composed of ['“”', 'óż', 'ÄŚ']) fresh.extent(composed, 'regular');
      const [sheet] = print([{ ...gull, name: '“Żółw’s”' }], { typeface: fresh }).sheets;
      const pdf = await toPdf([sheet!], fresh, info);
      const text = runOn(pdf, 'pdf', 'pdftotext', ['{}', '-']).toString().replace(/\s+/g, ' ');
      for (const words of [
        '“Żółw’s”, section A, copy 1 of 1',
        'sewn from this side',
        'The makers’ instructions come before',
        'Sheet 1 of 1',
      ])
        expect(text).toContain(words);
    },
  );

  it.skipIf(!has('pdftotext'))(
    `sets its words as long as they were measured${missing('pdftotext')}`,
    async () => {
      const { sheets } = print([pennant]);
      const html = runOn(await pdfOf(sheets), 'pdf', 'pdftotext', ['-bbox', '{}', '-']).toString();
      const word = /<word xMin="([\d.]+)" yMin="[\d.]+" xMax="([\d.]+)" yMax="[\d.]+">Harbour<\/word>/.exec(
        html,
      )!;
      const measured = typeface.extent('Harbour', 'semibold').width * 8;
      expect(Number(word[2]) - Number(word[1])).toBeCloseTo(measured, 1);
    },
  );
});

withPoppler(`the PDF rendered at ${DPI} dpi${missing('pdftoppm')}`, () => {
  it('has a test square of 600 pixels in both directions, and a 50 mm line of 1181', async () => {
    const pdf = await pdfOf(print([pennant]).sheets);
    // The square stands in the lower left corner: Letter is 5100 × 6600 pixels.
    const corner = renderPdf(pdf, DPI, 1, { x: 100, y: 5700, width: 2400, height: 800 });
    const across = lineMiddles(row(corner, 200));
    expect(Math.abs(across[1]! - across[0]! - DPI)).toBeLessThanOrEqual(1);
    const middle = Math.round(across[0]! + 60);
    const down = lineMiddles(column(corner, middle)).slice(-2);
    expect(Math.abs(down[1]! - down[0]! - DPI)).toBeLessThanOrEqual(1);
    // The end ticks of the 50 mm line are the outermost lines of the rows they stand in.
    const ticks = Array.from({ length: corner.height }, (_, y) => lineMiddles(row(corner, y))).filter(
      (found) => found.length === 4 && Math.abs(found[3]! - found[2]! - (50 / 25.4) * DPI) <= 1,
    );
    expect(ticks.length).toBeGreaterThan(20);
  });

  it('at 1,200 dpi has a square of 1,200 pixels, a 50 mm line of 2,362 and 1/4 in of allowance', async () => {
    const fine = 1200;
    const pdf = await pdfOf(print([pennant]).sheets);
    const corner = renderPdf(pdf, fine, 1, { x: 200, y: 11_400, width: 4800, height: 1600 });
    const across = lineMiddles(row(corner, 400));
    expect(Math.abs(across[1]! - across[0]! - fine)).toBeLessThanOrEqual(2);
    const down = lineMiddles(column(corner, Math.round(across[0]! + 120))).slice(-2);
    expect(Math.abs(down[1]! - down[0]! - fine)).toBeLessThanOrEqual(2);
    const ticks = Array.from({ length: corner.height }, (_, y) => lineMiddles(row(corner, y))).filter(
      (found) => found.length === 4 && Math.abs(found[3]! - found[2]! - (50 / 25.4) * fine) <= 2,
    );
    expect(ticks.length).toBeGreaterThan(40);

    // From the trim line to the sewing line beside it: 1/4 in is 18 units of 1/72 in (ISO 32000-1, 8.3.2.3), 300
    // pixels here. Rows that meet a gap of the dashed trim line show none.
    const edge = renderPdf(pdf, fine, 1, { x: 200, y: 1200, width: 800, height: 3600 });
    const allowances = Array.from({ length: edge.height }, (_, y) => lineMiddles(row(edge, y))).flatMap(
      ([trim, sewing]) => (trim !== undefined && sewing !== undefined ? [sewing - trim] : []),
    );
    const rightOnes = allowances.filter((wide) => Math.abs(wide - 18 * (fine / 72)) <= 2);
    expect(rightOnes.length).toBeGreaterThan(edge.height / 3);
  });

  it('has the outer sewing line of a 6 in block 3,600 pixels across and down', async () => {
    const pdf = await pdfOf(print([pennant], { page: PAGES.tabloid }).sheets);
    const part = renderPdf(pdf, DPI, 1, { x: 0, y: 0, width: 4200, height: 4200 });
    // Along a line through the middle of the paper, away from labels: trim, edge, …, edge, trim.
    const spans = (shades: readonly number[]): number[] => {
      const found = lineMiddles(shades);
      return found.flatMap((a, i) => found.slice(i + 1).map((b) => b - a));
    };
    const nearest = (all: readonly number[]): number =>
      all.reduce((best, span) => (Math.abs(span - 3600) < Math.abs(best - 3600) ? span : best), 0);
    expect(Math.abs(nearest(spans(row(part, 700))) - 3600)).toBeLessThanOrEqual(2);
    expect(Math.abs(nearest(spans(column(part, 700))) - 3600)).toBeLessThanOrEqual(2);
  });

  it('shows the mirror image of the front on the printed side, line by line', async () => {
    const size = 4200;
    const [printed, front] = await Promise.all(
      (['printed', 'front'] as const).map(async (side) =>
        renderPdf(await pdfOf(print([pennant], { page: PAGES.tabloid, side }).sheets), DPI, 1, {
          x: 0,
          y: 0,
          width: size,
          height: size,
        }),
      ),
    );
    // Trim line from 0.25 in to 6.75 in: the paper's middle is at 3.5 in.
    const dark = (picture: NonNullable<typeof printed>, x: number, y: number): boolean => {
      for (let dx = -4; dx <= 4; dx++)
        for (let dy = -4; dy <= 4; dy++)
          if (picture.at(Math.round(x) + dx, Math.round(y) + dy) < 128) return true;
      return false;
    };
    let alike = 0;
    let same = 0;
    let count = 0;
    for (const { from, to } of pennant.cuts.slice(1)) {
      for (let share = 0.1; share <= 0.9; share += 0.05) {
        const x = (0.5 + from[0] + share * (to[0] - from[0])) * DPI;
        const y = (0.5 + from[1] + share * (to[1] - from[1])) * DPI;
        const mirrored = 2 * 3.5 * DPI - x;
        count++;
        if (dark(front!, x, y) && dark(printed!, mirrored, y)) alike++;
        if (dark(printed!, x, y)) same++;
      }
    }
    expect(alike).toBe(count);
    expect(same / count).toBeLessThan(0.3);
  });
});

withPoppler(`copies in the PDF${missing('pdftoppm')}`, () => {
  const three = print([pennant, windmill], { copies: 3 }).sheets;
  /** The same sheets of which no two drawings share a mark, so that each is written by itself. */
  const apart = three.map(
    (sheet): Sheet => ({
      ...sheet,
      parts: sheet.parts.map((part) => ({ ...part, marks: part.marks.map((mark) => ({ ...mark })) })),
    }),
  );

  it('look as they do when each is written by itself, and take less room', async () => {
    const [shared, single] = [await pdfOf(three), await pdfOf(apart)];
    expect(shared.byteLength).toBeLessThan(single.byteLength - 1_000);
    for (const [i, sheet] of three.entries()) {
      const [a, b] = [renderPdf(shared, 100, i + 1), renderPdf(single, 100, i + 1)];
      expect([a.width, a.height]).toEqual([b.width, b.height]);
      let differ = 0;
      let ink = 0;
      for (let y = 0; y < a.height; y++)
        for (let x = 0; x < a.width; x++) {
          if (b.at(x, y) > 64) continue;
          ink++;
          // A line may be set to the other of two neighbouring rows of dots.
          const near = [a.at(x, y), a.at(x - 1, y), a.at(x + 1, y), a.at(x, y - 1), a.at(x, y + 1)];
          if (Math.min(...near) > 160) differ++;
        }
      expect(ink, sheet.title).toBeGreaterThan(1000);
      expect(differ, sheet.title).toBeLessThan(ink / 1000);
    }
  });

  it.skipIf(!has('pdftotext'))(`say which copy they are${missing('pdftotext')}`, async () => {
    const read = (pdf: Uint8Array): string => runOn(pdf, 'pdf', 'pdftotext', ['-raw', '{}', '-']).toString();
    const text = read(await pdfOf(three));
    for (const copy of [1, 2, 3])
      expect(text.replace(/\s+/g, ' ')).toContain(`Pennant, section A, copy ${copy} of 3`);
    const letters = (all: string): string => [...all.replace(/\s/g, '')].sort().join('');
    expect(letters(text)).toBe(letters(read(await pdfOf(apart))));
  });
});

describe.skipIf(!has('pdfinfo'))(`read aloud, the PDF${missing('pdfinfo')}`, () => {
  // ISO 32000-1 14.8: a tagged PDF says what its contents are, in which order, and in which language (14.9.2).
  it('is tagged, in the language of its texts, a part a sheet', async () => {
    const { sheets } = print([pennant, windmill, lighthouse]);
    const pdf = await pdfOf(sheets);
    expect(runOn(pdf, 'pdf', 'pdfinfo', ['{}']).toString()).toMatch(/Tagged:\s+yes/);
    expect(Buffer.from(pdf).toString('latin1')).toMatch(/\/Lang \(en\)/);
    const tree = runOn(pdf, 'pdf', 'pdfinfo', ['-struct-text', '{}']).toString();
    expect(tree.match(/^ *Sect/gm)).toHaveLength(sheets.length);
    // Each paper is one figure that says what it is; the line that counts the sheets is read on each.
    const papers = sheets.flatMap(({ parts }) => parts.filter(({ paper }) => paper !== null));
    expect(tree.match(/^ *Figure/gm)).toHaveLength(papers.length);
    for (const { says } of papers) expect(says).toMatch(/^Foundation of .+, section [A-Z]+, copy 1 of 1/);
    for (const { title } of sheets) expect(tree).toContain(`"${title}"`);
    // The foot is read once, a sentence over several lines as one paragraph, no word run into the next.
    expect(tree.match(/Print at actual size, 100%, then measure\./g)).toHaveLength(1);
    expect(tree).toContain('Printed side: the mirror image of the front. Fabric goes on the blank side.');
  });

  it.skipIf(!has('qpdf'))('gives what a reader is to be told as text in the file', async () => {
    const json = JSON.parse(
      runOn(await pdfOf(print([gull]).sheets), 'pdf', 'qpdf', ['--json', '{}']).toString(),
    );
    const objects: Record<string, { value?: Record<string, unknown> }> = json.qpdf[1];
    const figures = Object.values(objects).filter(({ value }) => value?.['/S'] === '/Figure');
    expect(figures.length).toBeGreaterThan(0);
    for (const { value } of figures) expect(String(value!['/Alt'])).toMatch(/Foundation of Gull, section/);
  });
});

import { describe, expect, it } from 'vitest';
import { PAGES } from '../../../src/document/pages.ts';
import { layOutBooklet } from '../../../src/foundations/booklet/booklet.ts';
import type { BookletPart } from '../../../src/foundations/booklet/parts.ts';
import { toSvg } from '../../../src/foundations/files/svg.ts';
import { type Mark, PT } from '../../../src/foundations/marks.ts';
import { marksOf, type Sheet, type SheetOptions } from '../../../src/foundations/sheet/sheet.ts';
import { tileGrid } from '../../../src/foundations/sheet/tile-grid.ts';
import { tilesOf } from '../../../src/foundations/sheet/tiles.ts';
import type { Ring } from '../../../src/geometry/point.ts';
import { piece } from '../../../src/piecing/piece.ts';
import { gull, harbour, lighthouse, pennant, print, textsOf, typeface, windmill } from '../harbour.ts';

const options: SheetOptions = {
  page: PAGES.letter,
  margin: 0.25,
  side: 'printed',
  printedOn: '24 November 2026',
  typeface,
};

const bookletOf = (parts: readonly BookletPart[], more: Partial<SheetOptions> = {}, copies = 1) =>
  layOutBooklet(
    {
      project: { ...harbour, blocks: [gull, lighthouse] },
      jobs: [gull, lighthouse].map((one) => ({ block: one, plan: piece(one), copies, isMirrored: false })),
    },
    { ...options, ...more },
    new Set(parts),
  );

const words = (sheet: Sheet): string =>
  textsOf(marksOf(sheet))
    .map(({ text }) => text)
    .join(' ');

const sizes = (sheet: Sheet): number[] => textsOf(marksOf(sheet)).map(({ size }) => size / PT);

/** Of the test square on a sheet: its sides, inches. */
const squares = (sheet: Sheet): number[] =>
  marksOf(sheet).flatMap((mark) =>
    mark.kind === 'polygon' && mark.pen === 'measure' ? [mark.ring[1]![0] - mark.ring[0]![0]] : [],
  );

describe('a draft in grey', () => {
  it('has nothing black, and is still read: contrast 4.5 to 1 or more', () => {
    // WCAG 2.2, success criterion 1.4.3 and its definition of relative luminance.
    const luminance = (level: number): number => {
      const share = level / 255;
      return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
    };
    for (const sheet of print([windmill], { tone: 'grey' }).sheets) {
      const svg = toSvg(sheet);
      const levels = [...svg.matchAll(/(?:stroke|fill)="#([0-9a-f]{2})\1\1"/g)].map(([, hex]) =>
        Number.parseInt(hex!, 16),
      );
      expect(levels.length).toBeGreaterThan(4);
      expect(Math.min(...levels)).toBeGreaterThan(80);
      // Letters and lines to sew and cut on are the darkest of all.
      expect(1.05 / (luminance(Math.min(...levels)) + 0.05)).toBeGreaterThanOrEqual(4.5);
      expect(svg).toMatch(/<g fill="#[0-9a-f]{6}"><text/);
      expect(svg).not.toContain('#000000');
    }
  });
});

describe('large type', () => {
  it('makes the words of pages to read 14 pt, on the same page', () => {
    // Large print begins at 14 pt by the common advice to those who print for readers with low vision.
    const parts: BookletPart[] = ['cautions', 'guide', 'freezer', 'cover', 'cutting', 'labels', 'index'];
    const usual = bookletOf(parts).sheets;
    const large = bookletOf(parts, { large: true }).sheets;
    expect(large.length).toBeGreaterThan(usual.length);
    for (const sheet of large) {
      expect([sheet.width, sheet.height].toSorted()).toEqual([11, 8.5].toSorted());
      // Small print too is as large as other people's text.
      if (!/guide/.test(sheet.title)) expect(Math.min(...sizes(sheet))).toBeGreaterThanOrEqual(9);
    }
    const caution = textsOf(marksOf(large.find(({ title }) => title.startsWith('Cautions'))!)).find(
      ({ text }) => text.startsWith('Close the blade'),
    );
    expect(caution!.size / PT).toBeGreaterThanOrEqual(14);
  });

  it('leaves what has a true size as it is, and enlarges labels where patches have room', () => {
    for (const sheet of [
      ...print([windmill, pennant], { large: true }).sheets,
      ...bookletOf(['templates'], { large: true }).sheets,
    ])
      for (const side of squares(sheet)) expect(side).toBeCloseTo(1, 9);
    const trims = (large: boolean): string =>
      JSON.stringify(
        print([windmill], { large })
          .sheets.flatMap(({ parts }) => parts.filter(({ paper }) => paper !== null))
          .flatMap(
            ({ marks }) => marks.filter((mark) => mark.kind === 'polygon' && mark.pen === 'trim').length,
          ),
      );
    expect(trims(true)).toBe(trims(false));
    const largest = (large: boolean): number =>
      Math.max(...print([pennant], { large }).sheets.flatMap(sizes));
    expect(largest(true)).toBeGreaterThan(1.4 * largest(false));
  });
});

describe('a sheet', () => {
  it('lists the pieces of its foundations in sewing order, where it has room', () => {
    const { sheets } = print([pennant]);
    const list = sheets
      .flatMap(({ parts }) => parts)
      .find(({ marks }) => textsOf(marks)[0]?.text === 'Pennant A, in this order');
    const { patches } = piece(pennant);
    const rows = textsOf(list!.marks).slice(1);
    const order = rows.filter(({ text }) => /^\d+$/.test(text)).map(({ text }) => Number(text));
    expect(order).toEqual(patches.filter(({ section }) => section === 'A').map((_, i) => i + 1));
    // Position 1 lies level: its patch with 1/4 in of allowance and 1/4 in of ease on every side, or more, in quarters.
    const first = patches.find(({ section, position }) => section === 'A' && position === 1)!;
    const [xs, ys] = [0, 1].map((axis) => first.polygon.map((point) => point[axis]!));
    const area = (Math.max(...xs!) - Math.min(...xs!) + 1) * (Math.max(...ys!) - Math.min(...ys!) + 1);
    const said = rows.find(({ text }) => text.includes('×'))!.text;
    const [w, h] = said
      .replace(/ in.*/, '')
      .split(' × ')
      .map((text) =>
        text.split(' ').reduce((sum, part) => {
          const [a, b] = part.split('/').map(Number);
          return sum + a! / (b ?? 1);
        }, 0),
      );
    expect(4 * w!).toBeCloseTo(Math.round(4 * w!), 9);
    expect(w! * h!).toBeLessThan(area + 0.25 * (w! + h! + 1));
    // It lies on no paper and on no other drawing: see the tests of what overlaps.
    expect(list!.paper).toBeNull();
  });

  it('says where to start, on every paper with room for it', () => {
    for (const one of [pennant, windmill, lighthouse]) {
      const said = print([one]).sheets.map(words).join(' ');
      expect(said).toContain('start here');
    }
  });

  it('explains hatching by a sample of the lines of each fabric that lies on it', () => {
    for (const sheet of print([lighthouse, gull], { style: 'hatched' }).sheets) {
      const foot = sheet.parts.find(({ isFoot }) => isFoot)!;
      const hatches = foot.marks.filter((mark) => mark.kind === 'line' && mark.pen === 'hatch');
      const entries = textsOf(foot.marks).filter(({ text }) => /^#\d+ /.test(text));
      expect(entries.length).toBeGreaterThan(0);
      expect(hatches.length).toBeGreaterThanOrEqual(entries.length);
    }
    for (const sheet of print([lighthouse]).sheets)
      expect(marksOf(sheet).filter((mark) => mark.kind === 'line' && mark.pen === 'hatch')).toEqual([]);
  });
});

describe('the sheet index', () => {
  it('tells of every copy and tile on which sheet it lies, with a box for each', () => {
    const copies = 2;
    const { sheets } = bookletOf(['index', 'foundations'], {}, copies);
    const index = sheets.filter(({ title }) => title.startsWith('Sheet index'));
    const papers = sheets.filter(({ number }) => number !== undefined);
    const told = index.flatMap((sheet) =>
      textsOf(marksOf(sheet)).flatMap(
        ({ text }) => /^copy (\d+)(?:, tile (\d+))?: sheet (\d+)$/.exec(text) ?? [],
      ),
    );
    expect(told.length % 4).toBe(0);
    const lying = papers.flatMap(({ parts }, i) =>
      parts.flatMap(({ paper }) => (paper ? [`${paper.copy} ${paper.tile?.number} ${i + 1}`] : [])),
    );
    const said = Array.from({ length: told.length / 4 }, (_, i) =>
      told.slice(4 * i + 1, 4 * i + 4).join(' '),
    );
    const plain = lying.map((text) => text.replace('undefined', ''));
    expect(said.toSorted()).toEqual(plain.toSorted());
    const boxes = index.flatMap((sheet) =>
      marksOf(sheet).filter((mark) => mark.kind === 'polygon' && mark.pen === 'frame'),
    );
    expect(boxes).toHaveLength(lying.length);
    // And alone it tells the same of sheets that are printed another time.
    const alone = bookletOf(['index'], {}, copies).sheets;
    expect(alone.map((sheet) => textsOf(marksOf(sheet)).length)).toEqual(
      index.map((sheet) => textsOf(marksOf(sheet)).length),
    );
  });
});

describe('tiles', () => {
  it('of one paper lie on sheets one after another, whatever else finds room beside them', () => {
    const { sheets } = bookletOf(['foundations'], {}, 2);
    const on = new Map<string, number[]>();
    for (const [i, { parts }] of sheets.entries())
      for (const { paper } of parts) {
        if (!paper?.tile) continue;
        const name = `${paper.block} ${paper.section} ${paper.copy}`;
        on.set(name, [...(on.get(name) ?? []), i]);
      }
    expect(on.size).toBeGreaterThan(1);
    for (const [name, where] of on) {
      const distinct = [...new Set(where)].sort((a, b) => a - b);
      expect(distinct.at(-1)! - distinct[0]!, name).toBe(distinct.length - 1);
    }
  });

  it('have a trim edge and crosses only where another one is joined', () => {
    // A paper over three of the four windows of its grid: nothing lies in the lower right one.
    const mark = (ring: Ring): Mark => ({ kind: 'polygon', pen: 'edge', ring });
    const paper = { width: 12, height: 12 };
    const grid = tileGrid(paper, { width: 7, height: 7 });
    const marks = [
      mark([
        [0.3, 0.3],
        [11.7, 0.3],
        [11.7, 5],
        [5, 5],
        [5, 11.7],
        [0.3, 11.7],
      ]),
    ];
    const tiles = tilesOf(marks, paper, grid, typeface);
    expect(tiles.map(({ column, row }) => [column, row])).toEqual([
      [1, 1],
      [2, 1],
      [1, 2],
    ]);
    const count = (i: number, pen: string): number =>
      tiles[i]!.marks.filter((one) => one.kind === 'line' && one.pen === pen).length;
    expect([0, 1, 2].map((i) => count(i, 'tile-trim'))).toEqual([0, 1, 1]);
    // Two crosses of two lines each on either side of each of the two overlaps that are joined.
    expect([0, 1, 2].map((i) => count(i, 'tile-cross'))).toEqual([8, 4, 4]);
  });
});

import { readFileSync } from 'node:fs';
import { unzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { openFile } from '../../../src/document/file.ts';
import { PAGES, readPage } from '../../../src/document/pages.ts';
import type { Project } from '../../../src/document/project.ts';
import type { BlockWork } from '../../../src/foundations/booklet/block-work.ts';
import { type Booklet, firstPage, layOutBooklet } from '../../../src/foundations/booklet/booklet.ts';
import { flowInto } from '../../../src/foundations/booklet/flow.ts';
import { BOOKLET_PARTS, type BookletPart, PART_NAMES } from '../../../src/foundations/booklet/parts.ts';
import { sectionShades } from '../../../src/foundations/booklet/patch-marks.ts';
import { pilesOf } from '../../../src/foundations/booklet/pile-labels.ts';
import { templatesOf } from '../../../src/foundations/booklet/templates.ts';
import { blockPdfs } from '../../../src/foundations/files/block-files.ts';
import { layerOf, toLayeredSvg } from '../../../src/foundations/files/layered-svg.ts';
import { toPdf } from '../../../src/foundations/files/pdf.ts';
import { zipOf } from '../../../src/foundations/files/zip.ts';
import type { Mark } from '../../../src/foundations/marks.ts';
import { fabricLabels } from '../../../src/foundations/print-work.ts';
import { firstLook, layOutSheets } from '../../../src/foundations/sheet/layout.ts';
import { asPage, marksOf, type SheetOptions } from '../../../src/foundations/sheet/sheet.ts';
import type { FullTypeface } from '../../../src/foundations/type/typeface.ts';
import { boxOf, signedArea } from '../../../src/geometry/ring.ts';
import type { Block } from '../../../src/piecing/block.ts';
import { piece } from '../../../src/piecing/piece.ts';
import {
  block,
  gull,
  harbour,
  lighthouse,
  pointsOf,
  rope,
  square,
  textsOf,
  typeface,
  windmill,
} from '../harbour.ts';
import { overlappingTexts } from '../overlaps.ts';
import { has, renderPdf, runOn } from '../tools.ts';

const missing = (tool: string): string => (has(tool) ? '' : ` (skipped: ${tool} is not installed)`);

const demo = (): Project => {
  const opened = openFile(readFileSync('public/demo/harbour-sampler.underpaper.json', 'utf8'));
  if (!opened.ok) throw new Error('The demo does not open.');
  return opened.project;
};

const setting: SheetOptions & { readonly typeface: FullTypeface } = {
  page: PAGES.letter,
  margin: 0.25,
  side: 'printed',
  printedOn: '24 November 2026',
  typeface,
};

const workOf = (project: Project, blocks: readonly Block[] = project.blocks, copies = 1) => ({
  project,
  jobs: blocks.map((one) => ({ block: one, plan: piece(one), copies, isMirrored: false })),
});

const booklet = (
  project: Project,
  parts: readonly BookletPart[],
  options: Partial<SheetOptions> = {},
  copies = 1,
): Booklet =>
  layOutBooklet(workOf(project, project.blocks, copies), { ...setting, ...options }, new Set(parts));

const words = (marks: readonly Mark[]): string =>
  textsOf(marks)
    .map(({ text }) => text)
    .join(' ');

const withBlocks = (...blocks: readonly Block[]): Project => ({ ...harbour, blocks });

describe('a booklet', () => {
  it('of foundations alone is the sheets of the foundations', () => {
    const work = workOf(withBlocks(gull, windmill));
    expect(layOutBooklet(work, setting, new Set(['foundations'])).sheets).toEqual(
      layOutSheets(work, setting).sheets,
    );
  });

  it('has every part for every block, and an outline that leads to each', () => {
    const project = withBlocks(gull, windmill);
    const { sheets, bookmarks } = booklet(project, BOOKLET_PARTS);
    for (const { name } of project.blocks) {
      const entry = bookmarks.find(({ title }) => title === name)!;
      expect(entry.within.map(({ title }) => title)).toEqual(
        (['guide', 'line-drawing', 'templates', 'foundations'] as const).map((part) => PART_NAMES[part]),
      );
      for (const { sheet } of entry.within) expect(words(marksOf(sheets[sheet]!))).toContain(name);
    }
    for (const part of ['cover', 'cautions', 'cutting', 'labels'] as const)
      expect(bookmarks.some(({ title }) => title === PART_NAMES[part])).toBe(true);
  });

  it('numbers its pages through, foundations among the others', () => {
    const project = withBlocks(gull, windmill, lighthouse);
    for (const parts of [['guide', 'cautions', 'cover'], ['cover', 'foundations'], BOOKLET_PARTS] as const)
      for (const options of [{}, { correction: { printer: 'loft', across: 1.02, down: 0.99 } }]) {
        const { sheets } = booklet(project, parts, options);
        sheets.forEach((sheet, i) => {
          const numbers = words(marksOf(sheet)).match(/\b(?:Page|Sheet) \d+ of \d+/g);
          expect(numbers).toEqual([`Page ${i + 1} of ${sheets.length}`]);
          expect(sheet.title).toContain(`page ${i + 1} of ${sheets.length}`);
        });
        const papers = sheets.filter((sheet) => sheet.parts.some(({ paper }) => paper !== null));
        papers.forEach((sheet, i) => {
          expect(words(marksOf(sheet))).toContain(`foundations ${i + 1} of ${papers.length}`);
          expect(overlappingTexts(marksOf(sheet))).toEqual([]);
        });
        expect(papers.length > 1).toBe(parts.some((part) => part === 'foundations'));
      }
  });

  it('leaves the number among the foundations out where the line would be too long for both', () => {
    const [sheet] = layOutSheets(workOf(withBlocks(gull)), setting).sheets;
    const [page] = [{ page: 18_888, pages: 18_888, sheet: 18_888, sheets: 18_888 }].map((counted) =>
      asPage(sheet!, counted, typeface),
    );
    expect(words(marksOf(page!))).toContain('Page 18888 of 18888');
    expect(words(marksOf(page!))).not.toContain('foundations 18888');
    expect(page!.number!.line.width).toBeLessThanOrEqual(page!.number!.room.widest);
  });

  it('has its first page, but for how many there are, before the others are laid out', () => {
    const project = withBlocks(gull, windmill, lighthouse);
    const work = workOf(project, project.blocks, 3);
    const options = { ...setting, style: 'hatched' } as const;
    for (const part of BOOKLET_PARTS.filter((one) => one !== 'foundations')) {
      const parts = new Set<BookletPart>([part, 'foundations']);
      // Where papers lie is known only when all are laid.
      if (part === 'index') {
        expect(firstPage(work, options, parts)).toBeNull();
        continue;
      }
      const { sheets } = layOutBooklet(work, options, parts);
      const page = firstPage(work, options, parts);
      const isNumber = ({ text }: { readonly text: string }): boolean => /^Page 1\b/.test(text);
      // The page's name and day may be cut shorter where the number is longer; they are not here.
      const rest = (sheet: (typeof sheets)[number]): Mark[] =>
        marksOf(sheet).filter((mark) => mark.kind !== 'text' || !isNumber(mark));
      expect(rest(page!), part).toEqual(rest(sheets[0]!));
      expect(textsOf(marksOf(page!)).filter(isNumber)[0]?.text, part).toBe('Page 1');
    }
  });

  it('says nothing of its first sheet of foundations before all are there', () => {
    const work = workOf(withBlocks(gull, windmill));
    expect(firstPage(work, setting, new Set(['foundations']))).toBeNull();
    expect(firstPage(work, { ...setting, margin: 9 }, new Set(['cover', 'foundations']))).toBeNull();
  });

  it('can show a first look at many: papers of the first block, under a number that promises no count', () => {
    const work = workOf(withBlocks(gull, windmill, lighthouse), undefined, 2);
    const look = firstLook(work, setting)!;
    const papers = look.parts.flatMap(({ paper }) => paper ?? []);
    expect(papers.length).toBeGreaterThan(0);
    expect(new Set(papers.map(({ block }) => block))).toEqual(new Set(['gull']));
    const said = textsOf(marksOf(look)).map(({ text }) => text);
    expect(said).toContain('Sheet 1');
    expect(said.join(' ')).not.toMatch(/Sheet 1 of/);
    expect(said.join(' ')).toContain('copy 1 of 2');
    expect(firstLook({ ...work, jobs: [] }, setting)).toBeNull();
  });

  it('keeps the foundations as they lie without the other pages', () => {
    const project = withBlocks(gull, lighthouse);
    const alone = booklet(project, ['foundations']).sheets;
    const among = booklet(project, ['cover', 'guide', 'foundations']).sheets.slice(-alone.length);
    expect(among.map(({ parts }) => parts)).toEqual(alone.map(({ parts }) => parts));
  });

  it('keeps all ink on the page, off the margin, on every page size', () => {
    const custom = readPage('4x6in');
    if (!custom.ok) throw new Error(custom.error);
    const parts = BOOKLET_PARTS.filter((part) => part !== 'foundations');
    for (const page of [PAGES.letter, PAGES.a4, PAGES.tabloid, custom.page]) {
      const { sheets } = booklet(withBlocks(gull, windmill, lighthouse, rope), parts, { page });
      expect(sheets.length).toBeGreaterThan(0);
      for (const sheet of sheets) {
        const box = boxOf(marksOf(sheet).flatMap(pointsOf));
        const at = `${page.name}: ${sheet.title}`;
        expect(box.minX, at).toBeGreaterThanOrEqual(0.25 - 1e-6);
        expect(box.minY, at).toBeGreaterThanOrEqual(0.25 - 1e-6);
        expect(box.maxX, at).toBeLessThanOrEqual(page.width - 0.25 + 1e-6);
        expect(box.maxY, at).toBeLessThanOrEqual(page.height - 0.25 + 1e-6);
      }
    }
  });

  it('sets no type under 6 points', () => {
    const { sheets } = booklet(demo(), BOOKLET_PARTS);
    for (const { size } of sheets.flatMap((sheet) => textsOf(marksOf(sheet))))
      expect(size * 72).toBeGreaterThanOrEqual(6 - 1e-6);
  });

  it('says why where there is nothing to print', () => {
    const broken = block(
      'broken',
      'Broken',
      [
        [0, 0],
        [1, 1],
        [0, 0],
      ],
      [],
    );
    const nothing = booklet(withBlocks(broken), ['guide', 'cover']);
    expect(nothing.sheets).toEqual([]);
    expect(nothing.notes.some(({ kind }) => kind === 'refused')).toBe(true);
    expect(booklet(withBlocks(), ['cover']).notes.map(({ kind }) => kind)).toEqual(['empty']);
  });

  it('prints names in other letters, or of 200 letters, without an empty box', () => {
    const project: Project = {
      ...harbour,
      name: '港の見本',
      blocks: [
        { ...gull, name: 'Żaglówka '.repeat(22).trim() },
        { ...windmill, name: 'طاحونة' },
      ],
      fabrics: harbour.fabrics.map((fabric, i) => (i === 0 ? { ...fabric, name: '' } : fabric)),
    };
    const { sheets } = booklet(project, BOOKLET_PARTS);
    for (const { text } of sheets.flatMap((sheet) => textsOf(marksOf(sheet))))
      for (const letter of text) expect(typeface.has(letter.codePointAt(0)!), text).toBe(true);
  });
});

describe('the file of a booklet', () => {
  it.skipIf(!has('qpdf') || !has('pdfinfo'))(
    `has its outline and all its pages${missing('qpdf')}${missing('pdfinfo')}`,
    async () => {
      const project = withBlocks(gull, windmill);
      const { sheets, bookmarks } = booklet(project, BOOKLET_PARTS);
      const pdf = await toPdf(sheets, typeface, { title: 'Harbour', createdAt: new Date(0), bookmarks });
      expect(runOn(pdf, 'pdf', 'pdfinfo', ['{}']).toString()).toMatch(
        new RegExp(`Pages:\\s+${sheets.length}\\n`),
      );
      const { outlines } = JSON.parse(
        runOn(pdf, 'pdf', 'qpdf', ['--json', '--json-key=outlines', '{}']).toString(),
      ) as { outlines: { title: string; destpageposfrom1: number; kids: { title: string }[] }[] };
      expect(outlines.map(({ title }) => title)).toEqual(bookmarks.map(({ title }) => title));
      outlines.forEach(({ destpageposfrom1, kids }, i) => {
        expect(destpageposfrom1).toBe(bookmarks[i]!.sheet + 1);
        expect(kids.map(({ title }) => title)).toEqual(bookmarks[i]!.within.map(({ title }) => title));
      });
    },
  );

  it.skipIf(!has('pdftotext'))(
    `names every join of every demo block in its guide${missing('pdftotext')}`,
    async () => {
      const project = demo();
      for (const one of project.blocks) {
        const plan = piece(one);
        const { sheets } = layOutBooklet(workOf(project, [one]), setting, new Set(['guide']));
        const pdf = await toPdf(sheets, typeface, { title: one.name, createdAt: new Date(0) });
        const text = runOn(pdf, 'pdf', 'pdftotext', ['-layout', '{}', '-']).toString();
        for (const { step, points } of plan.joins) {
          expect(text).toContain(`Join ${step}: `);
          for (const { label } of points) expect(text).toMatch(new RegExp(`\\b${label}\\b`));
        }
      }
    },
  );

  it('is one PDF a block in an archive', async () => {
    const project = withBlocks(gull, { ...windmill, name: 'Gull' });
    const moment = new Date(2026, 10, 24);
    const archive = await zipOf(
      blockPdfs(workOf(project), setting, new Set(['guide', 'foundations']), { createdAt: moment }),
      moment,
    );
    const files = unzipSync(archive);
    expect(Object.keys(files)).toEqual(['1 Gull.pdf', '2 Gull.pdf']);
    for (const bytes of Object.values(files))
      expect(Buffer.from(bytes.subarray(0, 5)).toString()).toBe('%PDF-');
  });
});

describe('cutting templates', () => {
  it('stand for every patch once, and share a shape only with patches that can be cut by it', () => {
    for (const one of [...demo().blocks, windmill, lighthouse]) {
      const plan = piece(one);
      const templates = templatesOf(blockWork(one));
      expect(templates.flatMap(({ patches }) => patches).toSorted()).toEqual(
        plan.patches.map(({ id }) => id).toSorted(),
      );
      const byId = new Map(plan.patches.map((patch) => [patch.id, patch]));
      for (const { patch, patches } of templates)
        for (const id of patches) {
          expect(byId.get(id)!.fabric).toBe(patch.fabric);
          expect(signedArea(byId.get(id)!.polygon)).toBeCloseTo(signedArea(patch.polygon), 1);
        }
    }
  });

  it('never let a shape stand for its mirror image', () => {
    // A staff parts two right triangles that are each other's mirror image, and no quarter turn makes them one.
    const pair = block(
      'pair',
      'Pair',
      [
        [0, 0],
        [6, 0],
        [6, 4],
        [0, 4],
      ],
      [
        [
          [3, 0],
          [3, 4],
        ],
        [
          [3, 0],
          [0, 4],
        ],
        [
          [3, 0],
          [6, 4],
        ],
      ],
    );
    // Of the four triangles each is a half turn of one beside it, so there are two shapes of two patches.
    const templates = templatesOf(blockWork(pair));
    expect(templates.map(({ patches }) => patches.length).toSorted()).toEqual([2, 2]);
  });

  it.skipIf(!has('pdftoppm'))(
    `are true to scale, with the allowance round them${missing('pdftoppm')}`,
    async () => {
      const plain = block('flag', 'Flag', square(3), []);
      const { sheets } = booklet(withBlocks(plain), ['templates']);
      const pdf = await toPdf(sheets, typeface, { title: 'Flag', createdAt: new Date(0) });
      const dpi = 300;
      const raster = renderPdf(pdf, dpi);
      // A 3 in square is cut 3 1/2 in square: finished + 1/2 in (common practice). Sides are the longest dark columns.
      const columns = darkColumns(raster, 2.5 * dpi);
      expect(Math.abs(columns.at(-1)! - columns[0]! - 3.5 * dpi)).toBeLessThanOrEqual(4);
      expect(columns.some((x) => Math.abs(x - columns[0]! - 0.25 * dpi) <= 4)).toBe(true);
    },
  );

  it('say that they are not mirrored, and carry a test square', () => {
    const { sheets } = booklet(withBlocks(gull), ['templates']);
    for (const sheet of sheets) {
      const marks = marksOf(sheet);
      expect(words(marks)).toContain('Not mirrored');
      const [tester] = marks.flatMap((mark) =>
        mark.kind === 'polygon' && mark.pen === 'measure' ? [boxOf(mark.ring)] : [],
      );
      expect(tester!.maxX - tester!.minX).toBeCloseTo(1, 9);
      expect(tester!.maxY - tester!.minY).toBeCloseTo(1, 9);
    }
  });

  it('print true on a printer that is off', () => {
    const correction = { printer: 'loft', across: 1.02, down: 0.99 };
    const { sheets } = booklet(withBlocks(gull), ['templates'], { correction });
    const [tester] = marksOf(sheets[0]!).flatMap((mark) =>
      mark.kind === 'polygon' && mark.pen === 'measure' ? [boxOf(mark.ring)] : [],
    );
    expect(tester!.maxX - tester!.minX).toBeCloseTo(1.02, 9);
    expect(tester!.maxY - tester!.minY).toBeCloseTo(0.99, 9);
    expect([sheets[0]!.width, sheets[0]!.height]).toEqual([8.5, 11]);
  });
});

describe('labels for piles', () => {
  it('put every patch on one pile', () => {
    for (const one of [...demo().blocks, gull]) {
      const work = blockWork(one);
      const piles = pilesOf(work);
      expect(piles.flatMap(({ patches }) => patches).toSorted()).toEqual(
        work.plan.patches.map(({ id }) => id).toSorted(),
      );
    }
  });
});

describe('the key on a sheet', () => {
  it('explains the codes and arrows on that sheet, and no others', () => {
    let keyless = 0;
    let keyed = 0;
    for (const grain of [false, true]) {
      const { sheets } = layOutSheets(workOf(demo()), { ...setting, grain });
      for (const sheet of sheets) {
        const onPapers = sheet.parts.filter(({ paper }) => paper !== null).flatMap(({ marks }) => marks);
        const used = new Set(
          textsOf(onPapers).flatMap(({ text }) => text.split(' ').filter((word) => /^#\d+$/.test(word))),
        );
        const foot = words(sheet.parts.filter(({ isFoot }) => isFoot).flatMap(({ marks }) => marks));
        expect(new Set(foot.match(/#\d+/g) ?? []), sheet.title).toEqual(used);
        expect(foot.includes('straight grain')).toBe(
          onPapers.some((mark) => mark.kind === 'line' && mark.pen === 'grain'),
        );
        if (used.size === 0) keyless++;
        else keyed++;
      }
    }
    expect(keyless).toBeGreaterThan(0);
    expect(keyed).toBeGreaterThan(0);
  });
});

describe('the pages of cutting templates', () => {
  it('tell how tiles are laid together where there are any, and only there', () => {
    const foot = (block: Block): string =>
      words(booklet(withBlocks(block), ['templates']).sheets.flatMap(marksOf));
    expect(foot(lighthouse)).toContain('crosses on crosses');
    expect(foot(gull)).not.toContain('crosses on crosses');
  });
});

describe('the front view of the guide', () => {
  it('gives sections side by side different shades', () => {
    for (const one of demo().blocks) {
      const plan = piece(one);
      const shades = sectionShades(plan);
      const sectionOf = new Map(plan.patches.map(({ id, section }) => [id, section]));
      for (const { section, neighbours } of plan.patches)
        for (const id of neighbours) {
          const other = sectionOf.get(id)!;
          if (other !== section) expect(shades.get(other)).not.toBe(shades.get(section));
        }
    }
  });
});

describe('the SVG for a cutting machine', () => {
  it('names what is cut, scored and drawn, and cuts in whole lines', () => {
    const svg = toLayeredSvg(booklet(withBlocks(gull), ['foundations']).sheets[0]!, typeface);
    const [, cut = '', score = '', draw = ''] =
      /<g id="cut">(.*)<g id="score">(.*)<g id="draw">(.*)<\/svg>/.exec(svg) ?? [];
    expect(cut).toContain('class="trim"');
    expect(cut).not.toContain('stroke-dasharray');
    expect(score).toContain('class="seam"');
    expect(score).toContain('class="edge"');
    expect(draw).toContain('aria-label="A1"');
    expect(`${cut}${score}`).not.toContain('aria-label');
    // Nothing of the legend is cut or sewn.
    expect(`${cut}${score}`).not.toContain('sample-');
    expect(draw).toContain('class="sample-trim"');
    expect(layerOf('measure')).toBe('draw');
  });
});

describe('matter that runs from page to page', () => {
  const item = (height: number, keepsWithNext = false) => ({
    height,
    space: 0.1,
    marks: [mark],
    keepsWithNext,
  });
  const mark: Mark = { kind: 'circle', pen: 'frame', at: [0, 0], radius: 0.01, filled: true };

  it('never sets anything beyond the foot, and keeps together what belongs together', () => {
    const pages = flowInto([item(0.5), item(0.3, true), item(0.4)], 1);
    expect(pages.map((page) => page.length)).toEqual([1, 2]);
    expect(flowInto([item(0.5), item(0.3), item(0.4)], 1).map((page) => page.length)).toEqual([2, 1]);
  });
});

function blockWork(one: Block): BlockWork {
  const project: Project = { ...demo(), blocks: [one] };
  const labels = fabricLabels(workOf(project), typeface, []);
  return {
    plan: piece(one),
    blockId: one.id,
    blockName: one.name,
    copies: 1,
    unit: 'in',
    allowance: 0.25,
    fabrics: project.fabrics.map(({ id, color }) => ({ id, color, label: labels.get(id)! })),
  };
}

/** Columns of pixels in which at least so many are dark, the middle of each run of them. */
function darkColumns(
  {
    width,
    height,
    at,
  }: { readonly width: number; readonly height: number; at(x: number, y: number): number },
  least: number,
): number[] {
  const dark = Array.from({ length: width }, (_, x) => {
    let count = 0;
    for (let y = 0; y < height; y++) if (at(x, y) < 160) count++;
    // A dashed line is dark for five eighths of its length.
    return count >= 0.55 * least;
  });
  const middles: number[] = [];
  for (let x = 0; x < width; x++) {
    if (!dark[x]) continue;
    let end = x;
    while (dark[end + 1]) end++;
    middles.push((x + end) / 2);
    x = end;
  }
  return middles;
}

import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { decodeQR } from 'qr/decode.js';
import sharp, { type Sharp } from 'sharp';
import { beforeAll, describe, expect, it } from 'vitest';
import { readCode } from '../../src/document/coded-address.ts';
import { openFile } from '../../src/document/file.ts';
import type { Project } from '../../src/document/project.ts';
import type { Work } from '../../src/document/work.ts';
import { toPdf } from '../../src/foundations/files/pdf.ts';
import type { Mark } from '../../src/foundations/marks.ts';
import { layOutSheets } from '../../src/foundations/sheet/layout.ts';
import { marksOf, type Sheet } from '../../src/foundations/sheet/sheet.ts';
import { makingOf } from '../../src/making/making.ts';
import type { SewPart } from '../../src/rounds/pages/sew-print.ts';
import { sewSheets } from '../../src/rounds/pages/sew-sheets.ts';
import { papersOf } from '../../src/rounds/papers.ts';
import { planRounds } from '../../src/rounds/plan-rounds.ts';
import { quiltSteps } from '../../src/rounds/quilt-steps.ts';
import { takeIntoWork } from '../../src/rounds/take-into-work.ts';
import { typeface } from '../foundations/harbour.ts';
import { findProgram } from '../harness/tools.ts';

const ADDRESS = 'https://quay.example.org/underpaper/';
const PAGE = { name: 'A4', width: 8.268, height: 11.693 };
const DPI = 300;

let project: Project;
let work: Work;

beforeAll(() => {
  const demo = openFile(
    readFileSync(new URL('../../public/demo/harbour-sampler.underpaper.json', import.meta.url), 'utf8'),
  );
  if (!demo.ok) throw new Error(demo.error.message);
  project = demo.project;
  const made = makingOf(project, { copies: 2 });
  const planOf = new Map(made.map(({ block, plan }) => [block.id, plan]));
  work = takeIntoWork(made, made, planRounds(papersOf(made), { steps: 250 }), {
    quilt: quiltSteps(project, 2, (id) => planOf.get(id)!),
  });
});

const sheetsOf = (...parts: SewPart[]): Sheet[] =>
  sewSheets({
    project,
    work,
    parts,
    address: ADDRESS,
    setting: { page: PAGE, margin: 0.25, side: 'front', typeface, project: project.name, printedOn: '9 May' },
  });

const textsOn = (sheets: readonly Sheet[]): string =>
  sheets
    .flatMap(marksOf)
    .flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []))
    .join(' ');

const boxesOn = (sheets: readonly Sheet[]): number =>
  sheets.flatMap(marksOf).filter((mark) => mark.kind === 'polygon' && mark.pen === 'frame').length;

describe('pages beside the machine', () => {
  it('stay within the margins, and say of every round and paper what it is', () => {
    const sheets = sheetsOf('cards', 'dividers', 'checklist', 'map');
    for (const sheet of sheets)
      for (const mark of marksOf(sheet)) {
        const points =
          mark.kind === 'text'
            ? [mark.at]
            : mark.kind === 'circle'
              ? [mark.at]
              : mark.kind === 'line'
                ? mark.points
                : mark.ring;
        for (const [x, y] of points) {
          expect(x).toBeGreaterThanOrEqual(0.25 - 1e-6);
          expect(x).toBeLessThanOrEqual(PAGE.width - 0.25 + 1e-6);
          expect(y).toBeGreaterThanOrEqual(0.25 - 1e-6);
          expect(y).toBeLessThanOrEqual(PAGE.height - 0.25 + 1e-6);
        }
      }
    // A box for every paper of every round, whatever else is boxed: sizes were not kept here.
    const takes = work.rounds.reduce((sum, round) => sum + round.takes.length, 0);
    expect(boxesOn(sheetsOf('cards'))).toBe(takes);
    expect(boxesOn(sheetsOf('dividers'))).toBe(takes);
    // And one for every position, join, trim and seam of the quilts.
    const positions = work.blocks.reduce(
      (sum, { copies, sections, joins }) =>
        sum + copies * (sections.reduce((own, { order }) => own + order.length, 0) + joins.length + 1),
      0,
    );
    expect(boxesOn(sheetsOf('checklist'))).toBe(positions + 2 * work.quilt!.steps.length);
    const words = textsOn(sheetsOf('dividers'));
    for (const { name } of project.fabrics)
      if (work.rounds.some(({ fabric }) => project.fabrics.find(({ id }) => id === fabric)?.name === name))
        expect(words).toContain(name);
    expect(sheetsOf('map').length).toBe(2);
  });
});

/** Where the codes of a sheet lie: the white squares under them, inches. */
const codesOn = (sheet: Sheet): { x: number; y: number; side: number }[] =>
  marksOf(sheet)
    .filter(
      (mark): mark is Extract<Mark, { kind: 'polygon' }> => mark.kind === 'polygon' && mark.pen === 'code',
    )
    .filter(({ fill }) => fill === '#ffffff')
    .map(({ ring }) => {
      const xs = ring.map(([x]) => x);
      const ys = ring.map(([, y]) => y);
      return { x: Math.min(...xs), y: Math.min(...ys), side: Math.max(...xs) - Math.min(...xs) };
    });

const decoded = async (picture: Sharp): Promise<string | null> => {
  const { data, info } = await picture
    .flatten({ background: '#fff' })
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  try {
    return decodeQR(
      { width: info.width, height: info.height, data: new Uint8Array(data) },
      { timeLimit: 60_000, effort: 3 },
    );
  } catch {
    return null;
  }
};

/**
 * Codes made by one library are read by another, from the PDF as poppler renders it and from a picture as a phone takes
 * it: blurred, turned, grey and smaller.
 */
describe.skipIf(findProgram('pdftoppm') === null)('printed codes', () => {
  async function rendered(sheets: readonly Sheet[], page: number): Promise<Buffer> {
    const folder = mkdtempSync(join(tmpdir(), 'underpaper-codes-'));
    try {
      const file = join(folder, 'codes.pdf');
      writeFileSync(file, await toPdf(sheets, typeface, { title: 'Codes', createdAt: new Date(0) }));
      execFileSync('pdftoppm', [
        '-r',
        `${DPI}`,
        '-f',
        `${page + 1}`,
        '-l',
        `${page + 1}`,
        '-singlefile',
        '-png',
        file,
        join(folder, 'page'),
      ]);
      return readFileSync(join(folder, 'page.png'));
    } finally {
      rmSync(folder, { recursive: true });
    }
  }
  const cropped = (png: Buffer, { x, y, side }: { x: number; y: number; side: number }): Sharp =>
    sharp(png).extract({
      left: Math.round(x * DPI),
      top: Math.round(y * DPI),
      width: Math.round(side * DPI),
      height: Math.round(side * DPI),
    });
  const asPhotographed = async (code: Sharp): Promise<Sharp> => {
    const turned = await code.png().toBuffer();
    return sharp(
      await sharp(turned)
        .rotate(17, { background: '#e8e4da' })
        .blur(1.4)
        .linear(0.72, 30)
        .resize({ width: 260 })
        .png()
        .toBuffer(),
    );
  };

  it('of a divider lead to its fabric', async () => {
    const sheets = sheetsOf('dividers');
    const at = sheets.findIndex((sheet) => codesOn(sheet).length > 0);
    const [code] = codesOn(sheets[at]!);
    const picture = cropped(await rendered(sheets, at), code!);
    const text = await decoded(picture.clone());
    expect(text).toContain(ADDRESS);
    expect(project.fabrics.map(({ id }) => id)).toContain((readCode(text!) as { fabric: string }).fabric);
    expect(await decoded(await asPhotographed(picture))).toBe(text);
  });

  it('of papers lead to each of them, copy by copy', async () => {
    const one = project.blocks.find(({ name }) => name === 'Sailing boat')!;
    const jobs = makingOf(project, { blocks: [one.id], copies: 2 });
    const options = {
      page: PAGE,
      margin: 0.25,
      side: 'printed',
      printedOn: '9 May',
      typeface,
      codes: ADDRESS,
    } as const;
    const { sheets } = layOutSheets({ project, jobs }, options);
    const found = new Set<string>();
    for (const [k, sheet] of sheets.entries()) {
      const codes = codesOn(sheet);
      if (codes.length === 0) continue;
      const png = await rendered(sheets, k);
      for (const code of codes) {
        const picture = cropped(png, code);
        const text = await decoded(picture.clone());
        found.add((readCode(text ?? '') as { paper: string } | null)?.paper ?? `unread ${text}`);
        expect(await decoded(await asPhotographed(picture))).toBe(text);
      }
    }
    expect([...found].sort()).toEqual([`${one.id}/A/1`, `${one.id}/A/2`]);
    // Without them nothing of the kind is drawn, and all else lies where it lay.
    const plain = layOutSheets({ project, jobs }, { ...options, codes: null });
    expect(plain.sheets.map((sheet) => marksOf(sheet).length)).toEqual(
      sheets.map(
        (sheet) => marksOf(sheet).filter((mark) => mark.kind === 'text' || mark.pen !== 'code').length,
      ),
    );
  });
});

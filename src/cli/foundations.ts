import { mkdirSync, readFileSync, realpathSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { oneLine } from '../document/file-place.ts';
import { lightnessOf } from '../document/lightness.ts';
import type { Block, Project } from '../document/project.ts';
import { DEFAULT_MARGIN_IN, PAGES, type Page, readPage } from '../foundations/pages.ts';
import { toPdf } from '../foundations/pdf.ts';
import { layOutSheets, type SheetLayout } from '../foundations/sheets.ts';
import { toSvg } from '../foundations/svg.ts';
import { openTypeface, type Typeface } from '../foundations/typeface.ts';
import { piece } from '../piecing/piece.ts';
import { type Command, type ExitStatus, type Output, readArgs } from './command.ts';
import { readProject, systemReason } from './read-project.ts';
import { Refusal, WrongUsage } from './trouble.ts';

const MOST_COPIES = 999;

export const foundations: Command = {
  name: 'foundations',
  summary: 'write the foundations at true scale as a PDF, or as SVG',
  help: `Usage: npm run --silent underpaper -- foundations FILE --out F.pdf [options]
       npm run --silent underpaper -- foundations FILE --svg DIR [options]

Writes the foundations of a project file's blocks on sheets at true scale, mirrored as they are
sewn: the fabric lies on the unprinted side. A block that cannot be pieced is left out with a
remark.

Options
  --out F.pdf      write all sheets to this PDF; a file of that name is replaced
  --svg DIR        write one SVG a sheet, sheet-1.svg and so on, into this folder, made if need be
  --page PAGE      ${Object.keys(PAGES).join(', ')}, or a size such as 8.5x14in or 210x297mm;
                   letter if not given
  --copies N       copies of each foundation, 1 to ${MOST_COPIES}; 1 if not given
  --blocks a,b     only these blocks, by id or name; all if not given
  --help           print this help

At least one of --out and --svg is needed; both may be given. Print at actual size, 100 %, and
measure the test square on each sheet.

Exit status
  0    written
  1    the file could not be opened or written, a block is not in it, or there is nothing to print
  2    wrong usage
`,
  run: async (args, output): Promise<ExitStatus> => {
    const { file, values } = readArgs('foundations', args, {
      out: { type: 'string' },
      svg: { type: 'string' },
      page: { type: 'string' },
      copies: { type: 'string' },
      blocks: { type: 'string' },
    });
    if (values.out === undefined && values.svg === undefined) {
      throw new WrongUsage('foundations needs --out F.pdf or --svg DIR to write to.');
    }
    const page = pageOf(values.page ?? 'letter');
    const copies = copiesOf(values.copies ?? '1');
    const project = readProject(file);
    const blocks = values.blocks === undefined ? project.blocks : chosenBlocks(project, values.blocks);
    if (values.out !== undefined) refuseOverwriting(file, values.out);

    const typeface = loadTypeface();
    const now = new Date();
    const lightness = lightnessOf(project.fabrics);
    const layout = layOutSheets(
      { project, jobs: blocks.map((block) => ({ block, plan: piece(block, { lightness }), copies })) },
      {
        page,
        margin: DEFAULT_MARGIN_IN,
        side: 'printed',
        printedOn: now.toLocaleDateString('en', { day: 'numeric', month: 'long', year: 'numeric' }),
        typeface,
      },
    );
    if (layout.sheets.length === 0) throw new Refusal(`${file}: ${reasonForNothing(layout)}`);
    for (const { message } of layout.notes) output.remark(oneLineOf(message));
    if (values.out !== undefined) {
      const pdf = await toPdf(layout.sheets, typeface, { title: project.name, createdAt: now });
      write(values.out, () => writeFileSync(values.out!, pdf));
      output.out(`Wrote ${values.out}: ${sheetCount(layout, page)}.\n`);
    }
    if (values.svg !== undefined) writeSvg(values.svg, layout, page, output);
    return 0;
  },
};

function pageOf(text: string): Page {
  const choice = readPage(text);
  if (!choice.ok) throw new WrongUsage(`--page: ${choice.error}`);
  return choice.page;
}

function copiesOf(text: string): number {
  const copies = /^\d{1,4}$/.test(text) ? Number(text) : 0;
  if (copies < 1 || copies > MOST_COPIES) {
    throw new WrongUsage(`--copies takes a whole number from 1 to ${MOST_COPIES}.`);
  }
  return copies;
}

/** The blocks named, in the order of the project. A name may hold a comma, so the whole list is tried first. */
function chosenBlocks(project: Project, list: string): readonly Block[] {
  const named = (wanted: string) => project.blocks.filter(({ id, name }) => id === wanted || name === wanted);
  const whole = named(list.trim());
  if (whole.length > 0) return whole;
  const wanted = list
    .split(',')
    .map((one) => one.trim())
    .filter((one) => one !== '');
  if (wanted.length === 0) throw new WrongUsage('--blocks takes ids or names with commas between them.');
  const missing = wanted.find((one) => named(one).length === 0);
  if (missing !== undefined)
    throw new Refusal(`The file has no block ‘${oneLine(missing)}’: ${blocksThereAre(project)}.`);
  const chosen = new Set(wanted.flatMap(named));
  return project.blocks.filter((block) => chosen.has(block));
}

function blocksThereAre({ blocks }: Project): string {
  const shown = blocks.slice(0, 8).map(({ id, name }) => `${id} ‘${oneLine(name)}’`);
  if (shown.length === 0) return 'it has none at all';
  return `it has ${shown.join(', ')}${blocks.length > shown.length ? ` and ${blocks.length - shown.length} more` : ''}`;
}

function refuseOverwriting(project: string, out: string): void {
  let there: string;
  try {
    there = realpathSync(out);
  } catch {
    return;
  }
  if (there === realpathSync(project))
    throw new Refusal(`${out}: This is the project file itself; it is left alone.`);
}

/** The typeface that the papers are set in, from the package it comes in. */
function loadTypeface(): Typeface {
  const { resolve } = createRequire(import.meta.url);
  const bytes = (file: string) => readFileSync(resolve(`@expo-google-fonts/source-sans-3/${file}`));
  return openTypeface({
    regular: bytes('400Regular/SourceSans3_400Regular.ttf'),
    semibold: bytes('600SemiBold/SourceSans3_600SemiBold.ttf'),
  });
}

/** Of several reasons the first that names a block, or the page, says most. */
function reasonForNothing({ notes }: SheetLayout): string {
  const note = notes.find(({ kind }) => kind === 'refused') ?? notes[0];
  return oneLineOf(note?.message ?? 'There is nothing to print.');
}

const oneLineOf = (message: string): string => message.replace(/\s+/g, ' ');

function writeSvg(folder: string, layout: SheetLayout, page: Page, output: Output): void {
  const digits = String(layout.sheets.length).length;
  write(folder, () => {
    mkdirSync(folder, { recursive: true });
    for (const [i, sheet] of layout.sheets.entries()) {
      writeFileSync(join(folder, `sheet-${String(i + 1).padStart(digits, '0')}.svg`), toSvg(sheet));
    }
  });
  output.out(`Wrote ${folder}: ${sheetCount(layout, page)}, one SVG a sheet.\n`);
}

function write(path: string, run: () => void): void {
  try {
    run();
  } catch (thrown) {
    throw new Refusal(`${path}: ${systemReason(thrown)}`);
  }
}

function sheetCount({ foundations: papers, sheets }: SheetLayout, page: Page): string {
  const count = (n: number, word: string) => `${n.toLocaleString('en')} ${word}${n === 1 ? '' : 's'}`;
  return `${count(papers, 'foundation')} on ${count(sheets.length, 'sheet')} (${page.name})`;
}

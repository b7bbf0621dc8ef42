import { mkdirSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { DEFAULT_MARGIN_IN, marginFault, PAGES, type Page, readPage } from '../document/pages.ts';
import { layOutBooklet } from '../foundations/booklet/booklet.ts';
import { BOOKLET_PARTS } from '../foundations/booklet/parts.ts';
import { blockPdfs } from '../foundations/files/block-files.ts';
import { toLayeredSvg } from '../foundations/files/layered-svg.ts';
import { toPdf } from '../foundations/files/pdf.ts';
import { zipOf } from '../foundations/files/zip.ts';
import type { PrintWork } from '../foundations/print-work.ts';
import { type Correction, readCorrection } from '../foundations/sheet/correction.ts';
import type { SheetLayout } from '../foundations/sheet/sheet.ts';
import { withShaping } from '../foundations/type/fonts.ts';
import { type FullTypeface, openTypeface } from '../foundations/type/typeface.ts';
import { parseLength } from '../geometry/length.ts';
import { makingOf } from '../making/making.ts';
import { longDay } from '../words/numeral.ts';
import { phrase } from '../words/phrase.ts';
import { type Command, type ExitStatus, type Output, readArgs } from './command.ts';
import { MOST_COPIES, readInHand } from './in-hand.ts';
import { readProject, STANDARD, systemReason } from './read-project.ts';
import { Refusal, WrongUsage } from './trouble.ts';
import { namedBy, refuseOverwriting, writeWhole } from './write-file.ts';

export const foundations: Command = {
  name: 'foundations',
  summary: phrase('write the foundations at true scale as a PDF, or as SVG'),
  help: phrase(
    "Usage: npm run --silent underpaper -- foundations FILE --out F.pdf [options]\n       npm run --silent underpaper -- foundations FILE --svg DIR [options]\n       npm run --silent underpaper -- foundations FILE --zip F.zip [options]\n\nWrites the foundations of a project file's blocks on sheets at true scale, mirrored as they are\nsewn: the fabric lies on the unprinted side. A block that cannot be pieced is left out with a\nremark.\n\nFILE may be - for standard input.\n\nOptions\n  --out F.pdf      write all sheets to this PDF; a file of that name is replaced once the new one is\n                   whole; - for standard output\n  --svg DIR        write one SVG a sheet, sheet-1.svg and so on, into this folder, made if need be\n  --zip F.zip      write a PDF for each block into this archive; a file of that name is replaced\n  --page PAGE      {keys}, or a size such as 8.5x14in or 210x297mm;\n                   letter if not given\n  --copies N       copies of each foundation, 1 to {mostCopies}; 1 if not given\n  --quilt          all that the quilt of the file takes, and the quilts beside it: every block as\n                   often as it lies there, turned over where it is mirrored\n  --blocks a,b     only these blocks, by id or name; all if not given\n  --side SIDE      printed (mirrored, to sew on the printed side) or front (for methods that sew\n                   from the other side); printed if not given\n  --margin LENGTH  what the printer leaves free all round, such as 1/4 or 6mm; 1/4 in if not given\n  --nest TURNS     how papers may be turned to need fewer sheets: quarters or free; quarters if\n                   not given\n  --together WHAT  what shares sheets: fewest (all that fits), blocks (one block's papers) or\n                   sections (copies of one section); fewest if not given\n  --fabric STYLE   how patches show their fabric beside its name: outline, shaded or hatched;\n                   outline if not given\n  --grain          straight-grain arrows on patches at the edge of the block\n  --large          large type: pages to read at 14 pt, labels as large as their patches allow\n  --draft          all in grey, to spare ink\n  --codes ADDRESS  a square code on each paper that has room, which opens the paper in the app\n                   served from this address, such as https://example.org/underpaper/\n  --correct AxD    for a printer that is a little off: what the 50 mm lines of an uncorrected\n                   print measure across and down, such as 49.6x49.8 (mm); at most 5% off\n  --printer NAME   name of that printer, said on every sheet\n  --guide          also the joining guide of each block, a step a join\n  --cover          also a cover with the blocks in colour, their sizes and fabrics\n  --line-drawing   also the bare lines of each block, to colour by hand\n  --templates      also cutting templates of every patch with its allowance, not mirrored\n  --cutting        also the cutting list: how much of each fabric, strips and cuts\n  --labels         also labels for the piles of cut pieces\n  --index          also an index: on which sheet each paper lies, with boxes to tick\n  --cautions       also a page of cautions\n  --freezer        also a page on sewing from freezer paper\n  --help           print this help\n\nAt least one of --out, --svg and --zip is needed; all may be given. In an SVG the groups cut,\nscore and draw say what a cutting machine does with a line. Pictures of sheets as PNG come from\nthe app, where the browser paints them; here other tools can make them of the PDF. Print at actual\nsize, 100%, and measure the test square on each sheet.\n\nExit status\n  0    written\n  1    the file could not be opened or written, a block is not in it, or there is nothing to print\n  2    wrong usage\n",
    { keys: Object.keys(PAGES).join(', '), mostCopies: MOST_COPIES },
  ),
  run: async (args, output): Promise<ExitStatus> => {
    const { file, values } = readArgs('foundations', args, {
      out: { type: 'string' },
      svg: { type: 'string' },
      zip: { type: 'string' },
      page: { type: 'string' },
      copies: { type: 'string' },
      quilt: { type: 'boolean' },
      blocks: { type: 'string' },
      side: { type: 'string' },
      margin: { type: 'string' },
      nest: { type: 'string' },
      together: { type: 'string' },
      fabric: { type: 'string' },
      grain: { type: 'boolean' },
      codes: { type: 'string' },
      large: { type: 'boolean' },
      draft: { type: 'boolean' },
      correct: { type: 'string' },
      printer: { type: 'string' },
      guide: { type: 'boolean' },
      cover: { type: 'boolean' },
      'line-drawing': { type: 'boolean' },
      templates: { type: 'boolean' },
      cutting: { type: 'boolean' },
      labels: { type: 'boolean' },
      cautions: { type: 'boolean' },
      index: { type: 'boolean' },
      freezer: { type: 'boolean' },
    });
    const [out, svg, zip] = [
      namedBy('out', values.out),
      namedBy('svg', values.svg),
      namedBy('zip', values.zip),
    ];
    if (out === undefined && svg === undefined && zip === undefined)
      throw new WrongUsage('foundations needs --out F.pdf, --svg DIR or --zip F.zip to write to.');
    if (svg === STANDARD || (out === STANDARD && zip === STANDARD))
      throw new WrongUsage(phrase('Standard output (-) takes one file: the PDF, or the archive.'));
    // What was written is told beside it where one of the files itself goes to standard output.
    const tell = (line: string): void =>
      out === STANDARD || zip === STANDARD ? output.remark(line) : output.out(`${line}\n`);
    const page = pageOf(values.page ?? 'letter');
    const choose = readInHand(values);
    const look = {
      margin: marginOf(values.margin, page),
      side: oneOf('side', values.side, ['printed', 'front']),
      nesting: {
        turning: oneOf('nest', values.nest, ['quarters', 'free']),
        together: oneOf('together', values.together, ['fewest', 'blocks', 'sections']),
        effort: NESTING_EFFORT,
      },
      style: oneOf('fabric', values.fabric, ['outline', 'shaded', 'hatched']),
      grain: values.grain ?? false,
      codes: codesOf(values.codes),
      large: values.large ?? false,
      tone: values.draft ? ('grey' as const) : ('black' as const),
      correction: correctionOf(values.correct, values.printer),
    };
    const project = readProject(file);
    const taken = choose(project, file);
    for (const written of [out, zip]) if (written !== undefined) refuseOverwriting(file, written);
    const parts = new Set(BOOKLET_PARTS.filter((part) => part === 'foundations' || values[part] === true));

    const typeface = loadTypeface();
    const now = new Date();
    const work: PrintWork = {
      project,
      plain: taken.plain,
      jobs: makingOf(project, {
        ...taken,
        sheet: { width: page.width, height: page.height, margin: look.margin },
      }),
    };
    const options = {
      page,
      ...look,
      printedOn: longDay(now),
      typeface,
    };
    const layout = layOutBooklet(work, options, parts);
    if (layout.sheets.length === 0) throw new Refusal(`${file}: ${reasonForNothing(layout)}`);
    for (const { message } of layout.notes) output.remark(oneLineOf(message));
    const counted = sheetCount(layout, page, parts.size === 1);
    if (out !== undefined) {
      const pdf = await toPdf(layout.sheets, typeface, {
        title: project.name,
        createdAt: now,
        bookmarks: layout.bookmarks,
      });
      writeWhole(out, pdf, output);
      tell(phrase('Wrote {nameOf}: {counted}.', { nameOf: nameOf(out), counted }));
    }
    if (svg !== undefined) {
      writeSvg(svg, layout, typeface, output);
      tell(phrase('Wrote {svg}: {counted}, one SVG per sheet.', { svg, counted }));
    }
    if (zip !== undefined) {
      const archive = await zipOf(blockPdfs(work, options, parts, { createdAt: now }), now);
      writeWhole(zip, archive, output);
      tell(
        phrase('Wrote {nameOf}: {jobs, plural, one {# block} other {# blocks}}, one PDF each.', {
          nameOf: nameOf(zip),
          jobs: work.jobs.length,
        }),
      );
    }
    return 0;
  },
};

function pageOf(text: string): Page {
  const choice = readPage(text);
  if (!choice.ok) throw new WrongUsage(`--page: ${choice.error}`);
  return choice.page;
}

/** Tries allowed to need fewer sheets: a few seconds for a thousand papers. */
const NESTING_EFFORT = 3e8;

/** One of some words; the first when none is given. */
function oneOf<const Word extends string>(
  option: string,
  given: string | undefined,
  words: readonly [Word, ...Word[]],
): Word {
  if (given === undefined) return words[0];
  const word = words.find((one) => one === given);
  if (word === undefined)
    throw new WrongUsage(`--${option} takes ${words.slice(0, -1).join(', ')} or ${words.at(-1)}.`);
  return word;
}

function marginOf(text: string | undefined, page: Page): number {
  if (text === undefined) return DEFAULT_MARGIN_IN;
  const length = parseLength(text);
  if (!length.ok) throw new WrongUsage(`--margin: ${length.error}`);
  const fault = marginFault(page, length.inches);
  if (fault !== null) throw new WrongUsage(`--margin: ${fault}`);
  return length.inches;
}

function correctionOf(text: string | undefined, printer: string | undefined): Correction | null {
  if (text === undefined) {
    if (printer !== undefined) throw new WrongUsage('--printer names the printer that --correct is for.');
    return null;
  }
  const [, across, down] = /^(.+?)\s*[x×]\s*(.+)$/.exec(text.trim()) ?? [];
  if (across === undefined || down === undefined)
    throw new WrongUsage('--correct takes two measurements, such as 49.6x49.8.');
  const choice = readCorrection(printer ?? '', across, down);
  if (!choice.ok) throw new WrongUsage(`--correct: ${choice.error}`);
  return choice.correction;
}

/** The typeface that the papers are set in, from the package it comes in. */
function loadTypeface(): FullTypeface {
  const { resolve } = createRequire(import.meta.url);
  const bytes = (file: string) => readFileSync(resolve(`@expo-google-fonts/source-sans-3/${file}`));
  return withShaping(openTypeface(), {
    regular: bytes('400Regular/SourceSans3_400Regular.ttf'),
    semibold: bytes('600SemiBold/SourceSans3_600SemiBold.ttf'),
  });
}

/** Of several reasons the first that names a block, or the page, says most. */
function reasonForNothing({ notes }: SheetLayout): string {
  const note = notes.find(({ kind }) => kind === 'refused') ?? notes[0];
  return oneLineOf(note?.message ?? phrase('There is nothing to print.'));
}

const oneLineOf = (message: string): string => message.replace(/\s+/g, ' ');

const nameOf = (path: string): string => (path === STANDARD ? phrase('standard output') : path);

/** One SVG a sheet. Sheets of an earlier print that stay in the folder are told: they are easily cut with the others. */
function writeSvg(folder: string, layout: SheetLayout, typeface: FullTypeface, output: Output): void {
  const digits = String(layout.sheets.length).length;
  try {
    const found = statSync(folder, { throwIfNoEntry: false });
    if (found && !found.isDirectory())
      throw new Refusal(
        phrase(
          '{folder}: {isFile, select, true {There is a file of that name, not a folder.} other {This is not a folder.}}',
          { folder, isFile: found.isFile() },
        ),
      );
    mkdirSync(folder, { recursive: true });
  } catch (thrown) {
    if (thrown instanceof Refusal) throw thrown;
    throw new Refusal(`${folder}: ${systemReason(thrown)}`);
  }
  const names = layout.sheets.map((_, i) => `sheet-${String(i + 1).padStart(digits, '0')}.svg`);
  for (const [i, sheet] of layout.sheets.entries())
    writeWhole(join(folder, names[i]!), toLayeredSvg(sheet, typeface), output);
  const stale = readdirSync(folder).filter((name) => /^sheet-\d+\.svg$/.test(name) && !names.includes(name));
  if (stale.length > 0)
    output.remark(
      phrase(
        '{folder} still holds {stale, plural, one {# sheet} other {# sheets}} of an earlier print ({stale2}{isStale, select, true { …} other {}}): not part of this one.',
        { folder, stale: stale.length, stale2: stale.slice(0, 3).join(', '), isStale: stale.length > 3 },
      ),
    );
}

/** `isAlone`: nothing but foundations is on the sheets. */
function sheetCount({ foundations: papers, sheets }: SheetLayout, page: Page, isAlone: boolean): string {
  const between = isAlone ? ' on ' : ', ';
  return phrase(
    '{papers, plural, one {# foundation} other {# foundations}}{between}{sheets, plural, one {# sheet} other {# sheets}}{isAlone, select, true {} other { in all}} ({page})',
    { papers, between, sheets: sheets.length, isAlone, page: page.name },
  );
}

const LONGEST_ADDRESS = 200;

/** The address that square codes lead to; null where none was given. */
function codesOf(address: string | undefined): string | null {
  if (address === undefined) return null;
  if (!/^https?:\/\/[^\s#]+$/.test(address) || address.length > LONGEST_ADDRESS)
    throw new WrongUsage(phrase('--codes needs an address such as https://example.org/underpaper/.'));
  return address;
}

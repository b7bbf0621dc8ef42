import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import PDFDocument from 'pdfkit';
import { build } from 'vite';
import { openFile } from '../../src/document/file.ts';
import { PAGES } from '../../src/document/pages.ts';
import type { Block, Project } from '../../src/document/project.ts';
import { layOutBooklet } from '../../src/foundations/booklet/booklet.ts';
import { toPdf } from '../../src/foundations/files/pdf.ts';
import { type Mark, PENS, PT } from '../../src/foundations/marks.ts';
import { marksOf, type Sheet } from '../../src/foundations/sheet/sheet.ts';
import { fontsOf, withShaping } from '../../src/foundations/type/fonts.ts';
import { FACES, type FullTypeface, openTypeface } from '../../src/foundations/type/typeface.ts';
import { piece } from '../../src/piecing/piece.ts';
import { benchDesign } from './bench-design.ts';

/**
 * Writing a project of some 300 sheets, against the PDF library alone and cairo on the same marks, each in a process
 * of its own so that its memory is its own. Times are those the processor worked. Run with
 * `npx tsx tests/bench/sheets-bench.ts`; with `large` behind it, for 70 blocks of 60 patches in two copies instead.
 */

interface Row {
  readonly sheets: number;
  readonly layOutMs: number;
  readonly writeMs: number;
  readonly bytes: number;
  /** Most memory the process ever held, in megabytes, and what it held before it began. */
  readonly peakMb: number;
  readonly beforeMb: number;
}

const SHEETS = 300;

async function measure(who: string, isLarge: boolean): Promise<Row> {
  const typeface = loadTypeface();
  const opened = openFile(readFileSync('public/demo/harbour-sampler.underpaper.json', 'utf8'));
  if (!opened.ok) throw new Error('The demo does not open.');
  const project = isLarge ? largeProject(opened.project) : opened.project;
  const plans = project.blocks.map((block) => ({ block, plan: piece(block) }));
  const options = {
    page: PAGES.letter,
    margin: 0.25,
    side: 'printed',
    printedOn: 'Today',
    typeface,
  } as const;
  const lay = (copies: number) =>
    layOutBooklet(
      { project, jobs: plans.map((job) => ({ ...job, copies, isMirrored: false })) },
      options,
      new Set(['foundations', 'guide']),
    );
  const copies = isLarge ? 2 : Math.max(1, Math.round(SHEETS / Math.max(1, lay(1).sheets.length - 21)));
  const written = async (sheets: readonly Sheet[]): Promise<Uint8Array> => {
    if (who === 'ours') return toPdf(sheets, typeface, { title: 'Bench', createdAt: new Date(0) });
    if (who === 'alone') return alone(sheets, typeface);
    writeMarks(sheets, process.argv[3]!);
    return new Uint8Array();
  };
  const beforeMb = process.memoryUsage().rss / 1e6;
  // A whole print by each lets the machine compile what it needs, as a worker that has printed before has.
  // A large print is long enough to be its own.
  if (!isLarge) await written(lay(copies).sheets);

  const start = spent();
  const { sheets } = lay(copies);
  const laid = spent();
  const bytes = await written(sheets);
  const end = spent();
  return {
    sheets: sheets.length,
    layOutMs: laid - start,
    writeMs: end - laid,
    bytes: bytes.byteLength,
    peakMb: process.resourceUsage().maxRSS / 1e3,
    beforeMb,
  };
}

/** 70 blocks of 60 patches each in the fabrics of a project. */
const largeProject = (demo: Project): Project => ({
  ...demo,
  blocks: Array.from({ length: 70 }, (_, i): Block => {
    const { outline, lines } = benchDesign(i + 1, 60);
    return {
      id: `b${i + 1}`,
      name: `Bench ${i + 1}`,
      outline,
      cuts: lines.map(([from, to], k) => ({ id: `c${k + 1}`, from, to, role: 'auto' })),
      patches: [],
    };
  }),
});

/** Milliseconds this process has worked, whatever else the machine did meanwhile. */
const spent = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e3;
};

/** The library as a first reading of its manual would use it: mark by mark, nothing gathered. */
function alone(sheets: readonly Sheet[], typeface: FullTypeface): Promise<Uint8Array> {
  const pdf = new PDFDocument({ autoFirstPage: false, font: null as unknown as string });
  for (const face of FACES)
    pdf.registerFont(face, fontsOf(typeface)[face] as unknown as PDFKit.Mixins.PDFFontSource);
  const chunks: Uint8Array[] = [];
  pdf.on('data', (chunk: Uint8Array) => chunks.push(chunk));
  const done = new Promise<Uint8Array>((resolve) => pdf.on('end', () => resolve(Buffer.concat(chunks))));
  for (const sheet of sheets) {
    pdf.addPage({ size: [sheet.width / PT, sheet.height / PT], margin: 0 });
    for (const mark of marksOf(sheet)) draw(pdf, mark);
  }
  pdf.end();
  return done;
}

function draw(pdf: PDFKit.PDFDocument, mark: Mark): void {
  if (mark.kind === 'text') {
    if (mark.text === '') return;
    pdf.font(mark.face).fontSize(mark.size / PT);
    pdf
      .save()
      .translate(mark.at[0] / PT, mark.at[1] / PT)
      .rotate(mark.turn);
    pdf.text(mark.text, 0, 0, { lineBreak: false, baseline: 'alphabetic' }).restore();
    return;
  }
  const { width, dash, grey } = PENS[mark.pen];
  const level = Math.round(255 * grey);
  pdf.lineWidth(width / PT).strokeColor([level, level, level]);
  if (dash.length > 0) pdf.dash(dash[0]! / PT, { space: dash[1]! / PT });
  else pdf.undash();
  if (mark.kind === 'circle') pdf.circle(mark.at[0] / PT, mark.at[1] / PT, mark.radius / PT);
  else {
    const [first, ...rest] = mark.kind === 'line' ? mark.points : mark.ring;
    pdf.moveTo(first![0] / PT, first![1] / PT);
    for (const [x, y] of rest) pdf.lineTo(x / PT, y / PT);
    if (mark.kind === 'polygon') pdf.closePath();
  }
  if (mark.kind === 'polygon' && mark.fill !== undefined) pdf.fillAndStroke(mark.fill);
  else if (mark.kind === 'circle' && mark.filled) pdf.fill([level, level, level]);
  else pdf.stroke();
}

/** The marks as the other process reads them: for each sheet its size, then its marks with their pens. Points. */
function writeMarks(sheets: readonly Sheet[], file: string): void {
  const plain = sheets.map((sheet) => ({
    size: [sheet.width / PT, sheet.height / PT],
    marks: marksOf(sheet).map((mark) =>
      mark.kind === 'text' ? mark : { ...mark, pen: undefined, look: PENS[mark.pen] },
    ),
  }));
  writeFileSync(file, JSON.stringify(plain));
}

/**
 * Cairo as a first reading of its manual would use it, mark by mark, its letters from the font of its own choice
 * where the typeface is not installed: it sets them by its plain interface, which shapes nothing.
 */
const CAIRO = `
import json, math, resource, sys, time
import cairo
PT = 1 / 72
sheets = json.load(open(sys.argv[1]))
start = time.process_time()
surface = cairo.PDFSurface(sys.argv[2], 612, 792)
c = cairo.Context(surface)
for sheet in sheets:
    surface.set_size(*sheet['size'])
    for m in sheet['marks']:
        if m['kind'] == 'text':
            c.save()
            c.translate(m['at'][0] / PT, m['at'][1] / PT)
            c.rotate(math.radians(m['turn']))
            bold = cairo.FONT_WEIGHT_BOLD if m['face'] == 'semibold' else cairo.FONT_WEIGHT_NORMAL
            c.select_font_face('Source Sans 3', cairo.FONT_SLANT_NORMAL, bold)
            c.set_font_size(m['size'] / PT)
            c.set_source_rgb(0, 0, 0)
            c.move_to(0, 0)
            c.show_text(m['text'])
            c.restore()
            continue
        look = m['look']
        c.set_line_width(look['width'] / PT)
        c.set_dash([length / PT for length in look['dash']])
        if m['kind'] == 'circle':
            c.new_sub_path()
            c.arc(m['at'][0] / PT, m['at'][1] / PT, m['radius'] / PT, 0, 2 * math.pi)
        else:
            points = m['points'] if m['kind'] == 'line' else m['ring']
            c.move_to(points[0][0] / PT, points[0][1] / PT)
            for x, y in points[1:]:
                c.line_to(x / PT, y / PT)
            if m['kind'] == 'polygon':
                c.close_path()
        if m['kind'] == 'polygon' and m.get('fill'):
            f = m['fill']
            c.set_source_rgb(*(int(f[i:i + 2], 16) / 255 for i in (1, 3, 5)))
            c.fill_preserve()
        grey = look['grey']
        c.set_source_rgb(grey, grey, grey)
        if m['kind'] == 'circle' and m['filled']:
            c.fill()
        else:
            c.stroke()
    c.show_page()
surface.finish()
print(json.dumps({'ms': 1000 * (time.process_time() - start), 'version': cairo.cairo_version_string()}))
`;

interface CairoRow {
  readonly ms: number;
  readonly version: string;
  readonly bytes: number;
}

/** Null where no python3 here has cairo. */
function cairo(): CairoRow | null {
  const python = ['python3', '/usr/bin/python3'].find(
    (one) => spawnSync(one, ['-c', 'import cairo'], { stdio: 'ignore' }).status === 0,
  );
  if (python === undefined) return null;
  const folder = mkdtempSync(join(tmpdir(), 'sheets-bench-'));
  try {
    const [marks, pdf] = [join(folder, 'marks.json'), join(folder, 'cairo.pdf')];
    run('cairo', marks);
    const done = spawnSync(python, ['-c', CAIRO, marks, pdf], { encoding: 'utf8' });
    if (done.status !== 0) throw new Error(`cairo failed: ${done.stderr}`);
    return { ...(JSON.parse(done.stdout) as { ms: number; version: string }), bytes: statSync(pdf).size };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function loadTypeface(): FullTypeface {
  const { resolve } = createRequire(join(process.cwd(), 'package.json'));
  const bytes = (file: string) => readFileSync(resolve(`@expo-google-fonts/source-sans-3/${file}`));
  return withShaping(openTypeface(), {
    regular: bytes('400Regular/SourceSans3_400Regular.ttf'),
    semibold: bytes('600SemiBold/SourceSans3_600SemiBold.ttf'),
  });
}

const BUNDLE = 'node_modules/.cache/underpaper-bench';

const IS_LARGE = process.argv.includes('large');

const run = (who: string, ...more: readonly string[]): Row =>
  JSON.parse(
    execFileSync(process.execPath, [
      join(BUNDLE, 'sheets-bench.js'),
      who,
      ...more,
      ...(IS_LARGE ? ['large'] : []),
    ]).toString(),
  ) as Row;

async function compare(): Promise<void> {
  // As it is shipped: what runs source as it stands slows it down and takes memory of its own.
  await build({
    configFile: false,
    logLevel: 'error',
    build: { ssr: fileURLToPath(import.meta.url), outDir: BUNDLE, minify: false },
  });
  const ours = run('ours');
  const peer = run('alone');
  const told = (name: string, { layOutMs, writeMs, bytes, peakMb, beforeMb }: Row): void =>
    console.log(
      `${name.padEnd(14)} lay out ${layOutMs.toFixed(0).padStart(6)} ms   write ${writeMs.toFixed(0).padStart(6)} ms   ${(bytes / 1e6).toFixed(2)} MB   memory ${peakMb.toFixed(0)} MB at most, ${beforeMb.toFixed(0)} before`,
    );
  console.log(`${ours.sheets} sheets`);
  told('Underpaper', ours);
  told('pdfkit alone', peer);
  console.log(`write ÷ pdfkit alone: ${(ours.writeMs / peer.writeMs).toFixed(2)}`);
  console.log(
    `lay out and write ÷ pdfkit alone: ${((ours.layOutMs + ours.writeMs) / peer.writeMs).toFixed(2)}`,
  );
  const other = cairo();
  if (!other) {
    console.log('cairo: left out, python3 has no cairo here (Debian package python3-cairo)');
    return;
  }
  console.log(
    `cairo ${other.version.padEnd(8)} lay out      –      write ${other.ms.toFixed(0).padStart(6)} ms   ${(other.bytes / 1e6).toFixed(2)} MB`,
  );
  console.log(`write ÷ cairo: ${(ours.writeMs / other.ms).toFixed(2)}`);
}

const who = process.argv[2];
if (who === undefined || who === 'large') void compare();
else void measure(who, IS_LARGE).then((row) => console.log(JSON.stringify(row)));

import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import PDFDocument from 'pdfkit';
import { openFile } from '../../src/document/file.ts';
import { layOutBooklet } from '../../src/foundations/booklet.ts';
import { type Mark, PENS, PT } from '../../src/foundations/marks.ts';
import { PAGES } from '../../src/foundations/pages.ts';
import { toPdf } from '../../src/foundations/pdf.ts';
import { marksOf, type Sheet } from '../../src/foundations/sheets.ts';
import { FACES, openTypeface, type Typeface } from '../../src/foundations/typeface.ts';
import { piece } from '../../src/piecing/piece.ts';

/**
 * Writing a project of some 300 sheets, against the PDF library alone on the same marks, each in a process of its own
 * so that its memory is its own. Run with `npx tsx tests/bench/sheets-bench.ts`.
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

async function measure(who: string): Promise<Row> {
  const typeface = loadTypeface();
  const opened = openFile(readFileSync('public/demo/harbour-sampler.underpaper.json', 'utf8'));
  if (!opened.ok) throw new Error('The demo does not open.');
  const { project } = opened;
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
      { project, jobs: plans.map((job) => ({ ...job, copies })) },
      options,
      new Set(['foundations', 'guide']),
    );
  // A first print lets the machine compile what it needs, as a worker that is warm has.
  const one = lay(1);
  await toPdf(one.sheets, typeface, { title: 'Bench', createdAt: new Date(0) });
  const copies = Math.max(1, Math.round(SHEETS / Math.max(1, one.sheets.length - 21)));
  const beforeMb = process.memoryUsage().rss / 1e6;

  const start = spent();
  const { sheets } = lay(copies);
  const laid = spent();
  const bytes =
    who === 'ours'
      ? await toPdf(sheets, typeface, { title: 'Bench', createdAt: new Date(0) })
      : await alone(sheets, typeface);
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

/** Milliseconds this process has worked, whatever else the machine did meanwhile. */
const spent = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e3;
};

/** The library as a first reading of its manual would use it: mark by mark, nothing gathered. */
function alone(sheets: readonly Sheet[], typeface: Typeface): Promise<Uint8Array> {
  const pdf = new PDFDocument({ autoFirstPage: false, font: null as unknown as string });
  for (const face of FACES)
    pdf.registerFont(face, typeface.fonts[face] as unknown as PDFKit.Mixins.PDFFontSource);
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

function loadTypeface(): Typeface {
  const { resolve } = createRequire(import.meta.url);
  const bytes = (file: string) => readFileSync(resolve(`@expo-google-fonts/source-sans-3/${file}`));
  return openTypeface({
    regular: bytes('400Regular/SourceSans3_400Regular.ttf'),
    semibold: bytes('600SemiBold/SourceSans3_600SemiBold.ttf'),
  });
}

function compare(): void {
  const run = (who: string): Row =>
    JSON.parse(
      execFileSync(process.execPath, ['--import', 'tsx', fileURLToPath(import.meta.url), who]).toString(),
    ) as Row;
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
}

const who = process.argv[2];
if (who === undefined) compare();
else void measure(who).then((row) => console.log(JSON.stringify(row)));

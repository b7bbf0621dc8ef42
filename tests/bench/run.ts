import { arch, cpus } from 'node:os';
import { benchFaces, benchPlan } from './benches.ts';
import { benchFirstSheet } from './first-sheet.ts';
import { benchFirstVisit } from './first-visit.ts';
import { growthExponent } from './measure.ts';
import { benchMending } from './mending.ts';
import { benchNesting, trianglesAndKites } from './nesting.ts';
import { benchOpening } from './open-project.ts';
import { benchPicturesInFile } from './pictures-in-file.ts';
import { ALLOWED_MS, benchPlan200, benchProven } from './plan-200.ts';
import { benchPointer, inPercentiles } from './pointer.ts';
import { benchJoining, benchQuiltDrag } from './quilt.ts';
import { benchRedraw } from './redraw.ts';
import { ALLOWED_REPAIRS_MS, benchRepairs } from './repairs.ts';
import { benchRounds, colouredByChance, freeByChance, pictorial, roundsRow } from './rounds.ts';
import { benchQuickStrips, benchStrips } from './strips.ts';
import { benchUndo } from './undo.ts';

/** `npm run bench`: how fast, against whom, and how it grows. Nothing here passes or fails. */

const PATIENCE = { warmUpMs: 400, measureMs: 1200, leastRuns: 5 };
const PLAN_PATIENCE = { warmUpMs: 30, measureMs: 60, leastRuns: 5 };

const say = (line: string): void => console.log(line);
const ms = (value: number): string => value.toFixed(value < 10 ? 3 : 1).padStart(10);

say(`Node ${process.version}, ${arch()}, ${cpus()[0]?.model ?? 'unknown processor'}`);
say('');
say('Faces from segments, milliseconds (median)');
say('  underpaper  divide(): half-edges with shared vertices, T-junctions, the line of each edge, strays');
say(
  '  jsts        MCIndexSnapRounder, then Polygonizer; each line drawn a hair past its ends, or it misses faces',
);
say('  clipper2-ts has no face finder: the face each line crosses is clipped in two, line by line');
say('');
say(' patches  underpaper        jsts   ratio   faces clipper2-ts   ratio   faces');
const faces = [50, 200, 1000, 5000].map((size) => {
  const row = benchFaces(size, PATIENCE);
  const peer = ({ found, ms: time }: { found: number; ms: number }): string =>
    `${ms(time)} ${(time / row.underpaper.ms).toFixed(1).padStart(6)}× ${String(found).padStart(7)}`;
  const short = row.underpaper.found === size ? '' : `  underpaper found ${row.underpaper.found}`;
  say(
    `${String(size).padStart(8)}  ${ms(row.underpaper.ms)}  ${peer(row.jsts)}  ${peer(row.clipper)}${short}`,
  );
  return row;
});
const grows = (pick: (row: (typeof faces)[number]) => number): string =>
  growthExponent(faces.map((row) => [row.faces, pick(row)] as const)).toFixed(2);
say(
  ` growth exponent: underpaper ${grows((row) => row.underpaper.ms)}, jsts ${grows((row) => row.jsts.ms)}, clipper2-ts ${grows((row) => row.clipper.ms)}`,
);

say('');
say('Rounds for 400 papers of 3 to 12 positions in 25 fabrics, the middle of three seeded sets');
say(' majority merge takes next the fabric most papers wait for; orders as the plans have them');
say(' colours              rounds  bound   ratio  majority merge  by position  first, ms  all, ms');
for (const [name, made] of [
  ['as in a picture', pictorial],
  ['by chance', freeByChance],
  ['by chance, no choice', colouredByChance],
] as const) {
  const row = roundsRow([1, 2, 3].map((seed) => benchRounds(made(seed, 400))));
  const share = (of: number): string => `${of} (${(row.rounds / of).toFixed(2)}×)`.padStart(14);
  say(
    ` ${name.padEnd(20)} ${String(row.rounds).padStart(6)} ${String(row.bound).padStart(6)} ${(row.rounds / row.bound).toFixed(2).padStart(6)}×  ${share(row.majorityMerge)} ${share(row.byPosition)} ${ms(row.firstMs)} ${ms(row.ms)}`,
  );
}

say('');
say('The whole plan of a block, piece(), milliseconds, over 12 random designs a size');
say(' patches      median     slowest  foundations (median)');
const plans = [10, 20, 40, 60, 80, 120, 200].map((size) => {
  const row = benchPlan(size, 12, PLAN_PATIENCE);
  say(`${String(size).padStart(8)}  ${ms(row.ms)}  ${ms(row.slowest)}  ${row.foundations}`);
  return row;
});
say(` growth exponent: ${growthExponent(plans.map((row) => [row.patches, row.ms] as const)).toFixed(2)}`);

say('');
say('The whole plan of a block of 200 patches, beside the faces alone by others, milliseconds (median)');
const plan200 = benchPlan200(PATIENCE);
const beside = (name: string, { found, ms: time }: { found: number; ms: number }): string =>
  `  ${name.padEnd(24)}${ms(time)}  ${(time / plan200.planMs).toFixed(2).padStart(6)}× the plan's time, ${found} faces`;
say(
  `  underpaper, whole plan  ${ms(plan200.planMs)}  ${plan200.patches} patches, ${plan200.foundations} foundations`,
);
say(beside('jsts, faces', plan200.jsts));
say(
  plan200.geos
    ? beside(`GEOS ${plan200.geos.version.split('-')[0]}, faces`, plan200.geos)
    : '  GEOS: left out, no python3 here has shapely (Debian package python3-shapely)',
);

say('');
say(`Fewest foundations, designs of 20 to 100 patches: how many are proven within ${ALLOWED_MS} ms`);
say(' family      designs  set in  proven of the rest      median         p95     slowest');
for (const row of benchProven(40, { warmUpMs: 0, measureMs: 0, leastRuns: 3 })) {
  const rest = row.designs - row.setIn;
  const share = rest === 0 ? '' : `(${((100 * row.proven) / rest).toFixed(0)} %)`;
  say(
    ` ${row.family.padEnd(10)}${String(row.designs).padStart(9)}${String(row.setIn).padStart(8)}${`${row.proven} of ${rest} ${share}`.padStart(20)}  ${ms(row.medianMs)}  ${ms(row.p95Ms)}  ${ms(row.slowestMs)}`,
  );
}

say('');
say(`Repairs of a block, all of them, milliseconds; allowed ${ALLOWED_REPAIRS_MS} ms`);
say(' family      patches  offered      median         p95  in time');
for (const row of benchRepairs(10))
  say(
    ` ${row.family.padEnd(10)}${String(row.patches).padStart(9)}${String(row.offered).padStart(9)}  ${ms(row.medianMs)}  ${ms(row.p95Ms)}  ${row.inTime} of ${row.designs}`,
  );

say('');
say(
  'Mending drawings of 60 patches with rings in them, milliseconds (median), beside plans of the same blocks',
);
say(
  ' rings  added  proven        plan       first  ÷ plan         all  longest step  first within ten plans',
);
for (const rings of [1, 2, 3, 4]) {
  const row = benchMending(rings, 8, PLAN_PATIENCE);
  say(
    `${String(rings).padStart(6)}${String(row.added).padStart(7)}${`${row.proven} of ${row.designs}`.padStart(8)}  ${ms(row.planMs)}  ${ms(row.firstMs)}${(row.firstMs / row.planMs).toFixed(1).padStart(8)}  ${ms(row.allMs)}    ${ms(row.stretchMs)}  ${row.inTime} of ${row.designs}`,
  );
}

say('');
say(
  'Papers nested on Letter sheets: triangles and kites of 1 1/2 to 6 in with 1/4 in of allowance, sheets needed',
);
say(
  '  bound: area alone; levels: first fit by falling height; max rects: maximal rectangles, written out in the',
);
say(
  '  bench (maxrects-packer packs no gaps round the sheet); the effort is that of the screen and of the command line',
);
say(' papers   bound  levels  max rects   screen       time  command line       time');
for (const papers of [120, 1000]) {
  const rings = trianglesAndKites(7, papers);
  const [quick, long] = [benchNesting(rings, 4e7), benchNesting(rings, 3e8)];
  say(
    `${String(papers).padStart(7)}${String(quick.bound).padStart(8)}${String(quick.levels).padStart(8)}${String(quick.maxRects).padStart(11)}${String(quick.nested).padStart(9)} ${ms(quick.ms)}${String(long.nested).padStart(14)} ${ms(long.ms)}`,
  );
}

say('');
say('Strips across 40 in, cuts of 1 to 6 × 1 to 4 in: how full, in per cent, on seeded sets');
say(
  '  first fit by falling height and maxrects-packer (free packing, least height that one sheet takes) beside it',
);
say('    cuts  sets     worst      mean  first fit  maxrects       time  maxrects   longer than either');
for (const cuts of [60, 150, 500]) {
  const row = benchStrips(cuts, 10);
  const fill = (share: number): string => (100 * share).toFixed(2).padStart(10);
  say(
    `${String(cuts).padStart(8)}${String(row.sets).padStart(6)}${fill(row.worst)}${fill(row.fill)}${fill(row.firstFit)}${fill(row.maxRects)} ${ms(row.ms)}${ms(row.maxRectsMs)}   ${row.beaten} sets`,
  );
}
const quick = benchQuickStrips();
say(
  `  a first answer for 10,000 cuts, ${(100 * quick.fill).toFixed(2)} % full: ${ms(quick.ms).trim()} ms; maxrects-packer on 500: ${ms(quick.maxRectsMs).trim()} ms`,
);

say('');
const joining = benchJoining(PATIENCE);
say(
  `A quilt of ${joining.places} places of two sizes, divided and joined: ${ms(joining.joiningMs).trim()} ms; one block of 200 patches, divided and pieced: ${ms(joining.blockMs).trim()} ms; ratio ${(joining.joiningMs / joining.blockMs).toFixed(2)}`,
);
say('A place dragged on the quilt, beside a plain canvas that paints all the cached pictures, milliseconds');
say('  blocks       frame     slowest       plain   frame ÷ plain');
for (const row of (await benchQuiltDrag([70, 400])) ?? [])
  say(
    `${String(row.blocks).padStart(8)}  ${ms(row.frameMs)}  ${ms(row.slowestMs)}  ${ms(row.plainMs)}   ${(row.frameMs / row.plainMs).toFixed(2)}`,
  );

say('');
say('The drawing board, in a headless Chromium without a graphics card, on the last build');
const pointers = [
  await benchPointer(60, { designs: 5, moves: 100, isCheckAwaited: true }),
  await benchPointer(200, { designs: 3, moves: 100, isCheckAwaited: false }),
  await benchPointer(1000, { designs: 2, moves: 100, isCheckAwaited: false }),
];
if (pointers.includes(null)) {
  say('  left out: there is no browser, or no build (`npm run build`)');
} else {
  say('Pointer move to painted, milliseconds: p50, p95, slowest; a frame of the screen is 16.7');
  say(
    '  drawing  from the move to the end of the frame that shows it; check  of that very state; work  processor',
  );
  say(' patches  moves   drawing                     check                       work');
  for (const row of pointers)
    if (row !== null)
      say(
        `${String(row.patches).padStart(8)}${String(row.moves).padStart(7)}${[row.drawing, row.check, row.work].map((values) => `${inPercentiles(values)}       `).join('')}`,
      );
  say('The whole board drawn anew, against a plain canvas that makes the same marks, milliseconds (median)');
  say(' patches   calls       board     painter   board ÷ painter');
  for (const patches of [60, 200, 1000]) {
    const row = await benchRedraw(patches);
    if (row !== null)
      say(
        `${String(patches).padStart(8)}${String(row.calls).padStart(8)}  ${ms(row.boardMs)}  ${ms(row.painterMs)}   ${(row.boardMs / row.painterMs).toFixed(2)}`,
      );
  }
  const sizes = [
    [70, 12],
    [70, 40],
  ] as const;
  const openings = await benchOpening(sizes);
  if (openings !== null) {
    say(
      'A project opened, every block pieced: tasks of the thread that draws the screen, milliseconds of processor',
    );
    say('  blocks  patches each    longest  over 50 ms   until all are worked out');
    openings.forEach(({ longest, long, untilDone }, k) => {
      const [blocks, patches] = sizes[k]!;
      say(
        `${String(blocks).padStart(8)}${String(patches).padStart(14)} ${ms(longest)}${String(long).padStart(12)}   ${ms(untilDone)}`,
      );
    });
  }
  const visit = await benchFirstVisit(5);
  if (visit !== null)
    say(
      `A first visit, the processor slowed four times, until the drawing stands: ${ms(visit.underpaper)} ms, ${(visit.underpaper / visit.empty).toFixed(1)}× an empty page of the same React and fonts`,
    );
  const undo = await benchUndo(200, 500);
  if (undo !== null)
    say(
      `${undo.steps} steps of undo on ${undo.patches} patches: ${(undo.afterMb - undo.beforeMb).toFixed(1)} MB more than before (${undo.beforeMb.toFixed(1)} MB); after undoing them all ${(undo.undoneMb - undo.beforeMb).toFixed(1)} MB more`,
    );
}

say('');
const file = benchPicturesInFile(PATIENCE);
say(`A file of forty photographed fabrics, ${file.megabytes.toFixed(1)} MB, milliseconds (median)`);
say(
  `  opened  ${ms(file.openMs)}   JSON.parse      ${ms(file.parseMs)}   ${(file.openMs / file.parseMs).toFixed(1)}×`,
);
say(
  `  written ${ms(file.writeMs)}   JSON.stringify  ${ms(file.stringifyMs)}   ${(file.writeMs / file.stringifyMs).toFixed(1)}×`,
);

say('');
say('Paper place: from the click to the first sheet, milliseconds, in a headless Chromium on the last build');
const firstSheets = await benchFirstSheet(7, 105);
if (firstSheets === null) say('  left out: there is no browser, or no build (`npm run build`)');
else {
  say(' opened when                          first     slowest  all sheets');
  for (const { when, firstMs, slowestMs, allMs, sheets } of firstSheets)
    say(` ${when.padEnd(30)}${ms(firstMs)}  ${ms(slowestMs)}  ${ms(allMs)}  ${sheets}`);
}

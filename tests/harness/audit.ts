import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { preview } from 'vite';
import { type Ending, endOnce, endTicking, WAYS_TO_END } from '../../e2e/kill.ts';
import { Prng } from '../designs/prng.ts';

/**
 * `npm run audit [KILLS [FILES [SEED]]]`, on the last build: pages ended without warning in the midst of fast editing,
 * and a browser killed in the midst of ticking what is sewn, each 200 times unless told, project files with something
 * changed in them, 20,000 unless told, a quarter as many drawings, and each call to the browser's storage made to go wrong in each way. Takes about
 * an hour; a sample of all is part of `npm test`. The exit status is 1 when more than the last second of work, or the
 * last tick, was lost,
 * anything came back torn, or a file was neither opened nor refused in a sentence.
 */

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
/** Nothing older may be lost, in milliseconds. */
const MOST_LOST_MS = 1_000;

const [kills = 200, files = 20_000, seed = 20_261_201] = process.argv.slice(2).map(Number);
let failures = 0;

if (kills > 0) {
  const server = await preview({ root: ROOT, preview: { host: '127.0.0.1', port: 0 } });
  const url = server.resolvedUrls!.local[0]!;
  const endings: Ending[] = [];
  for (let i = 0; i < kills; i++) {
    const way = WAYS_TO_END[i % WAYS_TO_END.length]!;
    try {
      const ending = await endOnce(way, url, new Prng(seed + i));
      endings.push(ending);
      if (ending.oldestLostMs > MOST_LOST_MS) {
        failures++;
        console.log(`${way}, seed ${seed + i}: work of ${ending.oldestLostMs} ms was lost`);
      }
    } catch (trouble) {
      failures++;
      console.log(`${way}, seed ${seed + i}: ${trouble instanceof Error ? trouble.message : trouble}`);
    }
    if ((i + 1) % 10 === 0) console.log(`${i + 1} of ${kills} ended`);
  }
  for (const way of WAYS_TO_END) {
    const ours = endings.filter((ending) => ending.way === way);
    const lost = ours.map(({ oldestLostMs }) => oldestLostMs).toSorted((a, b) => a - b);
    const edits = ours.reduce((sum, ending) => sum + ending.edits, 0);
    console.log(
      `${way}: ${ours.length} times after ${edits} edits; lost in the middle ${lost[lost.length >> 1] ?? '-'} ms, at most ${lost.at(-1) ?? '-'} ms`,
    );
  }
  try {
    const ticked = await endTicking(url, new Prng(seed), kills);
    const most = Math.max(...ticked.map(({ lost }) => lost));
    const all = ticked.reduce((sum, { ticks }) => sum + ticks, 0);
    console.log(
      `killed while ticking: ${ticked.length} times after ${all} ticks; lost at most ${most}, ${ticked.filter(({ lost }) => lost > 0).length} times any`,
    );
    if (most > 1) failures++;
  } catch (trouble) {
    failures++;
    console.log(`killed while ticking: ${trouble instanceof Error ? trouble.message : trouble}`);
  }
  await server.close();
}

if (files > 0) {
  const { status } = spawnSync(
    join(ROOT, 'node_modules', '.bin', 'vitest'),
    [
      'run',
      'tests/document/hostile-files.test.ts',
      'tests/document/import-svg/spoilt-drawings.test.ts',
      'tests/workspace/storage-trouble.test.ts',
    ],
    {
      cwd: ROOT,
      stdio: 'inherit',
      env: {
        ...process.env,
        UNDERPAPER_AUDIT_FILES: `${files}`,
        UNDERPAPER_AUDIT_DRAWINGS: `${Math.ceil(files / 4)}`,
        UNDERPAPER_AUDIT_SEED: `${seed}`,
      },
    },
  );
  if (status !== 0) failures++;
}

console.log(failures === 0 ? 'nothing failed' : `${failures} failed`);
process.exit(failures === 0 ? 0 : 1);

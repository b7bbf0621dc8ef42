import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { playwrightTally, sumOf, type Tally, vitestTally, wholeTally } from './reports.ts';
import { ensureBrowser, ensurePaperTools } from './tools.ts';

/**
 * `npm test`: lint, types, unit and property tests, build, browser journeys, one after another and all of them,
 * whatever fails. The last line is always `N passed, N failed`; the exit status is 1 when anything failed.
 */

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const LONGEST_STEP_MS = 20 * 60_000;

const say = (line: string): void => console.log(line);

/** Runs a program of this project's own node_modules; true when it ended well and in time. */
function run(program: string, args: readonly string[], env: Record<string, string> = {}): Promise<boolean> {
  return new Promise((resolve) => {
    const isWindows = process.platform === 'win32';
    const child = spawn(join(ROOT, 'node_modules', '.bin', program), args, {
      cwd: ROOT,
      stdio: ['ignore', 'inherit', 'inherit'],
      env: { ...process.env, ...(process.stdout.isTTY ? {} : { NO_COLOR: '1' }), ...env },
      shell: isWindows,
      // A group of its own, so that a step out of time takes its servers and browsers with it.
      detached: !isWindows,
    });
    const stop = setTimeout(() => {
      say(`${program} has not ended after ${LONGEST_STEP_MS / 60_000} minutes and is stopped`);
      if (child.pid && !isWindows) process.kill(-child.pid, 'SIGKILL');
      else child.kill();
    }, LONGEST_STEP_MS);
    child.on('error', (error) => {
      clearTimeout(stop);
      say(`${program} could not be started: ${error.message}`);
      resolve(false);
    });
    child.on('exit', (code) => {
      clearTimeout(stop);
      resolve(code === 0);
    });
  });
}

const readIfThere = (path: string): string | null => {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return null;
  }
};

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = createServer();
    server.on('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() =>
        typeof address === 'object' && address ? resolve(address.port) : reject(new Error('no port')),
      );
    });
  });
}

interface Outcome extends Tally {
  readonly name: string;
  readonly seconds: number;
}

async function main(): Promise<number> {
  const reports = mkdtempSync(join(tmpdir(), 'underpaper-'));
  const outcomes: Outcome[] = [];
  const step = async (name: string, work: () => Promise<Tally>): Promise<void> => {
    say(`\n── ${name} ${'─'.repeat(Math.max(3, 60 - name.length))}`);
    const start = Date.now();
    const tally = await work();
    outcomes.push({ name, seconds: (Date.now() - start) / 1000, ...tally });
  };

  say('── tools ──');
  ensurePaperTools(say);
  const browser = ensureBrowser(say);

  await step('lint', async () => wholeTally(await run('biome', ['check', '--colors=off'])));
  await step('types', async () => wholeTally(await run('tsc', ['-p', '.'])));
  await step('unit', async () => {
    const report = join(reports, 'unit.json');
    const endedWell = await run('vitest', [
      'run',
      '--reporter=dot',
      '--reporter=json',
      `--outputFile.json=${report}`,
    ]);
    return vitestTally(readIfThere(report), endedWell);
  });
  await step('build', async () => wholeTally(await run('vite', ['build', '--logLevel', 'warn'])));
  await step('journeys', async () => {
    if (!browser) {
      say('not run: there is no browser (see above how to get one)');
      return wholeTally(false);
    }
    if (outcomes.at(-1)!.failed > 0) {
      say('not run: the build failed');
      return wholeTally(false);
    }
    const report = join(reports, 'journeys.json');
    const endedWell = await run(
      'playwright',
      ['test', '-c', 'e2e/playwright.config.ts', '--reporter=list,json'],
      {
        PLAYWRIGHT_JSON_OUTPUT_FILE: report,
        UNDERPAPER_PORT: String(await freePort()),
      },
    );
    return playwrightTally(readIfThere(report), endedWell);
  });
  rmSync(reports, { recursive: true, force: true });

  const sum = sumOf(outcomes);
  say('\n── summary ──');
  for (const { name, passed, failed, skipped, seconds } of outcomes) {
    const left = skipped.length > 0 ? `, ${skipped.length} skipped` : '';
    say(
      `${failed === 0 ? 'ok    ' : 'FAILED'} ${name.padEnd(9)} ${passed} passed, ${failed} failed${left} (${seconds.toFixed(1)} s)`,
    );
  }
  for (const name of sum.skipped) say(`skipped: ${name}`);
  say(`${sum.passed} passed, ${sum.failed} failed`);
  return sum.failed === 0 ? 0 : 1;
}

try {
  process.exitCode = await main();
} catch (error) {
  say(`the run itself broke off: ${error instanceof Error ? error.message : String(error)}`);
  say('0 passed, 1 failed');
  process.exitCode = 1;
}

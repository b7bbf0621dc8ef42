import { spawnSync } from 'node:child_process';
import { accessSync, constants, existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { chromium } from '@playwright/test';

/**
 * The programs the checks lean on, found where they are: a browser for the journeys, readers of PDF and SVG for
 * the paper tests. Nothing here is needed to use Underpaper.
 */

/** A Debian package and the programs of it that tests call. */
export interface Tool {
  readonly debian: string;
  readonly programs: readonly string[];
  readonly serves: string;
}

export const PAPER_TOOLS: readonly Tool[] = [
  {
    debian: 'poppler-utils',
    programs: ['pdftoppm', 'pdftotext', 'pdffonts', 'pdfinfo'],
    serves: 'reading printed PDF',
  },
  { debian: 'qpdf', programs: ['qpdf'], serves: 'checking PDF files' },
  { debian: 'librsvg2-bin', programs: ['rsvg-convert'], serves: 'drawing SVG sheets' },
];

/** Where a program lies on the search path, or null. */
export function findProgram(name: string): string | null {
  const names = process.platform === 'win32' ? [`${name}.exe`, `${name}.cmd`] : [name];
  for (const folder of (process.env.PATH ?? '').split(delimiter)) {
    for (const candidate of names) {
      try {
        const path = join(folder, candidate);
        accessSync(path, constants.X_OK);
        return path;
      } catch {
        // Not here: the next folder may have it.
      }
    }
  }
  return null;
}

export const isToolThere = (tool: Tool): boolean => tool.programs.every((name) => findProgram(name) !== null);

/** `path` null: Playwright starts its own and needs no path. */
export interface Browser {
  readonly path: string | null;
  readonly from: string;
}

const SYSTEM_BROWSERS = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'chrome'];
const USUAL_PLACES = [
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files (x86)\\Google\\Chrome\\Application\\chrome.exe',
];

/**
 * The first browser found: the one UNDERPAPER_CHROMIUM names, a Chromium or Chrome of the system, Playwright's
 * own. Null when there is none. Throws, in plain words, when UNDERPAPER_CHROMIUM names no file.
 */
export function findBrowser(): Browser | null {
  const named = process.env.UNDERPAPER_CHROMIUM;
  if (named) {
    if (!existsSync(named)) throw new Error(`UNDERPAPER_CHROMIUM names ${named}, and there is no such file.`);
    return { path: named, from: 'UNDERPAPER_CHROMIUM' };
  }
  const path =
    SYSTEM_BROWSERS.map(findProgram).find((found) => found !== null) ?? USUAL_PLACES.find(existsSync);
  if (path) return { path, from: 'the system' };
  return existsSync(chromium.executablePath()) ? { path: null, from: 'Playwright' } : null;
}

/** Switches for a browser without a screen, on any machine, that fetches nothing of its own accord. */
export const BROWSER_SWITCHES: readonly string[] = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

const canInstallPackages = (): boolean => process.getuid?.() === 0 && findProgram('apt-get') !== null;

let isListFresh = false;

/** Installs Debian packages as root. False when that did not work; what went wrong has been printed. */
function aptInstall(packages: readonly string[]): boolean {
  const run = (args: readonly string[]): boolean =>
    spawnSync('apt-get', args, {
      stdio: ['ignore', 'ignore', 'inherit'],
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
      timeout: 300_000,
    }).status === 0;
  if (!isListFresh) isListFresh = run(['update', '-qq']);
  return run(['install', '-y', '-qq', '--no-install-recommends', ...packages]);
}

/** Finds a browser, or installs one where that can be done. Null when there is none to be had. */
export function ensureBrowser(say: (line: string) => void): Browser | null {
  let found: Browser | null;
  try {
    found = findBrowser();
  } catch (error) {
    say(`browser: ${error instanceof Error ? error.message : String(error)}`);
    return null;
  }
  if (found) {
    say(`browser: ${found.path ?? chromium.executablePath()} (from ${found.from})`);
    return found;
  }
  if (canInstallPackages()) {
    say('browser: none found; installing Debian package chromium');
    if (aptInstall(['chromium'])) return findBrowser();
  }
  say('browser: none found; asking Playwright to install its own');
  spawnSync('npx', ['playwright', 'install', 'chromium'], {
    stdio: 'inherit',
    timeout: 300_000,
    shell: process.platform === 'win32',
  });
  const installed = findBrowser();
  if (!installed) {
    say(
      'browser: there is none, and none could be installed, so the journeys cannot run. Any of these helps:',
    );
    say('  install Chromium or Chrome (on Debian or Ubuntu: sudo apt-get install chromium)');
    say('  npx playwright install chromium');
    say('  UNDERPAPER_CHROMIUM=/path/to/chrome npm test');
  }
  return installed;
}

/** Finds the paper tools, or installs them where that can be done; says which tests go without. */
export function ensurePaperTools(say: (line: string) => void): void {
  const missing = PAPER_TOOLS.filter((tool) => !isToolThere(tool));
  if (missing.length === 0) return;
  const packages = missing.map((tool) => tool.debian);
  if (canInstallPackages()) {
    say(`tools: installing Debian packages ${packages.join(', ')}`);
    aptInstall(packages);
  }
  for (const tool of missing) {
    if (isToolThere(tool)) continue;
    say(
      `tools: ${tool.programs.join(', ')} not found; tests of ${tool.serves} are skipped (package ${tool.debian})`,
    );
  }
}

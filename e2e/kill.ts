import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  type Browser,
  type BrowserContext,
  chromium,
  type Page,
  expect as usualExpect,
} from '@playwright/test';
import type { Prng } from '../tests/designs/prng.ts';
import { BROWSER_SWITCHES, findBrowser } from '../tests/harness/tools.ts';

/** A machine five times slower opens the app five times slower. */
const expect = usualExpect.configure({ timeout: 60_000 });

/** How a page ends: the whole browser is killed, the page crashes, its tab is closed, all without warning. */
export type WayToEnd = 'browser killed' | 'page crashed' | 'tab closed';
export const WAYS_TO_END: readonly WayToEnd[] = ['browser killed', 'page crashed', 'tab closed'];

export interface Ending {
  readonly way: WayToEnd;
  /** Edits made before the end. */
  readonly edits: number;
  /** How long before the end the oldest edit was made that is not there any more, in milliseconds; 0 for none. */
  readonly oldestLostMs: number;
}

/** A browser of its own with its data in a folder, so that it can be killed and begun anew on what it left. */
class OwnBrowser {
  private process: ChildProcess | null = null;
  private browser: Browser | null = null;
  readonly folder = mkdtempSync(join(tmpdir(), 'underpaper-kill-'));

  /** A browser that does not answer, as now and then one does not, is begun again. */
  async begin(tries = 4): Promise<BrowserContext> {
    const child = spawn(
      findBrowser()?.path ?? chromium.executablePath(),
      [...BROWSER_SWITCHES, '--headless', '--remote-debugging-port=0', `--user-data-dir=${this.folder}`],
      { stdio: ['ignore', 'ignore', 'pipe'], detached: true },
    );
    this.process = child;
    const address = await new Promise<string>((resolve, reject) => {
      let said = '';
      child.stderr.on('data', (part: Buffer) => {
        said += part.toString();
        const found = /DevTools listening on (ws:\S+)/.exec(said)?.[1];
        if (found) resolve(found);
      });
      child.on('exit', () => reject(new Error(`The browser has not begun: ${said}`)));
    });
    try {
      this.browser = await chromium.connectOverCDP(address, { timeout: 30_000 });
    } catch (trouble) {
      await this.kill();
      if (tries <= 1) throw trouble;
      return this.begin(tries - 1);
    }
    return this.browser.contexts()[0]!;
  }

  /** Kills it and all its processes at once, as a loss of power does to them. */
  async kill(): Promise<void> {
    const { process: child } = this;
    if (child?.pid === undefined) return;
    const ended = new Promise((resolve) => child.once('exit', resolve));
    process.kill(-child.pid, 'SIGKILL');
    await ended;
    this.process = null;
    await this.browser?.close().catch(() => undefined);
    for (const lock of ['SingletonLock', 'SingletonSocket', 'SingletonCookie'])
      rmSync(join(this.folder, lock), { force: true });
  }

  async end(): Promise<void> {
    await this.kill();
    rmSync(this.folder, { recursive: true, force: true, maxRetries: 5 });
  }
}

const nameOf = (page: Page) => page.getByLabel('Project name');

/** So many blocks has the demo that each run begins with. */
const blocksIn = (page: Page): Promise<number> => page.locator('.block-list > li').count();

/**
 * Edits fast for a while, ends the page at some moment, opens the app again and tells what was lost. Every fourth edit
 * adds a block; what comes back must be one of the states that were, whole. Throws where it is not.
 */
export async function endOnce(way: WayToEnd, url: string, rng: Prng): Promise<Ending> {
  const own = new OwnBrowser();
  try {
    let context = await own.begin();
    let page = await context.newPage();
    await page.goto(url);
    await expect(page.locator('.drawing-board')).toBeVisible();
    await expect(page.locator('.save-saved')).toBeVisible();
    const atFirst = await blocksIn(page);
    const edits: number[] = [];
    const until = Date.now() + rng.between(300, 4_000);
    const pause = rng.pick([0, 30, 90, 250]);
    while (Date.now() < until) {
      const n = edits.length + 1;
      if (n % 4 === 0) await page.keyboard.press('Control+Alt+b');
      await nameOf(page).fill(`Quay ${n}`);
      await page.keyboard.press('Enter');
      edits.push(Date.now());
      await page.waitForTimeout(pause);
    }
    const end = Date.now();
    if (way === 'browser killed') {
      await own.kill();
      context = await own.begin();
    } else if (way === 'page crashed') {
      const session = await context.newCDPSession(page);
      const crashed = page.waitForEvent('crash');
      session.send('Page.crash').catch(() => undefined);
      await crashed;
    } else await page.close();
    page = await context.newPage();
    await page.goto(url);
    await expect(page.locator('.drawing-board')).toBeVisible();
    const name = await nameOf(page).inputValue();
    const kept = name === 'Harbour sampler' ? 0 : Number(/^Quay (\d+)$/.exec(name)?.[1]);
    const added = (await blocksIn(page)) - atFirst;
    if (!(kept <= edits.length)) throw new Error(`${way}: the project came back as ‘${name}’`);
    // A block is added just before the name of its edit is given.
    if (added < Math.floor(kept / 4) || added > Math.floor((kept + 1) / 4))
      throw new Error(`${way}: ‘${name}’ came back with ${added} blocks added`);
    const trouble = await page.locator('.notice').count();
    if (trouble > 0) throw new Error(`${way}: it says ‘${await page.locator('.notice').textContent()}’`);
    const lost = edits[kept];
    return { way, edits: edits.length, oldestLostMs: lost === undefined ? 0 : end - lost };
  } finally {
    await own.end();
  }
}

export interface TickEnding {
  /** Ticks made before the end. */
  readonly ticks: number;
  /** Ticks that are not there any more. */
  readonly lost: number;
}

/**
 * Takes two blocks into work and ticks papers one after another, killing the browser in the midst of it so many times.
 * Throws where the plan of rounds is not what it was, or what comes back is none of the states that were.
 */
export async function endTicking(url: string, rng: Prng, times: number): Promise<TickEnding[]> {
  const own = new OwnBrowser();
  const endings: TickEnding[] = [];
  try {
    let page = await (await own.begin()).newPage();
    await page.goto(url);
    await expect(page.locator('.save-saved')).toBeVisible();
    await page.keyboard.press('Alt+5');
    const fields = page.getByRole('group', { name: 'Blocks and copies' }).getByRole('spinbutton');
    await expect(fields.first()).toBeVisible();
    for (const field of await fields.all()) await field.fill('0');
    for (const name of ['Lighthouse', 'Sailing boat', 'Gull over waves'])
      await page.getByRole('spinbutton', { name, exact: true }).fill('20');
    await expect(page.getByText(/rounds for 220 papers/)).toBeVisible();
    await page.getByRole('button', { name: 'Take into work' }).click();
    await expect(page.locator('.sew-round')).toBeVisible();
    await expect(page.locator('.save-saved')).toBeAttached();
    const planOf = (of: Page): Promise<string> =>
      of.locator('.sew-round-head h1, .sew-where-name').allTextContents().then(String);
    const sewnOf = async (of: Page): Promise<number> =>
      Number(
        (await of.locator('.sew-progress .sew-soft').textContent())!.replaceAll(',', '').match(/^\d+/)![0],
      );
    for (let k = 0; k < times; k++) {
      const plan = (await planOf(page)).replace(/^[^,]*/, '');
      const counts = [await sewnOf(page)];
      for (let n = rng.whole(2, 7); n > 0; n--) {
        const papers = page.locator('.sew-paper.is-sewn');
        if ((await papers.count()) === 0) {
          const onward = page.getByRole('button', { name: /^On to round/ });
          if ((await onward.count()) === 0) break;
          await onward.click();
        }
        await papers.first().click();
        counts.push(await sewnOf(page));
        // As fast as a hand ticks, now and then in the very moment.
        await page.waitForTimeout(rng.pick([0, 120, 200, 400]));
      }
      await own.kill();
      page = await (await own.begin()).newPage();
      await page.goto(url);
      await expect(page.getByRole('navigation', { name: 'Places' })).toBeVisible();
      await page.keyboard.press('Alt+5');
      await expect(page.locator('.sew-progress')).toBeVisible();
      const at = counts.indexOf(await sewnOf(page));
      if (at < 0) throw new Error(`ticks came back as none of ${counts}`);
      if ((await planOf(page)).replace(/^[^,]*/, '') !== plan)
        throw new Error('the papers in work are not what they were');
      endings.push({ ticks: counts.length - 1, lost: counts.length - 1 - at });
    }
    return endings;
  } finally {
    await own.end();
  }
}

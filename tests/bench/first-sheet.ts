import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Page } from '@playwright/test';
import { dropFile } from '../../e2e/window.ts';
import { percentile, withWindows } from './page.ts';

/** From the press of *Paper* to the end of the frame that shows a sheet, milliseconds; median and slowest of some windows. */
export interface FirstSheetRow {
  readonly when: string;
  readonly firstMs: number;
  readonly slowestMs: number;
  /** Until every sheet is laid out. */
  readonly allMs: number;
  /** What is there then, as the place says it. */
  readonly sheets: string;
}

interface Opened {
  readonly firstMs: number;
  readonly allMs: number;
  readonly sheets: string;
}

/** Presses *Paper* in the page itself, the hand being too slow, as soon as it is there. */
function pressPaper(): Promise<Opened> {
  return new Promise((resolve) => {
    let begun = 0;
    let firstMs = 0;
    const look = (): void => {
      const button = [...document.querySelectorAll<HTMLElement>('.place')].at(-1);
      if (begun === 0 && button) {
        begun = performance.now();
        button.click();
      }
      if (begun > 0 && firstMs === 0 && document.querySelector('.sheet svg')) {
        firstMs = -1;
        requestAnimationFrame(() => {
          const { port1, port2 } = new MessageChannel();
          port1.onmessage = () => {
            firstMs = performance.now() - begun;
          };
          port2.postMessage(null);
        });
      }
      if (firstMs > 0 && document.querySelector('.paper-desk')?.getAttribute('aria-busy') === 'false')
        resolve({
          firstMs,
          allMs: performance.now() - begun,
          sheets: document.querySelector('.paper-count')?.textContent ?? '',
        });
      else setTimeout(look, 1);
    };
    look();
  });
}

const place = (page: Page, name: string) =>
  page.getByRole('navigation', { name: 'Places' }).getByRole('button', { name });

const DEMO = fileURLToPath(new URL('../../public/demo/harbour-sampler.underpaper.json', import.meta.url));

/** A quilt of the demo's blocks over and over, each a block of its own. */
function quilt(blocks: number): string {
  const demo = JSON.parse(readFileSync(DEMO, 'utf8')) as { readonly blocks: readonly { name: string }[] };
  const many = Array.from({ length: blocks }, (_, i) => {
    const block = demo.blocks[i % demo.blocks.length]!;
    return { ...block, id: `q${i}`, name: `${block.name} ${i + 1}` };
  });
  return JSON.stringify({ ...demo, name: 'Quilt', blocks: many });
}

/** The Paper place opened on the last build, `runs` windows each. Null when there is no browser or no build. */
export const benchFirstSheet = (runs: number, blocks: number): Promise<readonly FirstSheetRow[] | null> =>
  withWindows(async (newWindow, address) => {
    const measured = async (when: string, open: (page: Page) => Promise<Opened>): Promise<FirstSheetRow> => {
      const opened: Opened[] = [];
      for (let run = 0; run < runs; run++) {
        const page = await newWindow();
        await page.goto(address, { waitUntil: 'commit' });
        opened.push(await open(page));
        await page.close();
      }
      const firsts = opened.map(({ firstMs }) => firstMs);
      return {
        when,
        firstMs: percentile(firsts, 0.5),
        slowestMs: Math.max(...firsts),
        allMs: percentile(
          opened.map(({ allMs }) => allMs),
          0.5,
        ),
        sheets: opened[0]!.sheets,
      };
    };
    const afterRest = async (page: Page): Promise<Opened> => {
      await place(page, 'Paper').waitFor();
      await page.waitForTimeout(3_000);
      return page.evaluate(pressPaper);
    };
    /** All blocks are chosen, then the drawing is gone back to and the project changed. */
    const changedQuilt = async (page: Page): Promise<void> => {
      await page.locator('.block-open').first().waitFor();
      await dropFile(page, 'quilt.underpaper.json', quilt(blocks));
      await page
        .locator('.block-open')
        .nth(blocks - 1)
        .waitFor();
      await place(page, 'Paper').click();
      await page.getByRole('button', { name: 'Choose all' }).click();
      await page.locator('.paper-desk[aria-busy=false]').waitFor({ timeout: 60_000 });
      await place(page, 'Block').click();
      const name = page.getByLabel('Project name');
      await name.fill('Another quilt');
      await name.press('Enter');
    };
    return [
      await measured('the page has just come', (page) => page.evaluate(pressPaper)),
      await measured('a hand came near 1/4 s before', async (page) => {
        await place(page, 'Paper').hover();
        await page.waitForTimeout(250);
        return page.evaluate(pressPaper);
      }),
      await measured('at rest', afterRest),
      await measured('many, just changed', async (page) => {
        await changedQuilt(page);
        return page.evaluate(pressPaper);
      }),
      await measured('many, at rest', async (page) => {
        await changedQuilt(page);
        await page.waitForTimeout(8_000);
        return page.evaluate(pressPaper);
      }),
    ];
  });

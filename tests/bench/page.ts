import { fileURLToPath } from 'node:url';
import { type CDPSession, chromium, type Page } from '@playwright/test';
import { preview } from 'vite';
import { dropFile } from '../../e2e/window.ts';
import type { Block } from '../../src/piecing/block.ts';
import { designOf } from '../designs/designs.ts';
import { BROWSER_SWITCHES, findBrowser } from '../harness/tools.ts';

/** The built app in a headless Chromium, for the benchmarks that need a screen. */

/** A random block and a place on one of its long cuts, where it is dragged. Inches. */
export interface DragDesign {
  readonly block: Block;
  readonly at: readonly [number, number];
}

export function dragDesign(seed: number, patches: number): DragDesign {
  const { block } = designOf(seed, { kind: 'chords', patches: [patches, patches], endErrors: 'none' });
  const lengthOf = ({ from, to }: Block['cuts'][number]): number =>
    Math.hypot(from[0] - to[0], from[1] - to[1]);
  const cut = [...block.cuts].sort((a, b) => lengthOf(b) - lengthOf(a))[4]!;
  return { block, at: [(cut.from[0] + cut.to[0]) / 2, (cut.from[1] + cut.to[1]) / 2] };
}

/** A page of the app, and where its parts are. */
export interface BenchPage {
  readonly page: Page;
  readonly devtools: CDPSession;
  /** A place of the block on the screen. */
  readonly toScreen: (at: readonly [number, number]) => Promise<[number, number]>;
}

/**
 * Gives new windows, each as on a first visit, and the address of the app for as long as `work` goes on. Null when there
 * is no browser or no build.
 */
export async function withWindows<T>(
  work: (newWindow: () => Promise<Page>, address: string) => Promise<T>,
): Promise<T | null> {
  const browser = findBrowser();
  const root = fileURLToPath(new URL('../..', import.meta.url));
  const server = await preview({
    root,
    configFile: false,
    build: { outDir: process.env.UNDERPAPER_DIST ?? 'dist' },
    preview: { host: '127.0.0.1', port: Number(process.env.UNDERPAPER_PORT ?? 4491) },
  }).catch(() => null);
  if (browser === null || server === null) {
    await server?.close();
    return null;
  }
  const chrome = await chromium.launch({
    args: [...BROWSER_SWITCHES],
    ...(browser.path ? { executablePath: browser.path } : {}),
  });
  try {
    return await work(async () => {
      const page = await chrome.newPage({ viewport: { width: 1280, height: 800 } });
      // The runner of these files hands functions over with a helper of its own about them.
      await page.addInitScript('globalThis.__name = (given) => given');
      return page;
    }, server.resolvedUrls!.local[0]!);
  } finally {
    await chrome.close();
    await server.close();
  }
}

/** Opens pages of the app on a block for as long as `work` goes on. Null when there is no browser or no build. */
export const withApp = <T>(
  work: (open: (block: Block, patches: number) => Promise<BenchPage>) => Promise<T>,
): Promise<T | null> =>
  withWindows((newWindow, address) =>
    work(async (block, patches) => {
      const page = await newWindow();
      await page.goto(address);
      await page.locator('.block-open').first().waitFor();
      const text = JSON.stringify({
        format: 'underpaper',
        version: 1,
        name: 'Bench',
        blocks: [{ ...block, patches: [] }],
      });
      await dropFile(page, 'bench.underpaper.json', text);
      await page
        .locator('.numbers')
        .filter({ hasText: `${patches} patches` })
        .waitFor({ timeout: 60_000 });
      const devtools = await page.context().newCDPSession(page);
      await devtools.send('Performance.enable', { timeDomain: 'threadTicks' });
      const board = page.locator('.drawing-board');
      return {
        page,
        devtools,
        toScreen: async ([x, y]) => {
          const [scale, left, top] = (await board.getAttribute('data-camera'))!.split(' ').map(Number);
          const box = (await board.boundingBox())!;
          return [box.x + x * scale! + left!, box.y + y * scale! + top!];
        },
      };
    }),
  );

/** The value below which a share of the values lies. */
export const percentile = (values: readonly number[], share: number): number =>
  [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(share * values.length))] ?? 0;

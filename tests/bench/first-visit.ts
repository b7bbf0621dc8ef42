import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Page } from '@playwright/test';
import { build, preview } from 'vite';
import { median } from './measure.ts';
import { withWindows } from './page.ts';

/** From asking for the address until what matters is painted, ms, on a processor slowed four times. */
export interface FirstVisit {
  /** Until the drawing is on the board, which answers from then on. */
  readonly underpaper: number;
  /** Until an empty page, made with the same React and the same fonts, has painted its one line. */
  readonly empty: number;
}

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

/** The peer: one line of text in the app's typeface. */
const EMPTY_PAGE = `import '@fontsource-variable/source-sans-3';
import { createElement, useEffect } from 'react';
import { createRoot } from 'react-dom/client';
function Page() {
  useEffect(() => void document.fonts.load("600 16px 'Source Sans 3 Variable'").then(toldPainted), []);
  return createElement('p', { style: { font: "600 16px 'Source Sans 3 Variable'" } }, 'Harbour');
}
createRoot(document.getElementById('root')).render(createElement(Page));
`;

async function withEmptyPage<T>(work: (address: string) => Promise<T>): Promise<T> {
  // Inside the project, so that it is built from the same packages.
  const folder = mkdtempSync(join(ROOT, 'node_modules/.empty-page-'));
  try {
    writeFileSync(join(folder, 'main.js'), EMPTY_PAGE);
    writeFileSync(
      join(folder, 'index.html'),
      '<!doctype html><div id="root"></div><script type="module" src="./main.js"></script>',
    );
    await build({ root: folder, configFile: false, base: './', logLevel: 'silent' });
    const server = await preview({
      root: folder,
      configFile: false,
      logLevel: 'silent',
      preview: { host: '127.0.0.1' },
    });
    try {
      return await work(server.resolvedUrls!.local[0]!);
    } finally {
      await server.close();
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Tells when a text of its own has first been painted, ms since the address was asked for. */
const TELL_FIRST_PAINT = `
  const told = () => requestAnimationFrame(() => setTimeout(() => { document.documentElement.dataset.painted ??= performance.now(); }));
  const { fillText } = CanvasRenderingContext2D.prototype;
  CanvasRenderingContext2D.prototype.fillText = function (...args) {
    CanvasRenderingContext2D.prototype.fillText = fillText;
    told();
    return fillText.apply(this, args);
  };
  globalThis.toldPainted = told;
`;

async function timeOf(newWindow: () => Promise<Page>, address: string): Promise<number> {
  const page = await newWindow();
  await page.addInitScript(TELL_FIRST_PAINT);
  const devtools = await page.context().newCDPSession(page);
  await devtools.send('Emulation.setCPUThrottlingRate', { rate: 4 });
  await page.goto(address, { waitUntil: 'commit' });
  const ms = Number(await page.locator('html[data-painted]').getAttribute('data-painted'));
  await page.close();
  return ms;
}

/** The median of so many first visits each, in turn. Null when there is no browser or no build. */
export const benchFirstVisit = (visits: number): Promise<FirstVisit | null> =>
  withEmptyPage((empty) =>
    withWindows(async (newWindow, address) => {
      const ours: number[] = [];
      const theirs: number[] = [];
      for (let k = 0; k < visits; k++) {
        ours.push(await timeOf(newWindow, address));
        theirs.push(await timeOf(newWindow, empty));
      }
      return { underpaper: median(ours), empty: median(theirs) };
    }),
  );

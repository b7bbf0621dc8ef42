import { dropFile } from '../../e2e/window.ts';
import type { Block, Project } from '../../src/document/project.ts';
import { EMPTY_PROJECT } from '../../src/document/project.ts';
import { toText } from '../../src/document/to-text.ts';
import { designOf } from '../designs/designs.ts';
import { withWindows } from './page.ts';

/** Pauses between two frames while something goes on, ms. */
export interface Frames {
  readonly longest: number;
  /** How many took longer than 50 ms. */
  readonly long: number;
  /** Until every block was worked out, ms. */
  readonly untilDone: number;
}

/** A quilt of so many blocks, each of so many patches, painted with two fabrics in turn. */
export function quiltOf(blocks: number, patches: number): Project {
  return {
    ...EMPTY_PROJECT,
    name: 'Harbour wall',
    fabrics: [
      { id: 'f1', name: 'Night sea', color: '#1d3557' },
      { id: 'f2', name: 'Foam', color: '#f1ede2' },
    ],
    blocks: Array.from({ length: blocks }, (_, k): Block => {
      const { block } = designOf(900 + k, { patches: [patches, patches], endErrors: 'none' });
      return { ...block, id: `b${k + 1}`, name: `Block ${k + 1}` };
    }),
  };
}

/**
 * Opens a quilt in the built app, and measures the pauses between frames until every block has been worked out; beside
 * it the pauses of the same window at rest. Null when there is no browser or no build.
 */
export function benchOpening(
  blocks: number,
  patches: number,
): Promise<{ opening: Frames; rest: number } | null> {
  return withWindows(async (newWindow) => {
    const page = await newWindow();
    await page.waitForSelector('canvas');
    await page.waitForTimeout(2_000);
    const rest = await page.evaluate(
      () =>
        new Promise<number>((resolve) => {
          let [longest, last, left] = [0, performance.now(), 120];
          const frame = (): void => {
            const now = performance.now();
            longest = Math.max(longest, now - last);
            last = now;
            if (--left > 0) requestAnimationFrame(frame);
            else resolve(longest);
          };
          requestAnimationFrame(frame);
        }),
    );
    await page.evaluate(() => {
      const pauses: number[] = [];
      const watch = { pauses, isOn: true };
      Object.assign(window, { watch });
      let last = performance.now();
      const frame = (): void => {
        const now = performance.now();
        pauses.push(now - last);
        last = now;
        if (watch.isOn) requestAnimationFrame(frame);
      };
      requestAnimationFrame(frame);
    });
    const text = toText(quiltOf(blocks, patches));
    const begun = Date.now();
    await dropFile(page, 'harbour-wall.underpaper.json', text);
    await page.getByText(`Block ${blocks}`, { exact: true }).first().waitFor({ state: 'attached' });
    await page.waitForFunction(() => !document.body.textContent?.includes('being worked out'), null, {
      timeout: 120_000,
    });
    const untilDone = Date.now() - begun;
    const pauses = await page.evaluate(() => {
      const { watch } = window as unknown as { watch: { pauses: number[]; isOn: boolean } };
      watch.isOn = false;
      return watch.pauses;
    });
    return {
      rest,
      opening: { longest: Math.max(...pauses), long: pauses.filter((ms) => ms > 50).length, untilDone },
    };
  });
}

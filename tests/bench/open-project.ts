import { dropFile } from '../../e2e/window.ts';
import type { Block, Project } from '../../src/document/project.ts';
import { EMPTY_PROJECT } from '../../src/document/project.ts';
import { toText } from '../../src/document/to-text.ts';
import { designOf } from '../designs/designs.ts';
import { withWindows } from './page.ts';

/** What the thread of the screen does while something goes on. A frame waits for a task to end. */
export interface Tasks {
  /** The longest task, in milliseconds of processor time: a busy machine does not make it longer. */
  readonly longest: number;
  /** How many took more than 50 ms. */
  readonly long: number;
}

/** Opening a quilt: until its name is there and until every block was worked out, ms; and the tasks on the way. */
export interface Opening extends Tasks {
  readonly untilDone: number;
}

/** A quilt of so many blocks, each of so many patches, painted with two fabrics in no order. */
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
      const painted = block.patches.map((patch, i) => ({ ...patch, fabric: i % 2 === 0 ? 'f1' : 'f2' }));
      return { ...block, patches: painted, id: `b${k + 1}`, name: `Block ${k + 1}` };
    }),
  };
}

interface TraceEvent {
  readonly name: string;
  readonly pid: number;
  readonly tid: number;
  readonly tdur?: number;
  readonly args?: { readonly name?: string };
}

/** The tasks of the thread that draws the page, from a trace of the browser. */
function tasksOf(trace: Buffer): Tasks {
  const { traceEvents } = JSON.parse(trace.toString('utf8')) as { traceEvents: readonly TraceEvent[] };
  const screens = new Set(
    traceEvents.flatMap(({ name, args, pid, tid }) =>
      name === 'thread_name' && args?.name === 'CrRendererMain' ? [`${pid} ${tid}`] : [],
    ),
  );
  const times = traceEvents.flatMap(({ name, pid, tid, tdur }) =>
    name.endsWith('RunTask') && tdur !== undefined && screens.has(`${pid} ${tid}`) ? [tdur / 1000] : [],
  );
  return { longest: Math.max(0, ...times), long: times.filter((ms) => ms > 50).length };
}

/** Opens a quilt in the built app, each of the sizes in a window of its own. Null when there is no browser or no build. */
export function benchOpening(
  sizes: readonly (readonly [blocks: number, patches: number])[],
): Promise<Opening[] | null> {
  return withWindows(async (newWindow, address) => {
    const rows: Opening[] = [];
    for (const [blocks, patches] of sizes) {
      const page = await newWindow();
      await page.goto(address);
      await page.locator('.block-open').first().waitFor();
      // What the page does when it starts is not what is measured.
      await page.waitForTimeout(3_000);
      const browser = page.context().browser()!;
      const text = toText(quiltOf(blocks, patches));
      await browser.startTracing(page, {
        categories: ['toplevel', 'disabled-by-default-devtools.timeline', '__metadata'],
      });
      const begun = performance.now();
      await dropFile(page, 'harbour-wall.underpaper.json', text);
      await page
        .locator('.block-open')
        .nth(blocks - 1)
        .waitFor({ state: 'attached', timeout: 60_000 });
      await page.waitForFunction(() => !document.body.textContent?.includes('being worked out'), null, {
        timeout: 120_000,
      });
      const untilDone = performance.now() - begun;
      rows.push({ ...tasksOf(await browser.stopTracing()), untilDone });
      await page.close();
    }
    return rows;
  });
}

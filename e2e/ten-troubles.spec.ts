import { expect, type Locator, type Page, test } from '@playwright/test';
import { TEN_TROUBLES, type Trouble } from '../tests/designs/ten-troubles.ts';
import { addSquare, drag, drawingBoard, dropFile, numbers, onScreen, openApp, verdict } from './window.ts';

/** How a trouble comes to the app, what a person must read of it, and where on the board it must light up. */
interface Told {
  readonly way: 'drawn' | 'file' | 'svg';
  readonly says: RegExp;
  /** A place that must look otherwise once its finding is pointed at, inches. */
  readonly lit: readonly [x: number, y: number];
}

/**
 * In the order of the ten. What each is: three or more lines into a spot with none going on, lines that chase each
 * other, a patch in a patch, an end short of its line, seams that miss each other by less than an allowance, patches
 * round a crossing, a role that cannot be kept (common practice).
 */
const TOLD: readonly Told[] = [
  {
    way: 'drawn',
    says: /^Problem. 3 lines meet at one spot and none of them runs straight on/,
    lit: [1.5, 1.5],
  },
  { way: 'drawn', says: /^Problem. Each of 4 lines stops at the next, all the way round/, lit: [3, 2] },
  {
    way: 'svg',
    says: /^Problem. A1 has an island in it: a patch with a hole can only be set in by hand/,
    lit: [3, 2],
  },
  { way: 'file', says: /^Awkward. Line 2 ends just short of line 1, so it divides nothing/, lit: [2, 3.97] },
  {
    way: 'file',
    says: /^Note. One foundation won't do: A1, A2, B1 and B2 each touch the others/,
    lit: [3, 1],
  },
  { way: 'file', says: /^Awkward. On join 1, 1b and 1c lie less than 1\/4 in apart/, lit: [2.06, 3] },
  { way: 'drawn', says: /^Problem. 3 lines meet at one spot and none of them runs straight on/, lit: [1, 5] },
  {
    way: 'svg',
    says: /^Problem. 3 lines meet at one spot and none of them runs straight on/,
    lit: [4.5, 3.515],
  },
  {
    way: 'file',
    says: /^Note. One foundation won't do: D1, D2, E1 and E2 each touch the others/,
    lit: [4, 5],
  },
  { way: 'file', says: /^Awkward. Line 1 is marked to stay inside a foundation/, lit: [5, 3] },
];

const repairs = (page: Page): Locator => page.locator('.repair:not(.repair-awaited)');

const preview = (page: Page): Locator => page.getByTestId('proposal-line');

const undo = (page: Page): Locator => page.getByRole('button', { name: /^Undo/ });

/** The pixels around a place on the board, in inches, canvas by canvas. */
async function picture(page: Page, about: readonly [x: number, y: number]): Promise<string> {
  const place = await onScreen(page, ...about);
  return drawingBoard(page).evaluate((frame, spot) => {
    const box = frame.getBoundingClientRect();
    return [...frame.querySelectorAll('canvas')]
      .map((canvas) => {
        const ratio = canvas.width / box.width;
        const [x, y] = [(spot[0] - box.x - 8) * ratio, (spot[1] - box.y - 8) * ratio];
        return canvas
          .getContext('2d')!
          .getImageData(x, y, 16 * ratio, 16 * ratio)
          .data.join();
      })
      .join();
  }, place);
}

/** Levels of 256 by which the softened edge of a line may differ where a part of a canvas was drawn anew. */
const SAME_LEVELS = 24;

/** Keeps what is drawn on the board now, whatever lies over it; the function tells whether it looks so later. */
async function keepPicture(page: Page): Promise<() => Promise<boolean>> {
  const pixels = () =>
    page.evaluateHandle(() =>
      [...document.querySelectorAll<HTMLCanvasElement>('.drawing-board canvas')].map(
        (canvas) => canvas.getContext('2d')!.getImageData(0, 0, canvas.width, canvas.height).data,
      ),
    );
  const kept = await pixels();
  return async () => {
    const now = await pixels();
    return page.evaluate(
      ([before, after, most]) => {
        // What hardly covers the sheet hardly shows its colour.
        const shown = (canvas: Uint8ClampedArray, at: number): number =>
          at % 4 === 3 ? canvas[at]! : (canvas[at]! * canvas[at | 3]!) / 255;
        return (
          before.length === after.length &&
          before.every((canvas, k) =>
            canvas.every((_, at) => Math.abs(shown(canvas, at) - shown(after[k]!, at)) <= most),
          )
        );
      },
      [kept, now, SAME_LEVELS] as const,
    );
  };
}

const fileOf = ({ block: { id, name, outline, cuts } }: Trouble): string =>
  JSON.stringify({ format: 'underpaper', version: 1, name, blocks: [{ id, name, outline, cuts }] });

/** The same lines as a drawing program leaves them, 100 of its units to the inch. */
function svgOf({ block: { outline, cuts } }: Trouble): string {
  const at = ([x, y]: readonly [number, number]): string => `${100 * x + 50} ${100 * y + 50}`;
  const lines = cuts.map(({ from, to }) => `M${at(from)}L${at(to)}`).join('');
  return `<svg xmlns="http://www.w3.org/2000/svg" width="7in" height="7in" viewBox="0 0 700 700"><g fill="none" stroke="#000"><path d="M${outline.map(at).join('L')}Z"/><path d="${lines}"/></g></svg>`;
}

async function bringIn(page: Page, trouble: Trouble, way: Told['way']): Promise<void> {
  const { name, cuts } = trouble.block;
  if (way === 'drawn') {
    await addSquare(page, name);
    for (const { from, to } of cuts) await drag(page, [...from], [...to]);
    // Nothing is chosen, so that nothing but what is looked for lights up.
    await page.keyboard.press('v');
    await page.keyboard.press('Escape');
  } else if (way === 'file') {
    await dropFile(page, 'trouble.underpaper.json', fileOf(trouble));
  } else {
    const choosing = page.waitForEvent('filechooser');
    await page.getByRole('button', { name: 'Import a drawing' }).click();
    await (await choosing).setFiles({
      name: 'From the drawing table.svg',
      mimeType: 'image/svg+xml',
      buffer: Buffer.from(svgOf(trouble)),
    });
    await page
      .getByRole('dialog', { name: /^Import/ })
      .getByRole('button', { name: 'Add block' })
      .click();
  }
  await expect(drawingBoard(page)).toHaveAccessibleName(
    `Drawing of ${way === 'svg' ? 'From the drawing table' : name}`,
  );
  await expect(page.locator('.seam-check')).toHaveAttribute('aria-busy', 'false');
}

/** Away from everything that answers to a pointer. */
const putAside = async (page: Page): Promise<void> => page.mouse.move(...(await onScreen(page, -0.4, -0.4)));

/** Nothing in the way, on no more papers than promised, with all of the picture still there. */
async function isCured(page: Page, { papers, leastPatches }: Trouble): Promise<boolean> {
  const said = (await verdict(page).textContent()) ?? '';
  const foundations = /^Sews on one /.test(said) ? 1 : Number(/^Sews on (\d+) /.exec(said)?.[1] ?? Infinity);
  const patches = Number.parseInt((await numbers(page).textContent()) ?? '', 10);
  const hurts = await page.locator('.finding-trouble, .finding-caution').count();
  return hurts === 0 && foundations <= papers && patches >= leastPatches;
}

for (const [k, trouble] of TEN_TROUBLES.entries()) {
  const { way, says, lit } = TOLD[k]!;
  test(`${trouble.block.name}: explained, shown and cured (${way})`, async ({ page }) => {
    await openApp(page);
    await bringIn(page, trouble, way);
    expect(await isCured(page, trouble)).toBe(false);

    // It is explained without a press, and pointed at it lights up where it is.
    const finding = page.locator('.finding').filter({ hasText: new RegExp(says.source.replace('^', '')) });
    await expect(finding).toHaveCount(1);
    await finding.scrollIntoViewIfNeeded();
    await putAside(page);
    const isPlain = await keepPicture(page);
    const plainPlace = await picture(page, lit);
    await finding.hover();
    await expect(finding).toHaveAttribute('data-lit', 'true');
    await expect.poll(() => picture(page, lit)).not.toBe(plainPlace);
    await putAside(page);
    await expect.poll(isPlain).toBe(true);

    // The first cure on offer, at most two presses, each one step of the history.
    const stepsBefore = await undo(page).getAttribute('aria-label');
    const verdicts: string[] = [];
    let presses = 0;
    const chances = page.locator('summary', { hasText: /^Could be simpler/ });
    await expect(repairs(page).or(chances).first()).toBeVisible();
    if ((await repairs(page).count()) === 0) {
      await chances.click();
      presses++;
    }
    while (!(await isCured(page, trouble)) && presses < 2) {
      const first = repairs(page).first();
      // Until all ways are known a better one may take the place of the first.
      await expect(page.locator('section[aria-busy="true"]')).toHaveCount(0);
      await first.scrollIntoViewIfNeeded();
      await putAside(page);
      await expect(preview(page)).toBeHidden();
      const isBefore = await keepPicture(page);
      const said = await verdict(page).textContent();
      await first.hover();
      await expect(preview(page)).toContainText('othing has changed yet');
      await expect(preview(page)).toContainText('→');
      await expect.poll(isBefore).toBe(false);
      await expect(verdict(page)).toHaveText(said!);
      await putAside(page);
      await expect(preview(page)).toBeHidden();
      await expect.poll(isBefore).toBe(true);
      verdicts.push(said!);
      await first.click();
      await expect(undo(page)).not.toHaveAttribute('aria-label', stepsBefore!);
      presses++;
      await expect(page.locator('.seam-check')).toHaveAttribute('aria-busy', 'false');
      if (!(await isCured(page, trouble))) await expect(repairs(page).first()).toBeVisible();
    }
    expect(await isCured(page, trouble)).toBe(true);

    // Taken back, a step for a press, until all is as it was.
    for (const said of verdicts.reverse()) {
      await page.keyboard.press('Control+z');
      await expect(verdict(page)).toHaveText(said);
    }
    await expect(finding).toHaveCount(1);
    await expect(undo(page)).toHaveAttribute('aria-label', stepsBefore!);
  });
}

test('what the check points at is seen on the board while a step of the rehearsal is looked at', async ({
  page,
}) => {
  await openApp(page);
  await dropFile(page, 'trouble.underpaper.json', fileOf(TEN_TROUBLES[1]!));
  await expect(verdict(page)).toContainText('Cannot be joined');
  await page.locator('.step').nth(1).click();
  const stage = page.locator('.stage');
  await expect(stage).toHaveCSS('opacity', '1');
  await repairs(page).first().hover();
  await expect(preview(page)).toBeVisible();
  await expect(stage).toHaveCSS('opacity', '0');
  await putAside(page);
  await expect(stage).toHaveCSS('opacity', '1');
  // Pressed, the board looks at the place, and the stage is left for good.
  await page.locator('.finding-trouble').click();
  await expect(stage).toHaveCount(0);
});

test.describe('with a finger', () => {
  test.use({ hasTouch: true, viewport: { width: 820, height: 1180 } });

  test('a repair is shown first and done by its own button', async ({ page }) => {
    await openApp(page);
    await dropFile(page, 'trouble.underpaper.json', fileOf(TEN_TROUBLES[1]!));
    await expect(verdict(page)).toContainText('Cannot be joined');
    const first = repairs(page).first();
    await first.scrollIntoViewIfNeeded();
    await first.tap();
    await expect(preview(page)).toContainText('othing has changed yet');
    await expect(verdict(page)).toContainText('Cannot be joined');

    // Another is shown in its stead, and left again.
    await repairs(page).nth(1).tap();
    await expect(page.getByRole('button', { name: 'Apply' })).toHaveCount(1);
    await page.getByRole('button', { name: 'Leave it as it is' }).tap();
    await expect(preview(page)).toBeHidden();
    await expect(verdict(page)).toContainText('Cannot be joined');

    await first.tap();
    await page.getByRole('button', { name: 'Apply' }).tap();
    await expect(preview(page)).toBeHidden();
    await expect(verdict(page)).toHaveText('Sews on 2 foundations, the fewest possible.');
    await page.getByRole('button', { name: /^Undo/ }).tap();
    await expect(verdict(page)).toContainText('Cannot be joined');
  });
});

const STONES = 5;

/**
 * A sea wall of 5 by 5 stones, a spiral of five in each (common practice: none of them sews straight): 125 patches
 * and a search that takes its time.
 */
function seaWall(): string {
  const cuts: { id: string; from: number[]; to: number[] }[] = [];
  const draw = (from: number[], to: number[]): unknown => cuts.push({ id: `c${cuts.length + 1}`, from, to });
  const side = 6 * STONES;
  for (let k = 6; k < side; k += 6) {
    draw([0, k], [side, k]);
    draw([k, 0], [k, side]);
  }
  for (let x = 0; x < side; x += 6)
    for (let y = 0; y < side; y += 6) {
      draw([x + 2, y], [x + 2, y + 4]);
      draw([x, y + 4], [x + 4, y + 4]);
      draw([x + 4, y + 6], [x + 4, y + 2]);
      draw([x + 6, y + 2], [x + 2, y + 2]);
    }
  const outline = [
    [0, 0],
    [side, 0],
    [side, side],
    [0, side],
  ];
  return JSON.stringify({
    format: 'underpaper',
    version: 1,
    name: 'Sea wall',
    blocks: [{ id: 'b1', name: 'Sea wall', outline, cuts }],
  });
}

test('a long search says how far it is, is stopped and begun again, and never holds up the drawing', async ({
  page,
}) => {
  await openApp(page);
  await dropFile(page, 'wall.underpaper.json', seaWall());
  await expect(numbers(page)).toContainText('125 patches', { timeout: 30_000 });
  const line = page.locator('.search-line');
  await expect(line).toContainText(/tried \d+ of \d+/, { timeout: 30_000 });
  const tried = async (): Promise<number> =>
    Number(/tried (\d+) of/.exec((await line.textContent()) ?? '')?.[1] ?? -1);
  const first = await tried();
  await expect.poll(tried).toBeGreaterThan(first);
  // The page answers while it is sought: a frame comes in a moment.
  const frame = await page.evaluate(
    () =>
      new Promise<number>((resolve) => {
        const begun = performance.now();
        requestAnimationFrame(() => requestAnimationFrame(() => resolve(performance.now() - begun)));
      }),
  );
  expect(frame).toBeLessThan(500);
  await line.getByRole('button', { name: 'Stop' }).click();
  await expect(line.getByRole('status')).toContainText(/^Stopped after \d+ of \d+\.$/);
  await line.getByRole('button', { name: 'Look again' }).click();
  // Ways to mend it are sought first.
  await expect(line).toContainText(/tried \d+ of \d+/, { timeout: 30_000 });
});

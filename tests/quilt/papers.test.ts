import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { openFile } from '../../src/document/file.ts';
import { PAGES } from '../../src/document/pages.ts';
import { JOININGS } from '../../src/document/quilt.ts';
import { PT, type TextMark } from '../../src/foundations/marks.ts';
import { marksOf, type Sheet } from '../../src/foundations/sheet/sheet.ts';
import { openTypeface } from '../../src/foundations/type/typeface.ts';
import { joiningOf } from '../../src/quilt/joining.ts';
import { layOut } from '../../src/quilt/layout.ts';
import { groupsOf } from '../../src/quilt/papers/groups.ts';
import { pictureSheet, posterPages } from '../../src/quilt/papers/poster-pages.ts';
import { type QuiltPart, quiltSheets } from '../../src/quilt/papers/quilt-sheets.ts';
import { numbersOf } from '../../src/quilt/words.ts';

const opened = openFile(
  readFileSync(new URL('../../public/demo/harbour-sampler.underpaper.json', import.meta.url), 'utf8'),
);
if (!opened.ok) throw new Error(opened.error.message);
const { project } = opened;
const layout = layOut({ places: project.quilt!.places }, project.blocks);

const setting = {
  page: PAGES.letter,
  margin: 0.25,
  side: 'front',
  typeface: openTypeface(),
  project: project.name,
  printedOn: '1 May 2026',
} as const;

const sheets = (parts: readonly QuiltPart[], joining = project.quilt!.joining): Sheet[] =>
  quiltSheets({
    project: { ...project, quilt: { ...project.quilt!, ...(joining && { joining }) } },
    parts,
    setting,
    posterWidth: 30,
    pinned: [],
  });

const textsOf = (sheet: Sheet): TextMark[] => marksOf(sheet).filter((mark) => mark.kind === 'text');

describe('pages of the quilt', () => {
  const all = sheets(['map', 'guide', 'finishing', 'poster']);

  it('keep within the page, and to type of 6 pt at least', () => {
    for (const sheet of all)
      for (const mark of marksOf(sheet)) {
        const points = mark.kind === 'line' ? mark.points : mark.kind === 'polygon' ? mark.ring : [mark.at];
        for (const [x, y] of points) {
          expect(x, sheet.title).toBeGreaterThanOrEqual(0.25 - 1e-6);
          expect(x, sheet.title).toBeLessThanOrEqual(8.25 + 1e-6);
          expect(y, sheet.title).toBeGreaterThanOrEqual(0.25 - 1e-6);
          expect(y, sheet.title).toBeLessThanOrEqual(10.75 + 1e-6);
        }
        if (mark.kind === 'text') expect(mark.size).toBeGreaterThanOrEqual(6 * PT - 1e-9);
      }
  });

  it('the map has the number of every place and the name of every block in it', () => {
    const texts = sheets(['map'])
      .flatMap(textsOf)
      .map(({ text }) => text);
    for (const number of numbersOf(layout).values()) expect(texts).toContain(String(number));
    const used = new Set(layout.pieces.flatMap(({ place }) => ('block' in place ? [place.block] : [])));
    const words = texts.join(' ');
    for (const { id, name } of project.blocks) expect(words.includes(`${name}, `), name).toBe(used.has(id));
  });

  it.each(JOININGS)('the guide tells every step once, joined by %s', (way) => {
    const joined = joiningOf(layout, way);
    if (!joined.ok) throw new Error(joined.why);
    const { steps } = joined.plan;
    const groups = groupsOf(steps, way, layout);
    expect(groups.flatMap((group) => group.steps.map(({ step }) => step)).sort((a, b) => a - b)).toEqual(
      steps.map(({ step }) => step),
    );
    // What a page joins was made on it or on a page before.
    const made = new Set(layout.pieces.map(({ place }) => place.id));
    for (const group of groups)
      for (const { left, right } of group.steps) {
        for (const unit of [left, right]) expect(made.has([...unit].sort().join())).toBe(true);
        made.add([...left, ...right].sort().join());
      }
    const told = sheets(['guide'], way)
      .flatMap(textsOf)
      .filter(({ text }) => /^\d+\. {2}Join /.test(text));
    expect(told.length).toBe(steps.length);
  });

  it('in rows each row has a page: the band with the lighthouse is one', () => {
    const joined = joiningOf(layout, 'rows');
    if (!joined.ok) throw new Error(joined.why);
    const numbers = numbersOf(layout);
    const pages = groupsOf(joined.plan.steps, 'rows', layout).map((group) =>
      [...new Set(group.steps.flatMap(({ left, right }) => [...left, ...right]))]
        .map((id) => numbers.get(id)!)
        .sort((a, b) => a - b),
    );
    // Bunting, and below it the band with moon, star, houses, lighthouse, crane and lantern; ten breakers.
    expect(pages).toContainEqual([8, 9, 10, 11, 12]);
    expect(pages).toContainEqual([14, 15, 16, 17, 18, 19, 20, 21]);
    expect(pages).toContainEqual([38, 39, 40, 41, 42, 43, 44, 45, 46, 47]);
  });

  it('the poster takes as many sheets as are told, and shows all of the picture', () => {
    const tiles = sheets(['poster']);
    expect(tiles.length).toBe(posterPages([73, 73], 30, setting.page, 0.25));
    const fills = (of: readonly Sheet[]): Set<string> =>
      new Set(
        of.flatMap((sheet) =>
          marksOf(sheet).flatMap((mark) => (mark.kind === 'polygon' ? (mark.fill ?? []) : [])),
        ),
      );
    expect(fills(tiles)).toEqual(fills([pictureSheet(project, 30)]));
  });

  it('of a quilt of none there are none', () => {
    expect(
      quiltSheets({
        project: { ...project, quilt: { places: [] } },
        parts: ['map', 'guide'],
        setting,
        posterWidth: 30,
        pinned: [],
      }),
    ).toEqual([]);
  });
});

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { openFile } from '../../../src/document/file.ts';
import { PAGES } from '../../../src/document/pages.ts';
import { layOutBooklet } from '../../../src/foundations/booklet/booklet.ts';
import { fitUnit } from '../../../src/foundations/booklet/fit.ts';
import { joinDrawing } from '../../../src/foundations/booklet/join-drawing.ts';
import type { BookletPart } from '../../../src/foundations/booklet/parts.ts';
import type { Mark, TextMark } from '../../../src/foundations/marks.ts';
import { marksOf, type Sheet } from '../../../src/foundations/sheet/sheet.ts';
import type { Point, Ring } from '../../../src/geometry/point.ts';
import { boxOf, contains, distanceToSegment } from '../../../src/geometry/ring.ts';
import type { Block } from '../../../src/piecing/block.ts';
import { piece } from '../../../src/piecing/piece.ts';
import type { PiecingPlan } from '../../../src/piecing/plan.ts';
import { inkCorners, pointsOf, textsOf, typeface } from '../harbour.ts';
import { overlappingTexts, textsOverLines } from '../overlaps.ts';

/** The pages of the demo as a person at the machine reads them. */

const opened = openFile(readFileSync('public/demo/harbour-sampler.underpaper.json', 'utf8'));
if (!opened.ok) throw new Error('The demo does not open.');
const { project } = opened;

const plans = new Map<Block, PiecingPlan>(project.blocks.map((block) => [block, piece(block)]));

function pagesOf(part: BookletPart, name?: string): readonly Sheet[] {
  const blocks = project.blocks.filter((block) => name === undefined || block.name === name);
  return layOutBooklet(
    {
      project: { ...project, blocks },
      jobs: blocks.map((block) => ({ block, plan: plans.get(block)!, copies: 1, isMirrored: false })),
    },
    { page: PAGES.letter, margin: 0.25, side: 'printed', printedOn: '25 November 2026', typeface },
    new Set([part]),
  ).sheets;
}

const said = (marks: readonly Mark[]): string =>
  textsOf(marks)
    .map(({ text }) => text)
    .join(' ');

describe('the guide', () => {
  it('never ends with a page that holds the last words alone', () => {
    for (const { name } of project.blocks) {
      const pages = pagesOf('guide', name);
      if (pages.length === 1) continue;
      expect(said(marksOf(pages.at(-1)!)), name).toMatch(/Join \d/);
    }
  });

  it('speaks of one paper where there is one', () => {
    expect(said(pagesOf('guide', 'Sailing boat').flatMap(marksOf))).not.toContain('First sew the papers');
    expect(said(pagesOf('guide', 'Ferry').flatMap(marksOf))).toContain('First sew the papers');
  });
});

describe('the drawing of a join', () => {
  const isPoint = ({ text }: TextMark): boolean => /^\d+[a-z]+$/.test(text);
  const away = (corners: readonly Point[], at: Point): number =>
    contains(corners, at)
      ? 0
      : Math.min(
          ...corners.map((corner, i) => distanceToSegment(at, corner, corners[(i + 1) % corners.length]!)),
        );

  for (const block of project.blocks)
    it(`keeps the names of points off rings and dots: ${block.name}`, () => {
      const plan = plans.get(block)!;
      for (const join of plan.joins) {
        const fit = fitUnit(plan, [...join.left, ...join.right], 1.7, 1.7);
        const { marks, unnamed } = joinDrawing(plan, join, fit, typeface);
        for (const label of textsOf(marks).filter(isPoint))
          for (const mark of marks)
            if (mark.kind === 'circle')
              expect(away(inkCorners(label), mark.at), label.text).toBeGreaterThan(mark.radius + 0.005);
        // The strip under it names every point: a name that lies over a line is better left to it.
        const ends = join.points.filter(({ kind }) => kind === 'end').map(({ label }) => label);
        if (unnamed.length > 0)
          expect(
            textsOverLines(marks, ['patch', 'frame', 'join', 'registration'])
              .filter(isPoint)
              .map(({ text }) => text)
              .filter((text) => !ends.includes(text)),
          ).toEqual([]);
      }
    });
});

describe('a line drawing', () => {
  it('stands clear of the foot of the page', () => {
    for (const sheet of pagesOf('line-drawing')) {
      const marks = marksOf(sheet);
      const foot = Math.max(
        ...marks.flatMap((mark) => (mark.kind === 'line' && mark.pen === 'rule' ? [mark.points[0]![1]] : [])),
      );
      const lowest = Math.max(
        ...marks.flatMap((mark) => (mark.kind === 'polygon' ? mark.ring.map(([, y]) => y) : [])),
      );
      expect(foot - lowest, sheet.title).toBeGreaterThan(0.2);
    }
  });

  it('is there twice where the page has room, for another colouring', () => {
    const frames = (name: string): number =>
      marksOf(pagesOf('line-drawing', name)[0]!).filter(
        (mark) => mark.kind === 'polygon' && mark.pen === 'frame',
      ).length;
    expect(frames('Ferry')).toBe(2);
    expect(frames('Lighthouse')).toBe(1);
  });

  it('says of a block that is no rectangle that its size is the widest', () => {
    expect(said(pagesOf('line-drawing', 'Lifebuoy').flatMap(marksOf))).toContain('at its widest 6 × 6 in');
    expect(said(pagesOf('line-drawing', 'Ferry').flatMap(marksOf))).not.toContain('widest');
  });
});

describe('a sheet with tiles', () => {
  it('says that an edge over several tiles is measured once they are joined', () => {
    for (const sheet of pagesOf('foundations')) {
      const words = said(marksOf(sheet));
      expect(words.includes('“this edge”'), sheet.title).toBe(words.includes('crosses on crosses'));
    }
  });
});

describe('cutting templates', () => {
  const sheets = pagesOf('templates');
  const trimsOf = (sheet: Sheet): readonly Ring[] =>
    marksOf(sheet).flatMap((mark) => (mark.kind === 'polygon' && mark.pen === 'trim' ? [mark.ring] : []));

  it('say inside what they are for, so that it is still known when they are cut out', () => {
    let inside = 0;
    let all = 0;
    for (const sheet of sheets) {
      const trims = trimsOf(sheet);
      for (const mark of textsOf(marksOf(sheet))) {
        if (!/^Cut\s\d+$|Cut\s\d+\.$/.test(mark.text) || mark.text.startsWith('Tile')) continue;
        all++;
        if (trims.some((trim) => inkCorners(mark).every((corner) => contains(trim, corner)))) inside++;
      }
    }
    expect(all).toBeGreaterThan(50);
    expect(inside / all).toBeGreaterThan(0.7);
  });

  it('have their words off every line and off each other', () => {
    for (const sheet of sheets) {
      const marks = marksOf(sheet);
      expect(overlappingTexts(marks), sheet.title).toEqual([]);
      expect(
        textsOverLines(marks, ['edge', 'trim', 'tile-trim']).map(({ text }) => text),
        sheet.title,
      ).toEqual([]);
    }
  });

  it('lie apart from each other, inside the margins', () => {
    for (const sheet of sheets) {
      const trims = trimsOf(sheet);
      trims.forEach((trim, i) => {
        for (const other of trims.slice(i + 1))
          expect(
            other.some((corner) => contains(trim, corner)) || trim.some((corner) => contains(other, corner)),
          ).toBe(false);
      });
      const box = boxOf(marksOf(sheet).flatMap(pointsOf));
      expect(box.minX).toBeGreaterThanOrEqual(0.25 - 1e-6);
      expect(box.maxX).toBeLessThanOrEqual(8.25 + 1e-6);
    }
  });

  it('carry the straight grain along the edge of the block, also where that runs aslant', () => {
    // Common practice: the straight grain on the outer edge of a block, so that it does not stretch.
    const arrows = (name: string): readonly number[] =>
      pagesOf('templates', name)
        .flatMap(marksOf)
        .flatMap((mark) =>
          mark.kind === 'line' && mark.points.length === 2 && (mark.pen === 'grain' || mark.pen === 'tick')
            ? [Math.atan2(mark.points[1]![1] - mark.points[0]![1], mark.points[1]![0] - mark.points[0]![0])]
            : [],
        )
        .map((turn) => Math.round((turn * 180) / Math.PI + 720) % 90);
    // The longest outer sides of the four strips are the slanted ones; two strips share a template; the middle lies level.
    expect(arrows('Lifebuoy').toSorted((a, b) => a - b)).toEqual([0, 45, 45]);
    // Of a hexagon four sides run aslant, at 60 degrees.
    expect(
      arrows('Scallop shell').filter((turn) => turn === 60 || turn === 30).length,
    ).toBeGreaterThanOrEqual(6);
    expect(arrows('Ship’s lantern').every((turn) => turn === 0)).toBe(true);
  });

  it('share pages: shapes like triangles fill more than boxes round them do', () => {
    // Boxes round the 18 shapes of the scallop, laid in levels, took eight pages, and those of the star four.
    expect(pagesOf('templates', 'Scallop shell').length).toBeLessThanOrEqual(6);
    expect(pagesOf('templates', 'Compass star').length).toBeLessThanOrEqual(3);
  });
});

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { openFile } from '../../../src/document/file.ts';
import { PAGES } from '../../../src/document/pages.ts';
import { toPdf } from '../../../src/foundations/files/pdf.ts';
import { joiningSides } from '../../../src/foundations/foundation/mates.ts';
import { tickCounts } from '../../../src/foundations/foundation/tick-counts.ts';
import { type Mark, PT } from '../../../src/foundations/marks.ts';
import { joinsThatFit } from '../../../src/foundations/sheet/joins-that-fit.ts';
import { marksOf, type Sheet } from '../../../src/foundations/sheet/sheet.ts';
import type { FullTypeface, TextPicture } from '../../../src/foundations/type/typeface.ts';
import type { Point } from '../../../src/geometry/point.ts';
import type { Block } from '../../../src/piecing/block.ts';
import { piece } from '../../../src/piecing/piece.ts';
import type { PiecingPlan } from '../../../src/piecing/plan.ts';
import { designOf } from '../../designs/designs.ts';
import {
  block,
  gull,
  lighthouse,
  net,
  pennant,
  pointsOf,
  print,
  square,
  textsOf,
  typeface,
  windmill,
} from '../harbour.ts';
import { overlappingTexts } from '../overlaps.ts';
import { has, renderPdf, runOn } from '../tools.ts';

const info = { title: 'Harbour sampler', createdAt: new Date(Date.UTC(2026, 10, 24, 12)) };

const demo = openFile(
  readFileSync(new URL('../../../public/demo/harbour-sampler.underpaper.json', import.meta.url), 'utf8'),
);
if (!demo.ok) throw new Error(demo.error.message);
const { project } = demo;

const partsOf = (sheets: readonly Sheet[]) =>
  sheets.flatMap(({ parts }) => parts.flatMap(({ paper, marks }) => (paper ? [{ paper, marks }] : [])));

const lines = (marks: readonly Mark[], pen: string): (readonly Point[])[] =>
  marks.flatMap((mark) => (mark.kind === 'line' && mark.pen === pen ? [mark.points] : []));

const inside = (ring: readonly Point[], [x, y]: Point): boolean => {
  // Winding number by angles, so that it shares nothing with the code under test.
  const turn = ring.reduce((sum, a, i) => {
    const b = ring[(i + 1) % ring.length]!;
    const angle = Math.atan2(b[1] - y, b[0] - x) - Math.atan2(a[1] - y, a[0] - x);
    return sum + Math.atan2(Math.sin(angle), Math.cos(angle));
  }, 0);
  return Math.abs(turn) > Math.PI;
};

describe('registration ticks', () => {
  const designs: readonly Block[] = [
    ...project.blocks,
    windmill,
    net,
    ...Array.from({ length: 40 }, (_, i) => designOf(700 + i).block),
  ];

  /** Pairs of joins that share a corner of a paper. */
  const cornersOf = (plan: PiecingPlan): (readonly [number, number])[] =>
    plan.sections.flatMap((section) => {
      const sides = joiningSides(plan, section).flatMap(({ join, side }) =>
        join ? [{ step: join.step, side }] : [],
      );
      return sides.flatMap((a, i) =>
        sides
          .slice(i + 1)
          .filter((b) => a.step !== b.step)
          .filter((b) => a.side.some((p) => b.side.some((q) => Math.hypot(p[0] - q[0], p[1] - q[1]) < 1e-3)))
          .map((b) => [a.step, b.step] as const),
      );
    });

  /** Plainly by trying: can three kinds tell all these pairs apart? */
  const canDiffer = (pairs: readonly (readonly [number, number])[]): boolean => {
    const steps = [...new Set(pairs.flat())];
    const kinds = new Map<number, number>();
    const tryFrom = (i: number): boolean =>
      i === steps.length ||
      [1, 2, 3].some((kind) => {
        const step = steps[i]!;
        if (
          pairs.some(
            ([a, b]) => (a === step && kinds.get(b) === kind) || (b === step && kinds.get(a) === kind),
          )
        )
          return false;
        kinds.set(step, kind);
        if (tryFrom(i + 1)) return true;
        kinds.delete(step);
        return false;
      });
    return tryFrom(0);
  };

  it('differ between joins that share a corner of a paper wherever three kinds can do that', () => {
    let corners = 0;
    let whole = 0;
    for (const one of designs) {
      const plan = piece(one);
      const counts = tickCounts(plan);
      for (const { step } of plan.joins) expect([1, 2, 3]).toContain(counts.get(step));
      const pairs = cornersOf(plan);
      corners += pairs.length;
      const alike = pairs.filter(([a, b]) => counts.get(a) === counts.get(b));
      if (alike.length === 0) whole++;
      else expect(canDiffer(pairs), one.id).toBe(false);
    }
    expect(corners).toBeGreaterThan(200);
    expect(whole / designs.length).toBeGreaterThan(0.9);
    for (const one of project.blocks) {
      const counts = tickCounts(piece(one));
      for (const [a, b] of cornersOf(piece(one))) expect(counts.get(a), one.name).not.toBe(counts.get(b));
    }
  });

  it('are as many on both mates of every join, but at a corner that a set-in seam turns', () => {
    for (const one of [...project.blocks, windmill]) {
      const plan = piece(one);
      const counts = tickCounts(plan);
      const { sheets } = print([one], { page: PAGES.tabloid, project: { ...project, blocks: [one] } });
      for (const section of plan.sections) {
        const marks = partsOf(sheets).filter(({ paper }) => paper.section === section.letter);
        if (marks.some(({ marks: own }) => textsOf(own).some(({ text }) => text.startsWith('Tile'))))
          continue;
        // Two arms of each cross, and the ticks of each point on each side.
        const sides = joiningSides(plan, section);
        const isCorner = (step: number, point: Point): boolean =>
          sides.filter(
            ({ join, side }) =>
              join?.step === step &&
              side.some((end) => Math.hypot(end[0] - point[0], end[1] - point[1]) < 0.01),
          ).length > 1;
        const expected = sides.reduce(
          (sum, { join, points }) =>
            join
              ? sum + points.filter(({ at }) => !isCorner(join.step, at)).length * counts.get(join.step)!
              : sum,
          0,
        );
        const crosses = new Set(
          joiningSides(plan, section).flatMap(({ points }) =>
            points.map(({ at }) => at.map((v) => v.toFixed(2)).join(' ')),
          ),
        );
        const drawn = marks.reduce((sum, { marks: own }) => sum + lines(own, 'registration').length, 0);
        expect(drawn, `${one.name} ${section.letter}`).toBe(expected + 2 * crosses.size);
      }
    }
  });
});

describe('a paper', () => {
  it('shows what is up and which side it is sewn from', () => {
    for (const [side, words] of [
      ['printed', 'sewn from this side'],
      ['front', 'sewn from the other side'],
    ] as const) {
      const { sheets } = print([pennant, windmill], { side });
      for (const { marks } of partsOf(sheets)) {
        const texts = textsOf(marks);
        // Upright on its paper: an arrow in a text that is turned would not point up.
        expect(texts.filter(({ text }) => text.startsWith('↑')).map(({ turn }) => turn)).toEqual([0]);
        expect(texts.map(({ text }) => text)).toContain(words);
      }
    }
  });

  it('carries straight-grain arrows along the edge of the block, in patches that lie there alone', () => {
    for (const one of [pennant, windmill, gull]) {
      const plan = piece(one);
      const plain = print([one], { side: 'front' });
      expect(partsOf(plain.sheets).flatMap(({ marks }) => lines(marks, 'grain'))).toEqual([]);
      const { sheets, notes } = print([one], { side: 'front', grain: true });
      expect(notes).toEqual([]);
      const shafts = partsOf(sheets).flatMap(({ marks }) =>
        lines(marks, 'grain').filter(({ length }) => length === 2),
      );
      const xs = one.outline.map(([x]) => x);
      const ys = one.outline.map(([, y]) => y);
      const sides = [Math.min(...xs), Math.max(...xs)];
      const ends = [Math.min(...ys), Math.max(...ys)];
      const onEdge = (a: Point, b: Point): boolean =>
        (a[0] === b[0] && sides.includes(a[0])) || (a[1] === b[1] && ends.includes(a[1]));
      const outer = plan.patches.filter(({ polygon }) =>
        polygon.some((a, i) => onEdge(a, polygon[(i + 1) % polygon.length]!)),
      );
      expect(shafts.length).toBe(outer.length);
      for (const [a, b] of shafts) expect(a![0] === b![0] || a![1] === b![1]).toBe(true);
    }
  });

  it('hatches every patch in its own way, inside it and off its labels; shades it lightly', () => {
    const hatched = print([pennant], { style: 'hatched', side: 'front' });
    const [paper] = partsOf(hatched.sheets);
    const edge = paper!.marks.find((mark) => mark.kind === 'polygon' && mark.pen === 'edge') as {
      readonly ring: readonly Point[];
    };
    const hatches = lines(paper!.marks, 'hatch');
    expect(hatches.length).toBeGreaterThan(40);
    for (const [a, b] of hatches) {
      const middle: Point = [(a![0] + b![0]) / 2, (a![1] + b![1]) / 2];
      expect(inside(edge.ring, middle)).toBe(true);
      for (const text of textsOf(paper!.marks).filter(({ turn }) => turn === 0)) {
        const [p, , q] = pointsOf(text);
        expect(
          middle[0] > p![0] && middle[0] < q![0] && middle[1] > p![1] && middle[1] < q![1],
          text.text,
        ).toBe(false);
      }
    }
    const slopes = new Set(
      hatches.map(([a, b]) => Math.round((Math.atan((b![1] - a![1]) / (b![0] - a![0])) * 180) / Math.PI)),
    );
    // Three fabrics on four patches.
    expect(slopes.size).toBe(3);
    const shaded = print([pennant], { style: 'shaded' });
    const fills = partsOf(shaded.sheets)[0]!.marks.flatMap((mark) =>
      mark.kind === 'polygon' && mark.fill ? [mark.fill] : [],
    );
    expect(fills).toHaveLength(4);
    // Black on it stays legible: contrast 7:1 or better (WCAG 2.2, 1.4.6), with relative luminance as defined there.
    for (const fill of fills) {
      const [r, g, b] = [1, 3, 5].map((at) => {
        const v = Number.parseInt(fill.slice(at, at + 2), 16) / 255;
        return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
      });
      expect((0.2126 * r! + 0.7152 * g! + 0.0722 * b! + 0.05) / 0.05).toBeGreaterThan(7);
    }
    const plain = partsOf(print([pennant]).sheets)[0]!.marks;
    expect(plain.some((mark) => mark.kind === 'polygon' && mark.fill)).toBe(false);
    expect(lines(plain, 'hatch')).toEqual([]);
  });
});

describe('a map of tiles', () => {
  it('stands on the sheet where the first tile of each foundation lies, or on the next that has room', () => {
    const { sheets } = print([lighthouse]);
    const firsts = sheets.flatMap((sheet) =>
      textsOf(marksOf(sheet))
        .filter(({ text }) => text.startsWith('Tile 1 of'))
        .map(() => sheet),
    );
    const maps = sheets.flatMap((sheet) =>
      textsOf(marksOf(sheet))
        .filter(({ text }) => text.endsWith(': tiles'))
        .map(() => sheet),
    );
    expect(firsts.length).toBeGreaterThan(1);
    expect(maps).toHaveLength(firsts.length);
    maps.forEach((sheet, i) => {
      const later = sheets.indexOf(sheet) - sheets.indexOf(firsts[i]!);
      expect([0, 1]).toContain(later);
    });
    for (const sheet of sheets) expect(overlappingTexts(marksOf(sheet))).toEqual([]);
  });
});

describe('joins that make everything fit', () => {
  const room = { width: 8, height: 9.3 };
  const ladder = block(
    'ladder',
    'Ladder',
    [
      [0, 0],
      [6, 0],
      [6, 24],
      [0, 24],
    ],
    [4, 8, 12, 16, 20].map((y): [Point, Point] => [
      [0, y],
      [6, y],
    ]),
  );

  it('are found where there are such, and do it', () => {
    const found = joinsThatFit(ladder, room, 0.25)!;
    expect(found.before).toBe(1);
    // 24 in of height in parts of 8 7/8 in at most (9.3 less twice 1/4): three papers, two joins.
    expect(found.after).toBe(3);
    expect(found.cuts).toHaveLength(2);
    const joined = {
      ...ladder,
      cuts: ladder.cuts.map((cut) => (found.cuts.includes(cut.id) ? { ...cut, role: 'join' as const } : cut)),
    };
    for (const { outline } of piece(joined).sections) {
      const ys = outline.map(([, y]) => y);
      expect(Math.max(...ys) - Math.min(...ys) + 0.5).toBeLessThanOrEqual(9.3);
    }
    expect(print([joined]).notes.filter(({ kind }) => kind === 'tiled')).toEqual([]);
  });

  it('are not offered where all fits, or where a patch alone is larger than a sheet', () => {
    expect(joinsThatFit(pennant, room, 0.25)).toBeNull();
    expect(joinsThatFit(block('sail', 'Sail', square(20), []), room, 0.25)).toBeNull();
    expect(joinsThatFit(lighthouse, room, 0.25)).toBeNull();
  });
});

describe('letters of other fonts', () => {
  /** Stands in for a machine's fonts: every text it is asked for is a black box of its measured size. */
  const withBoxes: FullTypeface = {
    ...typeface,
    has: () => true,
    picture: (text, face, size): TextPicture | null => {
      if ([...text].every((letter) => typeface.has(letter.codePointAt(0)!))) return null;
      const { width, up } = typeface.extent(text, face);
      const dots = [Math.round(width * size * 600), Math.round(up * size * 600)] as const;
      return {
        dpi: 600,
        width: dots[0],
        height: dots[1],
        left: 0,
        up: dots[1] / 600,
        grey: new Uint8Array(dots[0] * dots[1]),
      };
    },
  };
  const named: Block = { ...gull, name: '灯台' };

  it.skipIf(!has('pdftoppm'))('come as pictures where the text stands, at 600 dpi', async () => {
    const { sheets, notes } = print([named], { typeface: withBoxes } as never);
    expect(notes).toEqual([]);
    const title = marksOf(sheets[0]!).find((mark) => mark.kind === 'text' && mark.text.includes('灯台'))!;
    if (title.kind !== 'text') throw new Error('no title');
    const pdf = await toPdf(sheets, withBoxes, info);
    const { up, width } = withBoxes.extent(title.text, title.face);
    const picture = renderPdf(pdf, 600);
    const angle = (title.turn * Math.PI) / 180;
    const shade = (along: number, above: number): number => {
      const x = title.at[0] + along * Math.cos(angle) + above * Math.sin(angle);
      const y = title.at[1] + along * Math.sin(angle) - above * Math.cos(angle);
      return picture.at(Math.round(x * 600), Math.round(y * 600));
    };
    const long = width * title.size;
    const high = up * title.size;
    for (const along of [0.02, 0.5, 0.98]) expect(shade(along * long, high / 2)).toBeLessThan(64);
    expect(shade(-0.01, high / 2)).toBeGreaterThan(192);
    expect(shade(long + 0.01, high / 2)).toBeGreaterThan(192);
    expect(shade(long / 2, -0.01)).toBeGreaterThan(192);
    if (has('qpdf'))
      expect(runOn(pdf, 'pdf', 'qpdf', ['--check', '{}']).toString()).toContain('No syntax or stream');
  });

  it('stand as a code, with a note, where there are no other fonts', () => {
    const { sheets, notes } = print([named]);
    expect(notes.map(({ kind }) => kind)).toEqual(['name']);
    expect(
      sheets.flatMap(marksOf).filter((mark) => mark.kind === 'text' && mark.text.includes('灯')),
    ).toEqual([]);
  });
});

describe('what is asked too much of', () => {
  it('2,000 copies, no margin, and patches thinner than their labels are laid out', () => {
    const thin = block('thin', 'Thin', square(3), [
      [
        [1, 0],
        [1, 3],
      ],
      [
        [1.04, 0],
        [1.04, 3],
      ],
    ]);
    const many = print([gull], { copies: 2000 });
    expect(many.foundations).toBe(2000);
    expect(partsOf(many.sheets)).toHaveLength(2000);
    const { sheets, notes } = print([thin], { margin: 0 });
    expect(notes).toEqual([]);
    for (const sheet of sheets) {
      expect(overlappingTexts(marksOf(sheet))).toEqual([]);
      for (const { size } of textsOf(marksOf(sheet))) expect(size).toBeGreaterThanOrEqual(6 * PT - 1e-9);
    }
    const small = print([gull], { page: { name: 'small', width: 2, height: 2 } });
    expect(small.sheets).toEqual([]);
    expect(small.notes.map(({ kind }) => kind)).toEqual(['refused']);
  });
});

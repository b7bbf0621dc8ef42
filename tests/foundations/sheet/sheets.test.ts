import { areaPathsD, EndType, FillRule, inflatePathsD, intersectD, JoinType, type PathsD } from 'clipper2-ts';
import { describe, expect, it } from 'vitest';
import { landscape, PAGES, type Page, readPage } from '../../../src/document/pages.ts';
import { type Mark, type PENS, PT, type TextMark } from '../../../src/foundations/marks.ts';
import { DEFAULT_NESTING } from '../../../src/foundations/sheet/filling.ts';
import { layOutSheets } from '../../../src/foundations/sheet/layout.ts';
import { marksOf, type Sheet } from '../../../src/foundations/sheet/sheet.ts';
import { fontsOf } from '../../../src/foundations/type/fonts.ts';
import type { Point, Ring } from '../../../src/geometry/point.ts';
import type { Block } from '../../../src/piecing/block.ts';
import { piece } from '../../../src/piecing/piece.ts';
import { benchNesting, trianglesAndKites } from '../../bench/nesting.ts';
import { designOf } from '../../designs/designs.ts';
import {
  block,
  calm,
  gull,
  harbour,
  lighthouse,
  net,
  pennant,
  pointsOf,
  print,
  rope,
  square,
  textsOf,
  typeface,
  whirlpool,
  windmill,
} from '../harbour.ts';
import { overlappingTexts } from '../overlaps.ts';

const everything: readonly Block[] = [pennant, gull, calm, windmill, whirlpool, lighthouse, net, rope];

const words = (sheet: Sheet): string[] => textsOf(marksOf(sheet)).map(({ text }) => text);
const sentence = (sheet: Sheet): string => words(sheet).join(' ');

/** Marks that reach into the printer's margin, or off the sheet. */
function outsideMargin(sheet: Sheet, margin: number): Mark[] {
  const slack = 1e-6;
  return marksOf(sheet).filter((mark) =>
    pointsOf(mark).some(
      ([x, y]) =>
        !(x >= margin - slack && y >= margin - slack) ||
        !(x <= sheet.width - margin + slack && y <= sheet.height - margin + slack),
    ),
  );
}

const page = (text: string): Page => {
  const choice = readPage(text);
  if (!choice.ok) throw new Error(choice.error);
  return choice.page;
};

/** The trim lines on a sheet, closed ones. */
const trims = (sheet: Sheet): Ring[] =>
  marksOf(sheet).flatMap((mark) => (mark.kind === 'polygon' && mark.pen === 'trim' ? [mark.ring] : []));

const paths = (ring: Ring): PathsD => [ring.map(([x, y]) => ({ x, y }))];

describe('sheets', () => {
  for (const size of ['letter', 'legal', 'tabloid', 'a4', 'a3', '5x7in', '100x150mm', '24x36in']) {
    for (const margin of [0, 0.25]) {
      it(`of ${size}, margin ${margin} in, print nothing beyond the margin, and no text over another`, () => {
        const { sheets, notes } = print(everything, { page: page(size), margin, copies: 2 });
        expect(sheets.length).toBeGreaterThan(0);
        expect(notes.filter(({ kind }) => kind === 'refused')).toEqual([]);
        for (const sheet of sheets) {
          const upright = page(size);
          expect(
            [upright, landscape(upright)].some((p) => p.width === sheet.width && p.height === sheet.height),
          ).toBe(true);
          expect(outsideMargin(sheet, margin)).toEqual([]);
          expect(overlappingTexts(marksOf(sheet)), sheet.title).toEqual([]);
          for (const mark of textsOf(marksOf(sheet))) expect(mark.size).toBeGreaterThanOrEqual(6 * PT - 1e-9);
        }
      });
    }
  }

  it('carry a 1 in square, a 50 mm line and how to measure on every one', () => {
    for (const sheet of print(everything, { page: page('a4') }).sheets) {
      const marks = marksOf(sheet);
      const squares = marks.flatMap((mark) =>
        mark.kind === 'polygon' && mark.pen === 'measure' ? [mark.ring] : [],
      );
      expect(squares).toHaveLength(1);
      const [a, b, c] = squares[0]!;
      expect(Math.hypot(b![0] - a![0], b![1] - a![1])).toBeCloseTo(1, 9);
      expect(Math.hypot(c![0] - b![0], c![1] - b![1])).toBeCloseTo(1, 9);
      const lengths = marks.flatMap((mark) =>
        mark.kind === 'line' && mark.pen === 'measure'
          ? [Math.hypot(mark.points[1]![0] - mark.points[0]![0], mark.points[1]![1] - mark.points[0]![1])]
          : [],
      );
      // 50 mm, 1 in = 25.4 mm exactly (NBS Circular 572 addendum, 1960).
      expect(Math.max(...lengths) * 25.4).toBeCloseTo(50, 9);
      const text = sentence(sheet);
      expect(text).toContain('Print at actual size, 100%, then measure.');
      expect(text).toContain('A square of 15/16 in (23.9 mm) was shrunk to 94%');
      expect(text).toContain('Printed side: the mirror image of the front.');
      expect(text).toContain('Harbour sampler');
      expect(text).toContain('24 November 2026');
    }
  });

  it('number themselves, and caution on the first only', () => {
    const { sheets } = print(everything);
    sheets.forEach((sheet, i) => {
      expect(sentence(sheet)).toContain(`Sheet ${i + 1} of ${sheets.length}`);
      expect(sentence(sheet).includes('Rotary cutter')).toBe(i === 0);
    });
    for (const word of ['Rotary cutter', 'Iron', 'Needles, pins', 'makers’ instructions'])
      expect(sentence(sheets[0]!)).toContain(word);
  });

  it('hold every foundation in every copy, apart enough to cut between', () => {
    const { sheets, foundations } = print([gull, windmill, pennant], { copies: 5 });
    expect(foundations).toBe(5 * 4);
    const seen = sheets.flatMap(({ parts }) =>
      parts.flatMap(({ paper }) => (paper ? [`${paper.block} ${paper.section} ${paper.copy}`] : [])),
    );
    expect(new Set(seen).size).toBe(20);
    expect(seen).toHaveLength(20);
    for (const sheet of sheets) {
      const rings = trims(sheet);
      rings.forEach((a, i) => {
        for (const b of rings.slice(i + 1)) {
          expect(Math.abs(areaPathsD(intersectD(paths(a), paths(b), FillRule.NonZero, 6)))).toBeLessThan(
            1e-6,
          );
        }
      });
    }
    expect(sheets.reduce((sum, sheet) => sum + trims(sheet).length, 0)).toBe(20);
  });

  it('put several small foundations on one', () => {
    // Ten gulls of 4 1/2 × 2 1/2 in: four fit in 8 × 9 in side by side and turned or not, by area 7.
    const { sheets } = print([gull], { copies: 10 });
    expect(sheets.length).toBeLessThanOrEqual(3);
  });

  it('of one block come copy by copy where that needs no more sheets, whole or in tiles', () => {
    const nesting = { ...DEFAULT_NESTING, together: 'blocks' } as const;
    for (const size of ['letter', '5x7in']) {
      const { sheets } = print([whirlpool, pennant], { copies: 3, page: page(size), nesting });
      const papers = sheets.flatMap(({ parts }) => parts.flatMap(({ paper }) => paper ?? []));
      const found = [...new Set(papers.map(({ block, copy }) => `${block} ${copy}`))];
      expect(found).toEqual(['whirlpool', 'pennant'].flatMap((id) => [1, 2, 3].map((n) => `${id} ${n}`)));
      // A copy is not taken up again once another has begun.
      const order = papers.map(({ block, copy }) => found.indexOf(`${block} ${copy}`));
      expect(order, size).toEqual(order.toSorted((a, b) => a - b));
    }
  });

  it('say on every one what its lines mean, how large its blocks are, and have a line to measure down', () => {
    for (const [size, unit] of [
      ['letter', 'in'],
      ['a4', 'mm'],
      ['5x7in', 'in'],
      ['a3', 'mm'],
    ] as const) {
      const { sheets } = print([windmill, gull, lighthouse], { page: page(size), project: { unit } });
      for (const sheet of sheets) {
        const text = sentence(sheet);
        expect(text).toContain('sew: never cut here');
        expect(text).toContain(
          unit === 'in' ? 'cut, 1/4 in outside the seam' : 'cut, 6.35 mm outside the seam',
        );
        expect(text).toMatch(/pin .*seams meet: match them first .*edges with as many ticks/);
        expect(text).toMatch(/(50|25) mm down/);
        const pens = new Set(marksOf(sheet).map((mark) => (mark.kind === 'text' ? '' : mark.pen)));
        for (const pen of ['sample-seam', 'sample-trim', 'sample-sign']) expect(pens).toContain(pen);
        for (const { paper } of sheet.parts)
          if (paper?.block === 'gull')
            expect(text).toContain(unit === 'in' ? 'Gull 4 × 2 in' : 'Gull 101.6 × 50.8 mm');
      }
    }
    const bare = print([gull], { project: { seamAllowance: 0 } }).sheets[0]!;
    expect(sentence(bare)).toContain('no allowance is drawn');
    // One foundation has no edges to join.
    expect(sentence(bare)).not.toContain('ticks');
  });

  it('let what fills a sheet from margin to margin stand whole', () => {
    // 7 1/2 in finished is 8 in with its allowance: exactly the width between the margins of a Letter page.
    const buoy = block('buoy', 'Buoy', square(7.5), [
      [
        [0, 3],
        [7.5, 3],
      ],
    ]);
    const { sheets, notes } = print([buoy]);
    expect(notes).toEqual([]);
    expect(sheets.map((sheet) => trims(sheet).length)).toEqual([1]);
    expect(sentence(sheets[0]!)).toContain('50 mm down');
  });

  it('lie down where that needs fewer', () => {
    const pier = block(
      'pier',
      'Pier',
      [
        [0, 0],
        [9.5, 0],
        [9.5, 2.5],
        [0, 2.5],
      ],
      [
        [
          [5, 0],
          [5, 2.5],
        ],
      ],
    );
    const { sheets } = print([pier], { copies: 2 });
    expect(sheets).toHaveLength(1);
    const wide = print([
      block(
        'quay',
        'Quay',
        [
          [0, 0],
          [9.8, 0],
          [9.8, 6],
          [0, 6],
        ],
        [
          [
            [5, 0],
            [5, 6],
          ],
        ],
      ),
    ]);
    expect(wide.sheets[0]!.width).toBe(11);
    expect(wide.notes).toEqual([]);
  });

  it('show which side they are, and a front view that is never mirrored', () => {
    const printed = print([pennant], { side: 'printed' }).sheets[0]!;
    const front = print([pennant], { side: 'front' }).sheets[0]!;
    expect(sentence(front)).toContain('not mirrored');
    const picture = (sheet: Sheet): Ring[] =>
      marksOf(sheet).flatMap((mark) => (mark.kind === 'polygon' && mark.pen === 'rule' ? [mark.ring] : []));
    // The same picture on both, and its staff (2 of 6 in wide) on the left.
    expect(picture(printed)).toEqual(picture(front));
    const xs = picture(printed).map((ring) => ring.map((p) => p[0]));
    const left = Math.min(...xs.flat());
    const width = Math.max(...xs.flat()) - left;
    const staff = xs.find((ring) => Math.max(...ring) - left < 0.4 * width);
    expect(Math.max(...staff!) - left).toBeCloseTo(width / 3, 6);
  });

  it('use fonts that have every letter they print', () => {
    const project = {
      name: '灯台の見本',
      fabrics: [
        { id: 'f1', name: '赤い屋根', color: '#a6322b' },
        { id: 'f2', name: 'ضوء المنارة', color: '#f3c24d' },
        { id: 'f3', name: 'Żółć gęślą jaźń', color: '#264f79' },
      ],
    };
    const named: Block[] = [
      { ...pennant, name: 'Wimpel 旗' },
      { ...gull, name: '鷗' },
    ];
    const { sheets, notes } = print(named, { project });
    for (const sheet of sheets) {
      for (const { text } of textsOf(marksOf(sheet)))
        for (const letter of text) expect(typeface.has(letter.codePointAt(0)!), text).toBe(true);
    }
    const all = sheets.map(sentence).join(' ');
    expect(all).toContain('Żółć gęślą jaźń');
    expect(all).toContain('Wimpel ·, section A');
    expect(all).toContain('Block 2, section A');
    expect(all).toContain('#1');
    expect(notes.filter(({ kind }) => kind === 'name')).toHaveLength(5);
    for (const { message } of notes) expect(message).toMatch(/^[^\n]+\.$/);
  });

  it('explain every code they show, also that of a name of 300 letters', () => {
    const long = 'Rope '.repeat(60).trim();
    const fabrics = harbour.fabrics.map((fabric) =>
      fabric.id === 'f2' ? { ...fabric, name: long } : fabric,
    );
    const { sheets } = print([pennant], { project: { fabrics } });
    const all = sheets.map(sentence).join(' ');
    expect(all).toMatch(/#2/);
    expect(all).toMatch(/#2 Rope Rope/);
    expect(all).toContain('…');
  });

  it('show the front of each of three blocks whose papers share a sheet', () => {
    const small = ['Anchor', 'Buoy', 'Cleat'].map((name) =>
      block(name, name, square(2), [
        [
          [1, 0],
          [1, 2],
        ],
      ]),
    );
    const { sheets } = print(small);
    expect(sheets).toHaveLength(1);
    for (const { name } of small) expect(sentence(sheets[0]!)).toContain(`Front: ${name}`);
  });

  it('give a block and a project of 300 letters a title that fits', () => {
    const long = 'Lighthouse '.repeat(30).trim();
    const { sheets } = print([{ ...gull, name: long }], { project: { name: long } });
    expect(outsideMargin(sheets[0]!, 0.25)).toEqual([]);
    expect(sentence(sheets[0]!)).toMatch(/Lighthouse.*…,? (section )?A/);
  });

  it('set every text as long as it was measured', () => {
    for (const sheet of print(everything).sheets) {
      for (const { text, face, size, width } of textsOf(marksOf(sheet))) {
        const font = fontsOf(typeface)[face];
        const run = font.layout(text).advanceWidth / font.unitsPerEm;
        // Kerning across a blank is the only difference between a line and its words.
        expect(Math.abs(run * size - width)).toBeLessThan(0.01 * width + 1e-9);
      }
    }
  });

  it('say why nothing is printed', () => {
    const none = print([]);
    expect(none.sheets).toEqual([]);
    expect(none.notes).toHaveLength(1);
    const bowTie = block(
      'knot',
      'Knot',
      [
        [0, 0],
        [4, 4],
        [4, 0],
        [0, 4],
      ],
      [],
    );
    const broken = print([bowTie, gull]);
    expect(broken.notes.map(({ kind, block: id }) => [kind, id])).toEqual([['refused', 'knot']]);
    expect(broken.sheets).toHaveLength(1);
    const wide = print([gull], { margin: 4 });
    expect(wide.sheets).toEqual([]);
    expect(wide.notes.map(({ kind }) => kind)).toEqual(['refused']);
  });

  it('refuse what would need more paper than anyone can cut', () => {
    const sea = block('sea', 'Open sea', square(990), []);
    const { sheets, notes } = print([sea], { copies: 2 });
    expect(sheets).toEqual([]);
    expect(notes.map(({ kind }) => kind)).toEqual(['refused']);
    // A large one is still printed: 10 ft square comes in tiles of 8 in at most, 1/2 in shared.
    expect(print([block('sail', 'Sail', square(120), [])]).sheets.length).toBeGreaterThanOrEqual(16 * 13);
  });

  it('refuse a plan that breaks the sewing rule, and print the others', () => {
    const plan = piece(windmill);
    // All eight patches on one paper in an order that cannot be sewn.
    const wrong = {
      ...plan,
      joins: [],
      patches: plan.patches.map((patch) => ({ ...patch, section: 'A' })),
      sections: [{ ...plan.sections[0]!, outline: square(6), order: plan.patches.map(({ id }) => id) }],
    };
    const layout = layOutSheets(
      {
        project: { ...harbour, blocks: [windmill, gull] },
        jobs: [
          { block: windmill, plan: wrong, copies: 1, isMirrored: false },
          { block: gull, plan: piece(gull), copies: 1, isMirrored: false },
        ],
      },
      { page: PAGES.letter, margin: 0.25, side: 'printed', printedOn: 'today', typeface },
    );
    expect(layout.notes.map(({ kind, block: id }) => [kind, id])).toEqual([['refused', 'windmill']]);
    expect(layout.foundations).toBe(1);
  });

  it('come out alike each time', () => {
    const marks = (): unknown => print(everything, { copies: 2 }).sheets.map(marksOf);
    expect(marks()).toEqual(marks());
  });

  it('take allowances from nothing to 2 in', () => {
    for (const seamAllowance of [0, 0.05, 0.125, 0.375, 2]) {
      const { sheets } = print([pennant, windmill, gull], { project: { seamAllowance } });
      for (const sheet of sheets) {
        expect(outsideMargin(sheet, 0.25)).toEqual([]);
        expect(overlappingTexts(marksOf(sheet))).toEqual([]);
      }
    }
  });

  it('of 40 random designs stay inside the margins', () => {
    for (let seed = 500; seed < 540; seed++) {
      const { block: design } = designOf(seed);
      for (const sheet of print([design]).sheets) {
        expect(outsideMargin(sheet, 0.25), `seed ${seed}`).toEqual([]);
        expect(overlappingTexts(marksOf(sheet)), `seed ${seed}`).toEqual([]);
      }
    }
  });
});

describe('nested papers', () => {
  const nestings = (['quarters', 'free'] as const).flatMap((turning) =>
    (['fewest', 'blocks', 'sections'] as const).map((together) => ({ turning, together, effort: 2e6 })),
  );
  /** Clipper2: the trim lines on a sheet, grown by nearly half the cutting gap of 1/8 in, have nothing in common. */
  const overlaps = (sheet: Sheet): number => {
    const grown = trims(sheet).map((ring) =>
      inflatePathsD(
        areaPathsD(paths(ring)) < 0 ? paths([...ring].reverse()) : paths(ring),
        1 / 16 - 1e-3,
        JoinType.Round,
        EndType.Polygon,
        2,
        4,
      ),
    );
    return grown.reduce(
      (sum, a, i) =>
        sum +
        grown
          .slice(i + 1)
          .reduce((more, b) => more + Math.abs(areaPathsD(intersectD(a, b, FillRule.NonZero, 4))), 0),
      0,
    );
  };

  for (const nesting of nestings) {
    it(`turned ${nesting.turning}, ${nesting.together} together, are all there, apart and inside the margins`, () => {
      const blocks = [windmill, gull, pennant, whirlpool];
      const { sheets, foundations } = print(blocks, { copies: 5, nesting });
      expect(sheets.reduce((sum, sheet) => sum + trims(sheet).length, 0)).toBe(foundations);
      for (const sheet of sheets) {
        expect(overlaps(sheet)).toBeLessThan(1e-4);
        expect(outsideMargin(sheet, 0.25)).toEqual([]);
        expect(overlappingTexts(marksOf(sheet))).toEqual([]);
        const papers = sheet.parts.flatMap(({ paper }) => paper ?? []);
        if (nesting.together !== 'fewest')
          expect(new Set(papers.map(({ block: id }) => id)).size).toBeLessThanOrEqual(1);
        if (nesting.together === 'sections')
          expect(new Set(papers.map(({ section }) => section)).size).toBeLessThanOrEqual(1);
      }
    });
  }

  it('of triangles need a tenth fewer sheets than boxes laid in levels or by maximal rectangles', () => {
    for (const count of [60, 120]) {
      const row = benchNesting(trianglesAndKites(7, count), 2e7);
      expect(row.nested).toBeGreaterThanOrEqual(row.bound);
      expect(row.nested).toBeLessThanOrEqual(0.9 * Math.min(row.levels, row.maxRects));
    }
  });
});

describe('a foundation larger than a sheet', () => {
  const layout = print([lighthouse]);
  const tiles = layout.sheets.flatMap((sheet) =>
    sheet.parts.flatMap(({ paper, marks }) => (paper ? [{ paper, marks }] : [])),
  );
  const textOf = (marks: readonly Mark[]): string =>
    textsOf(marks)
      .map((mark: TextMark) => mark.text)
      .join(' ');

  it('is told in a note, and each tile says which it is', () => {
    expect(layout.notes.filter(({ kind }) => kind === 'tiled').length).toBeGreaterThan(0);
    for (const { marks } of tiles) expect(textOf(marks)).toMatch(/Tile \d+ of \d+ \(row \d+, column \d+\)/);
  });

  it('shows every stretch of its lines on some tile, at the length it has', () => {
    // A Tabloid page is large enough for the whole: the same lines, undivided.
    const whole = print([lighthouse], { page: PAGES.tabloid });
    expect(whole.notes).toEqual([]);
    for (const { letter } of piece(lighthouse).sections) {
      const undivided = whole.sheets
        .flatMap(({ parts }) => parts)
        .find(({ paper }) => paper?.section === letter)!;
      const own = tiles.filter(({ paper }) => paper.section === letter);
      expect(own.length).toBeGreaterThan(1);
      for (const pen of ['edge', 'seam', 'trim'] as const) {
        const total = lengthOf(undivided.marks, pen);
        const shown = own.reduce((sum, { marks }) => sum + lengthOf(marks, pen), 0);
        // What lies in the overlap of 1/2 in is shown twice, and nothing is missing.
        expect(shown).toBeGreaterThanOrEqual(total - 1e-6);
        expect(shown).toBeLessThanOrEqual(
          total + linesAcross(undivided.marks, pen) * 0.75 * (own.length - 1) + 1e-6,
        );
      }
    }
  });

  it('has alignment crosses at the same spot of the drawing on both tiles, and the dotted line on the later only', () => {
    for (const { letter } of piece(lighthouse).sections) {
      const own = tiles.filter(({ paper }) => paper.section === letter);
      expect(
        own.map(
          ({ marks }) => marks.filter((mark) => mark.kind === 'line' && mark.pen === 'tile-trim').length,
        ),
      ).toEqual(own.map((_, i) => (i === 0 ? 0 : 1)));
      const crosses = own.map(({ marks }) =>
        marks.flatMap((mark): Point[] =>
          mark.kind === 'line' && mark.pen === 'tile-cross' && mark.points[0]![1] === mark.points[1]![1]
            ? [[(mark.points[0]![0] + mark.points[1]![0]) / 2, mark.points[0]![1]]]
            : [],
        ),
      );
      expect(crosses[0]!).toHaveLength(2);
      expect(crosses[1]!).toHaveLength(2);
      // On both tiles at the same height, and 1/4 in from the sides of the overlap.
      expect(crosses[0]!.map((p) => p[1])).toEqual(crosses[1]!.map((p) => p[1]));
      for (const [x] of crosses[1]!) expect(x).toBeCloseTo(0.25, 9);
    }
  });

  it('keeps every text whole on each tile that shows it', () => {
    for (const { marks } of tiles) {
      const drawn = marks.filter((mark) => mark.kind !== 'text').flatMap(pointsOf);
      const right = Math.max(...drawn.map((p) => p[0]));
      for (const mark of textsOf(marks))
        for (const [x] of pointsOf(mark)) expect(x).toBeLessThanOrEqual(right + 1e-6);
    }
    const all = tiles.map(({ marks }) => textOf(marks)).join(' ');
    for (const { id } of piece(lighthouse).patches) expect(all.split(' ')).toContain(id);
  });
});

function lengthOf(marks: readonly Mark[], pen: keyof typeof PENS): number {
  return marks.reduce((sum, mark) => {
    if (mark.kind === 'text' || mark.kind === 'circle' || mark.pen !== pen) return sum;
    const points = mark.kind === 'polygon' ? [...mark.ring, mark.ring[0]!] : mark.points;
    return (
      sum +
      points
        .slice(1)
        .reduce((length, p, i) => length + Math.hypot(p[0] - points[i]![0], p[1] - points[i]![1]), 0)
    );
  }, 0);
}

const linesAcross = (marks: readonly Mark[], pen: keyof typeof PENS): number =>
  marks.reduce(
    (count, mark) =>
      mark.kind === 'text' || mark.kind === 'circle' || mark.pen !== pen
        ? count
        : count + (mark.kind === 'polygon' ? mark.ring.length : 1),
    0,
  );

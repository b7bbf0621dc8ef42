import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { PAGES, type Page } from '../../src/document/pages.ts';
import type { Block, Project } from '../../src/document/project.ts';
import { type Mark, type TextMark, textCorners } from '../../src/foundations/marks.ts';
import { layOutSheets } from '../../src/foundations/sheet/layout.ts';
import type { SheetLayout, SheetOptions } from '../../src/foundations/sheet/sheet.ts';
import { withShaping } from '../../src/foundations/type/fonts.ts';
import { type FullTypeface, openTypeface } from '../../src/foundations/type/typeface.ts';
import type { Point, Ring } from '../../src/geometry/point.ts';
import type { Cut } from '../../src/piecing/block.ts';
import { piece } from '../../src/piecing/piece.ts';
import { entriesAt } from '../designs/entries.ts';

const fontFile = (file: string): Uint8Array =>
  readFileSync(createRequire(import.meta.url).resolve(`@expo-google-fonts/source-sans-3/${file}`));

/** The typeface of the papers, with nothing set in it yet. */
export const freshTypeface = (): FullTypeface =>
  withShaping(openTypeface(), {
    regular: fontFile('400Regular/SourceSans3_400Regular.ttf'),
    semibold: fontFile('600SemiBold/SourceSans3_600SemiBold.ttf'),
  });

export const typeface = freshTypeface();

export const square = (side: number): Ring => [
  [0, 0],
  [side, 0],
  [side, side],
  [0, side],
];

export const block = (
  id: string,
  name: string,
  outline: Ring,
  lines: readonly (readonly [Point, Point])[],
  paint: Parameters<typeof entriesAt>[0] = [],
): Block => ({
  id,
  name,
  outline,
  cuts: lines.map(([from, to], i): Cut => ({ id: `${id}-${i}`, from, to, role: 'auto' })),
  patches: entriesAt(paint),
});

/** A pennant on its staff: one foundation, and no mirror image of itself. 6 in square. */
export const pennant = block(
  'pennant',
  'Pennant',
  square(6),
  [
    [
      [2, 0],
      [2, 6],
    ],
    [
      [2, 1],
      [6, 2.5],
    ],
    [
      [2, 4],
      [6, 2.5],
    ],
  ],
  [
    { at: [1, 3], fabric: 'f1' },
    { at: [3, 2.5], fabric: 'f2' },
    { at: [5, 1], fabric: 'f3' },
    { at: [5, 5], fabric: 'f3' },
  ],
);

/** Three gulls in a row: three patches on one foundation. */
export const gull = block(
  'gull',
  'Gull',
  [
    [0, 0],
    [4, 0],
    [4, 2],
    [0, 2],
  ],
  [
    [
      [0, 2],
      [2, 0],
    ],
    [
      [2, 0],
      [4, 2],
    ],
  ],
);

/** One patch, nothing to sew. */
export const calm = block('calm', 'Calm sea', square(3), []);

/** Eight patches round a middle where all seams meet: two foundations and a match point. */
export const windmill = block('windmill', 'Windmill', square(6), [
  [
    [3, 0],
    [3, 6],
  ],
  [
    [0, 3],
    [6, 3],
  ],
  [
    [0, 0],
    [6, 6],
  ],
  [
    [6, 0],
    [0, 6],
  ],
]);

/** Five boards round a middle: a ring that only a set-in seam can close. */
export const whirlpool = block('whirlpool', 'Whirlpool', square(6), [
  [
    [2, 0],
    [2, 4],
  ],
  [
    [2, 2],
    [6, 2],
  ],
  [
    [4, 2],
    [4, 6],
  ],
  [
    [0, 4],
    [4, 4],
  ],
]);

/** 12 in: several foundations, each too long for a Letter sheet. */
export const lighthouse = block(
  'lighthouse',
  'Lighthouse',
  square(12),
  [
    [
      [0, 2.25],
      [12, 2.25],
    ],
    [
      [0, 3.25],
      [12, 3.25],
    ],
    [
      [6, 0.75],
      [5, 2.25],
    ],
    [
      [6, 0.75],
      [7, 2.25],
    ],
    [
      [5.5, 0],
      [6, 0.75],
    ],
    [
      [5, 2.25],
      [5, 3.25],
    ],
    [
      [7, 2.25],
      [7, 3.25],
    ],
    [
      [4.75, 3.25],
      [4, 8.5],
    ],
    [
      [7.25, 3.25],
      [8, 8.5],
    ],
    [
      [0, 8.5],
      [12, 8.5],
    ],
    [
      [0, 9.5],
      [12, 9],
    ],
  ],
  [
    { at: [1, 1], fabric: 'f1' },
    { at: [6, 1.8], fabric: 'f2' },
    { at: [6, 2.7], fabric: 'f3' },
    { at: [6, 5], fabric: 'f2' },
    { at: [1, 11], fabric: 'f4' },
  ],
);

/** A net of 144 half-inch squares in twelve strips. */
export const net = block(
  'net',
  'Net',
  square(6),
  Array.from({ length: 11 }, (_, i) => (i + 1) / 2).flatMap((at): [Point, Point][] => [
    [
      [at, 0],
      [at, 6],
    ],
    [
      [0, at],
      [6, at],
    ],
  ]),
);

/** Sixty strands a tenth of an inch wide: too narrow for upright type. */
export const rope = block(
  'rope',
  'Rope',
  square(6),
  Array.from({ length: 59 }, (_, i): [Point, Point] => [
    [(i + 1) / 10, 0],
    [(i + 1) / 10, 6],
  ]),
  Array.from({ length: 60 }, (_, i) => ({ at: [i / 10 + 0.05, 3] as const, fabric: `f${(i % 4) + 1}` })),
);

export const harbour: Project = {
  name: 'Harbour sampler',
  unit: 'in',
  seamAllowance: 0.25,
  fabrics: [
    { id: 'f1', name: 'Morning sky', color: '#8fb2cc' },
    { id: 'f2', name: 'Signal red', color: '#a6322b' },
    { id: 'f3', name: 'Lamp yellow', color: '#f3c24d' },
    { id: 'f4', name: 'Night sea', color: '#264f79' },
  ],
  blocks: [pennant, gull, calm, windmill, whirlpool, lighthouse, net, rope],
};

export interface PrintOptions extends Partial<SheetOptions> {
  readonly copies?: number;
  readonly project?: Partial<Project>;
}

/** Lays out some blocks of the harbour with their real plans. */
export function print(blocks: readonly Block[], options: PrintOptions = {}): SheetLayout {
  const { copies = 1, project, ...rest } = options;
  return layOutSheets(
    {
      project: { ...harbour, blocks, ...project },
      jobs: blocks.map((one) => ({ block: one, plan: piece(one), copies, isMirrored: false })),
    },
    {
      page: PAGES.letter as Page,
      margin: 0.25,
      side: 'printed',
      printedOn: '24 November 2026',
      typeface,
      ...rest,
    },
  );
}

export const textsOf = (marks: readonly Mark[]): TextMark[] => marks.filter((mark) => mark.kind === 'text');

/** The corners of a text's ink. */
export function inkCorners(mark: TextMark): readonly Point[] {
  const { up, down } = typeface.extent(mark.text, mark.face);
  return textCorners(mark, up * mark.size, down * mark.size);
}

/** All points a mark is drawn through or around. */
export function pointsOf(mark: Mark): readonly Point[] {
  switch (mark.kind) {
    case 'line':
      return mark.points;
    case 'polygon':
      return mark.ring;
    case 'circle':
      return [
        [mark.at[0] - mark.radius, mark.at[1] - mark.radius],
        [mark.at[0] + mark.radius, mark.at[1] + mark.radius],
      ];
    case 'text':
      return inkCorners(mark);
  }
}

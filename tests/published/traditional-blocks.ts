import type { Point, Segment } from '../../src/geometry/point.ts';
import type { Block } from '../../src/piecing/block.ts';

/**
 * Traditional patchwork blocks, older than any copyright, as plain geometry on a unit grid, front view, y down.
 * How each is drawn is common practice. Patches are counted faces. Whether all sew on one foundation, and the
 * fewest foundations that straight full seams unite, were computed by two independent exhaustive searches that
 * agree on every block; `null` means that no straight seams will do.
 */
export interface TraditionalBlock {
  readonly name: string;
  readonly width: number;
  readonly height: number;
  /** `x1,y1-x2,y2`, one for each cut, parted by spaces. */
  readonly cuts: string;
  readonly patches: number;
  readonly oneFoundation: boolean;
  readonly fewest: number | null;
  readonly why: string;
}

const CHURN_CORNERS = '1,0-0,1 2,0-3,1 3,2-2,3 1,3-0,2';

export const TRADITIONAL_BLOCKS: readonly TraditionalBlock[] = [
  {
    name: 'Half-square triangle',
    width: 1,
    height: 1,
    cuts: '0,1-1,0',
    patches: 2,
    oneFoundation: true,
    fewest: 1,
    why: 'two patches share one seam',
  },
  {
    name: 'Quarter-square triangle',
    width: 2,
    height: 2,
    cuts: '0,0-2,2 0,2-2,0',
    patches: 4,
    oneFoundation: false,
    fewest: 2,
    why: 'each triangle touches two others along two lines; part along a diagonal',
  },
  {
    name: 'Rail fence',
    width: 3,
    height: 3,
    cuts: '1,0-1,3 2,0-2,3',
    patches: 3,
    oneFoundation: true,
    fewest: 1,
    why: 'side by side',
  },
  {
    name: 'Four patch',
    width: 2,
    height: 2,
    cuts: '1,0-1,2 0,1-2,1',
    patches: 4,
    oneFoundation: false,
    fewest: 2,
    why: 'two full seams cross',
  },
  {
    name: 'Nine patch',
    width: 3,
    height: 3,
    cuts: '1,0-1,3 2,0-2,3 0,1-3,1 0,2-3,2',
    patches: 9,
    oneFoundation: false,
    fewest: 3,
    why: 'three rows; no foundation holds four squares round a crossing',
  },
  {
    name: 'Flying geese',
    width: 2,
    height: 1,
    cuts: '0,1-1,0 1,0-2,1',
    patches: 3,
    oneFoundation: true,
    fewest: 1,
    why: 'goose first, then each sky',
  },
  {
    name: 'Three flying geese',
    width: 2,
    height: 3,
    cuts: '0,1-1,0 1,0-2,1 0,2-1,1 1,1-2,2 0,3-1,2 1,2-2,3 0,1-2,1 0,2-2,2',
    patches: 9,
    oneFoundation: true,
    fewest: 1,
    why: 'each goose after the skies of the one before, along its own base line',
  },
  {
    name: 'Pinwheel',
    width: 2,
    height: 2,
    cuts: '1,0-1,2 0,1-2,1 0,0-2,2 0,2-2,0',
    patches: 8,
    oneFoundation: false,
    fewest: 2,
    why: 'eight wedges at a spot, parted into two fans of four',
  },
  {
    name: 'Square in a square',
    width: 4,
    height: 4,
    cuts: '2,0-4,2 4,2-2,4 2,4-0,2 0,2-2,0',
    patches: 5,
    oneFoundation: true,
    fewest: 1,
    why: 'the centre, then four corners',
  },
  {
    name: 'Economy',
    width: 4,
    height: 4,
    cuts: '2,0-4,2 4,2-2,4 2,4-0,2 0,2-2,0 1,1-3,1 3,1-3,3 3,3-1,3 1,3-1,1',
    patches: 9,
    oneFoundation: true,
    fewest: 1,
    why: 'the centre, then four corners, twice',
  },
  {
    name: 'Snowball',
    width: 4,
    height: 4,
    cuts: '1,0-0,1 3,0-4,1 4,3-3,4 1,4-0,3',
    patches: 5,
    oneFoundation: true,
    fewest: 1,
    why: 'the centre, then four corners',
  },
  {
    name: 'Diamond in a rectangle',
    width: 4,
    height: 2,
    cuts: '2,0-4,1 4,1-2,2 2,2-0,1 0,1-2,0',
    patches: 5,
    oneFoundation: true,
    fewest: 1,
    why: 'the diamond, then four corners',
  },
  {
    name: 'Shoofly',
    width: 3,
    height: 3,
    cuts: `1,0-1,3 2,0-2,3 0,1-3,1 0,2-3,2 ${CHURN_CORNERS}`,
    patches: 13,
    oneFoundation: false,
    fewest: 3,
    why: 'three rows',
  },
  {
    name: 'Churn dash',
    width: 3,
    height: 3,
    cuts: `1,0-1,3 2,0-2,3 0,1-3,1 0,2-3,2 ${CHURN_CORNERS} 1,0.5-2,0.5 1,2.5-2,2.5 0.5,1-0.5,2 2.5,1-2.5,2`,
    patches: 17,
    oneFoundation: false,
    fewest: 3,
    why: 'three rows',
  },
  {
    name: 'Sawtooth star',
    width: 4,
    height: 4,
    cuts: '1,0-1,4 3,0-3,4 0,1-4,1 0,3-4,3 1,0-2,1 2,1-3,0 1,4-2,3 2,3-3,4 0,1-1,2 1,2-0,3 4,1-3,2 3,2-4,3',
    patches: 17,
    oneFoundation: false,
    fewest: 4,
    why: 'top and bottom rows with their corners, and the middle row in two',
  },
  {
    name: 'Log cabin',
    width: 7,
    height: 7,
    cuts: '1,0-1,7 1,6-7,6 6,0-6,6 1,1-6,1 2,1-2,6 2,5-6,5 5,1-5,5 2,2-5,2 3,2-3,5 3,4-5,4 4,2-4,4 3,3-4,3',
    patches: 13,
    oneFoundation: true,
    fewest: 1,
    why: 'round and round, each log over the ends of those before',
  },
  {
    name: 'Courthouse steps',
    width: 7,
    height: 7,
    cuts: '1,0-1,7 6,0-6,7 1,1-6,1 1,6-6,6 2,1-2,6 5,1-5,6 2,2-5,2 2,5-5,5 3,2-3,5 4,2-4,5 3,3-4,3 3,4-4,4',
    patches: 13,
    oneFoundation: true,
    fewest: 1,
    why: 'on two sides by turns',
  },
  {
    name: 'Pineapple',
    width: 16,
    height: 16,
    cuts: [
      '11,16-16,11 0,11-5,16 0,5-5,0 11,0-16,5 14,3-14,13 3,14-13,14 2,3-2,13 3,2-13,2',
      '9,14-14,9 2,9-7,14 2,7-7,2 9,2-14,7 12,5-12,11 5,12-11,12 4,5-4,11 5,4-11,4',
      '8,12-12,8 4,8-8,12 4,8-8,4 8,4-12,8 10,6-10,10 6,10-10,10 6,6-6,10 6,6-10,6',
    ].join(' '),
    patches: 25,
    oneFoundation: true,
    fewest: 1,
    why: 'the centre, then corners and sides by turns',
  },
  {
    name: "Dutchman's puzzle",
    width: 4,
    height: 4,
    cuts: [
      '2,0-2,4 0,2-4,2 1,0-1,2 2,1-4,1 3,2-3,4 0,3-2,3 0,0-1,1 1,1-0,2 1,0-2,1 2,1-1,2 2,0-3,1',
      '3,1-4,0 2,1-3,2 3,2-4,1 4,2-3,3 3,3-4,4 3,2-2,3 2,3-3,4 0,4-1,3 1,3-2,4 0,3-1,2 1,2-2,3',
    ].join(' '),
    patches: 24,
    oneFoundation: false,
    fewest: 4,
    why: 'four pairs of geese',
  },
  {
    name: 'Attic window',
    width: 3,
    height: 3,
    cuts: '1,0-1,2 1,2-3,2 0,3-1,2',
    patches: 3,
    oneFoundation: false,
    fewest: null,
    why: 'a set-in corner: three patches meet at a spot along three lines, none of which runs through',
  },
  {
    name: 'Spiral of five',
    width: 3,
    height: 3,
    cuts: '2,0-2,2 1,2-3,2 1,1-1,3 0,1-2,1',
    patches: 5,
    oneFoundation: false,
    fewest: null,
    why: 'the smallest ring: four rectangles round a square, each held by the next; sewn with a partial seam',
  },
];

const pointOf = (text: string): Point => {
  const [x, y] = text.split(',').map(Number);
  return [x!, y!];
};

/** The block at a size: `scale` inches a grid unit. */
export function blockOf(traditional: TraditionalBlock, scale: number): Block {
  const { name, width, height } = traditional;
  const grow = ([x, y]: Point): Point => [x * scale, y * scale];
  const corners: readonly Point[] = [
    [0, 0],
    [width, 0],
    [width, height],
    [0, height],
  ];
  return {
    id: name.toLowerCase().replaceAll(/[^a-z]+/g, '-'),
    name,
    outline: corners.map(grow),
    cuts: traditional.cuts.split(' ').map((cut, i) => {
      const [from, to] = cut.split('-').map(pointOf) as unknown as Segment;
      return { id: `c${i + 1}`, from: grow(from), to: grow(to), role: 'auto' as const };
    }),
    patches: [],
  };
}

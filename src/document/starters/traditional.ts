import type { Point } from '../../geometry/point.ts';
import { phrase } from '../../words/phrase.ts';
import { fixed, type Starter } from './starter.ts';
import {
  cutCorners,
  fourFold,
  fourPatch,
  goose,
  half,
  moved,
  quarters,
  rectangle,
  type Side,
  type Tile,
  tile,
  turned,
} from './tiles.ts';

/**
 * Traditional blocks, older than any copyright, drawn as common practice has them, each on the smallest grid
 * that holds all its corners.
 */

/** Squares of one unit, row by row: `.` light, `:` medium, `#` dark, a blank for nothing. */
function squares(...rows: readonly string[]): readonly Tile[] {
  const tones = { '.': 'light', ':': 'medium', '#': 'dark' } as const;
  return rows.flatMap((row, y) =>
    [...row].flatMap((sign, x) =>
      sign in tones ? [rectangle(tones[sign as keyof typeof tones], x, y, 1)] : [],
    ),
  );
}

/** Four strips' worth of rail: three strips in a square of 3. */
const rail = (): readonly Tile[] => [
  rectangle('dark', 0, 0, 1, 3),
  rectangle('medium', 1, 0, 1, 3),
  rectangle('light', 2, 0, 1, 3),
];

/** Two geese, one after the other, in a square of 2. */
const twoGeese = (towards: Side): readonly Tile[] =>
  towards === 'n' || towards === 's'
    ? [...goose('dark', 'light', towards, 0, 0, 2, 1), ...goose('medium', 'light', towards, 0, 1, 2, 1)]
    : [...goose('dark', 'light', towards, 0, 0, 1, 2), ...goose('medium', 'light', towards, 1, 0, 1, 2)];

/** Four halved squares that meet as two cups, in a square of 2. */
const dishes: readonly Tile[] = [
  ...half('dark', 'light', 'ne', 0, 0),
  ...half('dark', 'light', 'nw', 1, 0),
  ...half('dark', 'light', 'sw', 1, 1),
  ...half('dark', 'light', 'se', 0, 1),
];

/** Square in a square in a square, of side 4 or, with `side`, any. */
const squareInSquareTwice = (x: number, y: number, side: number): readonly Tile[] => [
  ...cutCorners('light', 'dark', x, y, side, side, side / 2).slice(1),
  tile('light', [x + side / 2, y], [x + (3 * side) / 4, y + side / 4], [x + side / 4, y + side / 4]),
  tile(
    'light',
    [x + side, y + side / 2],
    [x + (3 * side) / 4, y + (3 * side) / 4],
    [x + (3 * side) / 4, y + side / 4],
  ),
  tile(
    'light',
    [x + side / 2, y + side],
    [x + side / 4, y + (3 * side) / 4],
    [x + (3 * side) / 4, y + (3 * side) / 4],
  ),
  tile('light', [x, y + side / 2], [x + side / 4, y + side / 4], [x + side / 4, y + (3 * side) / 4]),
  rectangle('medium', x + side / 4, y + side / 4, side / 2),
];

/** One paw of a bear in the top left corner: the pad, four claws, and the corner between them. */
const paw: readonly Tile[] = [
  rectangle('dark', 1, 1, 2),
  rectangle('light', 0, 0, 1),
  ...half('dark', 'light', 'se', 1, 0),
  ...half('dark', 'light', 'se', 2, 0),
  ...half('dark', 'light', 'se', 0, 1),
  ...half('dark', 'light', 'se', 0, 2),
];

/** A nine patch of three units' side, its corners and centre dark. */
const smallNinePatch: readonly Tile[] = squares('#.#', '.#.', '#.#');

function lemoyneStar(): readonly Tile[] {
  // Eight diamonds of side 1 from the centre of a square of side 2 + sqrt(2).
  const middle = 1 + Math.SQRT1_2;
  const at = (turn: number, far: number): Point => [
    middle + far * Math.cos((turn * Math.PI) / 4),
    middle - far * Math.sin((turn * Math.PI) / 4),
  ];
  const centre: Point = [middle, middle];
  const tip = (turn: number): Point => {
    const [a, b] = [at(turn, 1), at(turn + 1, 1)];
    return [a[0] + b[0] - middle, a[1] + b[1] - middle];
  };
  const side = 2 * middle;
  const first: readonly Tile[] = [
    tile('dark', centre, at(0, 1), tip(0), at(1, 1)),
    tile('medium', centre, at(1, 1), tip(1), at(2, 1)),
    tile('light', at(1, 1), tip(0), [side, 0], tip(1)),
    tile('light', at(2, 1), tip(1), tip(2)),
  ];
  return fourFold(first, side);
}

function babysBlocks(): { readonly ring: readonly Point[]; readonly tiles: readonly Tile[] } {
  const high = Math.sqrt(3) / 2;
  const ring: readonly Point[] = [
    [0.5, 0],
    [1.5, 0],
    [2, high],
    [1.5, 2 * high],
    [0.5, 2 * high],
    [0, high],
  ];
  const centre: Point = [1, high];
  const [a, b, c, d, e, f] = ring as [Point, Point, Point, Point, Point, Point];
  return {
    ring,
    tiles: [tile('light', f, a, b, centre), tile('medium', b, c, d, centre), tile('dark', d, e, f, centre)],
  };
}

function snailsTrail(): readonly Tile[] {
  // Every round of four triangles is turned by an eighth against the one before, and so are its dark ones.
  const tiles: Tile[] = [...fourPatch('dark', 'light', 3, 3, 2)];
  let ring: readonly Point[] = [
    [3, 3],
    [5, 3],
    [5, 5],
    [3, 5],
  ];
  for (let round = 0; round < 4; round++) {
    // The tip over a side of a square: its middle, and half a side farther out.
    const tips = ring.map(([x, y], i): Point => {
      const [p, q] = ring[(i + 1) % 4]!;
      return [(x + p) / 2 + (q - y) / 2, (y + q) / 2 - (p - x) / 2];
    });
    const before = ring;
    tips.forEach((tip, i) => {
      tiles.push(tile(i % 2 === 0 ? 'dark' : 'light', before[i]!, tip, before[(i + 1) % 4]!));
    });
    ring = tips;
  }
  return tiles;
}

const babys = babysBlocks();

export const TRADITIONAL: readonly Starter[] = [
  fixed(phrase('Half-square triangle'), half('dark', 'light', 'nw', 0, 0), 1),
  fixed(phrase('Hourglass'), quarters('dark', 'light', 0, 0, 2), 2, 2, [phrase('Quarter-square triangle')]),
  fixed(phrase('Four patch'), fourPatch('dark', 'light', 0, 0, 2), 2),
  fixed(phrase('Nine patch'), smallNinePatch, 3),
  fixed(phrase('Rail fence'), rail(), 3),
  fixed(
    phrase('Basket weave'),
    [
      ...rail(),
      ...moved(turned(rail(), 1, 3), 3, 0),
      ...moved(turned(rail(), 1, 3), 0, 3),
      ...moved(rail(), 3, 3),
    ],
    6,
  ),
  fixed(phrase('Flying geese'), goose('dark', 'light', 'n', 0, 0, 2, 1), 2, 1),
  fixed(phrase('Pinwheel'), fourFold(half('dark', 'light', 'ne', 0, 0), 2), 2),
  fixed(
    phrase('Broken dishes'),
    [
      ...dishes,
      ...moved(turned(dishes, 1, 2), 2, 0),
      ...moved(turned(dishes, 1, 2), 0, 2),
      ...moved(dishes, 2, 2),
    ],
    4,
  ),
  fixed(
    phrase('Shoofly'),
    [...squares(' . ', '.#.', ' . '), ...fourFold(half('light', 'dark', 'nw', 0, 0), 3)],
    3,
  ),
  fixed(
    phrase('Churn dash'),
    [
      rectangle('light', 2, 2, 2),
      ...fourFold(
        [
          ...half('light', 'dark', 'nw', 0, 0, 2),
          rectangle('light', 2, 0, 2, 1),
          rectangle('dark', 2, 1, 2, 1),
        ],
        6,
      ),
    ],
    6,
    6,
    [phrase('Hole in the barn door'), phrase('Monkey wrench')],
  ),
  fixed(
    phrase('Friendship star'),
    [...squares('. .', ' # ', '. .'), ...fourFold(half('light', 'dark', 'nw', 1, 0), 3)],
    3,
  ),
  fixed(
    phrase('Sawtooth star'),
    [
      rectangle('dark', 1, 1, 2),
      ...fourFold([rectangle('light', 0, 0, 1), ...goose('light', 'dark', 's', 1, 0, 2, 1)], 4),
    ],
    4,
    4,
    [phrase('Evening star')],
  ),
  fixed(
    phrase('Ohio star'),
    [...squares('. .', ' # ', '. .'), ...fourFold(quarters('light', 'dark', 1, 0), 3)],
    3,
    3,
    [phrase('Variable star')],
  ),
  fixed(phrase('Lemoyne star'), lemoyneStar(), 2 + Math.SQRT2, 2 + Math.SQRT2, [
    phrase('Eight-pointed star'),
  ]),
  fixed(phrase('Snowball'), cutCorners('light', 'dark', 0, 0, 3, 3, 1), 3),
  fixed(
    phrase('Bow tie'),
    [
      rectangle('dark', 0, 0, 2),
      rectangle('dark', 2, 2, 2),
      ...[0, 2].flatMap((turns) =>
        turned(
          [tile('light', [2, 0], [4, 0], [4, 2], [3, 2], [2, 1]), tile('dark', [2, 1], [3, 2], [2, 2])],
          turns,
          4,
        ),
      ),
    ],
    4,
  ),
  fixed(phrase('Diamond in a rectangle'), cutCorners('dark', 'light', 0, 0, 4, 2, 2, 1), 4, 2),
  fixed(
    phrase('Puss in the corner'),
    [
      rectangle('dark', 1, 1, 2),
      ...fourFold([rectangle('dark', 0, 0, 1), rectangle('light', 1, 0, 2, 1)], 4),
    ],
    4,
  ),
  fixed(
    phrase('Bear’s paw'),
    [rectangle('dark', 3, 3, 1), ...fourFold([...paw, rectangle('light', 3, 0, 1, 3)], 7)],
    7,
  ),
  fixed(
    phrase('Dutchman’s puzzle'),
    [
      ...twoGeese('e'),
      ...moved(twoGeese('s'), 2, 0),
      ...moved(twoGeese('w'), 2, 2),
      ...moved(twoGeese('n'), 0, 2),
    ],
    4,
  ),
  fixed(
    phrase('Jacob’s ladder'),
    [
      ...[
        [0, 0],
        [4, 0],
        [2, 2],
        [0, 4],
        [4, 4],
      ].flatMap(([x, y]) => fourPatch('dark', 'light', x!, y!, 2)),
      ...half('medium', 'light', 'ne', 2, 0, 2),
      ...half('medium', 'light', 'ne', 4, 2, 2),
      ...half('light', 'medium', 'ne', 0, 2, 2),
      ...half('light', 'medium', 'ne', 2, 4, 2),
    ],
    6,
    6,
    [phrase('Road to California')],
  ),
  fixed(phrase('Snail’s trail'), snailsTrail(), 8, 8, [phrase('Monkey wrench')]),
  fixed(
    phrase('Birds in the air'),
    [
      tile('medium', [3, 0], [3, 3], [0, 3]),
      ...[
        [0, 0],
        [1, 0],
        [0, 1],
      ].flatMap(([x, y]) => half('dark', 'light', 'nw', x!, y!)),
      ...[0, 1, 2].flatMap((k) => half('dark', 'light', 'nw', k, 2 - k).slice(0, 1)),
    ],
    3,
  ),
  fixed(
    phrase('Storm at sea'),
    [
      ...squareInSquareTwice(0, 0, 4),
      ...squareInSquareTwice(4, 4, 2),
      ...cutCorners('medium', 'light', 4, 0, 2, 4, 1, 2),
      ...cutCorners('medium', 'light', 0, 4, 4, 2, 2, 1),
    ],
    6,
  ),
  fixed(
    phrase('Double nine patch'),
    [0, 3, 6].flatMap((y) =>
      [0, 3, 6].flatMap((x) =>
        (x + y) % 2 === 0 ? moved(smallNinePatch, x, y) : [rectangle('light', x, y, 3)],
      ),
    ),
    9,
  ),
  fixed(
    phrase('Attic window'),
    [
      rectangle('light', 1, 0, 2),
      tile('medium', [0, 0], [1, 0], [1, 2], [0, 3]),
      tile('dark', [1, 2], [3, 2], [3, 3], [0, 3]),
    ],
    3,
  ),
  fixed(
    phrase('Spools'),
    [
      rectangle('medium', 1, 1, 1),
      tile('dark', [0, 0], [3, 0], [2, 1], [1, 1]),
      tile('light', [3, 0], [3, 3], [2, 2], [2, 1]),
      tile('dark', [3, 3], [0, 3], [1, 2], [2, 2]),
      tile('light', [0, 3], [0, 0], [1, 1], [1, 2]),
    ],
    3,
  ),
  {
    name: phrase('Baby’s blocks'),
    alsoCalled: [phrase('Tumbling blocks')],
    parameters: {},
    draw: () => ({ outline: babys.ring, tiles: babys.tiles }),
  },
];

import type { Point, Ring } from '../../geometry/point.ts';
import { boxOf } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import { box, choice, count, parametric, type Starter } from './starter.ts';
import { goose, moved, rectangle, type Tile, type Tone, tile } from './tiles.ts';

/** Traditional blocks that are built up in rounds, rows or rays, with as many as are asked for. */

/** Log by log round a centre square of 1, each round a turn clockwise from the top; each log covers the end before. */
function logCabin(rounds: number, logWidth: number): readonly Tile[] {
  const size = 1 + 2 * rounds * logWidth;
  const tiles: Tile[] = [];
  let [left, top] = [rounds * logWidth, rounds * logWidth];
  let [right, bottom] = [left + 1, top + 1];
  tiles.push(rectangle('medium', left, top, 1));
  for (let round = 0; round < rounds; round++) {
    tiles.push(rectangle('light', left, top - logWidth, right - left, logWidth));
    top -= logWidth;
    tiles.push(rectangle('light', right, top, logWidth, bottom - top));
    right += logWidth;
    tiles.push(rectangle('dark', left, bottom, right - left, logWidth));
    bottom += logWidth;
    tiles.push(rectangle('dark', left - logWidth, top, logWidth, bottom - top));
    left -= logWidth;
  }
  return scaledToOrigin(tiles, size);
}

/** Logs on the two upright sides, then across both ends, round after round. */
function courthouseSteps(rounds: number, logWidth: number): readonly Tile[] {
  const size = 1 + 2 * rounds * logWidth;
  const start = rounds * logWidth;
  const tiles: Tile[] = [rectangle('medium', start, start, 1)];
  for (let round = 1; round <= rounds; round++) {
    const low = start - round * logWidth;
    const inner = low + logWidth;
    const across = size - 2 * low;
    tiles.push(
      rectangle('dark', low, inner, logWidth, across - 2 * logWidth),
      rectangle('dark', size - inner, inner, logWidth, across - 2 * logWidth),
      rectangle('light', low, low, across, logWidth),
      rectangle('light', low, size - inner, across, logWidth),
    );
  }
  return scaledToOrigin(tiles, size);
}

/** Rounding in the sums above is taken back, so that the outer logs lie on the outline exactly. */
function scaledToOrigin(tiles: readonly Tile[], size: number): readonly Tile[] {
  const onGrid = (v: number): number => Math.min(size, Math.max(0, Math.round(v * 4096) / 4096));
  return tiles.map(({ ring, tone }) => ({
    tone,
    ring: ring.map(([x, y]): Point => [onGrid(x), onGrid(y)]),
  }));
}

/** Keeps what lies on one side of a line: where a x + b y <= c. The ring is convex. */
function cutBy(ring: Ring, a: number, b: number, c: number): Ring {
  const over = ([x, y]: Point): number => a * x + b * y - c;
  return ring.flatMap((p, i): readonly Point[] => {
    const q = ring[(i + 1) % ring.length]!;
    const [here, there] = [over(p), over(q)];
    const kept: readonly Point[] = here <= 0 ? [p] : [];
    if (here < 0 === there < 0 || here === 0 || there === 0) return kept;
    const t = here / (here - there);
    return [...kept, [p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])]];
  });
}

const LEVEL = [
  [0, -1],
  [1, 0],
  [0, 1],
  [-1, 0],
] as const;
const SLANTED = [
  [1, -1],
  [1, 1],
  [-1, 1],
  [-1, -1],
] as const;

/**
 * Strips round a centre square, over its sides and over its corners by turns. The sides of round r lie 2 r + 2 from
 * the middle; the slanted seams where |x| + |y| is 3 r + 4, which lets every strip show its ends. The last corners
 * fill up the square.
 */
function pineapple(rounds: number): { readonly size: number; readonly tiles: readonly Tile[] } {
  const level = (round: number): number => 2 * round + 2;
  const reach = level(rounds);
  const slant = (round: number): number => (round === rounds ? 2 * reach : 3 * round + 4);
  const within = (flat: number, steep: number): Ring => {
    let ring: Ring = [
      [-flat, -flat],
      [flat, -flat],
      [flat, flat],
      [-flat, flat],
    ];
    for (const [a, b] of SLANTED) ring = cutBy(ring, a, b, steep);
    return ring;
  };
  const tiles: Tile[] = [{ tone: 'medium', ring: within(level(0), slant(0)) }];
  for (let round = 0; round < rounds; round++) {
    const straight = within(level(round + 1), slant(round));
    for (const [a, b] of LEVEL) tiles.push({ tone: 'light', ring: cutBy(straight, -a, -b, -level(round)) });
    const cornered = within(level(round + 1), slant(round + 1));
    for (const [a, b] of SLANTED) tiles.push({ tone: 'dark', ring: cutBy(cornered, -a, -b, -slant(round)) });
  }
  return { size: 2 * reach, tiles: moved(tiles, reach, reach) };
}

/** Squares in squares, each standing on the middles of the sides of the next. */
function nestedSquares(squares: number): readonly Tile[] {
  const tones: readonly Tone[] = ['dark', 'light', 'medium'];
  let ring: Ring = box(2 ** Math.ceil(squares / 2));
  const tiles: Tile[] = [];
  for (let k = 0; k < squares; k++) {
    const inner = ring.map((p, i) => {
      const q = ring[(i + 1) % 4]!;
      return [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2] as const;
    });
    const outer = ring;
    outer.forEach((corner, i) => {
      tiles.push(tile(tones[k % 3]!, inner[(i + 3) % 4]!, corner, inner[i]!));
    });
    ring = inner;
  }
  return [...tiles, { tone: tones[squares % 3]!, ring }];
}

/** Where a ray from a point meets the rim of the box that holds the point, angle from east clockwise as seen. */
function onRim(outline: Ring, from: Point, angle: number): Point {
  const { minX, minY, maxX, maxY } = boxOf(outline);
  const [dx, dy] = [Math.cos(angle), Math.sin(angle)];
  const far = (at: number, step: number, low: number, high: number): number =>
    Math.abs(step) < 1e-12 ? Number.POSITIVE_INFINITY : ((step > 0 ? high : low) - at) / step;
  const t = Math.min(far(from[0], dx, minX, maxX), far(from[1], dy, minY, maxY));
  return [from[0] + t * dx, from[1] + t * dy];
}

const near = ([x, y]: Point, [a, b]: Point): boolean => Math.hypot(x - a, y - b) < 1e-9;

/** Equal angles round a point of the box, light and dark by turns; corners of the box between two rays stay in. */
function rays(outline: Ring, from: Point, first: number, sweep: number, number: number): readonly Tile[] {
  const turn = (p: Point): number => {
    const angle = Math.atan2(p[1] - from[1], p[0] - from[0]) - first;
    return ((angle % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
  };
  return Array.from({ length: number }, (_, k): Tile => {
    const [low, high] = [(sweep * k) / number, (sweep * (k + 1)) / number];
    const [a, b] = [onRim(outline, from, first + low), onRim(outline, from, first + high)];
    const between = outline
      .filter((p) => !near(p, from) && !near(p, a) && !near(p, b) && turn(p) > low && turn(p) < high)
      .sort((p, q) => turn(p) - turn(q));
    // All the way round an odd number of rays, the last would be as dark as the first beside it.
    const isOddOne = sweep > 6 && number % 2 === 1 && k === number - 1;
    return tile(isOddOne ? 'medium' : k % 2 === 0 ? 'dark' : 'light', from, a, ...between, b);
  });
}

const LOG_WIDTHS = [
  ['same', phrase('as wide as a log')],
  ['double', phrase('twice as wide')],
] as const;

const logWidthFor = (centre: 'same' | 'double'): number => (centre === 'same' ? 1 : 0.5);

export const PARAMETRIC: readonly Starter[] = [
  parametric({
    name: phrase('Log cabin'),
    parameters: {
      rounds: count(phrase('Rounds'), 1, 8, 3),
      centre: choice(phrase('Centre square'), LOG_WIDTHS, 'same'),
    },
    draw: ({ rounds, centre }) => ({
      outline: box(1 + 2 * rounds * logWidthFor(centre)),
      tiles: logCabin(rounds, logWidthFor(centre)),
    }),
  }),
  parametric({
    name: phrase('Courthouse steps'),
    parameters: {
      rounds: count(phrase('Rounds'), 1, 8, 3),
      centre: choice(phrase('Centre square'), LOG_WIDTHS, 'same'),
    },
    draw: ({ rounds, centre }) => ({
      outline: box(1 + 2 * rounds * logWidthFor(centre)),
      tiles: courthouseSteps(rounds, logWidthFor(centre)),
    }),
  }),
  parametric({
    name: phrase('Pineapple'),
    parameters: { rounds: count(phrase('Rounds'), 1, 7, 3) },
    draw: ({ rounds }) => {
      const { size, tiles } = pineapple(rounds);
      return { outline: box(size), tiles };
    },
  }),
  parametric({
    name: phrase('Square in a square'),
    alsoCalled: [phrase('Nested squares')],
    parameters: { squares: count(phrase('Squares round the centre'), 1, 8, 1) },
    draw: ({ squares }) => ({ outline: box(2 ** Math.ceil(squares / 2)), tiles: nestedSquares(squares) }),
  }),
  parametric({
    name: phrase('Strips'),
    parameters: {
      number: count(phrase('Strips'), 2, 24, 5),
      run: choice(
        phrase('They run'),
        [
          ['level', 'level'],
          ['upright', 'upright'],
        ],
        'upright',
      ),
    },
    draw: ({ number, run }) => ({
      outline: box(number),
      tiles: Array.from({ length: number }, (_, k): Tile => {
        const tone = (['dark', 'light', 'medium', 'light'] as const)[k % 4]!;
        return run === 'level' ? rectangle(tone, 0, k, number, 1) : rectangle(tone, k, 0, 1, number);
      }),
    }),
  }),
  parametric({
    name: phrase('Rays'),
    parameters: {
      number: count(phrase('Rays'), 2, 24, 7),
      from: choice(
        phrase('They start'),
        [
          ['corner', phrase('in a corner')],
          ['side', phrase('on a side')],
          ['middle', phrase('in the middle')],
        ],
        'corner',
      ),
    },
    draw: ({ number, from }) => {
      const outline = box(2);
      switch (from) {
        case 'corner':
          return { outline, tiles: rays(outline, [0, 2], -Math.PI / 2, Math.PI / 2, number) };
        case 'side':
          return { outline, tiles: rays(outline, [1, 2], -Math.PI, Math.PI, number) };
        case 'middle':
          return { outline, tiles: rays(outline, [1, 1], -Math.PI / 2, 2 * Math.PI, number) };
      }
    },
  }),
  parametric({
    name: phrase('Geese in a row'),
    parameters: { geese: count(phrase('Geese'), 2, 12, 3) },
    draw: ({ geese }) => ({
      outline: box(2, geese),
      tiles: Array.from({ length: geese }, (_, k) => goose('dark', 'light', 'n', 0, k, 2, 1)).flat(),
    }),
  }),
  parametric({
    name: phrase('Checkerboard'),
    parameters: {
      across: count(phrase('Squares across'), 2, 10, 4),
      down: count(phrase('Squares down'), 2, 10, 4),
    },
    draw: ({ across, down }) => ({
      outline: box(across, down),
      tiles: Array.from({ length: across * down }, (_, k): Tile => {
        const [x, y] = [k % across, Math.floor(k / across)];
        return rectangle((x + y) % 2 === 0 ? 'dark' : 'light', x, y, 1);
      }),
    }),
  }),
];

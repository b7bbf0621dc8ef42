import { describe, expect, it } from 'vitest';
import { readPath } from '../../../src/document/import-svg/path.ts';
import { applied, readTransform } from '../../../src/document/import-svg/transform.ts';
import type { Point } from '../../../src/geometry/point.ts';
import { drawingOf, importedFrom, sizeOf, svg } from './imported.ts';

const lines = (data: string, chords = 0) => readPath(data, chords).runs.map(({ points }) => points);

describe('the data of a path, as SVG 1.1 chapter 8 describes it', () => {
  const square: readonly Point[] = [
    [100, 100],
    [300, 100],
    [300, 300],
    [100, 300],
  ];

  it.each([
    ['absolute', 'M 100 100 L 300 100 L 300 300 L 100 300 Z'],
    ['relative', 'm100,100 l200,0 l0,200 l-200,0 z'],
    ['level and upright', 'M100 100H300V300H100Z'],
    ['relative level and upright', 'm100 100h200v200h-200z'],
    ['letters left out', 'M100,100 300,100 300,300 100,300z'],
    ['signs and dots that part numbers', 'M1e2 100l200+0 0 2.e2-200-0z'],
    ['back at the start before it closes', 'M100 100H300V300H100V100Z'],
  ])('a square, %s', (_, data) => {
    expect(readPath(data, 0)).toEqual({
      runs: [{ points: square, isClosed: true }],
      curves: 0,
      skipped: [],
      isBroken: false,
    });
  });

  it('numbers run together: `M.5.5 1.5-.5` is two points', () => {
    expect(lines('M.5.5 1.5-.5')).toEqual([
      [
        [0.5, 0.5],
        [1.5, -0.5],
      ],
    ]);
  });

  it('goes on from the start after closing', () => {
    expect(lines('M10 10h10v10zh-5')).toEqual([
      [
        [10, 10],
        [20, 10],
        [20, 20],
      ],
      [
        [10, 10],
        [5, 10],
      ],
    ]);
  });

  it('keeps what stands before a fault, and says so', () => {
    for (const data of ['M0 0L10 0 L10', 'M0 0L10 0 X', 'M0 0L10 0 L NaN 5', 'M0 0L10 0 L1e999 0']) {
      expect([data, readPath(data, 0).isBroken, lines(data)[0]?.slice(0, 2)]).toEqual([
        data,
        true,
        [
          [0, 0],
          [10, 0],
        ],
      ]);
    }
    expect(readPath('L10 10', 0)).toEqual({ runs: [], curves: 0, skipped: [], isBroken: true });
  });

  it('puts the ends of chords on the curve: an arc stays at its radius from its centre', () => {
    const [points] = lines('M 200 100 A 100 100 0 0 1 100 200', 8);
    expect(points).toHaveLength(9);
    // The quarter of a circle from (200, 100) clockwise as seen to (100, 200) is about (100, 100).
    for (const [x, y] of points!) expect(Math.hypot(x - 100, y - 100)).toBeCloseTo(100, 9);
    const far = lines('M 200 100 A 100 100 0 1 0 100 200', 6)[0]!;
    // The long way round with the other sweep: the same centre by the same radius, so all at (100, 100) again.
    for (const [x, y] of far) expect(Math.hypot(x - 100, y - 100)).toBeCloseTo(100, 9);
    expect(Math.min(...far.map(([x]) => x))).toBeLessThan(20);
  });

  it('enlarges radii that cannot reach, as appendix F.6.6 asks', () => {
    const [points] = lines('M0 0A1 1 0 0 1 20 0', 4);
    for (const [x, y] of points!) expect(Math.hypot(x - 10, y)).toBeCloseTo(10, 9);
  });

  it('takes the middle of a Bézier curve where de Casteljau puts it', () => {
    expect(lines('M0 0C0 40 40 40 40 0', 2)[0]![1]).toEqual([20, 30]);
    expect(lines('M0 0Q20 40 40 0', 2)[0]![1]).toEqual([20, 20]);
    // The smooth ones mirror the control point: the second hump hangs as far as the first stands.
    expect(lines('M0 0Q20 40 40 0T80 0', 2)[0]![3]).toEqual([60, -20]);
    expect(lines('M0 0C0 40 40 40 40 0S80 -40 80 0', 2)[0]![3]).toEqual([60, -30]);
  });

  it('leaves curves out when no chords are asked for, and tells where they run', () => {
    expect(readPath('M0 0H10C20 0 20 10 20 20V30', 0)).toEqual({
      runs: [
        {
          points: [
            [0, 0],
            [10, 0],
          ],
          isClosed: false,
        },
        {
          points: [
            [20, 20],
            [20, 30],
          ],
          isClosed: false,
        },
      ],
      curves: 1,
      skipped: [
        [
          [10, 0],
          [20, 20],
        ],
      ],
      isBroken: false,
    });
  });
});

describe('transforms, as SVG 1.1 chapter 7 describes them', () => {
  const moved = (text: string, at: Point): Point =>
    applied(readTransform(text)!, at).map((v) => Math.round(v * 1e9) / 1e9) as unknown as Point;

  it.each<[string, Point, Point]>([
    ['translate(50 -20)', [1, 2], [51, -18]],
    ['translate(50)', [1, 2], [51, 2]],
    ['scale(2)', [1, 2], [2, 4]],
    ['scale(2,-1)', [1, 2], [2, -2]],
    ['rotate(90)', [1, 0], [0, 1]],
    ['rotate(90 10 10)', [10, 0], [20, 10]],
    ['skewX(45)', [0, 3], [3, 3]],
    ['skewY(45)', [3, 0], [3, 3]],
    ['matrix(1,2,3,4,5,6)', [1, 1], [9, 12]],
    // The leftmost is applied last.
    ['translate(10 0) scale(3)', [1, 1], [13, 3]],
    ['scale(3),translate(10 0)', [1, 1], [33, 3]],
  ])('%s takes %j to %j', (text, from, to) => {
    expect(moved(text, from)).toEqual(to);
  });

  it('refuses what it cannot read', () => {
    for (const text of [
      'spin(90)',
      'rotate()',
      'matrix(1 2 3)',
      'translate(NaN)',
      'scale(1e400)',
      'rotate(90',
    ])
      expect(readTransform(text)).toBe(null);
  });
});

describe('shapes', () => {
  it.each([
    ['rect', '<rect x="50" y="50" width="300" height="200"/>'],
    ['polygon', '<polygon points="50,50 350,50 350,250 50,250"/>'],
    ['polyline', '<polyline points="50 50 350 50 350 250 50 250 50 50"/>'],
    ['path', '<path d="M50 50h300v200h-300z"/>'],
    [
      'lines',
      '<line x1="50" y1="50" x2="350" y2="50"/><line x1="350" y1="50" x2="350" y2="250"/><line x1="350" y1="250" x2="50" y2="250"/><line x1="50" y1="250" x2="50" y2="50"/>',
    ],
    ['prefixed', '<svg:g><svg:path d="M50 50h300v200h-300z"/></svg:g>'],
    [
      'groups that move and scale',
      '<g transform="translate(50 50)"><g transform="scale(10 20)"><rect width="30" height="10"/></g></g>',
    ],
    ['lengths with units', '<rect x="0.5in" y="50px" width="225pt" height="5.2916666667cm"/>'],
  ])('a rectangle of 300 by 200 as %s', (_, inside) => {
    const block = importedFrom(svg(`<g fill="none" stroke="black">${inside}</g>`));
    const [width, height] = sizeOf(block);
    expect([width, height]).toEqual([expect.closeTo(300 / 96, 4), expect.closeTo(200 / 96, 4)]);
    expect(block.cuts).toEqual([]);
    expect(block.outline).toHaveLength(4);
  });

  it('a circle is four curves; with chords, a polygon', () => {
    const circle = svg('<circle cx="200" cy="200" r="100" stroke="black"/>');
    const drawing = drawingOf(circle);
    expect([drawing.curves, drawing.leftOut.get('curve'), drawing.runs]).toEqual([4, 4, []]);
    const block = importedFrom(circle, { chords: 2 });
    // An octagon in a circle of radius r: area 2 sqrt(2) r².
    expect(block.outline).toHaveLength(8);
    const area = block.outline.reduce((sum, [x, y], i) => {
      const [p, q] = block.outline[(i + 1) % 8]!;
      return sum + (x * q - p * y) / 2;
    }, 0);
    expect(Math.abs(area)).toBeCloseTo((2 * Math.SQRT2 * 100 ** 2) / 96 ** 2, 4);
  });

  it('hidden things, text, pictures and copies are left out and counted', () => {
    const drawing = drawingOf(
      svg(`<rect width="100" height="100" stroke="red"/>
        <g style="stroke: black; display: none"><line x2="10"/><line x2="20"/></g>
        <line x2="10" visibility="hidden"/><line x2="10" stroke="none" fill="none"/>
        <text>Lighthouse</text><image href="file:///lamp.png" width="10" height="10"/><use href="#a"/>
        <defs><path id="a" d="M0 0h999"/></defs><line x1="NaN" x2="4"/>`),
    );
    expect(Object.fromEntries(drawing.leftOut)).toEqual({
      hidden: 4,
      text: 1,
      picture: 1,
      copy: 1,
      unreadable: 1,
    });
    expect(drawing.runs).toHaveLength(1);
  });

  it('the colour of the page is no patch, a square with a line round it is', () => {
    const page = (stroke: string) =>
      drawingOf(
        svg(
          `<rect width="400" height="400" fill="white" ${stroke}/><rect x="9" y="9" width="90" height="90"/>`,
        ),
      );
    expect(page('').leftOut.get('background')).toBe(1);
    expect(page('stroke="black"').runs).toHaveLength(2);
  });
});

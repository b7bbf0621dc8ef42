import type { Fabric } from '../../src/document/project.ts';
import type { Point, Ring } from '../../src/geometry/point.ts';
import type { Block, Cut, CutRole } from '../../src/piecing/block.ts';
import { entriesAt } from './entries.ts';

/**
 * A picture of a harbour, 24 in square: sky with clouds, gulls and the sun, a lighthouse between houses, the quay,
 * a ferry between a buoy and a boat, waves. Straight cuts in nested bands, so that straight joins sew it.
 */
export interface HarbourPicture {
  readonly block: Block;
  readonly fabrics: readonly Fabric[];
}

const FABRICS: readonly Fabric[] = [
  { id: 'sky', name: 'Morning sky', color: '#b9d3e6' },
  { id: 'cloud', name: 'Cloud', color: '#f4f4f0' },
  { id: 'sun', name: 'Lamp yellow', color: '#f3c24d' },
  { id: 'ray', name: 'Pale straw', color: '#f6e3a8' },
  { id: 'red', name: 'Signal red', color: '#a6322b' },
  { id: 'white', name: 'Whitewash', color: '#ece8df' },
  { id: 'slate', name: 'Roof slate', color: '#4d545c' },
  { id: 'brick', name: 'Old brick', color: '#b5694a' },
  { id: 'ochre', name: 'Ochre wall', color: '#d9a860' },
  { id: 'glass', name: 'Window at dusk', color: '#33475c' },
  { id: 'door', name: 'Green door', color: '#2f6650' },
  { id: 'stone', name: 'Quay stone', color: '#8b8578' },
  { id: 'moss', name: 'Mossy stone', color: '#6f7a5c' },
  { id: 'sea', name: 'Night sea', color: '#264f79' },
  { id: 'foam', name: 'Foam', color: '#a9c9d6' },
];

/** A part of the picture: left, top, right, bottom in inches. */
type Box = readonly [x0: number, y0: number, x1: number, y1: number];

class Sketch {
  readonly cuts: Cut[] = [];
  readonly paint: { readonly at: Point; readonly fabric: string }[] = [];

  cut(from: Point, to: Point, role: CutRole = 'auto'): void {
    this.cuts.push({ id: `p${this.cuts.length + 1}`, from, to, role });
  }

  lay(fabric: string, ...spots: readonly Point[]): void {
    for (const at of spots) this.paint.push({ at, fabric });
  }

  /** Upright cuts across a box at these distances from its left, and a fabric in each part. */
  columns([x0, y0, x1, y1]: Box, at: readonly number[], fabrics: readonly string[]): void {
    const ends = [0, ...at, x1 - x0];
    for (const x of at) this.cut([x0 + x, y0], [x0 + x, y1]);
    fabrics.forEach((fabric, i) => {
      this.lay(fabric, [x0 + (ends[i]! + ends[i + 1]!) / 2, (y0 + y1) / 2]);
    });
  }
}

/** The picture. The same every time. */
export function harbourPicture(): HarbourPicture {
  const s = new Sketch();
  const bands = [5, 15.5, 16.5, 21, 22.5];
  for (const y of bands) s.cut([0, y], [24, y]);

  for (const x of [6.5, 12, 18]) s.cut([x, 0], [x, 5]);
  cloud(s, [0, 0, 6.5, 5], 0);
  gull(s, [6.5, 0, 12, 5]);
  cloud(s, [12, 0, 18, 5], 0.75);
  sun(s, [18, 0, 24, 5]);

  for (const x of [4.75, 9.5, 14.5, 19.25]) s.cut([x, 5], [x, 15.5]);
  for (const [x0, x1] of [
    [0, 4.75],
    [4.75, 9.5],
    [14.5, 19.25],
    [19.25, 24],
  ] as const)
    s.cut([x0, 8], [x1, 8]);
  s.lay('sky', [1, 6], [6, 6], [20, 6]);
  cloud(s, [14.5, 5, 19.25, 8], 0.5);
  house(s, [0, 8, 4.75, 15.5], 'ochre', 'brick');
  house(s, [4.75, 8, 9.5, 15.5], 'brick', 'slate');
  house(s, [14.5, 8, 19.25, 15.5], 'white', 'red');
  house(s, [19.25, 8, 24, 15.5], 'ochre', 'slate');
  lighthouse(s, [9.5, 5, 14.5, 15.5]);

  const stones = [3.5, 6.5, 11, 13.5, 17, 20.5];
  s.columns(
    [0, 15.5, 24, 16.5],
    stones,
    [...stones, 24].map((_, i) => (i % 3 === 1 ? 'moss' : 'stone')),
  );

  for (const x of [4.5, 19.5]) s.cut([x, 16.5], [x, 21]);
  buoy(s, [0, 16.5, 4.5, 21]);
  ferry(s, [4.5, 16.5, 19.5, 21]);
  boat(s, [19.5, 16.5, 24, 21]);

  waves(s, [0, 21, 24, 22.5], 'sea', 'foam', 8);
  waves(s, [0, 22.5, 24, 24], 'foam', 'sea', 5);
  const outline: Ring = [
    [0, 0],
    [24, 0],
    [24, 24],
    [0, 24],
  ];
  return {
    block: {
      id: 'harbour-picture',
      name: 'Harbour picture',
      outline,
      cuts: s.cuts,
      patches: entriesAt(s.paint),
    },
    fabrics: FABRICS,
  };
}

/** A cloud with two humps on a level foot. 8 patches. */
function cloud(s: Sketch, [x0, y0, x1, y1]: Box, shift: number): void {
  const [top, middle, foot] = [y0 + 0.75, (y0 + y1) / 2, y1 - 0.75];
  for (const y of [top, middle, foot]) s.cut([x0, y], [x1, y]);
  const [a, b] = [x0 + 1.25 + shift, x1 - 1.75 + shift];
  s.cut([a, middle], [a + 0.75, top]);
  s.cut([b, middle], [b - 1, top]);
  s.cut([x0 + 1, foot], [x0 + 0.5, middle]);
  s.cut([x1 - 1, foot], [x1 - 0.5, middle]);
  const high = (top + middle) / 2;
  const low = (middle + foot) / 2;
  s.lay('sky', [x0 + 2, y0 + 0.3], [x0 + 2, y1 - 0.3], [x0 + 0.2, high], [x1 - 0.2, high]);
  s.lay('sky', [x0 + 0.2, low], [x1 - 0.2, low]);
  s.lay('cloud', [(a + b) / 2, high], [(x0 + x1) / 2, low]);
}

/** Two wings on a raised body. 6 patches. */
function gull(s: Sketch, [x0, y0, x1, y1]: Box): void {
  const c = (x0 + x1) / 2;
  const tip = y0 + 0.5;
  const back = y0 + 0.45 * (y1 - y0);
  s.cut([c, y0], [c, y1]);
  for (const x of [x0, x1]) {
    s.cut([x, tip], [c, back]);
    s.cut([x, tip], [c, back + 1.5]);
    const quarter = (x + c) / 2;
    s.lay('sky', [quarter, y0 + 0.2], [quarter, y1 - 0.2]);
    s.lay('white', [(x + 4 * c) / 5, (tip + 4 * (back + 0.75)) / 5]);
  }
}

/** The sun in the upper right corner: five rays, each with its part of the disc. 15 patches. */
function sun(s: Sketch, [x0, y0, x1, y1]: Box): void {
  const hub: Point = [x1, y0];
  const [across, down] = [x1 - x0, y1 - y0];
  // Ends of the rays on the left and the lower side.
  const ends: readonly Point[] = [
    [x0, y0],
    [x0, y0 + 2],
    [x0, y0 + 4],
    [x0 + 1.75, y1],
    [x0 + 4, y1],
    [x1, y1],
  ];
  ends.slice(1, -1).forEach((end) => {
    s.cut(hub, end);
  });
  const on = (i: number, share: number): Point => {
    const [x, y] = ends[i]!;
    const reach = share / Math.hypot(x - hub[0], y - hub[1]);
    return [snapped(hub[0] + reach * (x - hub[0])), snapped(hub[1] + reach * (y - hub[1]))];
  };
  for (let i = 0; i < 5; i++) {
    s.cut(on(i, 2), on(i + 1, 2));
    const [far, next] = i % 2 === 0 ? [4.25, 3.75] : [3.75, 4.25];
    s.cut(on(i, far), on(i + 1, next));
    const between = (share: number): Point => {
      const [a, b] = [on(i, share), on(i + 1, share)];
      return [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
    };
    s.lay('sun', between(1));
    s.lay('ray', between(3));
    s.lay('sky', between(Math.min(4.6, across - 0.5, down - 0.2)));
  }
}

/** Steps of 2^-16 in. */
const snapped = (inches: number): number => Math.round(inches * 65536) / 65536;

/** A house with a chimney, two panes and a door. 15 patches. */
function house(s: Sketch, [x0, y0, x1, y1]: Box, wall: string, roof: string): void {
  const width = x1 - x0;
  const [ridge, eaves] = [y0 + 1.25, y0 + 3.25];
  s.cut([x0, ridge], [x1, ridge]);
  s.cut([x0, eaves], [x1, eaves]);
  s.columns([x0, y0, x1, ridge], [width - 2, width - 1.25], ['sky', 'brick', 'sky']);
  s.cut([x0, eaves], [x0 + 1, ridge]);
  s.cut([x1, eaves], [x1 - 1, ridge]);
  s.lay('sky', [x0 + 0.2, ridge + 0.3], [x1 - 0.2, ridge + 0.3]);
  s.lay(roof, [x0 + width / 2, ridge + 1]);
  const columns = [0.75, 2.25, 2.875, 4];
  s.columns([x0, eaves, x1, y1], columns, [wall, 'glass', wall, 'door', wall]);
  const [w, v] = [x0 + columns[0]!, x0 + columns[1]!];
  for (const y of [eaves + 0.75, eaves + 2.25]) s.cut([w, y], [v, y]);
  const bar = x0 + 1.5;
  s.cut([bar, eaves + 0.75], [bar, eaves + 2.25]);
  s.lay('glass', [bar - 0.3, eaves + 1.5], [bar + 0.3, eaves + 1.5]);
  s.lay(wall, [bar, eaves + 0.3], [bar, y1 - 0.3]);
  const [d, e] = [x0 + columns[2]!, x0 + columns[3]!];
  s.cut([d, eaves + 1.25], [e, eaves + 1.25]);
  s.lay(wall, [(d + e) / 2, eaves + 0.5]);
  s.lay('door', [(d + e) / 2, y1 - 0.5]);
}

/** Roof, lamp room, gallery, a striped tower that narrows, a rock. 23 patches. */
function lighthouse(s: Sketch, [x0, y0, x1, y1]: Box): void {
  const c = (x0 + x1) / 2;
  const [lamp, gallery, tower, rock] = [y0 + 1.5, y0 + 2.75, y0 + 3.25, y1 - 0.75];
  for (const y of [lamp, gallery, tower, rock]) s.cut([x0, y], [x1, y]);
  s.cut([c, y0], [c - 1.375, lamp]);
  s.cut([c, y0], [c + 1.375, lamp]);
  s.lay('sky', [x0 + 0.3, y0 + 0.3], [x1 - 0.3, y0 + 0.3]);
  s.lay('red', [c, lamp - 0.3]);
  s.columns(
    [x0, lamp, x1, gallery],
    [1.625, 1.9375, 2.5, 3.0625, 3.375],
    ['sky', 'slate', 'sun', 'sun', 'slate', 'sky'],
  );
  s.columns([x0, gallery, x1, tower], [1.25, 3.75], ['sky', 'slate', 'sky']);
  const side = (y: number): number => snapped(0.75 + (0.75 * (y - tower)) / (rock - tower));
  for (const sign of [-1, 1]) s.cut([c + sign * side(tower), tower], [c + sign * side(rock), rock]);
  s.lay('sky', [x0 + 0.3, tower + 2], [x1 - 0.3, tower + 2]);
  const stripes = 6;
  for (let k = 0; k < stripes; k++) {
    const y = tower + ((rock - tower) * k) / stripes;
    s.lay(k % 2 === 0 ? 'white' : 'red', [c, y + 0.3]);
    if (k > 0) s.cut([c - side(y), snapped(y)], [c + side(y), snapped(y)]);
  }
  s.cut([x0 + 0.5, y1], [x0 + 1, rock]);
  s.cut([x1 - 0.5, y1], [x1 - 1, rock]);
  s.lay('moss', [x0 + 0.2, rock + 0.2], [x1 - 0.2, rock + 0.2]);
  s.lay('stone', [c, rock + 0.4]);
}

/** A striped buoy in open water. 9 patches. */
function buoy(s: Sketch, [x0, y0, x1, y1]: Box): void {
  const c = (x0 + x1) / 2;
  const [top, foot] = [y0 + 0.75, y1 - 1];
  s.cut([x0, top], [x1, top]);
  s.cut([x0, foot], [x1, foot]);
  s.cut([c - 0.5, top], [c - 1.125, foot]);
  s.cut([c + 0.5, top], [c + 1.125, foot]);
  const [y1st, y2nd] = [top + 1, top + 1.75];
  const side = (y: number): number => snapped(0.5 + (0.625 * (y - top)) / (foot - top));
  for (const y of [y1st, y2nd]) s.cut([c - side(y), y], [c + side(y), y]);
  s.cut([c, top], [c, y1st]);
  s.lay('sea', [c, y0 + 0.3], [c, y1 - 0.3], [x0 + 0.3, foot - 1], [x1 - 0.3, foot - 1]);
  s.lay('red', [c - 0.2, top + 0.6], [c + 0.2, top + 0.6], [c, foot - 0.3]);
  s.lay('white', [c, y1st + 0.3]);
}

/** Funnel, a deck of windows, hull with its stripe. 26 patches. */
function ferry(s: Sketch, [x0, y0, x1, y1]: Box): void {
  const [deck, hull, water] = [y0 + 1, y0 + 2.375, y1 - 0.5];
  for (const y of [deck, hull, water]) s.cut([x0, y], [x1, y]);
  s.columns(
    [x0, y0, x1, deck],
    [4, 4.5, 5, 5.5, 9.5, 10, 10.5],
    ['sea', 'slate', 'red', 'slate', 'sea', 'slate', 'red', 'sea'],
  );
  const [stern, bow] = [x0 + 1.5, x1 - 3];
  s.cut([stern, hull], [stern, deck]);
  s.cut([bow, hull], [bow - 0.5, deck]);
  s.lay('sea', [x0 + 0.5, hull - 0.3], [x1 - 0.5, hull - 0.3]);
  const [sill, head] = [deck + 0.375, hull - 0.375];
  const front = (y: number): number => snapped(bow - (0.5 * (hull - y)) / (hull - deck));
  for (const y of [sill, head]) s.cut([stern, y], [front(y), y]);
  s.lay('white', [stern + 3, deck + 0.2], [stern + 3, hull - 0.2]);
  for (let k = 1; k <= 8; k++) s.cut([stern + 1.125 * k, sill], [stern + 1.125 * k, head]);
  for (let k = 0; k <= 8; k++)
    s.lay(k % 2 === 0 ? 'white' : 'glass', [stern + 1.125 * k + 0.3, (sill + head) / 2]);
  const waist = hull + 0.5;
  const [a, b] = [x0 + 0.5, x1 - 0.5];
  s.cut([a, hull], [x0 + 1.125, water]);
  s.cut([b, hull], [x1 - 2.25, water]);
  const along = (t: number): [number, number] => [snapped(a + 0.625 * t), snapped(b - 1.75 * t)];
  const [left, right] = along((waist - hull) / (water - hull));
  s.cut([left, waist], [right, waist]);
  s.lay('white', [x0 + 6, hull + 0.2]);
  s.lay('red', [x0 + 6, water - 0.3]);
  s.lay('sea', [x0 + 0.2, water - 0.2], [x1 - 0.3, water - 0.2], [x0 + 6, water + 0.2]);
}

/** Two sails on a mast over a hull. 9 patches. */
function boat(s: Sketch, [x0, y0, x1, y1]: Box): void {
  const [boom, water] = [y1 - 1.5, y1 - 0.5];
  s.cut([x0, boom], [x1, boom]);
  s.cut([x0, water], [x1, water]);
  const mast = x0 + 2;
  s.cut([mast, y0], [mast, boom]);
  s.cut([x0 + 0.5, boom], [mast, y0 + 0.75]);
  s.cut([x1 - 0.5, boom], [mast, y0]);
  s.lay('sea', [x0 + 0.2, y0 + 0.4], [x1 - 0.3, y0 + 0.4]);
  s.lay('cloud', [mast - 0.3, boom - 0.3]);
  s.lay('white', [mast + 0.3, boom - 0.3]);
  s.cut([x0 + 0.25, boom], [x0 + 1, water]);
  s.cut([x1 - 0.25, boom], [x1 - 1, water]);
  s.lay('sea', [x0 + 0.2, water - 0.2], [x1 - 0.2, water - 0.2], [mast, y1 - 0.2]);
  s.lay('brick', [mast, water - 0.3]);
}

/** A row of wave crests: `count` peaks and the troughs between. 2 × count + 1 patches. */
function waves(s: Sketch, [x0, y0, x1, y1]: Box, over: string, under: string, count: number): void {
  const step = (x1 - x0) / count;
  for (let k = 0; k < count; k++) {
    const x = x0 + k * step;
    s.cut([x, y1], [x + step / 2, y0]);
    s.cut([x + step / 2, y0], [x + step, y1]);
    s.lay(under, [x + step / 2, y1 - 0.4]);
    s.lay(over, [x + 0.2, y0 + 0.3]);
  }
  s.lay(over, [x1 - 0.2, y0 + 0.3]);
}

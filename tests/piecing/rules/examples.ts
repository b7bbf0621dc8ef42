import { type Drawing, HARBOUR_WALL } from './drawing.ts';

/** One drawing that a rule must find, or must stay silent about. */
export interface Example extends Drawing {
  readonly what: string;
  /** Findings of the code that there are to be; one when left out. */
  readonly times?: number;
  /** Patches the finding is about, by a point in each, when that is to be checked. */
  readonly about?: string;
  /** Cuts the finding names, by place counted from 1, when that is to be checked. */
  readonly names?: readonly number[];
  /** Holds only at the size drawn: a length decides. */
  readonly isSized?: boolean;
  /** Holds only as it stands, or turned by quarters: the grain, or which is sewn last, decides. */
  readonly isUpright?: boolean;
}

export interface Examples {
  readonly found: readonly Example[];
  readonly silent: readonly Example[];
}

const spokes = (count: number, reach = 12): string =>
  Array.from({ length: count }, (_, k) => {
    const angle = 0.1 + (2 * Math.PI * k) / count;
    return `3,3>${(3 + reach * Math.cos(angle)).toFixed(4)},${(3 + reach * Math.sin(angle)).toFixed(4)}`;
  }).join(' ');

const strips = (count: number): string =>
  Array.from({ length: count - 1 }, (_, k) => `${k + 1},0>${k + 1},6`).join(' ');
const stripOutline = (count: number): string => `0,0 ${count},0 ${count},6 0,6`;

/** Four bars chasing each other round a square; the reverse turns the other way. */
const WINDMILL = '2,0>2,4 0,4>4,4 4,6>4,2 6,2>2,2';
const HOUSE = '2,2>4,2 4,2>4,4 4,4>2,4 2,4>2,2';
const FOUR_PATCH = '3,0>3,6 0,3>6,3';

const lights = { night: 0.2, dusk: 0.45, sand: 0.44, foam: 0.95 };
const options = { lightness: new Map(Object.entries(lights)) };
const alike = { alike: [['night', 'dusk']] as const };

/**
 * Drawings by the code of the rule they are for. What makes each right or wrong is said in words and can be
 * followed on squared paper; bounds are those of common practice (1/4 in allowance, 15°, 8 seams, 20 patches).
 */
export const EXAMPLES: Readonly<Record<string, Examples>> = {
  'unreadable-cut': {
    found: [
      { what: 'an end without a number', cuts: '0,3>6,3 2,2>x,2', names: [2] },
      { what: 'no number at all', cuts: '0,3>6,3 x,x>x,x', names: [2] },
      { what: 'two of them', cuts: '0,3>6,3 x,2>3,3 1,1>1,y', times: 2 },
    ],
    silent: [
      { what: 'plain cuts', cuts: FOUR_PATCH },
      { what: 'a cut of no length', cuts: '0,3>6,3 2,2>2,2' },
    ],
  },
  ring: {
    found: [
      { what: 'four bars round a square', cuts: WINDMILL, about: '1,1 5,1 5,5 1,5 3,3' },
      { what: 'the same the other way round', cuts: '4,0>4,4 6,4>2,4 2,6>2,2 0,2>4,2' },
      { what: 'an attic window: three lines meet, none runs on', cuts: '2,0>2,4 2,4>6,4 0,6>2,4' },
      { what: 'three bars chasing each other', cuts: '0,2>4,2 4,0>3,5 3.4,3>1,6 3.4,3>1,2 2,0>2,2 6,5>3,5' },
      { what: 'a house in a field', cuts: HOUSE },
      {
        what: 'a house held by two bent fields',
        cuts: `${HOUSE} 0,2>2,2 4,4>6,4`,
        times: 2,
        about: '3,3 5,1 1,5',
      },
      {
        what: 'a windmill in one half of a block',
        outline: '0,0 12,0 12,6 0,6',
        cuts: `${WINDMILL} 6,0>6,6 9,0>9,6`,
        about: '1,1 5,1 5,5 1,5 3,3',
      },
    ],
    silent: [
      { what: 'a four patch', cuts: FOUR_PATCH },
      { what: 'a log cabin', cuts: '2,0>2,4 0,4>4,4 4,0>4,6 2,2>4,2' },
      { what: 'a windmill with one line drawn through', cuts: '2,0>2,6 0,4>4,4 4,6>4,2 6,2>2,2' },
      { what: 'eight lines through one spot', cuts: '3,0>3,6 0,3>6,3 0,0>6,6 0,6>6,0' },
    ],
  },
  island: {
    found: [
      { what: 'a house in a field', cuts: HOUSE, about: '1,1' },
      { what: 'two houses', cuts: `${HOUSE} 1,1>1.5,1 1.5,1>1,1.5 1,1.5>1,1`, times: 2 },
      { what: 'an island in a row', cuts: `${HOUSE} 0,1>6,1 0,5>6,5` },
    ],
    silent: [
      { what: 'a house that a line runs through', cuts: `${HOUSE} 0,3>6,3` },
      { what: 'a house on the edge', cuts: '2,0>2,2 2,2>4,2 4,2>4,0' },
      { what: 'a house tied to the edge on two sides', cuts: `${HOUSE} 0,2>2,2 4,4>6,4` },
    ],
  },
  'pin-refused': {
    found: [
      {
        what: 'a crossing of which both lines are to stay inside',
        cuts: FOUR_PATCH,
        roles: { 1: 'seam', 2: 'seam' },
      },
      {
        what: 'a line that must be a join',
        cuts: '0,3>6,3 2,0>2,3 4,3>4,6',
        roles: { 1: 'seam' },
        names: [1],
      },
      {
        what: 'a join that stops in mid-block with nothing to run on to',
        cuts: '2,0>2,6 2,3>6,3 4,3>4,6 0,2>2,2 3,0>3,3',
        roles: { 2: 'seam' },
        names: [2],
      },
    ],
    silent: [
      { what: 'a join right across', cuts: '2,0>2,6 4,0>4,6', roles: { 1: 'join' } },
      { what: 'a seam that may stay inside', cuts: FOUR_PATCH, roles: { 1: 'seam' } },
      { what: 'nothing pinned', cuts: FOUR_PATCH },
    ],
  },
  'order-refused': {
    found: [
      { what: 'both sides before the middle', cuts: '2,0>2,6 4,0>4,6', orders: ['1,1 5,1 3,1'] },
      {
        what: 'a corner sewn before its neighbour runs past it',
        cuts: '2,0>2,6 2,2>6,2 4,2>4,6',
        orders: ['1,1 5,5 4,1 3,5'],
      },
      {
        what: 'a first patch that two others close in on',
        cuts: '2,0>2,6 2,2>6,2 4,2>4,6',
        orders: ['1,1 5,5'],
      },
    ],
    silent: [
      { what: 'from the middle out', cuts: '2,0>2,6 4,0>4,6', orders: ['3,1 5,1 1,1'] },
      { what: 'a first patch that may be first', cuts: '2,0>2,6 4,0>4,6', orders: ['3,1'] },
      { what: 'no order', cuts: FOUR_PATCH },
    ],
  },
  'loose-end': {
    found: [
      { what: 'a line that runs on past a junction', cuts: '0,3>6,3 2,0>2,4', names: [2] },
      { what: 'one that runs on at both ends', cuts: '1,0>1,6 5,0>5,6 0.5,3>5.5,3', names: [3], times: 2 },
      {
        what: 'one that stops 1/16 in past the line',
        cuts: '0,3>6,3 2,0>2,3.0625',
        names: [2],
        isSized: true,
      },
    ],
    silent: [
      { what: 'T-junctions', cuts: '0,3>6,3 2,0>2,3 4,3>4,6' },
      { what: 'an end 0.04 mm past the line', cuts: '0,3>6,3 2,0>2,3.0015', isSized: true },
      { what: 'an end 0.04 mm short of it', cuts: '0,3>6,3 2,0>2,2.9985', isSized: true },
    ],
  },
  'idle-cut': {
    found: [
      { what: 'a line that touches nothing', cuts: '0,3>6,3 1,1>2,2', names: [2] },
      { what: 'a line from the edge that ends in mid-patch', cuts: '0,3>6,3 2,0>2,2', names: [2] },
      { what: 'a line 1/16 in short of the next', cuts: '0,3>6,3 2,0>2,2.9375', names: [2], isSized: true },
      { what: 'two that hang on each other', cuts: '0,3>6,3 2,0>2,2 2,1>3,1', times: 2 },
    ],
    silent: [
      { what: 'lines from line to line', cuts: '0,3>6,3 2,0>2,3' },
      { what: 'two lines that divide together', cuts: '0,3>6,3 2,0>2,2 2,2>0,2' },
    ],
  },
  'overlapping-cut': {
    found: [
      { what: 'a line drawn twice', cuts: '0,3>6,3 6,3>0,3', names: [1, 2] },
      { what: 'a line on part of another', cuts: '0,3>6,3 1,3>4,3', names: [1, 2] },
      { what: 'a line on the outline', cuts: '0,3>6,3 1,0>4,0', names: [2] },
    ],
    silent: [
      { what: 'a line drawn in two goes', cuts: '0,3>2,3 2,3>6,3' },
      { what: 'lines side by side, 1/8 in apart', cuts: '0,3>6,3 0,3.125>6,3.125', isSized: true },
    ],
  },
  'drawn-twice': {
    found: [
      {
        what: 'two lines 1/64 in apart',
        cuts: '0,3>6,3 0,3.015625>6,3.015625',
        names: [1, 2],
        isSized: true,
      },
      { what: 'one beside a part of the other', cuts: '0,3>6,3 1,3.01>4,3.02', names: [1, 2], isSized: true },
    ],
    silent: [
      { what: 'lines side by side, 1/16 in apart', cuts: '0,3>6,3 0,3.0625>6,3.0625', isSized: true },
      { what: 'a line on another', cuts: '0,3>6,3 6,3>0,3' },
      { what: 'lines that cross at a sharp angle', cuts: '0,3>6,3 0,2>6,4' },
      { what: 'a line drawn on a hair beside', cuts: '0,3>3,3 3,3.01>6,3.01', isSized: true },
    ],
  },
  'short-cut': {
    found: [
      { what: 'a press without a drag', cuts: '0,3>6,3 2,2>2,2', names: [2] },
      { what: 'shorter than a printed line is wide', cuts: '0,3>6,3 2,2>2.001,2', names: [2], isSized: true },
    ],
    silent: [
      { what: 'a short line that divides', cuts: '0,0.5>0.5,0' },
      { what: 'a loose line of 1/2 in', cuts: '0,3>6,3 2,2>2.5,2' },
    ],
  },
  'outside-cut': {
    found: [
      { what: 'beside the block', cuts: '0,3>6,3 7,1>8,5', names: [2] },
      {
        what: 'between the arms of the outline',
        outline: HARBOUR_WALL,
        cuts: '2,5>4,5 2.5,1>3.5,3',
        names: [2],
      },
    ],
    silent: [
      { what: 'cuts inside', cuts: FOUR_PATCH },
      { what: 'a cut over the edge', cuts: '-1,3>7,3' },
    ],
  },
  'past-outline': {
    found: [
      { what: 'past both sides', cuts: '-1,3>7,3', names: [1] },
      { what: 'past one side', cuts: '0,3>7,3', names: [1] },
    ],
    silent: [
      { what: 'from edge to edge', cuts: FOUR_PATCH },
      { what: 'an end 0.04 mm past the edge', cuts: '0,3>6.0015,3', isSized: true },
    ],
  },
  'near-miss': {
    found: [
      {
        what: 'seams that miss each other by 1/8 in',
        cuts: '0,3>6,3 2,0>2,3 2.125,3>2.125,6',
        isSized: true,
      },
      {
        what: 'slanting seams that miss by 3/16 in',
        cuts: '0,3>6,3 1,0>3,3 3.1875,3>5,6',
        isSized: true,
      },
    ],
    silent: [
      { what: 'seams that meet', cuts: '0,3>6,3 2,0>2,3 2,3>3,6' },
      { what: 'exactly 1/4 in apart', cuts: '0,3>6,3 2,0>2,3 2.25,3>2.25,6', isSized: true, isUpright: true },
      {
        what: 'seams from one side that lie close together at the join',
        cuts: '0,3>6,3 2,0>1,3 2.5,0>1.2,3 4,3>4,6',
        isSized: true,
      },
    ],
  },
  sliver: {
    found: [
      { what: 'a strip 3/16 in wide', cuts: '3,0>3,6 3.1875,0>3.1875,6', about: '3.1,3', isSized: true },
      {
        what: 'a strip 1/64 in under 1/4 in',
        cuts: '3,0>3,6 3.234375,0>3.234375,6',
        about: '3.1,3',
        isSized: true,
      },
      {
        what: 'a frame 1/8 in wide on two sides',
        cuts: '0.125,0>0.125,5.875 0.125,5.875>6,5.875',
        about: '0.06,3',
        isSized: true,
      },
      { what: 'a low triangle', cuts: '1,6>3,5.8 3,5.8>5,6', about: '3,5.9', isSized: true },
    ],
    silent: [
      { what: 'a strip exactly 1/4 in wide', cuts: '3,0>3,6 3.25,0>3.25,6', isSized: true },
      { what: 'a strip 1/64 in over 1/4 in', cuts: '3,0>3,6 3.265625,0>3.265625,6', isSized: true },
      { what: 'a small square of 1/4 in', cuts: '0,0.25>0.25,0.25 0.25,0>0.25,0.25', isSized: true },
    ],
  },
  'sharp-angle': {
    found: [
      { what: 'a corner of 10°', cuts: '0,6>6,4.942', about: '5,5.5' },
      { what: 'a corner of 14.9°', cuts: '0,6>6,4.40349', about: '5,5.5' },
      { what: 'one at each of two lines', cuts: '0,6>6,4.942 0,0>6,1.058', times: 2 },
    ],
    silent: [
      { what: 'a corner of exactly 15°', cuts: '0,6>6,4.3923048' },
      { what: 'a corner of 15.1°', cuts: '0,6>6,4.3810' },
      { what: 'a T-junction on a side', cuts: '0,3>6,3 2,0>2,3' },
    ],
  },
  'inward-corner': {
    found: [
      { what: 'an L of cloth', cuts: '0,3>3,3 3,3>3,0', about: '5,5' },
      { what: 'a dart', cuts: '0,0>3,2 3,2>6,0', about: '3,5' },
      {
        what: 'the bar of an outline with two arms, not cut there',
        outline: HARBOUR_WALL,
        cuts: '0,2>2,2',
        times: 1,
      },
    ],
    silent: [
      { what: 'a four patch', cuts: FOUR_PATCH },
      { what: 'T-junctions on straight sides', cuts: '0,3>6,3 2,0>2,3 4,3>4,6' },
      { what: 'arms cut off at the inward corners', outline: HARBOUR_WALL, cuts: '2,4>2,6 4,4>4,6' },
    ],
  },
  'many-seams': {
    found: [
      { what: 'nine seams in a point', cuts: spokes(9) },
      { what: 'twelve seams in a point', cuts: spokes(12) },
    ],
    silent: [
      { what: 'eight seams in a point', cuts: spokes(8) },
      { what: 'four lines through a point', cuts: '3,0>3,6 0,3>6,3 0,0>6,6 0,6>6,0' },
      {
        what: 'nine lines to a spot on the edge, eight of them seams',
        cuts: '0,6>1,0 0,6>2,0 0,6>3,0 0,6>4,0 0,6>6,0 0,6>6,1 0,6>6,3 0,6>6,5',
      },
    ],
  },
  'many-patches': {
    found: [
      { what: '21 strips on one foundation', outline: stripOutline(21), cuts: strips(21) },
      { what: '30 strips on one foundation', outline: stripOutline(30), cuts: strips(30) },
    ],
    silent: [
      { what: '20 strips on one foundation', outline: stripOutline(20), cuts: strips(20) },
      {
        what: '21 strips on two foundations',
        outline: stripOutline(21),
        cuts: strips(21),
        roles: { 10: 'join' },
      },
    ],
  },
  knot: {
    found: [
      { what: 'a four patch', cuts: FOUR_PATCH, about: '1,1 5,1 5,5 1,5' },
      {
        what: 'seams that do not meet, from two sides',
        cuts: '0,3>6,3 2,0>2,3 4,3>4,6',
        about: '1,1 5,1 1,5 5,5',
      },
      { what: 'a quarter-square triangle', cuts: '0,0>6,6 0,6>6,0' },
    ],
    silent: [
      { what: 'one foundation', cuts: '2,0>2,4 0,4>4,4 4,0>4,6 2,2>4,2' },
      {
        what: 'two foundations only because a join is marked',
        cuts: '2,0>2,6 4,0>4,6',
        roles: { 1: 'join' },
      },
      { what: 'a ring, which is told as one', cuts: WINDMILL },
    ],
  },
  oversize: {
    found: [
      {
        what: 'wider than the sheet',
        cuts: '0,3>6,3',
        options: { paper: { width: 6, height: 20, allowance: 0.25 } },
        isSized: true,
        isUpright: true,
      },
      {
        what: 'only the allowance too wide',
        cuts: '0,3>6,3',
        options: { paper: { width: 6.49, height: 6.49, allowance: 0.25 } },
        isSized: true,
        isUpright: true,
      },
    ],
    silent: [
      {
        what: 'just the size of the sheet',
        cuts: '0,3>6,3',
        options: { paper: { width: 6.5, height: 6.5, allowance: 0.25 } },
        isSized: true,
        isUpright: true,
      },
      {
        what: 'a fit only the other way up',
        outline: '0,0 9,0 9,6 0,6',
        cuts: '0,3>9,3',
        options: { paper: { width: 7, height: 10, allowance: 0.25 } },
        isSized: true,
        isUpright: true,
      },
      {
        what: 'two halves that fit where the whole would not',
        outline: '0,0 12,0 12,6 0,6',
        cuts: '6,0>6,6',
        roles: { 1: 'join' },
        options: { paper: { width: 8.5, height: 11, allowance: 0.25 } },
        isSized: true,
        isUpright: true,
      },
      { what: 'no paper chosen', cuts: '0,3>6,3' },
    ],
  },
  'fold-over-stitches': {
    found: [
      {
        what: 'a seam in one arm, after the whole other arm',
        outline: HARBOUR_WALL,
        cuts: '0,2>2,2 4,4>4,6',
        orders: ['1,3 5,1 1,1'],
      },
      {
        what: 'the same in the other arm',
        outline: HARBOUR_WALL,
        cuts: '4,2>6,2 2,4>2,6',
        orders: ['5,3 1,1 5,1'],
      },
    ],
    silent: [
      { what: 'a convex block', cuts: '2,0>2,4 0,4>4,4 4,0>4,6 2,2>4,2' },
      {
        what: 'the arm with the seam first',
        outline: HARBOUR_WALL,
        cuts: '0,2>2,2 4,4>4,6',
        orders: ['1,3 1,1 5,1'],
      },
      { what: 'folds along the inward corners', outline: HARBOUR_WALL, cuts: '2,4>2,6 4,4>4,6' },
    ],
  },
  shadowing: {
    found: [
      {
        what: 'foam sewn over night',
        cuts: '0,3>6,3',
        paint: '3,1=night 3,5=foam',
        orders: ['3,1 3,5'],
        options,
      },
      {
        what: 'a step of exactly a quarter',
        cuts: '0,3>6,3',
        paint: '3,1=night 3,5=dusk',
        orders: ['3,1 3,5'],
        options,
      },
    ],
    silent: [
      {
        what: 'night sewn over foam',
        cuts: '0,3>6,3',
        paint: '3,1=night 3,5=foam',
        orders: ['3,5 3,1'],
        options,
      },
      { what: 'nearly alike', cuts: '0,3>6,3', paint: '3,1=night 3,5=sand', orders: ['3,1 3,5'], options },
      {
        what: 'light and dark across a join',
        cuts: '0,3>6,3',
        roles: { 1: 'join' },
        paint: '3,1=night 3,5=foam',
        options,
      },
      { what: 'one of them bare', cuts: '0,3>6,3', paint: '3,1=night', orders: ['3,1 3,5'], options },
    ],
  },
  'alike-neighbours': {
    found: [
      { what: 'two blues nobody tells apart', cuts: '0,3>6,3', paint: '3,1=night 3,5=dusk', options: alike },
      {
        what: 'the same across a join',
        cuts: '0,3>6,3',
        roles: { 1: 'join' },
        paint: '3,1=dusk 3,5=night',
        options: alike,
      },
    ],
    silent: [
      { what: 'one fabric on both sides', cuts: '0,3>6,3', paint: '3,1=night 3,5=night', options: alike },
      { what: 'others', cuts: '0,3>6,3', paint: '3,1=night 3,5=foam', options: alike },
      {
        what: 'alike, but not side by side',
        cuts: '0,2>6,2 0,4>6,4',
        paint: '3,1=night 3,3=foam 3,5=dusk',
        options: alike,
      },
      { what: 'one of them bare', cuts: '0,3>6,3', paint: '3,1=night', options: alike },
    ],
  },
  'bias-edge': {
    found: [
      { what: 'a triangle', outline: '0,6 3,0 6,6', cuts: '3,0>3,6', isUpright: true },
      { what: 'a square on its corner', outline: '3,0 6,3 3,6 0,3', cuts: '3,0>3,6', isUpright: true },
      { what: 'one slanting side', outline: '0,0 6,0 6,6 0,5.9', cuts: '3,0>3,6', isUpright: true },
    ],
    silent: [
      { what: 'a square', cuts: FOUR_PATCH, isUpright: true },
      { what: 'a square with slanting seams', cuts: '0,0>6,6 0,6>6,0', isUpright: true },
      { what: 'level and upright sides only', outline: HARBOUR_WALL, cuts: '2,4>2,6', isUpright: true },
    ],
  },
  'mirror-sensitive': {
    found: [
      { what: 'a windmill', cuts: WINDMILL },
      {
        what: 'a pinwheel in two fabrics',
        cuts: '3,0>3,6 0,3>6,3 0,0>6,6 0,6>6,0',
        paint: '2,1=night 4,1=foam 5,2=night 5,4=foam 4,5=night 2,5=foam 1,4=night 1,2=foam',
      },
      { what: 'a log cabin', cuts: '2,0>2,4 0,4>4,4 4,0>4,6 2,2>4,2' },
    ],
    silent: [
      { what: 'a four patch', cuts: FOUR_PATCH },
      { what: 'a goose', outline: '0,0 6,0 6,3 0,3', cuts: '0,3>3,0 3,0>6,3' },
      { what: 'one diagonal, light and dark', cuts: '0,0>6,6', paint: '4,2=night 2,4=night' },
      { what: 'a pinwheel all in one', cuts: '3,0>3,6 0,3>6,3 0,0>6,6 0,6>6,0' },
      { what: 'one patch', cuts: '' },
    ],
  },
  unpainted: {
    found: [
      { what: 'nothing painted', cuts: FOUR_PATCH, about: '1,1 5,1 5,5 1,5' },
      { what: 'one patch left bare', cuts: FOUR_PATCH, paint: '1,1=night 5,1=foam 5,5=sand', about: '1,5' },
    ],
    silent: [
      { what: 'all painted', cuts: '0,3>6,3', paint: '1,1=night 1,5=foam' },
      { what: 'one patch, painted', cuts: '', paint: '1,1=night' },
    ],
  },
};

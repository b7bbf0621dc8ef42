import type { Point, Ring } from '../../src/geometry/point.ts';
import type { Block, CutRole } from '../../src/piecing/block.ts';

/**
 * Ten blocks of a harbour town that cannot be sewn, or only in too many papers, as a maker might draw them: each
 * with the finding that must explain it and what must be true once it is cured.
 */
export interface Trouble {
  readonly name: string;
  readonly block: Block;
  /** Code of the finding that explains it. */
  readonly code: string;
  /** Cuts its sentence names, counted from 1; empty where it speaks of patches. */
  readonly cuts: readonly number[];
  /** A point in each patch its sentence names; empty where it speaks of cuts. */
  readonly patches: readonly Point[];
  /** When it is cured: foundations at most, and patches at least, so that no part of the picture is given up. */
  readonly papers: number;
  readonly leastPatches: number;
}

interface Sketch {
  readonly name: string;
  readonly code: string;
  readonly papers: number;
  readonly keeps: number;
  readonly outline?: string;
  /** `x,y>x,y`, one for each cut. */
  readonly cuts: string;
  /** Cuts and patches the sentence names. */
  readonly names?: readonly number[];
  readonly about?: string;
  readonly paint?: string;
  readonly roles?: Readonly<Record<number, CutRole>>;
}

const SKETCHES: readonly Sketch[] = [
  {
    name: 'Windmill on the mole, its three sails meeting in a Y',
    code: 'ring',
    about: '3,1 1,4 5,4',
    cuts: '0,0>3,3 6,0>3,3 3,3>3,6',
    papers: 2,
    keeps: 3,
  },
  {
    name: 'Lamp room with four walls chasing each other',
    code: 'ring',
    about: '1,1 5,1 5,5 1,5 3,3',
    cuts: '2,0>2,4 0,4>4,4 4,6>4,2 6,2>2,2',
    papers: 3,
    keeps: 5,
  },
  {
    name: 'Buoy adrift in open water',
    code: 'island',
    about: '1,1',
    cuts: '3,2>4,3 4,3>3,4 3,4>2,3 2,3>3,2',
    papers: 3,
    keeps: 2,
  },
  {
    name: 'Jetty that stops 1/16 in short of the quay',
    code: 'idle-cut',
    names: [2],
    cuts: '0,4>6,4 2,0>2,3.9375 4,0>4,4',
    papers: 1,
    keeps: 4,
  },
  {
    name: 'Horizon that jumps 1/8 in behind the mast',
    code: 'knot',
    about: '1,1 5,1 1,5 5,5',
    cuts: '3,0>3,6 0,3>3,3 3,3.125>6,3.125',
    papers: 2,
    keeps: 4,
  },
  {
    name: 'Hull and sail that miss each other by 1/8 in',
    code: 'near-miss',
    cuts: '0,3>6,3 2,0>2,3 2.125,3>2.125,6 4,3>4,6',
    papers: 2,
    keeps: 5,
  },
  {
    name: 'Attic window over the harbour, with a mitred sill',
    code: 'ring',
    about: '1,3 3,5 4,2',
    cuts: '2,0>2,4 2,4>6,4 0,6>2,4',
    papers: 2,
    keeps: 3,
  },
  {
    name: 'Morning star with a square set in between its points',
    code: 'ring',
    about: '5,1 4,5 1,3',
    cuts: '0,6>2.4853,3.5147 2.4853,3.5147>2.4853,0 2.4853,3.5147>6,3.5147 0,2.4853>2.4853,0 3.5147,6>6,3.5147',
    papers: 2,
    keeps: 5,
  },
  {
    name: 'Snail on the harbour wall, a trail of eight papers',
    code: 'knot',
    about: '4.5,4.5 5.5,4.5 4.5,5.5 5.5,5.5',
    outline: '0,0 10,0 10,10 0,10',
    cuts: '5,0>10,5 10,5>5,10 5,10>0,5 0,5>5,0 2.5,2.5>7.5,2.5 7.5,2.5>7.5,7.5 7.5,7.5>2.5,7.5 2.5,7.5>2.5,2.5 5,2.5>5,7.5 2.5,5>7.5,5',
    papers: 3,
    keeps: 12,
  },
  {
    name: 'Net loft whose long rope is to stay whole',
    code: 'pin-refused',
    names: [1],
    cuts: '0,3>6,3 2,0>2,3 4,3>4,6',
    roles: { 1: 'seam' },
    papers: 2,
    keeps: 4,
  },
];

const pointOf = (text: string): Point => {
  const [x, y] = text.split(',').map(Number);
  return [x!, y!];
};
const pointsOf = (text: string): Ring => text.split(' ').map(pointOf);

export const TEN_TROUBLES: readonly Trouble[] = SKETCHES.map((sketch, k) => ({
  name: sketch.name,
  code: sketch.code,
  papers: sketch.papers,
  leastPatches: sketch.keeps,
  cuts: sketch.names ?? [],
  patches: sketch.about === undefined ? [] : pointsOf(sketch.about),
  block: {
    id: `trouble-${k + 1}`,
    name: sketch.name,
    outline: pointsOf(sketch.outline ?? '0,0 6,0 6,6 0,6'),
    cuts: sketch.cuts.split(' ').map((text, i) => {
      const [from, to] = text.split('>').map(pointOf);
      return { id: `c${i + 1}`, from: from!, to: to!, role: sketch.roles?.[i + 1] ?? 'auto' };
    }),
    patches: [],
  },
}));

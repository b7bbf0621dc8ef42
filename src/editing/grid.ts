import type { Unit } from '../document/project.ts';
import { MM_PER_IN } from '../geometry/lattice.ts';
import type { Point, Ring, Segment } from '../geometry/point.ts';
import { edgesOf } from '../geometry/segments.ts';
import { phrase } from '../words/phrase.ts';

/** A grid a person may choose: its step in inches and how it is spoken. */
export interface GridStep {
  readonly key: string;
  readonly stepIn: number;
  readonly label: string;
}

const INCH_STEPS: readonly GridStep[] = [
  { key: '1/8', stepIn: 1 / 8, label: '1/8 in' },
  { key: '1/4', stepIn: 1 / 4, label: '1/4 in' },
  { key: '1/2', stepIn: 1 / 2, label: '1/2 in' },
  { key: '1', stepIn: 1, label: '1 in' },
];

const MM_STEPS: readonly GridStep[] = [2.5, 5, 10, 25].map((mm) => ({
  key: `${mm}mm`,
  stepIn: mm / MM_PER_IN,
  label: phrase('{mm} mm', { mm }),
}));

/** Steps on offer in a unit; the default one is 1/4 in or 5 mm. */
export const gridSteps = (unit: Unit): readonly GridStep[] => (unit === 'mm' ? MM_STEPS : INCH_STEPS);

/** The step with this key, or the unit's default. */
export function gridStep(unit: Unit, key: string | null): GridStep {
  const steps = gridSteps(unit);
  return steps.find((step) => step.key === key) ?? steps[1]!;
}

/** The next finer or coarser step; itself at either end. */
export function neighbouringStep(unit: Unit, key: string, direction: 'finer' | 'coarser'): GridStep {
  const steps = gridSteps(unit);
  const index = steps.findIndex((step) => step.key === key);
  const next = index + (direction === 'finer' ? -1 : 1);
  return steps[Math.min(steps.length - 1, Math.max(0, next))]!;
}

/** `square`: lines level and upright. `sixty`: level ones and two slants of 60°, as on triangle paper. */
export type GridKind = 'square' | 'sixty';

/** The grid an outline asks for: triangle paper where every side runs along it, as of a triangle or a hexagon. */
export const gridKindFor = (outline: Ring): GridKind =>
  outline.length > 2 && edgesOf(outline).every(runsAtSixty) ? 'sixty' : 'square';

/** Degrees that the sides of an outline may be off triangle paper: forgives the lattice, nothing more. */
const OFF_SIXTY_DEG = 0.1;

function runsAtSixty([from, to]: Segment): boolean {
  const degrees = (Math.atan2(to[1] - from[1], to[0] - from[0]) * 180) / Math.PI + 360;
  const off = degrees % 60;
  return Math.min(off, 60 - off) <= OFF_SIXTY_DEG;
}

/** A place that lies on the grid of an outline: triangle paper goes through its first corner, and so through all. */
export const gridOriginFor = (kind: GridKind, outline: Ring): Point =>
  kind === 'sixty' ? (outline[0] ?? ORIGIN) : ORIGIN;

const ORIGIN: Point = [0, 0];

/** Height of a row of triangles with unit sides. */
const ROW = Math.sqrt(3) / 2;

/** Unit normals of a grid's families of lines, all of them through [0, 0]. */
const NORMALS: Readonly<Record<GridKind, readonly Point[]>> = {
  square: [
    [1, 0],
    [0, 1],
  ],
  sixty: [
    [0, 1],
    [ROW, 1 / 2],
    [ROW, -1 / 2],
  ],
};

/** How far apart the lines of one family lie, inches. */
export const gridSpacing = (kind: GridKind, stepIn: number): number =>
  kind === 'square' ? stepIn : stepIn * ROW;

/** Of each family the line of the grid nearest to a place, as a stretch of 2 in about it. */
export function gridLinesNear(
  kind: GridKind,
  stepIn: number,
  at: Point,
  origin: Point = ORIGIN,
): readonly Segment[] {
  const spacing = gridSpacing(kind, stepIn);
  return NORMALS[kind].map(([nx, ny]): Segment => {
    const away = (at[0] - origin[0]) * nx + (at[1] - origin[1]) * ny;
    const by = Math.round(away / spacing) * spacing - away;
    const foot: Point = [at[0] + nx * by, at[1] + ny * by];
    return [
      [foot[0] - ny, foot[1] + nx],
      [foot[0] + ny, foot[1] - nx],
    ];
  });
}

/** The crossing of grid lines nearest to a place. */
export function gridSpotNear(kind: GridKind, stepIn: number, place: Point, origin: Point = ORIGIN): Point {
  const [x, y] = [place[0] - origin[0], place[1] - origin[1]];
  if (kind === 'square')
    return [Math.round(x / stepIn) * stepIn + origin[0], Math.round(y / stepIn) * stepIn + origin[1]];
  const height = gridSpacing(kind, stepIn);
  const above = Math.floor(y / height);
  const spots = [above, above + 1].map((row): Point => {
    const shift = (Math.abs(row) % 2) * (stepIn / 2);
    return [Math.round((x - shift) / stepIn) * stepIn + shift, row * height];
  });
  const away = ([sx, sy]: Point) => Math.hypot(sx - x, sy - y);
  const [sx, sy] = away(spots[0]!) <= away(spots[1]!) ? spots[0]! : spots[1]!;
  return [sx + origin[0], sy + origin[1]];
}

/** Every line of the grid that crosses a box, from side to side of it, family by family. */
export function gridLinesIn(
  kind: GridKind,
  stepIn: number,
  box: { readonly minX: number; readonly minY: number; readonly maxX: number; readonly maxY: number },
  origin: Point = ORIGIN,
): readonly Segment[] {
  const spacing = gridSpacing(kind, stepIn);
  const corners: readonly Point[] = [
    [box.minX, box.minY],
    [box.maxX, box.minY],
    [box.maxX, box.maxY],
    [box.minX, box.maxY],
  ];
  return NORMALS[kind].flatMap(([nx, ny]): readonly Segment[] => {
    const through = origin[0] * nx + origin[1] * ny;
    const aways = corners.map(([x, y]) => x * nx + y * ny - through);
    const first = Math.ceil(Math.min(...aways) / spacing - 1e-6);
    const last = Math.floor(Math.max(...aways) / spacing + 1e-6);
    if (last - first > 2000) return [];
    return Array.from({ length: last - first + 1 }, (_, index) => {
      const away = (first + index) * spacing + through;
      const line: Segment = [
        [nx * away - ny, ny * away + nx],
        [nx * away + ny, ny * away - nx],
      ];
      return clippedToBox(line, box);
    }).filter((line) => line !== null);
  });
}

/** The part of an endless line within a box, or null. Liang and Barsky's way. */
function clippedToBox(
  [from, to]: Segment,
  box: { readonly minX: number; readonly minY: number; readonly maxX: number; readonly maxY: number },
): Segment | null {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  let enter = Number.NEGATIVE_INFINITY;
  let leave = Number.POSITIVE_INFINITY;
  for (const [speed, least, most] of [
    [dx, box.minX - from[0], box.maxX - from[0]],
    [dy, box.minY - from[1], box.maxY - from[1]],
  ] as const) {
    if (Math.abs(speed) < 1e-12) {
      if (least > 1e-9 || most < -1e-9) return null;
      continue;
    }
    enter = Math.max(enter, Math.min(least / speed, most / speed));
    leave = Math.min(leave, Math.max(least / speed, most / speed));
  }
  if (leave - enter <= 1e-9) return null;
  return [
    [from[0] + dx * enter, from[1] + dy * enter],
    [from[0] + dx * leave, from[1] + dy * leave],
  ];
}

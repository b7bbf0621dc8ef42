import { type Area, levelStretches } from '../../geometry/inner-spot.ts';
import type { Point, Ring, Segment } from '../../geometry/point.ts';
import { boxOf } from '../../geometry/ring.ts';
import { type Mark, shiftMark } from '../marks.ts';
import { insideBox, type LabelBox } from './ground.ts';
import type { LaidPatch } from './label-request.ts';

/**
 * How patches show their fabric beside its name: `outline` not at all, so that little ink comes under the iron;
 * `shaded` in a light tint of its colour; `hatched` in thin lines, a way of its own for each fabric.
 */
export type FabricStyle = 'outline' | 'shaded' | 'hatched';

/** How much of a fabric's colour is in its tint; the rest is white. */
const TINT = 0.3;

/** Slope and spacing of the lines, in degrees and inches, fabric by fabric, then over again. */
const HATCHES: readonly (readonly [slope: number, spacing: number])[] = [
  [45, 0.12],
  [-45, 0.12],
  [0, 0.12],
  [90, 0.12],
  [22, 0.08],
  [-22, 0.08],
  [68, 0.08],
  [-68, 0.08],
  [45, 0.22],
  [-45, 0.22],
  [0, 0.22],
  [90, 0.22],
];

/** The fabrics of patches as marks that lie under all others; lines keep off the labels. Inches, on the paper. */
export function fabricMarks(
  patches: readonly LaidPatch[],
  style: FabricStyle,
  labels: readonly LabelBox[],
): Mark[] {
  if (style === 'outline') return [];
  // What has islands comes first, so that theirs come over it.
  const ordered = [...patches].sort((a, b) => b.area.holes.length - a.area.holes.length);
  return ordered.flatMap(({ area, fabric }): Mark[] => {
    if (!fabric?.look) return [];
    return style === 'shaded'
      ? [
          { kind: 'polygon', pen: 'hatch', ring: area.polygon, fill: tintOf(fabric.look.color) },
          ...area.holes.map((ring): Mark => ({ kind: 'polygon', pen: 'hatch', ring, fill: '#ffffff' })),
        ]
      : hatchLines(area, fabric.look.number, labels);
  });
}

/** A colour `#rrggbb` mixed with white. */
export function tintOf(color: string): string {
  const channel = (at: number): string => {
    const value = Number.parseInt(color.slice(at, at + 2), 16);
    return Math.round(255 - TINT * (255 - value))
      .toString(16)
      .padStart(2, '0');
  };
  return `#${channel(1)}${channel(3)}${channel(5)}`;
}

function hatchLines(area: Area, number: number, labels: readonly LabelBox[]): Mark[] {
  const [slope, spacing] = HATCHES[number % HATCHES.length]!;
  const angle = (slope * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const level = ([x, y]: Point): Point => [x * cos + y * sin, y * cos - x * sin];
  const back = ([x, y]: Point): Point => [x * cos - y * sin, x * sin + y * cos];
  const turned = (ring: Ring): Ring => ring.map(level);
  const laid: Area = { polygon: turned(area.polygon), holes: area.holes.map(turned) };
  const { minY, maxY } = boxOf(laid.polygon);
  const marks: Mark[] = [];
  for (let k = Math.ceil(minY / spacing); k * spacing < maxY; k++) {
    // A hair off the whole steps, so that no line runs through a corner.
    const y = k * spacing + 1e-5;
    for (const [from, to] of levelStretches(laid, y))
      for (const points of outsideBoxes([back([from, y]), back([to, y])], labels))
        marks.push({ kind: 'line', pen: 'hatch', points });
  }
  return marks;
}

/** A box with the lines of a fabric, from its upper left corner, as a key shows them. */
export function hatchSample(
  number: number,
  { width, height }: { readonly width: number; readonly height: number },
): Mark[] {
  // A line runs through [0, 0]: laid so far inside, even a low box shows two lines of the narrower spacing.
  const inset = 0.04;
  const [right, foot] = [width - inset, height - inset];
  const ring: Ring = [
    [-inset, -inset],
    [right, -inset],
    [right, foot],
    [-inset, foot],
  ];
  const marks: Mark[] = [
    ...hatchLines({ polygon: ring, holes: [] }, number, []),
    { kind: 'polygon', pen: 'picture', ring },
  ];
  return marks.map((mark) => shiftMark(mark, inset, inset));
}

/** The parts of a straight stretch that lie in none of the boxes. */
function outsideBoxes([a, b]: Segment, boxes: readonly LabelBox[]): Segment[] {
  const covered = boxes
    .map((box) => insideBox(box, [a, b]))
    .filter((part) => part !== null)
    .sort((p, q) => p[0] - q[0]);
  const at = (t: number): Point => [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];
  const parts: Segment[] = [];
  let from = 0;
  for (const [start, end] of covered) {
    if (start > from) parts.push([at(from), at(start)]);
    from = Math.max(from, end);
  }
  if (from < 1) parts.push([at(from), at(1)]);
  return parts;
}

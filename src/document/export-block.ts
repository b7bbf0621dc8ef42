import { holdsPoint } from '../geometry/inner-spot.ts';
import type { Point, Ring, Segment } from '../geometry/point.ts';
import { boxOf } from '../geometry/ring.ts';
import { patchesOf } from './patches-of.ts';
import type { Block, Fabric } from './project.ts';

/** `lines`: the outline and the cuts alone; `colours`: the patches filled with the colours of their fabrics. */
export type PictureKind = 'lines' | 'colours';

/** A block ready to be drawn by anything, its box starting at [0, 0]. Inches at the chosen size, front view. */
export interface BlockDrawing {
  readonly width: number;
  readonly height: number;
  readonly outline: Ring;
  readonly cuts: readonly Segment[];
  /** Patches that carry a fabric, by its colour, with their holes. None in a drawing of lines. */
  readonly fills: readonly { readonly color: string; readonly rings: readonly Ring[] }[];
  /** Width of every line, inches; the picture reaches half of it beyond the box on every side. */
  readonly line: number;
}

/** As thin as reads well on paper: 0.4 mm. */
const LINE_IN = 0.4 / 25.4;

/** The block at a width in inches, its height following. The line is as thin at every size. */
export function drawBlock(
  block: Block,
  fabrics: readonly Fabric[],
  kind: PictureKind,
  widthIn: number,
): BlockDrawing {
  const { minX, minY, maxX, maxY } = boxOf(block.outline);
  const scale = widthIn / (maxX - minX);
  const placed = ([x, y]: Point): Point => [(x - minX) * scale, (y - minY) * scale];
  const colors = new Map(fabrics.map(({ id, color }) => [id, color]));
  const fills =
    kind === 'lines'
      ? []
      : patchesOf(block).flatMap((patch) => {
          // What was laid last shows.
          const fabric = block.paint.findLast(({ at }) => holdsPoint(patch, at))?.fabric;
          const color = fabric === undefined ? undefined : colors.get(fabric);
          return color === undefined
            ? []
            : [{ color, rings: [patch.polygon, ...patch.holes].map((ring) => ring.map(placed)) }];
        });
  return {
    width: widthIn,
    height: (maxY - minY) * scale,
    outline: block.outline.map(placed),
    cuts: block.cuts.map(({ from, to }): Segment => [placed(from), placed(to)]),
    fills,
    line: LINE_IN,
  };
}

/**
 * The drawing as an SVG file that measures true: sizes in inches, a unit of the view box one inch, each cut a line
 * of its own. The outline's own corners lie exactly `width` by `height` apart; the page is wider by one line.
 */
export function toSvgPicture(
  { width, height, outline, cuts, fills, line }: BlockDrawing,
  name: string,
): string {
  const [across, down] = [short(width + line), short(height + line)];
  const lines = cuts.map(
    ([a, b]) => `<line x1="${short(a[0])}" y1="${short(a[1])}" x2="${short(b[0])}" y2="${short(b[1])}"/>`,
  );
  const painted = fills.map(
    ({ color, rings }) => `<path fill="${color}" d="${rings.map(pathOf).join('')}"/>`,
  );
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${across}in" height="${down}in" viewBox="${short(-line / 2)} ${short(-line / 2)} ${across} ${down}">`,
    `<title>${escaped(name)}</title>`,
    painted.length > 0 ? `<g fill-rule="evenodd">${painted.join('')}</g>` : '',
    `<g fill="none" stroke="#1f2530" stroke-width="${short(line)}" stroke-linecap="round" stroke-linejoin="round">`,
    `<path d="${pathOf(outline)}"/>`,
    ...lines,
    '</g></svg>',
    '',
  ].join('\n');
}

const pathOf = (ring: Ring): string => `M${ring.map(([x, y]) => `${short(x)} ${short(y)}`).join('L')}Z`;

/** To a millionth of an inch, below the lattice. */
const short = (inches: number): string => String(Math.round(inches * 1e6) / 1e6 || 0);

const ENTITIES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;' };

/** Signs that XML forbids altogether are left out. */
const escaped = (text: string): string =>
  text.replace(/[^\P{Cc}\t\n\r]|[\uFFFE\uFFFF]/gu, '').replace(/[&<>]/g, (sign) => ENTITIES[sign]!);

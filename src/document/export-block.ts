import type { Point, Ring, Segment } from '../geometry/point.ts';
import { boxOf } from '../geometry/ring.ts';
import { downOf } from './fabric-picture.ts';
import { knownDrawing } from './known-drawing.ts';
import type { Block, Fabric, FabricPicture } from './project.ts';

/** `lines`: the outline and the cuts alone; `colours`: the patches filled with the colours of their fabrics. */
export type PictureKind = 'lines' | 'colours';

/** A block ready to be drawn by anything, its box starting at [0, 0]. Inches at the chosen size, front view. */
export interface BlockDrawing {
  readonly width: number;
  readonly height: number;
  readonly outline: Ring;
  readonly cuts: readonly Segment[];
  /** Patches that carry a fabric, by its colour and its picture, with their holes. None in a drawing of lines. */
  readonly fills: readonly BlockFill[];
  /** How many inches of the drawing an inch of the block takes, and with it of the prints that fill it. */
  readonly scale: number;
  /** Where the block's own [0, 0] lies, from which prints are laid. */
  readonly origin: Point;
  /** Width of every line, inches; the picture reaches half of it beyond the box on every side. */
  readonly line: number;
}

export interface BlockFill {
  readonly color: string;
  readonly picture?: FabricPicture;
  readonly rings: readonly Ring[];
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
  const byId = new Map(fabrics.map((fabric) => [fabric.id, fabric]));
  const fills =
    kind === 'lines'
      ? []
      : (knownDrawing(block)?.patches ?? []).flatMap(({ area, entry }): BlockFill[] => {
          const fabric = byId.get(entry.fabric ?? '');
          if (fabric === undefined) return [];
          const { color, picture } = fabric;
          const rings = [area.polygon, ...area.holes].map((ring) => ring.map(placed));
          return [{ color, rings, ...(picture === undefined ? {} : { picture }) }];
        });
  return {
    width: widthIn,
    height: (maxY - minY) * scale,
    outline: block.outline.map(placed),
    cuts: block.cuts.map(({ from, to }): Segment => [placed(from), placed(to)]),
    fills,
    scale,
    origin: placed([0, 0]),
    line: LINE_IN,
  };
}

/**
 * The drawing as an SVG file that measures true: sizes in inches, a unit of the view box one inch, each cut a line
 * of its own. The outline's own corners lie exactly `width` by `height` apart; the page is wider by one line. Pictures
 * of fabrics are in the file itself, once each, laid side by side from the block's own [0, 0].
 */
export function toSvgPicture(drawing: BlockDrawing, name: string): string {
  const { width, height, outline, cuts, fills, line } = drawing;
  const pictures = [...new Set(fills.flatMap(({ picture }) => picture ?? []))];
  const [across, down] = [short(width + line), short(height + line)];
  const lines = cuts.map(
    ([a, b]) => `<line x1="${short(a[0])}" y1="${short(a[1])}" x2="${short(b[0])}" y2="${short(b[1])}"/>`,
  );
  const painted = fills.map(
    ({ color, picture, rings }) =>
      // The colour stands in where a program cannot show the picture.
      `<path fill="${picture === undefined ? '' : `url(#${printId(pictures.indexOf(picture))}) `}${color}" d="${rings.map(pathOf).join('')}"/>`,
  );
  const patterns = pictures.map((picture, i) => patternText(picture, printId(i), drawing));
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${across}in" height="${down}in" viewBox="${short(-line / 2)} ${short(-line / 2)} ${across} ${down}">`,
    `<title>${escaped(name)}</title>`,
    ...(patterns.length > 0 ? [`<defs>${patterns.join('\n')}</defs>`] : []),
    painted.length > 0 ? `<g fill-rule="evenodd">${painted.join('')}</g>` : '',
    `<g fill="none" stroke="#1f2530" stroke-width="${short(line)}" stroke-linecap="round" stroke-linejoin="round">`,
    `<path d="${pathOf(outline)}"/>`,
    ...lines,
    '</g></svg>',
    '',
  ].join('\n');
}

const printId = (index: number): string => `print-${index + 1}`;

function patternText(picture: FabricPicture, id: string, { scale, origin }: BlockDrawing): string {
  const size = `width="${short(scale * picture.across)}" height="${short(scale * downOf(picture))}"`;
  return `<pattern id="${id}" patternUnits="userSpaceOnUse" x="${short(origin[0])}" y="${short(origin[1])}" ${size}><image ${size} preserveAspectRatio="none" href="${picture.data}"/></pattern>`;
}

const pathOf = (ring: Ring): string => `M${ring.map(([x, y]) => `${short(x)} ${short(y)}`).join('L')}Z`;

/** To a millionth of an inch, below the lattice. */
const short = (inches: number): string => String(Math.round(inches * 1e6) / 1e6 || 0);

const ENTITIES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;' };

/** Signs that XML forbids altogether are left out. */
const escaped = (text: string): string =>
  text.replace(/[^\P{Cc}\t\n\r]|[\uFFFE\uFFFF]/gu, '').replace(/[&<>]/g, (sign) => ENTITIES[sign]!);

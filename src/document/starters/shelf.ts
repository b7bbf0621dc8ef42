import { innerSpot } from '../../geometry/inner-spot.ts';
import type { Point, Ring, Segment } from '../../geometry/point.ts';
import { boxOf, distanceToSegment } from '../../geometry/ring.ts';
import type { DrawnBlock } from '../add-drawn-block.ts';
import { lightnessOfColor } from '../lightness.ts';
import { longLines } from '../long-lines.ts';
import type { Fabric } from '../project.ts';
import { PARAMETRIC } from './parametric.ts';
import type { GridDrawing, Starter } from './starter.ts';
import type { Tone } from './tiles.ts';
import { TRADITIONAL } from './traditional.ts';

/** Every starting point, by name. */
export const SHELF: readonly Starter[] = [...TRADITIONAL, ...PARAMETRIC].sort((a, b) =>
  a.name.localeCompare(b.name, 'en'),
);

/** Ends closer than this, as a share of the drawing's width, are one: far above rounding, far below any patch. */
const SAME = 1e-7;

/**
 * A drawing at a finished width in inches; its height follows. Cuts are the edges between its tiles, each as long
 * as it runs straight; without fabrics nothing is painted.
 */
export function drawnAt(
  name: string,
  drawing: GridDrawing,
  widthIn: number,
  fabrics: readonly Fabric[] = [],
): DrawnBlock {
  const { minX, minY, maxX } = boxOf(drawing.outline);
  const scale = widthIn / (maxX - minX);
  const grown = (ring: Ring): Ring => ring.map(([x, y]): Point => [(x - minX) * scale, (y - minY) * scale]);
  const outline = grown(drawing.outline);
  const same = widthIn * SAME;
  const onOutline = (p: Point, q: Point): boolean =>
    outline.some((a, i) => {
      const b = outline[(i + 1) % outline.length]!;
      return distanceToSegment(p, a, b) <= same && distanceToSegment(q, a, b) <= same;
    });
  const edges: Segment[] = [];
  const paint = new Map<string, Point[]>();
  const fabricFor = suggestFabrics(fabrics);
  for (const { ring: onGrid, tone } of drawing.tiles) {
    const ring = grown(onGrid);
    ring.forEach((a, i) => {
      const b = ring[(i + 1) % ring.length]!;
      if (!onOutline(a, b)) edges.push([a, b]);
    });
    if (fabricFor === null) continue;
    const spots = paint.get(fabricFor[tone]) ?? [];
    spots.push(innerSpot({ polygon: ring, holes: [] }));
    paint.set(fabricFor[tone], spots);
  }
  return { name, outline, cuts: longLines(edges, same).lines, ...(paint.size > 0 && { paint }) };
}

/** Finished height in inches of a drawing at a finished width. */
export function heightAt({ outline }: GridDrawing, widthIn: number): number {
  const { minX, minY, maxX, maxY } = boxOf(outline);
  return (widthIn * (maxY - minY)) / (maxX - minX);
}

/** Fabrics this much lighter or darker, in L* over 100, still stand for a tone; among them the most colourful does. */
const TONE_REACH = 0.2;

/**
 * Which fabric each tone suggests, by id: one of the lightest, one of the darkest, and one about half way between,
 * the dark and the half way one as colourful as there is; null with fewer than two fabrics that differ in how
 * light they are, since then no tone would differ from another.
 */
export function suggestFabrics(fabrics: readonly Fabric[]): Readonly<Record<Tone, string>> | null {
  const all = fabrics
    .map(({ id, color }) => ({ id, lightness: lightnessOfColor(color), colourful: spreadOf(color) }))
    .sort((a, b) => b.lightness - a.lightness);
  const light = all[0];
  const darkest = all.at(-1);
  if (light === undefined || darkest === undefined || light.lightness === darkest.lightness) return null;
  const others = all.slice(1);
  const half = (light.lightness + darkest.lightness) / 2;
  // Never so far that the tones would change places.
  const reach = Math.min(TONE_REACH, (light.lightness - darkest.lightness) / 4);
  const mostColourful = (about: number): (typeof all)[number] | undefined =>
    others
      .filter(({ lightness }) => Math.abs(lightness - about) <= reach)
      .sort(
        (a, b) => b.colourful - a.colourful || Math.abs(a.lightness - about) - Math.abs(b.lightness - about),
      )[0];
  const dark = mostColourful(darkest.lightness) ?? darkest;
  return { light: light.id, medium: (mostColourful(half) ?? dark).id, dark: dark.id };
}

/** How far apart red, green and blue are in `#rrggbb`: 0 for a grey. */
function spreadOf(color: string): number {
  const channels = [1, 3, 5].map((at) => Number.parseInt(color.slice(at, at + 2), 16));
  return Math.max(...channels) - Math.min(...channels);
}

/** Does the search text stand in one of its names? Every word of it, in any order, whatever the case. */
export function isCalled({ name, alsoCalled }: Starter, search: string): boolean {
  const names = plain([name, ...alsoCalled].join(' '));
  return plain(search)
    .split(/\s+/)
    .every((word) => names.includes(word));
}

/** Lower case, without the apostrophes and strokes that people leave out. */
const plain = (text: string): string =>
  text.toLowerCase().replaceAll(/[’'‘]/g, '').replaceAll('-', ' ').trim();

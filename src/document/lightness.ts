import type { Lightness } from '../piecing/options.ts';
import { colorOfLab, labOfColor } from './lab.ts';
import type { Fabric } from './project.ts';

/** How light a colour looks, 0 (black) to 1 (white): CIE L* over 100 of `#rrggbb`. */
export const lightnessOfColor = (color: string): number => labOfColor(color).l / 100;

/** How light each fabric is, by its id, as piecing asks for it. */
export const lightnessOf = (fabrics: readonly Fabric[]): Lightness =>
  new Map(fabrics.map(({ id, color }) => [id, lightnessOfColor(color)]));

/** The grey as light as a colour, `#rrggbb`: what is left of a fabric when only its value is looked at. */
export const valueOfColor = (color: string): string =>
  colorOfLab({ l: 100 * lightnessOfColor(color), a: 0, b: 0 });

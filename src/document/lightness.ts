import type { Fabric } from './project.ts';

/**
 * How light a colour looks, 0 (black) to 1 (white): CIE L* over 100, from the relative luminance of `#rrggbb`.
 * Source: CIE 15 for L*; IEC 61966-2-1 for sRGB.
 */
export function lightnessOfColor(color: string): number {
  const channel = (at: number): number => {
    const value = Number.parseInt(color.slice(at, at + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  };
  const luminance = 0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5);
  // The two branches meet at (6/29)^3; the exact fractions keep them continuous.
  return (luminance > 216 / 24389 ? 116 * Math.cbrt(luminance) - 16 : (24389 / 27) * luminance) / 100;
}

/** How light each fabric is, by its id, as piecing asks for it; what is no fabric counts as white. */
export function lightnessOf(fabrics: readonly Fabric[]): (fabricId: string) => number {
  const byId = new Map(fabrics.map(({ id, color }) => [id, lightnessOfColor(color)]));
  return (fabricId) => byId.get(fabricId) ?? 1;
}

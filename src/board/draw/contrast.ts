import { INKS } from './inks.ts';

/** Relative luminance of `#rrggbb`, 0 … 1. Source: WCAG 2.2, "relative luminance". */
export function luminance(color: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const channel = Number.parseInt(color.slice(at, at + 2), 16) / 255;
    return channel <= 0.04045 ? channel / 12.92 : ((channel + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
}

/** Contrast of two colours, 1 … 21. Source: WCAG 2.2, "contrast ratio". */
export function contrast(a: string, b: string): number {
  const [x, y] = [luminance(a), luminance(b)];
  return (Math.max(x, y) + 0.05) / (Math.min(x, y) + 0.05);
}

/** Ink or paper, whichever reads better on a fabric's colour. */
export const inkOn = (color: string): string =>
  contrast(color, INKS.ink) >= contrast(color, INKS.sheet) ? INKS.ink : INKS.sheet;

import { type Lab, labOfColor } from './lab.ts';
import type { Fabric } from './project.ts';

const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** Hue in degrees, 0 … 360; 0 for a grey. */
function hueOf(a: number, b: number): number {
  if (a === 0 && b === 0) return 0;
  const degrees = (Math.atan2(b, a) * 180) / Math.PI;
  return degrees < 0 ? degrees + 360 : degrees;
}

/**
 * How different two colours look: CIEDE2000 with all weights 1. About 1 is the least that is seen side by side.
 * Source: Sharma, Wu, Dalal, "The CIEDE2000 color-difference formula", Color Research and Application 30(1), 2005;
 * the names below are that paper's.
 */
export function colourDifference(one: Lab, other: Lab): number {
  const meanC = (Math.hypot(one.a, one.b) + Math.hypot(other.a, other.b)) / 2;
  const g = 0.5 * (1 - Math.sqrt(meanC ** 7 / (meanC ** 7 + 25 ** 7)));
  const [a1, a2] = [one.a * (1 + g), other.a * (1 + g)];
  const [c1, c2] = [Math.hypot(a1, one.b), Math.hypot(a2, other.b)];
  const [h1, h2] = [hueOf(a1, one.b), hueOf(a2, other.b)];
  const isGrey = c1 * c2 === 0;

  const turn = h2 - h1;
  const deltaHue = isGrey ? 0 : turn > 180 ? turn - 360 : turn < -180 ? turn + 360 : turn;
  const deltaL = other.l - one.l;
  const deltaC = c2 - c1;
  const deltaH = 2 * Math.sqrt(c1 * c2) * Math.sin(radians(deltaHue / 2));

  const l = (one.l + other.l) / 2;
  const c = (c1 + c2) / 2;
  const sum = h1 + h2;
  const h = isGrey ? sum : Math.abs(turn) <= 180 ? sum / 2 : sum < 360 ? (sum + 360) / 2 : (sum - 360) / 2;

  const t =
    1 -
    0.17 * Math.cos(radians(h - 30)) +
    0.24 * Math.cos(radians(2 * h)) +
    0.32 * Math.cos(radians(3 * h + 6)) -
    0.2 * Math.cos(radians(4 * h - 63));
  const sL = 1 + (0.015 * (l - 50) ** 2) / Math.sqrt(20 + (l - 50) ** 2);
  const sC = 1 + 0.045 * c;
  const sH = 1 + 0.015 * c * t;
  const theta = 30 * Math.exp(-(((h - 275) / 25) ** 2));
  const rC = 2 * Math.sqrt(c ** 7 / (c ** 7 + 25 ** 7));
  const rT = -Math.sin(radians(2 * theta)) * rC;
  const [dL, dC, dH] = [deltaL / sL, deltaC / sC, deltaH / sH];
  return Math.sqrt(Math.max(0, dL ** 2 + dC ** 2 + dH ** 2 + rT * dC * dH));
}

/**
 * Below this two fabrics can hardly be told apart across a seam. One is the least seen on smooth chips held edge to
 * edge; cloth, thread and evening light ask for more.
 */
export const HARDLY_APART = 3;

/** The lightness term is divided by at most this (black or white), so fabrics farther apart in L* need no look. */
const WIDEST_LIGHTNESS_WEIGHT = 1.75;

export interface AlikeFabrics {
  readonly one: Fabric;
  readonly other: Fabric;
  /** CIEDE2000. */
  readonly difference: number;
}

/** Pairs of fabrics that can hardly be told apart, the most alike first; looks for no more than `most` pairs. */
export function alikeFabrics(fabrics: readonly Fabric[], most = 200): readonly AlikeFabrics[] {
  const byLightness = fabrics
    .map((fabric) => ({ fabric, lab: labOfColor(fabric.color) }))
    .sort((one, other) => one.lab.l - other.lab.l);
  const found: AlikeFabrics[] = [];
  for (const [index, one] of byLightness.entries()) {
    for (const other of byLightness.slice(index + 1)) {
      if (other.lab.l - one.lab.l > HARDLY_APART * WIDEST_LIGHTNESS_WEIGHT || found.length >= most) break;
      const difference = colourDifference(one.lab, other.lab);
      if (difference < HARDLY_APART) found.push({ one: one.fabric, other: other.fabric, difference });
    }
  }
  return found.sort((one, other) => one.difference - other.difference);
}

/** The fabrics that look most like one, the nearest first; equals in the order of the list. */
export function nearestFabrics(
  to: Fabric,
  fabrics: readonly Fabric[],
  most: number,
): readonly { readonly fabric: Fabric; readonly difference: number }[] {
  const lab = labOfColor(to.color);
  return fabrics
    .filter(({ id }) => id !== to.id)
    .map((fabric) => ({ fabric, difference: colourDifference(lab, labOfColor(fabric.color)) }))
    .sort((one, other) => one.difference - other.difference)
    .slice(0, most);
}

import { formatLength, type LengthUnit } from '../geometry/length.ts';
import { phrase } from '../words/phrase.ts';
import type { PlainCuts } from './plain-cuts.ts';
import { ROUNDING } from './strips/cloth.ts';

/** Plain cloth larger than the fabric gives at once, and what is cut and sewn together for it. */
export interface JoinedCloth {
  readonly cuts: readonly PlainCuts[];
  readonly parts: PlainCuts;
}

const EIGHTH_IN = 1 / 8;

/**
 * Equal panels, as few as can be, that give a piece once they are sewn side by side with a seam between each two: the
 * way round that takes less length off the bolt. What has its print upright has its panels side by side.
 */
export function joinedPanels(cut: PlainCuts, usableWidth: number, seam: number, turns: boolean): JoinedCloth {
  const { fabric, width, height, count, what } = cut;
  const panelsOf = (side: number) => {
    const n = Math.ceil((side - 2 * seam) / (usableWidth - 2 * seam) - ROUNDING);
    const exact = (side + 2 * seam * (n - 1)) / n;
    const rounded = Math.ceil(exact / EIGHTH_IN - 1e-6) * EIGHTH_IN;
    return { n, panel: Math.min(Math.max(exact, usableWidth), rounded) };
  };
  const [across, along] = [panelsOf(width), panelsOf(height)];
  const isAcross = !turns || across.n * height <= along.n * width + ROUNDING;
  const { n, panel } = isAcross ? across : along;
  const size = isAcross ? { width: panel, height } : { width, height: panel };
  return {
    cuts: [cut],
    parts: {
      fabric,
      kind: 'rectangle',
      ...size,
      count: count * n,
      what: phrase('{what}, joined from {n, number} panels', { what, n }),
    },
  };
}

/** Narrow and longer than the fabric is wide, as borders are: cut across and joined they may save much cloth. */
export const isLongStrip = ({ kind, width, height }: PlainCuts, usableWidth: number): boolean =>
  kind === 'rectangle' &&
  Math.max(width, height) > usableWidth + ROUNDING &&
  Math.min(width, height) <= usableWidth / 2;

/**
 * Long strips as one: strips across the whole usable width are sewn end to end, with a straight seam between each two,
 * and the lengths cut off that (common practice). Those of one kind and width go together.
 */
export function joinedStrips(
  long: readonly PlainCuts[],
  usableWidth: number,
  seam: number,
): readonly JoinedCloth[] {
  const groups = new Map<string, PlainCuts[]>();
  for (const cut of long) {
    const key = `${cut.what} ${Math.min(cut.width, cut.height)}`;
    groups.set(key, [...(groups.get(key) ?? []), cut]);
  }
  return [...groups.values()].map((cuts) => {
    const { fabric, what, width, height } = cuts[0]!;
    const length = cuts.reduce((sum, cut) => sum + cut.count * Math.max(cut.width, cut.height), 0);
    const count = Math.ceil((length - 2 * seam) / (usableWidth - 2 * seam) - ROUNDING);
    return {
      cuts,
      parts: {
        fabric,
        kind: 'rectangle',
        width: usableWidth,
        height: Math.min(width, height),
        count,
        what: phrase('{what}, joined end to end', { what }),
      },
    };
  });
}

/** `Border: 7 of 40 in × 5 1/2 in, sewn together to 4 of 63 1/2 in × 5 1/2 in`. */
export function joinedWords({ cuts, parts }: JoinedCloth, unit: LengthUnit): string {
  const counted = ({ count, width, height }: PlainCuts): string =>
    phrase('{count, number} of {width} × {height}', {
      count,
      width: formatLength(width, unit),
      height: formatLength(height, unit),
    });
  return phrase('{what}: {parts}, sewn together to {whole}', {
    what: cuts[0]!.what,
    parts: counted(parts),
    whole: cuts.map(counted).join(', '),
  });
}

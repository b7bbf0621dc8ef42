import { phrase } from '../words/phrase.ts';
import { colourDifference } from './colour-difference.ts';
import { colorOfLab, type Lab, labOfColor } from './lab.ts';
import { NAME_LENGTH } from './limits.ts';
import type { Block, Fabric } from './project.ts';

/** How a suggested colour stands to the one it is made from. */
export type HarmonyKind = 'lighter' | 'darker' | 'opposite' | 'neighbour' | 'other neighbour';

export interface Harmony {
  readonly kind: HarmonyKind;
  /** As a new fabric would be called: the fabric it is made from, and how it stands to it. */
  readonly name: string;
  /** `#rrggbb`. */
  readonly color: string;
}

/** Lightest and darkest a suggestion heads for, L*: still cloth, not paper and not a hole. */
const LIGHTEST = 96;
const DARKEST = 10;

/** How far round the hue circle neighbours stand, degrees: a twelfth, as on the painter's circle (common practice). */
const NEIGHBOUR_DEGREES = 30;

/** Below this chroma a colour is nearly grey, and its hue says nothing. */
const GREYISH = 8;

/** A suggestion nearer than this (CIEDE2000) to what is there already would be no news. */
const NO_NEWS = 6;

/** The fabrics that are laid in a block, in the order of the project. */
export function fabricsIn(block: Block, fabrics: readonly Fabric[]): readonly Fabric[] {
  const laid = new Set(block.patches.map(({ fabric }) => fabric));
  return fabrics.filter(({ id }) => laid.has(id));
}

/** The most colourful of some fabrics, the one that sets the tone; the first of equals, null of none. */
export function leadingFabric(fabrics: readonly Fabric[]): Fabric | null {
  let leading: Fabric | null = null;
  let most = Number.NEGATIVE_INFINITY;
  for (const fabric of fabrics) {
    const { a, b } = labOfColor(fabric.color);
    if (Math.hypot(a, b) <= most) continue;
    most = Math.hypot(a, b);
    leading = fabric;
  }
  return leading;
}

/**
 * Colours that go with `lead`, worked out in CIELAB: halfway towards light and dark, across the hue circle and a
 * twelfth of it to either side. Left out is what looks like a fabric of `owned`, and hues of what is nearly grey.
 */
export function harmoniesOf(lead: Fabric, owned: readonly Fabric[]): readonly Harmony[] {
  const lab = labOfColor(lead.color);
  const isGrey = Math.hypot(lab.a, lab.b) < GREYISH;
  const wished: readonly (readonly [HarmonyKind, Lab])[] = [
    ['lighter', { ...lab, l: (lab.l + LIGHTEST) / 2 }],
    ['darker', { ...lab, l: (lab.l + DARKEST) / 2 }],
    ...(isGrey
      ? []
      : ([
          ['opposite', turned(lab, 180)],
          ['neighbour', turned(lab, NEIGHBOUR_DEGREES)],
          ['other neighbour', turned(lab, -NEIGHBOUR_DEGREES)],
        ] as const)),
  ];
  const known = owned.map(({ color }) => labOfColor(color));
  const harmonies: Harmony[] = [];
  for (const [kind, wish] of wished) {
    // Only what changes in the way its name says: nothing lighter than white cloth is offered as lighter.
    if (kind === 'lighter' ? wish.l <= lab.l : kind === 'darker' && wish.l >= lab.l) continue;
    const color = colorOfLab(wish);
    const shown = labOfColor(color);
    if (known.some((other) => colourDifference(shown, other) < NO_NEWS)) continue;
    known.push(shown);
    const end = phrase(
      ', {kind, select, lighter {lighter} darker {darker} opposite {opposite} neighbour {neighbour} other {other neighbour}}',
      { kind },
    );
    harmonies.push({ kind, name: `${lead.name.slice(0, NAME_LENGTH - end.length)}${end}`, color });
  }
  return harmonies;
}

function turned({ l, a, b }: Lab, degrees: number): Lab {
  const [cos, sin] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  return { l, a: a * cos - b * sin, b: a * sin + b * cos };
}

import { createStore } from 'zustand/vanilla';
import { lightnessOf } from '../document/lightness.ts';
import type { Fabric, Project, Unit } from '../document/project.ts';
import { DEFAULT_MARGIN_IN, PAGES } from '../foundations/pages.ts';
import type { PieceOptions, Severities } from '../piecing/options.ts';

/** What a plan hangs on beside its block: plain data, so that it can be handed to the worker. */
export interface PieceSettings {
  readonly fabrics: readonly Fabric[];
  readonly severities: Severities;
  readonly paper: NonNullable<PieceOptions['paper']>;
}

/** The sheet that is printed on, upright, inches: `width` and `height` of the whole page, and its margin. */
export interface Sheet {
  readonly width: number;
  readonly height: number;
  readonly margin: number;
}

/** The sheet chosen for printing; null until one is, which means the usual one of the project's unit. */
export const chosenSheet = createStore<{ readonly sheet: Sheet | null }>(() => ({ sheet: null }));

/** The test square, its line and words along the foot of each sheet take at least this, inches. */
const FOOT_IN = 1.2;

/** Letter where the project counts in inches, A4 where in millimetres. */
const usualSheet = (unit: Unit): Sheet => ({
  ...(unit === 'mm' ? PAGES.a4 : PAGES.letter),
  margin: DEFAULT_MARGIN_IN,
});

export function settingsOf(project: Project): PieceSettings {
  const { width, height, margin } = chosenSheet.getState().sheet ?? usualSheet(project.unit);
  return {
    fabrics: withoutPictures(project.fabrics),
    severities: project.severities ?? {},
    paper: {
      width: width - 2 * margin,
      height: height - 2 * margin,
      allowance: project.seamAllowance,
      foot: FOOT_IN,
    },
  };
}

const plain = new WeakMap<readonly Fabric[], readonly Fabric[]>();

/** Plans hang on colours alone, and pictures would make what goes to the worker large. */
function withoutPictures(fabrics: readonly Fabric[]): readonly Fabric[] {
  if (fabrics.every(({ picture }) => picture === undefined)) return fabrics;
  const known = plain.get(fabrics);
  if (known !== undefined) return known;
  const bare = fabrics.map(({ picture: _picture, ...fabric }) => fabric);
  plain.set(fabrics, bare);
  return bare;
}

/** A text that is the same for settings under which every plan is the same: what a fabric is called does not matter. */
export const settingsKey = ({ fabrics, ...rest }: PieceSettings): string =>
  JSON.stringify([fabrics.map(({ id, color }) => [id, color]), rest]);

export const optionsOf = ({ fabrics, severities, paper }: PieceSettings): PieceOptions => ({
  lightness: lightnessOf(fabrics),
  severities,
  paper,
});

import { alikeFabrics } from '../document/colour-difference.ts';
import { lightnessOf } from '../document/lightness.ts';
import { DEFAULT_MARGIN_IN, PAGES } from '../document/pages.ts';
import type { Fabric, Project, Unit } from '../document/project.ts';
import type { PieceOptions } from '../piecing/options.ts';

/** The sheet that is printed on, upright, inches: `width` and `height` of the whole page, and its margin. */
export interface Sheet {
  readonly width: number;
  readonly height: number;
  readonly margin: number;
}

/** The test square, its line and words along the foot of each sheet take at least this, inches. */
const FOOT_IN = 1.2;

/** Letter where the project counts in inches, A4 where in millimetres. */
export const usualSheet = (unit: Unit): Sheet => ({
  ...(unit === 'mm' ? PAGES.a4 : PAGES.letter),
  margin: DEFAULT_MARGIN_IN,
});

/**
 * What the plans of a project hang on beside its blocks, the one place where it is chosen: how light its fabrics are,
 * how grave it takes findings to be, its seam allowance, and the sheet it is printed on, the usual one of its unit
 * when none is given.
 */
export function pieceOptionsOf(project: Project, sheet: Sheet | null = null): PieceOptions {
  const { width, height, margin } = sheet ?? usualSheet(project.unit);
  return {
    lightness: lightnessOf(project.fabrics),
    ...alikeOf(project.fabrics),
    severities: project.severities ?? {},
    ...(project.unit === 'mm' && { unit: project.unit }),
    paper: {
      width: width - 2 * margin,
      height: height - 2 * margin,
      allowance: project.seamAllowance,
      foot: FOOT_IN,
    },
  };
}

/** Left out where no two fabrics look alike, as in most projects. Prints are told apart by more than their colour. */
function alikeOf(fabrics: readonly Fabric[]): Pick<PieceOptions, 'alike'> {
  const alike = alikeFabrics(fabrics.filter(({ picture }) => picture === undefined)).map(
    ({ one, other }) => [one.id, other.id] as const,
  );
  return alike.length === 0 ? {} : { alike };
}

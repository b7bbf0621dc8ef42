import type { Fabric, Project } from '../document/project.ts';
import { drawnFor } from '../document/turned-over.ts';
import type { Patch } from '../piecing/plan.ts';
import type { Cloth } from './cutting-plan.ts';
import { type CuttingRules, USUAL_EASE_IN, USUAL_WIDTH_IN, usualStep } from './cutting-rules.ts';
import type { Slack } from './lengths.ts';
import type { Size } from './pieces.ts';
import type { StockPiece } from './strips/stock.ts';

/** What a project says about cutting, with the usual where it says nothing. */

export function cuttingRulesOf({ cutting, seamAllowance, unit }: Project): CuttingRules {
  return {
    allowance: seamAllowance,
    ease: cutting?.ease ?? USUAL_EASE_IN,
    step: cutting?.step ?? usualStep(unit),
    usableWidth: cutting?.width ?? USUAL_WIDTH_IN,
    savings: cutting?.savings ?? 'squares',
  };
}

/** How each fabric is cut. Pieces at hand count where the project uses them up first. */
export function clothsOf(project: Project): readonly Cloth[] {
  const { usableWidth } = cuttingRulesOf(project);
  return project.fabrics.map((fabric) => ({
    fabric: fabric.id,
    grain: fabric.directional === true ? 'directional' : (fabric.grain ?? 'seam'),
    usableWidth: fabric.width ?? usableWidth,
    ...(project.cutting?.stockFirst === true && { stock: stockOf(fabric) }),
  }));
}

/** Pieces at hand looked at for one fabric. */
const MOST_STOCK = 500;

const stockOf = ({ atHand }: Fabric): readonly StockPiece[] =>
  (atHand?.pieces ?? [])
    .flatMap(({ width, height, count }) =>
      Array.from({ length: Math.min(count, MOST_STOCK) }, () => ({ width, height })),
    )
    .slice(0, MOST_STOCK);

/** The sizes chosen by hand, by block and patch: its lasting id, or as it is printed. A block turned over is cut alike. */
export function handSizesOf(project: Project): (block: string, patch: Patch) => Size | undefined {
  const { cutting } = project;
  const sizes = new Map((cutting?.sizes ?? []).map((size) => [`${size.block}/${size.patch}`, size]));
  return (id, patch) => {
    const block = drawnFor(project, id);
    return sizes.get(`${block}/${patch.key}`) ?? sizes.get(`${block}/${patch.id}`);
  };
}

export const slackOf = ({ cutting }: Project): Slack => ({
  shrinkage: cutting?.shrinkage ?? 0,
  spare: cutting?.spare ?? 0,
});

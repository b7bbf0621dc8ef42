import type { Block } from '../../document/project.ts';
import type { Segment } from '../../geometry/point.ts';
import type { Finding, PiecingPlan } from '../../piecing/plan.ts';
import { toScreen } from '../camera.ts';
import { drawArrow } from './arrow.ts';
import { drawCutNames } from './cut-names.ts';
import { INKS } from './inks.ts';
import { labelSpot } from './label-spot.ts';
import { outlinePatches, strengthenCuts } from './lit.ts';
import { tracePatch } from './patches.ts';
import { type Pen, strokeLine, strokePath } from './pen.ts';

const INK = { trouble: INKS.madder, caution: INKS.ochre, note: INKS.indigo } as const;

/**
 * Lights a finding: its patches outlined, its cuts strong, and its stretches over them, its cuts named. The lines of a ring are arrows,
 * each ending where the next line stops it; stretches that do not line up are closed off at both ends, so that the step
 * between them is seen.
 */
export function drawFinding(pen: Pen, block: Block, plan: PiecingPlan, finding: Finding): void {
  const isPart = finding.patches.length < plan.patches.length;
  if (isPart && finding.stretches.length > 0) tintPatches(pen, plan, finding);
  outlinePatches(pen, plan, finding.patches, finding.stretches.length > 0 ? 1.6 : 3);
  strengthenCuts(pen, block, finding.cuts);
  drawStretches(pen, finding);
  const labels = plan.patches.map((patch) => labelSpot(patch).at);
  drawCutNames(pen, block, finding.cuts, [finding.at, ...labels]);
}

/** The stretches of a finding, over whatever else is drawn. */
export function drawStretches(pen: Pen, finding: Finding): void {
  const color = INK[finding.severity];
  pen.ctx.lineCap = 'butt';
  pen.ctx.lineJoin = 'round';
  const isCycle = finding.code === 'ring' && goesRound(finding.stretches);
  for (const stretch of finding.stretches) {
    if (isCycle) {
      drawArrow(pen, stretch, { color, width: 5, halo: INKS.sheet });
      continue;
    }
    strokeLine(pen, stretch, { color, width: 5, halo: INKS.sheet });
    closeOff(pen, stretch, color);
  }
}

/** Patches that hold each other stand out from the rest as one. */
function tintPatches(pen: Pen, plan: PiecingPlan, { patches, severity }: Finding): void {
  const { ctx } = pen;
  ctx.beginPath();
  for (const patch of plan.patches) if (patches.includes(patch.id)) tracePatch(pen, patch);
  ctx.save();
  ctx.globalAlpha = 0.14;
  ctx.fillStyle = INK[severity];
  ctx.fill('evenodd');
  ctx.restore();
}

/** Does each stretch end where the next begins, the last where the first does? */
const goesRound = (stretches: readonly Segment[]): boolean =>
  stretches.length >= 3 &&
  stretches.every(([, [x, y]], k) => {
    const [next] = stretches[(k + 1) % stretches.length]!;
    return next[0] === x && next[1] === y;
  });

/** Half the length of the bars at the ends of a stretch, CSS pixels. */
const BAR_PX = 7;

function closeOff(pen: Pen, [from, to]: Segment, color: string): void {
  const { ctx, camera } = pen;
  const [a, b] = [toScreen(camera, from), toScreen(camera, to)];
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  if (length < 2 * BAR_PX) return;
  const [nx, ny] = [(-(b[1] - a[1]) / length) * BAR_PX, ((b[0] - a[0]) / length) * BAR_PX];
  ctx.beginPath();
  for (const [x, y] of [a, b]) {
    ctx.moveTo(x - nx, y - ny);
    ctx.lineTo(x + nx, y + ny);
  }
  strokePath(pen, { color, width: 2.4, halo: INKS.sheet });
}

import type { Fabric } from '../../document/project.ts';
import type { Patch, PiecingPlan } from '../../piecing/plan.ts';
import { patternOf } from '../../workspace/fabric-pictures.ts';
import { toScreen } from '../camera.ts';
import { type Pen, trace } from './pen.ts';

/**
 * Patches filled with their fabric, a print at its true scale; an unpainted one lets the paper show. `asValues`: the
 * pictures as greys, as the colours of `fabrics` then are.
 */
export function drawPatches(
  pen: Pen,
  plan: PiecingPlan,
  fabrics: ReadonlyMap<string, Fabric>,
  asValues = false,
): void {
  const [x, y] = toScreen(pen.camera, [0, 0]);
  const laid = { scale: pen.camera.scale, x, y, density: globalThis.devicePixelRatio || 1 };
  for (const patch of plan.patches) {
    const fabric = patch.fabric === null ? undefined : fabrics.get(patch.fabric);
    if (fabric === undefined) continue;
    pen.ctx.beginPath();
    tracePatch(pen, patch);
    pen.ctx.fillStyle =
      (fabric.picture && patternOf(pen.ctx, fabric.picture, laid, asValues)) ?? fabric.color;
    pen.ctx.fill('evenodd');
  }
}

export function tracePatch(pen: Pen, { polygon, holes }: Pick<Patch, 'polygon' | 'holes'>): void {
  trace(pen, polygon, true);
  for (const hole of holes) trace(pen, hole, true);
}

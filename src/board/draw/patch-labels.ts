import type { Fabric } from '../../document/project.ts';
import type { Point } from '../../geometry/point.ts';
import type { PiecingPlan } from '../../piecing/plan.ts';
import { toScreen } from '../camera.ts';
import { inkOn } from './contrast.ts';
import { boxAbout, type Figure } from './figures.ts';
import { INKS } from './inks.ts';
import { labelSpot, sizeToFit } from './label-spot.ts';
import { FONT, type Pen } from './pen.ts';
import { strengthOf } from './strength.ts';

/** Widths of texts at a size of 1, in the type that is there; measured again once another has come. */
let widths = new Map<string, number>();
let typeOfWidths = '';

function widthOf(ctx: CanvasRenderingContext2D, text: string): number {
  const known = widths.get(text);
  if (known !== undefined) return known;
  const width = ctx.measureText(text).width / 100;
  widths.set(text, width);
  return width;
}

/** Type that has come meanwhile makes other widths: a word is measured each time to see it. */
function checkType(ctx: CanvasRenderingContext2D): void {
  const type = String(ctx.measureText('Underpaper 0123').width);
  if (type !== typeOfWidths) widths = new Map();
  typeOfWidths = type;
}

/** Ids come in sizes of whole steps, CSS pixels: letters of each size are made anew, those of one only once. */
const SIZE_STEP = 0.5;

/**
 * Patch ids at their inmost spots, as large as fits, in ink or paper, a figure each. `isTraced`: a picture shows
 * through every patch.
 */
export function* labelFigures(
  { ctx, camera }: Pen,
  plan: PiecingPlan,
  fabrics: ReadonlyMap<string, Fabric>,
  isTraced: boolean,
): Generator<Figure> {
  ctx.font = `600 100px ${FONT}`;
  checkType(ctx);
  const largest = 9 + 7 * strengthOf(plan, camera);
  for (const patch of plan.patches) {
    const spot = labelSpot(patch);
    const width = widthOf(ctx, patch.id);
    const fitting = sizeToFit(spot.room * camera.scale, width);
    if (fitting === null) continue;
    const size = Math.floor(Math.min(fitting, largest) / SIZE_STEP) * SIZE_STEP;
    const at = toScreen(camera, spot.at);
    const fabric = patch.fabric === null ? undefined : fabrics.get(patch.fabric);
    const isOnSlip = isTraced || fabric?.picture !== undefined;
    const ink = fabric === undefined || isOnSlip ? INKS.ink : inkOn(fabric.color);
    yield {
      get key() {
        return `label ${patch.id} ${at} ${size} ${ink} ${isOnSlip}`;
      },
      boxes: () => [boxAbout(at, size * (width + 0.5), size)],
      draw: (pen) => drawLabel(pen, patch.id, { at, size, ink, slip: isOnSlip ? width : null }),
    };
  }
}

interface LabelLook {
  readonly at: Point;
  readonly size: number;
  readonly ink: string;
  /** Width of the letters at a size of 1 where they lie on a slip of paper, else null. */
  readonly slip: number | null;
}

function drawLabel({ ctx }: Pen, id: string, { at: [x, y], size, ink, slip }: LabelLook): void {
  ctx.textAlign = 'center';
  ctx.textBaseline = 'middle';
  ctx.font = `600 ${size}px ${FONT}`;
  if (slip !== null) {
    // A slip of paper under the letters: no one ink is read on all of a print.
    const [width, height] = [size * (slip + 0.5), size * 1.2];
    ctx.beginPath();
    ctx.roundRect(x - width / 2, y - height / 2, width, height, size * 0.3);
    ctx.fillStyle = INKS.printHalo;
    ctx.fill();
  }
  ctx.fillStyle = ink;
  ctx.fillText(id, x, y + size * 0.05);
}

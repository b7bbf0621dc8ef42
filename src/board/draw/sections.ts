import type { Fabric } from '../../document/project.ts';
import { holdsPoint } from '../../geometry/inner-spot.ts';
import type { Segment } from '../../geometry/point.ts';
import { boxOf, distance } from '../../geometry/ring.ts';
import { along, edgesOf, meeting } from '../../geometry/segments.ts';
import type { Patch, PiecingPlan } from '../../piecing/plan.ts';
import { type Camera, toScreen } from '../camera.ts';
import { rowsInside } from './basting.ts';
import { inkOn } from './contrast.ts';
import { boxesAlong, type Figure } from './figures.ts';
import { INKS, threadOf } from './inks.ts';
import { type Pen, strokePath, trace } from './pen.ts';
import { ShapeCache } from './shape-cache.ts';

/** How far inside its edge a section's stitches run, CSS pixels. */
const BASTING_PX = 6.5;

/** In a section narrower than this on the screen the stitches would be in the way of its ids. CSS pixels. */
const NARROWEST_BASTED_PX = 56;

/** Where one fabric or another leaves less than this of a row, there is no stitch. CSS pixels. */
const SHORTEST_PX = 5;

const STITCH_WIDTH_PX = 2;

/** Further than this neither a stitch nor its band goes from its line. */
const STITCH_REACH_PX = 4;

/** What a stitch lies on. */
type Ground = 'light' | 'dark' | 'print';

/** So much of a row, as shares of it, on one ground. */
interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly ground: Ground;
}

/** A row of basting stitches inside each edge of a section, in its own colour and rhythm, paler on dark fabric: a figure each. */
export function* sectionFigures(
  camera: Camera,
  plan: PiecingPlan,
  fabrics: ReadonlyMap<string, Fabric>,
): Generator<Figure> {
  if (plan.sections.length < 2) return;
  const patches = new Map(plan.patches.map((patch) => [patch.id, patch]));
  const groundOf = (patch: Patch): Ground => {
    const fabric = patch.fabric === null ? undefined : fabrics.get(patch.fabric);
    if (fabric?.picture !== undefined) return 'print';
    return fabric !== undefined && inkOn(fabric.color) === INKS.sheet ? 'dark' : 'light';
  };
  for (const [index, { outline, order, holes, startsFrom }] of plan.sections.entries()) {
    const { minX, minY, maxX, maxY } = boxOf(outline);
    if (Math.min(maxX - minX, maxY - minY) * camera.scale < NARROWEST_BASTED_PX) continue;
    const own = order.map((id) => patches.get(id)!);
    const grounds = own.map(groundOf);
    const [first] = grounds as [Ground];
    // A unit that a section starts from is no part of it.
    const isPlain =
      grounds.every((ground) => ground === first) && holes.length === 0 && startsFrom.length === 0;
    for (const row of rowsAt(camera).of([outline])) {
      const stretches = isPlain ? [{ from: 0, to: 1, ground: first }] : stretchesOn(row, own, grounds);
      const lengthPx = distance(...row) * camera.scale;
      const seen = stretches.filter(({ from, to }) => (to - from) * lengthPx >= SHORTEST_PX);
      if (seen.length > 0) yield rowFigure(camera, index, row, seen);
    }
  }
}

let rows = { scale: 0, inside: new ShapeCache<readonly Segment[]>(() => []) };

/** The rows of outlines at the camera's scale. */
function rowsAt({ scale }: Camera): ShapeCache<readonly Segment[]> {
  if (rows.scale !== scale)
    rows = { scale, inside: new ShapeCache(([outline]) => rowsInside(outline!, BASTING_PX / scale)) };
  return rows.inside;
}

/** Which fabrics a row runs over; where it leaves them all it lies on none. */
function stretchesOn(
  row: Segment,
  patches: readonly Patch[],
  grounds: readonly Ground[],
): readonly Stretch[] {
  const shares = new Set([0, 1]);
  for (const { polygon, holes } of patches)
    for (const ring of [polygon, ...holes])
      for (const edge of edgesOf(ring)) {
        const onLine = meeting(row, edge)?.onLine ?? 0;
        if (onLine > 0 && onLine < 1) shares.add(onLine);
      }
  const spots = [...shares].sort((a, b) => a - b);
  const stretches: Stretch[] = [];
  for (let k = 1; k < spots.length; k++) {
    const [from, to] = [spots[k - 1]!, spots[k]!];
    const under = patches.findIndex((patch) => holdsPoint(patch, along(row, (from + to) / 2)));
    if (under < 0) continue;
    const ground = grounds[under]!;
    const last = stretches.at(-1);
    if (last?.to === from && last.ground === ground) stretches[stretches.length - 1] = { ...last, to };
    else stretches.push({ from, to, ground });
  }
  return stretches;
}

const rowFigure = (camera: Camera, index: number, row: Segment, stretches: readonly Stretch[]): Figure => ({
  get key() {
    return `row ${index} ${row} ${stretches.map(({ from, to, ground }) => `${from} ${to} ${ground}`)}`;
  },
  boxes: () =>
    boxesAlong(
      row.map((end) => toScreen(camera, end)),
      STITCH_REACH_PX,
    ),
  draw: (pen) => drawRow(pen, index, row, stretches),
});

function drawRow(pen: Pen, index: number, row: Segment, stretches: readonly Stretch[]): void {
  const { ctx, camera } = pen;
  const { color, pale, dash } = threadOf(index);
  const lengthPx = distance(...row) * camera.scale;
  const { fitted, offset } = fittedTo(lengthPx, dash);
  ctx.lineCap = 'butt';
  for (const { from, to, ground } of stretches) {
    ctx.beginPath();
    trace(pen, [along(row, from), along(row, to)], false);
    ctx.lineDashOffset = offset + from * lengthPx;
    strokePath(pen, {
      color: ground === 'dark' ? pale : color,
      width: STITCH_WIDTH_PX,
      dash: fitted,
      // A print may be light and dark in turn: its stitches lie on a band of their own.
      ...(ground === 'print' ? { halo: INKS.printHalo } : {}),
    });
  }
  ctx.lineDashOffset = 0;
}

/** A rhythm drawn in or let out a little, so that a row begins and ends with half a gap. */
function fittedTo(lengthPx: number, dash: readonly number[]) {
  const period = dash.reduce((sum, part) => sum + part, 0);
  const share = lengthPx / (period * Math.max(1, Math.round(lengthPx / period)));
  const fitted = dash.map((part) => part * share);
  return { fitted, offset: -fitted.at(-1)! / 2 };
}

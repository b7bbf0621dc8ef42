import type { Block, Fabric } from '../../document/project.ts';
import type { Point, Segment } from '../../geometry/point.ts';
import { boxOf, distance } from '../../geometry/ring.ts';
import type { Finding, Join, Patch, PiecingPlan, RegistrationPoint } from '../../piecing/plan.ts';
import { toScreen } from '../camera.ts';
import { inkOn } from './contrast.ts';
import { INKS, threadOf } from './inks.ts';
import { insetRing } from './inset.ts';
import { labelSpot, sizeToFit } from './label-spot.ts';
import { dot, FONT, type Pen, strokeLine, strokePath, trace } from './pen.ts';

/** Patches filled with their fabric; an unpainted one lets the paper show. */
export function drawPatches(pen: Pen, plan: PiecingPlan, fabrics: ReadonlyMap<string, Fabric>): void {
  for (const patch of plan.patches) {
    const fabric = patch.fabric === null ? undefined : fabrics.get(patch.fabric);
    if (fabric === undefined) continue;
    pen.ctx.beginPath();
    tracePatch(pen, patch);
    pen.ctx.fillStyle = fabric.color;
    pen.ctx.fill('evenodd');
  }
}

export function tracePatch(pen: Pen, { polygon, holes }: Pick<Patch, 'polygon' | 'holes'>): void {
  trace(pen, polygon, true);
  for (const hole of holes) trace(pen, hole, true);
}

/** Cuts as drawn, and the outline. */
export function drawLines(pen: Pen, block: Block, sound: boolean): void {
  pen.ctx.lineCap = 'round';
  pen.ctx.beginPath();
  for (const { from, to } of block.cuts) trace(pen, [from, to], false);
  strokePath(pen, { color: INKS.ink, width: 1.2, halo: INKS.lineHalo });
  pen.ctx.lineJoin = 'miter';
  strokeLine(
    pen,
    block.outline,
    sound ? { color: INKS.ink, width: 1.6 } : { color: INKS.madder, width: 2, dash: [6, 4] },
    true,
  );
}

/** How far inside its edge a section's stitches run, CSS pixels. */
const BASTING_PX = 6.5;

/** In a section narrower than this on the screen the stitches would be in the way of its ids. CSS pixels. */
const NARROWEST_BASTED_PX = 56;

/** A row of basting stitches inside the edge of each section, in its own colour and rhythm, paler on dark fabric. */
export function drawSections(pen: Pen, plan: PiecingPlan, fabrics: ReadonlyMap<string, Fabric>): void {
  if (plan.sections.length < 2) return;
  const { ctx, camera } = pen;
  const patches = new Map(plan.patches.map((patch) => [patch.id, patch]));
  ctx.lineCap = 'butt';
  ctx.lineJoin = 'miter';
  for (const [index, { outline, order }] of plan.sections.entries()) {
    const { minX, minY, maxX, maxY } = boxOf(outline);
    if (Math.min(maxX - minX, maxY - minY) * camera.scale < NARROWEST_BASTED_PX) continue;
    const { color, pale, dash } = threadOf(index);
    const stitches = insetRing(outline, BASTING_PX / camera.scale);
    // All patches of one lightness are one clip: a clip for each patch would cost most of a frame.
    const isOnDark = (patch: Patch): boolean => {
      const fabric = patch.fabric === null ? undefined : fabrics.get(patch.fabric);
      return fabric !== undefined && inkOn(fabric.color) === INKS.sheet;
    };
    const own = order.map((id) => patches.get(id)!);
    for (const dark of [false, true]) {
      const under = own.filter((patch) => isOnDark(patch) === dark);
      if (under.length === 0) continue;
      ctx.save();
      ctx.beginPath();
      for (const patch of under) tracePatch(pen, patch);
      ctx.clip('evenodd');
      strokeLine(pen, stitches, { color: dark ? pale : color, width: 2, dash }, true);
      ctx.restore();
    }
  }
}

/** Joins in madder thread, with the places where pins go. */
export function drawJoins(pen: Pen, joins: readonly Join[]): void {
  pen.ctx.lineCap = 'butt';
  for (const join of joins) {
    for (const stretch of join.stretches)
      strokeLine(pen, stretch, { color: INKS.madder, width: 3, dash: [9, 5], halo: INKS.sheet });
  }
  for (const join of joins) for (const point of join.points) drawRegistration(pen, point);
}

/** Radii at a scale of 60 px to the inch and more; smaller when the whole block is small. CSS pixels. */
const POINT_RADIUS = { end: 4, match: 5.5, junction: 4, guide: 3 } as const;

function drawRegistration(pen: Pen, { at, kind }: RegistrationPoint): void {
  const [x, y] = toScreen(pen.camera, at);
  const radius = POINT_RADIUS[kind] * Math.min(1, Math.max(0.6, pen.camera.scale / 60));
  dot(pen, at, radius, INKS.sheet, { color: INKS.madder, width: 1.6 });
  if (kind !== 'match' && kind !== 'end') return;
  // A match or an end is crossed, as it is on the paper where the pin goes straight through.
  const { ctx } = pen;
  ctx.beginPath();
  ctx.moveTo(x - radius - 2.5, y);
  ctx.lineTo(x + radius + 2.5, y);
  ctx.moveTo(x, y - radius - 2.5);
  ctx.lineTo(x, y + radius + 2.5);
  strokePath(pen, { color: INKS.madder, width: 1.2 });
}

/** Patch ids at their inmost spots, as large as fits, in ink or paper. */
export function drawLabels(pen: Pen, plan: PiecingPlan, fabrics: ReadonlyMap<string, Fabric>): void {
  const { ctx, camera } = pen;
  ctx.textAlign = 'center';
  ctx.textBaseline = 'middle';
  ctx.font = `600 100px ${FONT}`;
  const widths = new Map<string, number>();
  for (const { id } of plan.patches) widths.set(id, ctx.measureText(id).width / 100);
  for (const patch of plan.patches) {
    const spot = labelSpot(patch);
    const size = sizeToFit(spot.room * camera.scale, widths.get(patch.id)!);
    if (size === null) continue;
    const [x, y] = toScreen(camera, spot.at);
    const fabric = patch.fabric === null ? undefined : fabrics.get(patch.fabric);
    ctx.font = `600 ${size}px ${FONT}`;
    ctx.fillStyle = fabric === undefined ? INKS.ink : inkOn(fabric.color);
    ctx.fillText(patch.id, x, y + size * 0.05);
  }
}

const SEVERITY_INK = { trouble: INKS.madder, caution: INKS.ochre, note: INKS.indigo } as const;
const MARKER_RADIUS = 10;

export interface FindingsShown {
  /** Index of the one a panel points at. */
  readonly lit: number | null;
  /** Places where something is being drawn, which no marker may cover. */
  readonly avoid: readonly Point[];
}

/**
 * Numbered markers on stems at the places of findings, notes only when lit. Those that would cover each other stand
 * side by side.
 */
export function drawFindings(pen: Pen, plan: PiecingPlan, { lit, avoid }: FindingsShown): void {
  const { ctx, camera } = pen;
  const busy = avoid.map((at) => toScreen(camera, at));
  const labels = plan.patches.map((patch) => toScreen(camera, labelSpot(patch).at));
  const taken: Point[] = [];
  for (const [index, { at, severity }] of plan.findings.entries()) {
    if (severity === 'note' && index !== lit) continue;
    const place = toScreen(camera, at);
    if (busy.some((spot) => distance(spot, place) < 3 * MARKER_RADIUS)) continue;
    let [x, y] = [place[0], place[1] - 2.2 * MARKER_RADIUS];
    while (taken.some((other) => distance(other, [x, y]) < 2.2 * MARKER_RADIUS)) x += 2.3 * MARKER_RADIUS;
    taken.push([x, y]);
    const color = SEVERITY_INK[severity];
    ctx.lineJoin = 'round';
    ctx.lineCap = 'round';
    // Where a patch's id stands, the marker stands above it and needs no stem.
    if (!labels.some((label) => distance(label, place) < MARKER_RADIUS)) {
      ctx.beginPath();
      ctx.moveTo(...place);
      ctx.lineTo(x, y);
      strokePath(pen, { color, width: 1.6, halo: INKS.sheet });
      dot(pen, at, 3, color, { color: INKS.sheet, width: 1.2 });
    }
    ctx.beginPath();
    markerShape(ctx, severity, x, y, MARKER_RADIUS);
    ctx.fillStyle = color;
    ctx.fill();
    strokePath(pen, { color: INKS.sheet, width: index === lit ? 3 : 1.6 });
    ctx.fillStyle = INKS.sheet;
    ctx.font = `600 12px ${FONT}`;
    ctx.textAlign = 'center';
    ctx.textBaseline = 'middle';
    ctx.fillText(String(index + 1), x, y + (severity === 'caution' ? 2 : 0.5));
  }
}

/** The shapes of the icons beside the sentences: octagon, triangle, disc. */
function markerShape(
  ctx: CanvasRenderingContext2D,
  severity: Finding['severity'],
  x: number,
  y: number,
  r: number,
): void {
  if (severity === 'note') {
    ctx.arc(x, y, r, 0, Math.PI * 2);
    return;
  }
  if (severity === 'caution') {
    ctx.moveTo(x, y - r - 3);
    ctx.lineTo(x + r + 3, y + r - 1);
    ctx.lineTo(x - r - 3, y + r - 1);
    ctx.closePath();
    return;
  }
  for (let corner = 0; corner < 8; corner++) {
    const angle = Math.PI / 8 + (corner * Math.PI) / 4;
    const [cx, cy] = [x + r * 1.08 * Math.cos(angle), y + r * 1.08 * Math.sin(angle)];
    if (corner === 0) ctx.moveTo(cx, cy);
    else ctx.lineTo(cx, cy);
  }
  ctx.closePath();
}

/** What a panel points at. */
export type Lit =
  | { readonly kind: 'section'; readonly letter: string }
  | { readonly kind: 'patches'; readonly ids: readonly string[] }
  | { readonly kind: 'cuts'; readonly ids: readonly string[] }
  | { readonly kind: 'join'; readonly step: number }
  | { readonly kind: 'finding'; readonly index: number }
  /** Patches, and stretches of their edges that do not make one line. */
  | {
      readonly kind: 'stretches';
      readonly patches: readonly string[];
      readonly stretches: readonly Segment[];
    };

/** Lights what a panel points at: all else is veiled, or the thing itself is drawn strong. A finding lights itself. */
export function drawLit(pen: Pen, block: Block, plan: PiecingPlan, lit: Lit): void {
  if (lit.kind === 'section') {
    const patches = plan.patches.filter(({ section }) => section === lit.letter);
    spotlight(pen, block, patches);
  } else if (lit.kind === 'patches') {
    outlinePatches(pen, plan, lit.ids);
  } else if (lit.kind === 'cuts') {
    strengthenCuts(pen, block, lit.ids);
  } else if (lit.kind === 'join') {
    const join = plan.joins.find(({ step }) => step === lit.step);
    for (const stretch of join?.stretches ?? [])
      strokeLine(pen, stretch, { color: INKS.madder, width: 5, halo: INKS.sheet });
  } else if (lit.kind === 'stretches') {
    outlinePatches(pen, plan, lit.patches);
    pen.ctx.lineCap = 'butt';
    for (const stretch of lit.stretches)
      strokeLine(pen, stretch, { color: INKS.madder, width: 6, halo: INKS.sheet });
  }
}

function spotlight(pen: Pen, block: Block, patches: readonly Patch[]): void {
  const { ctx } = pen;
  ctx.beginPath();
  trace(pen, block.outline, true);
  for (const patch of patches) tracePatch(pen, patch);
  ctx.fillStyle = INKS.veil;
  ctx.fill('evenodd');
}

export function outlinePatches(pen: Pen, plan: PiecingPlan, ids: readonly string[], width = 3): void {
  pen.ctx.lineJoin = 'round';
  for (const patch of plan.patches) {
    if (!ids.includes(patch.id)) continue;
    pen.ctx.beginPath();
    tracePatch(pen, patch);
    strokePath(pen, { color: INKS.indigo, width, halo: INKS.sheet });
  }
}

export function strengthenCuts(pen: Pen, block: Block, ids: readonly string[]): void {
  pen.ctx.lineCap = 'round';
  for (const { id, from, to } of block.cuts)
    if (ids.includes(id)) strokeLine(pen, [from, to], { color: INKS.indigo, width: 3.5, halo: INKS.sheet });
}

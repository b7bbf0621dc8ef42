import type { Point } from '../../geometry/point.ts';
import { distance } from '../../geometry/ring.ts';
import type { Finding, PiecingPlan } from '../../piecing/plan.ts';
import { type Camera, toScreen } from '../camera.ts';
import { boxAbout, boxesAlong, type Figure } from './figures.ts';
import { INKS } from './inks.ts';
import { labelSpot } from './label-spot.ts';
import { dot, FONT, type Pen, strokePath } from './pen.ts';
import { Spots } from './spots.ts';

const SEVERITY_INK = { trouble: INKS.madder, caution: INKS.ochre, note: INKS.indigo } as const;
const MARKER_RADIUS = 10;

export interface FindingsShown {
  /** Index of the one a panel points at. */
  readonly lit: number | null;
  /** Indices of those that are left out. */
  readonly hidden: ReadonlySet<number>;
}

/** Indices of the findings whose places lie so near to some of these that a marker would cover them. */
export function findingsAt(
  camera: Camera,
  findings: readonly Finding[],
  places: readonly Point[],
): ReadonlySet<number> {
  const reachIn = (3 * MARKER_RADIUS) / camera.scale;
  const near = new Set<number>();
  for (const [index, { at }] of findings.entries())
    if (places.some((place) => distance(place, at) < reachIn)) near.add(index);
  return near;
}

/** Further than this no marker goes from its middle. */
const MARKER_REACH_PX = MARKER_RADIUS + 6;

/** So many can be read; of more the rest is told as a count beside the drawing, and shown when pointed at there. */
export const MOST_MARKERS = 24;

/**
 * Numbered markers on stems at the places of findings, notes only when lit, a figure each. Those that would cover each
 * other stand side by side. Of many only the first, the gravest, are shown, and the one that is lit.
 */
export function* findingFigures(
  camera: Camera,
  plan: PiecingPlan,
  { lit, hidden }: FindingsShown,
): Generator<Figure> {
  const shown = [...plan.findings.entries()].filter(
    ([index, { severity }]) =>
      index === lit || (severity !== 'note' && index < MOST_MARKERS && !hidden.has(index)),
  );
  if (shown.length === 0) return;
  const labels = new Spots(MARKER_RADIUS);
  for (const patch of plan.patches) labels.add(toScreen(camera, labelSpot(patch).at));
  const taken = new Spots(2.2 * MARKER_RADIUS);
  for (const [index, { at, severity }] of shown) {
    const place = toScreen(camera, at);
    let [x, y] = [place[0], place[1] - 2.2 * MARKER_RADIUS];
    while (taken.isNear([x, y])) x += 2.3 * MARKER_RADIUS;
    const spot: Point = [x, y];
    taken.add(spot);
    // Where a patch's id stands, the marker stands above it and needs no stem.
    const stem = labels.isNear(place) ? null : at;
    const isLit = index === lit;
    yield {
      get key() {
        return `finding ${index} ${severity} ${spot} ${stem} ${isLit}`;
      },
      boxes: () => [
        boxAbout(spot, MARKER_REACH_PX),
        ...(stem === null ? [] : boxesAlong([place, spot], MARKER_REACH_PX)),
      ],
      draw: (pen) => drawMarker(pen, String(index + 1), { severity, spot, stem, isLit }),
    };
  }
}

interface Marker {
  readonly severity: Finding['severity'];
  readonly spot: Point;
  /** The place in inches that a stem leads to, if one does. */
  readonly stem: Point | null;
  readonly isLit: boolean;
}

function drawMarker(pen: Pen, number: string, { severity, spot, stem, isLit }: Marker): void {
  const { ctx, camera } = pen;
  const [x, y] = spot;
  const color = SEVERITY_INK[severity];
  ctx.lineJoin = 'round';
  ctx.lineCap = 'round';
  if (stem !== null) {
    ctx.beginPath();
    ctx.moveTo(...toScreen(camera, stem));
    ctx.lineTo(x, y);
    strokePath(pen, { color, width: 1.6, halo: INKS.sheet });
    dot(pen, stem, 3, color, { color: INKS.sheet, width: 1.2 });
  }
  ctx.beginPath();
  markerShape(ctx, severity, x, y, MARKER_RADIUS);
  ctx.fillStyle = color;
  ctx.fill();
  strokePath(pen, { color: INKS.sheet, width: isLit ? 3 : 1.6 });
  ctx.fillStyle = INKS.sheet;
  ctx.font = `600 12px ${FONT}`;
  ctx.textAlign = 'center';
  ctx.textBaseline = 'middle';
  ctx.fillText(number, x, y + (severity === 'caution' ? 2 : 0.5));
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

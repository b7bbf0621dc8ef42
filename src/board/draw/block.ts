import type { Block, Cut, Fabric } from '../../document/project.ts';
import type { Point, Ring, Segment } from '../../geometry/point.ts';
import { distance } from '../../geometry/ring.ts';
import type { Finding, Join, Patch, PiecingPlan, RegistrationPoint } from '../../piecing/plan.ts';
import { patternOf } from '../../workspace/fabric-pictures.ts';
import { type Camera, toScreen } from '../camera.ts';
import { inkOn } from './contrast.ts';
import { boxAbout, boxesAlong, type Figure } from './figures.ts';
import { INKS } from './inks.ts';
import { labelSpot, sizeToFit } from './label-spot.ts';
import { dot, FONT, type Pen, type Stroke, strokeLine, strokeLines, strokePath, trace } from './pen.ts';
import { Spots } from './spots.ts';
import { type Strength, strengthOf } from './strength.ts';

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

/** Strokes of the cuts and of the outline. */
const CUT_PX = 1.2;
const OUTLINE_PX = 1.6;
const UNSOUND_PX = 2;
/** Further than this no line's ink or halo goes from it. */
const LINE_REACH_PX = 4;
/** A sharp corner of the outline is drawn out to this at most: ten times half its width, the canvas's miter limit. */
const CORNER_REACH_PX = 10;

/** The outline as a figure of its own. */
export const outlineFigure = (camera: Camera, outline: Ring, sound: boolean): Figure => ({
  get key() {
    return `outline ${sound} ${outline}`;
  },
  boxes: () =>
    boxesAlong(
      outline.map((corner) => toScreen(camera, corner)),
      CORNER_REACH_PX,
      true,
    ),
  draw: (pen) => drawOutlineLine(pen, outline, sound),
});

/** A cut as a figure of its own; its segment in inches, since lines are stroked together. */
export interface LineFigure extends Figure {
  readonly segment: Segment;
}

/** One cut: the same figure as long as it is the same object. */
export const lineFigure = (camera: Camera, cut: Cut): LineFigure => {
  const segment: Segment = [cut.from, cut.to];
  return {
    key: cut,
    segment,
    boxes: () => boxesAlong([toScreen(camera, cut.from), toScreen(camera, cut.to)], LINE_REACH_PX),
    draw: (pen) => drawLines(pen, [segment], false),
  };
};

/** Cuts as drawn. `onPrints`: some lie between pictures, where a line needs more of a halo. */
export function drawLines(pen: Pen, lines: readonly Segment[], onPrints: boolean): void {
  pen.ctx.lineCap = 'round';
  strokeLines(pen, lines, {
    color: INKS.ink,
    width: CUT_PX,
    halo: onPrints ? INKS.printLineHalo : INKS.lineHalo,
  });
}

/** The outline, over the cuts that end on it; broken where the block is not sound. */
export function drawOutlineLine(pen: Pen, outline: Ring, sound: boolean): void {
  pen.ctx.lineCap = 'round';
  pen.ctx.lineJoin = 'miter';
  strokeLine(
    pen,
    outline,
    sound ? { color: INKS.ink, width: OUTLINE_PX } : { color: INKS.madder, width: UNSOUND_PX, dash: [6, 4] },
    true,
  );
}

/** A join's thread, thinner where patches are small. */
const joinStroke = (strength: Strength): Stroke => ({
  color: INKS.madder,
  width: 1.2 + 1.8 * strength,
  dash: [9, 5].map((part) => part * (0.4 + 0.6 * strength)),
  halo: INKS.sheet,
  haloWidth: 2.4 * strength,
});

/** Further than this a join's thread does not go from its line. */
const JOIN_REACH_PX = 4;

/** Joins in madder thread, with the places where pins go. */
export function drawJoins(pen: Pen, joins: readonly Join[]): void {
  for (const join of joins) for (const stretch of join.stretches) drawStretch(pen, stretch, 1);
  for (const join of joins) for (const point of join.points) drawRegistration(pen, point);
}

function drawStretch(pen: Pen, stretch: Segment, strength: Strength): void {
  pen.ctx.lineCap = 'butt';
  strokeLine(pen, stretch, joinStroke(strength));
}

/** The stretches of all joins, then the places where pins go, each a figure. */
export function* joinFigures(camera: Camera, joins: readonly Join[], strength: Strength): Generator<Figure> {
  for (const { stretches } of joins)
    for (const stretch of stretches)
      yield {
        get key() {
          return `join ${stretch} ${strength}`;
        },
        boxes: () =>
          boxesAlong(
            stretch.map((end) => toScreen(camera, end)),
            JOIN_REACH_PX,
          ),
        draw: (pen) => drawStretch(pen, stretch, strength),
      };
  for (const { points } of joins)
    for (const point of points.filter(({ kind }) => isShownAt(kind, strength)))
      yield {
        get key() {
          return `pin ${point.kind} ${point.at}`;
        },
        boxes: () => [boxAbout(toScreen(camera, point.at), PIN_REACH_PX)],
        draw: (pen) => drawRegistration(pen, point),
      };
}

/** Small patches leave room for the pins that matter most, or for none. */
const isShownAt = (kind: RegistrationPoint['kind'], strength: Strength): boolean =>
  strength >= 0.75 || (strength === 0.5 && (kind === 'match' || kind === 'end'));

/** Further than this no mark of a pin goes from its middle. */
const PIN_REACH_PX = 10;

/** Radii at a scale of 60 px to the inch and more; smaller when the whole block is small. CSS pixels. */
const POINT_RADIUS = { end: 4, match: 5.5, junction: 4, guide: 3 } as const;

function drawRegistration(pen: Pen, { at, kind }: RegistrationPoint): void {
  const [x, y] = toScreen(pen.camera, at);
  const radius = POINT_RADIUS[kind] * Math.min(1, Math.max(0.6, pen.camera.scale / 60));
  dot(pen, at, radius, INKS.sheet, { color: INKS.madder, width: 1.6 });
  if (kind !== 'match' && kind !== 'end') return;
  // A match or an end is crossed, as it is on the paper where the pin goes straight through.
  const { ctx } = pen;
  const reach = radius + 2.5;
  ctx.fillStyle = INKS.madder;
  ctx.fillRect(x - reach, y - 0.6, 2 * reach, 1.2);
  ctx.fillRect(x - 0.6, y - reach, 1.2, 2 * reach);
}

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

/** What a panel points at. */
export type Lit =
  | { readonly kind: 'section'; readonly letter: string }
  | { readonly kind: 'patches'; readonly ids: readonly string[] }
  | { readonly kind: 'cuts'; readonly ids: readonly string[] }
  /** Edges and corners of the outline. */
  | { readonly kind: 'outline'; readonly lines: readonly Segment[]; readonly spots: readonly Point[] }
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
  } else if (lit.kind === 'outline') {
    for (const line of lit.lines) strokeLine(pen, line, { color: INKS.indigo, width: 4, halo: INKS.sheet });
    for (const spot of lit.spots) dot(pen, spot, 9, INKS.sheet, { color: INKS.indigo, width: 4 });
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

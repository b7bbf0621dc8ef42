import type { Segment } from '../../geometry/point.ts';
import type { Join, RegistrationPoint } from '../../piecing/plan.ts';
import { type Camera, toScreen } from '../camera.ts';
import { boxAbout, boxesAlong, type Figure } from './figures.ts';
import { INKS } from './inks.ts';
import { dot, type Pen, type Stroke, strokeLine } from './pen.ts';
import type { Strength } from './strength.ts';

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

import type { Unit } from '../../document/project.ts';
import { type GridKind, gridLinesIn } from '../../editing/grid.ts';
import { MM_PER_IN } from '../../geometry/lattice.ts';
import type { Point } from '../../geometry/point.ts';
import type { Box } from '../../geometry/ring.ts';
import { toScreen } from '../camera.ts';
import { INKS } from './inks.ts';
import { FONT, type Pen, strokePath, trace } from './pen.ts';

/** Width of the paper's margin around the block, CSS pixels; the ruler is printed in it. */
export const SHEET_MARGIN = 30;

/** The sheet of paper under a block, with a ruler along its top and left edges. */
export function drawSheet(pen: Pen, box: Box, unit: Unit): void {
  const { ctx, camera } = pen;
  const [left, top] = toScreen(camera, [box.minX, box.minY]);
  const [right, bottom] = toScreen(camera, [box.maxX, box.maxY]);
  ctx.save();
  ctx.shadowColor = INKS.shade;
  ctx.shadowBlur = 18;
  ctx.shadowOffsetY = 3;
  ctx.fillStyle = INKS.sheet;
  ctx.fillRect(
    left - SHEET_MARGIN,
    top - SHEET_MARGIN,
    right - left + 2 * SHEET_MARGIN,
    bottom - top + 2 * SHEET_MARGIN,
  );
  ctx.restore();
  drawRuler(pen, box, unit);
}

/** Steps a ruler may be numbered in, in its own unit. */
const INCH_NUMBERS = [1, 2, 3, 6, 12, 24, 60, 120];
const MM_NUMBERS = [10, 20, 50, 100, 200, 500, 1000];

function drawRuler({ ctx, camera }: Pen, box: Box, unit: Unit): void {
  const unitIn = unit === 'mm' ? 1 / MM_PER_IN : 1;
  const numbered = (unit === 'mm' ? MM_NUMBERS : INCH_NUMBERS).find(
    (step) => step * unitIn * camera.scale >= 34,
  );
  if (numbered === undefined) return;
  const [left, top] = toScreen(camera, [box.minX, box.minY]);
  const parts =
    unit === 'mm' ? (numbered === 10 ? 10 : 5) : numbered === 1 ? eighths(camera.scale) : numbered;
  const tickUnit = numbered / parts;
  ctx.strokeStyle = INKS.rule;
  ctx.fillStyle = INKS.inkSoft;
  ctx.lineWidth = 1;
  ctx.font = `11px ${FONT}`;
  ctx.beginPath();
  for (const axis of ['x', 'y'] as const) {
    const from = axis === 'x' ? box.minX : box.minY;
    const to = axis === 'x' ? box.maxX : box.maxY;
    const first = Math.ceil(from / unitIn / tickUnit - 1e-6);
    const last = Math.floor(to / unitIn / tickUnit + 1e-6);
    if (last - first > 2000) continue;
    for (let index = first; index <= last; index++) {
      const onNumber = index % parts === 0;
      const length = onNumber ? 7 : (index * 2) % parts === 0 ? 5 : 3;
      const [x, y] = toScreen(camera, [index * tickUnit * unitIn, index * tickUnit * unitIn]);
      if (axis === 'x') {
        ctx.moveTo(x, top - 6);
        ctx.lineTo(x, top - 6 - length);
      } else {
        ctx.moveTo(left - 6, y);
        ctx.lineTo(left - 6 - length, y);
      }
      if (!onNumber) continue;
      const text = String(Math.round(index * tickUnit));
      if (axis === 'x') {
        ctx.textAlign = 'center';
        ctx.textBaseline = 'alphabetic';
        ctx.fillText(text, x, top - 17);
      } else {
        ctx.textAlign = 'right';
        ctx.textBaseline = 'middle';
        ctx.fillText(text, left - 16, y + 0.5);
      }
    }
  }
  ctx.stroke();
}

const eighths = (scale: number): number => (scale >= 160 ? 16 : scale >= 60 ? 8 : scale >= 30 ? 4 : 2);

/** The grid as thin lines over the block's box; of a square one whole inches (or centimetres) a little stronger. Left out where too fine. */
export function drawGrid(
  pen: Pen,
  box: Box,
  gridIn: number,
  unit: Unit,
  kind: GridKind,
  origin: Point,
): void {
  const strong = unit === 'mm' ? 10 / MM_PER_IN : 1;
  drawGridLines(pen, box, gridIn, kind, origin, INKS.grid);
  if (kind === 'square' && gridIn > 0 && gridIn < strong)
    drawGridLines(pen, box, strong, kind, origin, INKS.gridStrong);
}

function drawGridLines(
  pen: Pen,
  box: Box,
  stepIn: number,
  kind: GridKind,
  origin: Point,
  color: string,
): void {
  if (stepIn <= 0 || stepIn * pen.camera.scale < 7) return;
  pen.ctx.beginPath();
  for (const line of gridLinesIn(kind, stepIn, box, origin)) trace(pen, line, false);
  pen.ctx.lineCap = 'butt';
  strokePath(pen, { color, width: 1 });
}

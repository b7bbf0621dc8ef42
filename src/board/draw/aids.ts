import { axesOf, middleOf, type Symmetry } from '../../editing/symmetry.ts';
import type { Point, Ring } from '../../geometry/point.ts';
import { boxOf } from '../../geometry/ring.ts';
import { INKS } from './inks.ts';
import { dot, type Pen, strokeLine } from './pen.ts';

/** The lines in which, or the spokes round which, what is drawn is drawn again. */
export function drawAxes(pen: Pen, outline: Ring, symmetry: Symmetry): void {
  if (symmetry === 'none') return;
  const middle = middleOf(outline);
  const { minX, minY, maxX, maxY } = boxOf(outline);
  const reach = Math.max(maxX - minX, maxY - minY) * 0.58;
  pen.ctx.lineCap = 'butt';
  for (const axis of axesOf(symmetry, middle, reach))
    strokeLine(pen, axis, { color: INKS.moss, width: 1.2, dash: [14, 5, 2, 5] });
  dot(pen, middle, 4, INKS.sheet, { color: INKS.moss, width: 2 });
}

/** Spots that an edge or a cut was divided at. */
export function drawDivisions(pen: Pen, divisions: readonly Point[]): void {
  for (const at of divisions) dot(pen, at, 4, INKS.moss, { color: INKS.sheet, width: 1.4 });
}

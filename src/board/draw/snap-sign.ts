import type { Snap } from '../../editing/snapping.ts';
import { toScreen } from '../camera.ts';
import { INKS } from './inks.ts';
import { type Pen, strokeLine, strokePath } from './pen.ts';

/** The mark of what catches the pointer, one for each kind. */
export function drawSnapSign(pen: Pen, snap: Snap): void {
  const [x, y] = toScreen(pen.camera, snap.at);
  const { ctx } = pen;
  if (snap.guide !== undefined) {
    ctx.lineCap = 'butt';
    strokeLine(pen, snap.guide, { color: INKS.indigo, width: 2.4, dash: [3, 4], halo: INKS.sheet });
  }
  ctx.lineJoin = 'miter';
  ctx.lineCap = 'butt';
  ctx.beginPath();
  switch (snap.kind) {
    case 'corner':
      ctx.rect(x - 6, y - 6, 12, 12);
      break;
    case 'cut-end':
      ctx.arc(x, y, 6.5, 0, Math.PI * 2);
      break;
    case 'crossing':
      ctx.moveTo(x - 6, y - 6);
      ctx.lineTo(x + 6, y + 6);
      ctx.moveTo(x + 6, y - 6);
      ctx.lineTo(x - 6, y + 6);
      break;
    case 'center':
      ctx.arc(x, y, 6.5, 0, Math.PI * 2);
      ctx.moveTo(x - 9, y);
      ctx.lineTo(x + 9, y);
      ctx.moveTo(x, y - 9);
      ctx.lineTo(x, y + 9);
      break;
    case 'midpoint':
      ctx.moveTo(x, y - 7);
      ctx.lineTo(x + 7, y + 5);
      ctx.lineTo(x - 7, y + 5);
      ctx.closePath();
      break;
    case 'line':
    case 'edge':
      ctx.moveTo(x, y - 7);
      ctx.lineTo(x + 7, y);
      ctx.lineTo(x, y + 7);
      ctx.lineTo(x - 7, y);
      ctx.closePath();
      break;
    case 'perpendicular':
      ctx.moveTo(x - 7, y - 7);
      ctx.lineTo(x - 7, y + 7);
      ctx.lineTo(x + 7, y + 7);
      ctx.moveTo(x - 7, y);
      ctx.lineTo(x, y);
      ctx.lineTo(x, y + 7);
      break;
    case 'parallel':
      ctx.moveTo(x - 7, y + 5);
      ctx.lineTo(x + 1, y - 7);
      ctx.moveTo(x - 1, y + 7);
      ctx.lineTo(x + 7, y - 5);
      break;
    case 'same-length':
      ctx.moveTo(x - 6, y - 3);
      ctx.lineTo(x + 6, y - 3);
      ctx.moveTo(x - 6, y + 3);
      ctx.lineTo(x + 6, y + 3);
      break;
    case 'step':
      ctx.moveTo(x + 7, y - 6);
      ctx.lineTo(x - 7, y + 6);
      ctx.lineTo(x + 7, y + 6);
      break;
    case 'third':
    case 'division':
      ctx.moveTo(x - 4, y - 7);
      ctx.lineTo(x - 4, y + 7);
      ctx.moveTo(x + 4, y - 7);
      ctx.lineTo(x + 4, y + 7);
      break;
    case 'grid':
    case 'free':
    case 'typed':
      ctx.moveTo(x - 6, y);
      ctx.lineTo(x + 6, y);
      ctx.moveTo(x, y - 6);
      ctx.lineTo(x, y + 6);
      break;
  }
  strokePath(pen, { color: INKS.indigo, width: 2, halo: INKS.sheet });
}

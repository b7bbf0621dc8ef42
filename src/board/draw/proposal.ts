import type { Segment } from '../../geometry/point.ts';
import { toScreen } from '../camera.ts';
import type { Proposal } from '../proposal.ts';
import { INKS } from './inks.ts';
import { dot, type Pen, strokeLine, strokePath } from './pen.ts';

/** Stitch and gap of lines that are proposed, CSS pixels: longer than any thread of a section. */
const PROPOSED_DASH = [18, 5, 5, 5];

/** How far the small crosses that strike a line out lie apart, and half their size. CSS pixels. */
const CROSS_EVERY_PX = 26;
const CROSS_PX = 4.5;

/** Lines a repair would draw, in moss with an end mark, and those it would take away, struck out in madder. */
export function drawProposal(pen: Pen, { added, removed }: Pick<Proposal, 'added' | 'removed'>): void {
  pen.ctx.lineCap = 'butt';
  for (const stretch of removed) strikeOut(pen, stretch);
  for (const stretch of added) {
    strokeLine(pen, stretch, { color: INKS.moss, width: 4.5, dash: PROPOSED_DASH, halo: INKS.sheet });
    for (const end of stretch) dot(pen, end, 4.5, INKS.sheet, { color: INKS.moss, width: 2.4 });
  }
}

function strikeOut(pen: Pen, stretch: Segment): void {
  const { ctx, camera } = pen;
  strokeLine(pen, stretch, { color: INKS.madder, width: 1.6, dash: [2, 4], halo: INKS.sheet });
  const [a, b] = [toScreen(camera, stretch[0]), toScreen(camera, stretch[1])];
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const crosses = Math.max(1, Math.floor(length / CROSS_EVERY_PX));
  ctx.beginPath();
  for (let k = 0; k < crosses; k++) {
    const t = (k + 0.5) / crosses;
    const [x, y] = [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];
    ctx.moveTo(x - CROSS_PX, y - CROSS_PX);
    ctx.lineTo(x + CROSS_PX, y + CROSS_PX);
    ctx.moveTo(x + CROSS_PX, y - CROSS_PX);
    ctx.lineTo(x - CROSS_PX, y + CROSS_PX);
  }
  strokePath(pen, { color: INKS.madder, width: 2, halo: INKS.sheet });
}

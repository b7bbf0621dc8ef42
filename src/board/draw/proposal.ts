import type { Area } from '../../geometry/inner-spot.ts';
import type { Segment } from '../../geometry/point.ts';
import { type Box, boxOf } from '../../geometry/ring.ts';
import { toScreen } from '../camera.ts';
import type { Proposal } from '../proposal.ts';
import { drawCutNames } from './cut-names.ts';
import { INKS } from './inks.ts';
import { dot, type Pen, strokeLine, strokePath, trace } from './pen.ts';
import { SHEET_MARGIN } from './sheet.ts';

/** Stitch and gap of lines that are proposed, CSS pixels: longer than any thread of a section. */
const PROPOSED_DASH = [18, 5, 5, 5];

/** How far the lines lie apart, level, that hatch what changes. CSS pixels. */
const HATCH_EVERY_PX = 9;

/** How far the small crosses that strike a line out lie apart, and half their size. CSS pixels. */
const CROSS_EVERY_PX = 26;
const CROSS_PX = 4.5;

/** Stitch and gap of the frame on a sheet that shows what is not drawn yet, and its width. CSS pixels. */
const FRAME_DASH = [10, 7];
const FRAME_PX = 3;

/**
 * Lines a repair would draw, in moss with an end mark, and those it would take away, struck out in madder; the cuts
 * it changes by their names, and hatched what becomes another fabric. A dashed frame along the sheet's edge says that all this is not drawn yet.
 */
export function drawProposal(
  pen: Pen,
  { block, repair, after, added, removed, changed }: Proposal,
  sheet: Box,
): void {
  pen.ctx.lineCap = 'butt';
  drawFrame(pen, sheet);
  for (const [old, next] of repair.picture.places) hatch(pen, old, next);
  for (const stretch of removed) strikeOut(pen, stretch);
  for (const stretch of added) {
    strokeLine(pen, stretch, { color: INKS.moss, width: 4.5, dash: PROPOSED_DASH, halo: INKS.sheet });
    for (const end of stretch) dot(pen, end, 4.5, INKS.sheet, { color: INKS.moss, width: 2.4 });
  }
  drawCutNames(
    pen,
    block,
    changed,
    after.cuts.flatMap(({ from, to }) => [from, to]),
  );
}

/** Slanting lines over what two areas have in common. */
function hatch(pen: Pen, ...areas: readonly Area[]): void {
  const { ctx, camera } = pen;
  ctx.save();
  for (const { polygon, holes } of areas) {
    ctx.beginPath();
    for (const ring of [polygon, ...holes]) trace(pen, ring, true);
    ctx.clip('evenodd');
  }
  const box = boxOf(areas[0]!.polygon);
  const [left, top] = toScreen(camera, [box.minX, box.minY]);
  const [right, bottom] = toScreen(camera, [box.maxX, box.maxY]);
  ctx.beginPath();
  for (let x = left - (bottom - top); x < right; x += HATCH_EVERY_PX) {
    ctx.moveTo(x, bottom);
    ctx.lineTo(x + (bottom - top), top);
  }
  strokePath(pen, { color: INKS.madder, width: 1.4, halo: INKS.sheet });
  ctx.restore();
}

function drawFrame({ ctx, camera }: Pen, sheet: Box): void {
  const [left, top] = toScreen(camera, [sheet.minX, sheet.minY]);
  const [right, bottom] = toScreen(camera, [sheet.maxX, sheet.maxY]);
  const away = SHEET_MARGIN - FRAME_PX / 2;
  ctx.beginPath();
  ctx.rect(left - away, top - away, right - left + 2 * away, bottom - top + 2 * away);
  strokePath({ ctx, camera }, { color: INKS.moss, width: FRAME_PX, dash: FRAME_DASH });
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

import type { Block } from '../../document/project.ts';
import type { Chosen } from '../../editing/chosen.ts';
import { type FrameHandle, frameBox, frameHandles, frameOf } from '../../editing/frame.ts';
import { holdsPoint } from '../../geometry/inner-spot.ts';
import type { Point, Ring } from '../../geometry/point.ts';
import type { Box } from '../../geometry/ring.ts';
import { edgesOf, samePlace } from '../../geometry/segments.ts';
import type { PiecingPlan } from '../../piecing/plan.ts';
import { toScreen } from '../camera.ts';
import { INKS } from './inks.ts';
import { tracePatch } from './patches.ts';
import { dot, type Pen, strokeLine, strokePath } from './pen.ts';

/** Cuts that are images of the chosen ones: what is done to those is done to them. */
export function drawTwins(pen: Pen, { cuts }: Block, ids: readonly string[]): void {
  if (ids.length === 0) return;
  const twins = new Set(ids);
  pen.ctx.lineCap = 'butt';
  for (const { id, from, to } of cuts)
    if (twins.has(id))
      strokeLine(pen, [from, to], { color: INKS.indigo, width: 2.4, dash: [6, 4], halo: INKS.sheet });
}

/** What is chosen: cuts strong with handles at their ends, a corner, a patch. */
export function drawChosen(
  pen: Pen,
  block: Block,
  plan: PiecingPlan,
  selection: readonly string[],
  chosen: Chosen | null,
  handles: boolean,
  snapped: Point | null,
  inHand: FrameHandle | null,
): void {
  const { ctx } = pen;
  if (chosen?.kind === 'patch') {
    const patch = plan.patches.find((one) => holdsPoint(one, chosen.at));
    if (patch !== undefined) {
      ctx.beginPath();
      tracePatch(pen, patch);
      strokePath(pen, { color: INKS.indigo, width: 2.6, halo: INKS.sheet });
    }
  }
  ctx.lineCap = 'round';
  const edge = chosen?.kind === 'edge' ? edgesOf(block.outline)[chosen.edge] : undefined;
  if (edge !== undefined) strokeLine(pen, edge, { color: INKS.indigo, width: 3.4, halo: INKS.sheet });
  const cuts = block.cuts.filter(({ id }) => selection.includes(id));
  for (const { from, to } of cuts)
    strokeLine(pen, [from, to], { color: INKS.indigo, width: 3, halo: INKS.sheet });
  if (!handles) return;
  const frame = frameOf(cuts);
  if (frame !== null) drawFrame(pen, frame, inHand);
  for (const [index, corner] of block.outline.entries()) {
    const isChosen = chosen?.kind === 'corner' && chosen.corner === index;
    square(
      pen,
      corner,
      isChosen ? 6 : 4,
      isChosen ? INKS.indigo : INKS.sheet,
      isChosen ? INKS.indigo : INKS.ink,
    );
  }
  // The end in hand carries the mark of what catches it instead.
  for (const { from, to } of cuts)
    for (const end of [from, to])
      if (snapped === null || !samePlace(end, snapped))
        dot(pen, end, 6, INKS.sheet, { color: INKS.indigo, width: 2 });
}

/** The frame round several chosen cuts: squares that size it, a round handle that turns it. */
function drawFrame(pen: Pen, box: Box, inHand: FrameHandle | null): void {
  const pxIn = 1 / pen.camera.scale;
  const { minX, minY, maxX, maxY } = frameBox(box, pxIn);
  const corners: Ring = [
    [minX, minY],
    [maxX, minY],
    [maxX, maxY],
    [minX, maxY],
  ];
  pen.ctx.lineCap = 'butt';
  strokeLine(pen, corners, { color: INKS.indigo, width: 1, dash: [4, 4], halo: INKS.sheet }, true);
  for (const { handle, at } of frameHandles(box, pxIn)) {
    const isInHand = inHand !== null && isSameHandle(handle, inHand);
    if (handle.kind === 'turn') {
      strokeLine(pen, [[at[0], minY], at], { color: INKS.indigo, width: 1.4, halo: INKS.sheet });
      dot(pen, at, 7, isInHand ? INKS.indigo : INKS.sheet, { color: INKS.indigo, width: 2 });
    } else square(pen, at, 5, isInHand ? INKS.indigo : INKS.sheet, INKS.indigo);
  }
}

const isSameHandle = (a: FrameHandle, b: FrameHandle): boolean =>
  a.kind === 'turn' || b.kind === 'turn'
    ? a.kind === b.kind
    : a.side[0] === b.side[0] && a.side[1] === b.side[1];

function square(pen: Pen, at: Point, half: number, fill: string, stroke: string): void {
  const [x, y] = toScreen(pen.camera, at);
  const { ctx } = pen;
  ctx.lineJoin = 'miter';
  ctx.beginPath();
  ctx.rect(x - half, y - half, 2 * half, 2 * half);
  ctx.fillStyle = fill;
  ctx.fill();
  strokePath(pen, { color: stroke, width: 1.4 });
}

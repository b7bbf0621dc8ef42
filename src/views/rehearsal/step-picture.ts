import { INKS } from '../../board/draw/inks.ts';
import type { Point, Ring, Segment } from '../../geometry/point.ts';
import type { Patch, PiecingPlan } from '../../piecing/plan.ts';
import type { RehearsalStep } from '../../piecing/rehearsal.ts';
import { colorOf } from './scene-parts.tsx';
import { planBox, type View, viewOf } from './view.ts';

/** Draws a step small: what is sewn when it is done, its own patch or join marked. `size` is CSS pixels, both ways. */
export function drawStep(
  canvas: HTMLCanvasElement,
  plan: PiecingPlan,
  step: RehearsalStep,
  colors: ReadonlyMap<string, string>,
  size: number,
): void {
  const ratio = window.devicePixelRatio || 1;
  canvas.width = Math.round(size * ratio);
  canvas.height = Math.round(size * ratio);
  const ctx = canvas.getContext('2d');
  if (ctx === null) return;
  ctx.scale(ratio, ratio);
  ctx.fillStyle = INKS.sheet;
  ctx.fillRect(0, 0, size, size);
  const view = viewOf(planBox(plan), size - 6, size - 6, 0, 'front');
  ctx.translate(3, 3);
  ctx.lineJoin = 'round';
  const sewn = new Set(step.sewn);
  const outlines = new Path2D();
  for (const { outline } of plan.sections) traceRing(outlines, view, outline);
  ctx.strokeStyle = INKS.rule;
  ctx.lineWidth = 1;
  ctx.stroke(outlines);
  ctx.strokeStyle = INKS.ink;
  ctx.lineWidth = 0.6;
  for (const patch of plan.patches) {
    if (!sewn.has(patch.id)) continue;
    const path = pathOf(view, patch);
    ctx.fillStyle = colorOf(patch, colors);
    ctx.fill(path, 'evenodd');
    ctx.stroke(path);
  }
  if (step.kind === 'join') {
    ctx.strokeStyle = INKS.sheet;
    ctx.lineWidth = 4.5;
    ctx.stroke(seamPath(view, step.join.stretches));
    ctx.strokeStyle = INKS.madder;
    ctx.lineWidth = 2.4;
    ctx.stroke(seamPath(view, step.join.stretches));
    return;
  }
  const own =
    step.kind === 'start' ? plan.patches.filter(({ section }) => step.unit.includes(section)) : [step.patch];
  for (const patch of own) {
    const path = pathOf(view, patch);
    ctx.strokeStyle = INKS.sheet;
    ctx.lineWidth = 3.4;
    ctx.stroke(path);
    ctx.strokeStyle = INKS.indigo;
    ctx.lineWidth = 1.8;
    ctx.stroke(path);
  }
}

function traceRing(path: Path2D, { toPx }: View, ring: Ring): void {
  ring.forEach((at: Point, k) => {
    const [x, y] = toPx(at);
    if (k === 0) path.moveTo(x, y);
    else path.lineTo(x, y);
  });
  path.closePath();
}

function pathOf(view: View, { polygon, holes }: Patch): Path2D {
  const path = new Path2D();
  for (const ring of [polygon, ...holes]) traceRing(path, view, ring);
  return path;
}

function seamPath({ toPx }: View, stretches: readonly Segment[]): Path2D {
  const path = new Path2D();
  for (const [a, b] of stretches) {
    path.moveTo(...toPx(a));
    path.lineTo(...toPx(b));
  }
  return path;
}

import type { Block } from '../../document/project.ts';
import type { Point, Segment } from '../../geometry/point.ts';
import type { Patch, PiecingPlan } from '../../piecing/plan.ts';
import { INKS } from './inks.ts';
import { tracePatch } from './patches.ts';
import { dot, type Pen, strokeLine, strokePath, trace } from './pen.ts';

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

import type { PiecingPlan } from '../../piecing/plan.ts';
import type { Drawing, DrawingRequest } from './draw-foundation.ts';

/** Gives a paper that was drawn before from the very same, or draws it and keeps it. */
export type DrawingStore = (request: DrawingRequest, draw: (request: DrawingRequest) => Drawing) => Drawing;

/** So many papers are kept; of the plan that was not asked for longest all are let go first. */
const MOST_DRAWINGS = 500;

/**
 * Keeps drawn papers from one layout to the next. They are told apart by what they are drawn from, not by who asks:
 * a plan that comes from another thread is another object each time. All that is asked of one store must be set in
 * one typeface.
 */
export function drawingStore(): DrawingStore {
  /** By plan, in the order they were last asked for, then by all else. */
  const kept = new Map<string, Map<string, Drawing>>();
  const planTexts = new WeakMap<PiecingPlan, string>();
  let count = 0;

  const textOf = (plan: PiecingPlan): string => {
    const known = planTexts.get(plan);
    if (known !== undefined) return known;
    // What is found about a plan is not drawn.
    const text = JSON.stringify({ ...plan, findings: [] });
    planTexts.set(plan, text);
    return text;
  };

  return (request, draw) => {
    // The ticks follow from the plan.
    const { plan, fabrics, ticks: _, typeface: __, ...rest } = request;
    const used = new Set(plan.patches.map(({ fabric }) => fabric));
    const asked = JSON.stringify([rest, [...fabrics].filter(([id]) => used.has(id))]);
    const text = textOf(plan);
    const papers = kept.get(text) ?? new Map<string, Drawing>();
    kept.delete(text);
    kept.set(text, papers);
    const known = papers.get(asked);
    if (known) return known;
    const paper = draw(request);
    papers.set(asked, paper);
    count++;
    for (const [oldest, { size }] of kept) {
      if (count <= MOST_DRAWINGS || oldest === text) break;
      kept.delete(oldest);
      count -= size;
    }
    return paper;
  };
}

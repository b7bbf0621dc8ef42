import { type FlowItem, moved } from '../../foundations/booklet/flow.ts';
import type { Mark } from '../../foundations/marks.ts';
import { phrase } from '../../words/phrase.ts';
import type { QuiltFit } from './quilt-marks.ts';

/** Nothing mirrored: the finished front, as on the wall. */
export const FRONT = phrase('Front view.');

/** A drawing in the middle of a page's width. */
export function drawn(fit: QuiltFit, width: number, marks: readonly Mark[], space = 0.1): FlowItem {
  return { height: fit.height, space, marks: moved(marks, [(width - fit.width) / 2, 0]) };
}

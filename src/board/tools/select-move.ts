import { scaleCuts, turnBy, turnCuts } from '../../document/edit-turn.ts';
import type { ProjectEdit } from '../../document/project.ts';
import { sizingOf, turningOf } from '../../editing/frame.ts';
import { snapFrom } from '../../editing/heading.ts';
import { moveCornerAttached, moveEdgeAttached, moveEnd, shiftCutsAttached } from '../../editing/reshape.ts';
import { free, rankOf, type Snap, type SnapField, snapTo } from '../../editing/snapping.ts';
import { everywhere } from '../../editing/symmetric.ts';
import type { Point, Segment } from '../../geometry/point.ts';
import { distance } from '../../geometry/ring.ts';
import { shifted } from '../../geometry/segments.ts';
import { phrase } from '../../words/phrase.ts';
import { type Moving, NOTHING, type SelectState } from './select-state.ts';
import { caught, type Pointer, type Step, type Surroundings, stepTo } from './tool.ts';

export function follow(state: Moving, pointer: Pointer, around: Surroundings): Step<Moving> {
  if (state.kind === 'turning') {
    const how = pointer.free ? 'free' : pointer.steps ? 'steps' : 'caught';
    const degrees = turningOf(state.about, state.start, pointer.at, how);
    const moved = { ...state, pointer: pointer.at, degrees };
    return stepTo(moved, previewOf(moved, around));
  }
  if (state.kind === 'sizing') {
    const by: Point = [pointer.at[0] - state.start[0], pointer.at[1] - state.start[1]];
    const field = pointer.free ? null : state.field;
    const sizing = sizingOf(state.box, state.side, by, field, around.reachIn, pointer.steps);
    const moved = { ...state, sizing };
    return stepTo(moved, previewOf(moved, around));
  }
  if (state.kind === 'moving-cuts' || state.kind === 'moving-edge') {
    const pulled: Point = [pointer.at[0] - state.start[0], pointer.at[1] - state.start[1]];
    const plain = state.kind === 'moving-edge' ? across(state.anchors, pulled) : pulled;
    const { by, at } = pointer.free
      ? { by: plain, at: free(pointer.at) }
      : caughtShift(state.anchors, plain, state.field, around.reachIn);
    const moved = { ...state, by, at };
    return stepTo(moved, previewOf(moved, around));
  }
  // An end is caught as the end of a running line is: square to lines, along them, in 15° steps with Shift.
  const to =
    (state.kind === 'moving-end' || pointer.steps) && !pointer.free
      ? snapFrom(state.field, state.held, pointer.at, around.reachIn, pointer.steps)
      : caught(state.field, pointer, around);
  const moved = { ...state, to, ...(state.kind === 'moving-end' ? { alone: pointer.free } : {}) };
  return stepTo(moved, previewOf(moved, around));
}

/** The part of a shift that is square to a line. */
export function across([from, to]: Segment, by: Point): Point {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const share = (by[0] * dy - by[1] * dx) / (dx * dx + dy * dy);
  return [dy * share, -dx * share];
}

/** The shift that brings one of the anchors to what catches it best; the plain shift when nothing does. */
function caughtShift(
  anchors: readonly Point[],
  plain: Point,
  field: SnapField,
  reachIn: number,
): { readonly by: Point; readonly at: Snap } {
  let best = { by: plain, at: free(shifted(anchors[0]!, plain)) };
  let bestAway = Infinity;
  for (const anchor of anchors) {
    const wanted = shifted(anchor, plain);
    const at = snapTo(field, wanted, reachIn);
    const away = distance(at.at, wanted);
    const stronger = rankOf(at.kind) - rankOf(best.at.kind);
    if (stronger > 0 || (stronger === 0 && away >= bestAway)) continue;
    best = { by: [at.at[0] - anchor[0], at.at[1] - anchor[1]], at };
    bestAway = away;
  }
  return best;
}

/** What a move makes of the drawing, at every image of it under a symmetry. */
const previewOf = (state: Moving, { block, symmetry }: Surroundings) =>
  ({ kind: 'preview', change: everywhere(changeOf(state, block!.id), block!.id, symmetry) }) as const;

function changeOf(state: Moving, id: string): ProjectEdit {
  switch (state.kind) {
    case 'moving-end':
      return (project) => moveEnd(project, id, state.cut, state.end, state.to.at, state.alone);
    case 'moving-corner':
      return (project) => moveCornerAttached(project, id, state.corner, state.to.at);
    case 'moving-cuts':
      return (project) => shiftCutsAttached(project, id, state.cuts, state.by);
    case 'moving-edge':
      return (project) => moveEdgeAttached(project, id, state.edge, state.by);
    case 'turning':
      return state.degrees === 0
        ? (project) => project
        : (project) => turnCuts(project, id, state.cuts, turnBy(state.degrees), state.about);
    case 'sizing': {
      const { across, down, about } = state.sizing;
      return across === 1 && down === 1
        ? (project) => project
        : (project) => scaleCuts(project, id, state.cuts, across, down, about);
    }
  }
}

const LABELS = {
  'moving-end': phrase('Move end of line'),
  'moving-corner': phrase('Move corner'),
  'moving-cuts': phrase('Move line'),
  'moving-edge': phrase('Move edge'),
  turning: phrase('Turn lines'),
  sizing: phrase('Resize lines'),
} as const;

function placeInHand(state: Moving): Point {
  switch (state.kind) {
    case 'turning':
      return state.pointer;
    case 'sizing':
      return state.sizing.at;
    case 'moving-cuts':
    case 'moving-edge':
      return state.at.at;
    default:
      return state.to.at;
  }
}

/** Lets go: one step of the history, or none when everything is where it was. */
export function put(state: Moving, around: Surroundings): Step<SelectState> {
  const preview = previewOf(state, around);
  const at = placeInHand(state);
  const idle: SelectState = { kind: 'idle', over: NOTHING, at };
  if (preview.change(around.project) === around.project)
    return stepTo<SelectState>(idle, { kind: 'cancel-preview' });
  const several = state.kind === 'moving-cuts' && state.cuts.length > 1;
  return stepTo<SelectState>(idle, {
    kind: 'edit',
    label: several ? phrase('Move lines') : LABELS[state.kind],
    change: preview.change,
  });
}

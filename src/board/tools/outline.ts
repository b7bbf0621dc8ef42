import { addBlock } from '../../document/edit-block.ts';
import { setOutline } from '../../document/edit-outline.ts';
import { nextBlockId } from '../../document/ids.ts';
import { type OutlineFault, outlineFault } from '../../geometry/outline.ts';
import type { Point, Ring } from '../../geometry/point.ts';
import { boxOf, distance } from '../../geometry/ring.ts';
import { snapFrom } from '../heading.ts';
import { samePlace } from '../nearness.ts';
import { bareField, free, type Snap, type SnapField } from '../snapping.ts';
import { snapWords } from '../words.ts';
import {
  caught,
  type Effect,
  fieldAround,
  type Pointer,
  type Step,
  type Surroundings,
  stay,
  type Tool,
} from './tool.ts';

/** Draws a closed outline point by point, for a new block or in place of the one on the board. */
export type OutlineState =
  | { readonly kind: 'idle'; readonly near: Snap | null }
  | { readonly kind: 'drawing'; readonly points: readonly Point[]; readonly to: Snap };

const IDLE: OutlineState = { kind: 'idle', near: null };

export const outlineTool: Tool<OutlineState> = {
  name: 'outline',
  start: IDLE,
  busy: ({ kind }) => kind === 'drawing',
  marks: (state) => {
    if (state.kind === 'drawing')
      return [
        { kind: 'outline', points: state.points, to: state.to.at },
        { kind: 'run', segment: [state.points.at(-1)!, state.to.at] },
        { kind: 'snap', snap: state.to },
      ];
    return state.near === null ? [] : [{ kind: 'snap', snap: state.near }];
  },
  on: (state, event, around) => {
    switch (event.kind) {
      case 'cancel':
        return stay(IDLE);
      case 'back':
        return state.kind === 'drawing' && state.points.length > 1
          ? stay({ ...state, points: state.points.slice(0, -1) })
          : stay(IDLE);
      case 'finish':
        return state.kind === 'drawing' ? closed(state, around) : stay(state);
      case 'up':
      case 'type':
      case 'next':
        return stay(state);
      case 'move': {
        const near = caughtPoint(state, event.pointer, around);
        return stay(state.kind === 'idle' ? { kind: 'idle', near } : { ...state, to: near });
      }
      case 'down': {
        const to = caughtPoint(state, event.pointer, around);
        if (state.kind === 'idle')
          return stay<OutlineState>({ kind: 'drawing', points: [to.at], to }, cornerSet(1, to, around));
        const [first] = state.points;
        if (state.points.length >= 3 && samePlace(to.at, first!)) return closed(state, around);
        // The second press of a double click, or a point put twice, adds nothing.
        if (samePlace(to.at, state.points.at(-1)!)) return stay(state);
        const points = [...state.points, to.at];
        return stay<OutlineState>({ kind: 'drawing', points, to }, cornerSet(points.length, to, around));
      }
    }
  },
};

const cornerSet = (count: number, at: Snap, { project }: Surroundings): Effect => ({
  kind: 'say',
  text: `Corner ${count} at ${snapWords(at, project.unit)}.${count >= 3 ? ' Come back to the first corner to close.' : ''}`,
});

/** The pointer caught by points already set first, so that an outline can be closed, then by all else. */
function caughtPoint(state: OutlineState, pointer: Pointer, around: Surroundings): Snap {
  if (pointer.free) return free(pointer.at);
  if (state.kind === 'drawing') {
    const set = state.points.find((point) => distance(point, pointer.at) <= around.reachIn);
    if (set !== undefined) return { kind: 'corner', at: set };
    return snapFrom(sheetField(around), state.points.at(-1)!, pointer.at, around.reachIn, pointer.shift);
  }
  return caught(sheetField(around), pointer, around);
}

function sheetField(around: Surroundings): SnapField {
  const { outlineFor, block, gridIn, gridKind } = around;
  return outlineFor.kind === 'new-block' || block === null
    ? bareField(gridIn, gridKind)
    : fieldAround(around);
}

function closed(
  state: Extract<OutlineState, { readonly kind: 'drawing' }>,
  around: Surroundings,
): Step<OutlineState> {
  const fault = outlineFault(state.points);
  if (fault !== null) return stay<OutlineState>(state, { kind: 'warn', text: faultSentence(fault) });
  return stay<OutlineState>(IDLE, drawn(state.points, around), { kind: 'done' });
}

function drawn(points: Ring, { outlineFor, block, project }: Surroundings): Effect {
  if (outlineFor.kind === 'this-block' && block !== null) {
    return {
      kind: 'edit',
      label: 'Draw outline',
      change: (before) => setOutline(before, block.id, points),
    };
  }
  const name = outlineFor.kind === 'new-block' ? outlineFor.name : 'Block';
  // A new block begins at [0, 0], wherever on the sheet it was drawn.
  const { minX, minY } = boxOf(points);
  const outline = points.map(([x, y]): Point => [x - minX, y - minY]);
  return {
    kind: 'edit',
    label: 'Add block',
    change: (before) => addBlock(before, { name, outline }),
    openBlock: nextBlockId(project),
    select: [],
  };
}

/** Why the points do not close to an outline, in one sentence. */
function faultSentence(fault: OutlineFault): string {
  switch (fault.kind) {
    case 'too-few-corners':
      return 'An outline needs at least three corners.';
    case 'no-area':
      return 'These corners enclose no area. Set them around the patchwork, in turn.';
    case 'too-close':
      return `Corners ${fault.corner + 1} and the next lie on one spot. Take one back with Backspace.`;
    case 'crosses-itself':
      return `The outline crosses itself at its sides ${fault.corner + 1} and ${fault.other + 1}. Take corners back with Backspace and go round without crossing.`;
    case 'not-a-number':
    case 'too-far':
      return 'A corner lies too far away: coordinates go up to 1,000 in.';
  }
}

import { addBlock } from '../../document/edit-block.ts';
import { setOutline } from '../../document/edit-outline.ts';
import { nextBlockId } from '../../document/ids.ts';
import { snapFrom } from '../../editing/heading.ts';
import { bareField, free, type Snap, type SnapField } from '../../editing/snapping.ts';
import { isTyped, otherField, type Typed, withoutSign, withSign } from '../../editing/typing.ts';
import { lengthWords, snapWords } from '../../editing/words.ts';
import { type OutlineFault, outlineFault } from '../../geometry/outline.ts';
import type { Point, Ring } from '../../geometry/point.ts';
import { boxOf, distance } from '../../geometry/ring.ts';
import { samePlace } from '../../geometry/segments.ts';
import { phrase } from '../../words/phrase.ts';
import { aimed, type Entry, entered, typedMarks } from './entry.ts';
import {
  caught,
  type Effect,
  fieldAround,
  type Pointer,
  type Step,
  type Surroundings,
  stepTo,
  type Tool,
  type ToolEvent,
} from './tool.ts';

/**
 * Draws a closed outline corner by corner, for a new block or in place of the one on the board. A corner is set where
 * the pointer is let go, so that a finger can aim. Its place can be typed, or the length and angle of the side to it.
 */
export type OutlineState =
  | { readonly kind: 'idle'; readonly near: Snap | null }
  /** `points`: corners set so far; none yet while the first is aimed at or typed. */
  | (Entry & { readonly kind: 'drawing'; readonly points: readonly Point[]; readonly isPressed: boolean });

type Drawing = Extract<OutlineState, { readonly kind: 'drawing' }>;

const IDLE: OutlineState = { kind: 'idle', near: null };

export const outlineTool: Tool<OutlineState> = {
  name: 'outline',
  start: IDLE,
  busy: ({ kind }) => kind === 'drawing',
  typed: (state) => {
    if (state.kind === 'idle') return 'place';
    return state.typed ?? (state.points.length === 0 ? null : 'ready');
  },
  marks: (state) => {
    if (state.kind === 'idle') return state.near === null ? [] : [{ kind: 'snap', snap: state.near }];
    const last = state.points.at(-1);
    if (last === undefined) return typedMarks(state);
    return [
      { kind: 'outline', points: state.points, to: state.to.at },
      { kind: 'run', segment: [last, state.to.at] },
      ...typedMarks(state),
    ];
  },
  on: (state, event, around) => {
    switch (event.kind) {
      case 'cancel':
        return stepTo(IDLE);
      case 'back':
      case 'finish':
      case 'type':
      case 'next':
        return onKeys(state, event, around);
      case 'move': {
        const near = caughtPoint(state, event.pointer, around);
        return stepTo(
          state.kind === 'idle' ? { kind: 'idle', near } : aimedAt(state, state.typed, near, around),
        );
      }
      case 'down': {
        const near = caughtPoint(state, event.pointer, around);
        const before: Drawing =
          state.kind === 'idle' ? { kind: 'drawing', points: [], isPressed: true, ...aimed(near) } : state;
        return stepTo({ ...aimedAt(before, before.typed, near, around), isPressed: true });
      }
      case 'up': {
        if (state.kind === 'idle' || !state.isPressed) return stepTo(state);
        const near = caughtPoint(state, event.pointer, around);
        return set({ ...aimedAt(state, state.typed, near, around), isPressed: false }, around);
      }
    }
  },
};

type KeyEvent = Extract<ToolEvent, { readonly kind: 'type' | 'next' | 'finish' | 'back' }>;

/** Keys: what is typed, Enter that sets a typed corner or closes, Backspace that takes a sign or a corner back. */
function onKeys(state: OutlineState, event: KeyEvent, around: Surroundings): Step<OutlineState> {
  if (state.kind === 'idle') {
    if (event.kind !== 'type' || !isTyped('place', event.sign)) return stepTo(state);
    const aim = state.near ?? free([0, 0]);
    const begun: Drawing = { kind: 'drawing', points: [], isPressed: false, ...aimed(aim) };
    return stepTo(aimedAt(begun, withSign(null, event.sign), aim, around));
  }
  const { typed, points } = state;
  switch (event.kind) {
    case 'type':
      return isTyped(typed ?? 'ready', event.sign)
        ? stepTo(aimedAt(state, withSign(typed, event.sign), state.aim, around))
        : stepTo(state);
    case 'next':
      return stepTo(typed === null ? state : aimedAt(state, otherField(typed), state.aim, around));
    case 'back':
      if (typed !== null) {
        const shorter = withoutSign(typed);
        return shorter === null && points.length === 0
          ? stepTo(IDLE)
          : stepTo(aimedAt(state, shorter, state.aim, around));
      }
      return points.length > 1 ? stepTo({ ...state, points: points.slice(0, -1) }) : stepTo(IDLE);
    case 'finish':
      if (typed === null) return closed(state, around);
      return state.error === null
        ? set(state, around)
        : stepTo<OutlineState>(state, { kind: 'warn', text: state.error });
  }
}

/** The state with its next corner where the pointer aims, or where what is typed puts it. */
const aimedAt = (state: Drawing, typed: Typed | null, aim: Snap, { project }: Surroundings): Drawing => ({
  ...state,
  ...entered(state, typed, state.points.at(-1) ?? aim.at, aim, project.unit),
});

/** Sets the next corner where it is aimed or typed; on the first corner the outline closes. */
function set(state: Drawing, around: Surroundings): Step<OutlineState> {
  const { points, to } = state;
  const [first] = points;
  if (points.length >= 3 && samePlace(to.at, first!)) return closed(state, around);
  // A corner put twice adds nothing: it ends the outline, as a double click does.
  if (points.length > 0 && samePlace(to.at, points.at(-1)!))
    return points.length >= 3 ? closed(state, around) : stepTo({ ...state, ...aimed(to) });
  const more = [...points, to.at];
  return stepTo<OutlineState>({ ...state, points: more, ...aimed(to) }, cornerSet(more, to, around));
}

function cornerSet(points: readonly Point[], at: Snap, { project }: Surroundings): Effect {
  const last = points.at(-2);
  const side =
    last === undefined
      ? ''
      : phrase(', {last} from the last', { last: lengthWords(last, at.at, project.unit) });
  const goOn =
    points.length >= 3 ? phrase(' Come back to the first corner, or press Enter twice, to close.') : '';
  return {
    kind: 'announce',
    text: phrase('Corner {points} at {snapWords}{side}.{goOn}', {
      points: points.length,
      snapWords: snapWords(at, project.unit),
      side,
      goOn,
    }),
  };
}

/** The pointer caught by points already set first, so that an outline can be closed, then by all else. */
function caughtPoint(state: OutlineState, pointer: Pointer, around: Surroundings): Snap {
  if (pointer.free) return free(pointer.at);
  const last = state.kind === 'drawing' ? state.points.at(-1) : undefined;
  if (state.kind === 'drawing' && last !== undefined) {
    const known = state.points.find((point) => distance(point, pointer.at) <= around.reachIn);
    if (known !== undefined) return { kind: 'corner', at: known };
    return snapFrom(sheetField(around), last, pointer.at, around.reachIn, pointer.steps);
  }
  return caught(sheetField(around), pointer, around);
}

function sheetField(around: Surroundings): SnapField {
  const { outlineFor, block, gridIn, gridKind } = around;
  return outlineFor.kind === 'new-block' || block === null
    ? bareField(gridIn, gridKind)
    : fieldAround(around);
}

function closed(state: Drawing, around: Surroundings): Step<OutlineState> {
  const fault = outlineFault(state.points);
  if (fault !== null) return stepTo<OutlineState>(state, { kind: 'warn', text: faultSentence(fault) });
  const { outlineFor, block } = around;
  if (outlineFor.kind === 'this-block' && (block?.cuts.length ?? 0) > 0)
    return stepTo<OutlineState>(IDLE, { kind: 'warn', text: HAS_CUTS });
  return stepTo<OutlineState>(IDLE, drawn(state.points, around), { kind: 'done' });
}

function drawn(points: Ring, { outlineFor, block, project }: Surroundings): Effect {
  if (outlineFor.kind === 'this-block' && block !== null) {
    return {
      kind: 'edit',
      label: phrase('Draw outline'),
      change: (before) => setOutline(before, block.id, points),
    };
  }
  const name = outlineFor.kind === 'new-block' ? outlineFor.name : phrase('Block');
  // A new block begins at [0, 0], wherever on the sheet it was drawn.
  const { minX, minY } = boxOf(points);
  const outline = points.map(([x, y]): Point => [x - minX, y - minY]);
  return {
    kind: 'edit',
    label: phrase('Add block'),
    change: (before) => addBlock(before, { name, outline }),
    openBlock: nextBlockId(project),
    select: [],
  };
}

const HAS_CUTS = phrase(
  'This block has lines, which another outline would leave outside. Move its corners with Select, or draw a new block.',
);

/** Why the points do not close to an outline, in one sentence. */
function faultSentence(fault: OutlineFault): string {
  switch (fault.kind) {
    case 'too-few-corners':
      return phrase('An outline needs at least three corners.');
    case 'no-area':
      return phrase('These corners enclose no area. Set them around the patchwork, in turn.');
    case 'too-close':
      return phrase('Corners {corner} and the next lie on one spot. Take one back with Backspace.', {
        corner: fault.corner + 1,
      });
    case 'crosses-itself':
      return phrase(
        'The outline crosses itself at its sides {corner} and {other}. Take corners back with Backspace and go round without crossing.',
        { corner: fault.corner + 1, other: fault.other + 1 },
      );
    case 'not-a-number':
    case 'too-far':
      return phrase('A corner lies too far away: coordinates go up to 1,000 in (25.4 m).');
  }
}

import type { Snap } from '../../editing/snapping.ts';
import { middleOf } from '../../editing/symmetry.ts';
import { isTyped, otherField, type Typed, withoutSign, withSign } from '../../editing/typing.ts';
import { beginsAt, ended, previewOf } from './cut-drawn.ts';
import {
  type CutState,
  cancelled,
  IDLE,
  type In,
  isRunning,
  type RunningState,
  running,
  withEnd,
} from './cut-state.ts';
import { aimed, type Entry, entered } from './entry.ts';
import { type Step, type Surroundings, stepTo, type ToolEvent } from './tool.ts';

type KeyEvent = Extract<ToolEvent, { readonly kind: 'type' | 'next' | 'finish' | 'back' }>;

/** Keys of a running cut: what is typed, Enter that ends it there, Backspace that takes a sign or the cut back. */
export function onKeys(state: CutState, event: KeyEvent, around: Surroundings): Step<CutState> {
  if (state.kind === 'idle' || state.kind === 'starting') return onStartKeys(state, event, around);
  if (!isRunning(state)) return cancelled;
  switch (event.kind) {
    case 'type':
      return isTyped(state.typed ?? 'ready', event.sign)
        ? typedOn(state, withSign(state.typed, event.sign), around)
        : stepTo(state);
    case 'next':
      return state.typed === null ? stepTo(state) : typedOn(state, otherField(state.typed), around);
    case 'back':
      return state.typed === null ? cancelled : typedOn(state, withoutSign(state.typed), around);
    case 'finish': {
      if (state.typed === null) return cancelled;
      if (state.error !== null) return stepTo<CutState>(state, { kind: 'warn', text: state.error });
      return ended(state, around);
    }
  }
}

function typedOn<State extends RunningState>(
  state: State,
  typed: Typed | null,
  around: Surroundings,
): Step<CutState> {
  const next = withEnd({ ...state, typed }, state.aim, around);
  return stepTo<CutState>(next, previewOf(next, around));
}

/** Keys before a cut: the place where it starts, across and down; Enter begins it there. */
function onStartKeys(state: In<'idle' | 'starting'>, event: KeyEvent, around: Surroundings): Step<CutState> {
  const typed = state.kind === 'idle' ? null : state.typed;
  if (typed === null) {
    if (state.kind !== 'idle' || event.kind !== 'type' || !isTyped('place', event.sign)) return stepTo(state);
    const aim = state.near ?? { kind: 'free', at: middleOf(around.block!.outline) };
    return stepTo(startAt(aimed(aim), withSign(null, event.sign), aim, around));
  }
  const entry = state as In<'starting'>;
  switch (event.kind) {
    case 'type':
      return isTyped(typed, event.sign)
        ? stepTo(startAt(entry, withSign(typed, event.sign), entry.aim, around))
        : stepTo(state);
    case 'next':
      return stepTo(startAt(entry, otherField(typed), entry.aim, around));
    case 'back': {
      const shorter = withoutSign(typed);
      return shorter === null ? stepTo(IDLE) : stepTo(startAt(entry, shorter, entry.aim, around));
    }
    case 'finish':
      return entry.error === null
        ? stepTo<CutState>(running('placing', entry.to, entry.to), beginsAt(entry.to, around))
        : stepTo<CutState>(state, { kind: 'warn', text: entry.error });
  }
}

export const startAt = (
  before: Entry,
  typed: Typed | null,
  aim: Snap,
  { project }: Surroundings,
): In<'starting'> => ({ ...entered(before, typed, aim.at, aim, project.unit), kind: 'starting' });

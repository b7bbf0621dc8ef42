import { distance } from '../../geometry/ring.ts';
import { samePlace } from '../../geometry/segments.ts';
import { beginsAt, drawn, ended, previewOf } from './cut-drawn.ts';
import { onKeys, startAt } from './cut-keys.ts';
import { type CutState, cancelled, IDLE, type In, running, withEnd } from './cut-state.ts';
import { typedMarks } from './entry.ts';
import {
  caught,
  caughtFrom,
  fieldAround,
  type Mark,
  type Step,
  type Surroundings,
  stepTo,
  type Tool,
  type ToolEvent,
} from './tool.ts';

export const cutTool: Tool<CutState> = {
  name: 'cut',
  start: IDLE,
  busy: ({ kind }) => kind !== 'idle',
  typed: (state) => {
    if (state.kind === 'idle') return 'place';
    return 'typed' in state ? (state.typed ?? 'ready') : null;
  },
  marks: marksOf,
  on: (state, event, around) => {
    const { block } = around;
    if (block === null) return stepTo(IDLE);
    if (event.kind === 'cancel') return state.kind === 'idle' ? stepTo(state) : cancelled;
    if (event.kind === 'type' || event.kind === 'next' || event.kind === 'finish' || event.kind === 'back')
      return onKeys(state, event, around);
    switch (state.kind) {
      case 'idle':
        return onIdle(state, event, around);
      case 'starting':
        return onStarting(state, event, around);
      case 'pressed':
        return onPressed(state, event, around);
      case 'dragging':
        return onDragging(state, event, around);
      case 'placing':
        return onPlacing(state, event, around);
      case 'ending':
        return onEnding(state, event, around);
    }
  },
};

function marksOf(state: CutState): readonly Mark[] {
  switch (state.kind) {
    case 'idle':
      return state.near === null ? [] : [{ kind: 'snap', snap: state.near }];
    case 'pressed':
      return [{ kind: 'snap', snap: state.from }];
    case 'starting':
      return typedMarks(state);
    default:
      return [
        { kind: 'line', segment: [state.from.at, state.to.at] },
        { kind: 'spot', at: state.from.at },
        ...typedMarks(state),
      ];
  }
}

type PointerEvent = Extract<ToolEvent, { readonly kind: 'down' | 'move' | 'up' }>;

function onStarting(state: In<'starting'>, event: PointerEvent, around: Surroundings): Step<CutState> {
  const aim = caught(fieldAround(around), event.pointer, around);
  const next = startAt(state, state.typed, aim, around);
  return event.kind === 'down'
    ? stepTo({ kind: 'pressed', from: next.to, at: event.pointer.at })
    : stepTo(event.kind === 'move' ? next : state);
}

function onIdle(state: In<'idle'>, event: PointerEvent, around: Surroundings): Step<CutState> {
  const near = caught(fieldAround(around), event.pointer, around);
  switch (event.kind) {
    case 'move':
      return stepTo({ kind: 'idle', near });
    case 'down':
      return stepTo({ kind: 'pressed', from: near, at: event.pointer.at });
    case 'up':
      return stepTo(state);
  }
}

function onPressed(state: In<'pressed'>, event: PointerEvent, around: Surroundings): Step<CutState> {
  const { from } = state;
  switch (event.kind) {
    case 'move': {
      const to = caughtFrom(from, event.pointer, around);
      if (distance(event.pointer.at, state.at) < around.dragIn || samePlace(to.at, from.at))
        return stepTo(state);
      const next = running('dragging', from, to);
      return stepTo<CutState>(next, previewOf(next, around));
    }
    case 'up':
      return stepTo<CutState>(running('placing', from, from), beginsAt(from, around));
    case 'down':
      return stepTo(state);
  }
}

function onDragging(state: In<'dragging'>, event: PointerEvent, around: Surroundings): Step<CutState> {
  const next = withEnd(state, caughtFrom(state.from, event.pointer, around), around);
  switch (event.kind) {
    case 'move':
      return stepTo<CutState>(next, previewOf(next, around));
    case 'up':
      return samePlace(next.from.at, next.to.at)
        ? cancelled
        : stepTo<CutState>({ kind: 'idle', near: next.to }, ...drawn(next, around));
    case 'down':
      return stepTo(state);
  }
}

function onPlacing(state: In<'placing'>, event: PointerEvent, around: Surroundings): Step<CutState> {
  const next = withEnd(state, caughtFrom(state.from, event.pointer, around), around);
  switch (event.kind) {
    case 'move':
      return stepTo<CutState>(next, previewOf(next, around));
    case 'down':
      return stepTo<CutState>({ ...next, kind: 'ending' }, previewOf(next, around));
    case 'up':
      return stepTo(state);
  }
}

function onEnding(state: In<'ending'>, event: PointerEvent, around: Surroundings): Step<CutState> {
  const next = withEnd(state, caughtFrom(state.from, event.pointer, around), around);
  switch (event.kind) {
    case 'move':
      return stepTo<CutState>(next, previewOf(next, around));
    case 'up':
      return ended(next, around);
    case 'down':
      return stepTo(state);
  }
}

import { addCuts, type NewCut } from '../../document/edit-cuts.ts';
import { freeCutIds } from '../../document/ids.ts';
import { onLattice } from '../../document/limits.ts';
import { type ChainStop, chainLegs } from '../../editing/chain.ts';
import { snapFrom } from '../../editing/heading.ts';
import { free, type Snap } from '../../editing/snapping.ts';
import { imagesOf, middleOf } from '../../editing/symmetry.ts';
import { isTyped, otherField, type Typed, withoutSign, withSign } from '../../editing/typing.ts';
import { lengthWords, snapWords } from '../../editing/words.ts';
import type { Point } from '../../geometry/point.ts';
import { distance } from '../../geometry/ring.ts';
import { samePlace } from '../../geometry/segments.ts';
import { phrase } from '../../words/phrase.ts';
import { aimed, type Entry, entered, typedMarks } from './entry.ts';
import {
  caught,
  type Effect,
  fieldAround,
  type Mark,
  type Pointer,
  type Step,
  type Surroundings,
  stepTo,
  type Tool,
  type ToolEvent,
} from './tool.ts';

/**
 * Draws cut after cut from place to place. It closes on its first place, and ends on any other of its own, by a second
 * click on the last or by Enter. Arcs are given a third place after their end. All of it is one step of the history.
 */
export type ChainState =
  | { readonly kind: 'idle'; readonly near: Snap | null }
  /** `end`: where the arc in hand ends, while the place it goes through is looked for. */
  | (Entry & {
      readonly kind: 'drawing';
      readonly stops: readonly ChainStop[];
      readonly end: Point | null;
      readonly isPressed: boolean;
    });

type Drawing = Extract<ChainState, { readonly kind: 'drawing' }>;

const IDLE: ChainState = { kind: 'idle', near: null };

export const chainTool: Tool<ChainState> = {
  name: 'chain',
  start: IDLE,
  busy: ({ kind }) => kind === 'drawing',
  typed: (state) => {
    if (state.kind === 'idle') return 'place';
    return state.typed ?? (state.stops.length === 0 ? null : 'ready');
  },
  marks: marksOf,
  on: (state, event, around) => {
    if (around.block === null) return stepTo(IDLE);
    switch (event.kind) {
      case 'cancel':
        return state.kind === 'idle' ? stepTo(state) : stepTo<ChainState>(IDLE, { kind: 'cancel-preview' });
      case 'move': {
        const near = caughtStop(state, event.pointer, around);
        return state.kind === 'idle'
          ? stepTo({ kind: 'idle', near })
          : shown(aimAt(state, near, around), around);
      }
      case 'down': {
        const near = caughtStop(state, event.pointer, around);
        return shown(
          { ...aimAt(state.kind === 'idle' ? begun(near) : state, near, around), isPressed: true },
          around,
        );
      }
      case 'up':
        // A stop is set where the pointer is let go, so that a finger can aim.
        return state.kind === 'drawing' && state.isPressed
          ? set(
              { ...aimAt(state, caughtStop(state, event.pointer, around), around), isPressed: false },
              around,
            )
          : stepTo(state);
      default:
        return onKeys(state, event, around);
    }
  },
};

function marksOf(state: ChainState): readonly Mark[] {
  if (state.kind === 'idle') return state.near === null ? [] : [{ kind: 'snap', snap: state.near }];
  const last = lastOf(state);
  if (last === null) return typedMarks(state);
  const run: Mark = { kind: 'run', segment: [last, state.end ?? state.to.at] };
  return [run, ...state.stops.map(({ at }): Mark => ({ kind: 'spot', at })), ...typedMarks(state)];
}

const begun = (near: Snap): Drawing => ({
  kind: 'drawing',
  stops: [],
  end: null,
  isPressed: false,
  ...aimed(near),
});

const lastOf = ({ stops }: Drawing): Point | null => stops.at(-1)?.at ?? null;

type KeyEvent = Extract<ToolEvent, { readonly kind: 'type' | 'next' | 'finish' | 'back' }>;

/** Keys: what is typed, Enter that sets a typed stop or ends the chain, Backspace that takes a sign or a stop back. */
function onKeys(state: ChainState, event: KeyEvent, around: Surroundings): Step<ChainState> {
  if (state.kind === 'idle') {
    if (event.kind !== 'type' || !isTyped('place', event.sign)) return stepTo(state);
    const aim = state.near ?? { kind: 'free', at: middleOf(around.block!.outline) };
    return shown(typedOn(begun(aim), withSign(null, event.sign), around), around);
  }
  const { typed, stops, end } = state;
  switch (event.kind) {
    case 'type':
      return isTyped(typed ?? 'ready', event.sign)
        ? shown(typedOn(state, withSign(typed, event.sign), around), around)
        : stepTo(state);
    case 'next':
      return typed === null ? stepTo(state) : shown(typedOn(state, otherField(typed), around), around);
    case 'back': {
      if (typed !== null) {
        const shorter = withoutSign(typed);
        if (shorter === null && stops.length === 0) return stepTo(IDLE);
        return shown(typedOn(state, shorter, around), around);
      }
      if (end !== null) return shown({ ...state, end: null }, around);
      return stops.length > 1
        ? shown({ ...state, stops: stops.slice(0, -1) }, around)
        : stepTo<ChainState>(IDLE, { kind: 'cancel-preview' });
    }
    case 'finish':
      if (typed === null) return ended(withArc(state, null), false, around);
      return state.error === null
        ? set(state, around)
        : stepTo<ChainState>(state, { kind: 'warn', text: state.error });
  }
}

/** The state with its next place where the pointer aims, or where what is typed puts it. */
const aimAt = (state: Drawing, aim: Snap, around: Surroundings): Drawing =>
  typedOn({ ...state, aim }, state.typed, around);

const typedOn = (state: Drawing, typed: Typed | null, { project }: Surroundings): Drawing => ({
  ...state,
  ...entered(state, typed, lastOf(state) ?? state.aim.at, state.aim, project.unit),
});

/** Own stops catch first, so that the chain can be closed, then all else on the block. */
function caughtStop(state: ChainState, pointer: Pointer, around: Surroundings): Snap {
  const last = state.kind === 'drawing' ? lastOf(state) : null;
  if (state.kind === 'idle' || last === null) return caught(fieldAround(around), pointer, around);
  const own = state.stops.find(({ at }) => distance(at, pointer.at) <= around.reachIn);
  if (own !== undefined && state.end === null) return { kind: 'corner', at: own.at };
  return pointer.free
    ? free(pointer.at)
    : snapFrom(fieldAround(around), last, pointer.at, around.reachIn, pointer.steps);
}

/** The arc in hand as a stretch of the chain, through a place or straight. */
const withArc = (state: Drawing, via: Point | null): Drawing =>
  state.end === null ? state : { ...state, stops: [...state.stops, { at: state.end, via }], end: null };

/** Sets the place aimed at: a stop, or what an arc goes through. On a stop of its own the chain ends. */
function set(state: Drawing, around: Surroundings): Step<ChainState> {
  const { stops, to, end } = state;
  const at = onLattice(to.at);
  if (end !== null) {
    // A second click on the end leaves the stretch straight.
    const next = withArc(state, samePlace(at, end) ? null : at);
    const isOwn = stops.some((stop) => samePlace(stop.at, end));
    return isOwn ? ended(next, false, around) : goesOn(next, around);
  }
  if (stops.length > 0 && samePlace(at, stops.at(-1)!.at)) return ended(state, false, around);
  if (stops.length > 0 && around.chain.curve === 'arcs') return goesOn({ ...state, end: at }, around);
  const isClosed = stops.length > 1 && samePlace(at, stops[0]!.at);
  if (isClosed) return ended(state, true, around);
  const isOwn = stops.some((stop) => samePlace(stop.at, at));
  const next = { ...state, stops: [...stops, { at, via: null }] };
  return isOwn ? ended(next, false, around) : goesOn(next, around);
}

const goesOn = (state: Drawing, around: Surroundings): Step<ChainState> => {
  const next: Drawing = { ...state, ...aimed(state.to) };
  return stepTo<ChainState>(next, previewOf(next, around), stopSet(next, around));
};

/** The chain as it would be with the place aimed at. */
const shown = (state: Drawing, around: Surroundings): Step<ChainState> =>
  stepTo<ChainState>(state, previewOf(state, around));

function previewOf(state: Drawing, around: Surroundings): Effect {
  const { stops, end, to } = state;
  if (stops.length === 0) return { kind: 'cancel-preview' };
  const ahead: ChainStop = end === null ? { at: to.at, via: null } : { at: end, via: to.at };
  const cuts = cutsOf([...stops, ahead], false, around);
  const { id } = around.block!;
  return cuts.length === 0
    ? { kind: 'cancel-preview' }
    : { kind: 'preview', change: (project) => addCuts(project, id, cuts) };
}

/** Every cut of the chain and of its images. */
function cutsOf(stops: readonly ChainStop[], closed: boolean, around: Surroundings): readonly NewCut[] {
  const middle = middleOf(around.block!.outline);
  return chainLegs(stops, around.chain, closed).flatMap((leg) =>
    imagesOf(leg, around.symmetry, middle, onLattice).map(([from, to]) => ({ from, to })),
  );
}

/** The chain drawn, as one step. */
function ended(state: Drawing, closed: boolean, around: Surroundings): Step<ChainState> {
  const { stops, to } = state;
  const { block } = around;
  const cuts = cutsOf(stops, closed, around);
  const idle: ChainState = { kind: 'idle', near: to };
  if (cuts.length === 0) return stepTo<ChainState>(idle, { kind: 'cancel-preview' });
  const ids = freeCutIds(block!);
  return stepTo<ChainState>(
    idle,
    {
      kind: 'edit',
      label: phrase('Draw chain'),
      change: (before) => addCuts(before, block!.id, cuts),
      select: cuts.map(() => ids.next().value),
    },
    {
      kind: 'announce',
      text: phrase(
        '{closed, select, true {Chain closed} other {Chain ended}}: {cuts, plural, one {# line} other {# lines}}.',
        { closed, cuts: cuts.length },
      ),
    },
  );
}

function stopSet({ stops, end }: Drawing, { project }: Surroundings): Effect {
  const { unit } = project;
  if (end !== null) {
    const text = phrase(
      'The arc ends at {snapWords}. Show a place it goes through, or press Enter for a straight line.',
      { snapWords: snapWords({ kind: 'free', at: end }, unit) },
    );
    return { kind: 'announce', text };
  }
  const at = stops.at(-1)!.at;
  const before = stops.at(-2)?.at;
  const leg =
    before === undefined ? '' : phrase(', {before} from the last', { before: lengthWords(before, at, unit) });
  const words =
    stops.length === 1
      ? phrase('Chain begins at')
      : stops.length > 2
        ? phrase('Come back to the first place to close, or press Enter to end. Now at')
        : phrase('Now at');
  return { kind: 'announce', text: `${words} ${snapWords({ kind: 'free', at }, unit)}${leg}.` };
}

import { addCuts, type NewCut } from '../../document/edit-cuts.ts';
import { freeCutIds } from '../../document/ids.ts';
import { onLattice } from '../../document/limits.ts';
import { inFirstPatch } from '../../editing/patch-span.ts';
import { type Snap, snapTo } from '../../editing/snapping.ts';
import { imagesOf, middleOf } from '../../editing/symmetry.ts';
import { isTyped, otherField, type Typed, withoutSign, withSign } from '../../editing/typing.ts';
import { lengthWords, snapWords } from '../../editing/words.ts';
import type { Point } from '../../geometry/point.ts';
import { distance, distanceToSegment } from '../../geometry/ring.ts';
import { samePlace } from '../../geometry/segments.ts';
import { phrase } from '../../words/phrase.ts';
import { aimed, type Entry, entered, typedMarks } from './entry.ts';
import {
  caught,
  caughtFrom,
  type Effect,
  fieldAround,
  type Mark,
  type Step,
  type Surroundings,
  stepTo,
  type Tool,
  type ToolEvent,
} from './tool.ts';

/**
 * Draws cuts, both ways: press, drag, release; or click, click. A cut that ends in the open goes on from there
 * with the next click; one that ends on something is finished. While it runs, its length and angle can be typed, and
 * before that the place where it starts.
 */
export type CutState =
  | { readonly kind: 'idle'; readonly near: Snap | null }
  /** The place of its start is being typed. */
  | (Entry & { readonly kind: 'starting' })
  /** Pressed on the start; not yet known whether this is a drag or a click. */
  | { readonly kind: 'pressed'; readonly from: Snap; readonly at: Point }
  | (Running & { readonly kind: 'dragging' })
  /** Start clicked; the end follows the pointer. */
  | (Running & { readonly kind: 'placing' })
  /** Pressed on the end of a cut that was begun with a click. */
  | (Running & { readonly kind: 'ending' });

interface Running extends Entry {
  readonly from: Snap;
}

const IDLE: CutState = { kind: 'idle', near: null };

const cancelled = stepTo<CutState>(IDLE, { kind: 'cancel-preview' });

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
type KeyEvent = Extract<ToolEvent, { readonly kind: 'type' | 'next' | 'finish' | 'back' }>;
type In<Kind extends CutState['kind']> = Extract<CutState, { readonly kind: Kind }>;
type RunningState = In<'dragging' | 'placing' | 'ending'>;

const isRunning = (state: CutState): state is RunningState => 'from' in state && 'typed' in state;

/** Keys of a running cut: what is typed, Enter that ends it there, Backspace that takes a sign or the cut back. */
function onKeys(state: CutState, event: KeyEvent, around: Surroundings): Step<CutState> {
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

const startAt = (
  before: Entry,
  typed: Typed | null,
  aim: Snap,
  { project }: Surroundings,
): In<'starting'> => ({ ...entered(before, typed, aim.at, aim, project.unit), kind: 'starting' });

function onStarting(state: In<'starting'>, event: PointerEvent, around: Surroundings): Step<CutState> {
  const aim = caught(fieldAround(around), event.pointer, around);
  const next = startAt(state, state.typed, aim, around);
  return event.kind === 'down'
    ? stepTo({ kind: 'pressed', from: next.to, at: event.pointer.at })
    : stepTo(event.kind === 'move' ? next : state);
}

/** The state with its end where the pointer aims, or where what is typed puts it. */
const withEnd = <State extends RunningState>(state: State, aim: Snap, { project }: Surroundings): State => ({
  ...state,
  ...entered(state, state.typed, state.from.at, aim, project.unit),
});

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

const running = <Kind extends RunningState['kind']>(kind: Kind, from: Snap, to: Snap) => ({
  kind,
  from,
  ...aimed(to),
});

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

/** The cut drawn. In the open the next one begins where it ended. */
function ended(state: RunningState, around: Surroundings): Step<CutState> {
  const { from, to } = state;
  if (samePlace(from.at, to.at)) {
    // A click on a place that was typed begins there as it would anywhere; a second click on the start ends a chain.
    return from.kind === 'typed'
      ? stepTo<CutState>(running('placing', { ...to, kind: 'cut-end' }, to), beginsAt(to, around))
      : cancelled;
  }
  const [, end] = inOnePatch(state, around);
  const goesOn = samePlace(end, to.at) && inTheOpen(state, around);
  return stepTo<CutState>(
    goesOn ? running('placing', to, to) : { kind: 'idle', near: to },
    ...drawn(state, around),
  );
}

const EXACT_IN = 1 / 1000;

/** Whether nothing of the drawing, nor an image of the cut itself, stands at the end of a cut. */
function inTheOpen(state: RunningState, around: Surroundings): boolean {
  const { at } = state.to;
  const images = strokes(state, around).slice(1);
  const isMet = images.some(({ from, to }) => distanceToSegment(at, from, to) <= EXACT_IN);
  if (isMet) return false;
  const { kind } = snapTo(fieldAround(around), at, EXACT_IN);
  return kind === 'grid' || kind === 'free';
}

/** The stretch that is drawn, cut off where it leaves its first patch if that is asked for. */
function inOnePatch({ from, to }: Running, { onePatch, plan }: Surroundings): readonly [Point, Point] {
  return onePatch && plan !== null ? inFirstPatch(plan.patches, [from.at, to.at]) : [from.at, to.at];
}

/** Every cut that is drawn at once: the one under the pointer first, then its images. */
function strokes(state: Running, around: Surroundings): readonly NewCut[] {
  const middle = middleOf(around.block!.outline);
  return imagesOf(inOnePatch(state, around), around.symmetry, middle, onLattice).map(([from, to]) => ({
    from,
    to,
  }));
}

function previewOf(state: Running, around: Surroundings): Effect {
  if (samePlace(state.from.at, state.to.at)) return { kind: 'cancel-preview' };
  const cuts = strokes(state, around);
  const { id } = around.block!;
  return { kind: 'preview', change: (project) => addCuts(project, id, cuts) };
}

const beginsAt = (from: Snap, { project }: Surroundings): Effect => ({
  kind: 'announce',
  text: phrase('Line begins at {snapWords}. Go to its other end, or type its length.', {
    snapWords: snapWords(from, project.unit),
  }),
});

function drawn(state: Running, around: Surroundings): readonly Effect[] {
  const { block, project } = around;
  const cuts = strokes(state, around);
  const [{ from, to }] = cuts as readonly [NewCut, ...NewCut[]];
  const ids = freeCutIds(block!);
  const several = cuts.length > 1 ? phrase(' {cuts} lines with its images.', { cuts: cuts.length }) : '';
  return [
    {
      kind: 'edit',
      label: cuts.length > 1 ? phrase('Draw lines') : phrase('Draw line'),
      change: (before) => addCuts(before, block!.id, cuts),
      select: cuts.map(() => ids.next().value),
    },
    {
      kind: 'announce',
      text: phrase('Line drawn to {snapWords}, {from} long.{several}', {
        snapWords: snapWords({ ...state.to, at: to }, project.unit),
        from: lengthWords(from, to, project.unit),
        several,
      }),
    },
  ];
}

import { addCut } from '../../document/edit-cuts.ts';
import { nextCutId } from '../../document/ids.ts';
import type { Point } from '../../geometry/point.ts';
import { distance } from '../../geometry/ring.ts';
import { samePlace } from '../nearness.ts';
import { fieldOf, type Snap } from '../snapping.ts';
import { lengthWords, snapWords } from '../words.ts';
import {
  caught,
  type Effect,
  type Pointer,
  type Step,
  type Surroundings,
  stay,
  type Tool,
  type ToolEvent,
} from './tool.ts';

/**
 * Draws cuts, both ways: press, drag, release; or click, click. A cut that ends in the open goes on from there
 * with the next click; one that ends on something is finished.
 */
export type CutState =
  | { readonly kind: 'idle'; readonly near: Snap | null }
  /** Pressed on the start; not yet known whether this is a drag or a click. */
  | { readonly kind: 'pressed'; readonly from: Snap; readonly at: Point }
  | { readonly kind: 'dragging'; readonly from: Snap; readonly to: Snap }
  /** Start clicked; the end follows the pointer. */
  | { readonly kind: 'placing'; readonly from: Snap; readonly to: Snap }
  /** Pressed on the end of a cut that was begun with a click. */
  | { readonly kind: 'ending'; readonly from: Snap; readonly to: Snap };

const IDLE: CutState = { kind: 'idle', near: null };

const cancelled = stay<CutState>(IDLE, { kind: 'cancel-preview' });

export const cutTool: Tool<CutState> = {
  name: 'cut',
  start: IDLE,
  busy: ({ kind }) => kind !== 'idle',
  marks: (state) => {
    switch (state.kind) {
      case 'idle':
        return state.near === null ? [] : [{ kind: 'snap', snap: state.near }];
      case 'pressed':
        return [{ kind: 'snap', snap: state.from }];
      default:
        return [
          { kind: 'line', segment: [state.from.at, state.to.at] },
          { kind: 'spot', at: state.from.at },
          { kind: 'snap', snap: state.to },
        ];
    }
  },
  on: (state, event, around) => {
    const { block } = around;
    if (block === null) return stay(IDLE);
    if (event.kind === 'cancel' || event.kind === 'finish' || event.kind === 'back')
      return state.kind === 'idle' ? stay(state) : cancelled;
    switch (state.kind) {
      case 'idle':
        return onIdle(state, event, around);
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

type PointerEvent = Extract<ToolEvent, { readonly kind: 'down' | 'move' | 'up' }>;
type In<Kind extends CutState['kind']> = Extract<CutState, { readonly kind: Kind }>;

const caughtBy = (pointer: Pointer, around: Surroundings): Snap =>
  caught(fieldOf(around.block!, around.gridIn), pointer, around);

function onIdle(state: In<'idle'>, event: PointerEvent, around: Surroundings): Step<CutState> {
  const near = caughtBy(event.pointer, around);
  switch (event.kind) {
    case 'move':
      return stay({ kind: 'idle', near });
    case 'down':
      return stay({ kind: 'pressed', from: near, at: event.pointer.at });
    case 'up':
      return stay(state);
  }
}

function onPressed(state: In<'pressed'>, event: PointerEvent, around: Surroundings): Step<CutState> {
  const { from } = state;
  const to = caughtBy(event.pointer, around);
  switch (event.kind) {
    case 'move':
      return distance(event.pointer.at, state.at) < around.dragIn || samePlace(to.at, from.at)
        ? stay(state)
        : stay({ kind: 'dragging', from, to }, previewOf(from, to, around));
    case 'up':
      return stay<CutState>({ kind: 'placing', from, to: from }, beginsAt(from, around));
    case 'down':
      return stay(state);
  }
}

function onDragging(state: In<'dragging'>, event: PointerEvent, around: Surroundings): Step<CutState> {
  const { from } = state;
  const to = caughtBy(event.pointer, around);
  switch (event.kind) {
    case 'move':
      return stay({ ...state, to }, previewOf(from, to, around));
    case 'up':
      return samePlace(from.at, to.at)
        ? cancelled
        : stay<CutState>({ kind: 'idle', near: to }, ...drawn(from, to, around));
    case 'down':
      return stay(state);
  }
}

function onPlacing(state: In<'placing'>, event: PointerEvent, around: Surroundings): Step<CutState> {
  const { from } = state;
  const to = caughtBy(event.pointer, around);
  switch (event.kind) {
    case 'move':
      return stay({ ...state, to }, previewOf(from, to, around));
    case 'down':
      return stay({ ...state, kind: 'ending', to }, previewOf(from, to, around));
    case 'up':
      return stay(state);
  }
}

function onEnding(state: In<'ending'>, event: PointerEvent, around: Surroundings): Step<CutState> {
  const { from } = state;
  const to = caughtBy(event.pointer, around);
  switch (event.kind) {
    case 'move':
      return stay({ ...state, to }, previewOf(from, to, around));
    case 'up':
      // A second click on the start ends a chain.
      if (samePlace(from.at, to.at)) return cancelled;
      return stay<CutState>(
        inTheOpen(to) ? { kind: 'placing', from: to, to } : { kind: 'idle', near: to },
        ...drawn(from, to, around),
      );
    case 'down':
      return stay(state);
  }
}

const inTheOpen = ({ kind }: Snap): boolean => kind === 'grid' || kind === 'free';

const previewOf = (from: Snap, to: Snap, around: Surroundings): Effect =>
  samePlace(from.at, to.at)
    ? { kind: 'cancel-preview' }
    : {
        kind: 'preview',
        change: (project) => addCut(project, around.block!.id, { from: from.at, to: to.at }),
      };

const beginsAt = (from: Snap, { project }: Surroundings): Effect => ({
  kind: 'say',
  text: `Cut begins at ${snapWords(from, project.unit)}. Go to its other end.`,
});

const drawn = (from: Snap, to: Snap, { block, project }: Surroundings): readonly Effect[] => [
  {
    kind: 'edit',
    label: 'Draw cut',
    change: (before) => addCut(before, block!.id, { from: from.at, to: to.at }),
    select: [nextCutId(block!)],
  },
  {
    kind: 'say',
    text: `Cut drawn to ${snapWords(to, project.unit)}, ${lengthWords(from.at, to.at, project.unit)} long.`,
  },
];

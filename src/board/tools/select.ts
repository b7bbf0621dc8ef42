import type { Block, Cut } from '../../document/project.ts';
import { type FrameHandle, frameOf, handleAt, middleOfBox, sizingOf } from '../../editing/frame.ts';
import { type Hit, hitAt } from '../../editing/hit.ts';
import { free, snapField } from '../../editing/snapping.ts';
import { withTwins } from '../../editing/symmetric.ts';
import { innerSpot } from '../../geometry/inner-spot.ts';
import type { Point, Segment } from '../../geometry/point.ts';
import { distance } from '../../geometry/ring.ts';
import { edgesOf } from '../../geometry/segments.ts';
import { phrase } from '../../words/phrase.ts';
import { boxed } from './select-box.ts';
import { marksOf } from './select-marks.ts';
import { follow, put } from './select-move.ts';
import { IDLE, type In, NOTHING, type SelectState } from './select-state.ts';
import { type Effect, type Pointer, type Step, type Surroundings, stepTo, type Tool } from './tool.ts';

export const selectTool: Tool<SelectState> = {
  name: 'select',
  start: IDLE,
  busy: ({ kind }) => kind !== 'idle',
  marks: marksOf,
  on: (state, event, around) => {
    const { block, plan } = around;
    if (block === null || plan === null) return stepTo(IDLE);
    if (event.kind !== 'down' && event.kind !== 'move' && event.kind !== 'up')
      return state.kind === 'idle' ? stepTo(state) : stepTo<SelectState>(IDLE, { kind: 'cancel-preview' });
    const { pointer } = event;
    if (state.kind === 'idle') {
      const handle = handleUnder(pointer, around);
      if (handle !== null && event.kind !== 'up')
        return event.kind === 'move'
          ? stepTo({ kind: 'idle', over: NOTHING, at: pointer.at, handle })
          : stepTo(takenBy(handle, pointer, around));
      const hit = hitAt(block, plan, around.selection, pointer.at, around.grabIn);
      if (event.kind === 'move')
        return stepTo({ kind: 'idle', over: hit, at: pointer.at, twins: twinsOf(hit, around) });
      return event.kind === 'down' ? pressed(hit, pointer, around) : stepTo(state);
    }
    if (event.kind === 'down') return stepTo(state);
    if (state.kind === 'pressed')
      return event.kind === 'up' ? clicked(state, pointer, around) : pulled(state, pointer, around);
    if (state.kind === 'boxing')
      return event.kind === 'up' ? boxed(state, around) : stepTo({ ...state, to: pointer.at });
    const moved = follow(state, pointer, around);
    return event.kind === 'move' ? moved : put(moved.state, around);
  },
};

const chosenCuts = ({ block, selection }: Surroundings): readonly Cut[] =>
  block!.cuts.filter(({ id }) => selection.includes(id));

function handleUnder(pointer: Pointer, around: Surroundings): FrameHandle | null {
  const box = pointer.adds ? null : frameOf(chosenCuts(around));
  return box === null ? null : handleAt(box, pointer.at, around.grabIn, around.pxIn);
}

function takenBy(handle: FrameHandle, pointer: Pointer, around: Surroundings): SelectState {
  const { block, selection: cuts, gridIn, gridKind, divisions, project } = around;
  const box = frameOf(chosenCuts(around))!;
  const start = pointer.at;
  if (handle.kind === 'turn')
    return { kind: 'turning', cuts, about: middleOfBox(box), start, pointer: start, degrees: 0 };
  const field = snapField(block!, { gridIn, gridKind, divisions, exceptCuts: new Set(cuts) });
  const { side } = handle;
  const sizing = sizingOf(box, side, [0, 0], null, 0, false);
  return { kind: 'sizing', cuts, box, side, start, sizing, unit: project.unit, field };
}

const twinsOf = (hit: Hit, { block, symmetry }: Surroundings): readonly string[] =>
  hit.kind === 'cut' || hit.kind === 'cut-end' ? withTwins(block!, [hit.cut], symmetry) : [];

/** Choosing happens on the press, so that what is about to be dragged is seen. */
function pressed(hit: Hit, pointer: Pointer, around: Surroundings): Step<SelectState> {
  const { block, selection, gridIn, gridKind, divisions } = around;
  const cut = hit.kind === 'cut' || hit.kind === 'cut-end' ? hit.cut : null;
  const kept = cut !== null && selection.includes(cut);
  const moving =
    hit.kind === 'cut' ? new Set(kept ? selection : [hit.cut]) : new Set(cut === null ? [] : [cut]);
  const field = snapField(block!, {
    gridIn,
    gridKind,
    divisions,
    exceptCuts: moving,
    exceptCorners: cornersOf(hit, block!),
  });
  return stepTo<SelectState>(
    { kind: 'pressed', hit, start: pointer.at, kept, field },
    ...chosenBy(hit, kept, pointer, around),
  );
}

/** Corners of the outline that go with what is pressed on. */
function cornersOf(hit: Hit, { outline }: Block): readonly number[] {
  if (hit.kind === 'corner') return [hit.corner];
  return hit.kind === 'edge' ? [hit.edge, (hit.edge + 1) % outline.length] : [];
}

function chosenBy(hit: Hit, kept: boolean, pointer: Pointer, around: Surroundings): readonly Effect[] {
  switch (hit.kind) {
    case 'cut':
    case 'cut-end':
      if (kept) return [];
      return [{ kind: 'select', cuts: pointer.adds ? [...around.selection, hit.cut] : [hit.cut] }];
    case 'corner':
      return [{ kind: 'choose', chosen: { kind: 'corner', corner: hit.corner } }];
    case 'edge':
      return [{ kind: 'choose', chosen: { kind: 'edge', edge: hit.edge } }];
    case 'patch': {
      const patch = around.plan!.patches.find(({ id }) => id === hit.patch)!;
      return pointer.adds ? [] : [{ kind: 'choose', chosen: { kind: 'patch', at: innerSpot(patch) } }];
    }
    case 'nothing':
      return pointer.adds ? [] : [{ kind: 'choose', chosen: null }];
  }
}

function clicked(state: In<'pressed'>, pointer: Pointer, around: Surroundings): Step<SelectState> {
  const { hit, kept } = state;
  const idle: SelectState = { kind: 'idle', over: hit, at: pointer.at };
  if (!kept || (hit.kind !== 'cut' && hit.kind !== 'cut-end')) return stepTo(idle);
  const cuts = pointer.adds ? around.selection.filter((id) => id !== hit.cut) : [hit.cut];
  return stepTo<SelectState>(idle, { kind: 'select', cuts });
}

export function pulled(state: In<'pressed'>, pointer: Pointer, around: Surroundings): Step<SelectState> {
  const { hit, start, field } = state;
  if (distance(pointer.at, start) < around.dragIn) return stepTo(state);
  if ((hit.kind === 'cut' || hit.kind === 'cut-end') && cutOf(around, hit.cut).locked === true)
    return stepTo<SelectState>(IDLE, { kind: 'announce', text: phrase('This line is locked.') });
  switch (hit.kind) {
    case 'cut-end': {
      const { from, to } = cutOf(around, hit.cut);
      const held = hit.end === 'from' ? to : from;
      return follow(
        { kind: 'moving-end', cut: hit.cut, end: hit.end, held, alone: false, to: free(start), field },
        pointer,
        around,
      );
    }
    case 'corner': {
      const held = around.block!.outline.at(hit.corner - 1)!;
      return follow(
        { kind: 'moving-corner', corner: hit.corner, held, to: free(start), field },
        pointer,
        around,
      );
    }
    case 'cut': {
      const grabbed = cutOf(around, hit.cut);
      const cuts = around.selection.includes(hit.cut) ? around.selection : [hit.cut];
      return follow(
        {
          kind: 'moving-cuts',
          cuts,
          start,
          anchors: [grabbed.from, grabbed.to],
          by: [0, 0],
          at: free(start),
          field,
        },
        pointer,
        around,
      );
    }
    case 'edge':
      return follow(
        {
          kind: 'moving-edge',
          edge: hit.edge,
          start,
          anchors: nearerFirst(edgesOf(around.block!.outline)[hit.edge]!, start),
          by: [0, 0],
          at: free(start),
          field,
        },
        pointer,
        around,
      );
    case 'patch':
    case 'nothing':
      return stepTo<SelectState>(
        { kind: 'boxing', from: start, to: pointer.at, before: pointer.adds ? around.selection : [] },
        ...(pointer.adds ? [] : ([{ kind: 'choose', chosen: null }] as const)),
      );
  }
}

const nearerFirst = ([a, b]: Segment, at: Point): Segment =>
  distance(b, at) < distance(a, at) ? [b, a] : [a, b];

const cutOf = ({ block }: Surroundings, id: string): Cut => block!.cuts.find((cut) => cut.id === id)!;

import { scaleCuts, turnBy, turnCuts } from '../../document/edit-turn.ts';
import type { Block, Cut, ProjectEdit, Unit } from '../../document/project.ts';
import {
  type FrameHandle,
  frameOf,
  handleAt,
  middleOfBox,
  type SizeHandle,
  type Sizing,
  sizingOf,
  turningOf,
} from '../../editing/frame.ts';
import { snapFrom } from '../../editing/heading.ts';
import { type Hit, hitAt } from '../../editing/hit.ts';
import { moveCornerAttached, moveEdgeAttached, moveEnd, shiftCutsAttached } from '../../editing/reshape.ts';
import { free, rankOf, type Snap, type SnapField, snapField, snapTo } from '../../editing/snapping.ts';
import { everywhere, withTwins } from '../../editing/symmetric.ts';
import { placeWords } from '../../editing/words.ts';
import { innerSpot } from '../../geometry/inner-spot.ts';
import type { Point, Segment } from '../../geometry/point.ts';
import { type Box, boxOf, distance } from '../../geometry/ring.ts';
import { crossing, edgesOf, shifted } from '../../geometry/segments.ts';
import { phrase } from '../../words/phrase.ts';
import {
  caught,
  type Effect,
  type Mark,
  type Pointer,
  type Step,
  type Surroundings,
  stepTo,
  type Tool,
} from './tool.ts';

/**
 * Chooses cuts, ends, corners, edges and patches, and moves what is chosen. A box drawn to the right takes the cuts
 * that lie in it whole, one drawn to the left all that it touches. Every move starts from the recorded block.
 */
export type SelectState =
  /** `twins`: the cuts that are images of the one under the pointer, itself first. */
  | {
      readonly kind: 'idle';
      readonly over: Hit;
      readonly at: Point | null;
      readonly twins?: readonly string[];
      /** The handle of the frame under the pointer, which comes before what lies there. */
      readonly handle?: FrameHandle;
    }
  /** Pressed on something; `kept` when it was chosen already, so that a click with Shift takes it out. */
  | {
      readonly kind: 'pressed';
      readonly hit: Hit;
      readonly start: Point;
      readonly kept: boolean;
      readonly field: SnapField;
    }
  | {
      readonly kind: 'moving-end';
      readonly cut: string;
      readonly end: 'from' | 'to';
      /** The other end, which stays. */
      readonly held: Point;
      /** The end leaves its joint. */
      readonly alone: boolean;
      readonly to: Snap;
      readonly field: SnapField;
    }
  | {
      readonly kind: 'moving-corner';
      readonly corner: number;
      /** The corner before it, which stays. */
      readonly held: Point;
      readonly to: Snap;
      readonly field: SnapField;
    }
  | {
      readonly kind: 'moving-cuts';
      readonly cuts: readonly string[];
      readonly start: Point;
      readonly anchors: readonly Point[];
      readonly by: Point;
      readonly at: Snap;
      readonly field: SnapField;
    }
  | {
      readonly kind: 'moving-edge';
      readonly edge: number;
      readonly start: Point;
      /** Its two corners, the one nearer to the pointer first: its place is told beside it. */
      readonly anchors: Segment;
      readonly by: Point;
      readonly at: Snap;
      readonly field: SnapField;
    }
  /** What is chosen turned about its middle. */
  | {
      readonly kind: 'turning';
      readonly cuts: readonly string[];
      readonly about: Point;
      readonly start: Point;
      readonly pointer: Point;
      readonly degrees: number;
    }
  /** What is chosen sized by a handle of its frame. */
  | {
      readonly kind: 'sizing';
      readonly cuts: readonly string[];
      readonly box: Box;
      readonly side: SizeHandle;
      readonly start: Point;
      readonly sizing: Sizing;
      readonly unit: Unit;
      readonly field: SnapField;
    }
  /** A box drawn from empty ground or a patch; `before` is what stays chosen with Shift. */
  | {
      readonly kind: 'boxing';
      readonly from: Point;
      readonly to: Point;
      readonly before: readonly string[];
    };

const NOTHING: Hit = { kind: 'nothing' };
const IDLE: SelectState = { kind: 'idle', over: NOTHING, at: null };

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

function marksOf(state: SelectState): readonly Mark[] {
  switch (state.kind) {
    case 'idle':
      if (state.handle !== undefined) return [{ kind: 'handle', handle: state.handle }];
      if (state.over.kind === 'cut' || state.over.kind === 'cut-end')
        return (state.twins ?? [state.over.cut]).map((cut): Mark => ({ kind: 'cut', cut }));
      return state.over.kind === 'edge' ? [{ kind: 'edge', edge: state.over.edge }] : [];
    case 'pressed':
      return [];
    case 'moving-end':
    case 'moving-corner':
      return [
        { kind: 'run', segment: [state.held, state.to.at] },
        { kind: 'snap', snap: state.to },
      ];
    case 'moving-cuts':
    case 'moving-edge':
      return [
        { kind: 'shift', from: [state.at.at[0] - state.by[0], state.at.at[1] - state.by[1]], by: state.by },
        { kind: 'snap', snap: state.at },
      ];
    case 'turning':
      return [
        { kind: 'handle', handle: { kind: 'turn' } },
        { kind: 'told', at: state.pointer, text: turnWords(state.degrees) },
      ];
    case 'sizing':
      return [
        { kind: 'handle', handle: { kind: 'size', side: state.side } },
        { kind: 'told', at: state.sizing.at, text: sizeWords(state) },
      ];
    case 'boxing':
      return [{ kind: 'box', from: state.from, to: state.to, touching: isTouching(state) }];
  }
}

/** `30° to the left`; nothing is said of the direction of half a turn. */
function turnWords(degrees: number): string {
  const size = `${Number(Math.abs(degrees).toFixed(1))}°`;
  return degrees === 0 || Math.abs(degrees) === 180
    ? size
    : phrase('{size} to the {isDegrees, select, true {left} other {right}}', {
        size,
        isDegrees: degrees > 0,
      });
}

/** `3 by 4 1/2 in · 75 %`. */
function sizeWords({ box, sizing: { across, down }, unit }: In<'sizing'>): string {
  const size: Point = [(box.maxX - box.minX) * across, (box.maxY - box.minY) * down];
  const percent = (factor: number): string => `${Math.round(factor * 1000) / 10}`;
  const shares = across === down ? `${percent(across)} %` : `${percent(across)} × ${percent(down)} %`;
  return `${placeWords(size, unit).replace(', ', ' × ')} · ${shares}`;
}

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

type In<Kind extends SelectState['kind']> = Extract<SelectState, { readonly kind: Kind }>;

function clicked(state: In<'pressed'>, pointer: Pointer, around: Surroundings): Step<SelectState> {
  const { hit, kept } = state;
  const idle: SelectState = { kind: 'idle', over: hit, at: pointer.at };
  if (!kept || (hit.kind !== 'cut' && hit.kind !== 'cut-end')) return stepTo(idle);
  const cuts = pointer.adds ? around.selection.filter((id) => id !== hit.cut) : [hit.cut];
  return stepTo<SelectState>(idle, { kind: 'select', cuts });
}

function pulled(state: In<'pressed'>, pointer: Pointer, around: Surroundings): Step<SelectState> {
  const { hit, start, field } = state;
  if (distance(pointer.at, start) < around.dragIn) return stepTo(state);
  if ((hit.kind === 'cut' || hit.kind === 'cut-end') && cutOf(around, hit.cut).locked === true)
    return stepTo<SelectState>(IDLE, { kind: 'announce', text: phrase('This cut is locked.') });
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

const isTouching = ({ from, to }: In<'boxing'>): boolean => to[0] < from[0];

/** Takes what the box holds. */
function boxed(state: In<'boxing'>, { block }: Surroundings): Step<SelectState> {
  const box = boxOf([state.from, state.to]);
  const holds = isTouching(state) ? touchesBox : liesInBox;
  const held = block!.cuts.filter(({ from, to }) => holds([from, to], box)).map(({ id }) => id);
  return stepTo<SelectState>(
    { kind: 'idle', over: NOTHING, at: state.to },
    { kind: 'select', cuts: [...new Set([...state.before, ...held])] },
    {
      kind: 'announce',
      text:
        held.length === 1 ? phrase('1 line chosen.') : phrase('{held} lines chosen.', { held: held.length }),
    },
  );
}

const isInBox = ([x, y]: Point, { minX, minY, maxX, maxY }: Box): boolean =>
  x >= minX && x <= maxX && y >= minY && y <= maxY;

const liesInBox = (segment: Segment, box: Box): boolean => segment.every((end) => isInBox(end, box));

function touchesBox(segment: Segment, box: Box): boolean {
  if (segment.some((end) => isInBox(end, box))) return true;
  const sides = edgesOf([
    [box.minX, box.minY],
    [box.maxX, box.minY],
    [box.maxX, box.maxY],
    [box.minX, box.maxY],
  ]);
  return sides.some((side) => crossing(segment, side) !== null);
}

type Moving = In<'moving-end' | 'moving-corner' | 'moving-cuts' | 'moving-edge' | 'turning' | 'sizing'>;

function follow(state: Moving, pointer: Pointer, around: Surroundings): Step<Moving> {
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
function across([from, to]: Segment, by: Point): Point {
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
function put(state: Moving, around: Surroundings): Step<SelectState> {
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

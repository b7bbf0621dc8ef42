import type { Block, Project, ProjectEdit } from '../../document/project.ts';
import type { ChainStyle } from '../../editing/chain.ts';
import type { Chosen } from '../../editing/chosen.ts';
import type { FrameHandle } from '../../editing/frame.ts';
import type { GridKind } from '../../editing/grid.ts';
import { snapFrom } from '../../editing/heading.ts';
import { fieldOf, free, type Snap, type SnapField, snapTo } from '../../editing/snapping.ts';
import type { Symmetry } from '../../editing/symmetry.ts';
import type { Typed, Typing } from '../../editing/typing.ts';
import type { Point, Segment } from '../../geometry/point.ts';
import type { PiecingPlan } from '../../piecing/plan.ts';

export type ToolName = 'select' | 'cut' | 'chain' | 'shorten' | 'outline' | 'paint' | 'measure' | 'pan';

/** Where the pointer is, whatever moves it: a mouse, a finger, a pen or the keyboard's crosshair. */
export interface Pointer {
  /** Inches, not yet snapped. */
  readonly at: Point;
  /** CSS pixels from the board's top left. */
  readonly screen: Point;
  /** What is pressed is added to what is chosen, or taken out of it. */
  readonly adds: boolean;
  /** A line is kept to 15° steps. */
  readonly steps: boolean;
  /** Nothing catches the pointer. */
  readonly free: boolean;
}

export type ToolEvent =
  | { readonly kind: 'down' | 'move' | 'up'; readonly pointer: Pointer }
  /** Close or end what is being drawn. */
  | { readonly kind: 'finish' }
  /** Take the last point of what is being drawn back. */
  | { readonly kind: 'back' }
  /** A sign typed while a line is running. */
  | { readonly kind: 'type'; readonly sign: string }
  /** From the length to the angle, and back. */
  | { readonly kind: 'next' }
  /** As if nothing had been begun. */
  | { readonly kind: 'cancel' };

/** Whom a drawn outline is for: a block still to be made, or the one on the board. */
export type OutlineFor =
  | { readonly kind: 'new-block'; readonly name: string }
  | { readonly kind: 'this-block' };

/** What a tool may know. The block and plan are the recorded ones: a gesture starts from them on every move. */
export interface Surroundings {
  readonly project: Project;
  readonly block: Block | null;
  readonly plan: PiecingPlan | null;
  readonly selection: readonly string[];
  readonly chosen: Chosen | null;
  /** Fabric to paint with; null takes fabric off. */
  readonly fabricId: string | null;
  readonly outlineFor: OutlineFor;
  /** Step of the grid, inches; 0 for none. */
  readonly gridIn: number;
  readonly gridKind: GridKind;
  /** Spots marked by dividing an edge or a cut; they catch the pointer. */
  readonly divisions: readonly Point[];
  /** What is drawn again while a cut is drawn. */
  readonly symmetry: Symmetry;
  readonly chain: ChainStyle;
  /** A cut ends where it leaves the patch it starts in. */
  readonly onePatch: boolean;
  /** How near is near: the strength of snapping, in inches at the present zoom. */
  readonly reachIn: number;
  /** How near a press must come to take hold of something: never less than a finger needs. Inches. */
  readonly grabIn: number;
  /** A press that moves less than this is a click. Inches. */
  readonly dragIn: number;
  /** Inches to a CSS pixel at the present zoom. */
  readonly pxIn: number;
}

/** What a tool wants done. The board carries it out. */
export type Effect =
  | { readonly kind: 'preview'; readonly change: ProjectEdit }
  | { readonly kind: 'cancel-preview' }
  | {
      readonly kind: 'edit';
      readonly label: string;
      readonly change: ProjectEdit;
      readonly select?: readonly string[];
      readonly openBlock?: string;
    }
  | { readonly kind: 'select'; readonly cuts: readonly string[] }
  | { readonly kind: 'choose'; readonly chosen: Chosen | null }
  /** CSS pixels. */
  | { readonly kind: 'pan'; readonly by: Point }
  /** Words for whoever cannot see the board. */
  | { readonly kind: 'announce'; readonly text: string }
  /** A sentence everyone must see. */
  | { readonly kind: 'warn'; readonly text: string }
  /** Back to selecting, the work of this tool being done. */
  | { readonly kind: 'done' };

/** What a tool shows on the board while it works. */
export type Mark =
  | { readonly kind: 'snap'; readonly snap: Snap }
  | { readonly kind: 'line'; readonly segment: Segment }
  /** A stretch that would be taken away. */
  | { readonly kind: 'going'; readonly segment: Segment }
  /** A stretch whose length and angle are told, drawn by something else. */
  | { readonly kind: 'run'; readonly segment: Segment }
  | { readonly kind: 'outline'; readonly points: readonly Point[]; readonly to: Point | null }
  | { readonly kind: 'cut'; readonly cut: string }
  | { readonly kind: 'edge'; readonly edge: number }
  | { readonly kind: 'patch'; readonly at: Point }
  /** A handle of the frame round what is chosen, under the pointer or in hand. */
  | { readonly kind: 'handle'; readonly handle: FrameHandle }
  /** Words about what a hand does, at a place: how far it turns, how large it becomes. */
  | { readonly kind: 'told'; readonly at: Point; readonly text: string }
  | { readonly kind: 'spot'; readonly at: Point }
  /** Numbers typed for a running line, and why they cannot be used yet. */
  | { readonly kind: 'typed'; readonly at: Point; readonly typed: Typed; readonly error: string | null }
  /** A stretch measured, across and down. */
  | { readonly kind: 'measure'; readonly segment: Segment }
  /** How far things were moved, from where. */
  | { readonly kind: 'shift'; readonly from: Point; readonly by: Point }
  | { readonly kind: 'box'; readonly from: Point; readonly to: Point; readonly touching: boolean };

export interface Step<State> {
  readonly state: State;
  readonly effects: readonly Effect[];
}

/** A small state machine: events in, states and effects out. It never touches the screen or the session. */
export interface Tool<State> {
  readonly name: ToolName;
  readonly start: State;
  readonly on: (state: State, event: ToolEvent, around: Surroundings) => Step<State>;
  readonly marks: (state: State) => readonly Mark[];
  /** True while something is begun that Esc would take back. */
  readonly busy: (state: State) => boolean;
  /** Whether numbers typed now belong to what is begun, and what has been typed. */
  readonly typed?: (state: State) => Typing;
}

export const stepTo = <State>(state: State, ...effects: readonly Effect[]): Step<State> => ({
  state,
  effects,
});

/** The place the pointer means: what catches it, unless it is free. */
export const caught = (field: SnapField, pointer: Pointer, around: Surroundings): Snap =>
  pointer.free ? free(pointer.at) : snapTo(field, pointer.at, around.reachIn);

/** Everything that catches the pointer on the block, as it lies. */
export const fieldAround = ({ block, gridIn, gridKind, divisions }: Surroundings): SnapField =>
  fieldOf(block!, gridIn, gridKind, divisions);

/** What catches the end of a line that began at `from`. */
export const caughtFrom = (from: Snap, pointer: Pointer, around: Surroundings): Snap =>
  pointer.free
    ? free(pointer.at)
    : snapFrom(fieldAround(around), from.at, pointer.at, around.reachIn, pointer.steps);

/** A tool with its state kept inside, so that tools of different states fit one board. */
export interface Machine {
  readonly name: ToolName;
  readonly send: (event: ToolEvent, around: Surroundings) => readonly Effect[];
  readonly marks: () => readonly Mark[];
  readonly busy: () => boolean;
  readonly typed: () => Typing;
  readonly state: () => unknown;
  /** Puts the tool back into a state it was in. */
  readonly restore: (state: unknown) => void;
}

export function machineOf<State>(tool: Tool<State>): Machine {
  let state = tool.start;
  return {
    name: tool.name,
    send: (event, around) => {
      const step = tool.on(state, event, around);
      state = step.state;
      return step.effects;
    },
    marks: () => tool.marks(state),
    busy: () => tool.busy(state),
    typed: () => tool.typed?.(state) ?? null,
    state: () => state,
    restore: (before) => {
      state = before as State;
    },
  };
}

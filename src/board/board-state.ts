import { createStore } from 'zustand/vanilla';
import type { Block, Project } from '../document/project.ts';
import type { ChainStyle } from '../editing/chain.ts';
import type { Chosen } from '../editing/chosen.ts';
import { type GridKind, gridKindFor, gridStep } from '../editing/grid.ts';
import type { Symmetry } from '../editing/symmetry.ts';
import type { Point } from '../geometry/point.ts';
import { mediaHolds } from '../workspace/media.ts';
import { session, shownBlock } from '../workspace/session.ts';
import type { Camera, ViewSize } from './camera.ts';
import type { Lit } from './draw/lit.ts';
import type { Mark, OutlineFor, ToolName } from './tools/tool.ts';

export interface Crosshair {
  readonly at: Point;
  /** `6, 1 1/16 in, corner`. */
  readonly words: string;
}

/** How the board is being used right now. Nothing of it is saved or undone. */
export interface BoardState {
  readonly tool: ToolName;
  readonly outlineFor: OutlineFor;
  /** Size of the board on the screen; zero until it is shown. */
  readonly view: ViewSize;
  readonly camera: Camera;
  /** True until a person zooms or pans: the sheet is fitted again whenever the board changes size. */
  readonly fitted: boolean;
  /** The block the camera was last fitted to. */
  readonly fittedTo: string | null;
  /** Step of the grid as chosen; null for the unit's usual one. */
  readonly gridKey: string | null;
  readonly gridOn: boolean;
  /** Null: as the outline of the open block asks for. */
  readonly gridKind: GridKind | null;
  /** How near a pointer must come to be caught, CSS pixels; a finger reaches twice as far. */
  readonly reachPx: number;
  /** What is drawn again while a cut is drawn. */
  readonly symmetry: Symmetry;
  /** How a chain goes from place to place. */
  readonly chain: ChainStyle;
  /** A cut ends where it leaves the patch it starts in; otherwise it goes through everything under the line. */
  readonly onePatch: boolean;
  /** Lines keep to 15° steps without a key held. */
  readonly steps: boolean;
  /** What is pressed adds to what is chosen without a key held. */
  readonly adds: boolean;
  /** Nothing catches the pointer, without a key held. */
  readonly free: boolean;
  /** Spots marked by dividing edges and cuts of the open block. */
  readonly divisions: readonly Point[];
  /** The form that is open beside the drawing, by its name. */
  readonly form: string | null;
  /** Fabrics are shown as greys, each as light as its colour. */
  readonly valueView: boolean;
  /** The block is shown plain: no numbers, joins, sections or findings. */
  readonly plain: boolean;
  /** Fabric in hand; null takes fabric off. */
  readonly fabricId: string | null;
  readonly chosen: Chosen | null;
  readonly marks: readonly Mark[];
  /** The pointer in use is a finger, which covers more than a mouse. */
  readonly isFinger: boolean;
  /** Where a finger that draws lies now, CSS pixels from the board's top left; null while none does. */
  readonly finger: Point | null;
  /** Where the menu at the pointer is open, CSS pixels from the board's top left; null while it is not. */
  readonly menu: Point | null;
  /** Where the keyboard's crosshair stands and what is there, while it is in use. */
  readonly crosshair: Crosshair | null;
  /** Something is picked up with the keyboard and follows the crosshair. */
  readonly held: boolean;
  /** What a panel points at. */
  readonly lit: Lit | null;
  /** The last words for whoever cannot see the board. */
  readonly announced: string;
}

/** What of it has to do with the open project, and is over with it. */
const UNUSED = {
  tool: 'select',
  outlineFor: { kind: 'this-block' },
  fitted: true,
  fittedTo: null,
  symmetry: 'none',
  divisions: [],
  form: null,
  fabricId: null,
  chosen: null,
  marks: [],
  finger: null,
  menu: null,
  crosshair: null,
  held: false,
  lit: null,
  announced: '',
} satisfies Partial<BoardState>;

export const board = createStore<BoardState>(() => ({
  ...UNUSED,
  view: { width: 0, height: 0 },
  camera: { scale: 48, x: 0, y: 0 },
  gridKey: null,
  gridOn: true,
  gridKind: null,
  reachPx: 10,
  chain: { curve: 'straight', legs: 4 },
  onePatch: false,
  steps: false,
  adds: false,
  free: false,
  valueView: false,
  plain: false,
  // Until one is used: what the device is mostly worked with.
  isFinger: mediaHolds('(pointer: coarse)'),
}));

/** The board as one finds it when a project is opened: only how it is looked at and drawn on is kept. */
export function clearBoard(): void {
  board.setState(UNUSED);
}

/** True while an outline for a new block is being drawn: the board shows an empty sheet. */
export const onEmptySheet = ({ tool, outlineFor }: BoardState): boolean =>
  tool === 'outline' && outlineFor.kind === 'new-block';

/** The block on the sheet as it is shown, or null on an empty one. */
export const blockOnSheet = (): Block | null =>
  onEmptySheet(board.getState()) ? null : shownBlock(session.getState());

/** Step of the grid in use, inches; 0 when it is off. */
export function gridInUse(project: Project): number {
  const { gridOn, gridKey } = board.getState();
  return gridOn ? gridStep(project.unit, gridKey).stepIn : 0;
}

/** The grid in use on a block: the one chosen, else triangle paper for a triangle or a hexagon. */
export const gridKindOn = (block: Block | null): GridKind =>
  board.getState().gridKind ?? (block === null ? 'square' : gridKindFor(block.outline));

/** Fabric in hand; null when none is, or when the project no longer has it. */
export function fabricInHand(project: Project): string | null {
  const { fabricId } = board.getState();
  return project.fabrics.some(({ id }) => id === fabricId) ? fabricId : null;
}

/** Puts words where a screen reader hears them. */
export function announce(text: string): void {
  board.setState({ announced: text });
}

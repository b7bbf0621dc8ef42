import type { Project } from '../document/project.ts';
import type { Chosen } from '../editing/chosen.ts';
import type { Typing } from '../editing/typing.ts';
import { phrase } from '../words/phrase.ts';
import { cancelPreview, edit, preview, say, select } from '../workspace/actions.ts';
import { freeBlockName } from '../workspace/commands.ts';
import { planAtHand } from '../workspace/plans.ts';
import { session, shownBlock } from '../workspace/session.ts';
import { announce, board, fabricInHand, gridInUse, gridKindOn, onEmptySheet } from './board-state.ts';
import { fitForTool, pan, settleView, zoomToFit } from './camera-acts.ts';
import type { Effect, Machine, OutlineFor, Surroundings, ToolEvent, ToolName } from './tools/tool.ts';
import { toolEntry } from './tools/tools.ts';

/** The tool in hand and what it does to the session. */

/** How far a pointer must move to be dragging, CSS pixels. */
const DRAG_PX = 4;
/** A finger covers more than a mouse points at. */
const FINGER = 2;
/** Half of 44 px, the least target for a finger (WCAG 2.2, 2.5.5): how near it takes hold, however weak the snapping. */
const FINGER_GRAB_PX = 22;

let machine: Machine = toolEntry('select').begin();
/** True while this file itself changes the session, so that its own edits are not taken for someone else's. */
let acting = false;

/** Whether a change of the session is the tool's own. */
export const isActing = (): boolean => acting;

/** What the tool in hand may know at this moment. */
export function surroundings(): Surroundings {
  const { project, blockId, selection } = session.getState();
  const state = board.getState();
  const wider = state.isFinger ? FINGER : 1;
  const block = onEmptySheet(state) ? null : (project.blocks.find(({ id }) => id === blockId) ?? null);
  return {
    project,
    block,
    plan: block === null ? null : planAtHand(block),
    selection,
    chosen: state.chosen,
    fabricId: fabricInHand(project),
    outlineFor: state.outlineFor,
    gridIn: gridInUse(project),
    gridKind: gridKindOn(block),
    divisions: state.divisions,
    symmetry: state.symmetry,
    chain: state.chain,
    onePatch: state.onePatch,
    reachIn: (state.reachPx * wider) / state.camera.scale,
    grabIn: Math.max(state.reachPx * wider, state.isFinger ? FINGER_GRAB_PX : 0) / state.camera.scale,
    dragIn: (DRAG_PX * wider) / state.camera.scale,
    pxIn: 1 / state.camera.scale,
  };
}

/** Gives an event to the tool in hand, carries out what it asks, and shows its marks. */
export function send(event: ToolEvent): void {
  sendIn(event, surroundings());
}

/** The same with other surroundings, such as the exactness of the keyboard. */
export function sendIn(event: ToolEvent, around: Surroundings): void {
  perform(machine.send(event, around));
  board.setState({ marks: machine.marks() });
  if (!machine.busy()) settleView();
}

export const busy = (): boolean => machine.busy();

/** What is typed for the tool in hand, or what could be. */
export const typedNow = (): Typing => machine.typed();

/** Whether numbers are being typed on the board. */
export const isWriting = (): boolean => typeof machine.typed() === 'object' && machine.typed() !== null;

/** How things stand before a press, to go back to should it be taken away. */
export interface BeforePress {
  readonly machine: Machine;
  readonly state: unknown;
  readonly project: Project;
  readonly selection: readonly string[];
  readonly chosen: Chosen | null;
}

export const beforePress = (): BeforePress => ({
  machine,
  state: machine.state(),
  project: session.getState().project,
  selection: session.getState().selection,
  chosen: board.getState().chosen,
});

/**
 * Takes back a press and what was dragged since, and nothing else: corners set and lines begun before it stay. What the
 * press has recorded already stays too, since undo takes it back. True when the press had begun something.
 */
export function takeBackPress(before: BeforePress): boolean {
  if (before.machine !== machine || session.getState().project !== before.project) return false;
  const had = session.getState().draft !== null || machine.state() !== before.state;
  machine.restore(before.state);
  acting = true;
  try {
    cancelPreview();
    if (session.getState().selection !== before.selection) select(before.selection);
    board.setState({ chosen: before.chosen, held: false, marks: machine.marks() });
  } finally {
    acting = false;
  }
  if (!machine.busy()) settleView();
  return had;
}

/** Takes back whatever is begun. True when there was something. */
export function cancel(): boolean {
  const was = machine.busy() || board.getState().held;
  send({ kind: 'cancel' });
  board.setState({ held: false });
  return was;
}

function perform(effects: readonly Effect[]): void {
  acting = true;
  try {
    for (const effect of effects) performOne(effect);
  } finally {
    acting = false;
  }
}

function performOne(effect: Effect): void {
  switch (effect.kind) {
    case 'preview':
      preview(effect.change);
      break;
    case 'cancel-preview':
      cancelPreview();
      break;
    case 'edit':
      edit(effect.label, effect.change, {
        ...(effect.openBlock === undefined ? {} : { openBlock: effect.openBlock }),
        ...(effect.select === undefined ? {} : { select: effect.select }),
      });
      if (effect.select !== undefined) board.setState({ chosen: null });
      break;
    case 'select':
      board.setState({ chosen: null });
      select(effect.cuts);
      break;
    case 'choose':
      select([]);
      board.setState({ chosen: effect.chosen });
      break;
    case 'pan':
      pan(...effect.by);
      break;
    case 'announce':
      announce(effect.text);
      break;
    case 'warn':
      say('trouble', effect.text);
      break;
    case 'done':
      takeUp(board.getState().outlineFor.kind === 'new-block' ? 'cut' : 'select');
      break;
  }
}

/** Takes up a tool; whatever was begun with the last one is taken back. */
export function takeUp(name: ToolName, wanted: OutlineFor = { kind: 'this-block' }): void {
  cancel();
  const outlineFor = name === 'outline' ? outlineWithout(wanted) : wanted;
  machine = toolEntry(name).begin();
  const { tool, outlineFor: before } = board.getState();
  board.setState({ tool: name, outlineFor, marks: [] });
  // Whoever lays fabric wants to see it: a cut drawn last would stay marked across it.
  if (name === 'paint') {
    if (session.getState().selection.length > 0) select([]);
    board.setState({ chosen: null });
  }
  const sheetChanges =
    (tool === 'outline' && before.kind === 'new-block') !==
    (name === 'outline' && outlineFor.kind === 'new-block');
  if (sheetChanges) zoomToFit();
  else fitForTool();
}

/** An outline drawn anew would leave the cuts of a drawing outside it: where there are some, it is for a new block. */
function outlineWithout(wanted: OutlineFor): OutlineFor {
  const { project } = session.getState();
  const block = shownBlock(session.getState());
  if (wanted.kind === 'new-block' || block === null || block.cuts.length === 0) return wanted;
  const name = freeBlockName(project);
  announce(
    phrase('A new block, {name}. Set its corners; {block} stays as it is.', { name, block: block.name }),
  );
  return { kind: 'new-block', name };
}

import { removeCuts } from '../document/edit-cuts.ts';
import { paintPatch } from '../document/edit-paint.ts';
import type { Fabric, Project } from '../document/project.ts';
import type { Chosen } from '../editing/chosen.ts';
import { gridStep, neighbouringStep } from '../editing/grid.ts';
import { removeCorner } from '../editing/reshape.ts';
import type { Typing } from '../editing/typing.ts';
import { cancelPreview, edit, preview, say, select } from '../workspace/actions.ts';
import { planAtHand } from '../workspace/plans.ts';
import { session, shownBlock } from '../workspace/session.ts';
import { board, fabricInHand, gridInUse, onEmptySheet } from './board-state.ts';
import { fitAgain, pan, settleView, zoomToFit } from './camera-acts.ts';
import type { Lit } from './draw/block.ts';
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
    gridKind: state.gridKind,
    divisions: state.divisions,
    symmetry: state.symmetry,
    onePatch: state.onePatch,
    reachIn: (state.reachPx * wider) / state.camera.scale,
    grabIn: Math.max(state.reachPx * wider, state.isFinger ? FINGER_GRAB_PX : 0) / state.camera.scale,
    dragIn: (DRAG_PX * wider) / state.camera.scale,
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

/** Puts words where a screen reader hears them. */
export function announce(text: string): void {
  board.setState({ announced: text });
}

/** Takes up a tool; whatever was begun with the last one is taken back. */
export function takeUp(name: ToolName, outlineFor: OutlineFor = { kind: 'this-block' }): void {
  cancel();
  machine = toolEntry(name).begin();
  const { tool, outlineFor: before } = board.getState();
  board.setState({ tool: name, outlineFor, marks: [] });
  const sheetChanges =
    (tool === 'outline' && before.kind === 'new-block') !==
    (name === 'outline' && outlineFor.kind === 'new-block');
  if (sheetChanges) zoomToFit();
}

/** Opens a form beside the drawing; whatever was begun is taken back. */
export function openForm(form: string): void {
  cancel();
  board.setState({ form });
}

/** Closes the form that is open, and takes back what it showed. */
export function closeForm(): void {
  if (board.getState().form === null) return;
  cancelPreview();
  board.setState({ form: null });
}

/** Takes a fabric in hand, and the tool to lay it with. */
export function takeFabric(fabric: Fabric | null): void {
  board.setState({ fabricId: fabric?.id ?? null });
  if (board.getState().tool !== 'paint') takeUp('paint');
}

export function light(lit: Lit | null): void {
  if (board.getState().lit !== lit) board.setState({ lit });
}

export function chooseGrid(key: string | null): void {
  board.setState(key === null ? { gridOn: false } : { gridOn: true, gridKey: key });
}

/** Whether a cut goes on through everything under the line, or stops where it leaves its first patch. */
export function setOnePatch(onePatch: boolean): void {
  board.setState({ onePatch });
  announce(
    onePatch
      ? 'Cuts stop at the end of the patch they start in.'
      : 'Cuts go through everything under the line.',
  );
}

export function stepGrid(direction: 'finer' | 'coarser'): void {
  const { unit } = session.getState().project;
  const step = neighbouringStep(unit, gridStep(unit, board.getState().gridKey).key, direction);
  chooseGrid(step.key);
  announce(`Grid ${step.label}`);
}

/** Lets go of what is chosen. */
export function chooseNothing(): void {
  select([]);
  board.setState({ chosen: null });
  announce('Nothing is chosen.');
}

/** Whether there is something chosen that can be deleted. */
export function canDelete(): boolean {
  const { chosen } = board.getState();
  return session.getState().selection.length > 0 || chosen?.kind === 'corner' || chosen?.kind === 'patch';
}

/** Deletes what is chosen: cuts, a corner of the outline, or the fabric of a patch. True when there was something. */
export function deleteChosen(): boolean {
  const { selection, blockId } = session.getState();
  const { chosen } = board.getState();
  if (blockId === null) return false;
  cancel();
  if (selection.length > 0) {
    edit(selection.length > 1 ? 'Delete cuts' : 'Delete cut', (project) =>
      removeCuts(project, blockId, selection),
    );
    if (session.getState().selection.length > 0) announce('Locked cuts stay. Unlock them first.');
    return true;
  }
  switch (chosen?.kind) {
    case 'corner':
      edit('Delete corner', (project) => removeCorner(project, blockId, chosen.corner));
      board.setState({ chosen: null });
      return true;
    case 'patch':
      edit('Take fabric off', (project) => paintPatch(project, blockId, chosen.at, null));
      return true;
    default:
      return false;
  }
}

/**
 * Keeps the board in step with the session: another block is fitted to the sheet, and a gesture on a drawing
 * that has since changed under it (undo, opening a file) is dropped. Returns a stop function.
 */
export function followSession(): () => void {
  const stop = session.subscribe((state, before) => {
    if (state.blockId !== before.blockId) {
      board.setState({ chosen: null, lit: null, crosshair: null, held: false, divisions: [], form: null });
      if (!acting) {
        cancel();
        // Whoever opens a block wants to see it, not the empty sheet of one not yet drawn.
        if (onEmptySheet(board.getState())) takeUp('select');
      }
      zoomToFit();
    } else if (shownBlock(state)?.outline !== shownBlock(before)?.outline) {
      // A hand that drags the outline would lose its place, should the sheet move under it.
      if (!machine.busy()) fitAgain();
    }
    if (state.blockId === before.blockId && state.project !== before.project && !acting) {
      if (machine.busy()) cancel();
      const corners = state.project.blocks.find(({ id }) => id === state.blockId)?.outline.length ?? 0;
      const { chosen, lit } = board.getState();
      if (chosen?.kind === 'corner' && chosen.corner >= corners) board.setState({ chosen: null });
      if (chosen?.kind === 'edge' && chosen.edge >= corners) board.setState({ chosen: null });
      if (lit !== null) board.setState({ lit: null });
    }
    if (
      state.selection !== before.selection &&
      state.selection.length > 0 &&
      board.getState().chosen !== null
    )
      board.setState({ chosen: null });
  });
  return () => {
    stop();
    // Whoever leaves the board in the middle of a gesture did not mean it.
    cancel();
  };
}

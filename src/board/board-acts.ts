import { removeCuts } from '../document/edit-cuts.ts';
import { paintPatches } from '../document/edit-paint.ts';
import type { Fabric, ProjectEdit } from '../document/project.ts';
import { gridStep, neighbouringStep } from '../editing/grid.ts';
import { removeCorner } from '../editing/reshape.ts';
import { everywhere } from '../editing/symmetric.ts';
import { placesOf } from '../editing/symmetry.ts';
import type { Point } from '../geometry/point.ts';
import { phrase } from '../words/phrase.ts';
import { cancelPreview, type EditOptions, edit, select } from '../workspace/actions.ts';
import { session } from '../workspace/session.ts';
import { announce, blockOnSheet, board } from './board-state.ts';
import type { Lit } from './draw/lit.ts';
import { cancel, takeUp } from './tool-in-hand.ts';

/** What panels, buttons and keys do on the board, whatever tool is in hand. */

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
      ? phrase('Lines stop at the end of the patch they start in.')
      : phrase('Lines go through everything under the line.'),
  );
}

export function stepGrid(direction: 'finer' | 'coarser'): void {
  const { unit } = session.getState().project;
  const step = neighbouringStep(unit, gridStep(unit, board.getState().gridKey).key, direction);
  chooseGrid(step.key);
  announce(phrase('Grid {label}', { label: step.label }));
}

/** Lets go of what is chosen. */
export function chooseNothing(): void {
  select([]);
  board.setState({ chosen: null });
  announce(phrase('Nothing is chosen.'));
}

/** An edit of the open block, done at every place that is the same under the symmetry that is on. */
export function editEverywhere(label: string, change: ProjectEdit, options: EditOptions = {}): void {
  edit(label, inSymmetry(change), options);
}

export function inSymmetry(change: ProjectEdit): ProjectEdit {
  const { blockId } = session.getState();
  return blockId === null ? change : everywhere(change, blockId, board.getState().symmetry);
}

/** A place of the open block and its images under the symmetry that is on. */
export function spotsInSymmetry(at: Point): readonly Point[] {
  const block = blockOnSheet();
  return block === null
    ? [at]
    : placesOf([at], board.getState().symmetry, block.outline).map(([spot]) => spot!);
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
    editEverywhere(selection.length > 1 ? phrase('Delete lines') : phrase('Delete line'), (project) =>
      removeCuts(project, blockId, selection),
    );
    if (session.getState().selection.length > 0) announce(phrase('Locked lines stay. Unlock them first.'));
    return true;
  }
  switch (chosen?.kind) {
    case 'corner':
      editEverywhere(phrase('Delete corner'), (project) => removeCorner(project, blockId, chosen.corner));
      board.setState({ chosen: null });
      return true;
    case 'patch':
      edit(phrase('Take fabric off'), (project) =>
        paintPatches(project, blockId, spotsInSymmetry(chosen.at), null),
      );
      return true;
    default:
      return false;
  }
}

import { hitAt } from '../editing/hit.ts';
import { innerSpot } from '../geometry/inner-spot.ts';
import type { Point } from '../geometry/point.ts';
import { boxOf } from '../geometry/ring.ts';
import { select } from '../workspace/actions.ts';
import { session } from '../workspace/session.ts';
import { closeForm } from './board-acts.ts';
import { BOARD_COMMANDS, type BoardCommand } from './board-commands.ts';
import { board } from './board-state.ts';
import { toBoard, toScreen } from './camera.ts';
import { chosenPlaces } from './camera-acts.ts';
import { cancel, surroundings } from './tool-in-hand.ts';

/** The menu at the pointer: what can be done with what lies there, from the one table of commands. */

/** Opens it at a place of the screen (CSS pixels from the board's top left); what lies there is chosen first. */
export function openMenuAt(screen: Point): void {
  cancel();
  closeForm();
  const { block, plan, selection, grabIn } = surroundings();
  if (block !== null && plan !== null) {
    const at = toBoard(board.getState().camera, screen);
    const hit = hitAt(block, plan, selection, at, grabIn);
    switch (hit.kind) {
      case 'cut':
      case 'cut-end':
        if (!selection.includes(hit.cut)) choose([hit.cut]);
        break;
      case 'corner':
        choose([], { kind: 'corner', corner: hit.corner });
        break;
      case 'edge':
        choose([], { kind: 'edge', edge: hit.edge });
        break;
      case 'patch':
        // Within several chosen cuts those are meant.
        if (!isWithinChosen(at))
          choose([], {
            kind: 'patch',
            at: innerSpot(plan.patches.find(({ id }) => id === hit.patch)!),
          });
        break;
      case 'nothing':
        choose([]);
    }
  }
  board.setState({ menu: screen });
}

/** Opens it for the keyboard: at the crosshair, or at what is chosen. */
export function openMenuHere(): void {
  const { camera, crosshair, view } = board.getState();
  const places = chosenPlaces();
  if (places.length === 0 && crosshair !== null) {
    openMenuAt(toScreen(camera, crosshair.at));
    return;
  }
  cancel();
  const { minX, minY, maxX, maxY } = boxOf(places);
  const [x, y] =
    places.length === 0
      ? [view.width / 2, view.height / 2]
      : toScreen(camera, [(minX + maxX) / 2, (minY + maxY) / 2]);
  board.setState({ menu: [Math.max(0, Math.min(view.width, x)), Math.max(0, Math.min(view.height, y))] });
}

export function closeMenu(): void {
  if (board.getState().menu !== null) board.setState({ menu: null });
}

function choose(cuts: readonly string[], chosen: ReturnType<typeof board.getState>['chosen'] = null): void {
  select(cuts);
  board.setState({ chosen });
}

function isWithinChosen([x, y]: Point): boolean {
  if (session.getState().selection.length < 2) return false;
  const { minX, minY, maxX, maxY } = boxOf(chosenPlaces());
  return x >= minX && x <= maxX && y >= minY && y <= maxY;
}

/** Of the whole board, what belongs into the menu: where something is chosen, and on open ground. */
const WITH_CHOSEN = ['paste', 'choose-all', 'zoom-chosen'];
const ON_GROUND = ['paste', 'choose-all', 'zoom-fit'];

/** What the menu offers now, in groups: acts on what is chosen, forms for it, and what is for the whole board. */
export function menuCommands(): readonly (readonly BoardCommand[])[] {
  const state = session.getState();
  const isChosen = state.selection.length > 0 || board.getState().chosen !== null;
  const can = BOARD_COMMANDS.filter((one) => one.enabled(state));
  const named = (names: readonly string[]): readonly BoardCommand[] =>
    can.filter(({ name }) => names.includes(name));
  const about = can.filter((one) => one.about === (isChosen ? 'chosen' : 'block'));
  const isForm = ({ name }: BoardCommand): boolean => name.startsWith('form-');
  const acts = about.filter((one) => !isForm(one));
  const groups = [
    isChosen ? [...acts, ...named(['delete-chosen'])] : acts,
    about.filter(isForm),
    named(isChosen ? WITH_CHOSEN : ON_GROUND),
  ];
  return groups.filter((group) => group.length > 0);
}

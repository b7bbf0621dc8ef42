import type { Block, Unit } from '../document/project.ts';
import { gridOriginFor, gridSpacing, gridStep } from '../editing/grid.ts';
import { type Hit, hitAt } from '../editing/hit.ts';
import {
  bareField,
  fieldOf,
  inReadingOrder,
  type Snap,
  type SnapField,
  snapTo,
} from '../editing/snapping.ts';
import { cornerName, edgeName } from '../editing/whereabouts.ts';
import { capital, cutName, cutWords, placeWords, snapWords } from '../editing/words.ts';
import { MAX_COORDINATE_IN, snapPoint } from '../geometry/lattice.ts';
import type { Point } from '../geometry/point.ts';
import { midSentence, phrase } from '../words/phrase.ts';
import { session } from '../workspace/session.ts';
import { announce, board } from './board-state.ts';
import { toScreen } from './camera.ts';
import { bringIntoView, sheetBox } from './camera-acts.ts';
import { sendIn, surroundings } from './tool-in-hand.ts';
import type { Pointer, Surroundings } from './tools/tool.ts';

/** The keyboard's pointer: it stands at exact places, and every tool works with it as with a mouse. */

/** The crosshair stands on a thing or it does not: a thousandth of an inch forgives the lattice, nothing more. */
const EXACT_IN = 1 / 1000;

export type StepSize = 'grid' | 'finer' | 'coarser';

/** Finer: a quarter of the grid's step. Coarser: four steps. */
const STEPS: Readonly<Record<StepSize, number>> = { finer: 1 / 4, grid: 1, coarser: 4 };

const stepInUse = (): number => gridStep(session.getState().project.unit, board.getState().gridKey).stepIn;

/** What there is to stand on. The grid counts for the keyboard even when it does not catch the mouse. */
function standingField({ block, gridKind, divisions }: Surroundings): SnapField {
  return block === null ? bareField(stepInUse(), gridKind) : fieldOf(block, stepInUse(), gridKind, divisions);
}

/** Where the crosshair stands; the middle of the sheet, on the grid, when it has not been used yet. */
function standing(stepIn: number): Point {
  const { crosshair } = board.getState();
  if (crosshair !== null) return crosshair.at;
  const { minX, minY, maxX, maxY } = sheetBox();
  return [nearest((minX + maxX) / 2, stepIn), nearest((minY + maxY) / 2, stepIn)];
}

const nearest = (value: number, step: number): number => Math.round(value / step) * step;

/** The next line of the grid in a direction (-1, 0, 1) from a coordinate; off the grid, the first one reached. */
function next(value: number, step: number, direction: number): number {
  if (direction === 0) return value;
  const steps = value / step;
  const whole = Math.round(steps);
  if (Math.abs(steps - whole) * step <= EXACT_IN) return (whole + direction) * step;
  return (direction > 0 ? Math.ceil(steps) : Math.floor(steps)) * step;
}

/** Moves the crosshair by the grid, and whatever the tool has in hand with it. */
export function moveCrosshair(dx: number, dy: number, size: StepSize): void {
  const gridIn = stepInUse();
  const [x, y] = standing(gridIn);
  const step = gridIn * STEPS[size];
  const limit = (value: number) => Math.max(-MAX_COORDINATE_IN, Math.min(MAX_COORDINATE_IN, value));
  const { block, gridKind } = surroundings();
  const [left, top] = gridOriginFor(gridKind, block?.outline ?? []);
  const row = gridSpacing(gridKind, step);
  // On triangle paper the way down is a slant: the next row lies half a step to the right, every other row does.
  const isSixty = gridKind === 'sixty';
  const shift = isSixty && Math.abs(Math.round((y - top) / row)) % 2 === 1 ? step / 2 : 0;
  const across = isSixty && dy !== 0 ? x + (dy * step) / 2 : next(x - left - shift, step, dx) + left + shift;
  stand([limit(across), limit(next(y - top, row, dy) + top)]);
}

/** Jumps to the next or the previous corner, cut end or crossing, row by row, and round again at the end. */
export function jump(direction: 1 | -1): void {
  const around = surroundings();
  const spots = inReadingOrder(standingField(around));
  const from = board.getState().crosshair?.at ?? null;
  const ahead = (at: Point) => from === null || direction * (at[1] - from[1] || at[0] - from[0]) > 0;
  const inTurn = direction > 0 ? spots : spots.toReversed();
  const spot = inTurn.find(({ at }) => ahead(at)) ?? inTurn[0];
  if (spot === undefined) announce(phrase('There is nothing on the sheet to jump to.'));
  else stand(spot.at);
}

/** Puts the crosshair at a place and tells what is there. */
function stand(place: Point): void {
  const at = snapPoint(place);
  const words = placeInWords(at, exactly(surroundings()));
  board.setState({ crosshair: { at, words } });
  bringIntoView(at);
  sendIn({ kind: 'move', pointer: pointerAt(at) }, exactly(surroundings()));
  announce(words);
}

function placeInWords(at: Point, around: Surroundings): string {
  const snap: Snap = snapTo(standingField(around), at, EXACT_IN);
  const words = snapWords({ ...snap, at }, around.project.unit);
  if (snap.kind !== 'grid' && snap.kind !== 'free') return words;
  const { block, plan } = around;
  const hit = block === null || plan === null ? null : hitAt(block, plan, [], at, EXACT_IN);
  if (hit?.kind === 'patch') return phrase('{words}, in {patch}', { words, patch: hit.patch });
  return hit === null ? words : phrase('{words}, beside the block', { words });
}

const pointerAt = (at: Point): Pointer => ({
  at,
  screen: toScreen(board.getState().camera, at),
  adds: false,
  steps: false,
  free: false,
});

const exactly = (around: Surroundings): Surroundings => ({
  ...around,
  reachIn: EXACT_IN,
  grabIn: EXACT_IN,
  dragIn: EXACT_IN,
});

/**
 * Does with the tool in hand what a click does. Selecting is different: the first press picks up what is there,
 * the second puts it down, so that cuts and corners can be moved.
 */
export function pressCrosshair(): void {
  const { crosshair, tool, held } = board.getState();
  if (crosshair === null) stand(standing(stepInUse()));
  else if (tool !== 'select') click(pointerAt(crosshair.at));
  else if (held) putDown(pointerAt(crosshair.at));
  else pickUp(pointerAt(crosshair.at), surroundings());
}

function click(pointer: Pointer): void {
  sendIn({ kind: 'down', pointer }, exactly(surroundings()));
  sendIn({ kind: 'up', pointer }, exactly(surroundings()));
}

function pickUp(pointer: Pointer, around: Surroundings): void {
  const { block, plan, selection } = around;
  if (block === null || plan === null) return;
  const hit = hitAt(block, plan, selection, pointer.at, around.grabIn);
  sendIn({ kind: 'down', pointer }, around);
  const held = hit.kind !== 'patch' && hit.kind !== 'nothing';
  if (!held) sendIn({ kind: 'up', pointer }, around);
  board.setState({ held });
  announce(hitWords(hit, block, around.project.unit));
}

function hitWords(hit: Hit, block: Block, unit: Unit): string {
  const goOn = phrase('Arrows move it, Enter puts it down.');
  switch (hit.kind) {
    case 'cut':
    case 'cut-end': {
      const cut = block.cuts.find(({ id }) => id === hit.cut)!;
      const name = cutName(block.cuts, cut.id);
      const what = hit.kind === 'cut' ? name : phrase('End of {name}', { name: midSentence(name) });
      return phrase('{what} picked up, {cutWords}. {goOn}', { what, cutWords: cutWords(cut, unit), goOn });
    }
    case 'corner':
      return phrase('{block} picked up. {goOn}', { block: capital(cornerName(block, hit.corner)), goOn });
    case 'edge':
      return phrase('{edgeName} picked up. {goOn}', { edgeName: capital(edgeName(block, hit.edge)), goOn });
    case 'patch':
      return phrase('{patch} chosen.', { patch: hit.patch });
    case 'nothing':
      return phrase('Nothing here.');
  }
}

function putDown(pointer: Pointer): void {
  sendIn({ kind: 'up', pointer }, exactly(surroundings()));
  board.setState({ held: false });
  announce(phrase('Put down at {at}.', { at: placeWords(pointer.at, session.getState().project.unit) }));
}

import { addCuts, type NewCut } from '../../document/edit-cuts.ts';
import { freeCutIds } from '../../document/ids.ts';
import { onLattice } from '../../document/limits.ts';
import { inFirstPatch } from '../../editing/patch-span.ts';
import { type Snap, snapTo } from '../../editing/snapping.ts';
import { imagesOf, middleOf } from '../../editing/symmetry.ts';
import { lengthWords, snapWords } from '../../editing/words.ts';
import type { Point } from '../../geometry/point.ts';
import { distanceToSegment } from '../../geometry/ring.ts';
import { samePlace } from '../../geometry/segments.ts';
import { phrase } from '../../words/phrase.ts';
import { type CutState, cancelled, type Running, type RunningState, running } from './cut-state.ts';
import { type Effect, fieldAround, type Step, type Surroundings, stepTo } from './tool.ts';

/** The cut drawn. In the open the next one begins where it ended. */
export function ended(state: RunningState, around: Surroundings): Step<CutState> {
  const { from, to } = state;
  if (samePlace(from.at, to.at)) {
    // A click on a place that was typed begins there as it would anywhere; a second click on the start ends a chain.
    return from.kind === 'typed'
      ? stepTo<CutState>(running('placing', { ...to, kind: 'cut-end' }, to), beginsAt(to, around))
      : cancelled;
  }
  const [, end] = inOnePatch(state, around);
  const goesOn = samePlace(end, to.at) && inTheOpen(state, around);
  return stepTo<CutState>(
    goesOn ? running('placing', to, to) : { kind: 'idle', near: to },
    ...drawn(state, around),
  );
}

const EXACT_IN = 1 / 1000;

/** Whether nothing of the drawing, nor an image of the cut itself, stands at the end of a cut. */
function inTheOpen(state: RunningState, around: Surroundings): boolean {
  const { at } = state.to;
  const images = strokes(state, around).slice(1);
  const isMet = images.some(({ from, to }) => distanceToSegment(at, from, to) <= EXACT_IN);
  if (isMet) return false;
  const { kind } = snapTo(fieldAround(around), at, EXACT_IN);
  return kind === 'grid' || kind === 'free';
}

/** The stretch that is drawn, cut off where it leaves its first patch if that is asked for. */
function inOnePatch({ from, to }: Running, { onePatch, plan }: Surroundings): readonly [Point, Point] {
  return onePatch && plan !== null ? inFirstPatch(plan.patches, [from.at, to.at]) : [from.at, to.at];
}

/** Every cut that is drawn at once: the one under the pointer first, then its images. */
function strokes(state: Running, around: Surroundings): readonly NewCut[] {
  const middle = middleOf(around.block!.outline);
  return imagesOf(inOnePatch(state, around), around.symmetry, middle, onLattice).map(([from, to]) => ({
    from,
    to,
  }));
}

export function previewOf(state: Running, around: Surroundings): Effect {
  if (samePlace(state.from.at, state.to.at)) return { kind: 'cancel-preview' };
  const cuts = strokes(state, around);
  const { id } = around.block!;
  return { kind: 'preview', change: (project) => addCuts(project, id, cuts) };
}

export const beginsAt = (from: Snap, { project }: Surroundings): Effect => ({
  kind: 'announce',
  text: phrase('Line begins at {snapWords}. Go to its other end, or type its length.', {
    snapWords: snapWords(from, project.unit),
  }),
});

export function drawn(state: Running, around: Surroundings): readonly Effect[] {
  const { block, project } = around;
  const cuts = strokes(state, around);
  const [{ from, to }] = cuts as readonly [NewCut, ...NewCut[]];
  const ids = freeCutIds(block!);
  const several = cuts.length > 1 ? phrase(' {cuts} lines with its images.', { cuts: cuts.length }) : '';
  return [
    {
      kind: 'edit',
      label: cuts.length > 1 ? phrase('Draw lines') : phrase('Draw line'),
      change: (before) => addCuts(before, block!.id, cuts),
      select: cuts.map(() => ids.next().value),
    },
    {
      kind: 'announce',
      text: phrase('Line drawn to {snapWords}, {from} long.{several}', {
        snapWords: snapWords({ ...state.to, at: to }, project.unit),
        from: lengthWords(from, to, project.unit),
        several,
      }),
    },
  ];
}

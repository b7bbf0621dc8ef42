import { paintPatches } from '../../document/edit-paint.ts';
import { placesOf } from '../../editing/symmetry.ts';
import { holdsPoint, innerSpot } from '../../geometry/inner-spot.ts';
import type { Point } from '../../geometry/point.ts';
import { distance } from '../../geometry/ring.ts';
import { along } from '../../geometry/segments.ts';
import { phrase } from '../../words/phrase.ts';
import { type Effect, type Mark, type Surroundings, stepTo, type Tool } from './tool.ts';

/** Lays the chosen fabric on patches: a click for one, a drag for every patch it passes over. */
export type PaintState =
  /** `over`: the pointer and its images under a symmetry. */
  | { readonly kind: 'idle'; readonly over: readonly Point[] }
  /** `spots`: one place inside each patch painted so far. */
  | { readonly kind: 'painting'; readonly spots: readonly Point[]; readonly last: Point };

const IDLE: PaintState = { kind: 'idle', over: [] };

export const paintTool: Tool<PaintState> = {
  name: 'paint',
  start: IDLE,
  busy: ({ kind }) => kind !== 'idle',
  marks: (state) => {
    if (state.kind === 'painting') return [];
    return state.over.map((at): Mark => ({ kind: 'patch', at }));
  },
  on: (state, event, around) => {
    if (around.block === null) return stepTo(IDLE);
    switch (event.kind) {
      case 'type':
      case 'next':
        return stepTo(state);
      case 'cancel':
      case 'finish':
      case 'back':
        return state.kind === 'idle' ? stepTo(state) : stepTo<PaintState>(IDLE, { kind: 'cancel-preview' });
      case 'down': {
        const spots = passed(event.pointer.at, event.pointer.at, [], around);
        return stepTo<PaintState>(
          { kind: 'painting', spots, last: event.pointer.at },
          ...shown(spots, around),
        );
      }
      case 'move': {
        if (state.kind === 'idle') return stepTo(idleAt(event.pointer.at, around));
        const spots = passed(state.last, event.pointer.at, state.spots, around);
        const effects = spots.length === state.spots.length ? [] : shown(spots, around);
        return stepTo<PaintState>({ kind: 'painting', spots, last: event.pointer.at }, ...effects);
      }
      case 'up': {
        if (state.kind === 'idle') return stepTo(state);
        const idle = idleAt(event.pointer.at, around);
        if (state.spots.length === 0) return stepTo(idle);
        return stepTo<PaintState>(idle, {
          kind: 'edit',
          label: around.fabricId === null ? phrase('Take fabric off') : phrase('Lay fabric'),
          change: changeFor(state.spots, around),
        });
      }
    }
  },
};

const idleAt = (at: Point, { block, symmetry }: Surroundings): PaintState => ({
  kind: 'idle',
  over: placesOf([at], symmetry, block!.outline).flat(),
});

/** The spots with one added for every further patch on the way, looked at often enough to miss none that is seen. */
function passed(from: Point, to: Point, spots: readonly Point[], around: Surroundings): readonly Point[] {
  const { plan, reachIn } = around;
  const steps = Math.max(1, Math.ceil(distance(from, to) / (reachIn / 2)));
  const grown = [...spots];
  for (let step = 0; step <= steps; step++) {
    const at = along([from, to], step / steps);
    const patch = plan?.patches.find((one) => holdsPoint(one, at));
    if (patch !== undefined && !grown.some((spot) => holdsPoint(patch, spot))) grown.push(innerSpot(patch));
  }
  return grown;
}

const changeFor = (spots: readonly Point[], { block, fabricId, symmetry }: Surroundings) => {
  const { id, outline } = block!;
  const all = spots.flatMap((spot) => placesOf([spot], symmetry, outline).flat());
  return (project: Surroundings['project']) => paintPatches(project, id, all, fabricId);
};

const shown = (spots: readonly Point[], around: Surroundings): readonly Effect[] =>
  spots.length === 0 ? [] : [{ kind: 'preview', change: changeFor(spots, around) }];

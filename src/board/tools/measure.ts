import type { Snap } from '../../editing/snapping.ts';
import { angleWords, lengthWords, placeWords, snapWords } from '../../editing/words.ts';
import type { Segment } from '../../geometry/point.ts';
import { samePlace } from '../../geometry/segments.ts';
import { phrase } from '../../words/phrase.ts';
import {
  caught,
  caughtFrom,
  type Effect,
  fieldAround,
  type Surroundings,
  stepTo,
  type Tool,
} from './tool.ts';

/** Measures from one place to another, by dragging or by two clicks. What was measured stays until the next. */
export type MeasureState =
  | { readonly kind: 'idle'; readonly near: Snap | null; readonly measured: Segment | null }
  | { readonly kind: 'measuring'; readonly from: Snap; readonly to: Snap; readonly dragged: boolean };

const IDLE: MeasureState = { kind: 'idle', near: null, measured: null };

export const measureTool: Tool<MeasureState> = {
  name: 'measure',
  start: IDLE,
  busy: ({ kind }) => kind === 'measuring',
  marks: (state) => {
    if (state.kind === 'measuring')
      return [
        { kind: 'spot', at: state.from.at },
        ...(samePlace(state.from.at, state.to.at)
          ? ([{ kind: 'snap', snap: state.to }] as const)
          : ([{ kind: 'measure', segment: [state.from.at, state.to.at] }] as const)),
      ];
    return [
      ...(state.measured === null ? [] : [{ kind: 'measure', segment: state.measured } as const]),
      ...(state.near === null ? [] : [{ kind: 'snap', snap: state.near } as const]),
    ];
  },
  on: (state, event, around) => {
    if (around.block === null) return stepTo(IDLE);
    if (event.kind !== 'down' && event.kind !== 'move' && event.kind !== 'up')
      return event.kind === 'cancel' || state.kind === 'measuring' ? stepTo(IDLE) : stepTo(state);
    if (state.kind === 'idle') {
      const near = caught(fieldAround(around), event.pointer, around);
      if (event.kind === 'move') return stepTo({ ...state, near });
      if (event.kind === 'up') return stepTo(state);
      return stepTo<MeasureState>(
        { kind: 'measuring', from: near, to: near, dragged: false },
        announcing(
          phrase('Measuring from {snapWords}.', { snapWords: snapWords(near, around.project.unit) }),
        ),
      );
    }
    const { from } = state;
    const to = caughtFrom(from, event.pointer, around);
    const far = !samePlace(from.at, to.at);
    // The press that begins is followed by its own release: only a release after a drag, or a second press, ends.
    if (event.kind === 'move') return stepTo({ ...state, to, dragged: state.dragged || far });
    if (event.kind === 'up' && !state.dragged) return stepTo({ ...state, dragged: false });
    if (event.kind === 'up' && !far) return stepTo(state);
    if (!far) return stepTo(IDLE);
    const segment: Segment = [from.at, to.at];
    return stepTo<MeasureState>(
      { kind: 'idle', near: null, measured: segment },
      announcing(measureWords(segment, around)),
    );
  },
};

const announcing = (text: string): Effect => ({ kind: 'announce', text });

const measureWords = ([from, to]: Segment, { project: { unit } }: Surroundings): string =>
  phrase('{from}, at {angleWords}; across and down {value}.', {
    from: lengthWords(from, to, unit),
    angleWords: angleWords(from, to),
    value: placeWords([Math.abs(to[0] - from[0]), Math.abs(to[1] - from[1])], unit),
  });

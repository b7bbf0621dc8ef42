import { samePlace } from '../../editing/nearness.ts';
import type { Snap } from '../../editing/snapping.ts';
import { angleWords, lengthWords, placeWords, snapWords } from '../../editing/words.ts';
import type { Segment } from '../../geometry/point.ts';
import { caught, caughtFrom, type Effect, fieldAround, type Surroundings, stay, type Tool } from './tool.ts';

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
    if (around.block === null) return stay(IDLE);
    if (event.kind !== 'down' && event.kind !== 'move' && event.kind !== 'up')
      return event.kind === 'cancel' || state.kind === 'measuring' ? stay(IDLE) : stay(state);
    if (state.kind === 'idle') {
      const near = caught(fieldAround(around), event.pointer, around);
      if (event.kind === 'move') return stay({ ...state, near });
      if (event.kind === 'up') return stay(state);
      return stay<MeasureState>(
        { kind: 'measuring', from: near, to: near, dragged: false },
        say(`Measuring from ${snapWords(near, around.project.unit)}.`),
      );
    }
    const { from } = state;
    const to = caughtFrom(from, event.pointer, around);
    const far = !samePlace(from.at, to.at);
    // The press that begins is followed by its own release: only a release after a drag, or a second press, ends.
    if (event.kind === 'move') return stay({ ...state, to, dragged: state.dragged || far });
    if (event.kind === 'up' && !state.dragged) return stay({ ...state, dragged: false });
    if (event.kind === 'up' && !far) return stay(state);
    if (!far) return stay(IDLE);
    const segment: Segment = [from.at, to.at];
    return stay<MeasureState>(
      { kind: 'idle', near: null, measured: segment },
      say(measureWords(segment, around)),
    );
  },
};

const say = (text: string): Effect => ({ kind: 'say', text });

const measureWords = ([from, to]: Segment, { project: { unit } }: Surroundings): string =>
  `${lengthWords(from, to, unit)}, at ${angleWords(from, to)}; across and down ${placeWords([Math.abs(to[0] - from[0]), Math.abs(to[1] - from[1])], unit)}.`;

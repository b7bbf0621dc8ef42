import type { Point } from '../../geometry/point.ts';
import { stepTo, type Tool } from './tool.ts';

/** Moves the sheet under the eye. */
export type PanState = { readonly kind: 'idle' } | { readonly kind: 'panning'; readonly last: Point };

const IDLE: PanState = { kind: 'idle' };

export const panTool: Tool<PanState> = {
  name: 'pan',
  start: IDLE,
  busy: ({ kind }) => kind !== 'idle',
  marks: () => [],
  on: (state, event) => {
    switch (event.kind) {
      case 'down':
        return stepTo({ kind: 'panning', last: event.pointer.screen });
      case 'move': {
        if (state.kind === 'idle') return stepTo(state);
        const [x, y] = event.pointer.screen;
        const by: Point = [x - state.last[0], y - state.last[1]];
        return stepTo<PanState>({ kind: 'panning', last: event.pointer.screen }, { kind: 'pan', by });
      }
      case 'type':
      case 'next':
        return stepTo(state);
      default:
        return stepTo(IDLE);
    }
  },
};

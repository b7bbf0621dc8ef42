import { placeWords } from '../../editing/words.ts';
import type { Point } from '../../geometry/point.ts';
import { phrase } from '../../words/phrase.ts';
import { type In, isTouching, type SelectState } from './select-state.ts';
import type { Mark } from './tool.ts';

export function marksOf(state: SelectState): readonly Mark[] {
  switch (state.kind) {
    case 'idle':
      if (state.handle !== undefined) return [{ kind: 'handle', handle: state.handle }];
      if (state.over.kind === 'cut' || state.over.kind === 'cut-end')
        return (state.twins ?? [state.over.cut]).map((cut): Mark => ({ kind: 'cut', cut }));
      return state.over.kind === 'edge' ? [{ kind: 'edge', edge: state.over.edge }] : [];
    case 'pressed':
      return [];
    case 'moving-end':
    case 'moving-corner':
      return [
        { kind: 'run', segment: [state.held, state.to.at] },
        { kind: 'snap', snap: state.to },
      ];
    case 'moving-cuts':
    case 'moving-edge':
      return [
        { kind: 'shift', from: [state.at.at[0] - state.by[0], state.at.at[1] - state.by[1]], by: state.by },
        { kind: 'snap', snap: state.at },
      ];
    case 'turning':
      return [
        { kind: 'handle', handle: { kind: 'turn' } },
        { kind: 'told', at: state.pointer, text: turnWords(state.degrees) },
      ];
    case 'sizing':
      return [
        { kind: 'handle', handle: { kind: 'size', side: state.side } },
        { kind: 'told', at: state.sizing.at, text: sizeWords(state) },
      ];
    case 'boxing':
      return [{ kind: 'box', from: state.from, to: state.to, touching: isTouching(state) }];
  }
}

/** `30° to the left`; nothing is said of the direction of half a turn. */
function turnWords(degrees: number): string {
  const size = `${Number(Math.abs(degrees).toFixed(1))}°`;
  return degrees === 0 || Math.abs(degrees) === 180
    ? size
    : phrase('{size} to the {isDegrees, select, true {left} other {right}}', {
        size,
        isDegrees: degrees > 0,
      });
}

/** `3 by 4 1/2 in · 75 %`. */
function sizeWords({ box, sizing: { across, down }, unit }: In<'sizing'>): string {
  const size: Point = [(box.maxX - box.minX) * across, (box.maxY - box.minY) * down];
  const percent = (factor: number): string => `${Math.round(factor * 1000) / 10}`;
  const shares = across === down ? `${percent(across)} %` : `${percent(across)} × ${percent(down)} %`;
  return `${placeWords(size, unit).replace(', ', ' × ')} · ${shares}`;
}

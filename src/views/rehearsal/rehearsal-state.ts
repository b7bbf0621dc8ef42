import { createStore } from 'zustand/vanilla';
import { mediaHolds } from '../../workspace/media.ts';
import { onOtherProject } from '../../workspace/session.ts';

/** From which side the work is shown: as it will look, or as one sees it while stitching. */
export type Side = 'front' | 'printed';

/** How the rehearsal stands. Kept while the page is open, never saved or undone. */
export interface RehearsalState {
  readonly isOpen: boolean;
  /** Index of the step that lies on the stage; null while the drawing is on the board. */
  readonly step: number | null;
  /** How far the step has gone: 0 at its beginning, its number of phases when done. */
  readonly at: number;
  /** Where the step comes to rest; null while nothing moves. */
  readonly until: number | null;
  /** Goes up whenever the step is set going anew. */
  readonly run: number;
  /** On through the steps, one after another. */
  readonly isPlaying: boolean;
  readonly side: Side;
}

/** Where there is little height, it is folded until it is wanted: the drawing has the room. */
const IS_SHORT = '(max-width: 900px), (max-height: 900px) and (pointer: coarse)';

export const rehearsal = createStore<RehearsalState>(() => ({
  isOpen: !mediaHolds(IS_SHORT),
  step: null,
  at: 0,
  until: null,
  run: 0,
  isPlaying: false,
  side: 'front',
}));

onOtherProject(() => leaveStage());

const nextRun = (): number => rehearsal.getState().run + 1;

/** Lays a step on the stage and lets it run through once. */
export function showStep(step: number): void {
  rehearsal.setState({ step, at: 0, until: Number.POSITIVE_INFINITY, run: nextRun(), isPlaying: false });
}

/** Runs one phase of the step on the stage, by its index, and rests there. */
export function showPhase(index: number): void {
  rehearsal.setState({ at: index, until: index + 1, run: nextRun(), isPlaying: false });
}

/** Plays from the step on the stage (from the first when none is, or when the last is done), or stops. */
export function playOrPause(steps: number): void {
  const { isPlaying, step, at, until } = rehearsal.getState();
  if (isPlaying) {
    rehearsal.setState({ isPlaying: false, until: null });
    return;
  }
  const isAtEnd = step !== null && step >= steps - 1 && until === null;
  const isFresh = step === null || isAtEnd;
  rehearsal.setState({
    isPlaying: true,
    step: isFresh ? 0 : step,
    at: isFresh ? 0 : at,
    until: Number.POSITIVE_INFINITY,
    run: nextRun(),
  });
}

/** Back to the drawing. */
export function leaveStage(): void {
  if (rehearsal.getState().step === null) return;
  rehearsal.setState({ step: null, at: 0, until: null, isPlaying: false });
}

export function setOpen(isOpen: boolean): void {
  rehearsal.setState({ isOpen });
  if (!isOpen) leaveStage();
}

export function setSide(side: Side): void {
  rehearsal.setState({ side });
}

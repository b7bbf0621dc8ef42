import type { KeyboardEvent } from 'react';
import { foundationStarts, type RehearsalStep } from '../../piecing/rehearsal.ts';
import { phrase } from '../../words/phrase.ts';
import { type KeyPress, type PartKey, takeKey, when } from '../../workspace/command.ts';
import { leaveStage, playOrPause, rehearsal, showStep } from './rehearsal-state.ts';

/** Where the keyboard is in the rehearsal. */
interface Here {
  readonly steps: readonly RehearsalStep[];
  readonly target: HTMLElement;
}

const isNamed =
  (name: string) =>
  ({ key }: KeyPress): boolean =>
    key === name;

/** Shows the step that a key means; radio buttons walk with the same keys themselves. */
const toStep = (
  name: string,
  stepFrom: (step: number | null, last: number, steps: readonly RehearsalStep[]) => number,
) =>
  when<Here>(isNamed(name), (_, { steps, target }) => {
    if (target.matches('input')) return false;
    const last = steps.length - 1;
    return showStep(Math.max(0, Math.min(last, stepFrom(rehearsal.getState().step, last, steps))));
  });

const toStepBefore = toStep('ArrowLeft', (step) => (step ?? 0) - 1);
const toStepAfter = toStep('ArrowRight', (step) => (step === null ? 0 : step + 1));
const toFirst = toStep('Home', () => 0);
const toLast = toStep('End', (_, last) => last);
const toNextFoundation = toStep(
  'PageDown',
  (step, last, steps) => foundationStarts(steps).find((one) => one.step > (step ?? -1))?.step ?? last,
);
const toFoundationBefore = toStep(
  'PageUp',
  (step, _, steps) => foundationStarts(steps).findLast((one) => one.step < (step ?? 0))?.step ?? 0,
);

/** Keys of the rehearsal, wherever one is in it. */
export const REHEARSAL_KEYS: readonly PartKey<Here>[] = [
  {
    shown: '← →',
    does: phrase('The step before or after'),
    run: (press, here) => toStepBefore(press, here) || toStepAfter(press, here),
  },
  {
    shown: phrase('Home, End'),
    does: phrase('The first or the last step'),
    run: (press, here) => toFirst(press, here) || toLast(press, here),
  },
  {
    shown: phrase('Page Up, Page Down'),
    does: phrase('The foundation before or after'),
    run: (press, here) => toNextFoundation(press, here) || toFoundationBefore(press, here),
  },
  {
    shown: 'Space',
    does: phrase('Play the steps, or pause'),
    // Buttons are pressed with Space.
    run: when(isNamed(' '), (_, { steps, target }) =>
      target.matches('input, button') ? false : playOrPause(steps.length),
    ),
  },
  { shown: 'Esc', does: phrase('Back to the drawing'), run: when(isNamed('Escape'), leaveByKey) },
];

export function rehearsalKey(event: KeyboardEvent, steps: readonly RehearsalStep[]): void {
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  if (!takeKey(REHEARSAL_KEYS, event, { steps, target: event.target as HTMLElement })) return;
  event.preventDefault();
  event.stopPropagation();
}

/** Back to the drawing, the keyboard staying with the pictures of the steps. */
function leaveByKey(): boolean {
  if (rehearsal.getState().step === null) return false;
  leaveStage();
  document.querySelector<HTMLElement>('.step-strip')?.focus();
  return true;
}

import type { KeyboardEvent } from 'react';
import { leaveStage, playOrPause, rehearsal, showStep } from './rehearsal-state.ts';

/** The keys and what they do, as the help shows them. */
export const REHEARSAL_KEYS = [
  { keys: '← →', does: 'The step before or after' },
  { keys: 'Home, End', does: 'The first or the last step' },
  { keys: 'Space', does: 'Play the steps, or pause' },
  { keys: 'Esc', does: 'Back to the drawing' },
] as const;

/** Keys of the rehearsal, wherever one is in it: arrows, Home and End, Space to play, Esc back to the drawing. */
export function rehearsalKey(event: KeyboardEvent, steps: number): void {
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  const { step } = rehearsal.getState();
  const target = event.target as HTMLElement;
  // Radio buttons walk with the arrows themselves, and buttons are pressed with Space.
  if (target.matches('input')) {
    if (event.key === 'Escape') leaveByKey(event);
    return;
  }
  switch (event.key) {
    case 'ArrowRight':
      showStep(step === null ? 0 : Math.min(steps - 1, step + 1));
      break;
    case 'ArrowLeft':
      showStep(step === null ? 0 : Math.max(0, step - 1));
      break;
    case 'Home':
      showStep(0);
      break;
    case 'End':
      showStep(steps - 1);
      break;
    case ' ':
      if (target.matches('button')) return;
      playOrPause(steps);
      break;
    case 'Escape':
      leaveByKey(event);
      return;
    default:
      return;
  }
  event.preventDefault();
  event.stopPropagation();
}

/** Back to the drawing, the keyboard staying with the pictures of the steps. */
function leaveByKey(event: KeyboardEvent): void {
  if (rehearsal.getState().step === null) return;
  leaveStage();
  document.querySelector<HTMLElement>('.step-strip')?.focus();
  event.preventDefault();
  event.stopPropagation();
}

import type { RehearsalStep } from '../../piecing/rehearsal.ts';
import { phrase } from '../../words/phrase.ts';

/** The short acts a step of the rehearsal is made of. */
export type Phase = 'lay' | 'pin' | 'stitch' | 'flip' | 'trim' | 'free' | 'press';

export const PHASE_NAMES: Readonly<Record<Phase, string>> = {
  lay: phrase('Lay'),
  pin: phrase('Pin'),
  stitch: phrase('Stitch'),
  flip: phrase('Flip and press'),
  trim: phrase('Trim'),
  free: phrase('Free of paper'),
  press: phrase('Press'),
};

export function phasesOf(step: RehearsalStep): readonly Phase[] {
  switch (step.kind) {
    case 'place':
      return ['lay', 'trim'];
    case 'start':
      return ['lay'];
    case 'sew':
      return ['lay', 'stitch', 'flip', 'trim'];
    case 'join':
      return ['pin', 'stitch', 'free', 'press'];
  }
}

/** Where a step stands: `at` runs from 0 to its number of phases, each done when `at` reaches the next whole number. */
export function phaseAt(
  phases: readonly Phase[],
  at: number,
): { readonly phase: Phase; readonly index: number; readonly share: number } {
  const index = Math.min(phases.length - 1, Math.max(0, Math.ceil(at) - 1));
  return { phase: phases[index]!, index, share: Math.min(1, Math.max(0, at - index)) };
}

import type { Unit } from '../document/project.ts';
import { MM_PER_IN } from '../geometry/lattice.ts';

/** A grid a person may choose: its step in inches and how it is spoken. */
export interface GridStep {
  readonly key: string;
  readonly stepIn: number;
  readonly label: string;
}

const INCH_STEPS: readonly GridStep[] = [
  { key: '1/8', stepIn: 1 / 8, label: '1/8 in' },
  { key: '1/4', stepIn: 1 / 4, label: '1/4 in' },
  { key: '1/2', stepIn: 1 / 2, label: '1/2 in' },
  { key: '1', stepIn: 1, label: '1 in' },
];

const MM_STEPS: readonly GridStep[] = [2.5, 5, 10, 25].map((mm) => ({
  key: `${mm}mm`,
  stepIn: mm / MM_PER_IN,
  label: `${mm} mm`,
}));

/** Steps on offer in a unit; the default one is 1/4 in or 5 mm. */
export const gridSteps = (unit: Unit): readonly GridStep[] => (unit === 'mm' ? MM_STEPS : INCH_STEPS);

/** The step with this key, or the unit's default. */
export function gridStep(unit: Unit, key: string | null): GridStep {
  const steps = gridSteps(unit);
  return steps.find((step) => step.key === key) ?? steps[1]!;
}

/** The next finer or coarser step; itself at either end. */
export function neighbouringStep(unit: Unit, key: string, direction: 'finer' | 'coarser'): GridStep {
  const steps = gridSteps(unit);
  const index = steps.findIndex((step) => step.key === key);
  const next = index + (direction === 'finer' ? -1 : 1);
  return steps[Math.min(steps.length - 1, Math.max(0, next))]!;
}

import { useMemo } from 'react';
import { useStore } from 'zustand';
import { board, onEmptySheet } from '../../board/board-state.ts';
import { findBlock } from '../../document/find.ts';
import type { PiecingPlan } from '../../piecing/plan.ts';
import { type RehearsalStep, rehearse } from '../../piecing/rehearsal.ts';
import type { StepWords } from '../../piecing/sentences.ts';
import { session } from '../../workspace/session.ts';
import { usePlanAtHand } from '../use-plan.ts';

/** The work on the open block in steps. */
export interface Rehearsed {
  readonly plan: PiecingPlan;
  readonly steps: readonly RehearsalStep[];
  /** `#rrggbb` by fabric id. */
  readonly colors: ReadonlyMap<string, string>;
}

/**
 * What is rehearsed: the open block as it is recorded, so that the pictures stand still while something is drawn. Null
 * where there is nothing to sew: no block, a broken one, or a single patch.
 */
export function useRehearsed(): Rehearsed | null {
  const block = useStore(session, ({ project, blockId }) =>
    blockId === null ? null : findBlock(project, blockId),
  );
  const fabrics = useStore(session, ({ project }) => project.fabrics);
  const isEmptySheet = useStore(board, onEmptySheet);
  const plan = usePlanAtHand(isEmptySheet ? null : block);
  const steps = useMemo(() => (plan === null ? [] : rehearse(plan)), [plan]);
  const colors = useMemo(() => new Map(fabrics.map(({ id, color }) => [id, color])), [fabrics]);
  return plan === null || steps.length < 2 ? null : { plan, steps, colors };
}

export function useStepWords(): StepWords {
  const allowance = useStore(session, ({ project }) => project.seamAllowance);
  const unit = useStore(session, ({ project }) => project.unit);
  const fabrics = useStore(session, ({ project }) => project.fabrics);
  return useMemo(
    () => ({
      allowance,
      unit,
      fabricName: (id: string) => fabrics.find((fabric) => fabric.id === id)?.name ?? null,
    }),
    [allowance, unit, fabrics],
  );
}

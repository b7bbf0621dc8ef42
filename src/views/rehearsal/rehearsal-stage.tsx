import { useStore } from 'zustand';
import { lazyDialog } from '../lazy-dialog.tsx';
import { leaveStage, rehearsal } from './rehearsal-state.ts';
import { useRehearsed } from './rehearsed.ts';

const Stage = lazyDialog(() => import('./stage.tsx'));

/** The step of the rehearsal that is looked at, over the drawing. Nothing while the drawing is on the board. */
export function RehearsalStage() {
  const work = useRehearsed();
  const step = useStore(rehearsal, (state) => state.step);
  if (work === null || step === null) return null;
  return <Stage work={work} index={Math.min(step, work.steps.length - 1)} onClose={leaveStage} />;
}

import './rehearsal.css';
import { useEffect, useMemo } from 'react';
import { useStore } from 'zustand';
import { board, onEmptySheet } from '../../board/board-state.ts';
import { foundationStarts, type RehearsalStep } from '../../piecing/rehearsal.ts';
import { phrase } from '../../words/phrase.ts';
import { session } from '../../workspace/session.ts';
import { ActButton } from '../act-button.tsx';
import { Icon } from '../icons.tsx';
import { rehearsalKey } from './rehearsal-keys.ts';
import { leaveStage, playOrPause, rehearsal, setOpen, showStep } from './rehearsal-state.ts';
import { useRehearsed } from './rehearsed.ts';
import { StepStrip } from './step-strip.tsx';

/** The sewing rehearsal below the drawing: the steps in small pictures, and what plays them. */
export function Rehearsal() {
  const work = useRehearsed();
  const isOpen = useStore(rehearsal, (state) => state.isOpen);
  const step = useStore(rehearsal, (state) => state.step);
  const isPlaying = useStore(rehearsal, (state) => state.isPlaying);
  useEffect(followWork, []);
  const isNothing = work === null;
  useEffect(() => {
    if (isNothing) leaveStage();
  }, [isNothing]);
  const hasBlock = useStore(session, ({ blockId }) => blockId !== null);
  const isEmptySheet = useStore(board, onEmptySheet);
  if (!hasBlock || isEmptySheet) return null;
  const count = work?.steps.length ?? 0;
  const current = step === null ? null : Math.min(step, count - 1);
  return (
    <section
      className="rehearsal"
      data-open={isOpen}
      aria-labelledby="rehearsal-title"
      onKeyDown={(event) => rehearsalKey(event, work?.steps ?? [])}
    >
      <div className="rehearsal-acts">
        <h2 id="rehearsal-title">
          <button
            type="button"
            className="rehearsal-title"
            aria-expanded={isOpen}
            onClick={() => setOpen(!isOpen)}
          >
            <Icon name="chevron" size={16} />
            {phrase('Rehearsal')}
          </button>
        </h2>
        <p className="rehearsal-count">
          {work === null
            ? phrase('Nothing to sew yet')
            : current === null
              ? phrase('{count} steps', { count })
              : phrase('{current} of {count}', { current: current + 1, count })}
        </p>
        {isOpen && work !== null && (
          <div className="rehearsal-buttons">
            <ActButton
              icon="previous"
              label={phrase('Previous step')}
              isOff={current === null || current === 0}
              act={() => showStep(Math.max(0, (current ?? 0) - 1))}
            />
            <ActButton
              icon={isPlaying ? 'pause' : 'play'}
              label={isPlaying ? phrase('Pause') : phrase('Play the rehearsal')}
              act={() => playOrPause(count)}
            />
            <ActButton
              icon="next"
              label={phrase('Next step')}
              isOff={current === count - 1}
              act={() => showStep(current === null ? 0 : Math.min(count - 1, current + 1))}
            />
          </div>
        )}
        {isOpen && work !== null && <FoundationChoice steps={work.steps} current={current} />}
      </div>
      {isOpen && work !== null && <StepStrip {...work} current={current} onShow={showStep} />}
      {/* It keeps its place before there is a step, or the drawing would jump with the first cut. */}
      {isOpen && work === null && (
        <p className="rehearsal-awaited soft">
          {phrase('Every step of sewing is shown here once a line divides the block.')}
        </p>
      )}
    </section>
  );
}

/** From foundation to foundation, where there are several. */
function FoundationChoice({
  steps,
  current,
}: {
  readonly steps: readonly RehearsalStep[];
  readonly current: number | null;
}) {
  const starts = useMemo(() => foundationStarts(steps), [steps]);
  if (starts.length < 2) return null;
  const isOnPaper = current !== null && steps[current]?.kind !== 'join';
  const at = isOnPaper ? starts.findLast(({ step }) => step <= current) : undefined;
  return (
    <select
      className="rehearsal-foundation"
      aria-label={phrase('Go to a foundation')}
      value={at?.step ?? ''}
      onChange={(event) => showStep(Number(event.target.value))}
    >
      {at === undefined && <option value="">{phrase('Foundation …')}</option>}
      {starts.map(({ section, step }) => (
        <option key={step} value={step}>
          {phrase('Foundation {section}', { section })}
        </option>
      ))}
    </select>
  );
}

/** Whoever opens another block, takes up a tool or looks at a place of the drawing is back at the drawing. Returns a stop function. */
function followWork(): () => void {
  const stopSession = session.subscribe((state, before) => {
    if (state.blockId !== before.blockId || (state.draft !== null && before.draft === null)) leaveStage();
  });
  const stopBoard = board.subscribe((state, before) => {
    const isLookedAt = state.camera !== before.camera && state.view === before.view && !state.fitted;
    if (state.tool !== before.tool || isLookedAt) leaveStage();
  });
  return () => {
    stopSession();
    stopBoard();
    leaveStage();
  };
}

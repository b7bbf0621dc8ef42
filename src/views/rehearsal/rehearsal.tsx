import './rehearsal.css';
import { useEffect } from 'react';
import { useStore } from 'zustand';
import { board, onEmptySheet } from '../../board/board-state.ts';
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
      onKeyDown={(event) => rehearsalKey(event, count)}
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
      </div>
      {isOpen && work !== null && <StepStrip {...work} current={current} onShow={showStep} />}
      {/* It keeps its place before there is a step, or the drawing would jump with the first cut. */}
      {isOpen && work === null && (
        <p className="rehearsal-awaited soft">
          {phrase('Every step of sewing is shown here once a cut divides the block.')}
        </p>
      )}
    </section>
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

import { useEffect, useLayoutEffect, useMemo, useRef, useState, useSyncExternalStore } from 'react';
import { useStore } from 'zustand';
import { cautionsOf, stepSentence } from '../../piecing/sentences.ts';
import { phrase } from '../../words/phrase.ts';
import { Choice } from '../choice.tsx';
import { Icon } from '../icons.tsx';
import { PHASE_NAMES, type Phase, phaseAt, phasesOf } from './phases.ts';
import { rehearsalKey } from './rehearsal-keys.ts';
import { rehearsal, type Side, setSide, showPhase } from './rehearsal-state.ts';
import { type Rehearsed, useStepWords } from './rehearsed.ts';
import { StageLegend } from './stage-legend.tsx';
import { StagePicture } from './stage-picture.tsx';

/** How long a phase takes, and how long a finished step rests while playing. Milliseconds. */
const PHASE_MS = 950;
const REST_MS = 700;
/** How far a phase has gone where it is shown as a still, if not to its end. */
const STILL_SHARES: Partial<Record<Phase, number>> = { free: 0.5 };

/** How long a step stays when nothing moves. */
const STILL_MS = 4000;

const SIDES: readonly (readonly [Side, string])[] = [
  ['front', phrase('From the front')],
  ['printed', phrase('From the printed side')],
];

const SIDE_WORDS: Readonly<Record<Side, string>> = {
  front: phrase('Seen from the front, as the block will look.'),
  printed: phrase('Seen from the printed side, mirrored, as it lies under the needle. The cloth is beneath.'),
};

interface StageProps {
  readonly work: Rehearsed;
  /** Of the step that is shown. */
  readonly index: number;
  readonly onClose: () => void;
}

/** A step of the rehearsal, large, over the drawing. */
export default function Stage({ work, index, onClose }: StageProps) {
  const { plan, steps, colors } = work;
  const words = useStepWords();
  const cautions = useMemo(() => cautionsOf(steps), [steps]).get(index) ?? [];
  const step = steps[index]!;
  const phases = phasesOf(step);
  const side = useStore(rehearsal, (state) => state.side);
  const at = useStore(rehearsal, (state) => state.at);
  const isStill = useStillness();
  const { phase, share } = phaseAt(phases, at);
  useClock(phases.length, steps.length, isStill);

  return (
    <section
      className="stage"
      aria-label={phrase('Rehearsal, step {index} of {steps}', { index: index + 1, steps: steps.length })}
      data-phase={phase}
      onKeyDown={(event) => rehearsalKey(event, steps)}
    >
      <div className="stage-head">
        <p className="stage-sentence" role="status">
          {stepSentence(step, words)}
        </p>
        <button
          type="button"
          className="button stage-leave"
          aria-label={phrase('Back to the drawing')}
          title={phrase('Back to the drawing (Esc)')}
          onClick={onClose}
        >
          <Icon name="close" size={16} />
          <span>{phrase('Back to the drawing')}</span>
        </button>
      </div>
      <Pictures
        phases={isStill ? phases : [phase]}
        render={(shown, width, height) => (
          <StagePicture
            plan={plan}
            step={step}
            phase={shown}
            share={isStill ? (STILL_SHARES[shown] ?? 1) : share}
            side={side}
            allowance={words.allowance}
            colors={colors}
            width={width}
            height={height}
          />
        )}
      />
      <div className="stage-foot">
        {!isStill && (
          // Buttons and not radio buttons: the part that runs just now can be pressed too, to rest there.
          <fieldset className="choice">
            <legend className="only-heard">{phrase('Part of the step')}</legend>
            <div className="choice-row">
              {phases.map((one, k) => (
                <button
                  key={one}
                  type="button"
                  className="choice-option phase"
                  aria-pressed={one === phase}
                  onClick={() => showPhase(k)}
                >
                  {PHASE_NAMES[one]}
                </button>
              ))}
            </div>
          </fieldset>
        )}
        <Choice
          label={phrase('Side shown')}
          isLabelShown={false}
          options={SIDES}
          value={side}
          onChoose={setSide}
        />
        <p className="soft stage-side">{SIDE_WORDS[side]}</p>
      </div>
      <StageLegend step={step} side={side} />
      {cautions.length > 0 && (
        <ul className="stage-cautions">
          {cautions.map(({ tool, text }) => (
            <li key={tool}>{text}</li>
          ))}
        </ul>
      )}
    </section>
  );
}

interface PicturesProps {
  readonly phases: readonly Phase[];
  readonly render: (phase: Phase, width: number, height: number) => React.ReactNode;
}

/** One moving picture, or the phases side by side as stills, as large as there is room. */
function Pictures({ phases, render }: PicturesProps) {
  const frame = useRef<HTMLDivElement>(null);
  const [size, setSize] = useState({ width: 0, height: 0 });
  useLayoutEffect(() => {
    const element = frame.current!;
    const measure = (): void => setSize({ width: element.clientWidth, height: element.clientHeight });
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  const columns = phases.length === 1 ? 1 : phases.length === 2 || size.width < 1.6 * size.height ? 2 : 4;
  const rows = Math.ceil(phases.length / columns);
  const width = Math.floor(size.width / columns) - (columns > 1 ? 8 : 0);
  const height = Math.floor(size.height / rows) - (columns > 1 ? 28 : 0);
  return (
    <div ref={frame} className="stage-pictures">
      {width > 20 &&
        height > 20 &&
        phases.map((phase) => (
          <figure key={phases.length === 1 ? 'moving' : phase}>
            {render(phase, width, height)}
            {phases.length > 1 && <figcaption>{PHASE_NAMES[phase]}</figcaption>}
          </figure>
        ))}
    </div>
  );
}

const STILL = '(prefers-reduced-motion: reduce)';

/** Whether less motion is asked for, followed as it changes. */
const useStillness = (): boolean =>
  useSyncExternalStore(
    (tell) => {
      const query = matchMedia(STILL);
      query.addEventListener('change', tell);
      return () => query.removeEventListener('change', tell);
    },
    () => matchMedia(STILL).matches,
  );

/** Moves the step on the stage along, and on to the next while the rehearsal plays. */
function useClock(phases: number, steps: number, isStill: boolean): void {
  const isMoving = useStore(rehearsal, (state) => state.until !== null);
  const step = useStore(rehearsal, (state) => state.step);
  const run = useStore(rehearsal, (state) => state.run);
  // biome-ignore lint/correctness/useExhaustiveDependencies: `run` sets the clock going anew.
  useEffect(() => {
    if (!isMoving || step === null) return;
    const onward = (): void => {
      if (!rehearsal.getState().isPlaying) rehearsal.setState({ until: null });
      else if (step + 1 < steps) rehearsal.setState({ step: step + 1, at: 0 });
      else rehearsal.setState({ until: null, isPlaying: false });
    };
    let timer: ReturnType<typeof setTimeout> | undefined;
    if (isStill) {
      rehearsal.setState({ at: phases });
      timer = setTimeout(onward, rehearsal.getState().isPlaying ? STILL_MS : 0);
      return () => clearTimeout(timer);
    }
    let before: number | null = null;
    let frame = requestAnimationFrame(function tick(now) {
      const { at, until, isPlaying } = rehearsal.getState();
      const end = Math.min(phases, until ?? at);
      const next = Math.min(end, at + (before === null ? 0 : now - before) / PHASE_MS);
      before = now;
      if (next !== at) rehearsal.setState({ at: next });
      if (next < end) frame = requestAnimationFrame(tick);
      else timer = setTimeout(onward, isPlaying ? REST_MS : 0);
    });
    return () => {
      cancelAnimationFrame(frame);
      clearTimeout(timer);
    };
  }, [isMoving, step, run, phases, steps, isStill]);
}

import { useStore } from 'zustand';
import type { Work } from '../../document/work.ts';
import { timeWords } from '../../rounds/words.ts';
import { progressOf, secondsFor } from '../../rounds/work.ts';
import { phrase } from '../../words/phrase.ts';
import { sewWishes } from '../../workspace/sew-wishes.ts';
import { pauseTimer, startTimer, timer } from '../../workspace/sewing.ts';
import { Icon } from '../icons.tsx';

/** The timer that learns how fast someone sews: it runs while a person wants it to, and remembers when it rests. */
export function SewTimer({ work }: { readonly work: Work }) {
  const isRunning = useStore(timer, ({ since }) => since !== null);
  const { patches } = progressOf(work);
  const pace = useStore(sewWishes, (state) => state.pace);
  const rest = patches[1] - patches[0];
  // What was learned before serves until this work has taught enough.
  const left = secondsFor(work, rest) ?? (pace === null ? null : secondsFor({ time: pace }, rest));
  return (
    <div className="sew-timer">
      <button
        type="button"
        className="button sew-big"
        aria-pressed={isRunning}
        onClick={isRunning ? pauseTimer : startTimer}
      >
        <Icon name={isRunning ? 'pause' : 'play'} />{' '}
        {isRunning ? phrase('Pause the timer') : phrase('Start the timer')}
      </button>
      {patches[0] < patches[1] && (
        <span className="sew-soft">
          {left === null
            ? phrase('It learns how long the rest takes.')
            : phrase('The rest takes {time}.', { time: timeWords(left) })}
        </span>
      )}
    </div>
  );
}

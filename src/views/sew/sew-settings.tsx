import { useStore } from 'zustand';
import type { FollowedStage, Work } from '../../document/work.ts';
import { followStages, setPile } from '../../rounds/work.ts';
import { phrase } from '../../words/phrase.ts';
import { sewWishes } from '../../workspace/sew-wishes.ts';
import { noteSewn } from '../../workspace/sewing.ts';
import { canSpeak, hush } from './spoken.ts';

const STAGES: readonly (readonly [FollowedStage, string])[] = [
  ['cut', phrase('Pieces cut')],
  ['trimmed', phrase('Patches trimmed')],
  ['pressed', phrase('Patches pressed')],
];

/** How closely the work is followed, and how it is told. */
export function SewSettings({ work }: { readonly work: Work }) {
  const { stages = [], pile } = work;
  const isSpoken = useStore(sewWishes, (state) => state.isSpoken);
  return (
    <section className="sew-card" aria-labelledby="sew-settings-title">
      <h2 id="sew-settings-title" className="panel-title">
        {phrase('How it is worked')}
      </h2>
      <fieldset className="sew-fieldset">
        <legend>{phrase('Tick, besides the sewing')}</legend>
        {STAGES.map(([stage, label]) => (
          <label key={stage} className="sew-check">
            <input
              type="checkbox"
              checked={stages.includes(stage)}
              onChange={(event) => {
                const others = stages.filter((one) => one !== stage);
                const next = event.target.checked ? [...others, stage] : others;
                noteSewn((before) => followStages(before, next));
              }}
            />
            {label}
          </label>
        ))}
      </fieldset>
      <div className="sew-row">
        <label htmlFor="sew-pile">{phrase('Papers in a pile, at most')}</label>
        <input
          id="sew-pile"
          className="text-input sew-number-input"
          type="number"
          min={1}
          max={500}
          placeholder={phrase('All')}
          value={pile ?? ''}
          onChange={(event) => {
            const next = readCount(event.target.value);
            if (next !== undefined) noteSewn((before) => setPile(before, next));
          }}
        />
      </div>
      {canSpeak() && (
        <label className="sew-check">
          <input
            type="checkbox"
            checked={isSpoken}
            onChange={(event) => {
              sewWishes.setState({ isSpoken: event.target.checked });
              if (!event.target.checked) hush();
            }}
          />
          {phrase('Say each step aloud')}
        </label>
      )}
    </section>
  );
}

/** A count typed by hand: null where the field is empty, undefined while what is typed is none. */
export function readCount(text: string): number | null | undefined {
  if (text.trim() === '') return null;
  const number = Number(text);
  return Number.isInteger(number) && number >= 1 && number <= 100_000 ? number : undefined;
}

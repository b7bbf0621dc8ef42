import { useStore } from 'zustand';
import type { FollowedStage, Work } from '../../document/work.ts';
import { followStages, setPile } from '../../rounds/work.ts';
import { phrase } from '../../words/phrase.ts';
import { sewWishes } from '../../workspace/sew-wishes.ts';
import { noteSewn } from '../../workspace/sewing.ts';
import { CountField } from './count-field.tsx';
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
        <CountField
          label={phrase('Papers in a pile, at most')}
          value={pile ?? null}
          onCount={(most) => noteSewn((before) => setPile(before, most))}
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

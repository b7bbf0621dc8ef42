import { useId } from 'react';
import { useStore } from 'zustand';
import { phrase } from '../../words/phrase.ts';
import { hasCodes, type PaperSettings, paperSettings } from '../../workspace/paper-settings.ts';
import { session } from '../../workspace/session.ts';
import { Choice } from '../choice.tsx';

const set = (change: Partial<PaperSettings>): void => paperSettings.setState(change);

const TOGETHER: readonly (readonly [PaperSettings['together'], string])[] = [
  ['fewest', phrase('Whatever fits, on the fewest sheets')],
  ['blocks', phrase('Only papers of one block')],
  ['sections', phrase('Only copies of one section')],
];

/** How papers are laid on sheets, and what they show of the fabrics. */
export function LayingChoice({ settings }: { readonly settings: PaperSettings }) {
  const id = useId();
  const { turning, together, style, grain } = settings;
  const codes = useStore(session, ({ project }) => hasCodes(settings, project));
  return (
    <section className="paper-laying" aria-labelledby={`${id}-title`}>
      <h3 id={`${id}-title`}>{phrase('Foundations on the sheets')}</h3>
      <div className="length-field">
        <label htmlFor={`${id}-together`}>{phrase('Share a sheet')}</label>
        <select
          id={`${id}-together`}
          value={together}
          onChange={(event) => set({ together: event.target.value as PaperSettings['together'] })}
        >
          {TOGETHER.map(([value, text]) => (
            <option key={value} value={value}>
              {text}
            </option>
          ))}
        </select>
      </div>
      <Choice
        label={phrase('May be turned')}
        options={[
          ['quarters', phrase('By quarters')],
          ['free', phrase('Freely')],
        ]}
        value={turning}
        onChoose={(next) => set({ turning: next })}
      />
      <Choice
        label={phrase('Fabric on each patch')}
        options={[
          ['outline', phrase('Name')],
          ['shaded', phrase('Shaded')],
          ['hatched', phrase('Hatched')],
        ]}
        value={style}
        onChoose={(next) => set({ style: next })}
      />
      <div>
        <label className="paper-part">
          <input
            type="checkbox"
            checked={grain}
            aria-describedby={`${id}-grain`}
            onChange={(event) => set({ grain: event.target.checked })}
          />
          <span>{phrase('Straight-grain arrows')}</span>
        </label>
        <p id={`${id}-grain`} className="paper-hint">
          {phrase('On patches at the edge of the block, along that edge')}
        </p>
      </div>
      <div>
        <label className="paper-part">
          <input
            type="checkbox"
            checked={codes}
            aria-describedby={`${id}-codes`}
            onChange={(event) => set({ codes: event.target.checked })}
          />
          <span>{phrase('Square codes to scan')}</span>
        </label>
        <p id={`${id}-codes`} className="paper-hint">
          {phrase('On papers with room for one: the camera then opens the paper in the Sew place')}
        </p>
      </div>
    </section>
  );
}

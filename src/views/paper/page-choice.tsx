import { useId } from 'react';
import { DEFAULT_MARGIN_IN, PAGES, type PageName } from '../../document/pages.ts';
import type { Unit } from '../../document/project.ts';
import { formatLength } from '../../geometry/length.ts';
import { phrase } from '../../words/phrase.ts';
import { type PaperSettings, pageName, paperSettings, type Read } from '../../workspace/paper-settings.ts';
import { Choice } from '../choice.tsx';
import { TypedField } from './typed-field.tsx';

interface PageChoiceProps {
  readonly settings: PaperSettings;
  readonly unit: Unit;
  readonly page: Read<unknown>;
  readonly margin: Read<number>;
}

const set = (change: Partial<PaperSettings>): void => paperSettings.setState(change);

const SIZES: readonly (readonly [PageName, string])[] = (Object.keys(PAGES) as PageName[]).map((name) => {
  const { name: title, width, height } = PAGES[name];
  const size =
    name === 'a4' || name === 'a3'
      ? phrase('{round} × {round2} mm', {
          round: Math.round(width * 25.4),
          round2: Math.round(height * 25.4),
        })
      : `${formatLength(width, 'in').replace(' in', '')} × ${formatLength(height, 'in')}`;
  return [name, `${title}, ${size}`];
});

/** Page, margin and side. */
export function PageChoice({ settings, unit, page, margin }: PageChoiceProps) {
  const id = useId();
  const chosen = pageName(settings, unit);
  return (
    <section className="paper-page" aria-labelledby={`${id}-title`}>
      <h3 id={`${id}-title`}>{phrase('Paper')}</h3>
      <div className="length-field">
        <label htmlFor={`${id}-page`}>{phrase('Page size')}</label>
        <select
          id={`${id}-page`}
          value={chosen}
          onChange={(event) => set({ page: event.target.value as PageName | 'other' })}
        >
          {SIZES.map(([name, text]) => (
            <option key={name} value={name}>
              {text}
            </option>
          ))}
          <option value="other">{phrase('Another size …')}</option>
        </select>
      </div>
      {chosen === 'other' && (
        <TypedField
          label={phrase('Width and height')}
          text={settings.otherPage}
          fault={page.ok ? '' : page.error}
          onChange={(otherPage) => set({ otherPage })}
        />
      )}
      <TypedField
        label={phrase('Margin the printer leaves')}
        text={settings.margin ?? formatLength(DEFAULT_MARGIN_IN, unit)}
        fault={margin.ok ? '' : margin.error}
        onChange={(text) => set({ margin: text })}
      />
      <div>
        <Choice
          label={phrase('Side shown')}
          options={[
            ['printed', phrase('Printed side')],
            ['front', phrase('Front')],
          ]}
          value={settings.side}
          onChoose={(side) => set({ side })}
        />
        <p className="paper-hint">
          {settings.side === 'printed'
            ? phrase('Mirrored: you sew on the printed side, and fabric lies on the blank side.')
            : phrase('Not mirrored: for methods that sew from the other side.')}
        </p>
      </div>
      <Choice
        label={phrase('Type')}
        options={[
          ['usual', phrase('[[size of type]] Usual')],
          ['large', phrase('[[size of type]] Large')],
        ]}
        value={settings.large ? 'large' : 'usual'}
        onChoose={(type) => set({ large: type === 'large' })}
      />
      <Choice
        label={phrase('Ink')}
        options={[
          ['black', phrase('Black')],
          ['grey', phrase('Draft, in grey')],
        ]}
        value={settings.tone}
        onChoose={(tone) => set({ tone })}
      />
    </section>
  );
}

import { EASES, type Savings, usualStep } from '../../cutting/cutting-rules.ts';
import { cuttingRulesOf, slackOf } from '../../cutting/project-cutting.ts';
import { checkWidth } from '../../document/cloth.ts';
import { type CuttingChoices, MOST_EASE_IN, MOST_SHARE } from '../../document/cutting-choices.ts';
import { chooseCutting } from '../../document/edit-cloth.ts';
import type { Project } from '../../document/project.ts';
import { MM_PER_IN } from '../../geometry/lattice.ts';
import { formatLength, parseLength } from '../../geometry/length.ts';
import { phrase } from '../../words/phrase.ts';
import { edit } from '../../workspace/actions.ts';
import { Choice } from '../choice.tsx';
import { KeptField } from './kept-field.tsx';
import { bareLength } from './words.ts';

const choose = (label: string, change: Partial<CuttingChoices>): void =>
  edit(label, (project) => chooseCutting(project, change));

/** How generously all fabrics are cut, from which cuts, and what is bought besides. */
export function CuttingSettings({ project }: { readonly project: Project }) {
  const { unit } = project;
  const rules = cuttingRulesOf(project);
  const { spare, shrinkage } = slackOf(project);
  const preset = EASES.find(({ inches }) => inches === rules.ease);
  const steps =
    unit === 'mm'
      ? ([1, 5, 10] as const).map((mm) => [mm / MM_PER_IN, phrase('{mm} mm', { mm })] as const)
      : ([1 / 8, 1 / 4, 1 / 2] as const).map((inches) => [inches, formatLength(inches, unit)] as const);
  const step = steps.find(([inches]) => Math.abs(inches - rules.step) < 1e-9);
  return (
    <section className="fabric-settings" aria-labelledby="cutting-title">
      <h2 id="cutting-title" className="panel-title">
        {phrase('How it is cut')}
      </h2>
      <Choice
        label={phrase('Ease beyond the seam allowance')}
        options={EASES.map(({ key, name, inches }) => [key, `${name} ${bareLength(inches, unit)}`] as const)}
        value={preset?.key ?? null}
        onChoose={(key) =>
          choose(phrase('Change the ease'), {
            ease: EASES.find((one) => one.key === key)?.inches ?? rules.ease,
          })
        }
      />
      <KeptField
        label={phrase('Ease on every side')}
        text={formatLength(rules.ease, unit)}
        fault={(text) => {
          const parsed = parseLength(text, unit);
          if (!parsed.ok) return parsed.error;
          return parsed.inches < 0 || parsed.inches > MOST_EASE_IN
            ? phrase('From 0 to {mostEase}.', { mostEase: formatLength(MOST_EASE_IN, unit) })
            : null;
        }}
        onKeep={(text) => {
          const parsed = parseLength(text, unit);
          if (parsed.ok) choose(phrase('Change the ease'), { ease: parsed.inches });
        }}
      />
      <Choice
        label={phrase('Sizes rounded up to')}
        options={steps.map(([, words]) => [words, words] as const)}
        value={step?.[1] ?? null}
        onChoose={(words) => {
          const inches = steps.find((one) => one[1] === words)![0];
          choose(phrase('Change the rounding'), { step: inches === usualStep(unit) ? undefined : inches });
        }}
      />
      <Choice<Savings>
        label={phrase('Cuts that save cloth')}
        options={[
          ['none', phrase('None')],
          ['squares', phrase('Halved squares')],
          ['all', phrase('Slanted cuts too')],
        ]}
        value={rules.savings}
        onChoose={(savings) => choose(phrase('Change the cuts that save'), { savings })}
      />
      <KeptField
        label={phrase('Usable width of fabrics')}
        text={formatLength(rules.usableWidth, unit)}
        fault={(text) => {
          const parsed = parseLength(text, unit);
          const checked = parsed.ok ? checkWidth(parsed.inches) : parsed;
          return checked.ok ? null : checked.error;
        }}
        onKeep={(text) => {
          const parsed = parseLength(text, unit);
          if (parsed.ok) choose(phrase('Change the usable width'), { width: parsed.inches });
        }}
      />
      <div className="fabric-pair">
        <ShareField
          label={phrase('To spare, %')}
          share={spare}
          onKeep={(share) => choose(phrase('Change what is to spare'), { spare: share })}
        />
        <ShareField
          label={phrase('Shrinkage, %')}
          share={shrinkage}
          onKeep={(share) => choose(phrase('Change the shrinkage'), { shrinkage: share })}
        />
      </div>
      <label className="fabric-tick">
        <input
          type="checkbox"
          checked={project.cutting?.stockFirst === true}
          onChange={(event) =>
            choose(phrase('Change what is cut first'), {
              stockFirst: event.target.checked ? true : undefined,
            })
          }
        />
        <span>{phrase('Use up fat quarters, precuts and scraps first')}</span>
      </label>
    </section>
  );
}

interface ShareFieldProps {
  readonly label: string;
  readonly share: number;
  readonly onKeep: (share: number | undefined) => void;
}

function ShareField({ label, share, onKeep }: ShareFieldProps) {
  const read = (text: string): number => Number(text.replace(',', '.').replace('%', ''));
  return (
    <KeptField
      label={label}
      text={String(Number((100 * share).toFixed(2)))}
      fault={(text) => {
        const percent = read(text);
        return text.trim() !== '' && percent >= 0 && percent <= 100 * MOST_SHARE
          ? null
          : phrase('A number from 0 to {mostShare}.', { mostShare: 100 * MOST_SHARE });
      }}
      onKeep={(text) => onKeep(read(text) === 0 ? undefined : read(text) / 100)}
    />
  );
}

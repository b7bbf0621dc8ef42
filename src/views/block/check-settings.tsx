import './check-settings.css';
import { useState } from 'react';
import { useStore } from 'zustand';
import { setSeverity } from '../../document/edit-plan.ts';
import type { Severity } from '../../piecing/plan.ts';
import type { Rule } from '../../piecing/rules/rule.ts';
import { RULES } from '../../piecing/rules/table.ts';
import { phrase } from '../../words/phrase.ts';
import { edit } from '../../workspace/actions.ts';
import { session } from '../../workspace/session.ts';
import { Dialog } from '../dialog.tsx';
import { Icon } from '../icons.tsx';
import { GROUP_TITLES, SEVERITY_WORDS } from './findings.tsx';

const TITLE = phrase('What the check looks for');

/** Opens the list of all that the check looks for. */
export function CheckSettings() {
  const [isOpen, setOpen] = useState(false);
  return (
    <>
      <button
        type="button"
        className="icon-button"
        aria-label={TITLE}
        title={TITLE}
        onClick={() => setOpen(true)}
      >
        <Icon name="adjust" size={18} />
      </button>
      {isOpen && <SettingsDialog onClose={() => setOpen(false)} />}
    </>
  );
}

const SEVERITIES: readonly Severity[] = ['trouble', 'caution', 'note'];

/** How grave each kind of finding is taken to be in this project. */
function SettingsDialog({ onClose }: { readonly onClose: () => void }) {
  const severities = useStore(session, ({ project }) => project.severities);
  const changed = RULES.filter(({ code }) => severities?.[code] !== undefined);
  return (
    <Dialog title={TITLE} className="check-settings" onClose={onClose}>
      <p className="soft">
        {phrase(
          'How serious each finding is in this project. It is saved with the project and can be undone.',
        )}
      </p>
      <div className="rule-groups">
        {SEVERITIES.map((severity) => (
          <section key={severity} className={`rules-${severity}`} aria-labelledby={`rules-${severity}`}>
            <h3 id={`rules-${severity}`}>
              {phrase('{groupTitle} by default', { groupTitle: GROUP_TITLES[severity] })}
            </h3>
            <ul>
              {RULES.filter((rule) => rule.severity === severity).map((rule) => (
                <li key={rule.code}>
                  <RuleRow rule={rule} chosen={severities?.[rule.code] ?? null} />
                </li>
              ))}
            </ul>
          </section>
        ))}
      </div>
      <div className="buttons">
        <button
          type="button"
          className="button"
          aria-disabled={changed.length === 0}
          onClick={() =>
            edit(phrase('Reset what the check looks for'), (project) =>
              changed.reduce((reset, { code }) => setSeverity(reset, code, null), project),
            )
          }
        >
          <Icon name="undo" size={18} />
          {phrase('Reset to defaults')}
        </button>
        <p className="soft" role="status">
          {changed.length === 0
            ? phrase('All are at their defaults.')
            : phrase('{changed} changed.', { changed: changed.length })}
        </p>
      </div>
    </Dialog>
  );
}

interface RuleRowProps {
  readonly rule: Rule;
  /** Null where the project leaves it as usual. */
  readonly chosen: Severity | 'off' | null;
}

function RuleRow({ rule: { code, title, severity: usual }, chosen }: RuleRowProps) {
  const value = chosen ?? usual;
  return (
    <label className="rule-row" data-changed={chosen !== null}>
      <span>{title}</span>
      <select
        value={value}
        onChange={(event) => {
          const next = event.target.value as Severity | 'off';
          edit(phrase('Change what the check looks for'), (project) =>
            setSeverity(project, code, next === usual ? null : next),
          );
        }}
      >
        {SEVERITIES.map((severity) => (
          <option key={severity} value={severity}>
            {phrase('{severityWord}{isSeverity, select, true { (default)} other {}}', {
              severityWord: SEVERITY_WORDS[severity],
              isSeverity: severity === usual,
            })}
          </option>
        ))}
        <option value="off">{phrase('Off')}</option>
      </select>
    </label>
  );
}

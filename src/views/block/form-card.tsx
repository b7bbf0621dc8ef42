import { type FormEvent, useEffect, useId, useRef, useState } from 'react';
import { useStore } from 'zustand';
import { closeForm } from '../../board/board-acts.ts';
import { announce, board } from '../../board/board-state.ts';
import { targetNow } from '../../board/target.ts';
import type { Unit } from '../../document/project.ts';
import { type Field, type Form, readValues, type Target, type Work } from '../../editing/forms/form.ts';
import { formatLength } from '../../geometry/length.ts';
import { phrase } from '../../words/phrase.ts';
import { cancelPreview, edit, preview } from '../../workspace/actions.ts';
import { session } from '../../workspace/session.ts';
import { Icon } from '../icons.tsx';

/** A few numbers and a button. What they would do is on the drawing while they are typed. */
export function FormCard({ form }: { readonly form: Form }) {
  // A form works on what was chosen when it was opened; choosing something else begins it anew.
  const selection = useStore(session, (state) => state.selection);
  const project = useStore(session, (state) => state.project);
  const chosen = useStore(board, (state) => state.chosen);
  const target = targetNow();
  const key = `${form.name} ${selection.join()} ${JSON.stringify(chosen)}`;
  if (target === null || !form.fits(target))
    return (
      <section className="chosen-card" aria-label={form.label}>
        <FormHead form={form} />
        <p className="soft">{form.needs}</p>
      </section>
    );
  return <OpenForm key={key} form={form} target={target} project={project} />;
}

function FormHead({ form }: { readonly form: Form }) {
  return (
    <div className="chosen-head">
      <h3>{form.label.replace('…', '')}</h3>
      <button
        type="button"
        className="icon-button"
        aria-label={phrase('Close')}
        title={phrase('Close (Esc)')}
        onClick={closeForm}
      >
        <Icon name="close" size={18} />
      </button>
    </div>
  );
}

interface OpenFormProps {
  readonly form: Form;
  readonly target: Target;
  /** The recorded project: the preview is made anew when it changes. */
  readonly project: object;
}

function OpenForm({ form, target, project }: OpenFormProps) {
  const fields = form.fields(target);
  const [texts, setTexts] = useState(() => initialTexts(fields, target.unit));
  const sheet = useRef<HTMLFormElement>(null);
  const read = readValues(fields, texts, target.unit);
  const work: Work | null = read.ok ? form.work(target, read.values) : null;
  const shown = useRef<Work | null>(null);
  shown.current = work;

  useEffect(() => {
    const first = sheet.current?.querySelector<HTMLElement>('input, select');
    first?.focus();
    if (first instanceof HTMLInputElement) first.select();
  }, []);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the work follows from the texts and the project.
  useEffect(() => {
    const now = shown.current;
    if (now?.ok === true) preview(now.change);
    else cancelPreview();
    board.setState({ marks: spotsOf(now) });
    return () => board.setState({ marks: [] });
  }, [texts, project]);
  useEffect(() => cancelPreview, []);

  const submit = (event: FormEvent): void => {
    event.preventDefault();
    if (work?.ok !== true) return;
    finish(work, target);
    closeForm();
    document.querySelector<HTMLElement>('.drawing-board')?.focus();
  };

  return (
    <section className="chosen-card" aria-label={form.label}>
      <FormHead form={form} />
      <form
        ref={sheet}
        className="work-form"
        onSubmit={submit}
        onKeyDown={(event) => {
          if (event.key === 'Enter' && event.target instanceof HTMLSelectElement) {
            // As in a field of numbers: what is shown is done. The space bar unfolds the choice.
            event.preventDefault();
            event.currentTarget.requestSubmit();
          }
          if (event.key !== 'Escape') return;
          event.stopPropagation();
          closeForm();
          document.querySelector<HTMLElement>('.drawing-board')?.focus();
        }}
      >
        {fields.map((field) => (
          <FormField
            key={field.name}
            field={field}
            text={texts[field.name] ?? ''}
            error={read.ok ? null : (read.errors[field.name] ?? null)}
            onChange={(text) => setTexts((before) => ({ ...before, [field.name]: text }))}
          />
        ))}
        <p className="field-fault" role="status">
          {work !== null && !work.ok ? work.error : ''}
        </p>
        <div className="buttons">
          <button type="submit" className="button button-main" aria-disabled={work?.ok !== true}>
            {form.act}
          </button>
          <button type="button" className="button" onClick={closeForm}>
            {phrase('Cancel')}
          </button>
        </div>
      </form>
    </section>
  );
}

const spotsOf = (work: Work | null) =>
  work?.ok === true ? (work.divisions ?? []).map((at) => ({ kind: 'spot', at }) as const) : [];

/** One step of the history, or spots marked on the board. */
function finish(work: Extract<Work, { readonly ok: true }>, target: Target): void {
  if (work.divisions !== undefined) {
    board.setState(({ divisions }) => ({ divisions: [...divisions, ...work.divisions!] }));
    announce(
      phrase('{divisions} spots marked. The pointer snaps to them.', { divisions: work.divisions.length }),
    );
    return;
  }
  const before = new Set(target.block.cuts.map(({ id }) => id));
  edit(work.label, work.change);
  if (work.selectsNew === true) {
    const after = session.getState().project.blocks.find(({ id }) => id === target.block.id)?.cuts ?? [];
    const fresh = after.filter(({ id }) => !before.has(id)).map(({ id }) => id);
    if (fresh.length > 0) session.setState({ selection: fresh });
  }
  announce(phrase('{label}: done.', { label: work.label }));
}

function initialTexts(fields: readonly Field[], unit: Unit): Readonly<Record<string, string>> {
  return Object.fromEntries(fields.map((field) => [field.name, initialText(field, unit)]));
}

function initialText(field: Field, unit: Unit): string {
  switch (field.kind) {
    case 'choice':
      return field.options[0]?.[0] ?? '';
    case 'length':
    case 'shift':
      return formatLength(field.initial, unit);
    case 'count':
      return String(field.initial);
    case 'degrees':
      return `${field.initial}°`;
  }
}

interface FormFieldProps {
  readonly field: Field;
  readonly text: string;
  readonly error: string | null;
  readonly onChange: (text: string) => void;
}

function FormField({ field, text, error, onChange }: FormFieldProps) {
  const id = useId();
  return (
    <div className={field.kind === 'choice' ? 'number-field number-field-wide' : 'number-field'}>
      <label htmlFor={id}>{field.label}</label>
      {field.kind === 'choice' ? (
        <select id={id} value={text} onChange={(event) => onChange(event.target.value)}>
          {field.options.map(([value, label]) => (
            <option key={value} value={value}>
              {label}
            </option>
          ))}
        </select>
      ) : (
        <input
          id={id}
          className="text-input"
          value={text}
          inputMode={field.kind === 'count' ? 'numeric' : 'text'}
          autoComplete="off"
          spellCheck={false}
          aria-invalid={error !== null}
          aria-describedby={error === null ? undefined : `${id}-fault`}
          onChange={(event) => onChange(event.target.value)}
        />
      )}
      {error !== null && (
        <span id={`${id}-fault`} className="field-fault">
          {error}
        </span>
      )}
    </div>
  );
}

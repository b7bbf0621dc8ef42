import { useId } from 'react';
import type { Unit } from '../document/project.ts';
import { parseLength } from '../geometry/length.ts';
import { phrase } from '../words/phrase.ts';

interface LengthFieldProps {
  readonly label: string;
  readonly text: string;
  readonly unit: Unit;
  readonly onChange: (text: string) => void;
}

/** The length typed, in inches, or why it cannot be used as the size of something. */
export function readSize(
  text: string,
  unit: Unit,
): { readonly ok: true; readonly inches: number } | { readonly ok: false; readonly error: string } {
  const parsed = parseLength(text, unit);
  if (!parsed.ok) return parsed;
  return parsed.inches > 0 ? parsed : { ok: false, error: phrase('A size must be greater than 0.') };
}

/** A length typed as people write it; what is wrong with it is said below it. */
export function LengthField({ label, text, unit, onChange }: LengthFieldProps) {
  const id = useId();
  const read = readSize(text, unit);
  return (
    <div className="length-field">
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        className="text-input"
        value={text}
        inputMode="text"
        autoComplete="off"
        spellCheck={false}
        aria-invalid={!read.ok}
        aria-describedby={`${id}-fault`}
        onChange={(event) => onChange(event.target.value)}
      />
      <span id={`${id}-fault`} className="field-fault">
        {read.ok ? '' : read.error}
      </span>
    </div>
  );
}

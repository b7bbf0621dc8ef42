import { useId } from 'react';

interface TypedFieldProps {
  readonly label: string;
  readonly text: string;
  /** What is wrong with the text, said below it; empty while all is well. */
  readonly fault?: string;
  /** Id of a sentence elsewhere that says what is wrong, where several fields share one. */
  readonly toldBy?: string;
  /** Whether a tablet shows the keys for numbers. */
  readonly isNumber?: boolean;
  readonly onChange: (text: string) => void;
}

/** A line to type into, under its label. */
export function TypedField({ label, text, fault = '', toldBy, isNumber = false, onChange }: TypedFieldProps) {
  const id = useId();
  return (
    <div className="length-field">
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        className="text-input"
        value={text}
        inputMode={isNumber ? 'decimal' : 'text'}
        autoComplete="off"
        spellCheck={false}
        aria-invalid={fault !== ''}
        aria-describedby={fault === '' ? toldBy : `${id}-fault`}
        onChange={(event) => onChange(event.target.value)}
      />
      {fault !== '' && (
        <span id={`${id}-fault`} className="field-fault">
          {fault}
        </span>
      )}
    </div>
  );
}

import { useEffect, useId, useState } from 'react';

interface KeptFieldProps {
  readonly label: string;
  readonly text: string;
  readonly hint?: string;
  readonly isLong?: boolean;
  /** Why what is typed cannot be used; null when it can. */
  readonly fault?: (text: string) => string | null;
  readonly onKeep: (text: string) => void;
}

/** A text that is kept when its field is left or Enter is pressed; what is wrong with it is said below it. */
export function KeptField({ label, text, hint, isLong = false, fault, onKeep }: KeptFieldProps) {
  const id = useId();
  const [typed, setTyped] = useState(text);
  useEffect(() => setTyped(text), [text]);
  const wrong = fault?.(typed) ?? null;
  const keep = (): void => {
    if (wrong === null && typed.trim() !== text) onKeep(typed.trim());
  };
  const shared = {
    id,
    className: 'text-input',
    value: typed,
    autoComplete: 'off',
    placeholder: hint,
    'aria-invalid': wrong !== null,
    'aria-describedby': `${id}-fault`,
    onBlur: keep,
  };
  return (
    <div className="length-field kept-field">
      <label htmlFor={id}>{label}</label>
      {isLong ? (
        <textarea {...shared} rows={2} onChange={(event) => setTyped(event.target.value)} />
      ) : (
        <input
          {...shared}
          onChange={(event) => setTyped(event.target.value)}
          onKeyDown={(event) => {
            if (event.key === 'Enter') keep();
          }}
        />
      )}
      <span id={`${id}-fault`} className="field-fault">
        {wrong ?? ''}
      </span>
    </div>
  );
}

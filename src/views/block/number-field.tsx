import { useEffect, useId, useRef, useState } from 'react';

interface NumberFieldProps {
  readonly label: string;
  /** As it stands, unit included. */
  readonly text: string;
  /** Takes what was typed; a sentence when it cannot be used. */
  readonly onSet: (text: string) => string | null;
}

/** What stands in a field for several things of which it is not the same. */
export const DIFFER = 'differ';

/** A number edited where it stands: Enter or leaving sets it, Esc brings the old one back. */
export function NumberField({ label, text, onSet }: NumberFieldProps) {
  const id = useId();
  const [typed, setTyped] = useState(text);
  const [error, setError] = useState<string | null>(null);
  const isCalledOff = useRef(false);
  useEffect(() => {
    setTyped(text);
    setError(null);
  }, [text]);
  const set = (): void => {
    if (isCalledOff.current || typed === text) {
      isCalledOff.current = false;
      setTyped(text);
      setError(null);
      return;
    }
    const fault = onSet(typed);
    setError(fault);
    // What was set is shown as the project writes it.
    if (fault === null) setTyped(text);
  };
  return (
    <div className="number-field">
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        className={typed === DIFFER ? 'text-input soft' : 'text-input'}
        value={typed}
        autoComplete="off"
        spellCheck={false}
        aria-invalid={error !== null}
        aria-describedby={error === null ? undefined : `${id}-fault`}
        onFocus={(event) => event.currentTarget.select()}
        onChange={(event) => setTyped(event.target.value)}
        onKeyDown={(event) => {
          if (event.key === 'Enter') set();
          if (event.key !== 'Escape') return;
          isCalledOff.current = true;
          event.stopPropagation();
          event.currentTarget.blur();
        }}
        onBlur={set}
      />
      {error !== null && (
        <span id={`${id}-fault`} className="field-fault" role="alert">
          {error}
        </span>
      )}
    </div>
  );
}

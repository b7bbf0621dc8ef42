import { useEffect, useRef, useState } from 'react';
import { checkName } from '../document/limits.ts';

interface NameFieldProps {
  readonly label: string;
  readonly name: string;
  readonly className?: string;
  /** Put the keyboard into the field, its text chosen, as soon as it is shown. */
  readonly takesFocus?: boolean;
  readonly onRename: (name: string) => void;
  /** When the field is left, renamed or not. */
  readonly onLeave?: () => void;
}

/** A name that is edited where it stands: Enter or leaving keeps it, Esc brings the old one back. */
export function NameField({ label, name, className, takesFocus = false, onRename, onLeave }: NameFieldProps) {
  const [text, setText] = useState(name);
  const field = useRef<HTMLInputElement>(null);
  const isCalledOff = useRef(false);
  useEffect(() => setText(name), [name]);
  useEffect(() => {
    if (!takesFocus) return;
    field.current?.focus();
    field.current?.select();
  }, [takesFocus]);
  const checked = checkName(text);
  return (
    <span className={`name-field ${className ?? ''}`}>
      {/* The same text, unseen, gives the field its width. */}
      <span className="name-measure" aria-hidden="true">
        {text === '' ? ' ' : text}
      </span>
      <input
        ref={field}
        aria-label={label}
        aria-invalid={!checked.ok}
        title={checked.ok ? undefined : checked.error}
        value={text}
        size={1}
        spellCheck={false}
        onChange={(event) => setText(event.target.value)}
        onKeyDown={(event) => {
          if (event.key === 'Enter') event.currentTarget.blur();
          if (event.key !== 'Escape') return;
          isCalledOff.current = true;
          event.stopPropagation();
          event.currentTarget.blur();
        }}
        onBlur={() => {
          if (!isCalledOff.current && checked.ok && checked.value !== name) onRename(checked.value);
          else setText(name);
          isCalledOff.current = false;
          onLeave?.();
        }}
      />
    </span>
  );
}

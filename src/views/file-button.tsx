import { useRef } from 'react';

interface FileButtonProps {
  readonly label: string;
  /** What may be chosen, as an input takes it: `.json,application/json`. */
  readonly accept: string;
  readonly onFile: (file: File) => void;
  /** Has the keyboard first in its dialog. */
  readonly takesFocus?: boolean;
}

/** A button that lets a file be chosen; the same one can be chosen again. */
export function FileButton({ label, accept, onFile, takesFocus }: FileButtonProps) {
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <button
        type="button"
        className="button"
        {...(takesFocus && { 'data-first-focus': true })}
        onClick={() => input.current?.click()}
      >
        {label}
      </button>
      <input
        ref={input}
        type="file"
        hidden
        accept={accept}
        onChange={(event) => {
          const file = event.target.files?.[0];
          event.target.value = '';
          if (file !== undefined) onFile(file);
        }}
      />
    </>
  );
}

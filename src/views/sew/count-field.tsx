import { useId } from 'react';
import { phrase } from '../../words/phrase.ts';

const MOST = 100_000;

interface CountFieldProps {
  readonly label: string;
  /** Null for all. */
  readonly value: number | null;
  readonly onCount: (count: number | null) => void;
}

/** How many at most, typed by hand; empty means all, and what is no count changes nothing. */
export function CountField({ label, value, onCount }: CountFieldProps) {
  const id = useId();
  return (
    <>
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        className="text-input sew-number-input"
        type="number"
        min={1}
        max={MOST}
        placeholder={phrase('All')}
        value={value ?? ''}
        onChange={({ target }) => {
          if (target.value.trim() === '') onCount(null);
          const count = Number(target.value);
          if (Number.isInteger(count) && count >= 1 && count <= MOST) onCount(count);
        }}
      />
    </>
  );
}

import type { Unit } from '../../document/project.ts';
import { clothLength } from '../../quilt/words.ts';
import { phrase } from '../../words/phrase.ts';
import { NumberField } from '../block/number-field.tsx';
import { readSize } from '../length-field.tsx';

interface SizeFieldProps {
  readonly label: string;
  readonly inches: number;
  readonly unit: Unit;
  readonly onSet: (inches: number) => void;
}

/** A length of the quilt, set with Enter or by leaving the field. */
export function SizeField({ label, inches, unit, onSet }: SizeFieldProps) {
  return (
    <NumberField
      label={label}
      text={clothLength(inches, unit)}
      onSet={(typed) => {
        const read = readSize(typed, unit);
        if (!read.ok) return read.error;
        onSet(read.inches);
        return null;
      }}
    />
  );
}

interface CountFieldProps {
  readonly label: string;
  readonly count: number;
  readonly most?: number;
  readonly onSet: (count: number) => void;
}

/** A whole number from 1. */
export function CountField({ label, count, most = 200, onSet }: CountFieldProps) {
  return (
    <NumberField
      label={label}
      text={String(count)}
      onSet={(typed) => {
        const number = Number(typed.trim());
        if (!Number.isInteger(number) || number < 1 || number > most)
          return phrase('Type a whole number from 1 to {most}.', { most });
        onSet(number);
        return null;
      }}
    />
  );
}

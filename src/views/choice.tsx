import { useId } from 'react';

interface ChoiceProps<Value extends string> {
  readonly label: string;
  /** Shown as a caption; otherwise it is only heard. */
  readonly isLabelShown?: boolean;
  readonly options: readonly (readonly [Value, string])[];
  /** Null when the things it is about differ. */
  readonly value: Value | null;
  readonly onChoose: (value: Value) => void;
}

/** One of a few, side by side: radio buttons drawn as a row. */
export function Choice<Value extends string>({
  label,
  isLabelShown = true,
  options,
  value,
  onChoose,
}: ChoiceProps<Value>) {
  const name = useId();
  return (
    <fieldset className="choice">
      <legend className={isLabelShown ? undefined : 'only-heard'}>{label}</legend>
      <div className="choice-row">
        {options.map(([option, text]) => (
          <label key={option} className="choice-option">
            <input type="radio" name={name} checked={option === value} onChange={() => onChoose(option)} />
            <span>{text}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}

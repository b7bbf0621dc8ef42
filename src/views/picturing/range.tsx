interface RangeProps {
  readonly label: string;
  /** What the other end is called. */
  readonly end?: string;
  readonly low: number;
  readonly high: number;
  readonly step: number;
  readonly value: number;
  readonly onValue: (value: number) => void;
  readonly shown?: string;
}

/** A slider under its name, with what it stands at, or what its other end is called. */
export function Range({ label, end, low, high, step, value, onValue, shown }: RangeProps) {
  return (
    <label className="picturing-range">
      <span>
        {label}
        <span>{shown ?? end}</span>
      </span>
      <input
        type="range"
        aria-label={end === undefined ? label : `${label} – ${end}`}
        min={low}
        max={high}
        step={step}
        value={value}
        onChange={(event) => onValue(Number(event.target.value))}
      />
    </label>
  );
}

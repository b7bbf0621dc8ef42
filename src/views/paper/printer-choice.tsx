import { useId } from 'react';
import { useStore } from 'zustand';
import { correctionWords } from '../../foundations/correction.ts';
import {
  addPrinter,
  changePrinter,
  choosePrinter,
  chosenCorrection,
  forgetPrinter,
  printers,
} from '../../workspace/printers.ts';

const ANOTHER = 'another';

/** A printer that is a little off: what its test lines measured, kept under its name in this browser. */
export function PrinterChoice() {
  const id = useId();
  const state = useStore(printers);
  const printer = state.known.find(({ name }) => name === state.chosen);
  const choice = chosenCorrection(state);
  return (
    <section className="paper-printer" aria-labelledby={`${id}-title`}>
      <h3 id={`${id}-title`}>Printer</h3>
      <div className="length-field">
        <label htmlFor={`${id}-printer`}>Correct the drawing for</label>
        <select
          id={`${id}-printer`}
          value={printer ? String(state.known.indexOf(printer)) : ''}
          onChange={({ target: { value } }) => {
            if (value === ANOTHER) addPrinter();
            else choosePrinter(state.known[Number.parseInt(value, 10)]?.name ?? null);
          }}
        >
          <option value="">No printer: true as it is</option>
          {state.known.map(({ name }, i) => (
            <option key={name} value={i}>
              {name || 'Unnamed printer'}
            </option>
          ))}
          <option value={ANOTHER}>Another printer …</option>
        </select>
      </div>
      {printer && (
        <>
          <div className="length-field">
            <label htmlFor={`${id}-name`}>Name</label>
            <input
              id={`${id}-name`}
              className="text-input"
              value={printer.name}
              autoComplete="off"
              onChange={(event) => changePrinter({ name: event.target.value })}
            />
          </div>
          <div className="paper-measures">
            <Measure
              label="50 mm line across"
              text={printer.across}
              fault={`${id}-fault`}
              onChange={(across) => changePrinter({ across })}
            />
            <Measure
              label="50 mm line down"
              text={printer.down}
              fault={`${id}-fault`}
              onChange={(down) => changePrinter({ down })}
            />
          </div>
          <p id={`${id}-fault`} className={choice?.ok === false ? 'field-fault' : 'paper-hint'} role="status">
            {choice?.ok === false
              ? `${choice.error} Nothing is corrected.`
              : `Measure both lines on a sheet that was printed uncorrected. Drawing ${choice ? correctionWords(choice.correction, '') : ''}.`}
          </p>
          <button type="button" className="paper-link" onClick={forgetPrinter}>
            Forget this printer
          </button>
        </>
      )}
    </section>
  );
}

interface MeasureProps {
  readonly label: string;
  readonly text: string;
  /** Id of the sentence that says what is wrong. */
  readonly fault: string;
  readonly onChange: (text: string) => void;
}

function Measure({ label, text, fault, onChange }: MeasureProps) {
  const id = useId();
  return (
    <div className="length-field">
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        className="text-input"
        value={text}
        inputMode="decimal"
        autoComplete="off"
        aria-describedby={fault}
        onChange={(event) => onChange(event.target.value)}
      />
    </div>
  );
}

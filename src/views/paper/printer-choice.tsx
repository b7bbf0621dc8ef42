import { useId } from 'react';
import { useStore } from 'zustand';
import { correctionWords } from '../../foundations/sheet/correction.ts';
import { phrase } from '../../words/phrase.ts';
import {
  addPrinter,
  changePrinter,
  choosePrinter,
  chosenCorrection,
  forgetPrinter,
  printers,
} from '../../workspace/printers.ts';
import { TypedField } from './typed-field.tsx';

const ANOTHER = 'another';

/** A printer that is a little off: what its test lines measured, kept under its name in this browser. */
export function PrinterChoice() {
  const id = useId();
  const state = useStore(printers);
  const printer = state.known.find(({ name }) => name === state.chosen);
  const choice = chosenCorrection(state);
  return (
    <section className="paper-printer" aria-labelledby={`${id}-title`}>
      <h3 id={`${id}-title`}>{phrase('Printer')}</h3>
      <div className="length-field">
        <label htmlFor={`${id}-printer`}>{phrase('Correct the drawing for')}</label>
        <select
          id={`${id}-printer`}
          value={printer ? String(state.known.indexOf(printer)) : ''}
          onChange={({ target: { value } }) => {
            if (value === ANOTHER) addPrinter();
            else choosePrinter(state.known[Number.parseInt(value, 10)]?.name ?? null);
          }}
        >
          <option value="">{phrase('No correction')}</option>
          {state.known.map(({ name }, i) => (
            <option key={name} value={i}>
              {name || phrase('Unnamed printer')}
            </option>
          ))}
          <option value={ANOTHER}>{phrase('Another printer …')}</option>
        </select>
      </div>
      {printer && (
        <>
          <TypedField
            label={phrase('Name')}
            text={printer.name}
            onChange={(name) => changePrinter({ name })}
          />
          <div className="paper-measures">
            <TypedField
              label={phrase('50 mm line across')}
              text={printer.across}
              toldBy={`${id}-fault`}
              isNumber
              onChange={(across) => changePrinter({ across })}
            />
            <TypedField
              label={phrase('50 mm line down')}
              text={printer.down}
              toldBy={`${id}-fault`}
              isNumber
              onChange={(down) => changePrinter({ down })}
            />
          </div>
          <p id={`${id}-fault`} className={choice?.ok === false ? 'field-fault' : 'paper-hint'} role="status">
            {choice?.ok === false
              ? phrase('{error} Nothing is corrected.', { error: choice.error })
              : phrase(
                  'Measure both lines on a sheet that was printed uncorrected. Drawing {correctionWords}.',
                  { correctionWords: choice ? correctionWords(choice.correction, '') : '' },
                )}
          </p>
          <button type="button" className="paper-link" onClick={forgetPrinter}>
            {phrase('Forget this printer')}
          </button>
        </>
      )}
    </section>
  );
}

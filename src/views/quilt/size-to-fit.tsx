import { useState } from 'react';
import { useStore } from 'zustand';
import type { Border, Setting } from '../../document/quilt.ts';
import type { Point } from '../../geometry/point.ts';
import { BEDS, coverFor, PILLOW_TUCK_IN, USUAL_DROP_IN } from '../../quilt/finishing/beds.ts';
import { fitTo } from '../../quilt/settings/size-to-fit.ts';
import { clothLength, sizeWords } from '../../quilt/words.ts';
import { phrase } from '../../words/phrase.ts';
import { session } from '../../workspace/session.ts';
import { LengthField, readSize } from '../length-field.tsx';
import { setQuilt } from './quilt-acts.ts';

interface SizeToFitProps {
  readonly setting: Setting;
  readonly borders: readonly Border[];
}

/** A size typed, or that of a bed: as many blocks as it holds, and a border as wide as what is left. */
export function SizeToFit({ setting, borders }: SizeToFitProps) {
  const unit = useStore(session, (state) => state.project.unit);
  const [bed, setBed] = useState(phrase('Queen'));
  const [drop, setDrop] = useState(clothLength(USUAL_DROP_IN, unit));
  const [typed, setTyped] = useState<readonly [string, string]>(['', '']);
  const mattress = BEDS.find(({ name }) => name === bed);
  const readDrop = readSize(drop, unit);
  const readTyped = typed.map((text) => readSize(text, unit));
  const wanted: Point | null = mattress
    ? readDrop.ok
      ? coverFor(mattress.size, readDrop.inches, PILLOW_TUCK_IN)
      : null
    : readTyped[0]!.ok && readTyped[1]!.ok
      ? [readTyped[0]!.inches, readTyped[1]!.inches]
      : null;
  const fit = wanted && fitTo(setting, borders, wanted);
  return (
    <div className="quilt-fit">
      <div className="quilt-field">
        <label htmlFor="fit-bed">{phrase('For')}</label>
        <select id="fit-bed" value={bed} onChange={(event) => setBed(event.target.value)}>
          {BEDS.map(({ name, size }) => (
            <option key={name} value={name}>
              {name}, {sizeWords(size, unit)}
            </option>
          ))}
          <option value="">{phrase('A size of my own')}</option>
        </select>
      </div>
      {mattress ? (
        <LengthField
          label={phrase('Drop at the sides and the foot')}
          text={drop}
          unit={unit}
          onChange={setDrop}
        />
      ) : (
        <div className="quilt-row">
          <LengthField
            label={phrase('Width')}
            text={typed[0]}
            unit={unit}
            onChange={(w) => setTyped([w, typed[1]])}
          />
          <LengthField
            label={phrase('Length')}
            text={typed[1]}
            unit={unit}
            onChange={(h) => setTyped([typed[0], h])}
          />
        </div>
      )}
      <p>
        {wanted === null
          ? ''
          : fit === null
            ? phrase('Not one block of this setting fits {sizeWords}.', {
                sizeWords: sizeWords(wanted, unit),
              })
            : phrase('Wanted: {sizeWords}. {columns} × {rows} and a border of {width} make {sizeWords2}.', {
                sizeWords: sizeWords(wanted, unit),
                columns: fit.setting.columns,
                rows: fit.setting.rows,
                width: clothLength(fit.borders.at(-1)!.width, unit),
                sizeWords2: sizeWords(fit.size, unit),
              })}
      </p>
      <button
        type="button"
        className="button"
        aria-disabled={!fit}
        onClick={() => fit && setQuilt(phrase('Size to fit'), fit.setting, fit.borders)}
      >
        {phrase('Apply')}
      </button>
    </div>
  );
}

import { useId } from 'react';
import { useStore } from 'zustand';
import { phrase } from '../../words/phrase.ts';
import { session } from '../../workspace/session.ts';
import { swatchStyle } from '../fabric-fills.tsx';

interface FabricSelectProps {
  readonly label: string;
  readonly value: string | undefined;
  readonly onChoose: (fabric: string | undefined) => void;
}

/** One of the project's fabrics, or none. */
export function FabricSelect({ label, value, onChoose }: FabricSelectProps) {
  const id = useId();
  const fabrics = useStore(session, (state) => state.project.fabrics);
  const chosen = fabrics.find((fabric) => fabric.id === value);
  return (
    <div className="quilt-field">
      <label htmlFor={id}>{label}</label>
      <span className="fabric-select">
        <span className="fabric-chip" style={chosen ? swatchStyle(chosen) : undefined} aria-hidden="true" />
        <select
          id={id}
          value={chosen?.id ?? ''}
          onChange={(event) => onChoose(event.target.value === '' ? undefined : event.target.value)}
        >
          <option value="">{phrase('None yet')}</option>
          {fabrics.map((fabric) => (
            <option key={fabric.id} value={fabric.id}>
              {fabric.name}
            </option>
          ))}
        </select>
      </span>
    </div>
  );
}

import { useState } from 'react';
import { nearestFabrics } from '../../document/colour-difference.ts';
import { mergeFabric, moveFabric } from '../../document/edit-cloth.ts';
import { replaceFabric } from '../../document/edit-fabrics.ts';
import type { Fabric, Project } from '../../document/project.ts';
import { numeral } from '../../words/numeral.ts';
import { phrase } from '../../words/phrase.ts';
import { edit } from '../../workspace/actions.ts';
import { ActButton } from '../act-button.tsx';
import { swatchStyle } from '../fabric-fills.tsx';
import { fabricView } from './fabric-state.ts';

interface NearestFabricsProps {
  readonly project: Project;
  readonly fabric: Fabric;
}

/** Which fabrics look most like this one, to lay instead of it or to take it in. */
export function NearestFabrics({ project, fabric }: NearestFabricsProps) {
  const [chosen, setChosen] = useState('');
  const near = nearestFabrics(fabric, project.fabrics, 3);
  const at = project.fabrics.indexOf(fabric);
  const others = project.fabrics.filter(({ id }) => id !== fabric.id);
  const other = others.find(({ id }) => id === chosen) ?? near[0]?.fabric;
  return (
    <section className="nearest" aria-labelledby="nearest-title">
      <h2 id="nearest-title" className="panel-title">
        {phrase('Nearest fabrics')}
      </h2>
      {near.length === 0 && <p className="soft">{phrase('There is no other fabric yet.')}</p>}
      <ul>
        {near.map(({ fabric: one, difference }) => (
          <li key={one.id} className="nearest-row">
            <span className="cloth-swatch" style={swatchStyle(one)} />
            <span>{one.name}</span>
            <span className="soft">
              {phrase(
                '{difference} {isLike, select, true {hardly told apart} other {{isClose, select, true {close} other {apart}}}}',
                {
                  difference: numeral(difference, { minimumFractionDigits: 1, maximumFractionDigits: 1 }),
                  isLike: difference < 3,
                  isClose: difference < 10,
                },
              )}
            </span>
          </li>
        ))}
      </ul>
      {other && (
        <div className="nearest-acts">
          <select
            aria-label={phrase('The other fabric')}
            value={other.id}
            onChange={(event) => setChosen(event.target.value)}
          >
            {others.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
          <button
            type="button"
            className="button"
            onClick={() =>
              edit(phrase('Replace a fabric'), (before) => replaceFabric(before, fabric.id, other.id))
            }
          >
            {phrase('Lay it instead')}
          </button>
          <button
            type="button"
            className="button"
            onClick={() => {
              edit(phrase('Merge two fabrics'), (before) => mergeFabric(before, fabric.id, other.id));
              fabricView.setState({ fabric: other.id });
            }}
          >
            {phrase('Merge into it')}
          </button>
        </div>
      )}
      <div className="nearest-move">
        <span className="soft">{phrase('In the list')}</span>
        <ActButton
          icon="up"
          label={phrase('Move up')}
          isOff={at === 0}
          act={() => edit(phrase('Move a fabric'), (before) => moveFabric(before, fabric.id, at - 1))}
        />
        <ActButton
          icon="down"
          label={phrase('Move down')}
          isOff={at === project.fabrics.length - 1}
          act={() => edit(phrase('Move a fabric'), (before) => moveFabric(before, fabric.id, at + 1))}
        />
      </div>
    </section>
  );
}

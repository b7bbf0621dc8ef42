import { useStore } from 'zustand';
import { sizeAsLaid } from '../../document/place-polygon.ts';
import type { Border, BorderCorners, Quilt } from '../../document/quilt.ts';
import { phrase } from '../../words/phrase.ts';
import { session } from '../../workspace/session.ts';
import { ActButton } from '../act-button.tsx';
import { Choice } from '../choice.tsx';
import { Icon } from '../icons.tsx';
import { FabricSelect } from './fabric-select.tsx';
import { byLightness, setBordersFree, setQuilt } from './quilt-acts.ts';
import { SizeField } from './set-field.tsx';

const CORNERS: readonly (readonly [BorderCorners, string])[] = [
  ['butted', phrase('Butted')],
  ['mitred', phrase('Mitred')],
  ['squares', phrase('Squares')],
];

/** The borders, from the inside out. */
export function BorderRows({ quilt }: { readonly quilt: Quilt }) {
  const unit = useStore(session, (state) => state.project.unit);
  const blocks = useStore(session, (state) => state.project.blocks);
  const fabrics = useStore(session, (state) => state.project.fabrics);
  const { borders = [], setting } = quilt;
  const change = (label: string, next: readonly Border[]): void => {
    if (setting) setQuilt(label, setting, next);
    else setBordersFree(next);
  };
  // A narrow dark one frames the blocks, a wide one of middling cloth comes round it.
  const add = (): void => {
    const inTurn = byLightness(fabrics);
    const fabric = inTurn[borders.length % 2 === 0 ? 0 : Math.floor(inTurn.length / 2)];
    change(phrase('Add a border'), [
      ...borders,
      { width: borders.length === 0 ? 2 : 4, corners: 'butted', ...(fabric && { fabric: fabric.id }) },
    ]);
  };
  const put = (k: number, border: Border): void =>
    change(
      phrase('Change a border'),
      borders.map((old, i) => (i === k ? border : old)),
    );
  return (
    <section className="quilt-card" aria-labelledby="borders-title">
      <div className="quilt-head">
        <h2 id="borders-title" className="quilt-title">
          {phrase('Borders')}
        </h2>
        <button
          type="button"
          className="icon-button"
          aria-label={phrase('Add a border')}
          title={phrase('Add a border')}
          onClick={add}
        >
          <Icon name="plus" />
        </button>
      </div>
      {borders.length === 0 && (
        <p className="soft">{phrase('None yet. Borders go round from the inside out.')}</p>
      )}
      <ol className="quilt-borders">
        {borders.map((border, k) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a border is known by its place in the row.
          <li key={k}>
            <div className="quilt-head">
              <h3>{phrase('Border {k}', { k: k + 1 })}</h3>
              <ActButton
                icon="delete"
                label={phrase('Take border {k} away', { k: k + 1 })}
                act={() =>
                  change(
                    phrase('Take a border away'),
                    borders.filter((_, i) => i !== k),
                  )
                }
              />
            </div>
            <div className="quilt-row">
              <SizeField
                label={phrase('Width')}
                inches={border.width}
                unit={unit}
                onSet={(width) => put(k, { ...border, width })}
              />
              <FabricSelect
                label={phrase('Fabric')}
                value={border.fabric}
                onChoose={(fabric) => {
                  const { fabric: _old, ...bare } = border;
                  put(k, fabric === undefined ? bare : { ...bare, fabric });
                }}
              />
            </div>
            <div className="quilt-field">
              <label htmlFor={`border-${k}-of`}>{phrase('Made of')}</label>
              <select
                id={`border-${k}-of`}
                value={border.block ?? ''}
                onChange={(event) => {
                  const { block: _old, ...bare } = border;
                  const block = blocks.find(({ id }) => id === event.target.value);
                  put(k, block ? { ...bare, block: block.id, width: sizeAsLaid(block.outline, 0)[1] } : bare);
                }}
              >
                <option value="">{phrase('Plain cloth')}</option>
                {blocks.map(({ id, name }) => (
                  <option key={id} value={id}>
                    {phrase('{name}, side by side', { name })}
                  </option>
                ))}
              </select>
            </div>
            {border.block === undefined && (
              <Choice
                label={phrase('Corners of border {k}', { k: k + 1 })}
                isLabelShown={false}
                options={CORNERS}
                value={border.corners}
                onChoose={(corners) => put(k, { ...border, corners })}
              />
            )}
            {border.block === undefined && border.corners === 'squares' && (
              <FabricSelect
                label={phrase('Fabric of the squares')}
                value={border.cornerFabric}
                onChoose={(fabric) => {
                  const { cornerFabric: _old, ...bare } = border;
                  put(k, fabric === undefined ? bare : { ...bare, cornerFabric: fabric });
                }}
              />
            )}
          </li>
        ))}
      </ol>
    </section>
  );
}

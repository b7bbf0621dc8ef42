import { useState } from 'react';
import { useStore } from 'zustand';
import { board } from '../../board/board-state.ts';
import { takeFabric } from '../../board/working.ts';
import { addFabric, removeFabric, updateFabric } from '../../document/edit-fabrics.ts';
import { nextFabricId } from '../../document/ids.ts';
import type { Fabric } from '../../document/project.ts';
import { edit, endMerge, say } from '../../workspace/actions.ts';
import { session } from '../../workspace/session.ts';
import { Icon } from '../icons.tsx';
import { NameField } from '../name-field.tsx';

/** Colours new fabrics begin with, in turn: indigo, madder, weld, woad, walnut, and paler ones. */
const DYES = [
  '#2c4a85',
  '#a6322b',
  '#e0b13c',
  '#7fa9c4',
  '#6d5a4b',
  '#33704a',
  '#e9dcc3',
  '#d98b5f',
] as const;

/** The fabrics of the project: one in hand to lay on patches, its name and colour below. */
export function FabricShelf() {
  const fabrics = useStore(session, (state) => state.project.fabrics);
  const chosenId = useStore(board, (state) => state.fabricId);
  const isPainting = useStore(board, (state) => state.tool === 'paint');
  const [isNew, setNew] = useState(false);
  const inHand = fabrics.find(({ id }) => id === chosenId) ?? null;

  const add = (): void => {
    const id = nextFabricId(session.getState().project);
    const color = DYES[fabrics.length % DYES.length]!;
    edit('Add fabric', (project) => addFabric(project, { name: `Fabric ${fabrics.length + 1}`, color }));
    board.setState({ fabricId: id });
    setNew(true);
  };

  return (
    <section className="fabrics" aria-labelledby="fabrics-title">
      <div className="shelf-head">
        <h2 id="fabrics-title">Fabrics</h2>
        <button
          type="button"
          className="icon-button"
          aria-label="Add a fabric"
          title="Add a fabric"
          onClick={add}
        >
          <Icon name="plus" />
        </button>
      </div>
      <ul className="swatches">
        {fabrics.map((fabric) => (
          <li key={fabric.id}>
            <button
              type="button"
              className="swatch"
              style={{ backgroundColor: fabric.color }}
              aria-label={fabric.name}
              title={fabric.name}
              aria-pressed={fabric.id === inHand?.id}
              onClick={() => {
                setNew(false);
                takeFabric(fabric);
              }}
            />
          </li>
        ))}
        {fabrics.length > 0 && (
          <li>
            <button
              type="button"
              className="swatch swatch-none"
              aria-label="No fabric: take it off"
              title="No fabric: take it off"
              aria-pressed={isPainting && inHand === null}
              onClick={() => takeFabric(null)}
            />
          </li>
        )}
      </ul>
      {inHand === null ? (
        <p className="soft fabric-note">
          {fabrics.length === 0
            ? 'Add a fabric, then lay it on patches.'
            : isPainting
              ? 'Press patches to take their fabric off.'
              : 'Choose a fabric, then press patches to lay it on them.'}
        </p>
      ) : (
        <FabricDetails key={inHand.id} fabric={inHand} isNew={isNew} />
      )}
    </section>
  );
}

function FabricDetails({ fabric, isNew }: { readonly fabric: Fabric; readonly isNew: boolean }) {
  return (
    <div className="fabric-details">
      <input
        type="color"
        className="color-input"
        aria-label={`Colour of ${fabric.name}`}
        title="Colour"
        value={fabric.color}
        onChange={(event) => {
          const color = event.target.value;
          edit('Change colour', (project) => updateFabric(project, fabric.id, { color }), {
            merge: `color of ${fabric.id}`,
          });
        }}
        onBlur={endMerge}
      />
      <NameField
        label="Fabric name"
        name={fabric.name}
        takesFocus={isNew}
        onRename={(name) => edit('Rename fabric', (project) => updateFabric(project, fabric.id, { name }))}
      />
      <button
        type="button"
        className="icon-button"
        aria-label={`Remove ${fabric.name}`}
        title={`Remove ${fabric.name}`}
        onClick={() => {
          edit('Remove fabric', (project) => removeFabric(project, fabric.id));
          say('done', `Removed “${fabric.name}” and took it off its patches. Undo brings it back.`);
        }}
      >
        <Icon name="delete" size={18} />
      </button>
    </div>
  );
}

import { type ClipboardEvent, type DragEvent, useMemo, useState } from 'react';
import { useStore } from 'zustand';
import { takeFabric } from '../../board/board-acts.ts';
import { board } from '../../board/board-state.ts';
import { alikeFabrics } from '../../document/colour-difference.ts';
import { addFabric, removeFabric, updateFabric } from '../../document/edit-fabrics.ts';
import { nextFabricId } from '../../document/ids.ts';
import type { Fabric } from '../../document/project.ts';
import { formatLength } from '../../geometry/length.ts';
import { edit, endMerge, say } from '../../workspace/actions.ts';
import { command, runCommand } from '../../workspace/commands.ts';
import { askFor } from '../../workspace/dialogs.ts';
import { session } from '../../workspace/session.ts';
import { isPictureFile } from '../../workspace/under-picture.ts';
import { swatchStyle, usePictures } from '../fabric-fills.tsx';
import { Folded } from '../folded.tsx';
import { Icon } from '../icons.tsx';
import { NameField } from '../name-field.tsx';
import './colouring.css';
import { phrase } from '../../words/phrase.ts';
import { oneStop } from '../one-stop.ts';
import { FabricNumber, lightnessNumber } from './fabric-number.tsx';
import { HarmonyRow } from './harmony-row.tsx';
import { YardageNote } from './yardage-note.tsx';

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
  const valueView = useStore(board, (state) => state.valueView);
  const canRecolour = useStore(session, command('recolour').enabled);
  const isPainting = useStore(board, (state) => state.tool === 'paint');
  const [isNew, setNew] = useState(false);
  usePictures();
  const inHand = fabrics.find(({ id }) => id === chosenId) ?? null;

  const add = (): void => {
    const id = nextFabricId(session.getState().project);
    const color = DYES[fabrics.length % DYES.length]!;
    edit(phrase('Add fabric'), (project) =>
      addFabric(project, { name: phrase('Fabric {fabrics}', { fabrics: fabrics.length + 1 }), color }),
    );
    board.setState({ fabricId: id });
    setNew(true);
  };

  return (
    <section className="fabrics" data-drawing="" aria-labelledby="fabrics-title">
      <div className="shelf-head">
        <h2 id="fabrics-title">{phrase('Fabrics')}</h2>
        {canRecolour && (
          <button
            type="button"
            className="icon-button shelf-swap"
            aria-label={phrase('Replace or swap fabrics')}
            title={phrase('Replace or swap fabrics')}
            onClick={() => runCommand('recolour')}
          >
            <Icon name="swap" />
          </button>
        )}
        <button
          type="button"
          className="icon-button"
          aria-label={phrase('Add a fabric')}
          title={phrase('Add a fabric')}
          onClick={add}
        >
          <Icon name="plus" />
        </button>
      </div>
      <ul ref={oneStop} className="swatches">
        {fabrics.map((fabric) => (
          <li key={fabric.id} {...takesPictures(fabric)}>
            <button
              type="button"
              className="swatch"
              style={swatchStyle(fabric)}
              aria-label={
                valueView
                  ? phrase('{fabric}, lightness {lightnessNumber}', {
                      fabric: fabric.name,
                      lightnessNumber: lightnessNumber(fabric.color),
                    })
                  : fabric.name
              }
              title={phrase('{fabric}, lightness {lightnessNumber}', {
                fabric: fabric.name,
                lightnessNumber: lightnessNumber(fabric.color),
              })}
              aria-pressed={fabric.id === inHand?.id}
              onClick={() => {
                setNew(false);
                takeFabric(fabric);
              }}
            >
              {valueView && <FabricNumber color={fabric.color} isOnPrint={fabric.picture !== undefined} />}
            </button>
          </li>
        ))}
        {fabrics.length > 0 && (
          <li>
            <button
              type="button"
              className="swatch swatch-none"
              aria-label={phrase('No fabric: take it off')}
              title={phrase('No fabric: take it off')}
              aria-pressed={isPainting && inHand === null}
              onClick={() => takeFabric(null)}
            />
          </li>
        )}
      </ul>
      {inHand === null ? (
        <p className="soft fabric-note">
          {fabrics.length === 0
            ? phrase('Add a fabric, then lay it on patches.')
            : isPainting
              ? phrase('Press patches to take their fabric off.')
              : phrase('Choose a fabric, then press patches to lay it on them.')}
        </p>
      ) : (
        <>
          <FabricDetails key={inHand.id} fabric={inHand} isNew={isNew} />
          <YardageNote fabric={inHand.id} />
        </>
      )}
      <AlikeNote fabrics={fabrics} />
      {fabrics.length > 0 && (
        <Folded title={phrase('What goes with these')}>
          <HarmonyRow />
        </Folded>
      )}
    </section>
  );
}

/** Lets a picture be dropped on what stands for a fabric, or pasted while the keyboard is there. */
function takesPictures({ id }: Fabric) {
  const take = (event: DragEvent | ClipboardEvent, files: FileList): void => {
    const file = files[0];
    // Anything else that is dropped here is opened as anywhere.
    if (file === undefined || !isPictureFile(file)) return;
    event.preventDefault();
    askFor({ kind: 'fabric-picture', fabricId: id, file });
  };
  return {
    onDragOver: (event: DragEvent) => event.preventDefault(),
    onDrop: (event: DragEvent) => take(event, event.dataTransfer.files),
    onPaste: (event: ClipboardEvent) => take(event, event.clipboardData.files),
  };
}

/** Warns of fabrics that would run into one another. Prints are told apart by more than their colour. */
function AlikeNote({ fabrics }: { readonly fabrics: readonly Fabric[] }) {
  const alike = useMemo(
    () => alikeFabrics(fabrics.filter(({ picture }) => picture === undefined)),
    [fabrics],
  );
  const [first] = alike;
  if (first === undefined) return null;
  const more = alike.length - 1;
  return (
    <p className="fabrics-alike">
      <Icon name="caution" size={16} />
      <span>
        {phrase('‘{name}’ and ‘{name2}’ can hardly be told apart', {
          name: first.one.name,
          name2: first.other.name,
        })}
        {more > 0 && phrase(', nor can {more, plural, one {another pair} other {# other pairs}}', { more })}.
      </span>
    </p>
  );
}

function FabricDetails({ fabric, isNew }: { readonly fabric: Fabric; readonly isNew: boolean }) {
  const unit = useStore(session, (state) => state.project.unit);
  const { picture } = fabric;
  const cloth =
    picture === undefined
      ? phrase('Add a picture')
      : phrase('Picture {across} wide', { across: formatLength(picture.across, unit) });
  return (
    <div {...takesPictures(fabric)}>
      <div className="fabric-details">
        <input
          type="color"
          className="color-input"
          aria-label={phrase('Colour of {fabric}', { fabric: fabric.name })}
          title={phrase('Colour')}
          value={fabric.color}
          onChange={(event) => {
            const color = event.target.value;
            edit(phrase('Change colour'), (project) => updateFabric(project, fabric.id, { color }), {
              merge: `color of ${fabric.id}`,
            });
          }}
          onBlur={endMerge}
        />
        <NameField
          label={phrase('Fabric name')}
          name={fabric.name}
          takesFocus={isNew}
          onRename={(name) =>
            edit(phrase('Rename fabric'), (project) => updateFabric(project, fabric.id, { name }))
          }
        />
        <button
          type="button"
          className="icon-button"
          aria-label={phrase('Delete {fabric}', { fabric: fabric.name })}
          title={phrase('Delete {fabric}', { fabric: fabric.name })}
          onClick={() => {
            edit(phrase('Delete fabric'), (project) => removeFabric(project, fabric.id));
            say(
              'done',
              phrase('Deleted ‘{fabric}’ and took it off its patches. Undo brings it back.', {
                fabric: fabric.name,
              }),
            );
          }}
        >
          <Icon name="delete" size={18} />
        </button>
      </div>
      <button
        type="button"
        className="fabric-cloth"
        aria-label={phrase('{cloth} of {fabric}', { cloth, fabric: fabric.name })}
        title={phrase('A photo or scan of the cloth. It can be dropped or pasted here too.')}
        onClick={() => askFor({ kind: 'fabric-picture', fabricId: fabric.id, file: null })}
      >
        <Icon name="cloth" size={18} />
        {cloth}
      </button>
    </div>
  );
}

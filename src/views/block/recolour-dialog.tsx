import { useId, useState } from 'react';
import { useStore } from 'zustand';
import { fabricInHand } from '../../board/board-state.ts';
import { replaceFabric, swapFabrics } from '../../document/edit-fabrics.ts';
import { fabricsIn } from '../../document/harmony.ts';
import type { Block, Fabric, Project } from '../../document/project.ts';
import { edit, say } from '../../workspace/actions.ts';
import { session, shownBlock } from '../../workspace/session.ts';
import { Choice } from '../choice.tsx';
import { Dialog } from '../dialog.tsx';
import { swatchStyle, usePictures } from '../fabric-fills.tsx';
import { BlockPicture } from './block-picture.tsx';
import './colouring.css';
import { phrase } from '../../words/phrase.ts';

type How = 'replace' | 'swap';
type Where = 'block' | 'project';

const HOWS: readonly (readonly [How, string])[] = [
  ['replace', phrase('Replace')],
  ['swap', phrase('Swap')],
];

const WHERES: readonly (readonly [Where, string])[] = [
  ['block', phrase('In this block')],
  ['project', phrase('In the whole project')],
];

const DO = { replace: replaceFabric, swap: swapFabrics } as const;

/** Lays one fabric in the place of another, or lets two change places, with the block as it will look. */
export default function RecolourDialog({ onClose }: { readonly onClose: () => void }) {
  const block = useStore(session, shownBlock);
  const project = useStore(session, (state) => state.project);
  return block === null ? null : <Recolour block={block} project={project} onClose={onClose} />;
}

interface RecolourProps {
  readonly block: Block;
  readonly project: Project;
  readonly onClose: () => void;
}

function Recolour({ block, project, onClose }: RecolourProps) {
  const { fabrics } = project;
  const [how, setHow] = useState<How>('replace');
  const [where, setWhere] = useState<Where>('block');
  const [oneId, setOne] = useState(() => firstChoice(block, project));
  const [otherId, setOther] = useState(() => fabrics.find(({ id }) => id !== oneId)?.id ?? '');
  const one = fabrics.find(({ id }) => id === oneId);
  const other = fabrics.find(({ id }) => id === otherId);
  if (one === undefined || other === undefined) return null;

  const blockId = where === 'block' ? block.id : null;
  const fault = faultOf(project, DO[how](project, one.id, other.id, blockId), { how, where, one, other });
  const carryOut = (): void => {
    if (fault !== null) return;
    onClose();
    edit(how === 'replace' ? phrase('Replace fabric') : phrase('Swap fabrics'), (before) =>
      DO[how](before, one.id, other.id, blockId),
    );
    const place =
      where === 'block' ? phrase('in ‘{block}’', { block: block.name }) : phrase('in every block');
    say(
      'done',
      how === 'replace'
        ? phrase('‘{other}’ lies where ‘{one}’ lay {place}. Undo brings it back.', {
            other: other.name,
            one: one.name,
            place,
          })
        : phrase('‘{one}’ and ‘{other}’ changed places {place}. Undo brings it back.', {
            one: one.name,
            other: other.name,
            place,
          }),
    );
  };

  return (
    <Dialog title={phrase('Replace or swap fabrics')} className="recolour" onClose={onClose}>
      <form
        className="recolour-form"
        onSubmit={(event) => {
          event.preventDefault();
          carryOut();
        }}
      >
        <div className="recolour-pictures">
          <figure>
            <BlockPicture block={block} fabrics={fabrics} size={148} />
            <figcaption className="soft">{phrase('Now')}</figcaption>
          </figure>
          <figure>
            <BlockPicture block={block} fabrics={redyed(fabrics, how, one, other)} size={148} />
            <figcaption className="soft">{phrase('Then')}</figcaption>
          </figure>
        </div>
        <div className="recolour-fields">
          <Choice
            label={phrase('What to do')}
            isLabelShown={false}
            options={HOWS}
            value={how}
            onChoose={setHow}
          />
          <FabricField
            label={how === 'replace' ? phrase('Replace') : phrase('Swap')}
            fabrics={fabrics}
            fabric={one}
            onChoose={setOne}
          />
          <FabricField
            label={how === 'replace' ? phrase('By') : phrase('With')}
            fabrics={fabrics}
            fabric={other}
            onChoose={setOther}
          />
          <Choice
            label={phrase('Where')}
            isLabelShown={false}
            options={WHERES}
            value={where}
            onChoose={setWhere}
          />
        </div>
        <p className="soft recolour-note" role="status">
          {fault ?? phrase('Both fabrics stay in the project.')}
        </p>
        <div className="buttons">
          <button type="submit" className="button button-main" aria-disabled={fault !== null}>
            {how === 'replace' ? phrase('Replace fabric') : phrase('Swap fabrics')}
          </button>
          <button type="button" className="button" onClick={onClose}>
            {phrase('Cancel')}
          </button>
        </div>
      </form>
    </Dialog>
  );
}

/** The fabric in hand where it lies in the block, else the first that does. */
function firstChoice(block: Block, project: Project): string {
  const laid = fabricsIn(block, project.fabrics);
  const inHand = laid.find(({ id }) => id === fabricInHand(project));
  return (inHand ?? laid[0] ?? project.fabrics[0])?.id ?? '';
}

/** Fabrics in the colours they will seem to have: the same patches, so the block need not be worked out again. */
function redyed(fabrics: readonly Fabric[], how: How, one: Fabric, other: Fabric): readonly Fabric[] {
  return fabrics.map((fabric) => {
    if (fabric === one) return { ...other, id: one.id };
    return fabric === other && how === 'swap' ? { ...one, id: other.id } : fabric;
  });
}

interface Wish {
  readonly how: How;
  readonly where: Where;
  readonly one: Fabric;
  readonly other: Fabric;
}

/** Why nothing would change; null when something would. */
function faultOf(before: Project, after: Project, { how, where, one, other }: Wish): string | null {
  if (after !== before) return null;
  if (one === other) return phrase('Choose two different fabrics.');
  const place = where === 'block' ? phrase('in this block') : phrase('in any block');
  return how === 'replace'
    ? phrase('‘{one}’ does not lie {place}.', { one: one.name, place })
    : phrase('Neither ‘{one}’ nor ‘{other}’ lies {place}.', { one: one.name, other: other.name, place });
}

interface FabricFieldProps {
  readonly label: string;
  readonly fabrics: readonly Fabric[];
  readonly fabric: Fabric;
  readonly onChoose: (fabricId: string) => void;
}

function FabricField({ label, fabrics, fabric, onChoose }: FabricFieldProps) {
  const id = useId();
  usePictures();
  return (
    <div className="recolour-fabric">
      <label htmlFor={id}>{label}</label>
      <span className="row-swatch" style={swatchStyle(fabric)} />
      <select id={id} value={fabric.id} onChange={(event) => onChoose(event.target.value)}>
        {fabrics.map((one) => (
          <option key={one.id} value={one.id}>
            {one.name}
          </option>
        ))}
      </select>
    </div>
  );
}

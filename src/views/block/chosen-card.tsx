import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import { deleteChosen, openForm, spotsInSymmetry } from '../../board/board-acts.ts';
import { boardCommand } from '../../board/board-commands.ts';
import { board } from '../../board/board-state.ts';
import { paintPatches } from '../../document/edit-paint.ts';
import type { Block, Cut, Unit } from '../../document/project.ts';
import { formNamed } from '../../editing/forms/forms.ts';
import { cornerName, edgeName } from '../../editing/whereabouts.ts';
import { capital, cutEnds, cutName, lengthWords, placeWords } from '../../editing/words.ts';
import { holdsPoint } from '../../geometry/inner-spot.ts';
import type { Point } from '../../geometry/point.ts';
import { phrase } from '../../words/phrase.ts';
import { edit } from '../../workspace/actions.ts';
import { session } from '../../workspace/session.ts';
import { Folded } from '../folded.tsx';
import { Icon } from '../icons.tsx';
import { usePlan } from '../use-plan.ts';
import { FirstButton } from './first-button.tsx';
import { FormCard } from './form-card.tsx';
import { CornerInspector, CutsInspector, EdgeInspector } from './inspector.tsx';
import { RoleChoice } from './role-choice.tsx';
import { WorkList } from './work-list.tsx';

/** What is chosen on the board, with what can be said about it and done to it. */
export function ChosenCard({ block }: { readonly block: Block }) {
  const selection = useStore(session, (state) => state.selection);
  const chosen = useStore(board, (state) => state.chosen);
  const unit = useStore(session, (state) => state.project.unit);
  const formName = useStore(board, (state) => state.form);
  const form = formName === null ? null : formNamed(formName);
  if (form !== null) return <FormCard form={form} />;
  const cuts = block.cuts.filter(({ id }) => selection.includes(id));
  if (cuts.length > 0) return <CutsCard block={block} cuts={cuts} unit={unit} />;
  if (chosen?.kind === 'corner') return <CornerCard block={block} corner={chosen.corner} unit={unit} />;
  if (chosen?.kind === 'edge') return <EdgeCard block={block} edge={chosen.edge} unit={unit} />;
  if (chosen?.kind === 'patch') return <PatchCard block={block} at={chosen.at} />;
  return null;
}

interface CardProps {
  readonly title: string;
  readonly deleteLabel?: string;
  readonly children: React.ReactNode;
}

/** Whether the card at the drawing of a narrow window is unfolded; as it was left. */
const cardAtDrawing = createStore(() => ({ isOpen: false }));

function Card({ title, deleteLabel, children }: CardProps) {
  const isOpen = useStore(cardAtDrawing, (state) => state.isOpen);
  return (
    <section className="chosen-card" data-drawing="" aria-label={phrase('Chosen')} data-open={isOpen}>
      <div className="chosen-head">
        <h3>{title}</h3>
        <button
          type="button"
          className="icon-button card-more"
          aria-expanded={isOpen}
          aria-label={isOpen ? phrase('Collapse') : phrase('Numbers and what to do')}
          title={isOpen ? phrase('Collapse') : phrase('Numbers and what to do')}
          onClick={() => cardAtDrawing.setState({ isOpen: !isOpen })}
        >
          <Icon name="chevron" size={18} />
        </button>
        {deleteLabel !== undefined && (
          <button
            type="button"
            className="icon-button"
            aria-label={deleteLabel}
            title={phrase('{deleteLabel} (Delete)', { deleteLabel })}
            onClick={deleteChosen}
          >
            <Icon name="delete" size={18} />
          </button>
        )}
      </div>
      {children}
    </section>
  );
}

function CutsCard({
  block,
  cuts,
  unit,
}: {
  readonly block: Block;
  readonly cuts: readonly Cut[];
  readonly unit: Unit;
}) {
  const [first] = cuts;
  const role = cuts.every((cut) => cut.role === first!.role) ? first!.role : null;
  const isOne = cuts.length === 1;
  return (
    <Card
      title={
        isOne
          ? cutName(block.cuts, first!.id)
          : phrase('{cuts, plural, one {# line} other {# lines}}', { cuts: cuts.length })
      }
      deleteLabel={isOne ? phrase('Delete line') : phrase('Delete lines')}
    >
      {isOne && (
        <p className="soft">
          {phrase('{cutEnds}, {from} long', {
            cutEnds: cutEnds(first!, unit),
            from: lengthWords(first!.from, first!.to, unit),
          })}
        </p>
      )}
      <CutsInspector block={block} cuts={cuts} unit={unit} />
      <RoleChoice blockId={block.id} cutIds={cuts.map(({ id }) => id)} role={role} />
      <div className="buttons">
        <LockButton cuts={cuts} />
        <button type="button" className="button" onClick={() => openForm('move')}>
          {phrase('Move by numbers…')}
        </button>
      </div>
      <Folded title={isOne ? phrase('What to do with it') : phrase('What to do with them')}>
        <WorkList about="chosen" except={['lock', 'form-move']} />
      </Folded>
    </Card>
  );
}

/** Pressed when all are locked, half pressed when some are. */
function LockButton({ cuts }: { readonly cuts: readonly Cut[] }) {
  const locked = cuts.filter((cut) => cut.locked === true).length;
  const { keys, run } = boardCommand('lock');
  return (
    <button
      type="button"
      className="button"
      aria-pressed={locked === cuts.length ? true : locked > 0 ? 'mixed' : false}
      title={phrase('What is locked cannot be moved or deleted ({key})', { key: keys[0] })}
      onClick={run}
    >
      {locked === cuts.length ? phrase('Locked') : phrase('Lock')}
    </button>
  );
}

function CornerCard({
  block,
  corner,
  unit,
}: {
  readonly block: Block;
  readonly corner: number;
  readonly unit: Unit;
}) {
  const at = block.outline[corner];
  if (at === undefined) return null;
  return (
    <Card
      title={capital(cornerName(block, corner))}
      {...(block.outline.length > 3 ? { deleteLabel: phrase('Delete corner') } : {})}
    >
      <p className="soft">
        {phrase('At {at}. Drag it to change the outline.', { at: placeWords(at, unit) })}
      </p>
      <CornerInspector block={block} corner={corner} unit={unit} />
      <WorkList about="chosen" />
      <Folded title={phrase('What to do with the block')}>
        <WorkList about="block" />
      </Folded>
    </Card>
  );
}

function EdgeCard({
  block,
  edge,
  unit,
}: {
  readonly block: Block;
  readonly edge: number;
  readonly unit: Unit;
}) {
  const from = block.outline[edge];
  const to = block.outline[(edge + 1) % block.outline.length];
  if (from === undefined || to === undefined) return null;
  return (
    <Card title={capital(edgeName(block, edge))}>
      <p className="soft">
        {phrase('From {block} to {block2}. Drag it to move it as a whole.', {
          block: cornerName(block, edge),
          block2: cornerName(block, (edge + 1) % block.outline.length),
        })}
      </p>
      <EdgeInspector block={block} edge={edge} unit={unit} />
      <WorkList about="chosen" />
    </Card>
  );
}

function PatchCard({ block, at }: { readonly block: Block; readonly at: Point }) {
  const fabrics = useStore(session, (state) => state.project.fabrics);
  const { plan, isUpdating } = usePlan(block);
  const patch = plan?.patches.find((one) => holdsPoint(one, at));
  const section = plan?.sections.find(({ letter }) => letter === patch?.section);
  if (!plan || !patch || !section) return null;
  return (
    <Card title={phrase('Patch {id}', { id: patch.id })}>
      <label className="fabric-choice">
        <span>{phrase('Fabric')}</span>
        <select
          value={patch.fabric ?? ''}
          onChange={(event) => {
            const fabricId = event.target.value === '' ? null : event.target.value;
            edit(phrase('Lay fabric'), (project) =>
              paintPatches(project, block.id, spotsInSymmetry(at), fabricId),
            );
          }}
        >
          <option value="">{phrase('none yet')}</option>
          {fabrics.map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </select>
      </label>
      <p className="soft">
        {phrase(
          '{position, plural, one {The first on foundation {section}.} other {Number {position} on foundation {section}.}} Beside {neighbours}.',
          { position: patch.position, section: patch.section, neighbours: listed(patch.neighbours) },
        )}
      </p>
      {section.order.length > 1 && section.order[0] !== patch.id && !isUpdating && (
        <FirstButton block={block} plan={plan} section={section} id={patch.id} />
      )}
      <Folded title={phrase('What to do with it')}>
        <WorkList about="chosen" />
      </Folded>
    </Card>
  );
}

const listed = (ids: readonly string[]): string =>
  ids.length <= 1
    ? (ids[0] ?? phrase('no other patch'))
    : phrase('{ids} and {ids2}', { ids: ids.slice(0, -1).join(', '), ids2: ids.at(-1) });

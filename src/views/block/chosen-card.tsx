import { useStore } from 'zustand';
import { board } from '../../board/board-state.ts';
import { cutEnds, cutName, lengthWords, placeWords } from '../../board/words.ts';
import { deleteChosen } from '../../board/working.ts';
import { paintPatch } from '../../document/edit-paint.ts';
import type { Block, Cut, Unit } from '../../document/project.ts';
import { holdsPoint } from '../../geometry/inner-spot.ts';
import type { Point } from '../../geometry/point.ts';
import { edit } from '../../workspace/actions.ts';
import { planOf } from '../../workspace/plans.ts';
import { session } from '../../workspace/session.ts';
import { Icon } from '../icons.tsx';
import { countOf } from './counts.ts';
import { RoleChoice } from './role-choice.tsx';

/** What is chosen on the board, with what can be said about it and done to it. */
export function ChosenCard({ block }: { readonly block: Block }) {
  const selection = useStore(session, (state) => state.selection);
  const chosen = useStore(board, (state) => state.chosen);
  const unit = useStore(session, (state) => state.project.unit);
  const cuts = block.cuts.filter(({ id }) => selection.includes(id));
  if (cuts.length > 0) return <CutsCard block={block} cuts={cuts} unit={unit} />;
  if (chosen?.kind === 'corner') return <CornerCard block={block} corner={chosen.corner} unit={unit} />;
  if (chosen?.kind === 'patch') return <PatchCard block={block} at={chosen.at} />;
  return null;
}

interface CardProps {
  readonly title: string;
  readonly deleteLabel?: string;
  readonly children: React.ReactNode;
}

function Card({ title, deleteLabel, children }: CardProps) {
  return (
    <section className="chosen-card" aria-label="Chosen">
      <div className="chosen-head">
        <h3>{title}</h3>
        {deleteLabel !== undefined && (
          <button
            type="button"
            className="icon-button"
            aria-label={deleteLabel}
            title={`${deleteLabel} (Delete)`}
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
      title={isOne ? cutName(block.cuts, first!.id) : countOf(cuts.length, 'cut')}
      deleteLabel={isOne ? 'Delete cut' : 'Delete cuts'}
    >
      {isOne && (
        <p className="soft">
          {cutEnds(first!, unit)}, {lengthWords(first!.from, first!.to, unit)} long
        </p>
      )}
      <RoleChoice blockId={block.id} cutIds={cuts.map(({ id }) => id)} role={role} />
    </Card>
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
      title={`Corner ${corner + 1}`}
      {...(block.outline.length > 3 ? { deleteLabel: 'Delete corner' } : {})}
    >
      <p className="soft">At {placeWords(at, unit)}. Drag it to change the outline.</p>
    </Card>
  );
}

function PatchCard({ block, at }: { readonly block: Block; readonly at: Point }) {
  const fabrics = useStore(session, (state) => state.project.fabrics);
  const patch = planOf(block).patches.find((one) => holdsPoint(one, at));
  if (patch === undefined) return null;
  return (
    <Card title={`Patch ${patch.id}`}>
      <label className="fabric-choice">
        <span>Fabric</span>
        <select
          value={patch.fabric ?? ''}
          onChange={(event) => {
            const fabricId = event.target.value === '' ? null : event.target.value;
            edit('Lay fabric', (project) => paintPatch(project, block.id, at, fabricId));
          }}
        >
          <option value="">none yet</option>
          {fabrics.map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </select>
      </label>
      <p className="soft">
        {patch.position === 1
          ? `The first on foundation ${patch.section}.`
          : `Number ${patch.position} on foundation ${patch.section}.`}{' '}
        Beside {listed(patch.neighbours)}.
      </p>
    </Card>
  );
}

const listed = (ids: readonly string[]): string =>
  ids.length <= 1 ? (ids[0] ?? 'no other patch') : `${ids.slice(0, -1).join(', ')} and ${ids.at(-1)}`;

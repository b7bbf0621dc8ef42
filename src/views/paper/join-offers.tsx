import { useEffect, useState } from 'react';
import { setCutRole } from '../../document/edit-cuts.ts';
import type { Block, Project } from '../../document/project.ts';
import type { PrintNote } from '../../foundations/print-work.ts';
import type { FittingJoins } from '../../foundations/sheet/joins-that-fit.ts';
import { edit, say } from '../../workspace/actions.ts';
import { findFittingJoins } from '../../workspace/pdf-client.ts';
import { pieceOptions } from '../../workspace/present-options.ts';
import { Icon } from '../icons.tsx';

interface Offer {
  readonly block: Block;
  readonly joins: FittingJoins;
}

interface JoinOffersProps {
  readonly notes: readonly PrintNote[];
  readonly project: Project;
}

/** For blocks that come in tiles: the joins with which every foundation would fit on one sheet, found in the worker. */
export function JoinOffers({ notes, project }: JoinOffersProps) {
  const [offers, setOffers] = useState<readonly Offer[]>([]);
  useEffect(() => {
    let isCurrent = true;
    setOffers([]);
    void (async () => {
      for (const { kind, block: id, room } of notes) {
        const block = project.blocks.find((one) => one.id === id);
        if (kind !== 'tiled' || !block || !room) continue;
        const joins = await findFittingJoins(block, room, project.seamAllowance, pieceOptions());
        if (!isCurrent) return;
        if (joins) setOffers((before) => [...before, { block, joins }]);
      }
    })().catch(() => undefined);
    return () => {
      isCurrent = false;
    };
  }, [notes, project]);
  if (offers.length === 0) return null;
  return (
    <section className="paper-notes" aria-label="Without tiles">
      <ul>
        {offers.map(({ block, joins }) => (
          <li key={block.id} className="paper-note paper-note-note">
            <Icon name="note" size={18} />
            <div>
              <p>
                {block.name} fits on whole sheets, without tiles, with {joinsOf(joins)} more: {joins.after}{' '}
                foundations instead of {joins.before}.
              </p>
              <button type="button" className="paper-link" onClick={() => apply(block, joins)}>
                Add {joins.cuts.length === 1 ? 'the join' : 'these joins'}
              </button>
            </div>
          </li>
        ))}
      </ul>
    </section>
  );
}

const joinsOf = ({ cuts }: FittingJoins): string =>
  cuts.length === 1 ? 'one join' : `${cuts.length === 2 ? 'two' : 'three'} joins`;

function apply(block: Block, joins: FittingJoins): void {
  edit(`Add joins to ${block.name}`, (project) => setCutRole(project, block.id, joins.cuts, 'join'));
  say(
    'done',
    `${block.name} now fits on whole sheets. Undo takes the ${joins.cuts.length === 1 ? 'join' : 'joins'} back.`,
  );
}

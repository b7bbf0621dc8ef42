import { useEffect, useState } from 'react';
import { setCutRole } from '../../document/edit-cuts.ts';
import type { Block, Project } from '../../document/project.ts';
import type { PrintNote } from '../../foundations/print-work.ts';
import type { FittingJoins } from '../../foundations/sheet/joins-that-fit.ts';
import { phrase } from '../../words/phrase.ts';
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
    <section className="paper-notes" aria-label={phrase('Without tiles')}>
      <ul>
        {offers.map(({ block, joins }) => (
          <li key={block.id} className="paper-note paper-note-note">
            <Icon name="note" size={18} />
            <div>
              <p>
                {phrase(
                  '{block} fits on whole sheets, without tiles, with {joinsOf} more: {after} foundations instead of {before}.',
                  { block: block.name, joinsOf: joinsOf(joins), after: joins.after, before: joins.before },
                )}
              </p>
              <button type="button" className="paper-link" onClick={() => apply(block, joins)}>
                {phrase('Add {cuts, plural, one {the join} other {these joins}}', {
                  cuts: joins.cuts.length,
                })}
              </button>
            </div>
          </li>
        ))}
      </ul>
    </section>
  );
}

const joinsOf = ({ cuts }: FittingJoins): string =>
  cuts.length === 1
    ? phrase('one join')
    : phrase('{isCuts, select, true {two} other {three}} joins', { isCuts: cuts.length === 2 });

function apply(block: Block, joins: FittingJoins): void {
  edit(phrase('Add joins to {block}', { block: block.name }), (project) =>
    setCutRole(project, block.id, joins.cuts, 'join'),
  );
  say(
    'done',
    phrase(
      '{block} now fits on whole sheets. Undo takes the {cuts, plural, one {join} other {joins}} back.',
      { block: block.name, cuts: joins.cuts.length },
    ),
  );
}

import { useState } from 'react';
import { useStore } from 'zustand';
import { blockMade } from '../../document/turned-over.ts';
import type { Work } from '../../document/work.ts';
import type { TakenChanges } from '../../rounds/take-changes.ts';
import { changesOf } from '../../rounds/work.ts';
import { phrase } from '../../words/phrase.ts';
import { say } from '../../workspace/actions.ts';
import { makingAtHand } from '../../workspace/making.ts';
import { plansCome } from '../../workspace/plans.ts';
import { session } from '../../workspace/session.ts';
import { changesToTake, takeDrawing } from '../../workspace/sewing.ts';
import { Dialog } from '../dialog.tsx';

interface Changed {
  readonly id: string;
  readonly name: string;
  readonly words: string;
  /** It can be taken as it is drawn now. */
  readonly isThere: boolean;
}

/** Blocks that were edited since they were taken into work, paper by paper. Nothing changes until it is taken. */
export function ChangedBlocks({ work }: { readonly work: Work }) {
  useStore(plansCome);
  const project = useStore(session, (state) => state.project);
  const [asked, ask] = useState<{
    readonly name: string;
    readonly before: Work;
    readonly changes: TakenChanges;
  } | null>(null);
  const changed = work.blocks.flatMap((block): Changed[] => {
    const { id, name } = block;
    if (blockMade(project, id) === null)
      return [{ id, name, words: phrase('is no longer in the project.'), isThere: false }];
    const plan = makingAtHand(project, new Map([[id, 1]])).blocks[0]?.plan;
    if (plan === undefined) return [];
    const { same, gone, fresh } = changesOf(block, plan);
    if (gone.length === 0 && fresh.length === 0) return [];
    const words = [
      same.length > 0 ? phrase('{letters} the same', { letters: same.join(', ') }) : '',
      gone.length > 0 ? phrase('{letters} no longer so in the drawing', { letters: gone.join(', ') }) : '',
      fresh.length > 0 ? phrase('{n, number} to be printed anew', { n: fresh.length }) : '',
    ];
    return [{ id, name, words: words.filter(Boolean).join('; '), isThere: true }];
  });
  const look = async ({ id, name }: Changed): Promise<void> => {
    try {
      const changes = await changesToTake(id);
      if (changes) ask({ name, before: work, changes });
      else say('trouble', phrase('‘{name}’ is still being worked out. Try again in a moment.', { name }));
    } catch (thrown) {
      say(
        'trouble',
        phrase('The new drawing could not be compared. {reason}', {
          reason: thrown instanceof Error ? thrown.message : String(thrown),
        }),
      );
    }
  };
  if (changed.length === 0) return null;
  return (
    <section className="sew-card sew-changed" aria-labelledby="changed-title">
      <h2 id="changed-title" className="panel-title">
        {phrase('Edited since taken into work')}
      </h2>
      <ul role="status">
        {changed.map((one) => (
          <li key={one.id}>
            <strong>{one.name}</strong>: {one.words}{' '}
            {one.isThere && (
              <button type="button" className="button" onClick={() => void look(one)}>
                {phrase('Take the new drawing of {name} …', { name: one.name })}
              </button>
            )}
          </li>
        ))}
      </ul>
      <p className="sew-soft">
        {phrase('What lies on the table goes on as it was printed until you take the new drawing.')}
      </p>
      {asked && (
        <Dialog
          title={phrase('Take the new drawing of {name}?', { name: asked.name })}
          onClose={() => ask(null)}
        >
          <ul className="sew-taken">
            {asked.changes.kept.length > 0 && (
              <li>
                {phrase(
                  '{letters}: {n, plural, one {the same paper} other {the same papers}}. What is sewn stays sewn.',
                  {
                    letters: asked.changes.kept.join(', '),
                    n: asked.changes.kept.length,
                  },
                )}
              </li>
            )}
            {asked.changes.fresh.length > 0 && (
              <li>
                {phrase('{letters}: to be printed, then sewn from position 1.', {
                  letters: asked.changes.fresh.join(', '),
                })}
              </li>
            )}
            {asked.changes.gone.length > 0 && (
              <li>
                {phrase(
                  '{lost, plural, =0 {{n, plural, one {# paper} other {# papers}} put aside ({letters} as printed).} other {{n, plural, one {# paper} other {# papers}} put aside ({letters} as printed), with {lost, plural, one {# patch} other {# patches}} sewn on them in all copies.}}',
                  {
                    n: asked.changes.gone.length,
                    letters: asked.changes.gone.join(', '),
                    lost: asked.changes.sewnLost,
                  },
                )}
              </li>
            )}
          </ul>
          <p>{phrase('The rounds that are done stay done; new papers join the rounds to come.')}</p>
          <div className="buttons">
            <button type="button" className="button" data-first-focus onClick={() => ask(null)}>
              {phrase('Not now')}
            </button>
            <button
              type="button"
              className="button button-main"
              onClick={() => {
                takeDrawing(asked.name, asked.before, asked.changes);
                ask(null);
              }}
            >
              {phrase('Take it')}
            </button>
          </div>
        </Dialog>
      )}
    </section>
  );
}

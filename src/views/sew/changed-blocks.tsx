import { useStore } from 'zustand';
import type { Work } from '../../document/work.ts';
import { changesOf } from '../../rounds/work.ts';
import { madePlan, plansCome } from '../../workspace/plans.ts';
import { session } from '../../workspace/session.ts';

/** Blocks that were edited since they were taken into work, paper by paper. Nothing here changes what is in work. */
export function ChangedBlocks({ work }: { readonly work: Work }) {
  useStore(plansCome);
  const project = useStore(session, (state) => state.project);
  const changed = work.blocks.flatMap((block) => {
    const now = project.blocks.find(({ id }) => id === block.id);
    if (!now) return [{ name: block.name, words: 'is no longer in the project.' }];
    const plan = madePlan(now);
    if (plan === null) return [];
    const { same, gone, fresh } = changesOf(block, plan);
    if (gone.length === 0 && fresh.length === 0) return [];
    return [
      {
        name: block.name,
        words: [
          same.length > 0 ? `${same.join(', ')} the same` : '',
          gone.length > 0 ? `${gone.join(', ')} no longer so in the drawing` : '',
          fresh.length > 0 ? `${fresh.length} to be printed anew` : '',
        ]
          .filter(Boolean)
          .join('; '),
      },
    ];
  });
  if (changed.length === 0) return null;
  return (
    <section className="sew-card sew-changed" aria-labelledby="changed-title" role="status">
      <h2 id="changed-title" className="panel-title">
        Edited since taken into work
      </h2>
      <ul>
        {changed.map(({ name, words }) => (
          <li key={name}>
            <strong>{name}</strong>: {words}
          </li>
        ))}
      </ul>
      <p className="sew-soft">
        What lies on the table goes on as it was printed. To sew the new drawing, put the work away and take
        it in again.
      </p>
    </section>
  );
}

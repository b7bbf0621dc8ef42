import { useStore } from 'zustand';
import type { Project } from '../../document/project.ts';
import { copiesForQuilts } from '../../document/recoloured-blocks.ts';
import { blocksToMake } from '../../document/turned-over.ts';
import { phrase } from '../../words/phrase.ts';
import { copiesInHand, cuttingChoice } from '../../workspace/cutting-client.ts';
import { Choice } from '../choice.tsx';

type Whose = 'every' | 'quilt' | 'own';

/** Copies of every block that its quilts take; null where there is no quilt. */
function copiesOfQuilt(project: Project): ReadonlyMap<string, number> | null {
  const copies = copiesForQuilts(project);
  return copies.size === 0 ? null : copies;
}

const same = (a: ReadonlyMap<string, number>, b: ReadonlyMap<string, number>): boolean =>
  a.size === b.size && [...a].every(([id, count]) => b.get(id) === count);

/** What cloth is counted for: every block once, twice, as often as the quilt holds it, or by hand. */
export function CopiesChoice({ project }: { readonly project: Project }) {
  const { withQuilt } = useStore(cuttingChoice);
  const copies = copiesInHand(project);
  const quilt = copiesOfQuilt(project);
  const every = new Map(project.blocks.map(({ id }) => [id, 1]));
  const whose: Whose = withQuilt ? 'quilt' : same(copies, every) ? 'every' : 'own';
  const set = (id: string, count: number): void => {
    const next = new Map(copies);
    if (count > 0) next.set(id, count);
    else next.delete(id);
    cuttingChoice.setState({ copies: next, withQuilt: false });
  };
  return (
    <section className="fabric-settings" aria-labelledby="counted-title">
      <h2 id="counted-title" className="panel-title">
        {phrase('Counted for')}
      </h2>
      <Choice<Whose>
        label={phrase('Copies')}
        isLabelShown={false}
        options={[
          ['every', phrase('Every block once')],
          ...(quilt ? ([['quilt', phrase('The quilt')]] as const) : []),
          ['own', phrase('As below')],
        ]}
        value={whose}
        onChoose={(next) => {
          if (next === 'every') cuttingChoice.setState({ copies: null, withQuilt: false });
          else if (next === 'quilt') cuttingChoice.setState({ copies: null, withQuilt: true });
        }}
      />
      <ul className="counted">
        {blocksToMake(project, copies).map(({ id, name }) => (
          <li key={id}>
            <label htmlFor={`counted-${id}`}>{name}</label>
            <input
              id={`counted-${id}`}
              className="text-input"
              type="number"
              min={0}
              max={999}
              value={copies.get(id) ?? 0}
              onChange={(event) => {
                const count = Math.floor(Number(event.target.value));
                if (count >= 0 && count <= 999) set(id, count);
              }}
            />
          </li>
        ))}
      </ul>
    </section>
  );
}

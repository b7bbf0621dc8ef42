import { takeInHand } from '../../document/edit-copies.ts';
import { MOST_COPIES } from '../../document/limits.ts';
import type { Block } from '../../document/project.ts';
import { phrase } from '../../words/phrase.ts';
import { edit } from '../../workspace/actions.ts';
import { oneStop } from '../one-stop.ts';

interface BlockChoiceProps {
  readonly blocks: readonly Block[];
  readonly copies: ReadonlyMap<string, number>;
}

const choose = (copies: ReadonlyMap<string, number>): void =>
  edit(phrase('Choose copies'), (project) => takeInHand(project, copies), { merge: 'copies' });

/** Which blocks to print, and how many times each. */
export function BlockChoice({ blocks, copies }: BlockChoiceProps) {
  const isAll = blocks.every(({ id }) => copies.has(id));
  const set = (id: string, count: number | null): void => {
    const next = new Map(copies);
    if (count === null) next.delete(id);
    else next.set(id, count);
    choose(next);
  };
  return (
    <section className="paper-blocks" aria-labelledby="paper-blocks-title">
      <div className="paper-row-head">
        <h3 id="paper-blocks-title">{phrase('Blocks and copies')}</h3>
        {blocks.length > 1 && (
          <button
            type="button"
            className="paper-link"
            onClick={() => choose(new Map(isAll ? [] : blocks.map(({ id }) => [id, copies.get(id) ?? 1])))}
          >
            {isAll ? phrase('Choose none') : phrase('Choose all')}
          </button>
        )}
      </div>
      <ul ref={oneStop}>
        {blocks.map((block) => (
          <li key={block.id} className="paper-block">
            <label className="paper-block-name">
              <input
                type="checkbox"
                checked={copies.has(block.id)}
                onChange={(event) => set(block.id, event.target.checked ? 1 : null)}
              />
              <span>{block.name}</span>
            </label>
            {copies.has(block.id) && (
              <CopiesField
                name={block.name}
                count={copies.get(block.id)!}
                onChange={(count) => set(block.id, count)}
              />
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}

interface CopiesFieldProps {
  readonly name: string;
  readonly count: number;
  readonly onChange: (count: number) => void;
}

function CopiesField({ name, count, onChange }: CopiesFieldProps) {
  return (
    <span className="paper-copies">
      <span aria-hidden="true">×</span>
      <input
        type="number"
        className="text-input"
        aria-label={phrase('Copies of {name}', { name })}
        min={1}
        max={MOST_COPIES}
        step={1}
        value={count}
        onChange={(event) => {
          const typed = Math.round(event.target.valueAsNumber);
          if (Number.isFinite(typed)) onChange(Math.max(1, Math.min(MOST_COPIES, typed)));
        }}
      />
    </span>
  );
}

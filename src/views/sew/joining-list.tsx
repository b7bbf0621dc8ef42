import { useStore } from 'zustand';
import type { Work, WorkJoin } from '../../document/work.ts';
import { formatLength } from '../../geometry/length.ts';
import { type BlockToJoin, blocksToJoin, setJoined, setTrimmed } from '../../rounds/work.ts';
import { session } from '../../workspace/session.ts';
import { noteSewn } from '../../workspace/sewing.ts';
import { count } from './round-pile.tsx';

/** Blocks whose papers are all sewn: joined step by step, then trimmed. */
export function JoiningList({ work }: { readonly work: Work }) {
  const blocks = blocksToJoin(work);
  const open = blocks.filter(({ isTrimmed }) => !isTrimmed);
  return (
    <section className="sew-card" aria-labelledby="joining-title">
      <h2 id="joining-title" className="panel-title">
        Ready to join
      </h2>
      {open.length === 0 && (
        <p className="sew-soft">
          {blocks.length > 0
            ? 'Every block that is sewn is joined and trimmed.'
            : 'A block comes here when all its papers are sewn.'}
        </p>
      )}
      {open.map((one) => (
        <Joining key={one.name} of={one} />
      ))}
    </section>
  );
}

function Joining({ of: { name, block, copy, joins, joined, isTrimmed } }: { readonly of: BlockToJoin }) {
  const unit = useStore(session, (state) => state.project.unit);
  return (
    <fieldset className="sew-joining">
      <legend>
        {block.name}
        {block.copies > 1 ? `, copy ${copy}` : ''}
      </legend>
      {joins.map((join, k) => (
        <label key={`${join.left}/${join.right}`} className="sew-check">
          <input
            type="checkbox"
            checked={k < joined}
            disabled={k > joined}
            onChange={(event) => noteSewn((work) => setJoined(work, name, event.target.checked ? k + 1 : k))}
          />
          <span>
            {k + 1}. {joinWords(join)}, {formatLength(lengthOf(join), unit)}
            {join.points.length > 0 && <span className="sew-soft">, {count(join.points.length, 'pin')}</span>}
          </span>
        </label>
      ))}
      <label className="sew-check">
        <input
          type="checkbox"
          checked={isTrimmed}
          disabled={joined < joins.length}
          onChange={(event) => noteSewn((work) => setTrimmed(work, name, event.target.checked))}
        />
        <span>Press, then trim the block on its outer line</span>
      </label>
    </fieldset>
  );
}

const joinWords = ({ left, right }: WorkJoin): string => `${left.join(' and ')} to ${right.join(' and ')}`;

const lengthOf = ({ seam: [[x1, y1], [x2, y2]] }: WorkJoin): number => Math.hypot(x2 - x1, y2 - y1);

import { useStore } from 'zustand';
import type { Work, WorkJoin } from '../../document/work.ts';
import { formatLength } from '../../geometry/length.ts';
import { joinWords } from '../../rounds/words.ts';
import { type BlockToJoin, blocksToJoin, setJoined, setTrimmed } from '../../rounds/work.ts';
import { phrase } from '../../words/phrase.ts';
import { session } from '../../workspace/session.ts';
import { noteSewn } from '../../workspace/sewing.ts';

/** Blocks whose papers are all sewn: joined step by step, then trimmed. */
export function JoiningList({ work }: { readonly work: Work }) {
  const blocks = blocksToJoin(work);
  const open = blocks.filter(({ isTrimmed }) => !isTrimmed);
  return (
    <section className="sew-card" aria-labelledby="joining-title">
      <h2 id="joining-title" className="panel-title">
        {phrase('Ready to join')}
      </h2>
      {open.length === 0 && (
        <p className="sew-soft">
          {blocks.length > 0
            ? phrase('Every block that is sewn is joined and trimmed.')
            : phrase('A block comes here when all its papers are sewn.')}
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
        {block.copies > 1 ? phrase('{block}, copy {copy, number}', { block: block.name, copy }) : block.name}
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
            {phrase('{step, number}. {units}, {length}', {
              step: k + 1,
              units: joinWords(join),
              length: formatLength(lengthOf(join), unit),
            })}{' '}
            {join.points.length > 0 && (
              <span className="sew-soft">
                {phrase('{pins, plural, one {# pin} other {# pins}}: {labels}', {
                  pins: join.points.length,
                  labels: join.points.map(({ label }) => label).join(', '),
                })}
              </span>
            )}
            {k < joined ? null : (
              <span className="sew-soft"> {phrase('Tear the paper from the allowance, press.')}</span>
            )}
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
        <span>{phrase('Press, then trim the block on its outer line')}</span>
      </label>
    </fieldset>
  );
}

const lengthOf = ({ seam: [[x1, y1], [x2, y2]] }: WorkJoin): number => Math.hypot(x2 - x1, y2 - y1);

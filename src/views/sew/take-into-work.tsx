import { useEffect, useMemo, useState } from 'react';
import { useStore } from 'zustand';
import { copiesInHand } from '../../document/edit-copies.ts';
import type { Project } from '../../document/project.ts';
import { copiesForQuilts } from '../../document/recoloured-blocks.ts';
import { blockMade, blocksToMake } from '../../document/turned-over.ts';
import { ALL_AT_ONCE, type BatchChoice, type BatchOrder } from '../../rounds/batches.ts';
import { timeWords } from '../../rounds/words.ts';
import { secondsFor } from '../../rounds/work.ts';
import { phrase } from '../../words/phrase.ts';
import { goTo } from '../../workspace/actions.ts';
import { plansToCome } from '../../workspace/making.ts';
import { session } from '../../workspace/session.ts';
import { sewWishes } from '../../workspace/sew-wishes.ts';
import { planning, planSewing, takePlanIntoWork } from '../../workspace/sewing.ts';
import { Icon } from '../icons.tsx';
import { Phrase } from '../phrase.tsx';
import { CountField } from './count-field.tsx';

const BATCH_ORDERS: readonly (readonly [BatchOrder, string])[] = [
  ['blocks', phrase('Block by block')],
  ['largest', phrase('Largest patches first')],
  ['fabrics', phrase('By shared fabrics')],
];

/** What the quilt takes; one of every block where there is none. */
function copiesAtFirst(project: Project): ReadonlyMap<string, number> {
  const copies = copiesForQuilts(project);
  return copies.size > 0 ? copies : new Map(project.blocks.map(({ id }) => [id, 1]));
}

/** Chooses what is sewn next, and shows how few rounds it takes. */
export function TakeIntoWork() {
  const project = useStore(session, (state) => state.project);
  const toCome = useStore(plansToCome, (state) => state.blocks);
  const { news, isBusy, failure } = useStore(planning);
  const [copies, setCopies] = useState<ReadonlyMap<string, number>>(
    () => copiesInHand(project) ?? copiesAtFirst(project),
  );
  const [isPair, setPair] = useState(false);
  const [batches, setBatches] = useState<BatchChoice>(ALL_AT_ONCE);
  const [pile, setPile] = useState<number | null>(null);
  const pace = useStore(sewWishes, (state) => state.pace);
  const time = news === null || pace === null ? null : secondsFor({ time: pace }, news.patches);
  const chosen = useMemo(
    () => new Map([...copies].filter(([id, count]) => count > 0 && blockMade(project, id) !== null)),
    [copies, project],
  );
  useEffect(() => {
    if (toCome === 0 && chosen.size > 0) void planSewing(chosen, isPair, batches);
  }, [chosen, isPair, batches, toCome]);

  if (project.blocks.length === 0)
    return (
      <div className="sew-empty">
        <h1>{phrase('Nothing to sew yet')}</h1>
        <p>
          {phrase('Draw a block first. Then its papers are taken into work here and sewn fabric by fabric.')}
        </p>
        <button type="button" className="button" onClick={() => goTo('block')}>
          {phrase('Go to Block')}
        </button>
      </div>
    );
  return (
    <div className="sew-taking">
      <h1>{phrase('Take into work')}</h1>
      <p>
        {phrase(
          'One fabric comes out at a time, and every paper that waits for it takes all the patches it can. The numbers on the papers follow the order they are sewn in, so print them after this.',
        )}
      </p>
      <div className="sew-taking-columns">
        <fieldset className="sew-copies">
          <legend className="panel-title">{phrase('Blocks and copies')}</legend>
          {blocksToMake(project, copies).map(({ id, name }) => (
            <div key={id} className="sew-copies-row">
              <label htmlFor={`sew-copies-${id}`}>{name}</label>
              <input
                id={`sew-copies-${id}`}
                className="text-input"
                type="number"
                min={0}
                max={99}
                value={copies.get(id) ?? 0}
                onChange={(event) => {
                  const count = Math.floor(Number(event.target.value));
                  if (count >= 0 && count <= 99) setCopies(new Map(copies).set(id, count));
                }}
              />
            </div>
          ))}
        </fieldset>
        <section className="sew-plan" aria-labelledby="sew-plan-title" aria-busy={isBusy}>
          <h2 id="sew-plan-title" className="panel-title">
            {phrase('Rounds')}
          </h2>
          {toCome > 0 && (
            <p role="status">
              {phrase('{n, plural, one {One block is} other {# blocks are}} still being worked out.', {
                n: toCome,
              })}
            </p>
          )}
          {failure !== null && <p role="alert">{failure}</p>}
          {chosen.size === 0 && <p>{phrase('Choose at least one block.')}</p>}
          {news !== null && chosen.size > 0 && (
            <>
              <p className="sew-number">
                <Phrase
                  text="<b>{rounds, number}</b> {rounds, plural, one {round} other {rounds}} for {papers, plural, one {# paper} other {# papers}}{batches, plural, =1 {} other { in # batches}}"
                  values={{ rounds: news.rounds, papers: news.papers, batches: news.batches }}
                />
              </p>
              <p>
                {news.byPosition > news.rounds &&
                  phrase(
                    '{n, plural, one {# change} other {# changes}} of fabric saved against sewing position by position.',
                    { n: news.byPosition - news.rounds },
                  )}{' '}
                {news.rounds === news.bound
                  ? phrase('No plan has fewer.')
                  : phrase('At least {bound, number} are needed; perhaps not the fewest.', {
                      bound: news.bound,
                    })}{' '}
                {phrase(
                  'Position by position it would be {byPosition, number}, leafing through the fabrics in order {byLeafing, number}.',
                  { byPosition: news.byPosition, byLeafing: news.byLeafing },
                )}
              </p>
            </>
          )}
          {time !== null && <p>{phrase('At your pace it takes {time}.', { time: timeWords(time) })}</p>}
          {isBusy && (
            <>
              <p role="status">{news === null ? phrase('Planning …') : phrase('Looking for fewer …')}</p>
              <progress max={1} value={news?.done ?? 0} aria-label={phrase('Planning the rounds')} />
            </>
          )}
          <label className="sew-check">
            <input type="checkbox" checked={isPair} onChange={(event) => setPair(event.target.checked)} />
            {phrase('Cut the pieces for positions 1 and 2 together')}
          </label>
          <div className="sew-row sew-count-row">
            <CountField
              label={phrase('Papers at a time')}
              value={batches.most}
              onCount={(most) => setBatches({ ...batches, most })}
            />
            {batches.most !== null && (
              <select
                className="text-input"
                aria-label={phrase('Which papers first')}
                value={batches.order}
                onChange={(event) => setBatches({ ...batches, order: event.target.value as BatchOrder })}
              >
                {BATCH_ORDERS.map(([order, label]) => (
                  <option key={order} value={order}>
                    {label}
                  </option>
                ))}
              </select>
            )}
          </div>
          <div className="sew-row sew-count-row">
            <CountField label={phrase('Papers in a comfortable pile')} value={pile} onCount={setPile} />
          </div>
          <button
            type="button"
            className="button button-main sew-big"
            disabled={news === null || chosen.size === 0}
            onClick={() => void takePlanIntoWork(pile)}
          >
            <Icon name="sew" /> {phrase('Take into work')}
          </button>
        </section>
      </div>
    </div>
  );
}

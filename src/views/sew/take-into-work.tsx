import { useEffect, useMemo, useState } from 'react';
import { useStore } from 'zustand';
import { copiesInHand } from '../../document/edit-copies.ts';
import { goTo } from '../../workspace/actions.ts';
import { plansToCome } from '../../workspace/making.ts';
import { session } from '../../workspace/session.ts';
import { planning, planSewing, takePlanIntoWork } from '../../workspace/sewing.ts';
import { Icon } from '../icons.tsx';

/** Chooses what is sewn next, and shows how few rounds it takes. */
export function TakeIntoWork() {
  const project = useStore(session, (state) => state.project);
  const toCome = useStore(plansToCome, (state) => state.blocks);
  const { news, isBusy, failure } = useStore(planning);
  const [copies, setCopies] = useState<ReadonlyMap<string, number>>(
    () => copiesInHand(project) ?? new Map(project.blocks.map(({ id }) => [id, 1])),
  );
  const [isPair, setPair] = useState(false);
  const chosen = useMemo(
    () =>
      new Map([...copies].filter(([id, count]) => count > 0 && project.blocks.some((one) => one.id === id))),
    [copies, project.blocks],
  );
  useEffect(() => {
    if (toCome === 0 && chosen.size > 0) void planSewing(chosen, isPair);
  }, [chosen, isPair, toCome]);

  if (project.blocks.length === 0)
    return (
      <div className="sew-empty">
        <h1>Nothing to sew yet</h1>
        <p>Draw a block first. Then its papers are taken into work here and sewn fabric by fabric.</p>
        <button type="button" className="button" onClick={() => goTo('block')}>
          Go to Block
        </button>
      </div>
    );
  return (
    <div className="sew-taking">
      <h1>Take into work</h1>
      <p>
        One fabric comes out at a time, and every paper that waits for it takes all the patches it can. The
        numbers on the papers follow the order they are sewn in, so print them after this.
      </p>
      <div className="sew-taking-columns">
        <fieldset className="sew-copies">
          <legend className="panel-title">Blocks and copies</legend>
          {project.blocks.map(({ id, name }) => (
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
            Rounds
          </h2>
          {toCome > 0 && (
            <p role="status">
              {toCome === 1 ? 'One block is' : `${toCome} blocks are`} still being worked out.
            </p>
          )}
          {failure !== null && <p role="alert">{failure}</p>}
          {chosen.size === 0 && <p>Choose at least one block.</p>}
          {news !== null && chosen.size > 0 && (
            <>
              <p className="sew-number">
                <strong>{news.rounds}</strong> rounds for {news.papers} papers
              </p>
              <p>
                {news.rounds === news.bound
                  ? 'No plan has fewer.'
                  : `At least ${news.bound} are needed; perhaps not the fewest.`}{' '}
                Position by position it would be {news.byPosition}, leafing through the fabrics in order{' '}
                {news.byLeafing}.
              </p>
            </>
          )}
          {isBusy && (
            <>
              <p role="status">{news === null ? 'Planning …' : 'Looking for fewer …'}</p>
              <progress max={1} value={news?.done ?? 0} aria-label="Planning the rounds" />
            </>
          )}
          <label className="sew-check">
            <input type="checkbox" checked={isPair} onChange={(event) => setPair(event.target.checked)} />
            Cut the pieces for positions 1 and 2 together
          </label>
          <button
            type="button"
            className="button button-main sew-big"
            disabled={news === null || chosen.size === 0}
            onClick={() => void takePlanIntoWork()}
          >
            <Icon name="sew" /> Take into work
          </button>
        </section>
      </div>
    </div>
  );
}

import './sew.css';
import { useEffect, useMemo, useState } from 'react';
import { useStore } from 'zustand';
import type { Project } from '../../document/project.ts';
import type { Work } from '../../document/work.ts';
import { currentRound, progressOf, takeBack } from '../../rounds/work.ts';
import { session } from '../../workspace/session.ts';
import { noteSewn, putWorkAway } from '../../workspace/sewing.ts';
import { Dialog } from '../dialog.tsx';
import { Icon } from '../icons.tsx';
import { ChangedBlocks } from './changed-blocks.tsx';
import { JoiningList } from './joining-list.tsx';
import { ProgressPicture } from './progress-picture.tsx';
import { count, RoundPile } from './round-pile.tsx';
import { sewView } from './sew-state.ts';
import { TakeIntoWork } from './take-into-work.tsx';
import { WhereList } from './where-list.tsx';

/** The Sew place: the quilt worked through pile by pile, beside the machine. */
export default function SewPlace() {
  const project = useStore(session, (state) => state.project);
  return (
    <main className="sew-place">
      {project.work === undefined ? <TakeIntoWork /> : <AtTheMachine project={project} work={project.work} />}
    </main>
  );
}

function AtTheMachine({ project, work }: { readonly project: Project; readonly work: Work }) {
  const { round: inSight, lastTick } = useStore(sewView);
  const [isPutAwayAsked, askPutAway] = useState(false);
  useStaysAwake();
  const colors = useMemo(
    () => new Map(project.fabrics.map(({ id, color }) => [id, color])),
    [project.fabrics],
  );
  const turn = currentRound(work);
  const isSewn = turn === work.rounds.length;
  const round = inSight !== null && inSight < work.rounds.length ? inSight : turn;
  const { patches, papers, blocks } = progressOf(work);
  const percent = patches[1] === 0 ? 100 : Math.floor((100 * patches[0]) / patches[1]);
  return (
    <>
      <div className="sew-top">
        <div className="sew-progress">
          <strong>{percent} %</strong>
          <progress max={Math.max(1, patches[1])} value={patches[0]} aria-label="Patches sewn" />
          <span className="sew-soft">
            {patches[0].toLocaleString()} of {count(patches[1], 'patch').replace(/patchs$/, 'patches')},{' '}
            {papers[0]} of {count(papers[1], 'paper')}, {blocks[0]} of {count(blocks[1], 'block')} trimmed
          </span>
        </div>
        {round !== turn && !isSewn && (
          <button type="button" className="button sew-big" onClick={() => sewView.setState({ round: null })}>
            Go to round {turn + 1}, which is next
          </button>
        )}
        <button
          type="button"
          className="button sew-big"
          disabled={lastTick === null}
          onClick={() => {
            if (lastTick === null) return;
            noteSewn((before) =>
              lastTick.papers.reduce((after, paper) => takeBack(after, lastTick.round, paper), before),
            );
            sewView.setState({ round: lastTick.round, lastTick: null });
          }}
        >
          <Icon name="undo" /> Take back the last tick
        </button>
      </div>
      <div className="sew-columns">
        <div className="sew-main">
          {isSewn && inSight === null ? (
            <section className="sew-round sew-all-done">
              <h1>
                <Icon name="good" size={28} /> Every paper is sewn
              </h1>
              <p>Join the blocks section by section, press, and trim each on its outer line.</p>
              <button
                type="button"
                className="button sew-big"
                onClick={() => sewView.setState({ round: work.rounds.length - 1 })}
              >
                Look at the last round
              </button>
            </section>
          ) : (
            <RoundPile project={project} work={work} round={round} colors={colors} />
          )}
          <p className="sew-caution">
            <Icon name="caution" size={16} /> Slow over pins and take them out before the needle; keep fingers
            clear of it. Dry, hot iron: unplug it when you leave. Close the cutter after every cut. The
            makers’ instructions and local rules come first.
          </p>
        </div>
        <aside className="sew-side" aria-label="The work as a whole">
          <ChangedBlocks work={work} />
          <section className="sew-card" aria-label="Progress">
            <ProgressPicture project={project} work={work} colors={colors} />
          </section>
          <JoiningList work={work} />
          <WhereList project={project} work={work} />
          <button type="button" className="button" onClick={() => askPutAway(true)}>
            Put the work away …
          </button>
        </aside>
      </div>
      {isPutAwayAsked && (
        <Dialog title="Put the work away?" onClose={() => askPutAway(false)}>
          <p>
            What is ticked is forgotten; drawings, plans and fabrics stay. Save the project to a file first if
            you may want to go on with it.
          </p>
          <div className="dialog-acts">
            <button type="button" className="button" data-first-focus onClick={() => askPutAway(false)}>
              Keep it
            </button>
            <button
              type="button"
              className="button"
              onClick={() => {
                askPutAway(false);
                sewView.setState({ round: null, lastTick: null });
                putWorkAway();
              }}
            >
              Put away
            </button>
          </div>
        </Dialog>
      )}
    </>
  );
}

/** Keeps the screen awake beside the machine, where the browser can. */
function useStaysAwake(): void {
  useEffect(() => {
    if (!('wakeLock' in navigator)) return;
    let lock: WakeLockSentinel | null = null;
    let isGone = false;
    const ask = (): void => {
      if (document.visibilityState !== 'visible') return;
      navigator.wakeLock.request('screen').then(
        (given) => {
          if (isGone) void given.release();
          else lock = given;
        },
        // A battery that runs low, or a setting, may refuse; the screen then sleeps as usual.
        () => undefined,
      );
    };
    ask();
    document.addEventListener('visibilitychange', ask);
    return () => {
      isGone = true;
      document.removeEventListener('visibilitychange', ask);
      void lock?.release();
    };
  }, []);
}

import './sew.css';
import './taking.css';
import './round.css';
import './dialogs.css';
import { useEffect, useMemo, useState } from 'react';
import { useStore } from 'zustand';
import { readCode } from '../../document/coded-address.ts';
import type { Project } from '../../document/project.ts';
import type { Work } from '../../document/work.ts';
import { asBefore, currentRound, isRoundDone, paperIn, progressOf } from '../../rounds/work.ts';
import { perCent } from '../../words/numeral.ts';
import { phrase } from '../../words/phrase.ts';
import { say } from '../../workspace/actions.ts';
import { session } from '../../workspace/session.ts';
import { sewWishes } from '../../workspace/sew-wishes.ts';
import { noteSewn, putWorkAway } from '../../workspace/sewing.ts';
import { Dialog } from '../dialog.tsx';
import { Icon } from '../icons.tsx';
import { ChangedBlocks } from './changed-blocks.tsx';
import { JoiningList } from './joining-list.tsx';
import { MergeDialog } from './merge-dialog.tsx';
import { PaperDialog } from './paper-dialog.tsx';
import { ProgressPicture } from './progress-picture.tsx';
import { QuiltSteps } from './quilt-steps.tsx';
import { RoundPile } from './round-pile.tsx';
import { openCoded, ScanDialog } from './scan-dialog.tsx';
import { SewDays } from './sew-days.tsx';
import { SewPages } from './sew-pages.tsx';
import { SewSettings } from './sew-settings.tsx';
import { sewView } from './sew-state.ts';
import { SewTimer } from './sew-timer.tsx';
import { StepDialog } from './step-dialog.tsx';
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
  const { round: inSight, lastTick, paper, rehearsed, isScanning } = useStore(sewView);
  const isSpoken = useStore(sewWishes, (state) => state.isSpoken);
  const [isPutAwayAsked, askPutAway] = useState(false);
  const [isMerging, setMerging] = useState(false);
  useStaysAwake();
  useAddress(work);
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
          <strong>{perCent(percent / 100)}</strong>
          <progress max={Math.max(1, patches[1])} value={patches[0]} aria-label={phrase('Patches sewn')} />
          <span className="sew-soft">
            {phrase(
              '{patches, number} of {allPatches, plural, one {# patch} other {# patches}}, {papers, number} of {allPapers, plural, one {# paper} other {# papers}}, {blocks, number} of {allBlocks, plural, one {# block} other {# blocks}} trimmed',
              {
                patches: patches[0],
                allPatches: patches[1],
                papers: papers[0],
                allPapers: papers[1],
                blocks: blocks[0],
                allBlocks: blocks[1],
              },
            )}
          </span>
        </div>
        <SewTimer work={work} />
        {round !== turn && !isSewn && !isRoundDone(work, round) && (
          <button type="button" className="button sew-big" onClick={() => sewView.setState({ round: null })}>
            {phrase('Go to round {round, number}, which is next', { round: turn + 1 })}
          </button>
        )}
        <button
          type="button"
          className="button sew-big"
          disabled={lastTick === null}
          onClick={() => {
            if (lastTick === null) return;
            noteSewn((after) => asBefore(after, lastTick.before, lastTick.papers));
            sewView.setState({ round: lastTick.round, lastTick: null });
          }}
        >
          <Icon name="undo" /> {phrase('Undo the last tick')}
        </button>
      </div>
      <div className="sew-columns">
        <div className="sew-main">
          {isSewn && inSight === null ? (
            <section className="sew-round sew-all-done">
              <h1>
                <Icon name="good" size={28} /> {phrase('Every paper is sewn')}
              </h1>
              <p>{phrase('Join the blocks section by section, press, and trim each on its outer line.')}</p>
              <button
                type="button"
                className="button sew-big"
                onClick={() => sewView.setState({ round: work.rounds.length - 1 })}
              >
                {phrase('Look at the last round')}
              </button>
            </section>
          ) : (
            <RoundPile project={project} work={work} round={round} turn={turn} colors={colors} />
          )}
          <p className="sew-caution">
            <Icon name="caution" size={16} />{' '}
            {phrase(
              'Slow over pins and take them out before the needle; keep fingers clear of it. Dry, hot iron: unplug it when you leave. Close the cutter after every cut. The makers’ instructions and local rules come first.',
            )}
          </p>
        </div>
        <aside className="sew-side" aria-label={phrase('The work as a whole')}>
          <ChangedBlocks work={work} />
          <section className="sew-card" aria-label={phrase('Progress')}>
            <ProgressPicture project={project} work={work} colors={colors} />
          </section>
          <JoiningList work={work} />
          <QuiltSteps work={work} />
          <WhereList project={project} work={work} />
          <SewPages project={project} work={work} />
          <SewDays work={work} />
          <SewSettings work={work} />
          <button type="button" className="button" onClick={() => setMerging(true)}>
            {phrase('Merge another record …')}
          </button>
          <button type="button" className="button" onClick={() => askPutAway(true)}>
            {phrase('Put the work away …')}
          </button>
        </aside>
      </div>
      {paper !== null && paperIn(work, paper) && (
        <PaperDialog project={project} work={work} paper={paper} colors={colors} />
      )}
      {rehearsed !== null && paperIn(work, rehearsed.paper) && (
        <StepDialog {...rehearsed} project={project} work={work} colors={colors} isSpoken={isSpoken} />
      )}
      {isScanning && <ScanDialog work={work} />}
      {isMerging && <MergeDialog work={work} onClose={() => setMerging(false)} />}
      {isPutAwayAsked && (
        <Dialog title={phrase('Put the work away?')} onClose={() => askPutAway(false)}>
          <p>
            {phrase(
              'What is ticked is forgotten; drawings, plans and fabrics stay. Save the project to a file first if you may want to go on with it.',
            )}
          </p>
          <div className="buttons">
            <button type="button" className="button" data-first-focus onClick={() => askPutAway(false)}>
              {phrase('Keep it')}
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
              {phrase('Put away')}
            </button>
          </div>
        </Dialog>
      )}
    </>
  );
}

/** Opens what the address of the page stands for, as when a printed code was read by a camera app. */
function useAddress(work: Work): void {
  useEffect(() => {
    const read = (): void => {
      if (readCode(location.hash) === null) return;
      const trouble = openCoded(work, location.hash);
      history.replaceState(history.state, '', location.pathname + location.search);
      if (trouble !== null) say('trouble', trouble);
    };
    read();
    addEventListener('hashchange', read);
    return () => removeEventListener('hashchange', read);
  }, [work]);
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

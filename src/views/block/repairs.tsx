import { useEffect, useLayoutEffect, useRef } from 'react';
import { useStore } from 'zustand';
import { proposals, withdraw } from '../../board/proposal.ts';
import type { Block } from '../../document/project.ts';
import type { PiecingPlan } from '../../piecing/plan.ts';
import { type Cure, keepsPicture } from '../../piecing/repairs/cure.ts';
import type { RepairProgress } from '../../piecing/repairs/find-repairs.ts';
import { byHand } from '../../piecing/rules/by-hand.ts';
import { phrase } from '../../words/phrase.ts';
import { pieceOptions } from '../../workspace/present-options.ts';
import {
  lookAgain,
  lookForRepairs,
  type RepairSearch,
  repairSearch,
  stopLooking,
} from '../../workspace/repair-search.ts';
import { session } from '../../workspace/session.ts';
import { Folded } from '../folded.tsx';
import { Icon } from '../icons.tsx';
import { oneStop } from '../one-stop.ts';
import { CureCard, Ways } from './cure-cards.tsx';
import { CureCurve, curveOf, isOnCurve } from './cure-curve.tsx';

/** What has been found for the block as it is shown, and how far the search is. */
export type FoundRepairs = Pick<RepairSearch, 'repairs' | 'state' | 'progress' | 'isLong'>;

const NOT_YET: FoundRepairs = {
  repairs: [],
  state: 'looking',
  progress: { tried: 0, total: 0 },
  isLong: false,
};

/**
 * Looks for repairs of a block whenever the hand rests and its plan is there, in the middle of a gesture too. What was found for any other state of it is
 * not given out.
 */
export function useRepairs(block: Block, isPlanned: boolean): FoundRepairs {
  const search = useStore(repairSearch);
  const options = pieceOptions();
  useEffect(() => (isPlanned ? lookForRepairs(block, options) : undefined), [block, options, isPlanned]);
  // Nothing stays proposed of a drawing that is gone.
  useEffect(
    () => () => {
      if (proposals.getState().shown?.block === block) withdraw();
    },
    [block],
  );
  return search.block === block && search.options === options && isPlanned ? search : NOT_YET;
}

interface RepairsProps {
  readonly block: Block;
  readonly found: FoundRepairs;
  readonly onApply: () => void;
}

/**
 * What would help against something that hurts: each repair in a sentence with what it gains. Pointed at it is shown on
 * the board, pressed it is done. While the search runs the room of the last list is kept, so that nothing moves under
 * the pointer.
 */
export function Repairs({ block, plan, found, onApply }: RepairsProps & { readonly plan: PiecingPlan }) {
  const { repairs, state } = found;
  const lastCount = useRef(1);
  useEffect(() => {
    if (state === 'done') lastCount.current = Math.max(1, repairs.length);
  }, [repairs, state]);
  const { section, hold } = useHeldInPlace(state === 'done');
  const apply = (): void => {
    hold();
    onApply();
  };

  const awaited = state === 'looking' ? Math.max(1, lastCount.current - repairs.length) : 0;
  return (
    <section ref={section} aria-labelledby="repairs-title" aria-busy={state === 'looking'}>
      <h3 id="repairs-title">{phrase('What would help')}</h3>
      <CureList block={block} repairs={repairs} onApply={apply} />
      {awaited > 0 && (
        <div className="repairs" aria-hidden="true">
          {Array.from({ length: awaited }, (_, k) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: bare places without an identity.
            <div key={k} className="repair repair-awaited" />
          ))}
        </div>
      )}
      <SearchLine found={found} />
      {state === 'done' && repairs.length === 0 && <NothingHelps plan={plan} />}
    </section>
  );
}

/** That nothing was found, why, and what a person could do. */
function NothingHelps({ plan }: { readonly plan: PiecingPlan }) {
  const unit = useStore(session, ({ project }) => project.unit);
  const advice = byHand(plan.findings[0]?.code ?? '', unit);
  return (
    <div className="repairs-none">
      <p>
        {phrase(
          'No change that was tried makes this better: each leaves it as it is, or adds a corner to set in, a foundation or another awkward place.',
        )}
      </p>
      {advice !== null && <p>{phrase('By hand: {advice}', { advice })}</p>}
    </div>
  );
}

/**
 * Keeps a list where it is in the window while what stands above it changes: after a press the next press is under the
 * pointer. Where scrolling does not do, room is kept above it until the pointer goes.
 */
function useHeldInPlace(isSettled: boolean) {
  const section = useRef<HTMLElement>(null);
  const top = useRef<number | null>(null);
  useLayoutEffect(() => {
    const element = section.current;
    if (top.current === null || element === null) return;
    element.style.paddingTop = '';
    const scrolled = element.closest('.check-scroll');
    const off = (): number => element.getBoundingClientRect().top - top.current!;
    if (scrolled) scrolled.scrollTop += off();
    if (off() < 0) element.style.paddingTop = `${-off()}px`;
    if (isSettled) top.current = null;
  });
  const hold = (): void => {
    const element = section.current;
    if (element === null) return;
    top.current = element.getBoundingClientRect().top;
    const letGo = (): void => {
      element.style.paddingTop = '';
    };
    element.addEventListener('pointerleave', letGo, { once: true });
  };
  return { section, hold };
}

/**
 * The same where nothing hurts: a chance, folded away. `isAwaited`: its line is there from the beginning and says so when
 * there is no such chance, so that nothing moves when the search is over.
 */
export function Chances({
  block,
  found,
  onApply,
  isAwaited,
}: RepairsProps & { readonly isAwaited: boolean }) {
  const { repairs, state, isLong } = found;
  if (state === 'done' && repairs.length > 0)
    return (
      <Folded
        title={phrase('Could be simpler ({repairs, plural, one {# way} other {# ways}})', {
          repairs: repairs.length,
        })}
      >
        <CureList block={block} repairs={repairs} onApply={onApply} />
      </Folded>
    );
  if (state === 'looking' && isLong) return <SearchLine found={found} />;
  if (state === 'stopped') return <SearchLine found={found} />;
  if (!isAwaited) return null;
  return (
    <p className="soft chances-note">
      {state === 'done'
        ? phrase('No change that was tried makes it simpler.')
        : phrase('Could it be simpler? …')}
    </p>
  );
}

/** How far a search is that takes its time, and a way to stop it; nothing of one that is over in a moment. */
function SearchLine({ found: { state, isLong, progress } }: { readonly found: FoundRepairs }) {
  if (state === 'done' || (state === 'looking' && !isLong)) return null;
  const { tried, total } = progress;
  return (
    <div className="search-line">
      {state === 'looking' ? (
        <>
          <span className="updating">
            <Icon name="updating" size={14} /> {triedWords(progress)}
          </span>
          <progress aria-label={phrase('Repairs tried')} max={Math.max(1, total)} value={tried} />
          <button type="button" className="button" onClick={stopLooking}>
            {phrase('Stop')}
          </button>
        </>
      ) : (
        <>
          <span className="soft" role="status">
            {total === 0 ? phrase('Stopped.') : phrase('Stopped after {tried} of {total}.', { tried, total })}
          </span>
          <button type="button" className="button" onClick={lookAgain}>
            {phrase('Look again')}
          </button>
        </>
      )}
    </div>
  );
}

/** `tried 40 of 120`; when all are tried the best are still made in full. */
function triedWords({ tried, total }: RepairProgress): string {
  if (total === 0) return 'looking';
  return tried < total
    ? phrase('tried {tried} of {total}', { tried, total })
    : phrase('tried all {total}, making sure', { total });
}

/** Cures of a kind that are seen at once; others are folded away. */
const SEEN_AT_ONCE = 3;

/** What keeps the picture, ways to mend it first; then what changes it. */
function CureList({
  block,
  repairs,
  onApply,
}: Pick<RepairsProps, 'block' | 'onApply'> & { readonly repairs: readonly Cure[] }) {
  const ways = repairs.filter(({ kind }) => kind === 'mend');
  const curve = curveOf(repairs);
  const isDrawn = curve.length > 1;
  const rest = repairs.filter((cure) => cure.kind !== 'mend' && !(isDrawn && isOnCurve(cure)));
  const keeping = rest.filter(keepsPicture);
  const changing = rest.filter((cure) => !keepsPicture(cure));
  const listed = (some: readonly Cure[], seen: number) => (
    <>
      <CureCards block={block} cures={some.slice(0, seen)} onApply={onApply} />
      {some.length > seen && (
        <Folded title={phrase('{some} more', { some: some.length - seen })}>
          <CureCards block={block} cures={some.slice(seen)} onApply={onApply} />
        </Folded>
      )}
    </>
  );
  return (
    <>
      {ways.length > 0 && (
        <>
          <h4 className="repairs-title">{phrase('Make it sewable, picture kept')}</h4>
          <Ways block={block} ways={ways} onApply={onApply} />
        </>
      )}
      {keeping.length > 0 && listed(keeping, SEEN_AT_ONCE)}
      {isDrawn && <CureCurve block={block} curve={curve} onApply={onApply} />}
      {changing.length > 0 && (
        <>
          <h4 className="repairs-title">{phrase('By changing the picture')}</h4>
          {listed(changing, SEEN_AT_ONCE)}
        </>
      )}
    </>
  );
}

function CureCards({
  block,
  cures,
  onApply,
}: Pick<RepairsProps, 'block' | 'onApply'> & { readonly cures: readonly Cure[] }) {
  return (
    <ol ref={oneStop} className="repairs">
      {cures.map((cure) => (
        <li key={cure.id}>
          <CureCard block={block} cure={cure} onApply={onApply} />
        </li>
      ))}
    </ol>
  );
}

import { useEffect, useRef } from 'react';
import { useStore } from 'zustand';
import { editEverywhere } from '../../board/board-acts.ts';
import { announce } from '../../board/board-state.ts';
import { leaveProposal, proposals, propose, proposeAndHold, withdraw } from '../../board/proposal.ts';
import { applyRepair } from '../../document/edit-plan.ts';
import type { Block } from '../../document/project.ts';
import { type Cure, keepsPicture } from '../../piecing/repairs/cure.ts';
import type { RepairProgress } from '../../piecing/repairs/find-repairs.ts';
import { gainWords, pictureWords } from '../../piecing/repairs/words.ts';
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
import { countOf } from './counts.ts';

/** What has been found for the block as it is shown, and how far the search is. */
export type FoundRepairs = Pick<RepairSearch, 'repairs' | 'state' | 'progress' | 'isLong'>;

const NOT_YET: FoundRepairs = {
  repairs: [],
  state: 'looking',
  progress: { tried: 0, total: 0 },
  isLong: false,
};

/**
 * Looks for repairs of a block while it is at rest and its plan is there. What was found for any other state of it is
 * not given out.
 */
export function useRepairs(block: Block, isPlanned: boolean): FoundRepairs {
  const isAtRest = useStore(session, ({ draft }) => draft === null) && isPlanned;
  const search = useStore(repairSearch);
  const options = pieceOptions();
  useEffect(() => (isAtRest ? lookForRepairs(block, options) : undefined), [block, options, isAtRest]);
  // Nothing stays proposed of a drawing that is gone.
  useEffect(
    () => () => {
      if (proposals.getState().shown?.block === block) withdraw();
    },
    [block],
  );
  return search.block === block && search.options === options && isAtRest ? search : NOT_YET;
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
export function Repairs({ block, found, onApply }: RepairsProps) {
  const { repairs, state } = found;
  const lastCount = useRef(1);
  useEffect(() => {
    if (state === 'done') lastCount.current = Math.max(1, repairs.length);
  }, [repairs, state]);

  const awaited = state === 'looking' ? Math.max(1, lastCount.current - repairs.length) : 0;
  return (
    <section aria-labelledby="repairs-title" aria-busy={state === 'looking'}>
      <h3 id="repairs-title">What would help</h3>
      <RepairList block={block} repairs={repairs} onApply={onApply} />
      {awaited > 0 && (
        <div className="repairs" aria-hidden="true">
          {Array.from({ length: awaited }, (_, k) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: bare places without an identity.
            <div key={k} className="repair repair-awaited" />
          ))}
        </div>
      )}
      <SearchLine found={found} />
      {state === 'done' && repairs.length === 0 && (
        <p className="soft repairs-none">
          Nothing that was tried makes this better: it adds more that is awkward than it takes away. Sew it
          with care as it is, or move the lines there by hand; the check follows.
        </p>
      )}
    </section>
  );
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
      <Folded title={`Could be simpler (${countOf(repairs.length, 'way')})`}>
        <RepairList block={block} repairs={repairs} onApply={onApply} />
      </Folded>
    );
  if (state === 'looking' && isLong) return <SearchLine found={found} />;
  if (state === 'stopped') return <SearchLine found={found} />;
  if (!isAwaited) return null;
  return (
    <p className="soft chances-note">
      {state === 'done' ? 'No change that was tried makes it simpler.' : 'Could it be simpler? …'}
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
          <progress aria-label="Repairs tried" max={Math.max(1, total)} value={tried} />
          <button type="button" className="button" onClick={stopLooking}>
            Stop
          </button>
        </>
      ) : (
        <>
          <span className="soft" role="status">
            {total === 0 ? 'Stopped.' : `Stopped after ${tried} of ${total}.`}
          </span>
          <button type="button" className="button" onClick={lookAgain}>
            Look again
          </button>
        </>
      )}
    </div>
  );
}

/** `tried 40 of 120`; when all are tried the best are still made in full. */
function triedWords({ tried, total }: RepairProgress): string {
  if (total === 0) return 'looking';
  return tried < total ? `tried ${tried} of ${total}` : `tried all ${total}, making sure`;
}

/** What keeps the picture, then what changes it. */
function RepairList({
  block,
  repairs,
  onApply,
}: Pick<RepairsProps, 'block' | 'onApply'> & { readonly repairs: readonly Cure[] }) {
  const keeping = repairs.filter(keepsPicture);
  const changing = repairs.filter((repair) => !keepsPicture(repair));
  const listed = (some: readonly Cure[]) => (
    <ol className="repairs">
      {some.map((repair) => (
        <li key={repair.id}>
          <RepairCard block={block} repair={repair} onApply={onApply} />
        </li>
      ))}
    </ol>
  );
  return (
    <>
      {keeping.length > 0 && listed(keeping)}
      {changing.length > 0 && (
        <>
          <h4 className="repairs-changing">By changing the picture</h4>
          {listed(changing)}
        </>
      )}
    </>
  );
}

interface RepairCardProps {
  readonly block: Block;
  readonly repair: Cure;
  readonly onApply: () => void;
}

/** With a mouse or the keyboard a press does it; a finger, which cannot point first, is shown it and asked. */
function RepairCard({ block, repair, onApply }: RepairCardProps) {
  const isShown = useStore(
    proposals,
    ({ shown }) => shown !== null && shown.block === block && shown.repair === repair,
  );
  const isHeld = useStore(proposals, (state) => state.isHeld) && isShown;
  const card = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (isHeld) card.current?.scrollIntoView({ block: 'nearest' });
  }, [isHeld]);
  const apply = (): void => {
    withdraw();
    editEverywhere(stepName(repair), (project) => applyRepair(project, block.id, repair.change));
    onApply();
  };
  return (
    <div ref={card} className="repair-card" data-lit={isShown}>
      <button
        type="button"
        className="repair"
        data-lit={isShown}
        onPointerEnter={() => propose(block, repair)}
        onPointerLeave={leaveProposal}
        onFocus={() => propose(block, repair)}
        onBlur={leaveProposal}
        onClick={({ nativeEvent }) => {
          const isByHand =
            nativeEvent instanceof PointerEvent &&
            (nativeEvent.pointerType === 'touch' || nativeEvent.pointerType === 'pen');
          if (!isByHand) apply();
          else if (isHeld) withdraw();
          else {
            proposeAndHold(block, repair);
            announce('Shown on the board. Nothing is changed yet.');
          }
        }}
        onKeyDown={(event) => {
          if (event.key !== 'Escape' || !isShown) return;
          withdraw();
          event.stopPropagation();
        }}
      >
        <Icon name="repair" size={18} />
        <span>
          {repair.sentence}
          <span className="repair-gain">{gainWords(repair)}</span>
          {!keepsPicture(repair) && <span className="repair-gain">{pictureWords(repair)}</span>}
          {repair.after.setInCorners > 0 && (
            <span className="repair-gain">A first step: straight seams won't do yet.</span>
          )}
        </span>
      </button>
      {isHeld && (
        <div className="buttons repair-acts">
          <button type="button" className="button button-main" onClick={apply}>
            Do it
          </button>
          <button type="button" className="button" onClick={withdraw}>
            Leave it as it is
          </button>
        </div>
      )}
    </div>
  );
}

/** What the history calls it: `Draw cut 3 on to cut 5`. */
const stepName = ({ sentence }: Cure): string => sentence.replace(/[:.].*$/, '');

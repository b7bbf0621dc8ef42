import { useEffect, useRef } from 'react';
import { useStore } from 'zustand';
import { proposals, propose } from '../../board/proposal.ts';
import { applyRepair } from '../../document/edit-plan.ts';
import type { Block } from '../../document/project.ts';
import type { Repair } from '../../piecing/repairs/repair.ts';
import { gainWords } from '../../piecing/repairs/words.ts';
import { edit } from '../../workspace/actions.ts';
import { pieceSettings } from '../../workspace/plans.ts';
import { lookForRepairs, repairSearch } from '../../workspace/repair-search.ts';
import { session } from '../../workspace/session.ts';
import { Folded } from '../folded.tsx';
import { Icon } from '../icons.tsx';
import { countOf } from './counts.ts';

/** What has been found for the block as it is shown. */
export interface FoundRepairs {
  readonly repairs: readonly Repair[];
  readonly isSearching: boolean;
}

/**
 * Looks for repairs of a block while it is at rest and its plan is there. What was found for any other state of it is
 * not given out.
 */
export function useRepairs(block: Block, isPlanned: boolean): FoundRepairs {
  const isAtRest = useStore(session, ({ draft }) => draft === null) && isPlanned;
  const search = useStore(repairSearch);
  const settings = pieceSettings();
  useEffect(() => (isAtRest ? lookForRepairs(block, settings) : undefined), [block, settings, isAtRest]);
  const isForThis = search.block === block && search.settings === settings;
  return isForThis && isAtRest
    ? { repairs: search.repairs, isSearching: search.share !== null }
    : { repairs: [], isSearching: true };
}

interface RepairsProps extends FoundRepairs {
  readonly block: Block;
  /** Something is found that hurts: the repairs stand open. Otherwise they wait folded, as a chance. */
  readonly isNeeded: boolean;
  readonly onApply: () => void;
}

/**
 * What would help: each repair in a sentence with what it gains. Pointed at it is shown on the board, pressed it is
 * done. While the search runs the room of the last list is kept, so that nothing moves under the pointer.
 */
export function Repairs({ block, repairs, isSearching, isNeeded, onApply }: RepairsProps) {
  const lastCount = useRef(1);
  useEffect(() => {
    if (!isSearching) lastCount.current = Math.max(1, repairs.length);
  }, [repairs, isSearching]);
  // Nothing stays proposed of a drawing that is gone.
  useEffect(() => () => propose(block, null), [block]);

  if (!isSearching && repairs.length === 0) return null;
  if (!isNeeded) {
    if (isSearching) return null;
    return (
      <Folded title={`Could be simpler (${countOf(repairs.length, 'way')})`}>
        <RepairList block={block} repairs={repairs} onApply={onApply} />
      </Folded>
    );
  }
  return (
    <section aria-labelledby="repairs-title" aria-busy={isSearching}>
      <h3 id="repairs-title">
        What would help
        {isSearching && (
          <span className="updating">
            <Icon name="updating" size={14} /> looking
          </span>
        )}
      </h3>
      {isSearching ? (
        <div className="repairs" aria-hidden="true">
          {Array.from({ length: lastCount.current }, (_, k) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: bare places without an identity.
            <div key={k} className="repair repair-awaited" />
          ))}
        </div>
      ) : (
        <RepairList block={block} repairs={repairs} onApply={onApply} />
      )}
    </section>
  );
}

function RepairList({ block, repairs, onApply }: Pick<RepairsProps, 'block' | 'repairs' | 'onApply'>) {
  return (
    <ol className="repairs">
      {repairs.map((repair) => (
        <li key={repair.id}>
          <RepairButton block={block} repair={repair} onApply={onApply} />
        </li>
      ))}
    </ol>
  );
}

interface RepairButtonProps {
  readonly block: Block;
  readonly repair: Repair;
  readonly onApply: () => void;
}

function RepairButton({ block, repair, onApply }: RepairButtonProps) {
  const isShown = useStore(
    proposals,
    ({ shown }) => shown !== null && shown.block === block && shown.change === repair.change,
  );
  const show = (): void => propose(block, repair.change);
  const hide = (): void => propose(block, null);
  return (
    <button
      type="button"
      className="repair"
      data-lit={isShown}
      onPointerEnter={show}
      onPointerLeave={hide}
      onFocus={show}
      onBlur={hide}
      onClick={() => {
        hide();
        edit(stepName(repair), (project) => applyRepair(project, block.id, repair.change));
        onApply();
      }}
    >
      <Icon name="repair" size={18} />
      <span>
        {repair.sentence}
        <span className="repair-gain">{gainWords(repair)}</span>
      </span>
    </button>
  );
}

/** What the history calls it: `Draw cut 3 on to cut 5`. */
const stepName = ({ sentence }: Repair): string => sentence.replace(/[:.].*$/, '');

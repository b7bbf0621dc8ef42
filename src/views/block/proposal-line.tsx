import { useStore } from 'zustand';
import { proposals } from '../../board/proposal.ts';
import { gainWords } from '../../piecing/repairs/words.ts';
import { phrase } from '../../words/phrase.ts';
import { session, shownBlock } from '../../workspace/session.ts';
import { Icon } from '../icons.tsx';

/** While the board shows what a repair would leave, the line below it says so, and what it gains. */
export function ProposalLine() {
  const block = useStore(session, shownBlock);
  const shown = useStore(proposals, (state) => state.shown);
  if (shown === null || shown.block !== block) return null;
  return (
    <p className="proposal-line" data-testid="proposal-line">
      <Icon name="repair" size={18} />
      <span>
        <b>{phrase('Preview – nothing has changed yet.')}</b> <span>{gainWords(shown.repair)}</span>
      </span>
    </p>
  );
}

import { useEffect } from 'react';
import { useStore } from 'zustand';
import { phrase } from '../words/phrase.ts';
import { dismissNotice } from '../workspace/actions.ts';
import { session } from '../workspace/session.ts';
import { Icon } from './icons.tsx';

/** How long good news stays, ms. Trouble stays until it is dismissed. */
const DONE_MS = 7000;

/** One sentence at the foot of the window. Both live regions are always there, so that a change in them is heard. */
export function NoticeLine() {
  const notice = useStore(session, (state) => state.notice);
  useEffect(() => {
    if (notice?.kind !== 'done') return;
    const timer = setTimeout(dismissNotice, DONE_MS);
    return () => clearTimeout(timer);
  }, [notice]);
  return (
    <div className="notice-place">
      <div role="alert">{notice?.kind === 'trouble' && <Slip kind="trouble" text={notice.text} />}</div>
      <div role="status">{notice?.kind === 'done' && <Slip kind="done" text={notice.text} />}</div>
    </div>
  );
}

function Slip({ kind, text }: { readonly kind: 'trouble' | 'done'; readonly text: string }) {
  return (
    <div className={`notice notice-${kind}`}>
      <Icon name={kind === 'trouble' ? 'trouble' : 'good'} />
      <p>{text}</p>
      <button type="button" className="icon-button" aria-label={phrase('Dismiss')} onClick={dismissNotice}>
        <Icon name="close" size={16} />
      </button>
    </div>
  );
}

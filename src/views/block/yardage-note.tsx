import { useEffect } from 'react';
import { useStore } from 'zustand';
import { toBuy } from '../../cutting/lengths.ts';
import { slackOf } from '../../cutting/project-cutting.ts';
import { boughtWords } from '../../cutting/sums.ts';
import { phrase } from '../../words/phrase.ts';
import { goTo } from '../../workspace/actions.ts';
import { cuttings, followCutting } from '../../workspace/cutting-client.ts';
import { onceShown } from '../../workspace/first-screen.ts';
import { session } from '../../workspace/session.ts';

/** How much of the fabric in hand is needed, as the drawing stands; it leads to what is cut from it. */
export function YardageNote({ fabric }: { readonly fabric: string }) {
  // A first answer is enough here; the strips are made shorter where they are looked at.
  useEffect(() => onceShown(() => followCutting('quick')), []);
  const length = useStore(
    cuttings,
    (state) => state.sum?.fabrics.find((one) => one.fabric === fabric)?.length ?? 0,
  );
  const project = useStore(session, (state) => state.project);
  if (length === 0) return null;
  return (
    <p className="soft fabric-note">
      {phrase('About {boughtWords} to buy.', {
        boughtWords: boughtWords(toBuy(length, slackOf(project)), project.unit),
      })}{' '}
      <button type="button" className="yardage-link" onClick={() => goTo('fabric')}>
        {phrase('What to cut')}
      </button>
    </p>
  );
}

import { useStore } from 'zustand';
import type { SettingKind } from '../../document/quilt.ts';
import { phrase } from '../../words/phrase.ts';
import { goTo } from '../../workspace/actions.ts';
import { session } from '../../workspace/session.ts';
import { firstSetting, setQuilt } from './quilt-acts.ts';

const BEGINNINGS: readonly (readonly [SettingKind, string])[] = [
  ['straight', phrase('Straight rows')],
  ['on-point', phrase('On point')],
  ['mixed', phrase('Mixed sizes')],
];

/** What to do where no block lies yet. */
export function EmptyQuilt() {
  const project = useStore(session, (state) => state.project);
  const hasBlocks = project.blocks.length > 0;
  return (
    <div className="quilt-empty">
      <h2>{hasBlocks ? phrase('Set your blocks into a quilt') : phrase('A quilt is set from blocks')}</h2>
      {hasBlocks ? (
        <>
          <p>
            {phrase(
              'Begin with a setting and change it as you like, or drag a block from the tray and lay them free.',
            )}
          </p>
          <div className="buttons">
            {BEGINNINGS.map(([kind, words], k) => (
              <button
                key={kind}
                type="button"
                className={k === 0 ? 'button button-main' : 'button'}
                onClick={() => setQuilt(phrase('Set a quilt'), firstSetting(project, kind), [])}
              >
                {words}
              </button>
            ))}
          </div>
        </>
      ) : (
        <>
          <p>{phrase('Draw one, or take one from the shelf, and come back here.')}</p>
          <button type="button" className="button button-main" onClick={() => goTo('block')}>
            {phrase('Draw a block')}
          </button>
        </>
      )}
    </div>
  );
}

import { useStore } from 'zustand';
import type { SettingKind } from '../../document/quilt.ts';
import { goTo } from '../../workspace/actions.ts';
import { session } from '../../workspace/session.ts';
import { firstSetting, setQuilt } from './quilt-acts.ts';

const BEGINNINGS: readonly (readonly [SettingKind, string])[] = [
  ['straight', 'Straight rows'],
  ['on-point', 'On point'],
  ['mixed', 'Mixed sizes'],
];

/** What to do where no block lies yet. */
export function EmptyQuilt() {
  const project = useStore(session, (state) => state.project);
  const hasBlocks = project.blocks.length > 0;
  return (
    <div className="quilt-empty">
      <h2>{hasBlocks ? 'Set your blocks into a quilt' : 'A quilt is set from blocks'}</h2>
      {hasBlocks ? (
        <>
          <p>
            Begin with a setting and change it as you like, or drag a block from the tray and lay them free.
          </p>
          <div className="buttons">
            {BEGINNINGS.map(([kind, words], k) => (
              <button
                key={kind}
                type="button"
                className={k === 0 ? 'button button-main' : 'button'}
                onClick={() => setQuilt('Set a quilt', firstSetting(project, kind), [])}
              >
                {words}
              </button>
            ))}
          </div>
        </>
      ) : (
        <>
          <p>Draw one, or take one from the shelf, and come back here.</p>
          <button type="button" className="button button-main" onClick={() => goTo('block')}>
            Draw a block
          </button>
        </>
      )}
    </div>
  );
}

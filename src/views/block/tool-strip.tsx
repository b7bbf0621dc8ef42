import { useStore } from 'zustand';
import { board } from '../../board/board-state.ts';
import { takeUp } from '../../board/tool-in-hand.ts';
import { TOOLS } from '../../board/tools/tools.ts';
import { phrase } from '../../words/phrase.ts';
import { Icon } from '../icons.tsx';
import { HeldKeys } from './held-keys.tsx';

/** The tools, one in hand. */
export function ToolStrip() {
  const inHand = useStore(board, (state) => state.tool);
  return (
    <div className="tool-strip" role="toolbar" aria-label={phrase('Tools')} aria-orientation="vertical">
      {TOOLS.map(({ name, label, key, hint }) => (
        <button
          key={name}
          type="button"
          className="tool"
          aria-pressed={name === inHand}
          aria-label={`${label} (${key})`}
          title={`${label} (${key}): ${hint}`}
          onClick={() => takeUp(name)}
        >
          <Icon name={name} size={22} />
        </button>
      ))}
      <HeldKeys at="strip" />
    </div>
  );
}

import { useStore } from 'zustand';
import { BOARD_COMMANDS } from '../../board/board-commands.ts';
import { board } from '../../board/board-state.ts';
import { keyText } from '../../workspace/command.ts';
import { session } from '../../workspace/session.ts';
import { oneStop } from '../one-stop.ts';
import { isMac } from '../platform.ts';

interface WorkListProps {
  readonly about: 'chosen' | 'block';
  /** Names of commands that stand beside the list already. */
  readonly except?: readonly string[];
}

/** Everything that can be done now with what is chosen, or with the whole block, as one press each. */
export function WorkList({ about, except = [] }: WorkListProps) {
  // What is enabled hangs on these.
  useStore(session, (state) => state.selection);
  useStore(session, (state) => state.project);
  useStore(board, (state) => state.chosen);
  const state = session.getState();
  const commands = BOARD_COMMANDS.filter(
    (one) => one.about === about && one.enabled(state) && !except.includes(one.name),
  ).toSorted((a, b) => Number(b.name.startsWith('form-')) - Number(a.name.startsWith('form-')));
  return (
    <ul ref={oneStop} className="work-list">
      {commands.map(({ name, label, keys, run }) => (
        <li key={name}>
          <button type="button" className="work" onClick={run}>
            <span>{label(state)}</span>
            {keys[0] !== undefined && <kbd>{keyText(keys[0], isMac())}</kbd>}
          </button>
        </li>
      ))}
    </ul>
  );
}

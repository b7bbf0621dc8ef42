import { useId } from 'react';
import { useStore } from 'zustand';
import { setOnePatch } from '../../board/board-acts.ts';
import { board } from '../../board/board-state.ts';
import { type GridKind, gridKindFor } from '../../editing/grid.ts';
import { SYMMETRIES, type Symmetry } from '../../editing/symmetry.ts';
import { phrase } from '../../words/phrase.ts';
import { command } from '../../workspace/commands.ts';
import { session, shownBlock } from '../../workspace/session.ts';
import { Choice } from '../choice.tsx';
import { HeldKeys } from './held-keys.tsx';
import { LineLegend } from './line-legend.tsx';

const REACHES = [
  ['6', phrase('Light, 6 px')],
  ['10', phrase('Normal, 10')],
  ['16', phrase('Strong, 16')],
] as const;

const GRIDS: readonly (readonly [GridKind, string])[] = [
  ['square', phrase('Square')],
  ['sixty', '60°'],
];

const SPANS = [
  ['through', phrase('Through everything')],
  ['patch', phrase('One patch')],
] as const;

/** What helps while drawing: symmetry, how far cuts go, the grid's kind, how strongly things catch the pointer. */
export function DrawingAids() {
  const id = useId();
  const symmetryId = useId();
  const symmetry = useStore(board, (state) => state.symmetry);
  const onePatch = useStore(board, (state) => state.onePatch);
  const outline = useStore(session, (state) => shownBlock(state)?.outline ?? null);
  const chosenKind = useStore(board, (state) => state.gridKind);
  const gridKind = chosenKind ?? (outline === null ? 'square' : gridKindFor(outline));
  const reachPx = useStore(board, (state) => state.reachPx);
  const divisions = useStore(board, (state) => state.divisions.length);
  const steps = useStore(board, (state) => state.steps);
  const adds = useStore(board, (state) => state.adds);
  const free = useStore(board, (state) => state.free);
  const inUse = [
    ...(symmetry === 'none' ? [] : ['symmetry']),
    ...(onePatch ? [phrase('one patch')] : []),
    ...(gridKind === 'sixty' ? ['60°'] : []),
    ...(steps ? ['15° steps'] : []),
    ...(adds ? ['adding'] : []),
    ...(free ? ['free'] : []),
  ];
  return (
    <>
      <button type="button" className="aids-button" popoverTarget={id} data-on={inUse.length > 0}>
        {phrase('Aids')}
        {inUse.length > 0 && (
          <span>
            {phrase(': {inUse, plural, one {{inUse2}} other {{inUse} on}}', {
              inUse: inUse.length,
              inUse2: inUse[0],
            })}
          </span>
        )}
      </button>
      <div id={id} popover="auto" className="menu aids">
        <div className="number-field">
          <label htmlFor={symmetryId}>{phrase('Symmetry (S)')}</label>
          <select
            id={symmetryId}
            value={symmetry}
            onChange={(event) => board.setState({ symmetry: event.target.value as Symmetry })}
          >
            {SYMMETRIES.map(([value, label]) => (
              <option key={value} value={value}>
                {label}
              </option>
            ))}
          </select>
        </div>
        <Choice
          label={phrase('Lines go (X)')}
          options={SPANS}
          value={onePatch ? 'patch' : 'through'}
          onChoose={(span) => setOnePatch(span === 'patch')}
        />
        <Choice
          label={phrase('Grid (G)')}
          options={GRIDS}
          value={gridKind}
          onChoose={(kind) => board.setState({ gridKind: kind })}
        />
        <Choice
          label={phrase('Snapping')}
          options={REACHES}
          value={REACHES.find(([px]) => Number(px) === reachPx)?.[0] ?? null}
          onChoose={(px) => board.setState({ reachPx: Number(px) })}
        />
        <HeldKeys at="aids" />
        <LayPicture />
        <LineLegend />
        {divisions > 0 && (
          <button type="button" className="button" onClick={() => board.setState({ divisions: [] })}>
            {phrase('Take the {divisions} marked spots away', { divisions })}
          </button>
        )}
      </div>
    </>
  );
}

/** A picture is an aid too: chosen here, it is squared up in a dialog. */
function LayPicture() {
  const { label, run } = command('lay-picture');
  const isEnabled = useStore(session, command('lay-picture').enabled);
  const text = useStore(session, label);
  if (!isEnabled) return null;
  return (
    <button
      type="button"
      className="button"
      onClick={(event) => {
        event.currentTarget.closest<HTMLElement>('[popover]')?.hidePopover();
        void run();
      }}
    >
      {text}
    </button>
  );
}

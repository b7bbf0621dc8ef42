import { useId } from 'react';
import { useStore } from 'zustand';
import { board } from '../../board/board-state.ts';
import { send } from '../../board/tool-in-hand.ts';
import type { ChainCurve } from '../../editing/chain.ts';
import { phrase } from '../../words/phrase.ts';

const CURVES: readonly (readonly [ChainCurve, string])[] = [
  ['straight', phrase('Straight')],
  ['arcs', phrase('Arcs')],
  ['rounded', phrase('Rounded')],
];

const LEGS = [2, 3, 4, 5, 6, 8, 10, 12];

/** While the Chain tool is in hand: how it goes from place to place, and what a finger has no keys for. */
export function ChainChoice() {
  const isInHand = useStore(board, ({ tool }) => tool === 'chain');
  return isInHand ? <OpenChoice /> : null;
}

function OpenChoice() {
  const id = useId();
  const { curve, legs } = useStore(board, (state) => state.chain);
  const isRunning = useStore(board, ({ marks }) => marks.some(({ kind }) => kind === 'run'));
  return (
    <fieldset className="tool-options">
      <legend className="only-heard">{phrase('Chain')}</legend>
      <select
        aria-label={phrase('Way from place to place')}
        value={curve}
        onChange={(event) => board.setState({ chain: { curve: event.target.value as ChainCurve, legs } })}
      >
        {CURVES.map(([value, label]) => (
          <option key={value} value={value}>
            {label}
          </option>
        ))}
      </select>
      {curve !== 'straight' && (
        <label className="grid-choice" htmlFor={id}>
          <span>{phrase('in')}</span>
          <select
            id={id}
            value={legs}
            onChange={(event) => board.setState({ chain: { curve, legs: Number(event.target.value) } })}
          >
            {LEGS.map((count) => (
              <option key={count} value={count}>
                {phrase('{count} lines', { count })}
              </option>
            ))}
          </select>
        </label>
      )}
      {isRunning && (
        <>
          <button type="button" className="aids-button" onClick={() => send({ kind: 'back' })}>
            {phrase('Take back')}
          </button>
          <button type="button" className="aids-button" onClick={() => send({ kind: 'finish' })}>
            {phrase('End')}
          </button>
        </>
      )}
    </fieldset>
  );
}
